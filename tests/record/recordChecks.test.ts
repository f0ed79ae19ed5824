import { expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { recordChecks } from "../../lib/record/recordChecks.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { type Plate, plateDocument, typedCheck } from "../slips/plate.ts";

function recorded(change: (plate: Plate) => void) {
  const evaluation = evaluateSetup(plateDocument(change));
  return recordChecks(evaluation, strategyInUse(evaluation)?.evaluation);
}

// The corner of the plate rests on left, front and top; right and back were touched besides.
it("recordChecks tells of touched faces as well whether the zero rests on them", () => {
  const rests = recorded(() => undefined).map(({ name, restsOn }) => [name, restsOn]);
  expect(rests).toEqual([
    ["left", true],
    ["right", false],
    ["front", true],
    ["back", false],
    ["top", true],
  ]);
});

it("recordChecks keeps a check that is called like a touch, under a name of its own", () => {
  const names = recorded((plate) => {
    plate.tools.push({ id: "pin", kind: "tool or pin", radius: "5", radiusUncertainty: "0.004", scatter: "0" });
    plate.checks.push({ ...typedCheck("left", ""), tool: "pin" });
  }).map(({ name, tool }) => [name, tool]);
  expect(names).toContainEqual(["left", "edge finder"]);
  expect(names).toContainEqual(["left, check", "pin"]);
});

// The finder's face (mean of four, radius, late trigger), the pin's radius and its own scatter of 0.006, once: twice that is the limit (k = 2 of a normal law at
// 95.45 %; the late trigger is rectangular, and the law of the sum nearly normal).
it("recordChecks prints the limits of one new reading, however many a check has", () => {
  const halfWidth = (readings: string) => {
    const [check] = recorded((plate) => {
      plate.tools.push({ id: "pin", kind: "tool or pin", radius: "5", radiusUncertainty: "0.004", scatter: "0.006" });
      plate.checks.push({ ...typedCheck("left", readings), tool: "pin" });
    }).slice(-1);
    return ((check?.upper ?? 0) - (check?.lower ?? 0)) / 2;
  };
  const one = 2 * Math.hypot(0.005 / 2, 0.0015, 0.006 / Math.sqrt(3), 0.004, 0.006);
  expect(halfWidth("-414.613")).toBeCloseTo(one, 4);
  expect(halfWidth("-414.613 -414.610 -414.616 -414.613")).toBeCloseTo(halfWidth("-414.613"), 9);
});

it("recordChecks tells a check that is the same touch again once", () => {
  const names = recorded((plate) => plate.checks.push(typedCheck("left", "-412.611"))).map(({ name }) => name);
  expect(names).toEqual(["left", "right", "front", "back", "top"]);
});
