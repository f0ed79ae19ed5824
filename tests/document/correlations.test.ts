import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentChanges } from "../../lib/document/documentChanges.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { noteRevision, documentAtRevision } from "../../lib/document/revisions.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { renameBlock } from "../../lib/document/renameBlock.ts";
import type { CorrelationEntry, SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { correlation, covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { entryOf } from "../../lib/base/matrix.ts";
import { renameRow } from "../../notebooks/pages/documentRows.ts";
import { cell } from "../ledger/blocks.ts";
import { documentFrom, must, seed, typed } from "../properties/setups.ts";

const runs = { seed, numRuns: 60 };

function related(id: string, one: string, other: string, coefficient: string, more: Partial<CorrelationEntry> = {}): CorrelationEntry {
  return { id, one, other, coefficient, evidence: "stated", note: "", ...more };
}

const together = (id: string, one: string, other: string) => related(id, one, other, "", { evidence: "read together" });

/** A block touched left and right by two tools, each with a radius of its own. */
function block(correlations: readonly CorrelationEntry[], more: { ledger?: SetupDocument["ledger"]; tools?: object[]; readings?: [string, string]; whatIf?: object[] } = {}): SetupDocument {
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
      fc.property(fc.oneof(fc.constantFrom(-1, 0, 1), fc.integer({ min: -100, max: 100 }).map((value) => value / 100)), doubt, doubt, (r, u1, u2) => {
        const tools = [
          { id: "long", kind: "touch probe", radius: "3", radiusUncertainty: typed(u1), scatter: "0" },
          { id: "short", kind: "touch probe", radius: "3", radiusUncertainty: typed(u2), scatter: "0" },
        ];
        const document = block([radii(String(r))], { tools });
        expect(zeroX(document).standardUncertainty ** 2).toBeCloseTo((u1 ** 2 + u2 ** 2 - 2 * r * u1 * u2) / 4, 12);
        const length = evaluated(document).sizes.find(({ id }) => id === "length")?.budget;
        expect((length?.standardUncertainty ?? Number.NaN) ** 2).toBeCloseTo(u1 ** 2 + u2 ** 2 + 2 * r * u1 * u2, 12);
      }),
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
