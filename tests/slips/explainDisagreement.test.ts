import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { explainDisagreement } from "../../lib/slips/explain/explainDisagreement.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { documentFrom } from "../properties/setups.ts";
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

/** A block of 100 by 60 that lies turned, its corner at -300, -200; where the axis of a stylus of radius 3 stops at its faces, by plane geometry. */
function turnedBlock(degrees: number) {
  const angle = (degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const outwards = { left: [-1, 0], right: [1, 0], front: [0, -1], back: [0, 1] } as const;
  const distances = { left: 0, right: 100, front: 0, back: 60 } as const;
  const [x0, y0] = [-300, -200];
  /** The face is where n · (p - corner) = d, and the axis stands r further out. @param aside the coordinate across the travel, from the corner */
  return (element: keyof typeof outwards, aside: number, radius = 3) => {
    const [a, b] = outwards[element];
    const [nx, ny] = [c * a - s * b, s * a + c * b];
    const off = distances[element] + radius;
    const reading = a === 0 ? y0 + (off - nx * aside) / ny : x0 + (off - ny * aside) / nx;
    return {
      element,
      travelling: { left: "+X", right: "-X", front: "+Y", back: "-Y" }[element],
      readings: reading.toFixed(6),
      ...(a === 0 ? { x: `${x0 + aside}`, y: "" } : { x: "", y: `${y0 + aside}` }),
    };
  };
}

describe("a slip on a part that lies turned", () => {
  const explainedAt = (degrees: number, radius: string, change: (rows: Record<string, unknown>[]) => void = () => undefined) => {
    const stop = turnedBlock(degrees);
    const rows: Record<string, unknown>[] = [
      { id: "left", ...stop("left", 20) },
      { id: "front 1", ...stop("front", 10) },
      { id: "front 2", ...stop("front", 70) },
      { id: "right", ...stop("right", 40) },
      { id: "back", ...stop("back", 50) },
    ].map((row) => ({ ...row, tool: "probe" }));
    change(rows);
    const evaluation = evaluateSetup(
      documentFrom({
        part: {
          elements: [
            { id: "left", kind: "face", outward: "-X", datum: "B", x: "0" },
            { id: "right", kind: "face", outward: "+X", x: "100" },
            { id: "front", kind: "face", outward: "-Y", datum: "A", y: "0" },
            { id: "back", kind: "face", outward: "+Y", y: "60" },
          ],
          dimensions: [
            { id: "long", from: "left", to: "right", axis: "X", nominal: "100", tolerance: "±0.01" },
            { id: "wide", from: "front", to: "back", axis: "Y", nominal: "60", tolerance: "±0.01" },
          ],
        },
        tools: [{ id: "probe", kind: "touch probe", radius, radiusUncertainty: "0.001", scatter: "0.001" }],
        touches: rows.slice(0, 3),
        checks: rows.slice(3),
        strategies: [{ id: "corner", touches: ["left", "front 1", "front 2"], rotation: "measured", zero: { x: "0", y: "0" } }],
        chosen: "corner",
      }),
    );
    expect(evaluation.problems).toEqual([]);
    return explainDisagreement(evaluation.location);
  };

  it.each([0, 5, 12, 20, -30])("is the one slip that it is: the radius by the diameter, at %s degrees", (degrees) => {
    const [first] = explainedAt(degrees, "6")?.explanations ?? [];
    expect(first?.slips.map(({ kind, at }) => `${kind} at ${at}`)).toEqual(["radius or diameter at tools.probe.radius"]);
    expect(first?.leftChance).toBeGreaterThan(0.05);
    expect(first?.share).toBeGreaterThan(0.9);
  });

  it.each([0, 1, 5])("is found where it turns the part by far more than that, at %s degrees", (degrees) => {
    const stop = turnedBlock(degrees);
    const slips = [
      ["minus dropped at touches.front 2", (reading: number) => -reading],
      ["decimal point moved at touches.front 2", (reading: number) => reading / 10],
      ["inch or millimetre at touches.front 2", (reading: number) => reading / 25.4],
    ] as const;
    for (const [told, typed] of slips) {
      const readings = typed(Number(stop("front", 70).readings)).toFixed(6);
      const [first] = explainedAt(degrees, "3", (rows) => Object.assign(rows[2] as object, { readings }))?.explanations ?? [];
      expect(first?.slips.map(({ kind, at }) => `${kind} at ${at}`)).toEqual([told]);
      expect(first?.leftChance).toBeGreaterThan(0.05);
    }
  });

  it.each([0, 5, 12, 20, -30])("on the other side of a face, or corrected by hand, at %s degrees", (degrees) => {
    const back = turnedBlock(degrees);
    // The axis a radius on the far side of the face.
    const [behind] = explainedAt(degrees, "3", (rows) => Object.assign(rows[4] as object, back("back", 50, -3)))?.explanations ?? [];
    expect(behind?.slips).toMatchObject([{ kind: "wrong side", at: "checks.back" }]);
    expect(behind?.leftChance).toBeGreaterThan(0.05);
    // By hand the radius goes along the axis: nobody knows the turn yet.
    const reading = Number(back("back", 50).readings);
    const [byHand] =
      explainedAt(degrees, "3", (rows) => Object.assign(rows[4] as object, { readings: (reading - 3).toFixed(6) }))?.explanations ?? [];
    expect(byHand?.slips).toMatchObject([{ kind: "radius counted in already", at: "checks.back" }]);
    expect(byHand?.leftChance).toBeGreaterThan(0.05);
  });
});

it("a minus that is dropped at one of two touches of an edge is found, though the part then seems to lie turned by 75 degrees", () => {
  const demo = demoDocument();
  for (const id of ["front 1", "front 2"]) {
    const touches = demo.touches.map((touch) => (touch.id === id ? { ...touch, readings: touch.readings.replaceAll("-", "") } : touch));
    const evaluation = evaluateSetup({ ...demo, touches });
    // Half a turn further the faces would fit from within the metal.
    expect(evaluation.problems).toEqual([]);
    const [first] = explainDisagreement(evaluation.location)?.explanations ?? [];
    expect(first?.slips).toMatchObject([{ kind: "minus dropped", at: `touches.${id}` }]);
    expect(first?.leftChance).toBeGreaterThan(0.05);
  }
});
