import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { positioningPerLength } from "../equipment/positioning.ts";
import { disagreeBelow } from "../frame/agreement.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { conditioned } from "../uncertainty/conditioned.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { PartLocation } from "./locatePart.ts";
import { displaced, type StrategySolution, zeroFound, zeroFrom } from "./solveStrategy.ts";

/** One coordinate of part zero, found twice from the same touches. */
export interface ComparedCoordinate {
  readonly name: "X" | "Y" | "Z" | "rotation";
  /** As the strategy works it out, touches counting alike; mm or radians. */
  readonly conventional: Budget;
  /** With every touch weighed by what is known of all of them together. */
  readonly optimal: Budget;
  /** Standard uncertainty of the optimal one as a share of the conventional one's: from 0 to 1; 1 where neither is in doubt. */
  readonly ratio: number;
}

/** What a strategy's touches could give if each counted for what it is worth. */
export interface OptimalZero {
  readonly coordinates: readonly ComparedCoordinate[];
  /** The same as values that remember their sources, in the same order. */
  readonly values: readonly Uncertain[];
  /** How many combinations of touches bear on it: touches more than just enough, less what cannot differ. */
  readonly contrasts: number;
}

/**
 * The estimate of part zero of least variance from the touches of a strategy, beside its own (generalised least squares with the covariance of all
 * touches, see `conditioned`). A strategy lets touches count alike, as the setter's formula does; where one tool is known better than the other, or
 * a doubt is shared by some of the touches only, other weights give a smaller uncertainty.
 *
 * Both are told for work at part zero: with what the machine's scale is off between the touches and there, of which the strategy's own zero,
 * a number on that scale, says nothing. Without a stated positioning error they are the same.
 *
 * Of touches on the fixture, how the part lies against what was touched is in no touch: it is in both, beside what the touches leave.
 *
 * Touches that disagree by more than their doubts explain are not combined: which of them is wrong is not for weights to say.
 *
 * @returns undefined where the touches are just enough, and there is only one estimate
 */
export function optimalZero(solution: StrategySolution, location: PartLocation): Outcome<OptimalZero> | undefined {
  const { frame, strategy } = solution;
  const { contrasts } = frame;
  if (contrasts.length === 0) return undefined;
  const at = `strategies.${strategy.id}`;
  if (frame.agreement !== undefined && frame.agreement.chance < disagreeBelow) return failure(disagreement(at));
  const named = namedCoordinates(solution, location);
  const best = conditioned(
    named.map(({ value }) => value),
    contrasts,
  );
  if (best === undefined) return failure(disagreement(at));
  const budgets = budgetsOf([...named.map(({ value }) => value), ...best.values]);
  const coordinates = named.map(({ name }, i): ComparedCoordinate => {
    const [conventional, optimal] = [budgets[i] as Budget, budgets[named.length + i] as Budget];
    const { standardUncertainty } = conventional;
    return { name, conventional, optimal, ratio: standardUncertainty > 0 ? optimal.standardUncertainty / standardUncertainty : 1 };
  });
  return success({ coordinates, values: best.values, contrasts: best.rank });
}

function disagreement(at: string): Problem {
  return {
    at,
    what: "the touches disagree by more than their doubts explain, so that no weights make them one",
    remedy: "find the touch that is wrong, or the doubt that is larger than stated",
  };
}

/** Part zero along the axes that the strategy finds, and its turn: for work at part zero. */
function namedCoordinates(
  solution: StrategySolution,
  location: PartLocation,
): readonly { readonly name: ComparedCoordinate["name"]; readonly value: Uncertain }[] {
  const { frame, strategy, determined, seated, zeroOnPart } = solution;
  const { zero: nominal, rotation } = zeroFrom(frame.inTruth, strategy, location);
  const zero = seated === undefined ? nominal : displaced(nominal, seated.displacement(zeroOnPart));
  const found = zeroFound(solution);
  const { machine } = location.setup;
  const along = (["X", "Y", "Z"] as const).flatMap((name, i) => {
    const axis = i as 0 | 1 | 2;
    if (!found[axis]) return [];
    const there = positioningPerLength(machine, axis, location.book).times(zero[axis].value);
    return [{ name, value: zero[axis].minus(there) }];
  });
  return strategy.rotation !== "ignored" && determined[3] ? [...along, { name: "rotation", value: rotation }] : along;
}
