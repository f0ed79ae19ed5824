import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { lookForSlips } from "../../lib/slips/lookForSlips.ts";
import { type Plate, plateDocument } from "./plate.ts";

type Log = { offsets: object[] };

/** Nothing is touched twice, and no size is known otherwise: without more evidence nothing can disagree. */
const justEnough = (plate: Plate) => {
  plate.touches = plate.touches.filter(({ id }) => ["left", "front", "top"].includes(id));
};

function looked(change: (plate: Plate & Log) => void) {
  const evaluation = evaluateSetup(
    plateDocument((plate) => {
      justEnough(plate);
      const logged = Object.assign(plate, { offsets: [] as object[] });
      change(logged);
    }),
  );
  const inUse = evaluation.strategies.find(({ id }) => id === "corner on C")?.evaluation;
  return { evaluation, report: lookForSlips(evaluation, inUse?.ok ? inUse.value : undefined) };
}

// The zero of the scenario: -409.61325, -251.33775, -388.250333 (expected values of an independent program).
const earlier = {
  id: "yesterday",
  kind: "measured zero",
  register: "G54",
  x: "-409.612 mm ± 0.004 mm",
  y: "-251.339 mm ± 0.004 mm",
  z: "-388.251 mm ± 0.005 mm",
};
const independent = { ...earlier, rests: "on other touches" };
/** The diameter in the place of the radius of 2.998 mm. */
const diameter = (plate: Plate) => {
  const finder = plate.tools.find(({ id }) => id === "edge finder");
  if (finder) finder["radius"] = "5.996";
};

describe("an earlier zero of the log", () => {
  it("that rests on other touches and agrees is no reason to look", () => {
    expect(looked((plate) => plate.offsets.push(independent)).report.disagreement).toBeUndefined();
  });

  it("shows a radius that is a diameter, where nothing else could", () => {
    expect(looked(diameter).report.disagreement).toBeUndefined();
    const { disagreement } = looked((plate) => {
      diameter(plate);
      plate.offsets.push(independent);
    }).report;
    expect(disagreement?.discrepancies.map(({ name }) => name)).toContain('zero X by "corner on C" beside the earlier one, "yesterday"');
    // X and Y are both off by the same 2.998 mm (F = R + r): no single other slip does that.
    expect(disagreement?.explanations[0]?.slips).toEqual([
      expect.objectContaining({ kind: "radius or diameter", at: "tools.edge finder.radius" }),
    ]);
  });

  it.each([
    ["nobody says what it rests on", earlier],
    ["it rests on the touches here", { ...earlier, rests: "on the touches here" }],
    ["it stands in another register", { ...independent, register: "G55" }],
    ["its doubt is not stated", { ...independent, x: "-409.612", y: "-251.339", z: "-388.251" }],
  ])("is no evidence where %s", (_, row) => {
    const { report } = looked((plate) => {
      diameter(plate);
      plate.offsets.push(row);
    });
    expect(report.disagreement).toBeUndefined();
  });

  it("may be what is wrong itself", () => {
    const { disagreement } = looked((plate) => plate.offsets.push({ ...independent, x: "-409.112 mm ± 0.004 mm" })).report;
    const told = disagreement?.explanations.flatMap(({ slips }) => slips.map(({ at, words }) => `${at}: ${words}`)) ?? [];
    expect(told).toContain('offsets.yesterday.x: the earlier zero X of "yesterday" is off, or the part has moved since');
  });

  it("is refused where a row that is no measured zero says what it rests on", () => {
    const { evaluation } = looked((plate) => plate.offsets.push({ id: "shift", kind: "global shift", x: "1", rests: "on other touches" }));
    expect(evaluation.problems.map(describeProblem).join("\n")).toContain("offsets.shift.rests: a global shift rests on no touches");
  });
});
