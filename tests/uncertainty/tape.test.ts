import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { budgetOf, budgetsOf } from "../../lib/uncertainty/budget.ts";
import { covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { binary, certain, fromSource, Solution, type Solver, sum, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { formulas, inputsAt, plain, sourceOf, taped } from "../properties/expressions.ts";

const estimates = fc.array(
  fc.integer({ min: -30, max: 30 }).map((tenths) => tenths / 10 + 0.05),
  { minLength: 4, maxLength: 4 },
);

describe("Tape, values and derivatives", () => {
  it("values of random formulas are those of plain arithmetic", () => {
    fc.assert(
      fc.property(formulas, estimates, (formula, at) => {
        expect(taped(formula, inputsAt(at)).value).toBeCloseTo(plain(formula, at), 10);
      }),
      { numRuns: 300 },
    );
  });

  it("sensitivities of random formulas are central differences of plain arithmetic", () => {
    const step = 1e-5;
    fc.assert(
      fc.property(formulas, estimates, (formula, at) => {
        const tape = new Tape([taped(formula, inputsAt(at))]);
        at.forEach((_, i) => {
          const shifted = (by: number) =>
            plain(
              formula,
              at.map((value, k) => (k === i ? value + by : value)),
            );
          const difference = (shifted(step) - shifted(-step)) / (2 * step);
          const column = tape.sources.findIndex(({ id }) => id === `x${i}`);
          const sensitivity = column < 0 ? 0 : (tape.sensitivities(0)[column] as number);
          expect(Math.abs(sensitivity - difference)).toBeLessThan(1e-5 * (1 + Math.abs(difference)));
        });
      }),
      { numRuns: 300 },
    );
  });

  it("evaluate(draws, count) is plain arithmetic trial by trial", () => {
    fc.assert(
      fc.property(formulas, fc.array(estimates, { minLength: 1, maxLength: 5 }), (formula, trials) => {
        const tape = new Tape([taped(formula, inputsAt(trials[0] as number[]))]);
        const draws = tape.sources.map(({ id }) => Float64Array.from(trials, (at) => at[Number(id.slice(1))] as number));
        const [column] = tape.evaluate(draws, trials.length) as [Float64Array];
        trials.forEach((at, trial) => {
          expect(column[trial]).toBeCloseTo(plain(formula, at), 10);
        });
      }),
      { numRuns: 150 },
    );
  });

  it("minimum and maximum follow the smaller and the larger, absolute the sign", () => {
    const [a, b] = inputsAt([2, 3]) as [Uncertain, Uncertain];
    const tape = new Tape([binary("minimum", a, b), binary("maximum", a, b), unary("absolute", a.negated())]);
    expect(tape.outputs.map(({ value }) => value)).toEqual([2, 3, 2]);
    expect([0, 1, 2].map((i) => [...tape.sensitivities(i)])).toEqual([
      [1, 0],
      [0, 1],
      [1, 0],
    ]);
  });
});

describe("Tape.isLinear", () => {
  const [a, b] = inputsAt([1.5, -0.7]) as [Uncertain, Uncertain];
  it.each<[string, Uncertain, boolean]>([
    ["a constant", certain(3), true],
    ["sums with fixed factors", a.times(2).plus(b.over(4)).minus(1).negated(), true],
    ["a factor that is worked out from constants", a.times(unary("sine", binary("divide", certain(1), certain(3)))), true],
    ["a product of two sources", a.times(b), false],
    ["a source in the denominator", certain(1).over(a), false],
    ["a square root", unary("squareRoot", a), false],
    ["a sum in which one term is bent", a.plus(a.times(b)), false],
  ])("%s: %#", (_, result, expected) => {
    expect(new Tape([result]).isLinear(0)).toBe(expected);
  });
});

describe("Tape, what results share", () => {
  it("t - t has no doubt at all, whatever t is", () => {
    fc.assert(
      fc.property(formulas, estimates, (formula, at) => {
        const t = taped(formula, inputsAt(at));
        const { value, standardUncertainty } = budgetOf(t.minus(t));
        // Less 0 it is itself, -0 too, which is nothing as well.
        expect(Math.abs(value)).toBe(0);
        expect(standardUncertainty).toBe(0);
      }),
      { numRuns: 150 },
    );
  });

  it("(y - x) - y + x and t / t cancel to rounding", () => {
    const [x, y] = inputsAt([412.607, 286.743]) as [Uncertain, Uncertain];
    expect(budgetOf(y.minus(x).minus(y).plus(x)).standardUncertainty).toBe(0);
    expect(budgetOf(x.over(x)).standardUncertainty).toBeLessThan(1e-18);
  });

  it("a source that counts twice counts linearly: u(2x) = 2u(x), u(x + y) = √2 u for two sources", () => {
    const [x, y] = inputsAt([1, 1]) as [Uncertain, Uncertain];
    expect(budgetOf(x.plus(x)).standardUncertainty).toBeCloseTo(0.002, 15);
    expect(budgetOf(x.plus(y)).standardUncertainty).toBeCloseTo(0.001 * Math.SQRT2, 15);
  });

  it("covariance of sums of shared sources is J V Jᵀ", () => {
    const [a, b, c] = [sourceOf("a", 0, 1), sourceOf("b", 0, 2), sourceOf("c", 0, 3)].map(fromSource) as [Uncertain, Uncertain, Uncertain];
    const { entries } = covarianceMatrix(budgetsOf([a.plus(b), b.minus(c), c.times(2)]));
    // By hand from variances 1, 4, 9.
    expect([...entries]).toEqual([5, 4, 0, 4, 13, -18, 0, -18, 36]);
  });

  it("new Tape(results) refuses two different sources of one id, and takes the same source twice", () => {
    const one = sourceOf("radius", 3);
    const other = sourceOf("radius", 3);
    expect(() => new Tape([fromSource(one).plus(fromSource(other))])).toThrow('two different sources carry the id "radius"');
    expect(new Tape([fromSource(one).plus(fromSource(one))]).sources).toEqual([one]);
  });

  it("new Tape([]) has neither sources nor results; a constant has no sources", () => {
    expect(new Tape([]).sources).toEqual([]);
    expect(budgetOf(certain(4))).toMatchObject({ value: 4, standardUncertainty: 0, contributions: [] });
  });
});

describe("Tape, large computations", () => {
  it("a chain of 50 000 additions does not overflow the stack, and its derivative is the count", () => {
    const x = fromSource(sourceOf("x", 1));
    let chain: Uncertain = certain(0);
    for (let i = 0; i < 50_000; i++) chain = chain.plus(x);
    const tape = new Tape([chain]);
    expect(chain.value).toBe(50_000);
    expect(tape.sensitivities(0)[0]).toBe(50_000);
    expect(tape.evaluate([Float64Array.of(2)], 1)[0]?.[0]).toBe(100_000);
  });

  it("a chain of 50 000 sines keeps derivative and value", () => {
    const x = fromSource(sourceOf("x", 0.5));
    let chain: Uncertain = x;
    let value = 0.5;
    let derivative = 1;
    for (let i = 0; i < 50_000; i++) {
      chain = unary("sine", chain);
      derivative *= Math.cos(value);
      value = Math.sin(value);
    }
    expect(chain.value).toBe(value);
    expect(new Tape([chain]).sensitivities(0)[0]).toBeCloseTo(derivative, 12);
  });

  it("a shared step is laid out once: 60 doublings are 60 steps and not 2⁶⁰", () => {
    let value: Uncertain = fromSource(sourceOf("x", 1));
    for (let i = 0; i < 60; i++) value = value.plus(value);
    expect(new Tape([value]).sensitivities(0)[0]).toBe(2 ** 60);
  });

  it("sum(terms) of nothing is 0", () => {
    expect(sum([]).value).toBe(0);
  });
});

describe("Tape, solved steps", () => {
  /** x of x³ + a x = b: one real solution for a > 0 (Newton in the test); dx/da = -x/(3x² + a), dx/db = 1/(3x² + a). */
  const cubic: Solver = {
    outputCount: 1,
    solve(inputs, outputs) {
      const [a, b] = inputs as unknown as [number, number];
      if (!(a > 0)) return false;
      let x = 0;
      for (let i = 0; i < 100; i++) x -= (x ** 3 + a * x - b) / (3 * x * x + a);
      outputs[0] = x;
      return true;
    },
    sensitivities(inputs, outputs) {
      const [a] = inputs as unknown as [number];
      const [x] = outputs as unknown as [number];
      return Float64Array.of(-x / (3 * x * x + a), 1 / (3 * x * x + a));
    },
  };

  it("a solved step passes its own derivatives on, and is solved again in every trial", () => {
    const [a, b] = inputsAt([2, 3]) as [Uncertain, Uncertain];
    const [x] = new Solution(cubic, [a.plus(b), b]).outputs() as [Uncertain];
    const tape = new Tape([x.times(10)]);
    const root = x.value;
    expect(root ** 3 + 5 * root).toBeCloseTo(3, 12);
    expect(tape.sensitivities(0)[0]).toBeCloseTo((-10 * root) / (3 * root ** 2 + 5), 12);
    expect(tape.sensitivities(0)[1]).toBeCloseTo((10 * (1 - root)) / (3 * root ** 2 + 5), 12);
    const [column] = tape.evaluate([Float64Array.of(2, 4, -9), Float64Array.of(3, 1, 3)], 3) as [Float64Array];
    expect(column[0]).toBeCloseTo(10 * root, 12);
    expect(((column[1] as number) / 10) ** 3 + 5 * ((column[1] as number) / 10)).toBeCloseTo(1, 12);
    expect(column[2]).toBeNaN();
  });

  it("new Solution(solver, inputs) refuses a rule without a solution at the best estimates", () => {
    expect(() => new Solution(cubic, inputsAt([-1, 1]))).toThrow("no solution at the best estimates");
  });
});
