import { type Outcome, success } from "../base/outcome.ts";
import { axisOnlyErrors } from "../datum/axisOnlyErrors.ts";
import { judgeRun } from "../decision/judgeRun.ts";
import { judgeWarmUp } from "../decision/judgeWarmUp.ts";
import { namedResults } from "../decision/namedResults.ts";
import type { OwnEvaluation, SetupEvaluation } from "../decision/setupEvaluation.ts";
import { frameTurns } from "../frame/frameTurns.ts";
import { datumShifts } from "../part/datumShift.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { correlationsOf } from "../uncertainty/covariance.ts";
import { Draws } from "../uncertainty/draws.ts";
import { relativeStandardUncertainty } from "../uncertainty/relativeStandardUncertainty.ts";
import { calibrationsOf, plainCalibration } from "./calibrationInWords.ts";
import { cautions } from "./cautions.ts";
import { checkReadings } from "./checkReadings.ts";
import { coverageProbability } from "./expandedUncertainty.ts";
import { plainCheckMoves, plainChecks, plainEvents, plainSlips } from "./internals/plainChecks.ts";
import { plainFixture } from "./internals/plainFixture.ts";
import { plainDeterminacy } from "./internals/plainFrame.ts";
import { plainNests } from "./internals/plainNests.ts";
import { plainOffsets } from "./internals/plainOffsets.ts";
import { plainOwn } from "./internals/plainOwn.ts";
import { plainOutcome, plainProblem } from "./internals/plainProblem.ts";
import { plainQuantity } from "./internals/plainQuantity.ts";
import { plainRun, plainWarmUp } from "./internals/plainRun.ts";
import { plainSources } from "./internals/plainSources.ts";
import { plainStrategy } from "./internals/plainStrategy.ts";
import { plainTilt } from "./internals/plainTilt.ts";
import { plainWarnings } from "./internals/plainWarnings.ts";
import { relatedPairs } from "./internals/relatedPairs.ts";
import { judgementSentences } from "./judgementSentences.ts";
import { obstacles } from "./obstacles.ts";
import { partFrame } from "./partFrame.ts";
import { bendsOfTold } from "./strategyBend.ts";
import { strategyInUse } from "./strategyInUse.ts";

/** The version of the results' layout: raised when an entry changes its meaning or goes away. */
const resultsVersion = 1 as const;

/** Of every number that does not carry its own. */
const units = {
  lengths: "mm",
  angles: "rad",
  slopes: "mm of height per mm across",
  covariances: "the products of the units of both",
  sensitivities: "the unit of the result per unit of the source",
  sources:
    "mm; the positioning error of the machine in mm per mm of distance; squareness, what stands out of square and the angle of a lever in radians, its cosine as a factor; temperatures in degrees Celsius, expansion coefficients per kelvin",
  chancesAndShares: "1",
} as const;

/** Everything that `plainResults` gives. */
export type PlainResults = ReturnType<typeof plainResults>;

/**
 * Everything that an evaluation found as plain data, ready for JSON and complete enough to recompute it.
 *
 * Lengths are in millimetres and angles in radians, whatever the document's unit; digits and lines of an offset are in the
 * controller's unit, and say so. Where a result is not known its place holds `{ problems }` with the reasons. A number
 * without end is the text "infinite", because JSON has no word for it; an entry that does not apply is null.
 *
 * @throws RangeError if a number is NaN, or infinite where that has no meaning
 */
export function plainResults(evaluation: SetupEvaluation & Partial<OwnEvaluation>) {
  const { setup, location, strategies, ranking } = evaluation;
  const draws = new Draws(setup.sampling.seed, setup.sampling.trials);
  const inUse = strategyInUse(evaluation)?.evaluation;
  const [run, warmUp] = [judgeRun(setup, inUse), judgeWarmUp(setup, inUse)];
  const results = {
    format: "datumbook results" as const,
    version: resultsVersion,
    title: setup.title,
    units,
    coverageProbability,
    sampling: { ...setup.sampling },
    warnings: plainWarnings(evaluation),
    problems: obstacles(evaluation).map(plainProblem),
    faces: plainFaces(evaluation),
    sizes: plainSizes(evaluation),
    thisPart: plainOutcome(location.thisPart, (frame) => {
      const { origin, rotation } = partFrame(frame, location.seated);
      const [x, y, z] = origin;
      const place = (axis: Outcome<Budget>) => plainOutcome(axis, (budget) => plainQuantity(budget, "mm"));
      return {
        origin: { X: place(x), Y: place(y), Z: place(z) },
        rotation: plainOutcome(rotation, (budget) => plainQuantity(budget, "rad")),
        sizesDetermined: location.sizes.sizes.map(({ id }, i) => ({ id, determined: frame.sizesDetermined[i] as boolean })),
        ...plainDeterminacy(frame, location.counted, frameTurns(frame)),
      };
    }),
    datumShifts: datumShifts(setup.part).map(({ size: _, axes, turns, moves, ...shift }) => ({
      ...shift,
      axes: [...axes],
      turns: turns === undefined ? null : { ...turns },
      moves: [...moves],
    })),
    tilt: plainTilt(evaluation.tilt),
    correlations: plainCorrelations(evaluation),
    ranking: [...ranking.order],
    chosen: setup.chosen,
    decision: plainOutcome(setup.decision, (rule) => ({ ...rule })),
    strategies: ranking.order.map((id, i) =>
      plainStrategy(strategies.find((strategy) => strategy.id === id) as (typeof strategies)[number], i + 1, evaluation, draws),
    ),
    fixture: evaluation.fixture === undefined ? null : plainFixture(evaluation.fixture, setup.part.characteristics, draws),
    offsets: evaluation.offsets === undefined ? null : plainOffsets(evaluation, evaluation.offsets),
    nests: evaluation.nests === undefined ? null : plainNests(evaluation.nests),
    predictedReadings: plainPredictions(evaluation),
    madeParts: run === undefined ? null : plainOutcome(run, plainRun),
    warmUp: warmUp === undefined ? null : plainOutcome(warmUp, plainWarmUp),
    checks: plainChecks(evaluation),
    checkMoves: plainCheckMoves(evaluation),
    events: plainEvents(evaluation),
    slips: plainSlips(evaluation),
    own: plainOwn(evaluation),
    supposed: [...setup.supposed],
    sentences: judgementSentences(evaluation, { bends: bendsOfTold(evaluation, "thisPart") }),
    cautions: cautions(evaluation),
    sources: plainSources(evaluation),
    calibrations: calibrationsOf(evaluation).map(({ of, id, calibration }) => ({ of, id, ...plainCalibration(calibration) })),
    related: relatedPairs(evaluation).map(({ one, other, coefficient }) => ({ one, other, coefficient })),
  };
  refuseNumbersWithoutEnd(results, "results");
  return results;
}

function plainFaces({ faces, location }: SetupEvaluation) {
  const errors = axisOnlyErrors(location);
  const budgets = budgetsOf(errors.map(({ error }) => error));
  const errorOf = new Map(errors.map(({ touch }, i) => [touch, budgets[i] as Budget]));
  return faces.map(({ id, element, axis, budget }) => {
    const axisOnly = errorOf.get(id);
    // How much further the face lies than R + a · r says, because the part is turned; null where nothing tells the turn.
    return { touch: id, element, axis, ...plainQuantity(budget, "mm"), axisOnlyError: axisOnly ? plainQuantity(axisOnly, "mm") : null };
  });
}

function plainSizes({ sizes, location }: SetupEvaluation) {
  return sizes.map(({ id, budget, difference, combined }) => ({
    id,
    nominal: location.sizes.sizes.find((size) => size.id === id)?.nominal ?? null,
    ...plainQuantity(budget, "mm"),
    relativeStandardUncertainty: relativeStandardUncertainty(budget) ?? null,
    difference: difference ? plainQuantity(difference, "mm") : null,
    // By touches and other measurements together; null where those say nothing of it, or disagree.
    combined: combined ? plainQuantity(combined, "mm") : null,
  }));
}

/** Of all results of this part by the strategy in use that are in doubt, to first order (JCGM 100:2008, 7.2.5). */
function plainCorrelations(evaluation: SetupEvaluation) {
  const inUse = strategyInUse(evaluation)?.evaluation;
  if (inUse === undefined) return null;
  const known = namedResults(evaluation, success(inUse), "thisPart").flatMap(({ id, budget }) =>
    budget.ok && budget.value.standardUncertainty > 0 ? [{ id, budget: budget.value }] : [],
  );
  const budgets = known.map(({ budget }) => budget);
  return {
    strategy: inUse.id,
    of: known.map(({ id }) => id),
    coefficients: budgets.map((budget, i) => correlationsOf(budget, budgets).map((coefficient, j) => (i === j ? 1 : coefficient))),
  };
}

function plainPredictions(evaluation: SetupEvaluation) {
  const inUse = strategyInUse(evaluation)?.evaluation;
  return checkReadings(evaluation, inUse).map(({ prediction: { id, element, axis, tool, budget }, machine, work }) => ({
    touch: id,
    element,
    axis,
    tool,
    ...plainQuantity(budget, "mm"),
    lower: machine.lower,
    upper: machine.upper,
    inWorkCoordinates: plainOutcome(work, (limits) => ({
      strategy: inUse?.id ?? null,
      register: evaluation.setup.machine.register,
      ...limits,
    })),
  }));
}

/** JSON would turn NaN and infinities into null, and a reader would take that for "does not apply". */
function refuseNumbersWithoutEnd(value: unknown, at: string): void {
  if (typeof value === "number" && !Number.isFinite(value)) throw new RangeError(`${at}: expected a finite number, got ${value}`);
  if (typeof value === "object" && value !== null)
    for (const [key, entry] of Object.entries(value)) refuseNumbersWithoutEnd(entry, `${at}.${key}`);
}
