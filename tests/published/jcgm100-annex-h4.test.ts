import { describe, expect, it } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { relativeStandardUncertainty } from "../../lib/uncertainty/relativeStandardUncertainty.ts";
import { type SimultaneousMeans, simultaneousReadings } from "../../lib/uncertainty/simultaneousReadings.ts";
import { fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { sourceOf } from "../properties/expressions.ts";

// JCGM 100:2008, annex H.4: activity of radon in water, six cycles of counting standard, blank and sample (tables H.7 and H.8; values from memory,
// recomputed). Minutes after the reference time and counts in a counting time of 60 minutes.
const cycles = [
  { standard: [243.74, 15_380], blank: 4_054, sample: [367.37, 41_432] },
  { standard: [984.53, 14_978], blank: 3_922, sample: [1_107.66, 38_706] },
  { standard: [1_723.87, 14_394], blank: 4_200, sample: [1_846.99, 35_860] },
  { standard: [2_463.17, 13_254], blank: 3_830, sample: [2_586.28, 32_238] },
  { standard: [3_217.56, 12_516], blank: 3_956, sample: [3_340.68, 29_640] },
  { standard: [3_956.83, 11_058], blank: 3_980, sample: [4_079.94, 26_356] },
] as const;
/** Per minute, of radon 222. */
const decay = 1.25894e-4;
/** Of the counts above the blank, per minute, as at the reference time. */
const rate = ([minutes, counts]: readonly [number, number], blank: number) => ((counts - blank) / 60) * Math.exp(decay * minutes);
const ofSample = cycles.map(({ sample, blank }) => rate(sample, blank));
const ofStandard = cycles.map(({ standard, blank }) => rate(standard, blank));
const ratios = ofSample.map((each, k) => each / (ofStandard[k] as number));

function readTogether(quantities: Readonly<Record<string, readonly number[]>>): SimultaneousMeans {
  const outcome = simultaneousReadings(
    Object.entries(quantities).map(([id, readings]) => ({ id, label: id, family: "process", readings })),
  );
  if (!outcome.ok) throw new Error(outcome.problems.map(describeProblem).join(" "));
  return outcome.value;
}

/** H.4.3: the activity of the standard, and the masses of standard and sample. */
function activity(ratio: Uncertain) {
  const [standard, massOfStandard, massOfSample] = [
    sourceOf("activity of the standard", 0.1368, 0.0018),
    sourceOf("mass of the standard", 5.0192, 0.005),
    sourceOf("mass of the sample", 5.0571, 0.001),
  ].map(fromSource) as [Uncertain, Uncertain, Uncertain];
  return budgetOf(standard.times(massOfStandard).over(massOfSample).times(ratio));
}

function near(found: number, printed: number, tolerance: number, of: string) {
  expect(Math.abs(found - printed), of).toBeLessThanOrEqual(tolerance);
}

describe("JCGM 100, H.4", () => {
  const together = readTogether({ sample: ofSample, standard: ofStandard });
  const [sample, standard] = together.means as [Uncertain, Uncertain];

  it("gum-h4-rates: the rates of every cycle, their means, uncertainties and correlation are those of table H.8", () => {
    const printed = [
      [652.46, 194.65, 3.352],
      [666.48, 208.58, 3.1953],
      [665.8, 211.08, 3.1543],
      [655.68, 214.17, 3.0615],
      [651.87, 213.92, 3.0473],
      [623.31, 194.13, 3.2107],
    ] as const;
    for (const [k, [x, s, ratio]] of printed.entries()) {
      near(ofSample[k] as number, x, 0.0051, `R_x, ${k + 1}`);
      near(ofStandard[k] as number, s, 0.0051, `R_S, ${k + 1}`);
      near(ratios[k] as number, ratio, 0.000051, `R, ${k + 1}`);
    }
    const [x, s] = [budgetOf(sample), budgetOf(standard)];
    near(x.value, 652.6, 0.005, "mean of the sample");
    near(x.standardUncertainty, 6.42, 0.005, "its u");
    near(relativeStandardUncertainty(x) as number, 0.98e-2, 0.5e-4, "its relative u");
    near(s.value, 206.09, 0.005, "mean of the standard");
    near(s.standardUncertainty, 3.79, 0.005, "its u");
    near(relativeStandardUncertainty(s) as number, 1.84e-2, 0.5e-4, "its relative u");
    near(entryOf(together.correlations, 0, 1), 0.646, 0.0005, "r");
  });

  it("gum-h4-approach1: the ratio of the correlated means is 3.167 with 0.045, and the activity 0.4300 Bq/g with 0.0083 (H.4.3.1)", () => {
    const ratio = budgetOf(sample.over(standard));
    near(ratio.value, 3.167, 0.0005, "ratio");
    near(ratio.standardUncertainty, 0.045, 0.0005, "its u");
    near(relativeStandardUncertainty(ratio) as number, 1.42e-2, 0.5e-4, "its relative u");
    const found = activity(sample.over(standard));
    // Worked out from 3.167, where the readings have 3.1666.
    near(found.value, 0.43, 0.0001, "activity");
    near(found.standardUncertainty, 0.0083, 0.00005, "its u");
    near(relativeStandardUncertainty(found) as number, 1.93e-2, 1e-4, "its relative u");
  });

  it("gum-h4-approach2: the mean of the ratios is 3.170 with 0.046, and the activity 0.4304 Bq/g with 0.0084 (H.4.3.2)", () => {
    const mean = readTogether({ ratio: ratios }).means[0] as Uncertain;
    const ratio = budgetOf(mean);
    near(ratio.value, 3.17, 0.0005, "ratio");
    near(ratio.standardUncertainty, 0.046, 0.0005, "its u");
    near(relativeStandardUncertainty(ratio) as number, 1.44e-2, 0.5e-4, "its relative u");
    const found = activity(mean);
    near(found.value, 0.4304, 0.00005, "activity");
    near(found.standardUncertainty, 0.0084, 0.00005, "its u");
    near(relativeStandardUncertainty(found) as number, 1.95e-2, 0.5e-4, "its relative u");
  });
});
