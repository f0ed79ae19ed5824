import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Axis, axes, turnAboutZ, type Vector } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { liftAt } from "../datum/tilt.ts";
import { leanAt } from "../datum/tiltAcross.ts";
import { turnBy, turned } from "../datum/turn.ts";
import { lengthOf } from "../equipment/toolSources.ts";
import type { CheckMove, CheckTouch } from "../readings/checks.ts";
import { type Budget, budgetsOf, type Contribution } from "../uncertainty/budget.ts";
import { coverageFactor } from "../uncertainty/coverage.ts";
import { effectiveDegreesOfFreedom } from "../uncertainty/effectiveDegreesOfFreedom.ts";
import { studentUpperTail } from "../uncertainty/special/studentT.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { foreseeChecks } from "./foreseeChecks.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";
import { strategyNamed } from "./strategyNamed.ts";

/** A check and what became of it. */
export interface JudgedCheck {
  readonly check: CheckTouch;
  /** Whether the zero of the strategy in use rests on a touch of the same face: such a check sees less. */
  readonly usedForZero: boolean;
  readonly evaluation: Outcome<CheckEvaluation>;
}

export interface CheckEvaluation {
  readonly axis: Axis;
  /** Machine coordinate that the display must show, mm, with the doubt of one new reading in it, however many were taken. */
  readonly predicted: Budget;
  /** Undefined while there is no reading. */
  readonly verdict: CheckVerdict | undefined;
}

export interface CheckVerdict {
  /** Mean of the readings, mm. */
  readonly shown: number;
  /** Shown less predicted, mm. */
  readonly difference: Budget;
  /** |difference| / U at 95.45 % coverage: the Eₙ number of ISO 13528, with the doubts that both share allowed for. `Infinity` without any doubt. */
  readonly normalisedError: number;
  /** That doubt alone makes a difference of at least this size, from 0 to 1. */
  readonly chance: number;
  /** Whether the normalised error is at most 1. */
  readonly agrees: boolean;
  /** The doubt that the difference owes most to; undefined without any. */
  readonly dominating: Contribution | undefined;
}

/** What the display must show over a place, the tip at its clearance above it. */
export interface JudgedMove {
  readonly move: CheckMove;
  /** X, Y, Z of the spindle (of its gauge line) in the machine, mm. */
  readonly machine: readonly [Outcome<Budget>, Outcome<Budget>, Outcome<Budget>];
  /** The same in the coordinates of the strategy in use, as typed, and no tool length or shift besides, mm. */
  readonly work: readonly [number | undefined, number | undefined, number | undefined];
}

/** 2Φ(2) - 1, as everywhere in the record. */
const coverage = 0.9544997361036416;

/** Every check beside its prediction; those on faces that the zero does not rest on come first. Without checks nothing is worked out. */
export function judgeChecks(
  location: PartLocation,
  strategies: SetupEvaluation["strategies"],
): Pick<SetupEvaluation, "checks" | "checkMoves"> {
  const { checks, checkMoves } = location.setup;
  return {
    checks: checks.length === 0 ? [] : judge(location),
    checkMoves: checkMoves.map((move) => judgeMove(move, location, strategies)),
  };
}

function judge(location: PartLocation): JudgedCheck[] {
  const { setup } = location;
  const rests = touchedForZero(setup);
  const foreseen = foreseeChecks(setup.checks, location);
  const known = foreseen.flatMap((each) => (each.ok ? [each.value] : []));
  const budgets = budgetsOf(known.flatMap(({ reading, difference }) => [reading, difference ?? reading]));
  let next = 0;
  const judged = foreseen.map((each, i): JudgedCheck => {
    const check = setup.checks[i] as CheckTouch;
    const usedForZero = rests.has(check.element);
    if (!each.ok) return { check, usedForZero, evaluation: each };
    const [predicted, difference] = [budgets[next] as Budget, budgets[next + 1] as Budget];
    next += 2;
    const { shown, axis } = each.value;
    return {
      check,
      usedForZero,
      evaluation: success({ axis, predicted, verdict: shown === undefined ? undefined : verdictOf(shown, difference) }),
    };
  });
  return [...judged.filter(({ usedForZero }) => !usedForZero), ...judged.filter(({ usedForZero }) => usedForZero)];
}

/** Faces that a strategy touches, the chosen one unless another is named. */
export function touchedForZero({ strategies, touches, chosen }: PartLocation["setup"], strategy = chosen): ReadonlySet<string> {
  const inUse = strategies.find(({ id }) => id === strategy)?.touches ?? [];
  return new Set(touches.filter(({ id }) => inUse.includes(id)).map(({ element }) => element));
}

function verdictOf(shown: number, difference: Budget): CheckVerdict {
  const { value, standardUncertainty, contributions } = difference;
  const degreesOfFreedom = effectiveDegreesOfFreedom(
    contributions.map(({ amount, source }) => ({
      contribution: amount,
      degreesOfFreedom: source.degreesOfFreedom,
      varianceEstimate: source.varianceEstimate,
    })),
  );
  const size = Math.abs(value);
  const expanded = coverageFactor(coverage, degreesOfFreedom) * standardUncertainty;
  const isExact = standardUncertainty === 0;
  const normalisedError = isExact ? (size === 0 ? 0 : Number.POSITIVE_INFINITY) : size / expanded;
  return {
    shown,
    difference,
    normalisedError,
    chance: isExact ? (size === 0 ? 1 : 0) : 2 * studentUpperTail(size / standardUncertainty, degreesOfFreedom),
    agrees: normalisedError <= 1,
    dominating: contributions[0],
  };
}

function judgeMove(move: CheckMove, location: PartLocation, strategies: SetupEvaluation["strategies"]): JudgedMove {
  const { thisPart, setup, book } = location;
  const at = `checkMoves.${move.id}`;
  const tool = setup.tools.find(({ id }) => id === move.tool);
  const along = (axis: 0 | 1 | 2): Outcome<Uncertain> => {
    if (!thisPart.ok) return thisPart;
    const { determined, origin, rotation } = thisPart.value;
    if (!determined[axis])
      return failure({ at, what: `no touch fixes ${axes[axis]}`, remedy: `add a touch that meets the part along ${axes[axis]}` });
    const off = offDrawing(move.place, location);
    if (off[axis] === undefined)
      return failure({ at, what: `the locators do not hold the part along ${axes[axis]}`, remedy: "see what is said at the locators" });
    const [byX = certain(0), byY = certain(0), byZ = certain(0)] = off;
    const moved = turned([byX, byY, byZ], turnBy(rotation))[axis];
    const place: Vector = turnAboutZ(move.place, rotation.value);
    const turn = axis === 0 ? -place[1] : axis === 1 ? place[0] : 0;
    const point = origin[axis].plus(place[axis]).plus(moved).plus(rotation.minus(rotation.value).times(turn));
    if (axis !== 2) return success(point);
    if (tool?.length === undefined) return failure(noLength(at, move.tool, tool !== undefined));
    return success(point.plus(certain(move.clearance)).plus(lengthOf(tool, tool.length, book)));
  };
  const machine = ([0, 1, 2] as const).map((axis) => {
    const found = along(axis);
    return found.ok ? success(budgetsOf([found.value])[0] as Budget) : found;
  }) as unknown as JudgedMove["machine"];
  const inUse = strategyNamed(strategies, setup.chosen);
  const offset = inUse.ok && inUse.value.offset.ok && !inUse.value.solution.appliesRotation ? inUse.value.offset.value.values : [];
  const work = machine.map((budget, axis) => {
    const typed = offset.find((each) => each.axis === axes[axis])?.value;
    return budget.ok && typed !== undefined ? budget.value.value - typed : undefined;
  }) as unknown as JudgedMove["work"];
  return { move, machine, work };
}

/** How far a place of this part lies from where its frame has it, along the drawing's axes, mm: as the fixture has the part, and as that lies askew in height. */
function offDrawing([x, y, z]: Vector, { seated, tilt, tiltAcross }: PartLocation): readonly (Uncertain | undefined)[] {
  const lean = tilt && typeof tiltAcross === "object" ? leanAt({ ...tilt, across: tiltAcross }, z) : undefined;
  const lift = tilt?.isPlaced ? liftAt(tilt, x, y) : undefined;
  const byTilt = [lean?.[0].negated(), lean?.[1].negated(), lift];
  const byFixture = seated?.displacement([x, y, z]) ?? [certain(0), certain(0), certain(0)];
  return byFixture.map((off, axis) => off?.plus(byTilt[axis] ?? 0));
}

function noLength(at: string, tool: string, exists: boolean): Problem {
  return exists
    ? { at: `${at}.tool`, what: `the length of "${tool}" is not stated, so Z is not known`, remedy: "state its length from the gauge line" }
    : { at: `${at}.tool`, what: "there is no readable tool by this name, so Z is not known", expected: "the name of a tool", got: tool };
}
