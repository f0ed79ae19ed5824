import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { unitVector } from "../../lib/base/vector.ts";
import { type FrameContact, solveFrame } from "../../lib/frame/solveFrame.ts";
import { type SecondOrder, secondOrder, secondOrderMatters } from "../../lib/uncertainty/secondOrder.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { binary, certain, fromSource, sum, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import { formulas, plain, sourceOf, taped } from "../properties/expressions.ts";

const normal = (id: string, estimate: number, u: number) => fromSource(sourceOf(id, estimate, u));
const shaped = (id: string, estimate: number, distribution: SourceDistribution) => fromSource({ ...sourceOf(id, estimate), distribution });

function only(result: Uncertain): SecondOrder {
  const [found] = secondOrder([result]);
  if (!found?.ok) throw new Error(JSON.stringify(found));
  return found.value;
}

describe("secondOrder, closed forms", () => {
  it("the square of a normal: 2 u⁴ beside 4 x² u², and its expectation u² beside x²", () => {
    const found = only(normal("x", 3, 0.2).power(2));
    expect(found.firstOrder).toBeCloseTo(1.2, 12);
    expect(found.variance).toBeCloseTo(2 * 0.2 ** 4, 12);
    expect(found.shift).toBeCloseTo(0.04, 12);
    expect(found.doubt).toBeLessThan(1e-12);
  });

  // (x y): the whole variance is x² v + y² u² + u² v², for any shapes.
  it("a product of a rectangle and an arcsine: the product of both variances", () => {
    const x = shaped("x", 2, { shape: "rectangular", halfWidth: 0.3 });
    const y = shaped("y", -1, { shape: "arcsine", halfWidth: 0.2 });
    expect(only(x.times(y)).variance).toBeCloseTo((0.3 ** 2 / 3) * (0.2 ** 2 / 2), 12);
  });

  // E d⁴ - (E d²)² of the deviation d: rectangle a⁴/5 - a⁴/9, arcsine 3a⁴/8 - a⁴/4, triangle a⁴/15 - a⁴/36.
  it.each([
    ["rectangular", 1 / 5 - 1 / 9],
    ["arcsine", 3 / 8 - 1 / 4],
    ["triangular", 1 / 15 - 1 / 36],
  ] as const)("the square of a %s source about 0 has the variance of its own fourth moment", (shape, factor) => {
    const found = only(shaped("x", 0, { shape, halfWidth: 0.5 }).power(2));
    expect(found.firstOrder).toBe(0);
    expect(found.standardUncertainty).toBeCloseTo(Math.sqrt(factor * 0.5 ** 4), 10);
  });

  // x = c + d with d + m exponential of mean m: Var x² = 4c² m² + 4c·2m³ + (9 - 1) m⁴, from the central moments m², 2m³, 9m⁴.
  it("the square of an exponential source has its skewness too", () => {
    const [c, m] = [2, 0.1];
    const found = only(shaped("x", c, { shape: "exponential", mean: m }).power(2));
    expect(found.firstOrder ** 2).toBeCloseTo(4 * c * c * m * m, 12);
    expect(found.variance).toBeCloseTo(8 * c * m ** 3 + 8 * m ** 4, 12);
  });

  // f = x³ at c: f' = 3c², f'' = 6c, f''' = 6: ½ (6c)² u⁴ + 3c²·6 u⁴ = 36 c² u⁴.
  it("a cube has the term of the third derivative", () => {
    expect(only(normal("x", 1.5, 0.1).power(3)).variance).toBeCloseTo(36 * 1.5 ** 2 * 0.1 ** 4, 10);
  });

  it("a linear result has none, nor has one without doubt", () => {
    const found = only(sum([normal("x", 1, 0.1), normal("y", 2, 0.2).times(3).over(7)]).minus(5));
    expect(found).toMatchObject({ variance: 0, shift: 0, doubt: 0, terms: [] });
    expect(only(certain(3))).toMatchObject({ firstOrder: 0, standardUncertainty: 0, variance: 0 });
    expect(secondOrderMatters(only(certain(3)), 2)).toBe("does not matter");
  });
});

// Five-point rules (Abramowitz and Stegun 25.4.46 and 25.4.29, weights of a density): exact for polynomials up to the ninth degree.
const rules: Readonly<Record<"normal" | "rectangular", readonly (readonly [place: number, weight: number])[]>> = {
  normal: [
    [0, 8 / 15],
    [1.3556261799742658, 0.22207592200561264],
    [2.8569700138728056, 0.011257411327720691],
  ],
  rectangular: [
    [0, 64 / 225],
    [0.5384693101056831, 0.23931433524968324],
    [0.906179845938664, 0.11846344252809454],
  ],
};

function nodesOf(shape: keyof typeof rules): readonly { readonly place: number; readonly weight: number }[] {
  return rules[shape].flatMap(([place, weight]) =>
    place === 0
      ? [{ place, weight }]
      : [
          { place, weight },
          { place: -place, weight },
        ],
  );
}

/** Expectation and variance of a formula of four inputs by the product of the rules: the whole model, in plain arithmetic. */
function moments(f: (inputs: readonly number[]) => number, at: readonly number[], scale: number, shapes: readonly (keyof typeof rules)[]) {
  let all = [{ inputs: [] as readonly number[], weight: 1 }];
  at.forEach((estimate, i) => {
    const nodes = nodesOf(shapes[i] as keyof typeof rules);
    all = all.flatMap(({ inputs, weight }) =>
      nodes.map((node) => ({ inputs: [...inputs, estimate + scale * node.place], weight: weight * node.weight })),
    );
  });
  const middle = f(at);
  const values = all.map(({ inputs, weight }) => ({ value: f(inputs) - middle, weight }));
  const mean = values.reduce((total, { value, weight }) => total + weight * value, 0);
  return { shift: mean, variance: values.reduce((total, { value, weight }) => total + weight * (value - mean) ** 2, 0) };
}

describe("secondOrder, random formulas", () => {
  it("agrees with the moments of the whole model, of normal and rectangular sources, but for what is of higher order", () => {
    const estimates = fc.array(
      fc.integer({ min: -30, max: 30 }).map((tenths) => tenths / 10 + 0.05),
      { minLength: 4, maxLength: 4 },
    );
    const shapesOf = fc.array(fc.constantFrom("normal" as const, "rectangular" as const), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(formulas, estimates, shapesOf, (formula, at, shapes) => {
        const inputs = (scale: number) =>
          at.map((estimate, i) =>
            shaped(
              `x${i}`,
              estimate,
              shapes[i] === "normal" ? { shape: "normal", standardDeviation: scale } : { shape: "rectangular", halfWidth: scale },
            ),
          );
        // What is left over shrinks with the sixth power of u, so that half of it leaves a 64th: that tells it from a wrong term.
        const leftAt = (scale: number) => {
          const found = only(taped(formula, inputs(scale)));
          const whole = moments((values) => plain(formula, values), at, scale, shapes);
          const left = whole.variance - found.firstOrder ** 2 - found.variance;
          return { left: Math.abs(left), term: Math.abs(found.variance), rounding: 1e-13 * (found.firstOrder ** 2 + whole.variance) };
        };
        const [coarse, fine] = [leftAt(0.01), leftAt(0.005)];
        expect(fine.left).toBeLessThanOrEqual(coarse.left / 40 + 1e-4 * fine.term + fine.rounding);
      }),
      { numRuns: 300 },
    );
  });
});

describe("secondOrder, solved steps", () => {
  // Two touches of an edge, a length L apart: the rotation is arctan((a - b)/L) for plain lengths a and b along Y and no reach,
  // f' = 1/L, f''' = -2/L³ at 0 by v = 2u²: f' f''' v² = -8u⁴/L⁴.
  it("the turn of an edge touched at two places has the terms of the arctangent", () => {
    const [L, u] = [20, 0.5];
    const front = { kind: "plane", point: [0, 0, 0], outward: [0, -1, 0] } as const;
    const touch = (x: number): FrameContact => ({
      surface: front,
      centre: [x, 0, 0],
      travel: unitVector("+Y"),
      movements: [],
      weight: 1,
      advance: normal(`advance ${x}`, 0, u),
      reach: certain(0),
    });
    const frame = solveFrame([touch(0), touch(L)], [], true);
    if (!frame.ok) throw new Error("expected a frame");
    const found = only(frame.value.rotation);
    expect(found.firstOrder).toBeCloseTo((Math.SQRT2 * u) / L, 12);
    expect(Math.abs(found.variance / ((-8 * u ** 4) / L ** 4) - 1)).toBeLessThan(1e-4);
    // The pair of both touches, and each with itself.
    expect(found.terms).toHaveLength(3);
  });

  it("a bore of three touches, with scatter that is a tenth of its radius, has the variance of trials", () => {
    const bore = { kind: "bore", axis: [0, 0, 0], radius: 10 } as const;
    const touches = [0, 1, 2].map((k): FrameContact => {
      const angle = (2 * Math.PI * k) / 3 + 0.3;
      return {
        surface: bore,
        centre: [10 * Math.cos(angle), 10 * Math.sin(angle), 0],
        travel: [Math.cos(angle), Math.sin(angle), 0],
        movements: [{ size: 0, shift: [0, 0, 0], growth: 1 }],
        weight: 1,
        advance: normal(`advance ${k}`, 0, 1),
        reach: certain(0),
      };
    });
    const frame = solveFrame(touches, [{ mode: "free", scale: 1, given: certain(0) }], false);
    if (!frame.ok) throw new Error("expected a frame");
    const results = [frame.value.origin[0], frame.value.origin[1], frame.value.sizes[0] as Uncertain];
    const tape = new Tape(results);
    // The nodes of the rule in place of draws.
    const nodes = nodesOf("normal");
    const draws = nodes.flatMap((a) =>
      nodes.flatMap((b) => nodes.map((c) => ({ at: [a.place, b.place, c.place], weight: a.weight * b.weight * c.weight }))),
    );
    const columns = tape.evaluate(
      tape.sources.map((_, i) => Float64Array.from(draws, ({ at }) => at[i] as number)),
      draws.length,
    );
    secondOrder(results).forEach((found, k) => {
      if (!found.ok) throw new Error("expected terms");
      const column = columns[k] as Float64Array;
      const mean = draws.reduce((total, { weight }, i) => total + weight * (column[i] as number), 0);
      const variance = draws.reduce((total, { weight }, i) => total + weight * ((column[i] as number) - mean) ** 2, 0);
      const { firstOrder, variance: terms, shift } = found.value;
      const left = variance - firstOrder ** 2 - terms;
      expect(Math.abs(terms)).toBeGreaterThan(0.003 * firstOrder ** 2);
      expect(Math.abs(left)).toBeLessThan(0.1 * Math.abs(terms));
      expect(Math.abs(mean - (results[k] as Uncertain).value - shift)).toBeLessThan(0.1 * Math.abs(shift) + 1e-9);
    });
  });
});

describe("secondOrder, where it is not known", () => {
  it("a model without a value within one standard uncertainty says so, and the other results stand", () => {
    const x = normal("x", 0.5, 0.6);
    const [root, square] = secondOrder([unary("squareRoot", x), x.power(2)]);
    expect(root).toMatchObject({ ok: false, problems: [{ what: expect.stringContaining("has no value") }] });
    expect(square?.ok).toBe(true);
  });

  it("a kink matters, and most of what it seems to add is in doubt", () => {
    const found = only(unary("absolute", normal("x", 0, 1)).plus(normal("y", 0, 1)));
    expect(found.firstOrder).toBe(1);
    expect(secondOrderMatters(found, 2)).not.toBe("does not matter");
    expect(found.doubt).toBeGreaterThan(0.5 * (found.standardUncertainty - found.firstOrder));
  });

  // y = x - c x³ with 1 - 6cu² + ... < 0 left: f' = 1, f''' = -6c, so that u² - 6c u⁴ < 0 from u² = 1/(6c) on.
  it("terms that leave no variance are no answer", () => {
    const x = normal("x", 0, 1);
    expect(secondOrder([x.minus(x.power(3).times(0.5))])[0]).toMatchObject({
      ok: false,
      problems: [{ what: expect.stringContaining("leave no variance") }],
    });
  });
});

describe("secondOrderMatters", () => {
  // 5.05 and 5.15 differ from 5.1 by half of its last digit: the tolerance of two digits is 0.05.
  it("is judged by half a unit of the last digit of u", () => {
    const at = (standardUncertainty: number, doubt = 0): SecondOrder => ({
      firstOrder: 5.1,
      standardUncertainty,
      doubt,
      variance: standardUncertainty ** 2 - 5.1 ** 2,
      shift: 0,
      terms: [],
    });
    expect(secondOrderMatters(at(5.149), 2)).toBe("does not matter");
    expect(secondOrderMatters(at(5.151), 2)).toBe("matters");
    expect(secondOrderMatters(at(5.049), 2)).toBe("matters");
    expect(secondOrderMatters(at(5.151, 0.01), 2)).toBe("not known");
    expect(secondOrderMatters(at(5.3), 1)).toBe("does not matter");
  });
  it("of a result that does not vary to first order, the second is all there is", () => {
    expect(secondOrderMatters(only(binary("multiply", normal("x", 0, 1), normal("y", 0, 1))), 2)).toBe("matters");
  });
});
