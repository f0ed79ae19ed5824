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

// s·√(1 + 1/4) with s = 0.005, the mean of the touch's four readings against one new one; twice that is its limit (k = 2 of a normal law at 95.45 %).
it("recordChecks prints the limits of one new reading, however many a check has", () => {
  const [check] = recorded((plate) => plate.checks.push(typedCheck("left", "-412.611 -412.615 -412.607 -412.611"))).slice(-1);
  expect(((check?.upper ?? 0) - (check?.lower ?? 0)) / 2).toBeCloseTo(2 * 0.005 * Math.sqrt(1 + 1 / 4), 6);
});
