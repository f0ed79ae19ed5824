import { expect, it } from "vitest";
import { type PlainResults, plainResults } from "../../lib/record/plainResults.ts";
import { evaluateJob, type Job, openJob, rowOf } from "../documents/openJob.ts";
import { demoEvaluation, demoNames } from "../exchange/demoEvaluations.ts";

const results = plainResults(evaluateJob(openJob("pinBlock")));
const leftFace = strategyOf(results, "left face");
const middle = strategyOf(results, "middle");

// biome-ignore lint/suspicious/noExplicitAny: JSON data is read here as a stranger would, without our types
function strategyOf({ strategies }: PlainResults, id: string): any {
  return strategies.find((strategy) => strategy.id === id);
}

/** One face along X, touched by a tool of radius 3 of which nothing else is in doubt. */
function oneFace(readings: string, more: Job = {}): Job {
  return {
    format: "datumbook",
    version: 1,
    unit: "mm",
    part: { elements: [{ id: "end", kind: "face", outward: "-X", datum: "A" }] },
    tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatterFrom: "own repeats" }],
    touches: [{ id: "end", element: "end", travelling: "+X", tool: "pin", readings }],
    strategies: [{ id: "end", touches: ["end"] }],
    ...more,
  };
}

/** A face cut here 20 from that face, and a scatter of 0.002. */
const oneStep: Job = {
  part: {
    elements: [
      { id: "end", kind: "face", outward: "-X", datum: "A" },
      { id: "step", kind: "face", outward: "+X", made: "here", x: "20" },
    ],
    characteristics: [{ id: "step", kind: "coordinate", of: "step", axis: "X", tolerance: "±0.01" }],
  },
  tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }],
};

it("plainResults(evaluation) is JSON data: nothing is lost or changed on the way through JSON", () => {
  expect(JSON.parse(JSON.stringify(results))).toStrictEqual(results);
});

// F = R + a·r with the mean of the readings, u = s/√n (JCGM 100:2008, 4.2.3): mean 10.003, s² = (2² + 0 + 1² + 3²)/3 µm².
it("plainResults(evaluation) gives value, standard uncertainty and expanded uncertainty of a zero from own repeats", () => {
  const { X } = strategyOf(plainResults(evaluateJob(oneFace("10.001 10.003 10.002 10.006"))), "end").zero;
  expect(X.value).toBeCloseTo(13.003, 12);
  expect(X.unit).toBe("mm");
  expect(X.standardUncertainty).toBeCloseTo(Math.sqrt(14 / 3 / 4) / 1000, 12);
  expect(X.degreesOfFreedom).toBeCloseTo(3, 12);
  // JCGM 100:2008, Table G.2: 3.31 for 3 degrees of freedom at 95.45 %.
  expect(X.coverageFactor).toBeCloseTo(3.31, 2);
  expect(X.coverageProbability).toBeCloseTo(0.9545, 5);
  expect(X.expandedUncertainty).toBeCloseTo(X.coverageFactor * X.standardUncertainty, 15);
});

it("plainResults(evaluation) names the sources of a zero with sensitivity, own uncertainty and amount", () => {
  const { X } = strategyOf(plainResults(evaluateJob(oneFace("10.001 10.003 10.002 10.006"))), "end").zero;
  expect(X.contributions).toEqual([
    {
      source: "touch end, scatter",
      label: "scatter of end, mean of 4",
      family: "contact tool",
      evidence: { kind: "measured", readings: 4 },
      sensitivity: 1,
      sourceStandardUncertainty: X.standardUncertainty,
      amount: X.standardUncertainty,
    },
  ]);
});

it("plainResults(evaluation) writes degrees of freedom without end as a text, since JSON would make null of them", () => {
  const stated = oneFace("10.003", { tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }] });
  const { X } = strategyOf(plainResults(evaluateJob(stated)), "end").zero;
  expect(X.degreesOfFreedom).toBe("infinite");
  // 2Φ(2) - 1 = 95.45 %: the factor is 2 (JCGM 100:2008, Table G.2, last row).
  expect(X.coverageFactor).toBeCloseTo(2, 12);
  expect(JSON.stringify(X)).not.toContain("null");
});

it("plainResults(evaluation) puts the reason where an axis is not determined", () => {
  const { zero, freeMotions, determined, offset } = strategyOf(plainResults(evaluateJob(oneFace("10.001 10.003"))), "end");
  expect(Object.keys(zero.Z)).toEqual(["problems"]);
  expect(zero.Z.problems[0].line).toBe("strategies.end: no touch of this strategy fixes Z. Add a touch that meets the part along Z.");
  expect(determined).toEqual({ X: true, Y: false, Z: false, rotation: null });
  expect(freeMotions.map(({ words }: { words: string }) => words).sort()).toEqual(["a shift along Y", "a shift along Z"]);
  expect(offset.digits).toEqual([{ axis: "X", text: "13.002" }]);
});

it("plainResults(evaluation) never gives this part a place along an axis that no touch fixes", () => {
  const { thisPart } = plainResults(evaluateJob(oneFace("10.001 10.003")));
  expect(thisPart).toMatchObject({
    origin: { X: { unit: "mm", value: expect.closeTo(13.002, 9) }, Y: { problems: [{ at: "touches" }] } },
    rotation: { problems: [{ at: "touches" }] },
  });
});

// Width S = R2 - R1 - 2 r: -216.406 + 312.442 - 2 · 2.993. Independent sources add as squares, µm²: scatter twice s²/4 with s² = 10/3,
// radius 2 · 1, late trigger 2 · 2/√3, roughness of each face 2/√3 (rectangular, JCGM 100:2008, 4.3.7).
it("plainResults(evaluation) gives sizes by the touches, and their difference to another measurement", () => {
  const size = results.sizes[0];
  const variance = 2 * (10 / 3 / 4) + 4 + 16 / 3 + 2 * (4 / 3);
  expect(size).toMatchObject({ id: "width", nominal: 90 });
  expect(size?.value).toBeCloseTo(90.05, 9);
  expect(size?.standardUncertainty).toBeCloseTo(Math.sqrt(variance) / 1000, 10);
  expect(size?.difference?.value).toBeCloseTo(90.05 - 90.061, 9);
  expect(size?.difference?.standardUncertainty).toBeCloseTo(Math.sqrt(variance + 9) / 1000, 10);
});

// X and Y of the corner share radius (1 µm) and late trigger (2 µm/√3); X has scatter 10/3/4, roughness and half lost motion 4/3 each of its own, Y 1/3, 4/3, 4/3.
it("plainResults(evaluation) gives covariance and correlation of the zero's axes", () => {
  const { of, covariance, correlation } = leftFace.covariance;
  expect(of).toEqual(["X", "Y", "Z"]);
  const [xx, yy, xy] = [10 / 12 + 1 + 4, 1 / 3 + 1 + 4, 1 + 4 / 3];
  expect(covariance[0][0] * 1e6).toBeCloseTo(xx, 9);
  expect(covariance[1][1] * 1e6).toBeCloseTo(yy, 9);
  expect(covariance[0][1] * 1e6).toBeCloseTo(xy, 9);
  expect(covariance[1][0]).toBe(covariance[0][1]);
  expect(correlation[0][1]).toBeCloseTo(xy / Math.sqrt(xx * yy), 9);
  expect([correlation[0][0], correlation[0][2]]).toEqual([1, 0]);
});

it("plainResults(evaluation) gives no covariance of X and Y where the mid-plane takes the radius out of X", () => {
  expect(middle.covariance.covariance[0][1]).toBeCloseTo(0, 15);
});

// Half axes √(λ χ²) with the eigenvalues λ of the covariance above, angle ½ atan2(2 xy, xx - yy), χ² = -2 ln(1 - p) (JCGM 102:2011, 6.5.2).
it("plainResults(evaluation) gives the ellipse and the rectangle that hold X and Y together", () => {
  const [xx, yy, xy] = [10 / 12 + 1 + 4, 1 / 3 + 1 + 4, 1 + 4 / 3];
  const { coverageProbability, ellipse, rectangle } = leftFace.regions;
  const factor = Math.sqrt(-2 * Math.log(1 - coverageProbability));
  const [middle, spread] = [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
  expect(ellipse.coverageFactor).toBeCloseTo(factor, 12);
  expect(ellipse.halfAxes[0] * 1e3).toBeCloseTo(factor * Math.sqrt(middle + spread), 9);
  expect(ellipse.halfAxes[1] * 1e3).toBeCloseTo(factor * Math.sqrt(middle - spread), 9);
  expect(ellipse.angle).toBeCloseTo(Math.atan2(2 * xy, xx - yy) / 2, 9);
  expect(ellipse.area * 1e6).toBeCloseTo(Math.PI * factor ** 2 * Math.sqrt(xx * yy - xy * xy), 6);
  expect(rectangle.method).toBe("exact");
  expect(rectangle.halfWidths.X * 1e3).toBeCloseTo(rectangle.coverageFactor * Math.sqrt(xx), 9);
});

it("plainResults(evaluation) gives the reason in the place of the regions where X or Y is not determined", () => {
  const { regions } = strategyOf(plainResults(evaluateJob(oneFace("10.001 10.003"))), "end");
  expect(Object.keys(regions)).toEqual(["problems"]);
});

// Welch-Satterthwaite (JCGM 100:2008, G.4.1): u⁴ / (u_scatter⁴ / 3), all other sources taken as known.
it("plainResults(evaluation) gives effective degrees of freedom", () => {
  expect(leftFace.zero.X.degreesOfFreedom).toBeCloseTo((10 / 12 + 1 + 4) ** 2 / ((10 / 12) ** 2 / 3), 6);
});

// G10 L2 P2 is G55 (RS274/NGC, NISTIR 6556, 3.5.5); Z = R - L - h = -201.554 - 104.2 - 20.
it("plainResults(evaluation) gives the offset as typed and its block text", () => {
  expect(leftFace.offset).toMatchObject({
    register: "G55",
    unit: "mm",
    digits: [
      { axis: "X", text: "-309.449" },
      { axis: "Y", text: "-185.128" },
      { axis: "Z", text: "-325.754" },
    ],
    lines: ["G21 G90", "G10 L2 P2 X-309.449 Y-185.128 Z-325.754"],
    appliesRotation: false,
  });
});

// R_pred = O + x_face - a r for the left face, and the face is found by that very touch: the old mean again. Work coordinates less the typed offset.
it("plainResults(evaluation) gives check readings with limits in machine and in work coordinates", () => {
  const left = results.predictedReadings.find(({ touch }) => touch === "left");
  expect(left?.value).toBeCloseTo(-312.442, 9);
  // Radius, late trigger and face are the same the second time: what differs is one new reading (s) and the old mean (s/√4).
  const standardUncertainty = Math.sqrt(10 / 3 + 10 / 12) / 1000;
  expect(left?.standardUncertainty).toBeCloseTo(standardUncertainty, 10);
  expect((left?.upper ?? 0) - (left?.lower ?? 0)).toBeCloseTo(2 * (left?.coverageFactor ?? 0) * standardUncertainty, 10);
  expect(left?.inWorkCoordinates).toMatchObject({ strategy: "left face", register: "G55", value: expect.closeTo(-312.442 + 309.449, 9) });
});

// Zero on the mid-plane, drawing from the edge: g = 1/2, so half of S - S_nom = 0.05 goes into what is cut from there.
it("plainResults(evaluation) gives every characteristic's deviation, limits and chance in both views", () => {
  const dowel2 = middle.thisPart.characteristics.find(({ id }: { id: string }) => id === "dowel 2 from left");
  expect(dowel2.deviation).toBeCloseTo(0.025, 9);
  expect(dowel2.limits).toEqual({ lower: -0.03, upper: 0.03 });
  expect(dowel2.deviationShareOfTolerance).toBeCloseTo(0.025 / 0.03, 6);
  expect(dowel2.components).toHaveLength(1);
  const inBatch = middle.batch.characteristics.find(({ id }: { id: string }) => id === "dowel 2 from left");
  expect(inBatch.deviation).toBeCloseTo(0, 9);
  // Half of the size's 0.15/3 normal, in the batch (limits at three standard deviations).
  const size = inBatch.components[0].contributions.find(({ source }: { source: string }) => source.includes("width"));
  expect(Math.abs(size.amount)).toBeCloseTo(0.025, 9);
  const position = middle.batch.characteristics.find(({ id }: { id: string }) => id === "dowel 1 position");
  expect(position.components.map(({ axis }: { axis: string }) => axis)).toEqual(["X", "Y"]);
});

// Half of the last digit that is typed to either side, equally likely anywhere: u = digit/√12 (JCGM 100:2008, F.2.2.1); one inch is 25.4 mm.
it.each([
  [{}, 0.001],
  [{ decimals: "2" }, 0.01],
  [{ controllerUnit: "inch" }, 0.0001 * 25.4],
  [{ offsetStep: "0.005" }, 0.005],
  [{ decimals: "1", offsetStep: "0.005" }, 0.1],
  [{ offsetStep: "0" }, 0],
])("plainResults(evaluation) of a register %j has its rounding among what is cut", (machine, step) => {
  const [cut] = strategyOf(plainResults(evaluateJob(oneFace("10", { ...oneStep, machine }))), "end").thisPart.characteristics;
  expect(cut.components[0].standardUncertainty).toBeCloseTo(Math.hypot(0.002, step / Math.sqrt(12)), 12);
});

it("plainResults(evaluation) gives quantiles of a deviation that are those of its distribution", () => {
  // One normal source: ±1.96 standard deviations (ISO 3534-1, standardised normal distribution, u_0.975 = 1.959964).
  const job = oneFace("10", { ...oneStep, machine: { offsetStep: "0" } });
  const [step] = strategyOf(plainResults(evaluateJob(job)), "end").thisPart.characteristics;
  const [low, median, high] = step.distribution.quantiles.map(({ value }: { value: number }) => value);
  expect(low).toBeCloseTo(-1.959964 * 0.002, 8);
  expect(median).toBeCloseTo(0, 9);
  expect(high).toBeCloseTo(1.959964 * 0.002, 8);
});

it("plainResults(evaluation) gives amounts whose squares add up to the variance of every result", () => {
  const quantities: {
    standardUncertainty: number;
    contributions: { family: string; amount: number }[];
    families: { family: string; standardUncertainty: number }[];
  }[] = [];
  JSON.parse(JSON.stringify(results), (_, value) => {
    if (Array.isArray(value?.contributions)) quantities.push(value);
    return value;
  });
  expect(quantities.length).toBeGreaterThan(20);
  for (const { standardUncertainty, contributions, families } of quantities) {
    expect(Math.hypot(...contributions.map(({ amount }) => amount))).toBeCloseTo(standardUncertainty, 12);
    expect(families.map(({ family }) => family).sort()).toEqual([...new Set(contributions.map(({ family }) => family))].sort());
    for (const { family, standardUncertainty: together } of families)
      expect(together).toBeCloseTo(Math.hypot(...contributions.map((each) => (each.family === family ? each.amount : 0))), 12);
  }
});

it("plainResults(evaluation) lists every source once, and every contribution names one of them", () => {
  const ids = results.sources.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const named = new Set<string>();
  JSON.parse(JSON.stringify(results), (key, value) => {
    if (key === "contributions") for (const { source } of value) named.add(source);
    return value;
  });
  expect([...named].sort()).toEqual([...ids].sort());
});

it("plainResults(evaluation) gives strategies in the order of the ranking", () => {
  expect(results.ranking).toEqual(["left face", "middle"]);
  expect(results.strategies.map(({ id, place }) => [id, place])).toEqual([
    ["left face", 1],
    ["middle", 2],
  ]);
});

it("plainResults(evaluation) warns where a touched size disagrees with its other measurement, and where the better known zero is the worse", () => {
  expect(results.warnings.map(({ kind }) => kind)).toEqual(["smaller uncertainty", "size disagrees"]);
});

// The skew of the rail is atan2(0.003, 6); for two touches u = √2 s / baseline.
it("plainResults(evaluation) gives the turn in radians, and says that no word of the block text carries it", () => {
  const rail = plainResults(evaluateJob(openJob("skewedRail")));
  const turned = strategyOf(rail, "turned");
  expect(turned.zero.rotation).toMatchObject({ unit: "rad" });
  expect(turned.zero.rotation.value).toBeCloseTo(Math.atan2(0.003, 6), 12);
  expect(turned.zero.rotation.standardUncertainty).toBeCloseTo((Math.SQRT2 * 0.0001) / 6, 10);
  expect(turned.offset.appliesRotation).toBe(true);
  expect(turned.offset.lines[0]).toBe("G20 G90");
  expect(turned.offset.lines[1]).toMatch(/^G10 L2 P1 X-\d+\.\d{4} Y-\d+\.\d{4}$/);
  for (const { inWorkCoordinates } of rail.predictedReadings) expect(Object.keys(inWorkCoordinates)).toEqual(["problems"]);
});

it("plainResults(evaluation) still gives what is known when a strategy cannot be solved", () => {
  const job = openJob("pinBlock");
  rowOf(job["strategies"], "middle")["touches"] = ["left", "nowhere"];
  const partly = plainResults(evaluateJob(job));
  expect(strategyOf(partly, "middle")).toEqual({
    id: "middle",
    place: 2,
    problems: [expect.objectContaining({ at: "strategies.middle.touches", got: "nowhere" })],
  });
  expect(strategyOf(partly, "left face").zero.X.value).toBeCloseTo(-309.449, 9);
});

it("plainResults(evaluation) has the correlation of all results of this part by the strategy in use, and u relative to sizes alone", () => {
  const { correlations, sizes, faces } = JSON.parse(JSON.stringify(results));
  const at = (a: string, b: string) => correlations.coefficients[correlations.of.indexOf(a)][correlations.of.indexOf(b)];
  for (const [i, row] of correlations.coefficients.entries()) {
    expect(row[i]).toBe(1);
    for (const [j, coefficient] of row.entries()) {
      expect(coefficient).toBe(correlations.coefficients[j][i]);
      expect(Math.abs(coefficient)).toBeLessThanOrEqual(1);
    }
  }
  expect(correlations.of).toContain("zero X");
  const [face] = correlations.of.filter((id: string) => id.startsWith("face"));
  // By its own definition (JCGM 100:2008, 5.2.2): the covariance that both budgets' contributions give, by their products.
  const budgetOf = (id: string) =>
    id === "zero X"
      ? strategyOf(results, correlations.strategy).zero.X
      : faces.find((each: { touch: string }) => `face ${each.touch}` === id);
  const [a, b] = [budgetOf("zero X"), budgetOf(face)];
  const covariance = a.contributions.reduce(
    (total: number, { source, amount }: { source: string; amount: number }) =>
      total + amount * (b.contributions.find((each: { source: string }) => each.source === source)?.amount ?? 0),
    0,
  );
  expect(at("zero X", face)).toBeCloseTo(covariance / a.standardUncertainty / b.standardUncertainty, 10);
  for (const size of sizes) expect(size.relativeStandardUncertainty).toBeCloseTo(size.standardUncertainty / Math.abs(size.value), 15);
  expect(sizes.length).toBeGreaterThan(0);
  expect(a).not.toHaveProperty("relativeStandardUncertainty");
});

it("plainResults(evaluation) has the terms of second order of every zero", () => {
  const { secondOrder, zero } = strategyOf(results, "left face");
  expect(secondOrder.X).toMatchObject({ verdict: "does not matter", standardUncertainty: expect.closeTo(zero.X.standardUncertainty, 9) });
});

// A result that cannot be recomputed from the list of sources is a result without its reasons.
it("plainResults(evaluation) lists every source that any of its results names, those of cells alone too", () => {
  const ledger = [
    { kind: "cell", id: "shim", entry: "12.5 mm ± 0.004 mm" },
    { kind: "cell", id: "stack", entry: "2 * shim within 0.01 mm" },
    { kind: "table", id: "gauge", columns: [{ id: "length" }], rows: [["5 mm ± 0.001 mm"]] },
  ];
  const plain = plainResults(evaluateJob({ ...openJob("pinBlock"), version: 2, ledger }));
  const listed = new Set(plain.sources.map(({ id }) => id));
  for (const id of ["cell shim", "cell stack", "cell gauge_length 1"]) expect(listed).toContain(id);
  for (const name of demoNames) {
    const results = plainResults(demoEvaluation(name));
    const known = new Set(results.sources.map(({ id }) => id));
    const named = [...JSON.stringify(results).matchAll(/"source":"((?:[^"\\\\]|\\\\.)*)"/g)].map(([, id]) => JSON.parse(`"${id}"`));
    expect(named.length).toBeGreaterThan(0);
    expect([...new Set(named)].filter((id) => !known.has(id))).toEqual([]);
  }
});
