import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { plainSlips } from "../../lib/record/internals/plainChecks.ts";
import { normalDiscChance } from "../../lib/uncertainty/normalDiscChance.ts";
import { amountOf, evaluateDocument, must, openDocument, uncertaintyWithout } from "./openDocument.ts";

// A plate with one sawn end. Inputs invented; expected values computed by an independent program and confirmed
// by other routes (singular values, grid search, sampling), given to six decimals.
const document = openDocument("plateWithSawnEnd");
const plate = evaluateDocument(document);
const sixDecimals = 6;

describe("plate with a sawn end: faces and sizes", () => {
  it.each([
    ["left", -409.61325],
    ["right", -289.74125],
    ["front", -251.33775],
    ["back", -171.27375],
  ] as const)("face %s lies at %d", (touch, expected) => {
    expect(plate.face(touch).value).toBeCloseTo(expected, sixDecimals);
  });

  it("widths by the touches are 119.872 and 80.064", () => {
    expect(plate.size("length").budget.value).toBeCloseTo(119.872, sixDecimals);
    expect(plate.size("depth").budget.value).toBeCloseTo(80.064, sixDecimals);
  });

  it("the width agrees with the micrometer: -0.002, ratio 0.0896 of 2 u", () => {
    const difference = plate.size("length").difference;
    if (difference === undefined) throw new Error("expected a micrometer");
    expect(difference.value).toBeCloseTo(-0.002, sixDecimals);
    // The scenario leaves the lean of the two faces out of this check; ours keeps it, as it is part of each face.
    const u = uncertaintyWithout(difference, ["lean"]);
    expect(u).toBeCloseTo(0.011158, sixDecimals);
    expect(Math.abs(difference.value) / (2 * u)).toBeCloseTo(0.089622, 5);
    expect(difference.standardUncertainty).toBeCloseTo(Math.hypot(0.011158, 0.003 / Math.sqrt(3), 0.003 / Math.sqrt(3)), sixDecimals);
  });

  it("the scatter pooled over the four faces is 0.004518", () => {
    const pooled = {
      ...document,
      tools: document.tools.map((tool) => (tool.id === "edge finder" ? { ...tool, scatterFrom: "pooled repeats" as const } : tool)),
    };
    expect(amountOf(evaluateDocument(pooled).face("left"), "scatter") * Math.sqrt(4)).toBeCloseTo(0.004518, sixDecimals);
  });

  it("the width passes its check: the two agree, so that both count together", () => {
    const { difference, combined } = plate.size("length");
    expect(Math.abs(difference?.value ?? 1)).toBeLessThan(2 * (difference?.standardUncertainty ?? 0));
    expect(combined).toBeDefined();
    expect(slipsOf(document)).toEqual([]);
  });

  // Widths by the touches less the micrometer's, in the radii of 2.998 that the tip has. A radius that is left out makes every face lie where the tip's
  // centre stood, one on the wrong side makes it lie another radius off.
  const radius = 2.998;
  it.each([
    ["as they were taken", document, -0.000667, undefined],
    ["with the radius left out", withWrongSide(-radius), 1.999333, "radius not applied"],
    ["with the radius on the wrong side of both", withWrongSide(-2 * radius), 3.999333, "sign wrong on both sides"],
    ["with the diameter in the place of the radius", withRadius("5.996"), -2.000667, "diameter used for the radius"],
  ])("touches %s are told by the width beside the micrometer", (_, touched, signature, slip) => {
    const { difference } = evaluateDocument(touched).size("length");
    expect((difference?.value ?? 0) / radius).toBeCloseTo(signature, sixDecimals);
    const found = slipsOf(touched);
    if (slip === undefined) expect(found).toEqual([]);
    else expect(found).toContain(slip);
  });
});

/** Rules that see a slip in this document. */
function slipsOf(touched: SetupDocument): readonly string[] {
  return plainSlips(evaluateDocument(touched)).findings.map(({ rule }) => rule);
}

function withRadius(radius: string): SetupDocument {
  const tools = document.tools.map((tool) => (tool.id === "edge finder" ? { ...tool, diameter: "", radius } : tool));
  return { ...document, tools };
}

/** The edge finder's readings as they are after somebody has added this much along the travel. */
function withWrongSide(added: number): SetupDocument {
  const touches = document.touches.map((touch) => {
    if (touch.tool !== "edge finder") return touch;
    const along = touch.travelling.startsWith("+") ? added : -added;
    const readings = touch.readings.split(" ").map((reading) => (Number(reading) + along).toFixed(3));
    return { ...touch, readings: readings.join(" ") };
  });
  return { ...document, touches };
}

describe("plate with a sawn end: zero", () => {
  it.each([
    ["corner on C", -409.61325, 0.005431],
    ["sawn face", -409.74125, 0.008631],
    ["middle", -409.67725, 0.004514],
  ] as const)("%s: X0 %d, u %d", (id, x0, u) => {
    const x = must(plate.strategy(id).zero[0]);
    expect(x.value).toBeCloseTo(x0, sixDecimals);
    expect(x.standardUncertainty).toBeCloseTo(u, sixDecimals);
  });

  it("Y0 and Z0 with u and U at k = 2", () => {
    const [, y, z] = plate.strategy("corner on C").zero.map(must);
    expect(y?.value).toBeCloseTo(-251.33775, sixDecimals);
    expect(z?.value).toBeCloseTo(-388.250333, sixDecimals);
    expect(z?.standardUncertainty).toBeCloseTo(0.003477, sixDecimals);
    expect(2 * (z?.standardUncertainty ?? 0)).toBeCloseTo(0.006954, sixDecimals);
  });

  it.each([
    [
      "corner on C",
      { scatter: 0.0025, radius: 0.0015, "late trigger": 0.003464, roughness: 0.001732, "lost motion": 0.001732, lean: 0.001732 },
    ],
    [
      "sawn face",
      { scatter: 0.0025, radius: 0.0015, "late trigger": 0.003464, roughness: 0.006928, "lost motion": 0.001732, lean: 0.001732 },
    ],
    ["middle", { scatter: 0.001768, radius: 0, "late trigger": 0, roughness: 0.003571, "lost motion": 0.001732, lean: 0.001225 }],
  ] as const)("budget of X0, %s", (id, rows) => {
    const budget = must(plate.strategy(id).zero[0]);
    for (const [source, expected] of Object.entries(rows)) expect(amountOf(budget, source), source).toBeCloseTo(expected, sixDecimals);
  });

  it("the offset to type is G10 L2 P1 X-409.613 Y-251.338 Z-388.250", () => {
    expect(must(plate.strategy("corner on C").offset).lines).toEqual(["G21 G90", "G10 L2 P1 X-409.613 Y-251.338 Z-388.250"]);
  });
});

describe("plate with a sawn end: what the zero does to the holes", () => {
  it.each([
    ["corner on C", 0, 0],
    ["sawn face", -0.128, 2.56],
    ["middle", -0.064, 1.28],
  ] as const)("%s shifts this part's holes by %d and uses %d of the zone", (id, shift, share) => {
    const stack = plate.stack(id, "H3 position", "thisPart");
    expect(stack.components[0]?.value).toBeCloseTo(shift, sixDecimals);
    expect(stack.deviation).toBeCloseTo(2 * Math.abs(shift), sixDecimals);
    expect(stack.shares.deviation).toBeCloseTo(share, sixDecimals);
  });

  it.each([
    ["corner on C", 0],
    ["sawn face", 0.4],
    ["middle", 0.2],
  ] as const)("%s: the length's tolerance alone can use %d of a diameter", (id, expected) => {
    const row = plate.stack(id, "H3 position", "batch").rows.find(({ source }) => source.id.includes("dimension length"));
    expect(2 * Math.abs(row?.reaches[0] ?? 0)).toBeCloseTo(expected, sixDecimals);
  });

  // The scenario's this-part sigma takes the zero's own uncertainty about the measured shift.
  it.each([
    ["corner on C", 0, 0.008253, 0.008155, 1],
    ["sawn face", -0.128, 0.010514, 0.008155, 0],
    ["middle", -0.064, 0.00754, 0.008155, 0.026606],
  ] as const)("%s: the zero's own doubt about the shift gives sigma %d and the scenario's chance", (id, shift, sigmaX, sigmaY, chance) => {
    const zero = must(plate.strategy(id).zero[0]).standardUncertainty;
    const hole = plate.stack(id, "H3 position", "thisPart").components;
    // The scenario lets positioning grow from the strategy's own touches, as the batch does; this part is where its datum was touched.
    const positioning = amountOf(plate.stack(id, "H3 position", "batch").components[0] as never, "positioning");
    const x = Math.hypot(zero, positioning, amountOf(hole[0] as never, "process"));
    const y = hole[1]?.standardUncertainty ?? 0;
    // H3 lies nearest to the sawn face; the scenario names it as the worst hole for every strategy.
    expect(x).toBeCloseTo(sigmaX, sixDecimals);
    expect(y).toBeCloseTo(sigmaY, sixDecimals);
    expect(normalDiscChance([shift, 0], [x * x, 0, y * y], 0.05)).toBeCloseTo(chance, 5);
  });

  // Ours conditions on both touches: given both faces, the deviation is the shift and the error of the datum's own touch, from which alone the
  // way to the hole counts. So every strategy leaves the holes of this part with the doubt that "corner on C" does.
  it("conditioning on both touches gives the holes of this part the doubt of the datum's own touch, whatever the strategy", () => {
    const stackOf = (id: string) => plate.stack(id, "H3 position", "thisPart");
    const own = stackOf("corner on C").components.map(({ standardUncertainty }) => standardUncertainty) as [number, number];
    for (const [id, shift] of [
      ["middle", -0.064],
      ["sawn face", -0.128],
    ] as const) {
      const { components, chance } = stackOf(id);
      expect(components[0]?.value).toBeCloseTo(shift, 6);
      for (const axis of [0, 1] as const) expect(components[axis]?.standardUncertainty).toBeCloseTo(own[axis], 9);
      // The sources' own shapes change it little.
      expect(chance).toBeCloseTo(normalDiscChance([shift, 0], [own[0] ** 2, 0, own[1] ** 2], 0.05), 2);
    }
    expect(stackOf("corner on C").chance).toBeCloseTo(1, 6);
  });

  // The scenario's quadrature is good to 3e-6: scipy.integrate.quad over the same normal gives 0.5350381444 and 0.8508525718.
  it.each([
    ["corner on C", 1, 1],
    ["sawn face", 0.535035, 0.5350381444],
    ["middle", 0.85085, 0.8508525718],
  ] as const)("%s: chance in the batch %d with all sources taken as normal", (id, expected, precise) => {
    const stack = plate.stack(id, "H3 position", "batch");
    const [x, y] = stack.components.map(({ standardUncertainty }) => standardUncertainty ** 2) as [number, number];
    const chance = normalDiscChance([0, 0], [x, 0, y], 0.05);
    expect(Math.abs(chance - expected)).toBeLessThan(4e-6);
    expect(chance).toBeCloseTo(precise, 6);
    // The sources' own shapes change it little here, because the size (normal) dominates.
    expect(stack.chance).toBeCloseTo(expected, 3);
  });

  // The way from the datum's touch is longest to the far corner; by Y alone H4 is as far.
  it.each(["corner on C", "sawn face", "middle"])("%s: H3 is the hole that uses most of its zone", (id) => {
    const used = (hole: string) => plate.stack(id, `${hole} position`, "thisPart").shares.worstCase;
    for (const other of ["H1", "H2", "H4"]) expect(used(other)).toBeLessThanOrEqual(used("H3") + 1e-12);
  });

  it("ranks by the drawing and not by the zero's own uncertainty, which would prefer the middle", () => {
    expect(plate.ranking.order[0]).toBe("corner on C");
    expect(must(plate.strategy("middle").zero[0]).standardUncertainty).toBeLessThan(
      must(plate.strategy("corner on C").zero[0]).standardUncertainty,
    );
  });
});
