import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { studyTargets } from "../../lib/decision/studyTargets.ts";
import { documentChanges } from "../../lib/document/documentChanges.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { renameBlock } from "../../lib/document/renameBlock.ts";
import { documentAtRevision, noteRevision } from "../../lib/document/revisions.ts";
import { sameShop } from "../../lib/document/sameShop.ts";
import type { CorrelationEntry, SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { studyModel } from "../../lib/record/studyResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { effectiveDegreesOfFreedom } from "../../lib/uncertainty/effectiveDegreesOfFreedom.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { momentsOf, TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { renameRow } from "../../notebooks/pages/documentRows.ts";
import { cell, table } from "../ledger/blocks.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

const runs = { numRuns: 60 };

function related(id: string, one: string, other: string, coefficient: string, more: Partial<CorrelationEntry> = {}): CorrelationEntry {
  return { id, one, other, coefficient, evidence: "stated", note: "", ...more };
}

const together = (id: string, one: string, other: string) => related(id, one, other, "", { evidence: "read together" });

/** A block touched left and right by two tools, each with a radius of its own. */
function block(
  correlations: readonly CorrelationEntry[],
  more: { ledger?: SetupDocument["ledger"]; tools?: object[]; readings?: [string, string]; whatIf?: object[] } = {},
): SetupDocument {
  const [left, right] = more.readings ?? ["-3.000", "103.000"];
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X" },
        { id: "right", kind: "face", outward: "+X" },
        { id: "middle", kind: "middle", of: ["left", "right"], datum: "B" },
      ],
      dimensions: [{ id: "length", from: "left", to: "right", nominal: "100", tolerance: "±0.2" }],
    },
    tools: more.tools ?? [
      { id: "long", kind: "touch probe", radius: "3", radiusUncertainty: "0.004", scatter: "0" },
      { id: "short", kind: "touch probe", radius: "3", radiusUncertainty: "0.003", scatter: "0" },
    ],
    touches: [
      { id: "L", element: "left", travelling: "+X", tool: "long", readings: left },
      { id: "R", element: "right", travelling: "-X", tool: (more.tools?.length ?? 2) > 1 ? "short" : "long", readings: right },
    ],
    strategies: [{ id: "half", touches: ["L", "R"], hold: ["middle"] }],
    chosen: "half",
    ledger: more.ledger ?? [],
    whatIf: more.whatIf ?? [],
    correlations,
  });
}

const radii = (coefficient: string) => related("ring", "tool long, radius", "tool short, radius", coefficient);

function evaluated(document: SetupDocument) {
  const evaluation = evaluateSetup(document);
  expect(evaluation.problems).toEqual([]);
  return evaluation;
}

function zeroX(document: SetupDocument): Budget {
  return must(must(evaluated(document).strategies[0]?.evaluation ?? { ok: false, problems: [] }).zero[0]);
}

function problemsOf(document: SetupDocument) {
  return evaluateSetup(document).problems.map(({ at, what }) => `${at}: ${what}`);
}

describe("a document with correlations", () => {
  // The middle is (F1 + F2) / 2 with F1 = R1 + r1 and F2 = R2 - r2, the length F2 - F1. So u²(middle) = (u1² + u2² - 2 r u1 u2) / 4 and
  // u²(length) = u1² + u2² + 2 r u1 u2 (JCGM 100:2008, 5.2.2, equation 16, worked out by hand).
  it("a mid-plane by two tools: u² = (u1² + u2² - 2 r u1 u2) / 4, and 2 r u1 u2 more in the length, from r = -1 to 1", () => {
    const doubt = fc.integer({ min: 1, max: 90 }).map((value) => value / 10_000);
    fc.assert(
      fc.property(
        fc.oneof(
          fc.constantFrom(-1, 0, 1),
          fc.integer({ min: -100, max: 100 }).map((value) => value / 100),
        ),
        doubt,
        doubt,
        (r, u1, u2) => {
          const tools = [
            { id: "long", kind: "touch probe", radius: "3", radiusUncertainty: typed(u1), scatter: "0" },
            { id: "short", kind: "touch probe", radius: "3", radiusUncertainty: typed(u2), scatter: "0" },
          ];
          const document = block([radii(String(r))], { tools });
          expect(zeroX(document).standardUncertainty ** 2).toBeCloseTo((u1 ** 2 + u2 ** 2 - 2 * r * u1 * u2) / 4, 12);
          const length = evaluated(document).sizes.find(({ id }) => id === "length")?.budget;
          expect((length?.standardUncertainty ?? Number.NaN) ** 2).toBeCloseTo(u1 ** 2 + u2 ** 2 + 2 * r * u1 * u2, 12);
        },
      ),
      runs,
    );
  });

  it("one deviation in both radii cancels in the middle, and opposite ones cancel in the length", () => {
    const tools = ["long", "short"].map((id) => ({ id, kind: "touch probe", radius: "3", radiusUncertainty: "0.004", scatter: "0" }));
    expect(zeroX(block([radii("1")], { tools })).standardUncertainty).toBeCloseTo(0, 12);
    const opposite = block([radii("-1")], { tools });
    expect(evaluated(opposite).sizes[0]?.budget.standardUncertainty).toBeCloseTo(0, 12);
    expect(zeroX(opposite).standardUncertainty).toBeCloseTo(0.004, 12);
  });

  it("a coefficient of 0 changes nothing", () => {
    const [without, zero] = [zeroX(block([])), zeroX(block([radii("0")]))];
    expect(zero.value).toBe(without.value);
    expect(zero.standardUncertainty).toBe(without.standardUncertainty);
    expect(zero.contributions.map(({ source, amount }) => [source.id, amount])).toEqual(
      without.contributions.map(({ source, amount }) => [source.id, amount]),
    );
  });

  it("the covariance of all results has no eigenvalue below 0: no combination has a variance below zero", () => {
    const factor = fc.integer({ min: -10, max: 10 });
    const r = fc.integer({ min: -99, max: 99 }).map((value) => value / 100);
    fc.assert(
      fc.property(r, fc.tuple(factor, factor, factor, factor), (coefficient, [a, b, c, d]) => {
        const { faces, sizes, strategies } = evaluated(block([radii(String(coefficient))]));
        const zero = must(must(strategies[0]?.evaluation ?? { ok: false, problems: [] }).zero[0]);
        const budgets = [...faces.map(({ budget }) => budget), zero, ...sizes.map(({ budget }) => budget)];
        const matrix = covarianceMatrix(budgets);
        const factors = [a, b, c, d];
        const variance = factors.reduce((total, x, i) => total + factors.reduce((sum, y, j) => sum + x * y * entryOf(matrix, i, j), 0), 0);
        expect(variance).toBeGreaterThan(-1e-15);
      }),
      runs,
    );
  });

  it("what is supposed of one of them reaches what they share: half the doubt of a radius gives the middle of half the doubt", () => {
    // u1 = 0.002 in the place of 0.004, u2 = 0.003, r = 0.5, by the formula above.
    const document = block([radii("0.5")], { whatIf: [{ source: "tool long, radius", shift: "1", doubt: "0.5" }] });
    const zero = zeroX(document);
    expect(zero.standardUncertainty).toBeCloseTo(Math.sqrt(0.002 ** 2 + 0.003 ** 2 - 2 * 0.5 * 0.002 * 0.003) / 2, 12);
    expect(zero.value - zeroX(block([radii("0.5")])).value).toBeCloseTo(0.002, 12);
    // Known exactly for the moment: nothing goes together with it, and that is no mistake.
    const exact = block([radii("0.5")], { whatIf: [{ source: "tool long, radius", shift: "", doubt: "0" }] });
    expect(zeroX(exact).standardUncertainty).toBeCloseTo(0.0015, 12);
  });

  it("a radius that states its doubt in its own entry goes together like any other", () => {
    const tools = [
      { id: "long", kind: "touch probe", radius: "3 mm ± 0.004 mm", scatter: "0" },
      { id: "short", kind: "touch probe", radius: "3", radiusUncertainty: "0.003", scatter: "0" },
    ];
    expect(zeroX(block([radii("1")], { tools })).standardUncertainty).toBeCloseTo(0.0005, 12);
  });
});

describe("what rests on doubts that err together", () => {
  // u1 = 0.004, u2 = 0.003, r = 0.5: u² = (16 + 9 - 12) / 4 µm², by the formula above.
  const u = Math.sqrt(0.004 ** 2 + 0.003 ** 2 - 0.004 * 0.003) / 2;
  const stated = block([radii("0.5")]);
  const document = documentFrom({
    ...stated,
    version: 2,
    part: {
      ...stated.part,
      elements: [...stated.part.elements, { id: "slot", kind: "bore", made: "here", x: "10", y: "0", diameter: "8" }],
      characteristics: [{ id: "slot X", kind: "coordinate", of: "slot", axis: "X", tolerance: `±${typed(1.96 * u)}` }],
    },
  });
  const half = must(evaluated(document).strategies[0]?.evaluation ?? { ok: false, problems: [] });

  it("the chance of a characteristic: 95.00 % within 1.96 u (the standard normal table: Φ(1.96) = 0.97500)", () => {
    const stack = must(half.thisPart.stacks[0] ?? { ok: false, problems: [] });
    expect(stack.chance).toBeCloseTo(0.95, 5);
  });

  it("trials of the whole model scatter as the formula says", () => {
    const evaluation = evaluateSetup(document);
    const model = studyModel(must(studyTargets(evaluation, "half", "thisPart")), 7);
    const blocks = 64;
    const tally = new TrialTally(model);
    for (let number = 0; number < blocks; number++) tally.add(number, model.runBlock(number));
    const zero = tally.outputs.find(({ name }) => name === "zero X");
    if (zero === undefined) throw new Error("zero X has no trials");
    // The standard deviation of n normal trials is itself known to 1 in √(2 n); five of its standard errors.
    expect(Math.abs(momentsOf(zero).standardDeviation / u - 1)).toBeLessThan(5 / Math.sqrt(2 * blocks * blockSize));
  });

  it("the printed sheet and the plain data tell which doubts err together, and how far", () => {
    const evaluation = evaluateSetup(document);
    expect(summaryText(evaluation)).toMatch(/tool long, radius +tool short, radius +0\.50/);
    expect(plainResults(evaluation).related).toEqual([{ one: "tool long, radius", other: "tool short, radius", coefficient: 0.5 }]);
  });
});

describe("readings that were taken together", () => {
  const tools = [{ id: "long", kind: "touch probe", radius: "3", scatterFrom: "own repeats" }];
  const left = [-3.001, -2.997, -3.004, -2.996, -3.002];
  const right = [102.998, 103.003, 102.995, 103.004, 102.999];
  const readings: [string, string] = [left.map(typed).join("; "), right.map(typed).join("; ")];
  const pair = together("cycle", "touch L, scatter", "touch R, scatter");

  // JCGM 100:2008, H.2.4: for a result that is linear in the readings, the means with their covariance give what the result of every set gives.
  it("the middle has the doubt and the degrees of freedom of the middles of every pair", () => {
    const middles = left.map((x, k) => (x + (right[k] as number)) / 2);
    const mean = middles.reduce((sum, x) => sum + x, 0) / 5;
    const s = Math.sqrt(middles.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 4);
    const document = block([pair], { tools, readings });
    const zero = zeroX(document);
    expect(zero.value).toBeCloseTo(mean, 12);
    expect(zero.standardUncertainty).toBeCloseTo(s / Math.sqrt(5), 12);
    expect(effectiveDegreesOfFreedom(zero.contributions.map(({ amount, source }) => ({ ...source, contribution: amount })))).toBeCloseTo(
      4,
      10,
    );
    // Both faces drift together: taken for independent, the two scatters would make the doubt a third too small.
    expect(zeroX(block([], { tools, readings })).standardUncertainty).toBeLessThan(0.75 * zero.standardUncertainty);
  });

  it("what was read with a third was read with the others of that third as well", () => {
    const third = { ...cell("a", "1.01; 1.04; 1.02 mm"), id: "a" };
    const ledger = [third, cell("b", "2.02; 2.05; 2.05 mm"), cell("c", "3.04; 3.01; 3.03 mm")];
    const document = block([together("one", "cell a", "cell b"), together("two", "cell b", "cell c")], { ledger });
    const values = ["a", "b", "c"].map((name) => quantityNamed(document, name));
    const [a, , c] = budgetsOf(values) as [Budget, Budget, Budget];
    // By hand: deviations of a are -4/3, 5/3, -1/3 and of c 4/3, -5/3, 1/3 hundredths.
    expect(correlation(a, c)).toBeCloseTo(-1, 12);
  });

  it("readings that do not come in pairs, and doubts that are no scatter of their own, are refused at the entry", () => {
    expect(problemsOf(block([pair], { tools, readings: [readings[0], "103.000; 103.001"] }))).toEqual([
      "correlations.cycle.other: readings that were taken together come in pairs",
    ]);
    const stated = [{ id: "long", kind: "touch probe", radius: "3", scatter: "0.002" }];
    expect(problemsOf(block([pair], { tools: stated, readings }))).toEqual([
      "correlations.cycle.one: the doubt of this is not the scatter of readings of its own, so nothing can be estimated from them",
      "correlations.cycle.other: the doubt of this is not the scatter of readings of its own, so nothing can be estimated from them",
    ]);
  });
});

// JCGM 100:2008, annex H.2: resistance, reactance and impedance from five simultaneous observations, typed into cells (value from memory, recomputed).
describe("JCGM 100, H.2 in a document", () => {
  const ledger = [
    cell("V", "5.007; 4.994; 5.005; 4.990; 4.999"),
    cell("I", "19.663; 19.639; 19.640; 19.685; 19.678"),
    cell("phi", "1.0456; 1.0438; 1.0468; 1.0428; 1.0433 rad"),
    cell("R", "V / (I / 1000) * cos(phi)"),
    cell("X", "V / (I / 1000) * sin(phi)"),
    cell("Z", "V / (I / 1000)"),
  ];
  const document = block([together("at once", "cell V", "cell I"), together("at once too", "cell I", "cell phi")], { ledger });
  const found = ["R", "X", "Z"].map((name) => quantityNamed(document, name));
  const [R, X, Z] = budgetsOf(found) as [Budget, Budget, Budget];

  it("gum-h2-outputs: R 127.732, X 219.847, Z 254.260 with 0.071, 0.295, 0.236 (table H.3)", () => {
    // u(X) is 0.29558 at full precision; the Guide prints 0.295.
    for (const [budget, value, u, tolerance] of [
      [R, 127.732, 0.071, 0.0005],
      [X, 219.847, 0.295, 0.001],
      [Z, 254.26, 0.236, 0.0005],
    ] as const) {
      expect(Math.abs(budget.value - value)).toBeLessThanOrEqual(0.0005);
      expect(Math.abs(budget.standardUncertainty - u)).toBeLessThanOrEqual(tolerance);
    }
  });

  it("gum-h2-output-correlations: -0.588, -0.485 and 0.993 (table H.3)", () => {
    expect(Math.abs(correlation(R, X) - -0.588)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(R, Z) - -0.485)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(correlation(X, Z) - 0.993)).toBeLessThanOrEqual(0.0005);
  });

  it("the correlations of the means are those of table H.2, stated as numbers they give the same results", () => {
    const [V, I, phi] = budgetsOf(["V", "I", "phi"].map((name) => quantityNamed(document, name))) as [Budget, Budget, Budget];
    const r = [correlation(V, I), correlation(V, phi), correlation(I, phi)];
    for (const [k, printed] of [-0.36, 0.86, -0.65].entries()) expect(Math.abs((r[k] as number) - printed)).toBeLessThanOrEqual(0.0051);
    // Without readings: u and degrees of freedom as table H.2 has them.
    const stated = [
      cell("V", "4.9990 ± 0.0032"),
      cell("I", "19.6610 ± 0.0095"),
      cell("phi", "1.04446 ± 0.00075 rad"),
      cell("X", "V / (I / 1000) * sin(phi)"),
    ];
    const rows = [
      related("a", "cell V", "cell I", "-0.36"),
      related("b", "cell V", "cell phi", "0.86"),
      related("c", "cell I", "cell phi", "-0.65"),
    ];
    const [byNumbers] = budgetsOf([quantityNamed(block(rows, { ledger: stated }), "X")]) as [Budget];
    expect(Math.abs(byNumbers.standardUncertainty - 0.295)).toBeLessThanOrEqual(0.002);
  });
});

interface ReferenceCase {
  readonly cells: readonly { readonly value: number; readonly standardUncertainty: number }[];
  /** Of the first and the second, the first and the third, the second and the third. */
  readonly coefficients: readonly [number, number, number];
  readonly results: readonly { readonly formula: string; readonly value: number; readonly standardUncertainty: number }[];
  readonly correlations: readonly number[];
}

// By python3-uncertainties (tests/reference/relatedCells.py).
const reference: readonly ReferenceCase[] = JSON.parse(readFileSync(new URL("../reference/relatedCells.json", import.meta.url), "utf8"));

it.each(reference)("formulas over three cells that err together come out as another program has them (%#)", (expected) => {
  const names = ["a", "b", "c"];
  const cells = expected.cells.map(({ value, standardUncertainty }, i) =>
    cell(names[i] as string, `${value.toPrecision(17)} ± ${standardUncertainty.toPrecision(17)}`),
  );
  const formulas = expected.results.map(({ formula }, i) => cell(`f${i}`, formula));
  const pairs = [
    [0, 1],
    [0, 2],
    [1, 2],
  ] as const;
  const rows = pairs.map(([i, j], k) =>
    related(`r${k}`, `cell ${names[i]}`, `cell ${names[j]}`, (expected.coefficients[k] as number).toPrecision(17)),
  );
  const document = block(rows, { ledger: [...cells, ...formulas] });
  const budgets = budgetsOf(formulas.map(({ id }) => quantityNamed(document, id)));
  for (const [i, { value, standardUncertainty }] of expected.results.entries()) {
    expect(budgets[i]?.value).toBeCloseTo(value, 9);
    expect(budgets[i]?.standardUncertainty).toBeCloseTo(standardUncertainty, 9);
  }
  const correlations = budgets.flatMap((one, i) => budgets.slice(0, i).map((other) => correlation(one, other)));
  for (const [k, coefficient] of expected.correlations.entries()) expect(correlations[k]).toBeCloseTo(coefficient, 6);
});

describe("a cell that goes together with a doubt of the setup", () => {
  const gauge = cell("gauge", "12 mm ± 0.003 mm");
  const sums = [cell("total", "gauge + long_radius"), cell("apart", "gauge - long_radius"), cell("from_zero", "gauge + zero_X")];

  // JCGM 100:2008, 5.2.2, equation 16, worked out by hand: u²(a ± b) = u²(a) + u²(b) ± 2 r u(a) u(b), with 0.003 and 0.004 mm.
  it.each([
    ["1", 0.007, 0.001],
    ["-1", 0.001, 0.007],
    ["0.5", Math.sqrt(37e-6), Math.sqrt(13e-6)],
    ["0", 0.005, 0.005],
  ])("with r = %s the sum has the doubt %f mm, and the difference %f mm", (r, ofSum, ofDifference) => {
    for (const [one, other] of [
      ["cell gauge", "tool long, radius"],
      ["tool long, radius", "cell gauge"],
    ] as const) {
      const document = block([related("ring", one, other, r)], { ledger: [gauge, ...sums] });
      const [total, apart, own] = budgetsNamed(document, ["total", "apart", "gauge"]) as [Budget, Budget, Budget];
      expect(total.standardUncertainty).toBeCloseTo(ofSum, 12);
      expect(apart.standardUncertainty).toBeCloseTo(ofDifference, 12);
      expect(own.standardUncertainty).toBeCloseTo(0.003, 12);
      expect(total.value).toBe(15);
      expect(summaryText(evaluateSetup(document))).toContain(one);
    }
  });

  it("shares that with the zero, which has the radius in it", () => {
    // The zero is (R1 + r1 + R2 - r2) / 2: u²(gauge + zero) = 9 + (16 + 9) / 4 + 2 · 0.5 · 3 · (4 / 2) µm², by hand.
    const document = block([related("ring", "cell gauge", "tool long, radius", "0.5")], { ledger: [gauge, ...sums] });
    const [sum] = budgetsNamed(document, ["from_zero"]) as [Budget];
    expect(sum.standardUncertainty).toBeCloseTo(Math.sqrt(9 + 25 / 4 + 6) / 1000, 12);
    expect(sum.contributions.map(({ source }) => source.label)).toEqual(
      expect.arrayContaining(["gauge, shared with tool long, radius", "radius of long, apart from gauge"]),
    );
    expect(plainResults(evaluateSetup(document)).related).toEqual([{ one: "cell gauge", other: "tool long, radius", coefficient: 0.5 }]);
  });

  it("keeps every stated coefficient and doubt, whichever of several cells and sources go together", () => {
    const weight = fc.integer({ min: -9, max: 9 });
    // Coefficients of sums of two or four common causes, so that there are such quantities: two cells and two radii.
    const causes = fc
      .constantFrom(2, 4)
      .chain((count) =>
        fc
          .array(fc.array(weight, { minLength: count, maxLength: count }), { minLength: 4, maxLength: 4 })
          .filter((rows) => rows.every((row) => row.some((each) => each !== 0))),
      );
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 });
    fc.assert(
      fc.property(causes, order, (rows, shuffled) => {
        const product = (i: number, j: number) => (rows[i] ?? []).reduce((total, x, k) => total + x * (rows[j]?.[k] ?? 0), 0);
        const r = (i: number, j: number) => (i === j ? 1 : product(i, j) / Math.sqrt(product(i, i) * product(j, j)));
        const ids = ["cell a", "tool long, radius", "cell b", "tool short, radius"];
        const pairs = [
          [0, 1],
          [0, 2],
          [0, 3],
          [1, 2],
          [1, 3],
          [2, 3],
        ] as const;
        const stated = shuffled.map((k) => {
          const [i, j] = pairs[k] as (typeof pairs)[number];
          return related(`r${k}`, ids[i] as string, ids[j] as string, Math.max(-1, Math.min(1, r(i, j))).toFixed(17));
        });
        const ledger = [
          cell("a", "1 mm ± 0.001 mm"),
          cell("b", "2 mm ± 0.002 mm"),
          cell("long_r", "long_radius"),
          cell("short_r", "short_radius"),
        ];
        const document = block(stated, { ledger });
        const budgets = budgetsNamed(document, ["a", "long_r", "b", "short_r"]);
        const doubts = [0.001, 0.004, 0.002, 0.003];
        budgets.forEach((one, i) => {
          expect(one.standardUncertainty / (doubts[i] as number)).toBeCloseTo(1, 9);
          budgets.forEach((other, j) => {
            expect(Math.abs(correlation(one, other) - r(i, j))).toBeLessThan(2e-7);
          });
        });
      }),
      runs,
    );
  });

  it("is refused with the pairs and what would be possible where all of them together contradict each other, whatever two by two", () => {
    const rows = [
      related("x", "cell gauge", "tool long, radius", "0.9"),
      radii("0.9"),
      related("y", "cell gauge", "tool short, radius", "-0.9"),
    ];
    const evaluation = evaluateSetup(block(rows, { ledger: [gauge, cell("alone", "3 mm ± 1 µm"), ...sums] }));
    const told = evaluation.problems.filter(({ at }) => at.startsWith("correlations"));
    expect(told).toHaveLength(1);
    expect(told[0]?.at).toBe("correlations.y.coefficient");
    // r13 between r12 r23 ± sqrt((1 - r12²)(1 - r23²)) = 0.81 ± 0.19 (positive semidefinite determinant, by hand).
    expect(told[0]?.what).toContain('0.62 to 1 in place of -0.9 for "cell gauge" and "tool short, radius"');
    expect(told[0]?.remedy).toContain("correlations.x, correlations.ring, correlations.y");
    expect(["gauge", "total", "from_zero", "alone"].map((name) => evaluation.own.get(name)?.ok)).toEqual([false, false, false, true]);
    expect(evaluation.strategies[0]?.evaluation.ok).toBe(false);
  });

  it("is refused where it rests on others or has another shape, and nothing that would be wrong without it is told", () => {
    const made = [
      cell("made", "1 mm + gauge"),
      cell("flat", "2 mm within 0.01 mm"),
      gauge,
      cell("both", "flat + long_radius"),
      table("pins", ["size"], [["6 mm ± 1 µm"]]),
    ];
    for (const [name, at] of [
      ["pins_size 1", "correlations.x.one"],
      ["made", "correlations.x.one"],
      ["flat", "correlations.x.coefficient"],
      ["nobody", "correlations.x.one"],
    ] as const) {
      const evaluation = evaluateSetup(block([related("x", `cell ${name}`, "tool long, radius", "0.5")], { ledger: made }));
      expect(evaluation.problems.filter(({ at: place }) => place.startsWith("correlations")).map((problem) => problem.at)).toEqual([at]);
      expect(evaluation.strategies[0]?.evaluation.ok).toBe(false);
      expect(evaluation.own.get("both")?.ok).toBe(false);
    }
  });

  it("says of a row of a free table that it takes a cell", () => {
    const rows = [related("x", "cell pins_size 1", "tool long, radius", "0.5")];
    const { problems } = evaluateSetup(block(rows, { ledger: [table("pins", ["size"], [["6 mm ± 1 µm"]])] }));
    expect(problems.find(({ at }) => at === "correlations.x.one")?.what).toBe(
      "this is the doubt of a row of a table, and only a doubt that stands in a cell by itself can be related",
    );
  });

  it("is what is supposed of it, and nothing where it is known exactly for the moment", () => {
    const rows = [related("x", "cell gauge", "tool long, radius", "0.5")];
    const twice = block(rows, { ledger: [gauge, ...sums], whatIf: [{ source: "cell gauge", shift: "", doubt: "2" }] });
    // u²(a + b) with 0.006 and 0.004 mm and r = 0.5.
    expect(doubtIn(twice, "total")).toBeCloseTo(Math.sqrt(36 + 16 + 24) / 1000, 12);
    for (const source of ["cell gauge", "tool long, radius"]) {
      const exact = block(rows, { ledger: [gauge, ...sums], whatIf: [{ source, shift: "", doubt: "0" }] });
      expect(doubtIn(exact, "total")).toBeCloseTo(source === "cell gauge" ? 0.004 : 0.003, 12);
    }
  });

  // JCGM 100:2008, H.2.4: for a result that is linear in readings taken together, the result of every set and its scatter.
  it("takes readings of a touch and of a cell that were taken together for one joint observation", () => {
    const tools = [{ id: "long", kind: "touch probe", radius: "3", scatterFrom: "own repeats" }];
    const left = [-3.001, -2.997, -3.004, -2.996, -3.002];
    const gap = [0.5, 0.503, 0.496, 0.505, 0.5];
    const readings: [string, string] = [left.map(typed).join("; "), "103.000; 103.002"];
    const document = block([together("cycle", "cell gap", "touch L, scatter")], {
      tools,
      readings,
      ledger: [cell("gap", `${gap.map(typed).join("; ")} mm`), cell("corrected", "L_face - gap")],
    });
    const differences = left.map((x, k) => x - (gap[k] as number));
    const mean = differences.reduce((total, x) => total + x, 0) / 5;
    const s = Math.sqrt(differences.reduce((total, x) => total + (x - mean) ** 2, 0) / 4);
    const [corrected] = budgetsNamed(document, ["corrected"]) as [Budget];
    // The face is the reading plus the radius, which is exact here.
    expect(corrected.value).toBeCloseTo(3 + mean, 12);
    expect(corrected.standardUncertainty).toBeCloseTo(s / Math.sqrt(5), 12);
    const parts = corrected.contributions.map(({ amount, source }) => ({ ...source, contribution: amount }));
    expect(effectiveDegreesOfFreedom(parts)).toBeCloseTo(4, 10);
  });

  it("rests on one estimate where both have few degrees of freedom and the coefficient is stated", () => {
    // Means of five readings each, with 4 degrees of freedom; what was observed jointly keeps them in a sum (JCGM 102:2011, 5.3.2).
    const radius = "2.998; 3.001; 3.003; 3.000; 2.999 mm";
    const tools = [{ id: "long", kind: "touch probe", radius, scatter: "0" }];
    const ledger = [cell("gap", "0.500; 0.503; 0.496; 0.505; 0.500 mm"), cell("total", "long_radius + gap")];
    const [total] = budgetsNamed(block([related("x", "cell gap", "tool long, radius", "0.4")], { tools, ledger }), ["total"]) as [Budget];
    const parts = total.contributions.map(({ amount, source }) => ({ ...source, contribution: amount }));
    expect(effectiveDegreesOfFreedom(parts)).toBeCloseTo(4, 10);
  });
});

describe("a coefficient", () => {
  const ledger = [
    cell("common", "0.8"),
    cell("ring", "12 mm ± 0.002 mm"),
    cell("block", "5 mm ± 0.002 mm"),
    cell("both", "ring + block"),
    cell("vague", "0.8 ± 0.1"),
  ];

  it("may be a formula over cells, among cells and in the setup", () => {
    const rows = [radii("common - 0.3"), related("cells", "cell ring", "cell block", "common / 2 + 0.1")];
    const document = block(rows, { ledger });
    // r = 0.5 in both: (16 + 9 - 12) / 4 µm² for the zero (above), 4 + 4 + 2 · 0.5 · 2 · 2 µm² for the sum.
    expect(zeroX(document).standardUncertainty).toBeCloseTo(Math.sqrt(13 / 4) / 1000, 12);
    expect(doubtIn(document, "both")).toBeCloseTo(Math.sqrt(12) / 1000, 12);
    const renamed = must(renameBlock(document, "common", "how_far", new Map()));
    expect(renamed.correlations.map(({ coefficient }) => coefficient)).toEqual(["how_far - 0.3", "how_far / 2 + 0.1"]);
  });

  it("is refused where what it names is in doubt, and withholds what rests on it", () => {
    const evaluation = evaluateSetup(block([radii("vague")], { ledger }));
    expect(evaluation.problems.map(({ at }) => at)).toEqual(["correlations.ring.coefficient"]);
    expect(evaluation.strategies[0]?.evaluation.ok).toBe(false);
  });
});

describe("a correlation that cannot be used", () => {
  const probe = {
    id: "long",
    kind: "touch probe",
    radius: "3",
    radiusUncertainty: "0.004",
    scatter: "0",
    length: "100",
    lengthUncertainty: "0.002",
    lateTrigger: "0.003",
  };
  const tools = [probe, { ...probe, id: "short" }];

  it.each<readonly [string, readonly CorrelationEntry[], string]>([
    ["|r| above 1", [radii("1.2")], "correlations.ring.coefficient: this is no correlation coefficient"],
    ["no coefficient", [radii("")], "correlations.ring.coefficient: how far these two go together is not stated"],
    [
      "a source with itself",
      [related("ring", "tool long, radius", "tool long, radius", "1")],
      "correlations.ring.other: a source goes together with itself, whatever is stated",
    ],
    [
      "the same pair twice",
      [radii("0.5"), related("again", "tool short, radius", "tool long, radius", "0.5")],
      "correlations.again.other: this pair is stated twice, here and at correlations.ring",
    ],
    [
      "an unknown source",
      [related("ring", "tool long, radious", "tool short, radius", "1")],
      "correlations.ring.one: no result rests on a source of this name",
    ],
    [
      "a source without doubt",
      [related("ring", "machine, lost motion X", "tool short, radius", "1")],
      "correlations.ring.one: nothing is in doubt about this, so nothing goes together with it",
    ],
    [
      "a cell that nobody has with a doubt of the setup",
      [related("ring", "cell a", "tool short, radius", "1")],
      "correlations.ring.one: no result rests on a source of this name",
    ],
    [
      "other shapes in part",
      [related("late", "tool long, late trigger", "tool short, late trigger", "0.5")],
      'correlations.late.coefficient: "late trigger of long", "late trigger of short" are correlated in part, and a coefficient does not determine the joint distribution of this shape',
    ],
    [
      "a coefficient beside readings taken together",
      [related("ring", "tool long, radius", "tool short, radius", "0.5", { evidence: "read together" })],
      "correlations.ring.coefficient: the coefficient comes from the readings that were taken together",
    ],
  ])("%s is refused at its entry, and nothing that would be wrong without it is told", (_, rows, told) => {
    const evaluation = evaluateSetup(block(rows, { tools }));
    expect(evaluation.problems.map(({ at, what }) => `${at}: ${what}`)).toEqual([told]);
    expect(evaluation.faces).toEqual([]);
    expect(evaluation.strategies[0]?.evaluation).toMatchObject({
      ok: false,
      problems: [{ what: "a correlation of doubts cannot be used, and the uncertainties here would be wrong without it" }],
    });
  });

  it("does not mind a tool that touches nothing yet", () => {
    const document = block([radii("1"), related("late", "tool spare, late trigger", "tool long, late trigger", "1")], {
      tools: [...tools, { ...probe, id: "spare" }],
    });
    expect(problemsOf(document).filter((line) => line.startsWith("correlations"))).toEqual([]);
    expect(sameShop(document).correlations).toEqual(document.correlations);
    expect(sameShop(block([related("cut", "element left, lean", "element right, lean", "1")])).correlations).toEqual([]);
  });

  it("says nothing of what is supposed of sources that are withheld", () => {
    const document = block([radii("1.2")], { tools, whatIf: [{ source: "tool long, radius", shift: "1", doubt: "" }] });
    expect(problemsOf(document)).toEqual(["correlations.ring.coefficient: this is no correlation coefficient"]);
  });

  it("suggests the name that was meant", () => {
    const { problems } = evaluateSetup(block([related("ring", "tool long, radious", "tool short, radius", "1")], { tools }));
    expect(problems[0]?.remedy).toContain('"tool long, radius"');
  });

  it("coefficients that contradict each other are refused, with the sources, the rows and what would be possible", () => {
    const third = [...tools, { ...probe, id: "wide" }];
    const rows = [
      radii("0.9"),
      related("b", "tool short, radius", "tool wide, radius", "0.9"),
      related("c", "tool long, radius", "tool wide, radius", "-0.9"),
    ];
    const document = block(rows, { tools: third });
    const withWide = { ...document, touches: [...document.touches, { ...document.touches[0], id: "W", tool: "wide" }] } as SetupDocument;
    const [problem] = evaluateSetup(withWide).problems;
    expect(problem?.at).toBe("correlations.c.coefficient");
    expect(problem?.what).toContain('"radius of long", "radius of short", "radius of wide"');
    // r13 between r12 r23 ± sqrt((1 - r12²)(1 - r23²)) = 0.81 ± 0.19 (positive semidefinite determinant, by hand).
    expect(problem?.what).toContain("0.62 to 1");
    expect(problem?.remedy).toContain("correlations.ring, correlations.b, correlations.c");
  });

  it("a row that names only one source says nothing yet, and results stay", () => {
    const document = block([related("ring", "tool long, radius", "", "")]);
    expect(problemsOf(document)).toEqual(["correlations.ring.other: two sources go together, and this one is not named yet"]);
    expect(evaluateSetup(document).strategies[0]?.evaluation.ok).toBe(true);
  });

  it("a touch that cannot be read is told once, at the touch", () => {
    const own = [{ ...probe, scatterFrom: "own repeats" }];
    const document = block([together("cycle", "touch L, scatter", "touch R, scatter")], {
      tools: own,
      readings: ["nothing", "103.000; 103.002"],
    });
    expect(problemsOf(document).filter((line) => line.startsWith("correlations"))).toEqual([]);
    expect(evaluateSetup(document).faces).toHaveLength(1);
  });

  it("cells whose relation cannot be used have no value, and others keep theirs", () => {
    const ledger = [
      cell("a", "1 mm ± 0.01 mm"),
      cell("b", "a + 1 mm ± 0.01 mm"),
      cell("c", "2 mm"),
      cell("d", "4 mm ± 0.02 mm"),
      cell("both", "a + d"),
    ];
    const evaluation = evaluateSetup(
      block([related("x", "cell a", "cell b", "0.5"), related("y", "cell d", "cell nobody", "1")], { ledger }),
    );
    expect(evaluation.problems.map(({ at }) => at)).toEqual(expect.arrayContaining(["correlations.x.other", "correlations.y.other"]));
    expect(["a", "b", "c", "d", "both"].map((name) => evaluation.own.get(name)?.ok)).toEqual([false, false, true, false, false]);
  });
});

describe("correlations as entries", () => {
  const ledger = [cell("ring", "12 mm ± 0.002 mm"), cell("block", "12 mm ± 0.002 mm"), cell("both", "ring + block")];
  const document = block([radii("0.5"), related("cells", "cell ring", "cell block", "1")], { ledger });

  it("follow the names of rows and cells", () => {
    const renamed = renameRow(document, "tools", 0, "stylus");
    expect(renamed.correlations[0]).toMatchObject({ one: "tool stylus, radius", other: "tool short, radius" });
    expect(renamed.correlations[1]).toBe(document.correlations[1]);
    const cellRenamed = must(renameBlock(document, "ring", "gauge", new Map()));
    expect(cellRenamed.correlations[1]).toMatchObject({ one: "cell gauge", other: "cell block" });
    expect(evaluateSetup(renamed).problems).toEqual([]);
    expect(evaluateSetup(cellRenamed).problems).toEqual([]);
  });

  it("are told in words when they change, and not when only a row that they name has another name", () => {
    const changed = { ...document, correlations: [radii("0.9"), related("more", "tool long, radius", "tool short, length", "1")] };
    expect(documentChanges(document, changed).changes.flatMap(({ sentences }) => sentences)).toEqual([
      'coefficient of correlation "ring" from "0.5" to "0.9"',
      'correlation "cells" was removed',
      'correlation "more" was added: first source "tool long, radius", second source "tool short, length", coefficient "1"',
    ]);
    expect(documentChanges(document, renameRow(document, "tools", 0, "stylus")).changes.flatMap(({ sentences }) => sentences)).toEqual([
      'tool "long" is now called "stylus"',
    ]);
  });

  it("are kept by the file and by revisions", () => {
    expect(must(parseDocument(documentText(document)))).toEqual(document);
    const noted = must(noteRevision(must(noteRevision(document, { who: "", when: "", why: "" })), { who: "", when: "", why: "" }));
    const later = must(noteRevision({ ...noted, correlations: [] }, { who: "", when: "", why: "" }));
    expect(must(documentAtRevision(later, 0)).correlations).toEqual(document.correlations);
    expect(must(documentAtRevision(later, 2)).correlations).toEqual([]);
  });

  it("a document without them reads as before", () => {
    const { correlations: _, ...without } = block([]);
    expect(must(parseDocument(JSON.stringify(without))).correlations).toEqual([]);
  });
});

function quantityNamed(document: SetupDocument, name: string) {
  const value = must(evaluated(document).own.get(name) ?? { ok: false, problems: [] });
  if (value.kind !== "quantity") throw new Error(`${name} is no quantity`);
  return value.value;
}

function budgetsNamed(document: SetupDocument, names: readonly string[]): Budget[] {
  const { own } = evaluated(document);
  return budgetsOf(
    names.map((name) => {
      const value = must(own.get(name) ?? { ok: false, problems: [] });
      if (value.kind !== "quantity") throw new Error(`${name} is no quantity`);
      return value.value;
    }),
  );
}

function doubtIn(document: SetupDocument, name: string): number {
  return (budgetsNamed(document, [name])[0] as Budget).standardUncertainty;
}
