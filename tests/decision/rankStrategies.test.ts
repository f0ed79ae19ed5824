import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { type Ranked, rankStrategies } from "../../lib/decision/rankStrategies.ts";
import type { Judgement } from "../../lib/tolerance/judgeStrategy.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";

function judged(chance: number, standardError = 0, share = 0.5): Outcome<Judgement> {
  const stack = { shares: { deviation: 0, worstCase: share, rootSumSquare: share } } as unknown as Stack;
  return success({
    stacks: [success(stack)],
    chanceOfAll: success({ chance, standardError, scatter: standardError, trials: 4096, seed: 1 }),
    bottleneck: undefined,
    rows: [],
  });
}

const unknown: Outcome<Judgement> = failure({ at: "", what: "not known" });

function entry(id: string, thisPart: Outcome<Judgement>, batch: Outcome<Judgement> = judged(0.9)): Ranked {
  return { id, thisPart, batch };
}

describe("rankStrategies", () => {
  it("rankStrategies(...) puts the larger chance for this part first, whatever the batch", () => {
    expect(rankStrategies([entry("a", judged(0.7), judged(0.99)), entry("b", judged(0.8), judged(0.1))])).toEqual(["b", "a"]);
  });

  it("rankStrategies(...) looks at the batch where this part tells nothing apart", () => {
    expect(rankStrategies([entry("a", judged(1), judged(0.8)), entry("b", judged(1), judged(0.9))])).toEqual(["b", "a"]);
  });

  it("rankStrategies(...) looks at the tighter share where chances differ by less than their standard errors", () => {
    const a = entry("a", judged(0.91, 0.01, 0.9), judged(0.9, 0, 0.9));
    const b = entry("b", judged(0.9, 0.01, 0.4), judged(0.9, 0, 0.4));
    expect(rankStrategies([a, b])).toEqual(["b", "a"]);
  });

  it("rankStrategies(...) puts what is not known last, in document order, also behind a chance of 0", () => {
    const ranked = rankStrategies([entry("x", unknown, unknown), entry("y", unknown, unknown), entry("z", judged(0), judged(0))]);
    expect(ranked).toEqual(["z", "x", "y"]);
  });

  it("rankStrategies([]) is empty, and equal strategies keep their order", () => {
    expect(rankStrategies([])).toEqual([]);
    expect(rankStrategies(["a", "b", "c"].map((id) => entry(id, judged(0.9))))).toEqual(["a", "b", "c"]);
  });

  // Chances come from distributions with an estimated error near 1e-11: what is far below it must not decide.
  it("rankStrategies(chances that differ by rounding) looks at the tighter share", () => {
    const a = entry("a", judged(1, 0, 0.9), judged(1, 0, 0.9));
    const b = entry("b", judged(1 - 1e-14, 0, 0.3), judged(1 - 1e-14, 0, 0.3));
    expect(rankStrategies([a, b])).toEqual(["b", "a"]);
  });

  // Neighbours within their standard errors, ends apart: pairwise comparison runs in a circle, and a sort then depends on the order it meets.
  it("rankStrategies(...) does not depend on the order of the document", () => {
    const level = fc.record({ chance: fc.integer({ min: 0, max: 12 }), share: fc.integer({ min: 1, max: 9 }) });
    fc.assert(
      fc.property(fc.uniqueArray(level, { minLength: 2, maxLength: 5, selector: ({ share }) => share }), fc.nat(), (levels, by) => {
        const entries = levels.map(({ chance, share }, i) =>
          entry(`s${i}`, judged(0.8 + chance / 200, 0.003, share / 10), judged(0.9, 0.003, share / 10)),
        );
        const cut = by % entries.length;
        const moved = [...entries.slice(cut), ...entries.slice(0, cut)].reverse();
        expect(rankStrategies(moved)).toEqual(rankStrategies(entries));
      }),
      { numRuns: 200 },
    );
  });

  it("rankStrategies(...) puts nobody behind a strategy that is clearly worse in this part and no tighter", () => {
    const level = fc.record({ chance: fc.integer({ min: 0, max: 12 }), share: fc.integer({ min: 1, max: 9 }) });
    fc.assert(
      fc.property(fc.array(level, { minLength: 2, maxLength: 5 }), (levels) => {
        const entries = levels.map(({ chance, share }, i) =>
          entry(`s${i}`, judged(0.8 + chance / 200, 0.003, share / 10), judged(0.9, 0.003, share / 10)),
        );
        const ranked = rankStrategies(entries).map((id) => levels[Number(id.slice(1))] as (typeof levels)[number]);
        ranked.forEach((ahead, i) => {
          for (const behind of ranked.slice(i + 1)) {
            const clearlyWorse = ahead.chance <= behind.chance - 2 && ahead.share >= behind.share;
            expect(clearlyWorse, JSON.stringify(ranked)).toBe(false);
          }
        });
      }),
      { numRuns: 200 },
    );
  });
});
