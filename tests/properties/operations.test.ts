import fc from "fast-check";
import { expect, it } from "vitest";
import type { Vector } from "../../lib/base/vector.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { axisSigns, partLies, turnedDirection, turnedPlace } from "../../lib/part/partLies.ts";
import { doubts, turnedPlate, withChosen } from "../acceptance/turnedPlate.ts";
import { must } from "./setups.ts";

const length = fc.double({ min: -500, max: 500, noNaN: true });
const lies = fc.constantFrom(...partLies);
const direction = fc.constantFrom("+X", "-X", "+Y", "-Y", "+Z", "-Z");

it("turning a part over twice is nothing", () => {
  fc.assert(
    fc.property(lies, length, length, length, direction, (how, x, y, z, along) => {
      const signs = axisSigns(how);
      const place: Vector = [x + 0, y + 0, z + 0];
      expect(turnedPlace(turnedPlace(place, signs), signs)).toEqual(place.map((value) => value || 0));
      expect(turnedDirection(turnedDirection(along, signs), signs)).toBe(along);
    }),
  );
});

it("a turned part is the same part: no mirror image", () => {
  fc.assert(
    fc.property(lies, (how) => {
      const [x, y, z] = axisSigns(how);
      expect(x * y * z).toBe(1);
    }),
  );
});

it("turned over about X and then about Y is turned half round about Z", () => {
  const [about, then] = [axisSigns("turned over about X"), axisSigns("turned over about Y")];
  expect(about.map((sign, axis) => sign * (then[axis] as number))).toEqual(axisSigns("turned half round about Z"));
});

type View = "thisPart" | "batch";

function uncertaintiesOf(document: SetupDocument, view: View): Map<string, readonly number[]> {
  const operated = evaluateOperations(document);
  if (operated === undefined) throw new Error("expected operations");
  return new Map(
    operated.finished[view].characteristics.map(({ id, stack }) => [
      id,
      must(stack).components.map(({ standardUncertainty }) => standardUncertainty),
    ]),
  );
}

const moved = (document: SetupDocument, operation: string, by: Vector): SetupDocument => ({
  ...document,
  touches: document.touches.map((touch) => {
    if (touch.operation !== operation) return touch;
    const axis = "XYZ".indexOf(touch.travelling[1] as string);
    const at = (["x", "y", "z"] as const).map((name, i) => (touch[name] === "" ? "" : String(Number(touch[name]) + (by[i] as number))));
    return {
      ...touch,
      readings: String(Number(touch.readings) + (by[axis] as number)),
      x: at[0] as string,
      y: at[1] as string,
      z: at[2] as string,
    };
  }),
});

it("where the part lies in the machine in either operation changes nothing of the finished part", () => {
  fc.assert(
    fc.property(
      fc.tuple(length, length, length),
      fc.constantFrom("10", "20"),
      fc.constantFrom("turned over about X" as const, "turned over about Y" as const),
      fc.constantFrom<View>("thisPart", "batch"),
      (by, operation, how, view) => {
        const plate = turnedPlate(how);
        const [here, there] = [uncertaintiesOf(plate, view), uncertaintiesOf(moved(plate, operation, by), view)];
        for (const [id, components] of here) for (const [i, u] of components.entries()) expect(there.get(id)?.[i]).toBeCloseTo(u, 9);
      },
    ),
    { numRuns: 12 },
  );
});

it("about which axis a part is turned over makes no difference to what its two sides have to do with each other", () => {
  fc.assert(
    fc.property(fc.constantFrom("bore", "left again", "right"), fc.constantFrom<View>("thisPart", "batch"), (chosen, view) => {
      const [x, y] = (["turned over about X", "turned over about Y"] as const).map((how) =>
        uncertaintiesOf(withChosen(turnedPlate(how), "20", chosen), view),
      );
      for (const [id, components] of x as Map<string, readonly number[]>)
        for (const [i, u] of components.entries()) expect(y?.get(id)?.[i]).toBeCloseTo(u, 9);
    }),
    { numRuns: 6 },
  );
});

it("what both operations share cancels: however doubtful the radius, a hole set on the bore or on the same face follows the bore alike", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 0.5, noNaN: true }), fc.constantFrom("bore", "left again"), (radiusUncertainty, chosen) => {
      const plate = withChosen(turnedPlate(), "20", chosen);
      const doubtful = { ...plate, tools: plate.tools.map((tool) => ({ ...tool, radiusUncertainty: radiusUncertainty.toFixed(6) })) };
      expect(uncertaintiesOf(doubtful, "batch").get("hole off bore")?.[0]).toBeCloseTo(
        uncertaintiesOf(plate, "batch").get("hole off bore")?.[0] as number,
        9,
      );
    }),
    { numRuns: 10 },
  );
});

it("an operation is never better known for what came before it: a hole is at least as doubtful as its own touches and cut", () => {
  const least = Math.hypot(doubts.scatter / Math.SQRT2, doubts.cut);
  for (const chosen of ["bore", "left again", "right"]) {
    expect(uncertaintiesOf(withChosen(turnedPlate(), "20", chosen), "batch").get("hole")?.[0]).toBeGreaterThanOrEqual(least);
  }
});
