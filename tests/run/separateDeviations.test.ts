import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import {
  type Cause,
  type MeasuredDeviation,
  type Separation,
  separateDeviations,
  usualCauses,
  whatWouldSeparate,
} from "../../lib/run/separateDeviations.ts";

// By numpy's lstsq: bestZero.py makes the file.
const { splits } = JSON.parse(readFileSync(new URL("../reference/bestZero.json", import.meta.url), "utf8")) as {
  splits: { deviations: MeasuredDeviation[]; estimates: number[]; standardUncertainties: number[]; residualStandardDeviation: number }[];
};

const shiftX: Cause = { kind: "shift", axis: "X" };
const shiftY: Cause = { kind: "shift", axis: "Y" };
const turn: Cause = { kind: "turn" };
const scale: Cause = { kind: "scale" };

const measured = (
  feature: string,
  tool: string,
  x: number,
  y: number,
  axis: "X" | "Y" | "Z",
  deviation = 0,
  part = "1",
): MeasuredDeviation => ({
  part,
  feature,
  tool,
  place: [x, y],
  axis,
  deviation,
});

function separated(deviations: readonly MeasuredDeviation[], causes: readonly Cause[]): Separation {
  const separation = separateDeviations(deviations, causes);
  if (!separation.ok) throw new Error("not separated");
  return separation.value;
}

function estimateOf(separation: Separation, index: number) {
  const found = separation.causes[index]?.found;
  if (!found?.ok) throw new Error(`cause ${index} is not found`);
  return found.value;
}

describe("separateDeviations(deviations, causes)", () => {
  it.each(splits.map((each, i) => [i, each] as const))("agrees with numpy's least squares, case %d", (_, split) => {
    const causes: Cause[] = [
      shiftX,
      shiftY,
      turn,
      scale,
      ...["drill", "mill"].flatMap((tool): Cause[] => [
        { kind: "pull", tool, axis: "X" },
        { kind: "pull", tool, axis: "Y" },
      ]),
    ];
    const found = separated(split.deviations, causes);
    split.estimates.forEach((estimate, k) => {
      expect(estimateOf(found, k).estimate).toBeCloseTo(estimate, 12);
      expect(estimateOf(found, k).standardUncertainty).toBeCloseTo(split.standardUncertainties[k] as number, 12);
    });
    // The mill's pull is the drill's with the other sign.
    expect(estimateOf(found, 6).estimate).toBeCloseTo(-(split.estimates[4] as number), 12);
    expect(found.residualStandardDeviation).toBeCloseTo(split.residualStandardDeviation, 12);
    found.causes.forEach((_each, k) => {
      const u = estimateOf(found, k).standardUncertainty as number;
      expect(entryOf(found.covariance as NonNullable<Separation["covariance"]>, k, k)).toBeCloseTo(u * u, 12);
    });
  });

  it("finds what deviations were made of, whatever it was, in any order", () => {
    const size = fc.double({ min: -0.05, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(size, size, size, size, size, size, (sx, sy, theta, m, px, py) => {
        const places = [
          [-80, -40],
          [80, -40],
          [80, 40],
          [-80, 40],
          [0, 0],
        ] as const;
        const rows = places.flatMap(([x, y], i) => {
          const tool = i % 2 === 0 ? "a" : "b";
          const sign = i % 2 === 0 ? 1 : -1;
          return [
            measured(`h${i}`, tool, x, y, "X", sx - (theta / 100) * y + (m / 100) * x + sign * px),
            measured(`h${i}`, tool, x, y, "Y", sy + (theta / 100) * x + (m / 100) * y + sign * py),
          ];
        });
        const causes = usualCauses(rows);
        for (const order of [rows, [...rows].reverse()]) {
          const found = separated(order, causes);
          const by = (wanted: Cause) =>
            estimateOf(
              found,
              causes.findIndex((cause) => JSON.stringify(cause) === JSON.stringify(wanted)),
            ).estimate;
          expect(by(shiftX)).toBeCloseTo(sx, 10);
          expect(by(shiftY)).toBeCloseTo(sy, 10);
          expect(by(turn)).toBeCloseTo(theta / 100, 12);
          expect(by(scale)).toBeCloseTo(m / 100, 12);
          expect(by({ kind: "pull", tool: "a", axis: "X" })).toBeCloseTo(px, 10);
          expect(by({ kind: "pull", tool: "b", axis: "Y" })).toBeCloseTo(-py, 10);
          expect(Math.max(...found.residuals.map(Math.abs))).toBeLessThan(1e-12);
        }
      }),
    );
  });

  it("says what cannot be told apart, and which measurement would tell", () => {
    // Along Y the drill cut one hole and the mill one: the turn moves them just as their pulls do.
    const rows = [
      measured("h1", "drill", 0, 0, "Y", 0.01),
      measured("h2", "mill", 100, 0, "Y", 0.02),
      measured("h1", "drill", 0, 0, "X", 0),
      measured("h2", "mill", 100, 0, "X", 0.001),
    ];
    const causes: Cause[] = [shiftX, shiftY, turn, { kind: "pull", tool: "drill", axis: "Y" }, { kind: "pull", tool: "mill", axis: "Y" }];
    const found = separated(rows, causes);
    expect(found.causes[0]?.found.ok).toBe(true);
    expect(found.confounded).toEqual([[shiftY, turn, causes[3], causes[4]]]);
    expect(JSON.stringify(found.causes[2]?.found)).toContain('a turn, a pull of \\"drill\\" along Y');
    const candidates = [
      { feature: "h1", tool: "drill", place: [0, 0], axis: "Y" },
      { feature: "h3", tool: "drill", place: [50, 0], axis: "Y" },
      { feature: "h4", tool: "drill", place: [150, 0], axis: "Y" },
      { feature: "h5", tool: "mill", place: [10, 5], axis: "X" },
    ] as const;
    const better = whatWouldSeparate(rows, causes, candidates);
    expect(better.map(({ feature }) => feature).slice(0, 2)).toEqual(["h4", "h3"]);
    expect(better.map(({ feature }) => feature)).not.toContain("h1");
    const [first] = better;
    const more = separated([...rows, { ...(first as (typeof better)[number]), part: "1", deviation: 0.03 }], causes);
    expect(more.confounded).toEqual([]);
  });

  it("tells a cause that no feature shows at all by itself", () => {
    const found = separated([measured("h1", "a", 0, 0, "X", 0.01)], [shiftX, turn]);
    expect(found.confounded).toEqual([[turn]]);
    expect(JSON.stringify(found.causes[1]?.found)).toContain("no measured feature shows a turn");
    expect(estimateOf(found, 0)).toMatchObject({ estimate: 0.01, standardUncertainty: undefined });
  });

  // Shifts of 0.010, 0.014 and 0.012: mean 0.012, s = 0.002, u = 0.002/√3.
  it("takes the doubt of several parts from how they differ", () => {
    const rows = [0.01, 0.014, 0.012].map((deviation, i) => measured("h1", "a", 0, 0, "X", deviation, String(i)));
    const { estimate, standardUncertainty, degreesOfFreedom, perPart } = estimateOf(separated(rows, [shiftX]), 0);
    expect(estimate).toBeCloseTo(0.012, 15);
    expect(standardUncertainty).toBeCloseTo(0.002 / Math.sqrt(3), 15);
    expect(degreesOfFreedom).toBe(2);
    expect(perPart).toEqual([0.01, 0.014, 0.012]);
  });

  it("says that there is nothing where nothing is measured", () => {
    expect(separateDeviations([], [shiftX]).ok).toBe(false);
  });
});
