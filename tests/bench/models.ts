import type { Expression } from "../../lib/formula/expression.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { type SourceDistribution, standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import type { TrialOutput } from "../../lib/uncertainty/trials/trialModel.ts";
import { binary, certain, fromSource, type Uncertain, unary } from "../../lib/uncertainty/uncertain.ts";
import descriptions from "./models.json" with { type: "json" };

/**
 * What every side computes, as data: `models.json`, which the library reads here and numpy reads in `numpyTrials.py`. The formulas are such that
 * both understand them.
 *
 * - L: a linear stack of 12 sources of all shapes, 1 result.
 * - N: a part located by four touches in a bore and two on an edge; ten holes on it, each off by dx and dy from where the drawing wants
 *   it, and the diameter of the position zone that it uses. 38 sources, 30 results.
 * - N2: N with an edge known 250 times worse, so that turning the part is far from linear.
 */
export interface ModelDescription {
  readonly sources: readonly { readonly name: string; readonly estimate: number; readonly distribution: SourceDistribution }[];
  /** Name and formula, in the order in which they can be computed. */
  readonly steps: readonly (readonly [name: string, formula: string])[];
  readonly results: readonly string[];
}

export type ModelName = "L" | "N" | "N2";

export function descriptionOf(name: ModelName): ModelDescription {
  // The compiler sees text where the file has one of a few words.
  if (name !== "N2") return descriptions[name] as unknown as ModelDescription;
  const { enlarged, factor } = descriptions.N2;
  const { sources, ...rest } = descriptionOf("N");
  return {
    ...rest,
    sources: sources.map((source) =>
      enlarged.includes(source.name) ? { ...source, distribution: enlargedBy(factor, source.distribution) } : source,
    ),
  };
}

function enlargedBy(factor: number, distribution: SourceDistribution): SourceDistribution {
  if (distribution.shape !== "scaledT") throw new Error(`models: expected edges to be scaledT, got ${distribution.shape}`);
  return { ...distribution, scale: distribution.scale * factor };
}

/** The results of a model as uncertain values, by name. */
export function resultsOf({ sources, steps, results }: ModelDescription): Map<string, Uncertain> {
  const values = new Map<string, Uncertain>();
  for (const { name, estimate, distribution } of sources) {
    const degreesOfFreedom = distribution.shape === "scaledT" ? distribution.degreesOfFreedom : Number.POSITIVE_INFINITY;
    values.set(
      name,
      fromSource({ id: name, label: name, family: "process", estimate, distribution, degreesOfFreedom, evidence: { kind: "stated" } }),
    );
  }
  for (const [name, formula] of steps) {
    const parsed = parseExpression(formula);
    if (!parsed.ok) throw new Error(`models: ${formula}: ${parsed.problems[0]?.what}`);
    values.set(name, uncertainOf(parsed.value, values));
  }
  return new Map(results.map((name) => [name, values.get(name) as Uncertain]));
}

/**
 * The results with cells about their best estimates, as wide as their standard uncertainties; for a position, which has no first-order one near
 * the true place, twice those of the two results before it together.
 */
export function trialOutputsOf(description: ModelDescription): TrialOutput[] {
  const results = [...resultsOf(description)];
  const tape = new Tape(results.map(([, value]) => value));
  const sizes = tape.sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  const sizeOf = (output: number) => Math.hypot(...sizes.map((size, i) => (tape.sensitivities(output)[i] as number) * size));
  return results.map(([name, value], k) => ({
    name,
    value,
    centre: value.value,
    scale: isPosition(name) ? 2 * Math.hypot(sizeOf(k - 2), sizeOf(k - 1)) : sizeOf(k),
  }));
}

/** Whether a result is the position of which the two before it are dx and dy. */
export function isPosition(name: string): boolean {
  return name.startsWith("position");
}

const functions = {
  sqrt: (x: Uncertain) => unary("squareRoot", x),
  sin: (x: Uncertain) => unary("sine", x),
  cos: (x: Uncertain) => unary("cosine", x),
  atan2: (x: Uncertain, y: Uncertain) => binary("arctangent2", x, y),
  hypot: (x: Uncertain, y: Uncertain) => binary("hypotenuse", x, y),
};

function uncertainOf(expression: Expression, values: ReadonlyMap<string, Uncertain>): Uncertain {
  switch (expression.kind) {
    case "number":
      return certain(expression.value);
    case "name": {
      const value = values.get(expression.name);
      if (value === undefined) throw new Error(`models: expected a name that is known, got ${expression.name}`);
      return value;
    }
    case "negate":
      return uncertainOf(expression.operand, values).negated();
    case "operation": {
      const left = uncertainOf(expression.left, values);
      const right = uncertainOf(expression.right, values);
      switch (expression.operator) {
        case "+":
          return left.plus(right);
        case "-":
          return left.minus(right);
        case "*":
          return left.times(right);
        case "/":
          return left.over(right);
        default:
          throw new Error(`models: expected + - * /, got ${expression.operator}`);
      }
    }
    case "call": {
      const apply = functions[expression.function as keyof typeof functions];
      if (apply === undefined) throw new Error(`models: expected one of ${Object.keys(functions)}, got ${expression.function}`);
      const [first, second] = expression.arguments.map((argument) => uncertainOf(argument, values));
      return apply(first as Uncertain, second as Uncertain);
    }
  }
}
