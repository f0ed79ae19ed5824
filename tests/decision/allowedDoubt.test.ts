import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { allowedDoubt, chanceWith, type Judged, type SingleDoubt, singleDoubts } from "../../lib/decision/allowedDoubt.ts";
import type { Characteristic } from "../../lib/part/part.ts";
import { stackOf } from "../../lib/tolerance/stack.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import type { Source } from "../../lib/uncertainty/source.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { certain, fromSource, sum } from "../../lib/uncertainty/uncertain.ts";

function sourceOf(id: string, distribution: SourceDistribution): Source {
  return {
    id,
    label: id,
    family: "process",
    estimate: 0,
    distribution,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "stated" },
  };
}

const normal = (id: string, standardDeviation: number) => sourceOf(id, { shape: "normal", standardDeviation });

const alone = (source: Source): SingleDoubt => ({ label: source.label, sources: [source] });

function coordinate(limit: number, offset: number, sources: readonly Source[]): Judged {
  const characteristic: Characteristic = {
    id: "c",
    kind: "coordinate",
    of: "e",
    axis: "X",
    limits: { lower: mm(-limit), upper: mm(limit) },
  };
  return { characteristic, stack: stackOf(characteristic, budgetsOf([sum([certain(offset), ...sources.map(fromSource)])])) };
}

function position(zone: number, x: readonly Source[], y: readonly Source[]): Judged {
  const characteristic: Characteristic = { id: "p", kind: "position", of: "e", zone: mm(zone) };
  return { characteristic, stack: stackOf(characteristic, budgetsOf([sum(x.map(fromSource)), sum(y.map(fromSource))])) };
}

/** Normal quantile of 0.99865, tables of the normal distribution (NIST/SEMATECH e-Handbook, 1.3.6.7.1, from memory; scipy.stats.norm.ppf). */
const three = 2.9999769927033935;
const within3 = 0.9973;

describe("allowedDoubt(judged, doubt, wanted)", () => {
  it("of the only normal source is half the tolerance over the normal quantile", () => {
    const source = normal("a", 0.01);
    const { factor, standardUncertainty, boundBy } = allowedDoubt([coordinate(0.05, 0, [source])], alone(source), within3);
    expect(standardUncertainty).toBeCloseTo(0.05 / three, 5);
    expect(factor).toBeCloseTo(0.05 / three / 0.01, 3);
    expect(boundBy).toBe("c");
  });

  it("beside another normal source is what the root sum square leaves", () => {
    const [a, b] = [normal("a", 0.002), normal("b", 0.012)];
    const { standardUncertainty } = allowedDoubt([coordinate(0.05, 0, [a, b])], alone(a), within3);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt((0.05 / three) ** 2 - 0.012 ** 2), 5);
  });

  it("of the only rectangular source has the tolerance as the wanted share of its width", () => {
    const source = sourceOf("a", { shape: "rectangular", halfWidth: 0.01 });
    const { factor } = allowedDoubt([coordinate(0.05, 0, [source])], alone(source), 0.98);
    expect(factor * 0.01).toBeCloseTo(0.05 / 0.98, 5);
  });

  it("rests on chances that follow, for two equal normal axes in a round zone, 1 - exp(-r²/2σ²) (the distribution of Rayleigh)", () => {
    const [x, y] = [normal("x", 0.01), normal("y", 0.01)];
    const judged = position(
      0.1,
      [x, y],
      [x, y].map((source) => ({ ...source, id: `${source.id} too` })),
    );
    // Each axis is the sum of two sources.
    const r = 0.05;
    const needed = (r * r) / (-2 * Math.log(1 - 0.99));
    const both = chanceWith(judged, () => Math.sqrt(needed / 2) / 0.01);
    expect(both).toBeCloseTo(0.99, 6);
  });

  it("is nothing where the others alone miss the chance, and tells what it would be", () => {
    const [a, b] = [normal("a", 0.001), normal("b", 0.05)];
    const { factor, standardUncertainty, boundBy, chanceWithout } = allowedDoubt([coordinate(0.05, 0, [a, b])], alone(a), within3);
    expect([factor, standardUncertainty, boundBy]).toEqual([0, 0, "c"]);
    // One standard deviation to either side: 68.27 % (tables of the normal distribution).
    expect(chanceWithout).toBeCloseTo(0.682689, 5);
  });

  it("has no end where no characteristic follows the source", () => {
    const [a, b] = [normal("a", 0.001), normal("b", 0.001)];
    const { factor, boundBy } = allowedDoubt([coordinate(0.05, 0, [a])], alone(b), within3);
    expect([factor, boundBy]).toEqual([Number.POSITIVE_INFINITY, undefined]);
  });

  it("is set by the characteristic that misses first", () => {
    const source = normal("a", 0.01);
    const wide = coordinate(0.5, 0, [source]);
    const narrow = coordinate(0.02, 0, [source]);
    const { factor, boundBy } = allowedDoubt(
      [{ ...wide, characteristic: { ...wide.characteristic, id: "wide" } }, narrow],
      alone(source),
      within3,
    );
    expect(boundBy).toBe("c");
    expect(factor).toBeCloseTo(0.02 / three / 0.01, 3);
  });

  it("refuses a chance of one half or less, and certainty", () => {
    const source = normal("a", 0.01);
    for (const wanted of [0.5, 0, 1, Number.NaN])
      expect(() => allowedDoubt([coordinate(1, 0, [source])], alone(source), wanted)).toThrow(RangeError);
  });

  it("keeps the chance at the allowed size and misses it a little above", () => {
    const size = fc.double({ min: 0.0005, max: 0.02, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: -0.02, max: 0.02, noNaN: true }),
        fc.double({ min: 0.6, max: 0.999, noNaN: true }),
        (a, b, offset, wanted) => {
          const [first, second] = [normal("a", a), sourceOf("b", { shape: "rectangular", halfWidth: b })];
          const judged = coordinate(0.05, offset, [first, second]);
          const { factor } = allowedDoubt([judged], alone(first), wanted);
          fc.pre(factor > 0 && Number.isFinite(factor));
          const at = (size: number) => chanceWith(judged, (source) => (source === first ? size : 1));
          expect(at(factor)).toBeGreaterThanOrEqual(wanted);
          expect(at(factor * 1.001)).toBeLessThan(wanted + 1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("of a point within a circle is one size for both of its coordinates", () => {
    const pin = (axis: string) => ({
      ...sourceOf(`clearance ${axis}`, { shape: "normal", standardDeviation: 0.01 }),
      circle: "clearance of pin",
    });
    const judged = [position(0.1, [pin("X"), normal("x", 1e-6)], [pin("Y"), normal("y", 1e-6)])];
    const doubts = singleDoubts(judged);
    expect(doubts.map(({ label, sources }) => [label, sources.length])).toEqual([
      ["clearance of pin", 2],
      ["x", 1],
      ["y", 1],
    ]);
    // 1 - exp(-r²/2σ²) = 0.99 at r = 0.05 (the distribution of Rayleigh): both grow together.
    const { standardUncertainty } = allowedDoubt(judged, doubts[0] as SingleDoubt, 0.99);
    expect(standardUncertainty).toBeCloseTo(0.05 / Math.sqrt(-2 * Math.log(0.01)), 5);
  });
});
