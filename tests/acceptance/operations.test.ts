import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { must } from "./openDocument.ts";
import { doubts, turnedPlate, withChosen } from "./turnedPlate.ts";

/** All is worked out by hand from the doubts of the plate: independent sources in quadrature, common ones with their signs first (JCGM 100, 5.2.2). */
function finished(document: SetupDocument, view: "thisPart" | "batch" = "batch") {
  const evaluation = evaluateOperations(document);
  if (evaluation === undefined) throw new Error("expected operations");
  expect(evaluation.problems).toEqual([]);
  return (id: string) => {
    const found = evaluation.finished[view].characteristics.find((each) => each.id === id);
    return must((found ?? { stack: { ok: false, problems: [] } }).stack);
  };
}

/** Operation 20 touches the bore and the bottom alone. */
function withoutFaces(document: SetupDocument): SetupDocument {
  return {
    ...document,
    touches: document.touches.filter(({ operation, element }) => operation === "10" || element === "bore" || element === "bottom"),
    strategies: document.strategies.filter(({ id }) => id === "corner" || id === "bore"),
  };
}

const u = (stack: { readonly components: readonly { readonly standardUncertainty: number }[] }) =>
  stack.components.map(({ standardUncertainty }) => standardUncertainty);
const { scatter: s, radius, length, cut, width, thickness } = doubts;

describe.each(["turned over about X", "turned over about Y"] as const)("a plate %s between two operations", (lies) => {
  const plate = turnedPlate(lies);

  it.each(["thisPart", "batch"] as const)("every characteristic is as the drawing has it at the best estimates, %s", (view) => {
    const stack = finished(plate, view);
    for (const { id } of plate.part.characteristics) expect(stack(id).deviation).toBeCloseTo(0, 9);
  });

  it("the bore off the left face: one touch, the radius once, the cut", () => {
    expect(u(finished(plate)("bore to left"))[0]).toBeCloseTo(Math.hypot(s, radius, cut), 9);
  });

  it.each(["thisPart", "batch"] as const)(
    "a hole set on the bore: two touches to either side, its own cut; the first operation and the radius cancel, %s",
    (view) => {
      const expected = Math.hypot(s / Math.SQRT2, cut);
      expect(u(finished(plate, view)("hole on bore"))[0]).toBeCloseTo(expected, 9);
      expect(u(finished(plate, view)("hole on bore"))[1]).toBeCloseTo(expected, 9);
    },
  );

  it("a hole set on the same face as the bore: a touch and a cut each, the radius cancels", () => {
    const stack = finished(withChosen(plate, "20", "left again"))("hole off bore");
    expect(u(stack)[0]).toBeCloseTo(Math.hypot(s, s, cut, cut), 9);
  });

  it("a hole set on the opposite face: the width comes in with all of it, the radius twice", () => {
    const stack = finished(withChosen(plate, "20", "right"))("hole off bore");
    expect(u(stack)[0]).toBeCloseTo(Math.hypot(s, s, cut, cut, 2 * radius, width / 3), 9);
  });

  it("a hole in the drawing's frame, set on the bore: both operations' errors", () => {
    // Bore: one touch, radius, cut. Hole on it: two touches, its cut.
    expect(u(finished(plate)("hole"))[0]).toBeCloseTo(Math.hypot(s, radius, cut, s / Math.SQRT2, cut), 9);
  });

  it("the web between top and pocket: the thickness as received, a touch and a cut each, the length of the tool twice", () => {
    expect(u(finished(plate)("web"))[0]).toBeCloseTo(Math.hypot(thickness / 3, s, s, cut, cut, 2 * length), 9);
  });
});

it("a bore that was cut 0.02 astray is followed by what is set on it, which is then astray on the drawing", () => {
  const plate = turnedPlate();
  const whatIf = [{ source: "element bore, process X", shift: String(0.02 / cut), doubt: "" }] as SetupDocument["whatIf"];
  const stack = finished(withoutFaces({ ...plate, whatIf }), "thisPart");
  expect(stack("bore to left").deviation).toBeCloseTo(0.02, 9);
  expect(stack("hole on bore").deviation).toBeCloseTo(0, 9);
  expect(stack("hole").deviation).toBeCloseTo(0.02, 9);
});

it("touches of the second operation that find the bore against the faces measure where it is", () => {
  const whatIf = [{ source: "element bore, process X", shift: String(0.02 / cut), doubt: "" }] as SetupDocument["whatIf"];
  // The readings put it at 20.000 all the same.
  expect(finished({ ...turnedPlate(), whatIf }, "thisPart")("hole").deviation).toBeCloseTo(0, 9);
});

describe("datums that an operation cuts", () => {
  /** The drawing's frame along X is the bore's, which operation 10 cuts. */
  const plate = turnedPlate();
  const lettered: SetupDocument = {
    ...plate,
    part: { ...plate.part, elements: plate.part.elements.map((each) => (each.id === "bore" ? { ...each, datum: "A" } : each)) },
  };

  it("a hole set on the datum bore carries the errors of its own operation alone", () => {
    expect(u(finished(lettered)("hole"))[0]).toBeCloseTo(Math.hypot(s / Math.SQRT2, cut), 9);
  });

  it("a hole set on the face as received carries the bore's as well: the radius cancels", () => {
    expect(u(finished(withChosen(lettered, "20", "left again"))("hole"))[0]).toBeCloseTo(Math.hypot(s, s, cut, cut), 9);
  });
});

describe("an operation's place in the order", () => {
  it("two operations that touch nothing of each other may change places", () => {
    const plate = withChosen(turnedPlate(), "20", "left again");
    const swapped = { ...plate, operations: [...plate.operations].reverse() };
    const named = (document: SetupDocument) => ({
      ...document,
      touches: document.touches.filter(({ element }) => element !== "bore"),
      strategies: document.strategies.filter(({ id }) => id !== "bore"),
    });
    const [before, after] = [finished(named(plate)), finished(named(swapped))];
    for (const id of ["bore to left", "hole off bore", "web", "hole"]) expect(u(after(id))[0]).toBeCloseTo(u(before(id))[0] as number, 12);
  });

  it("a touch of what is only cut later is told at its place", () => {
    const plate = turnedPlate();
    const early = { ...plate, touches: plate.touches.map((each) => (each.id === "left 10" ? { ...each, element: "hole" } : each)) };
    const told = evaluateOperations(early)?.problems.find(({ at }) => at === "touches.left 10.element");
    expect(told?.what).toContain("only cut in operation 20");
  });

  it("an unknown operation is told where it is named", () => {
    const plate = turnedPlate();
    const lost = { ...plate, touches: plate.touches.map((each) => (each.id === "left 10" ? { ...each, operation: "11" } : each)) };
    expect(evaluateOperations(lost)?.problems.find(({ at }) => at === "touches.left 10.operation")?.remedy).toBeDefined();
  });

  it("without a strategy in use nothing of an operation is known to a later one", () => {
    const { problems, finished: part } = evaluateOperations(withChosen(turnedPlate(), "10", "")) as NonNullable<
      ReturnType<typeof evaluateOperations>
    >;
    expect(problems.some(({ at }) => at === "operations.10")).toBe(true);
    expect(part.batch.characteristics.filter(({ stack }) => stack.ok).map(({ id }) => id)).toEqual([]);
  });
});
