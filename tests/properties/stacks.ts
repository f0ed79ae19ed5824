import { mm } from "../../lib/base/quantity.ts";
import type { Characteristic } from "../../lib/part/part.ts";
import { type Stack, stackOf } from "../../lib/tolerance/stack.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import type { Source } from "../../lib/uncertainty/source.ts";
import type { SourceDistribution } from "../../lib/uncertainty/sourceDistribution.ts";
import { certain, fromSource, sum, type Uncertain } from "../../lib/uncertainty/uncertain.ts";

export function link(id: string, distribution: SourceDistribution, more: Partial<Source> = {}): Source {
  return {
    id,
    label: id,
    family: "part",
    estimate: 0,
    distribution,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    evidence: { kind: "drawing" },
    ...more,
  };
}

/** Σ coefficient · source, about a mean. */
export function combination(mean: number, terms: readonly (readonly [number, Source])[]): Uncertain {
  return sum([certain(mean), ...terms.map(([coefficient, source]) => fromSource(source).times(coefficient))]);
}

export function distanceStack(value: Uncertain, lower: number, upper: number, id = "distance"): Stack {
  const characteristic: Characteristic = {
    id,
    kind: "distance",
    of: "b",
    from: "a",
    axis: "X",
    limits: { lower: mm(lower), upper: mm(upper) },
  };
  return stackOf(characteristic, budgetsOf([value]));
}

export function positionStack(x: Uncertain, y: Uncertain, zone: number, id = "position"): Stack {
  return stackOf({ id, kind: "position", of: "hole", zone: mm(zone) }, budgetsOf([x, y]));
}
