import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { addScaled, turnAboutZ, type Vector } from "../../lib/base/vector.ts";
import type { PartLocation } from "../../lib/datum/locatePart.ts";
import { optimalZero } from "../../lib/datum/optimalZero.ts";
import { type StrategySolution, solveStrategy, zeroFound } from "../../lib/datum/solveStrategy.ts";
import { disagreeBelow } from "../../lib/frame/agreement.ts";
import { type Budget, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { covarianceMatrix, covarianceOfBudgets } from "../../lib/uncertainty/covariance.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { runToEnd } from "../../lib/uncertainty/trials/runToEnd.ts";
import { runBlocks } from "../../lib/uncertainty/trials/runTrials.ts";
import { TrialModel } from "../../lib/uncertainty/trials/trialModel.ts";
import { momentsOf as momentsOfTally } from "../../lib/uncertainty/trials/trialTally.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { generator, normal } from "./random.ts";
import { documentOf, type Job, type Kind, kinds, open, type Stop, zeroOf } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// Properties that every way to set a zero has, whatever its numbers.

const runs = { numRuns: 12 };

function solve(job: Job) {
  return open(documentOf(job)).solution("s");
}

function moved(job: Job, motion: (centre: Vector) => Vector): Job {
  const { fixture } = job;
  return {
    ...job,
    stops: job.stops.map((stop): Stop => ({ ...stop, centre: motion(stop.centre) })),
    ...(fixture && { fixture: { ...fixture, frame: motion(fixture.frame) } }),
  };
}

function inOtherOrder(job: Job, by: number): Job {
  const reordered = <T>(rows: readonly T[]): T[] => {
    const cut = by % Math.max(1, rows.length);
    return [...rows.slice(cut), ...rows.slice(0, cut)].reverse();
  };
  const { fixture } = job;
  return {
    ...job,
    stops: reordered(job.stops),
    ...(fixture && { fixture: { ...fixture, locators: reordered(fixture.locators) } }),
  };
}

function values(kind: Kind, job: Job): number[] {
  return zeroOf(kind, solve(job)).map(({ value }) => value);
}

describe.each(kinds)("$name", (kind) => {
  it("shifting all readings shifts the zero by as much", () => {
    const shift = fc.tuple(...[0, 1, 2].map(() => fc.integer({ min: -900, max: 900 })));
    fc.assert(
      fc.property(kind.job, shift, (job, by) => {
        const before = values(kind, job);
        const after = values(
          kind,
          moved(job, (centre) => addScaled(centre, 1, by as unknown as Vector)),
        );
        const expected = before.map((value, i) => value + (i < kind.axes.length ? (by[kind.axes[i] as number] as number) : 0));
        after.forEach((value, i) => {
          expect(value).toBeCloseTo(expected[i] as number, 8);
        });
      }),
      runs,
    );
  });

  if (kind.mostTurn > 0) {
    it("turning all readings about a point turns the zero about it", () => {
      const angle = fc.integer({ min: -1000, max: 1000 }).map((thousandths) => (kind.mostTurn * thousandths) / 1000);
      fc.assert(
        fc.property(kind.job, angle, (job, by) => {
          const pivot: Vector = [-250, -130, 0];
          const about = (centre: Vector) => addScaled(pivot, 1, turnAboutZ(addScaled(centre, -1, pivot), by));
          const [x, y] = values(kind, job) as [number, number];
          const rotation = values(kind, job)[kind.axes.length];
          const after = values(kind, moved(job, about));
          const [expectedX, expectedY] = about([x, y, 0]);
          expect(after[0]).toBeCloseTo(expectedX, 8);
          expect(after[1]).toBeCloseTo(expectedY, 8);
          if (rotation !== undefined) expect(after[kind.axes.length]).toBeCloseTo(rotation + by, 10);
        }),
        runs,
      );
    });
  }

  it("the order of the touches, or of locators that are just enough, does not matter", () => {
    fc.assert(
      fc.property(kind.job, fc.integer({ min: 1, max: 7 }), (job, by) => {
        const before = budgetsOf(zeroOf(kind, solve(job)));
        const after = budgetsOf(zeroOf(kind, solve(inOtherOrder(job, by))));
        before.forEach(({ value, standardUncertainty }, i) => {
          expect(after[i]?.value).toBeCloseTo(value, 8);
          expect(after[i]?.standardUncertainty).toBeCloseTo(standardUncertainty, 9);
        });
      }),
      runs,
    );
  });

  it("covariance is symmetric, positive semidefinite, and has the squared uncertainties on its diagonal", () => {
    fc.assert(
      fc.property(kind.job, fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 12, maxLength: 12 }), (job, weights) => {
        const solution = solve(job);
        const results = [...zeroOf(kind, solution), ...solution.frame.sizes];
        const { rows, columns, entries } = covarianceMatrix(budgetsOf(results));
        const entry = (i: number, j: number) => entries[i * columns + j] as number;
        let form = 0;
        let scale = 0;
        for (let i = 0; i < rows; i++) {
          for (let j = 0; j < rows; j++) {
            expect(entry(i, j)).toBe(entry(j, i));
            expect(Math.abs(entry(i, j))).toBeLessThanOrEqual(Math.sqrt(entry(i, i) * entry(j, j)) * (1 + 1e-9) + 1e-18);
            const [a, b] = [weights[i] as number, weights[j] as number];
            form += a * b * entry(i, j);
            scale += a * a * entry(i, i);
          }
        }
        expect(form).toBeGreaterThanOrEqual(-1e-9 * scale);
        budgetsOf(results).forEach(({ standardUncertainty }, i) => {
          expect(Math.abs(standardUncertainty ** 2 - entry(i, i))).toBeLessThanOrEqual(1e-9 * entry(i, i));
        });
      }),
      runs,
    );
  });

  it("squared contributions add up to the variance, and each is the sensitivity times the source's uncertainty", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        for (const { standardUncertainty, contributions } of budgetsOf(zeroOf(kind, solve(job)))) {
          const total = contributions.reduce((sum, { amount }) => sum + amount ** 2, 0);
          expect(Math.abs(total - standardUncertainty ** 2)).toBeLessThanOrEqual(1e-9 * total);
          expect(standardUncertainty).toBeGreaterThan(0);
          for (const { source, sensitivity, amount } of contributions) {
            expect(amount).toBeCloseTo(sensitivity * standardUncertaintyOf(source.distribution), 15);
          }
        }
      }),
      runs,
    );
  });

  it("trials of the whole computation scatter as the first-order uncertainty says", () => {
    fc.assert(
      fc.property(kind.job, fc.integer({ min: 0, max: 1 << 30 }), (job, start) => {
        const results = zeroOf(kind, solve(job));
        const tape = new Tape(results);
        const trials = 300;
        const random = generator(start);
        const shrink = 0.02;
        const draws = tape.sources.map(({ estimate, distribution }) =>
          Float64Array.from({ length: trials }, () => estimate + shrink * standardUncertaintyOf(distribution) * normal(random)),
        );
        const columns = tape.evaluate(draws, trials);
        budgetsOf(results).forEach(({ value, standardUncertainty }, i) => {
          const { mean, deviation } = momentsOf(columns[i] as Float64Array);
          const expected = shrink * standardUncertainty;
          // Five standard errors of a mean and of a standard deviation (the latter's is s/√(2(n - 1)) for a normal).
          expect(Math.abs(mean - value)).toBeLessThanOrEqual((5 * expected) / Math.sqrt(trials) + 1e-9);
          expect(Math.abs(deviation - expected)).toBeLessThanOrEqual((5 * expected) / Math.sqrt(2 * (trials - 1)) + 1e-9);
        });
      }),
      { numRuns: 1 },
    );
  });

  it("the optimal estimate is never known worse, and leaves nothing that the same touches could still tell", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        const { location, solution } = open(documentOf(job));
        const found = solution("s");
        const best = optimalZero(found, location);
        if (best === undefined) {
          expect(found.frame.contrasts).toHaveLength(0);
          return;
        }
        if (!best.ok) {
          expect(found.frame.agreement?.chance).toBeLessThan(disagreeBelow);
          return;
        }
        const { coordinates, values: optimal } = best.value;
        const contrasts = budgetsOf(found.frame.contrasts);
        budgetsOf(optimal).forEach((budget, i) => {
          const { conventional, ratio } = coordinates[i] as (typeof coordinates)[number];
          expect(ratio).toBeLessThanOrEqual(1 + 1e-9);
          for (const contrast of contrasts) {
            const together = conventional.standardUncertainty * contrast.standardUncertainty;
            expect(Math.abs(covarianceOfBudgets(budget, contrast))).toBeLessThanOrEqual(1e-8 * together + 1e-18);
          }
        });
      }),
      runs,
    );
  });

  it("leaving a touch out never makes the optimal estimate better known", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        const { location, solution } = open(documentOf(job));
        const whole = solution("s");
        const all = bestOf(whole, location);
        if (all === undefined) return;
        for (const left of whole.strategy.touches) {
          const fewer = { ...whole.strategy, touches: whole.strategy.touches.filter((touch) => touch !== left) };
          const solved = solveStrategy(fewer, location);
          // A size that fewer touches no longer find is taken as drawn, without doubt: that is another question.
          if (!solved.ok || !sameQuestion(solved.value, whole)) continue;
          const less = bestOf(solved.value, location);
          less?.forEach((standardUncertainty, i) => {
            // Each is linear about its own solution, and these lie apart by the noise: some thousandths of a radius.
            expect(standardUncertainty).toBeGreaterThanOrEqual((all[i] as number) * (1 - 2e-3));
          });
        }
      }),
      { numRuns: 6 },
    );
  });

  it("trials of the whole model, as a study runs them, bear out zero and the optimal estimate", () => {
    fc.assert(
      fc.property(kind.job, fc.integer({ min: 0, max: 1 << 30 }), (job, start) => {
        const { location, solution } = open(documentOf(job));
        const best = optimalZero(solution("s"), location);
        const results = [...zeroOf(kind, solution("s")), ...(best?.ok ? best.value.values : [])];
        const budgets = budgetsOf(results);
        const outputs = results.map((value, i) => {
          const { standardUncertainty } = budgets[i] as Budget;
          return { name: String(i), value, centre: value.value, scale: standardUncertainty };
        });
        const blocks = 4;
        const { outputs: tallies } = runToEnd(runBlocks(new TrialModel(outputs, start), 0, blocks), () => undefined);
        tallies.forEach((tally, i) => {
          const { standardUncertainty, value } = budgets[i] as Budget;
          const { mean, standardDeviation, count } = momentsOfTally(tally);
          expect(count).toBe(blocks * blockSize);
          // Five standard errors (of a standard deviation s/√(2(n - 1)) for a normal, less for what is flatter), and a thousandth for curvature.
          expect(Math.abs(mean - value)).toBeLessThanOrEqual((5 / Math.sqrt(count) + 1e-3) * standardUncertainty);
          expect(Math.abs(standardDeviation / standardUncertainty - 1)).toBeLessThanOrEqual(5 / Math.sqrt(2 * (count - 1)) + 1e-3);
        });
      }),
      { numRuns: 1 },
    );
  });

  it("draws at the best estimates give the values themselves", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        const results: Uncertain[] = zeroOf(kind, solve(job));
        const tape = new Tape(results);
        const columns = tape.evaluate(
          tape.sources.map(({ estimate }) => Float64Array.of(estimate)),
          1,
        );
        results.forEach(({ value }, i) => {
          // The trial solver starts from its solution and takes a last step of 1e-9 mm at most.
          expect(Math.abs((columns[i]?.[0] as number) - value)).toBeLessThanOrEqual(1e-9);
        });
      }),
      { numRuns: 4 },
    );
  });
});

/** Standard uncertainties of the optimal estimate, or of the only one; undefined where touches disagree. */
function bestOf(solution: StrategySolution, location: PartLocation): readonly number[] | undefined {
  const best = optimalZero(solution, location);
  if (best !== undefined)
    return best.ok ? best.value.coordinates.map(({ optimal: { standardUncertainty } }) => standardUncertainty) : undefined;
  const found = zeroFound(solution);
  const { zero, rotation } = solution.fromReadings;
  const known = [...zero.filter((_, axis) => found[axis]), ...(solution.strategy.rotation === "ignored" ? [] : [rotation])];
  return budgetsOf(known).map(({ standardUncertainty }) => standardUncertainty);
}

function sameQuestion(a: StrategySolution, b: StrategySolution): boolean {
  const whole = ({ frame }: StrategySolution) => [...frame.determined, ...frame.sizesDetermined].join();
  return whole(a) === whole(b) && a.frame.rank === b.frame.rank;
}

function momentsOf(values: Float64Array): { mean: number; deviation: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, deviation: Math.sqrt(square / (values.length - 1)) };
}
