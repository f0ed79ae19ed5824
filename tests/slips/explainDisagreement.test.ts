import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { explainDisagreement } from "../../lib/slips/explain/explainDisagreement.ts";
import { type Plate, plateDocument, typedCheck } from "./plate.ts";

const explained = (change: (plate: Plate) => void) => {
  const evaluation = evaluateSetup(plateDocument(change));
  expect(evaluation.problems).toEqual([]);
  const offset = evaluation.strategies.find(({ id }) => id === "corner on C")?.evaluation;
  const typed = offset?.ok && offset.value.offset.ok ? offset.value.offset.value.values : [];
  const zero = (["X", "Y", "Z"] as const).map((axis) => typed.find((each) => each.axis === axis)?.value);
  return explainDisagreement(evaluation.location, { zero });
};

const firstOf = (change: (plate: Plate) => void) => {
  const [first] = explained(change)?.explanations ?? [];
  return first && { slips: first.slips.map(({ kind, at }) => `${kind} at ${at}`), share: first.share };
};

/** What the display shows at the plate's faces by hand, R = F - a · r with the scenario's faces and r = 2.998, to the display's step. */
const good = { left: "-412.611", right: "-286.743", back: "-168.276" } as const;
const goodChecks = [typedCheck("left", good.left), typedCheck("right", good.right), typedCheck("back", good.back)];

describe("explainDisagreement", () => {
  it("says nothing of evidence that agrees", () => {
    expect(explained(() => undefined)).toBeUndefined();
    expect(explained((plate) => plate.checks.push(...goodChecks))).toBeUndefined();
  });

  const slips: readonly (readonly [name: string, change: (plate: Plate) => void, at: string])[] = [
    [
      "a check that already carries the radius",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-171.274")),
      "radius counted in already at checks.back",
    ],
    [
      "a check that carries the radius with the wrong sign",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-165.278")),
      "radius counted in already at checks.back",
    ],
    [
      "a check with twice the radius",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-174.272")),
      "wrong side at checks.back",
    ],
    [
      "a check whose digits are exchanged",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-186.276")),
      "digits exchanged at checks.back",
    ],
    [
      "a check whose minus is gone",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "168.276")),
      "minus dropped at checks.back",
    ],
    [
      "a check whose decimal point has moved",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-16.8276")),
      "decimal point moved at checks.back",
    ],
    [
      "a check that was read in inches",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", (-168.276 / 25.4).toFixed(4))),
      "inch or millimetre at checks.back",
    ],
    // The typed offset along Y is -251.338.
    [
      "a check in work coordinates",
      (plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", (-168.276 + 251.338).toFixed(3))),
      "work coordinate at checks.back",
    ],
    [
      "the diameter for the radius",
      (plate) => Object.assign(plate.tools[0] as object, { radius: "6" }),
      "radius or diameter at tools.edge finder.radius",
    ],
    [
      "one side of the left face",
      (plate) => {
        Object.assign(plate.touches[0] as object, { readings: "-406.615 -406.618" });
        plate.checks.push(typedCheck("left", good.left));
      },
      "wrong side at touches.left",
    ],
  ];
  it.each(slips)("puts first: %s", (_, change, at) => {
    const first = firstOf(change);
    expect(first?.slips).toEqual([at]);
    expect(first?.share).toBeGreaterThan(0.9);
  });

  it("needs two slips only where one does not do", () => {
    const first = firstOf((plate) =>
      plate.checks.push(typedCheck("right", good.right), typedCheck("back", "-171.274"), typedCheck("left", "412.611")),
    );
    expect(first?.slips.sort()).toEqual(["minus dropped at checks.left", "radius counted in already at checks.back"]);
  });

  it("leaves a forgotten block between two touches open, and names the touch that decides with both readings", () => {
    // Both were taken on a block of 25 mm; one of them does not say so. R = F + L + h: -388.2503 + 118.462 with nothing between, 25 mm more with the block.
    const disagreement = explained((plate) => {
      Object.assign(plate.touches[4] as object, { spacer: "" });
      plate.checks.push({ ...typedCheck("top", "-244.788"), travelling: "-Z", tool: "reference tool", spacer: "block" });
    });
    const [first, second] = disagreement?.explanations ?? [];
    expect([first?.slips[0]?.at, second?.slips[0]?.at].sort()).toEqual(["checks.top", "touches.top"]);
    expect(Math.abs((first?.share ?? 0) - (second?.share ?? 0))).toBeLessThan(0.5);
    expect(disagreement?.deciding).toMatchObject({ element: "top", tool: "reference tool", travelling: "-Z", between: [0, 1] });
    const readings = [first, second].sort((a, b) => (a?.reading ?? 0) - (b?.reading ?? 0)).map((each) => each?.reading);
    expect(readings[0]).toBeCloseTo(-388.250333 + 118.462, 3);
    expect(readings[1]).toBeCloseTo(-388.250333 + 118.462 + 25, 3);
  });

  it("blames something that is not listed where nothing listed fits", () => {
    const first = firstOf((plate) => plate.checks.push(...goodChecks.slice(0, 2), typedCheck("back", "-168.676")));
    expect(first?.slips).toEqual(["something else at checks.back"]);
  });

  it("goes by the chances that a person states", () => {
    const wrongBlock = (plate: Plate) => {
      Object.assign(plate.touches[4] as object, { spacer: "" });
      plate.checks.push({ ...typedCheck("top", "-244.788"), travelling: "-Z", tool: "reference tool", spacer: "block" });
    };
    const before = explained(wrongBlock)?.explanations.find(({ slips: [slip] }) => slip?.kind === "something else")?.share ?? 0;
    const after = explained((plate) => {
      wrongBlock(plate);
      plate.slipChances.push({ id: "unknown", slip: "something else", chance: "90 %" });
    })?.explanations.find(({ slips: [slip] }) => slip?.kind === "something else")?.share;
    expect(after).toBeGreaterThan(100 * before);
  });

  it("corrects nothing: results and offset stay as typed", () => {
    const slip = (plate: Plate) => plate.checks.push(typedCheck("back", "-171.274"));
    const [clean, slipped] = [evaluateSetup(plateDocument(() => undefined)), evaluateSetup(plateDocument(slip))];
    const offsetOf = (evaluation: typeof clean) => {
      const [strategy] = evaluation.strategies;
      return strategy?.evaluation.ok && strategy.evaluation.value.offset.ok ? strategy.evaluation.value.offset.value.lines : undefined;
    };
    expect(offsetOf(slipped)).toEqual(offsetOf(clean));
  });
});
