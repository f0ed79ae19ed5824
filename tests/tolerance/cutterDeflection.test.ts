import { expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { must } from "../acceptance/openDocument.ts";
import { turnedPlate } from "../acceptance/turnedPlate.ts";

function stackOf(document: SetupDocument, id: string) {
  const found = evaluateOperations(document)?.finished.batch.characteristics.find((each) => each.id === id);
  return must(found?.stack as NonNullable<typeof found>["stack"]);
}

function yielding(element: string, deflection: string): SetupDocument {
  const plate = turnedPlate();
  return {
    ...plate,
    part: { ...plate.part, elements: plate.part.elements.map((each) => (each.id === element ? { ...each, deflection } : each)) },
  };
}

// Anything from 0 to d, equally likely: d/2 is expected, with the standard deviation d/√12 (JCGM 100:2008, 4.3.8, note).
it.each(["top", "pocket"])(
  "a cutter that yields at the %s leaves the web thicker, in an operation with the part as drawn or turned over",
  (element) => {
    const [rigid, soft] = [stackOf(turnedPlate(), "web"), stackOf(yielding(element, "0.02"), "web")];
    expect(soft.deviation).toBeCloseTo(0.01, 9);
    const variance = (stack: typeof soft) => (stack.components[0]?.standardUncertainty as number) ** 2;
    expect(variance(soft) - variance(rigid)).toBeCloseTo(0.02 ** 2 / 12, 10);
  },
);

it("a bore is cut on all sides alike", () => {
  expect(stackOf(yielding("hole", "0.02"), "hole off bore").deviation).toBeCloseTo(0, 9);
});

it("an amount below nothing is refused at its place", () => {
  const problems = evaluateOperations(yielding("top", "-0.02"))?.problems ?? [];
  expect(problems.map(({ at }) => at)).toContain("part.elements.top.deflection");
});
