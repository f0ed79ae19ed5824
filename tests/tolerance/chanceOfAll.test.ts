import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { chanceOfAll } from "../../lib/tolerance/chanceOfAll.ts";
import { sampleStack } from "../../lib/tolerance/sampleStack.ts";
import { Draws } from "../../lib/uncertainty/draws.ts";
import { generator, normal } from "../properties/random.ts";
import { combination, distanceStack, link, positionStack } from "../properties/stacks.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const seed = 20_260_425;
const gaussian = (id: string, standardDeviation: number) => link(id, { shape: "normal", standardDeviation });

/** Two distances and a position that share their first source. */
const sigma = fc.integer({ min: 4, max: 30 }).map((value) => value / 1000);
const offset = fc.integer({ min: -30, max: 30 }).map((value) => value / 1000);
const jobs = fc.record({ shared: sigma, first: sigma, second: sigma, hole: sigma, mean: offset, zone: fc.integer({ min: 60, max: 240 }) });

function stacksOf({
  shared,
  first,
  second,
  hole,
  mean,
  zone,
}: {
  shared: number;
  first: number;
  second: number;
  hole: number;
  mean: number;
  zone: number;
}) {
  const common = gaussian("zero", shared);
  return [
    distanceStack(
      combination(mean, [
        [1, common],
        [1, gaussian("first", first)],
      ]),
      -0.06,
      0.06,
      "one",
    ),
    distanceStack(
      combination(0, [
        [-1, common],
        [1, gaussian("second", second)],
      ]),
      -0.05,
      0.07,
      "other",
    ),
    positionStack(
      combination(mean, [
        [1, common],
        [1, gaussian("hole x", hole)],
      ]),
      combination(0, [[1, gaussian("hole y", hole)]]),
      zone / 1000,
    ),
  ];
}

describe("chanceOfAll", () => {
  const draws = new Draws(seed, 4000);

  it("chanceOfAll(stacks) keeps within the bounds that the single chances set (Fréchet)", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const stacks = stacksOf(job);
        const { chance, standardError } = chanceOfAll(stacks, draws);
        const chances = stacks.map((stack) => stack.chance);
        expect(chance).toBeLessThanOrEqual(Math.min(...chances) + 1e-12);
        expect(chance).toBeGreaterThanOrEqual(Math.max(0, 1 - chances.reduce((lost, each) => lost + 1 - each, 0)) - 1e-12);
        expect(standardError).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 60 },
    );
  });

  it("chanceOfAll(stacks) agrees with plain simulation by another generator, within five standard errors", () => {
    fc.assert(
      fc.property(jobs, fc.nat(), (job, start) => {
        const trials = 6000;
        const random = generator(start);
        let passed = 0;
        for (let trial = 0; trial < trials; trial++) {
          const zero = job.shared * normal(random);
          const one = job.mean + zero + job.first * normal(random);
          const other = job.second * normal(random) - zero;
          const x = job.mean + zero + job.hole * normal(random);
          const y = job.hole * normal(random);
          if (Math.abs(one) <= 0.06 && other >= -0.05 && other <= 0.07 && 2 * Math.hypot(x, y) <= job.zone / 1000) passed++;
        }
        const counted = passed / trials;
        const { chance, standardError } = chanceOfAll(stacksOf(job), draws);
        const scatter = Math.hypot(Math.sqrt((chance * (1 - chance)) / trials), standardError) + 1 / trials;
        expect(Math.abs(chance - counted)).toBeLessThan(5 * scatter);
      }),
      { numRuns: 25 },
    );
  });

  it("chanceOfAll(independent characteristics) is the product of their chances, within five standard errors", () => {
    fc.assert(
      fc.property(sigma, sigma, offset, (a, b, mean) => {
        const stacks = [
          distanceStack(combination(mean, [[1, gaussian("a", a)]]), -0.03, 0.03, "a"),
          distanceStack(combination(0, [[1, link("b", { shape: "rectangular", halfWidth: 2 * b })]]), -0.03, 0.03, "b"),
        ];
        const { chance, standardError } = chanceOfAll(stacks, draws);
        const product = stacks.reduce((total, stack) => total * stack.chance, 1);
        expect(Math.abs(chance - product)).toBeLessThan(5 * standardError + 3 / draws.trials);
      }),
      { numRuns: 40 },
    );
  });

  it("chanceOfAll(one characteristic many times over) is its single chance, within five standard errors", () => {
    fc.assert(
      fc.property(sigma, fc.integer({ min: 2, max: 6 }), (a, times) => {
        const stack = distanceStack(combination(0.004, [[1, gaussian("a", a)]]), -0.03, 0.03);
        const { chance, standardError } = chanceOfAll(
          Array.from({ length: times }, () => stack),
          draws,
        );
        expect(Math.abs(chance - stack.chance)).toBeLessThan(5 * standardError + 3 / draws.trials);
      }),
      { numRuns: 40 },
    );
  });

  // The same characteristic twice fails with itself: P(all) is the single chance. Not to have seen that in n trials does not make it certain.
  it("chanceOfAll(a rare failure, twice over) states a standard error that covers what the trials have not seen", () => {
    for (const standardDeviation of [0.006, 0.0065, 0.007, 0.0075]) {
      const stack = distanceStack(combination(0.004, [[1, gaussian("a", standardDeviation)]]), -0.03, 0.03);
      const { chance, standardError } = chanceOfAll([stack, stack], draws);
      expect(Math.abs(chance - stack.chance)).toBeLessThan(5 * standardError + 1e-6);
    }
  });

  it("chanceOfAll([one]) is its chance without trials; chanceOfAll([]) is certain", () => {
    const stack = distanceStack(combination(0, [[1, gaussian("a", 0.02)]]), -0.03, 0.03);
    expect(chanceOfAll([stack], draws)).toEqual({ chance: stack.chance, standardError: 0, scatter: 0, trials: 4000, seed });
    expect(chanceOfAll([], draws).chance).toBe(1);
  });

  it("chanceOfAll(stacks) does not depend on their order", () => {
    fc.assert(
      fc.property(jobs, (job) => {
        const stacks = stacksOf(job);
        expect(chanceOfAll([...stacks].reverse(), draws).chance).toBeCloseTo(chanceOfAll(stacks, draws).chance, 12);
      }),
      { numRuns: 15 },
    );
  });
});

describe("sampleStack", () => {
  const shapes = [
    link("r", { shape: "rectangular", halfWidth: 0.02 }),
    link("t", { shape: "triangular", halfWidth: 0.03 }),
    link("z", { shape: "trapezoidal", halfWidth: 0.02, topRatio: 0.5 }),
    link("u", { shape: "arcsine", halfWidth: 0.015 }),
    gaussian("n", 0.01),
  ];

  it("sampleStack(distance) scatters as its budget and fails as often as its chance says, within five standard errors", () => {
    const trials = 20_000;
    const stack = distanceStack(
      combination(
        0.005,
        shapes.map((shape, i) => [i % 2 ? -1 : 2, shape]),
      ),
      -0.05,
      0.06,
    );
    const sample = sampleStack(stack, new Draws(seed, trials));
    const mean = sample.reduce((sum, value) => sum + value, 0) / trials;
    const variance = sample.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (trials - 1);
    const u = stack.components[0]?.standardUncertainty ?? 0;
    expect(Math.abs(mean - 0.005)).toBeLessThan((5 * u) / Math.sqrt(trials));
    expect(Math.abs(Math.sqrt(variance) / u - 1)).toBeLessThan(5 / Math.sqrt(2 * trials));
    const within = sample.reduce((count, value) => (value >= -0.05 && value <= 0.06 ? count + 1 : count), 0) / trials;
    expect(Math.abs(within - stack.chance)).toBeLessThan(5 * Math.sqrt((stack.chance * (1 - stack.chance)) / trials));
  });

  it("sampleStack(position) is the diameter 2 √(x² + y²), and fails as often as its chance says", () => {
    const trials = 20_000;
    const half = shapes.map((shape, i): [number, (typeof shapes)[number]] => [i % 2 ? -0.6 : 0.8, shape]);
    const other = shapes.map((shape, i): [number, (typeof shapes)[number]] => [i % 3 ? 0.5 : -0.7, shape]);
    const stack = positionStack(combination(0.004, half), combination(-0.003, other), 0.08);
    const sample = sampleStack(stack, new Draws(seed, trials));
    expect(Math.min(...sample.subarray(0, 1000))).toBeGreaterThanOrEqual(0);
    const within = sample.reduce((count, value) => (value <= 0.08 ? count + 1 : count), 0) / trials;
    expect(Math.abs(within - stack.chance)).toBeLessThan(5 * Math.sqrt((stack.chance * (1 - stack.chance)) / trials));
    expect(stack.distribution.cumulative(0.08)).toBeCloseTo(stack.chance, 8);
  });
});
