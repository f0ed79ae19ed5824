import { suggestName } from "../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { notTouchedYet, type StrategySolution, zeroFound } from "../datum/solveStrategy.ts";
import type { ZeroPlace } from "../datum/strategy.ts";
import { turnBy, turned } from "../datum/turn.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";

type Triple = readonly [Uncertain, Uncertain, Uncertain];

/**
 * Machine coordinates of another point of the part: the zero plus the way to the point, turned as the part is turned, M = O + Rot(θ) p. All three may
 * be in doubt and share sources; the turn counts with the length of the way.
 */
export function movedZero(zero: Triple, rotation: Uncertain, way: Triple): Triple {
  const moved = turned(way, turnBy(rotation));
  return [zero[0].plus(moved[0]), zero[1].plus(moved[1]), zero[2].plus(moved[2])];
}

/** One axis of a zero that was moved to another point of the part without touching again; mm. */
export interface MovedAxis {
  readonly before: Budget;
  readonly after: Budget;
  /** From the old point to the new one: the doubt of the sizes between, and of the turn times the way. */
  readonly way: Budget;
}

/** A zero at another point of the part, without touching again, with what that costs in doubt. */
export interface MovedZero {
  readonly axes: readonly [Outcome<MovedAxis>, Outcome<MovedAxis>, Outcome<MovedAxis>];
  /** Where the turn comes from: the strategy's own touches, all touches of this part, or nothing: the part is then taken as square to the machine. */
  readonly turn: "strategy" | "all touches" | "not looked at";
  /** From the old point to the new one on the drawing, mm: across it a turn that nobody has looked at counts. */
  readonly distance: number;
}

/**
 * The zero of a strategy moved to another point of the same part (from a corner to a bore, from a bore to a middle), without touching again. Sizes between
 * both points are as this part is known to have them: as the touches have found them, as measured otherwise, or as drawn, with the drawing's tolerance for
 * their doubt. What the zero and the way share (a touch, a size) cancels or adds as it does in the part.
 */
export function moveZero(
  solution: StrategySolution,
  to: readonly [ZeroPlace, ZeroPlace, ZeroPlace],
  location: PartLocation,
): Outcome<MovedZero> {
  const { strategy, fromReadings, seated } = solution;
  const at = `strategies.${strategy.id}`;
  if (seated !== undefined)
    return failure({
      at,
      what: "a zero that rests on the fixture was never touched on the part",
      remedy: "state the other point as the zero of the strategy",
    });
  const untaken = notTouchedYet(solution);
  if (untaken) return failure(untaken);
  const { supposed } = location.setup;
  if (supposed.length > 0)
    return failure({
      at: "whatIf",
      what: `something is only supposed for the moment: ${supposed.join("; ")}`,
      remedy: "take that back before a zero is moved",
    });
  if (!location.thisPart.ok) return location.thisPart;
  const part = location.thisPart.value;
  const known = axes.map((_, i) => wayAlong(strategy.zero[i as 0 | 1 | 2], to[i as 0 | 1 | 2], i as 0 | 1 | 2, part.sizes, location));
  const problems = known.flatMap((each) => (each.ok ? [] : each.problems));
  if (problems.length > 0) return failure(...problems);
  const way = known.map((each) => (each.ok ? each.value : certain(0))) as unknown as Triple;
  const looksAtTurn = strategy.rotation !== "ignored" && solution.determined[3];
  const turn = looksAtTurn ? "strategy" : part.turnsByTouches ? "all touches" : "not looked at";
  const rotation = turn === "strategy" ? fromReadings.rotation : turn === "all touches" ? part.rotation : certain(0);
  const after = movedZero(fromReadings.zero, rotation, way);
  const moved = movedZero([certain(0), certain(0), certain(0)], rotation, way);
  const budgets = budgetsOf([...fromReadings.zero, ...after, ...moved]);
  const found = zeroFound(solution);
  const along = (i: 0 | 1 | 2): Outcome<MovedAxis> =>
    found[i]
      ? success({ before: budgets[i] as Budget, after: budgets[3 + i] as Budget, way: budgets[6 + i] as Budget })
      : failure({ at, what: `"${strategy.id}" does not fix ${axes[i]}, so the zero cannot be moved along it`, remedy: "add a touch" });
  return success({
    axes: [along(0), along(1), along(2)],
    turn,
    distance: Math.hypot(way[0].value, way[1].value),
  });
}

function wayAlong(
  from: ZeroPlace,
  to: ZeroPlace,
  axis: 0 | 1 | 2,
  sizes: readonly Uncertain[],
  location: PartLocation,
): Outcome<Uncertain> {
  const [start, end] = [placeOnPart(from, axis, sizes, location), placeOnPart(to, axis, sizes, location)];
  if (!start.ok) return start;
  return end.ok ? success(end.value.minus(start.value)) : end;
}

/** Where a point sits in the drawing's frame on this part, mm: sizes as they are known. */
export function placeOnPart(
  place: ZeroPlace,
  axis: 0 | 1 | 2,
  sizes: readonly Uncertain[],
  { located, sizes: all, setup }: PartLocation,
): Outcome<Uncertain> {
  if (place.kind === "coordinate") return success(certain(place.value));
  const known = located.places.get(place.element)?.[axis];
  if (known === undefined)
    return failure(
      noPlace(
        place.element,
        axis,
        setup.part.elements.map(({ id }) => id),
      ),
    );
  return success(sum([certain(known.nominal), ...[...known.gains].map(([id, gain]) => (sizes[all.indexOf(id)] as Uncertain).times(gain))]));
}

function noPlace(element: string, axis: 0 | 1 | 2, elements: readonly string[]): Problem {
  return {
    at: "part.elements",
    what: `there is no element by this name with a place along ${axes[axis]}`,
    expected: `an element that has a place along ${axes[axis]}, or a coordinate`,
    got: element,
    ...(elements.includes(element) ? {} : suggestName(element, elements)),
  };
}
