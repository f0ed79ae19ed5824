import { oneLine } from "../../lib/base/oneLine.ts";
import { describeProblem, failure, type Outcome, type Problem, success } from "../../lib/base/outcome.ts";
import { axes } from "../../lib/base/vector.ts";
import type { StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { readAcross } from "../../lib/document/readAcross.ts";
import { readNests } from "../../lib/document/readNests.ts";
import { type DocumentEvaluation, evaluateSetup } from "../../lib/evaluateSetup.ts";
import { readOffsetsBack } from "../../lib/exchange/readOffsetsBack.ts";
import { compareOffsets } from "../../lib/offsets/compareOffsets.ts";
import { dialectNotes } from "../../lib/offsets/dialectNotes.ts";
import { moveZero } from "../../lib/offsets/moveZero.ts";
import { fitNests, type NestFit } from "../../lib/offsets/nests.ts";
import { type OffsetsInForce, offsetsAfter } from "../../lib/offsets/offsetTable.ts";
import { registerDigits, type WrittenOffsets } from "../../lib/offsets/offsetText.ts";
import { readPlaces } from "../../lib/offsets/readPlaces.ts";
import { turnedFeatures } from "../../lib/offsets/turnedFeatures.ts";
import { movedZeroSentences } from "../../lib/record/movedZeroText.ts";
import { nestFitText } from "../../lib/record/nestFitText.ts";
import { agreementText, offsetDifferenceText } from "../../lib/record/offsetDifferenceText.ts";
import { offsetsText } from "../../lib/record/offsetsText.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { turnedFeaturesText } from "../../lib/record/turnedFeaturesText.ts";
import { writtenOffsets } from "../../lib/record/writtenOffsets.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { broughtText, readText } from "./readText.ts";
import { exitCodes, refuse, runAsAsked } from "./running.ts";

const usage = `The offsets of a saved setup: what is in force in every register by the log, as it is or as it was, and as block text.

  npm run --silent offsets -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

  --after ROW        the offsets as they were after this row of the log
  --lines            the block text alone: what the registers hold, without shifts
  --sum              with --lines or --read: the sums in force, for a controller that has no shifts
  --time TEXT        with --lines: goes into a comment
  --read FILE        compares with text that was read back from the machine: G10 L2 blocks, lines such as
                     G54 X-412.607 Y-203.112, cells under a row of names, or an MTConnect streams document
  --move PLACES      the zero of the strategy in use moved to another point of the part without touching again:
                     X=bore,Y=bore,Z=0 names elements or coordinates; axes that are left out stay
  --turn X|Y|Z       every element in the coordinates of the next operation, after the part was turned by half a turn about
                     this axis
  --across PLACES    with --turn: axes along which the zero goes to the opposite face, and where that is from the zero, with
                     its sign: "Z=-30 mm ± 0.01 mm" of a zero at the top
  --nests FILE       the best zero for several nests, with and without a turn: cells under the names nest, x, y, found x,
                     found y; what was found may bring its doubt along, as in 114.281 ± 0.003 mm
  --strategy NAME    with --move and --turn: another strategy than the one in use
  --help             this text

Exit status 0; 1 when the text that was read back differs from the table; 2 when the file, an entry, the text or the arguments
cannot be used, with one line per problem on standard error; 70 for a mistake of the program itself.

What differs between controllers, in general; the machine builder's manual says what yours does:
${dialectNotes.map((note) => `  - ${note}\n`).join("")}`;

const options = {
  after: { type: "string" },
  lines: { type: "boolean" },
  sum: { type: "boolean" },
  time: { type: "string" },
  read: { type: "string" },
  move: { type: "string" },
  turn: { type: "string" },
  across: { type: "string" },
  nests: { type: "string" },
  strategy: { type: "string" },
} as const;

interface Wanted {
  readonly after?: string;
  readonly lines?: boolean;
  readonly sum?: boolean;
  readonly time?: string;
  readonly read?: string;
  readonly move?: string;
  readonly strategy?: string;
}

/** What `diff` ends with too. */
const differs = 1;

await runAsAsked(usage, options, async ({ values, positionals }) => {
  const document = await readOneSetup(positionals);
  if (!document.ok) return refuse(document.problems);
  const evaluation = evaluateSetup(document.value);
  if (values.move !== undefined) return move(evaluation, values.move, values.strategy);
  if (values.turn !== undefined) return turnPart(evaluation, values.turn, values.across ?? "", values.strategy);
  if (values.nests !== undefined) return nests(evaluation, values.nests);
  const table = tableOf(evaluation, values.after);
  if (!table.ok) return refuse(table.problems);
  return values.read === undefined ? show(evaluation, table.value, values) : compare(evaluation, table.value, values.read, values);
});

function tableOf({ offsets, problems }: DocumentEvaluation, after: string | undefined): Outcome<OffsetsInForce> {
  const wrong = problems.filter(({ at }) => at.startsWith("offsets."));
  if (offsets === undefined) return failure({ at: "offsets", what: "nothing is logged of the offsets", remedy: "log a measured zero" });
  if (after === undefined) return wrong.length > 0 ? failure(...wrong) : success(offsets);
  const then = offsetsAfter(offsets.history, after);
  const rows = offsets.history.rows.map(({ id }) => `"${id}"`).join(", ");
  return then ? success(then) : failure({ at: "--after", what: "there is no such row in the log", expected: rows, got: after });
}

function show(evaluation: DocumentEvaluation, table: OffsetsInForce, { lines, sum, time = "" }: Wanted): number {
  if (lines !== true) {
    process.stdout.write(offsetsText(evaluation, table));
    process.stdout.write(nestsText(evaluation));
    return exitCodes.done;
  }
  const written = writtenOffsets(evaluation, table, { written: writtenAs(sum), time });
  if (!written.ok) return refuse(written.problems);
  process.stdout.write(`${written.value.join("\n")}\n`);
  return exitCodes.done;
}

async function compare({ setup }: DocumentEvaluation, table: OffsetsInForce, file: string, { sum }: Wanted): Promise<number> {
  const text = await readText(file, broughtText);
  if (!text.ok) return refuse(text.problems);
  const read = readOffsetsBack(text.value, setup.machine.controllerUnit);
  if (!read.ok) return refuse(read.problems.map((problem): Problem => ({ ...problem, at: `${file}${problem.at && `, ${problem.at}`}` })));
  const digits = registerDigits(table, { controller: setup.machine, written: writtenAs(sum) });
  const comparison = compareOffsets(digits, read.value, setup.machine);
  const unit = { unit: setup.unit === "inch" ? "in" : "mm" } as const;
  for (const { at, what } of read.value.leftOut) process.stderr.write(`${oneLine(`${file}, ${at}: left out: ${what}`)}\n`);
  const told = [agreementText(comparison), ...comparison.differences.map((difference) => offsetDifferenceText(difference, unit))];
  process.stdout.write(`${told.join("\n")}\n`);
  return comparison.differences.length > 0 ? differs : exitCodes.done;
}

/** How well one zero serves the nests of the document; empty where it has none. */
function nestsText({ nests, setup: { unit } }: DocumentEvaluation): string {
  return nests === undefined ? "" : `\n${fitsText([nests.shifted, nests.turned], unit)}`;
}

function fitsText(fits: readonly Outcome<NestFit>[], unit: "mm" | "inch"): string {
  const titles = ["One zero for all nests, without a turn", "One zero and one turn for all nests"];
  const told = fits.map((fit, i) => (fit.ok ? nestFitText(fit.value, titles[i] as string, unit) : fit.problems.map(describeProblem)));
  return `${told.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function writtenAs(sum: boolean | undefined): WrittenOffsets {
  return sum === true ? "sum" : "register";
}

function move(evaluation: DocumentEvaluation, text: string, strategy: string | undefined): number {
  const solved = strategyFor(evaluation, strategy);
  if (!solved.ok) return refuse(solved.problems);
  const { setup, location } = evaluation;
  const places = readPlaces(text, solved.value.solution.strategy.zero, setup.unit, setup.operation);
  if (!places.ok) return refuse(places.problems.map((problem) => ({ ...problem, at: "--move" })));
  const moved = moveZero(solved.value.solution, places.value, location);
  if (!moved.ok) return refuse(moved.problems);
  process.stdout.write(`${[`Zero by "${solved.value.id}", moved:`, ...movedZeroSentences(moved.value, setup.unit)].join("\n")}\n`);
  return exitCodes.done;
}

function strategyFor(evaluation: DocumentEvaluation, name: string | undefined): Outcome<StrategyEvaluation> {
  const named = evaluation.strategies.find(({ id }) => id === name)?.evaluation;
  const inUse = strategyInUse(evaluation)?.evaluation;
  if (name === undefined)
    return inUse
      ? success(inUse)
      : failure({ at: "chosen", what: "no strategy is in use that could be solved", remedy: "name one with --strategy" });
  const expected = evaluation.strategies.map(({ id }) => `"${id}"`).join(" or ");
  return named ?? failure({ at: "--strategy", what: "there is no strategy by this name", expected, got: name });
}

function turnPart(evaluation: DocumentEvaluation, axis: string, text: string, strategy: string | undefined): number {
  const about = axes.find((each) => each === axis.toUpperCase());
  if (about === undefined) return refuse([{ at: "--turn", what: "there is no such axis", expected: "X, Y or Z", got: axis }]);
  const across = readAcross(text, about, evaluation.setup.unit);
  if (!across.ok) return refuse(across.problems);
  const solved = strategyFor(evaluation, strategy);
  if (!solved.ok) return refuse(solved.problems);
  const turn = { about, across: across.value };
  const features = turnedFeatures(solved.value.solution.strategy.zero, turn, evaluation.location);
  if (!features.ok) return refuse(features.problems);
  process.stdout.write(`${turnedFeaturesText(features.value, turn, evaluation.setup.unit).join("\n")}\n`);
  return exitCodes.done;
}

async function nests({ setup: { unit } }: DocumentEvaluation, file: string): Promise<number> {
  const text = await readText(file, broughtText);
  if (!text.ok) return refuse(text.problems);
  const read = readNests(text.value, unit);
  if (!read.ok) return refuse(read.problems.map((problem) => ({ ...problem, at: `${file}${problem.at && `, ${problem.at}`}` })));
  const fits = [false, true].map((rotation) => fitNests(read.value, { rotation }));
  process.stdout.write(fitsText(fits, unit));
  return fits.some(({ ok }) => ok) ? exitCodes.done : exitCodes.unusable;
}
