import { describe, expect, it } from "vitest";
import { emptyTally } from "../../../lib/uncertainty/trials/trialTally.ts";
import { distribution } from "../../../notebooks/figures/distribution.ts";
import type { DistributionView } from "../../../notebooks/figures/distributionView.ts";
import { outsideInWords } from "../../../notebooks/figures/outsideInWords.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

const normal = Array.from({ length: 61 }, (_, i) => {
  const at = -3 + i / 10;
  return { at, density: Math.exp((-at * at) / 2) / Math.sqrt(2 * Math.PI) };
});
const expanded = { expandedUncertainty: 2, coverageFactor: 2, coverageProbability: 0.9545, degreesOfFreedom: Number.POSITIVE_INFINITY };
const viewOf = (changes: Partial<DistributionView["firstOrder"]> = {}, others: Partial<DistributionView> = {}): DistributionView => ({
  firstOrder: {
    value: 0,
    standardUncertainty: 1,
    expanded,
    limits: undefined,
    within: undefined,
    curve: normal,
    ...changes,
  },
  wholeModel: undefined,
  corrected: [],
  tally: undefined,
  ...others,
});
const figure = (view: DistributionView, width = 520) =>
  drawn((environment) => distribution(view, { title: "wall", unit: "mm", width }, environment));

/** Trials of which all but the failed lie in one cell. */
function tallyAt(cell: number, count: number, failed = 0) {
  const tally = emptyTally("wall", 0, 1);
  tally.counts[cell] = count;
  tally.failed = failed;
  return tally;
}

describe("distribution(view, options)", () => {
  it.each([
    ["first order alone", viewOf()],
    ["limits at either side", viewOf({ limits: { lower: -4, upper: 4 }, within: { chance: 0.999937, doubt: 1e-9 } })],
    ["limits close together", viewOf({ limits: { lower: -0.01, upper: 0.01 }, within: { chance: 0.008, doubt: 1e-9 } })],
    ["a result that does not vary", viewOf({ curve: [], standardUncertainty: 0, expanded: { ...expanded, expandedUncertainty: 0 } })],
    ["trials", viewOf({}, { tally: tallyAt(2048, 1000), corrected: normal })],
    ["trials that have all failed", viewOf({}, { tally: tallyAt(0, 0, 1024) })],
  ])("is whole with %s", (_, view) => {
    for (const width of [320, 340, 520, 900]) expect(faultsOf(figure(view, width))).toEqual([]);
  });

  it("draws limits only where there is room, and tells them in words always", () => {
    const near = figure(viewOf({ limits: { lower: -4, upper: 4 }, within: { chance: 0.999937, doubt: 1e-9 } }));
    expect(near.root.querySelectorAll(".fig-limit")).toHaveLength(2);
    const far = figure(viewOf({ limits: { lower: -40, upper: 40 }, within: { chance: 1, doubt: 1e-9 } }));
    expect(far.root.querySelectorAll(".fig-limit")).toHaveLength(0);
    expect(far.words.join(" ")).toContain("Limits −40 and 40 mm.");
  });

  it("counts trials that failed, and never draws a column for them", () => {
    const { words, root } = figure(viewOf({}, { tally: tallyAt(2048, 1000, 24) }));
    expect(words.join(" ")).toContain("1 000 trials; in 24 more the model had no value".replace("1 000", "1\u202f000"));
    // One column: a single closed box.
    expect(root.querySelector("path.fig-trials")?.getAttribute("d")?.match(/Z/g)).toHaveLength(1);
    expect(figure(viewOf({}, { tally: tallyAt(0, 0, 24) })).root.querySelector("path.fig-trials")).toBeNull();
  });
});

describe("outsideInWords(chance, trials)", () => {
  it("tells a chance as far as it is known", () => {
    expect(outsideInWords({ chance: 0.98, doubt: 1e-9 })).toBe("0.02");
    expect(outsideInWords({ chance: 1 - 1e-8, doubt: 1e-6 })).toBe("below 1.0 × 10⁻⁶");
    expect(outsideInWords({ chance: 1 - 4e-9, doubt: 3e-9 })).toBe("4.0 × 10⁻⁹ ± 3.0 × 10⁻⁹");
    expect(outsideInWords({ chance: 1 - 8e-8, doubt: 3e-9 })).toBe("8.0 × 10⁻⁸");
    expect(outsideInWords({ chance: 1, doubt: 0 }, 10_000)).toBe("none of 10\u202f000 trials");
    expect(outsideInWords({ chance: 0.99, doubt: 0.001 }, 10_000)).toBe("0.01, standard error 0.001");
  });
});
