import { dayWithin } from "../base/moment.ts";
import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { axes } from "../base/vector.ts";
import type { Setup } from "../datum/setup.ts";
import type { Strategy, ZeroPlace } from "../datum/strategy.ts";
import type { WorkFrame } from "../equipment/equipment.ts";
import type { Names } from "../formula/names.ts";
import { isCellSource } from "../ledger/cellSource.ts";
import { namesOf } from "../ledger/namesOf.ts";
import { type Element, type Part, rowOf } from "../part/part.ts";
import { planOperations } from "./operationDocument.ts";
import { readCorrelations } from "./readCorrelations.ts";
import { readDecision, readInspection } from "./readDecision.ts";
import { readMachine, readSpacers, readTools, readWorkFrames } from "./readEquipment.ts";
import { readCheckMoves, readEvents, readSlipChances } from "./readEvents.ts";
import { readFixture } from "./readFixture.ts";
import { readHeat } from "./readHeat.ts";
import { newReading } from "./reading.ts";
import { type FreeCells, freeCellsOf, readLedger } from "./readLedger.ts";
import { readNestPlaces } from "./readNests.ts";
import { readOffsets } from "./readOffsets.ts";
import { readOperations } from "./readOperations.ts";
import { readPart } from "./readPart.ts";
import { readMadeParts, readWarmUp } from "./readRun.ts";
import { readChecks, readTouches } from "./readTouches.ts";
import { readWhatIf } from "./readWhatIf.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { SetupDocument, StrategyEntry } from "./setupDocument.ts";

export interface ReadSetup {
  readonly setup: Setup;
  /** Every entry that could not be read, at its place. Its row is left out of the setup; the rest is whole. */
  readonly problems: readonly Problem[];
}

/** The most trials that a live evaluation takes. */
const mostTrials = 200_000;

/** Reads all typed entries of a document: lax text in, strict numbers out. Of several operations the one that is looked at, with what those before it have left. */
export function readSetup(document: SetupDocument, cells: FreeCells = freeCellsOf(readLedger(document))): ReadSetup {
  if (document.operations.length === 0) return readOne(document, cells);
  const plan = planOperations(document);
  return readOperations(plan, plan.inView, (one) => readOne(one, cells)).at(-1) as ReadSetup;
}

/** All operations of a document, in their order; none where the part has one that goes without a name. */
export function readAllOperations(document: SetupDocument, cells: FreeCells = freeCellsOf(readLedger(document))): ReadSetup[] {
  const plan = planOperations(document);
  return readOperations(plan, plan.operations.length - 1, (one) => readOne(one, cells));
}

/** The part as the drawing has it, whatever else of the document can be read. */
export function readDrawnPart(document: SetupDocument): Part {
  return readPart(document, newReading(document.unit, namesForEntries(freeCellsOf(readLedger(document)))), []);
}

function readOne(document: SetupDocument, cells: FreeCells): ReadSetup {
  const problems: Problem[] = [];
  const suppositions = readWhatIf(document, problems);
  const reading = newReading(document.unit, namesForEntries(cells), suppositions);
  const part = readPart(document, reading, problems);
  const workFrames = readWorkFrames(document, reading, problems);
  const tools = readTools(document, reading, problems);
  const spacers = readSpacers(document, reading, problems);
  const { touches, planned } = readTouches(document, workFrames, reading, problems);
  const machineProblems: Problem[] = [];
  const heat = readHeat(document, reading, machineProblems);
  const machine = { ...readMachine(document, reading, machineProblems), heat };
  problems.push(...machineProblems);
  const correlations = readCorrelations(document, problems, reading.names);
  const checks = readChecks(document, workFrames, reading, problems);
  const fixture = readFixture(document, part, reading, problems);
  const offsets = readOffsets(document, reading, problems);
  const madeParts = readMadeParts(document, part, reading, problems);
  const unread = new Set([
    ...unreadRows("part.elements", document.part.elements, part.elements),
    ...unreadRows(
      "part.characteristics",
      document.part.characteristics,
      part.characteristics.map((characteristic) => ({ id: rowOf(characteristic) })),
    ),
    ...unreadRows("fixture.locators", document.fixture.locators, fixture.locators),
    ...unreadRows("tools", document.tools, tools),
    ...unreadRows("spacers", document.spacers, spacers),
    ...unreadRows("touches", document.touches, [...touches, ...planned]),
    ...unreadRows("madeParts.corrections", document.madeParts.corrections, madeParts.corrections),
    ...(machineProblems.length > 0 ? ["machine"] : []),
    ...(cells.doubts.isUnusable || [...correlations.unusable].some((source) => !isCellSource(source)) ? ["correlations"] : []),
  ]);
  const setup: Setup = {
    title: document.title,
    day: dayWithin(document.record.date),
    part,
    tools,
    spacers,
    machine,
    touches,
    planned,
    fixture,
    offsets,
    nests: readNestPlaces(document, reading, problems),
    unread,
    strategies: readRows(document.strategies, "strategies", reading, problems, (entry, row) => readStrategy(entry, row, part, workFrames)),
    chosen: document.chosen,
    madeParts,
    warmUp: readWarmUp(document, reading, problems),
    frames: workFrames.filter(({ id }) => document.touches.some(({ frame }) => frame === id)),
    checks,
    checkMoves: readCheckMoves(document, reading, problems),
    events: readEvents(document, reading, problems),
    slipChances: readSlipChances(document, reading, problems),
    decision: readDecision(document, problems),
    inspection: readInspection(document, reading, problems),
    unit: document.unit,
    sources: { given: reading.given, suppositions },
    relations: correlations.ofSetup,
    cellDoubts: cells.doubts.values,
    // Whoever names such a cell, and if nobody does: what a person has put in the place of a stated entry is never told as stated.
    supposed: [...suppositions.keys(), ...cells.overridden],
    sampling: readSampling(document, problems),
  };
  if (document.chosen !== "" && !document.strategies.some(({ id }) => id === document.chosen)) {
    problems.push({
      at: "chosen",
      what: "there is no strategy by this name",
      expected: "the name of a listed strategy",
      got: document.chosen,
      ...suggestName(
        document.chosen,
        document.strategies.map(({ id }) => id),
      ),
    });
  }
  return { setup, problems };
}

function namesForEntries({ values, known, bound }: FreeCells): Names {
  const names = namesOf({ get: (name) => values.get(name), keys: () => known.values() });
  return {
    ...names,
    problemOf: (name) =>
      bound.has(name)
        ? { what: `"${name}" rests on results of this setup, which rest on its entries`, remedy: "name a cell that rests on no result" }
        : names.problemOf(name),
  };
}

/** Rows that the document lists and that did not come through. */
function unreadRows(table: string, listed: readonly { readonly id: string }[], read: readonly { readonly id: string }[]): string[] {
  const through = new Set(read.map(({ id }) => id));
  return listed.flatMap(({ id }) => (through.has(id) ? [] : [`${table}.${id}`]));
}

function readStrategy(entry: StrategyEntry, row: RowReader, part: Part, workFrames: readonly WorkFrame[]): Strategy {
  const elements = new Map(part.elements.map((element) => [element.id, element]));
  const zero = axes.map((axis) => {
    const name = axis.toLowerCase() as "x" | "y" | "z";
    return readZero(entry.zero[name], `zero.${name}`, row, elements);
  });
  const repeated = entry.touches.find((id, i) => entry.touches.indexOf(id) !== i);
  if (repeated !== undefined) row.refuse("touches", { what: "a touch counts once in a strategy", got: repeated });
  const fixtureFrame = readFixtureFrame(entry, row, workFrames);
  return {
    id: entry.id,
    fixtureFrame,
    touches: entry.touches,
    hold: entry.hold,
    orient: entry.orient,
    rotation: entry.rotation,
    sizes: entry.sizes,
    zero: zero as unknown as Strategy["zero"],
  };
}

/** A part that its fixture locates is not touched, and lies as the fixture lies. */
function readFixtureFrame(entry: StrategyEntry, row: RowReader, workFrames: readonly WorkFrame[]): WorkFrame | undefined {
  const name = entry.fixtureFrame.trim();
  if (name === "") return undefined;
  const known = workFrames.find(({ id }) => id === name);
  if (known === undefined)
    row.refuse("fixtureFrame", {
      what: "there is no readable work frame by this name",
      expected: "the name of a work frame",
      got: name,
      ...suggestName(
        name,
        workFrames.map(({ id }) => id),
      ),
    });
  const remedy = "leave it as it is without a fixture's frame, or make that another strategy";
  for (const key of ["touches", "hold", "orient"] as const)
    if (entry[key].length > 0)
      row.refuse(key, {
        what: "a zero that stays on the fixture rests on nothing of the part",
        expected: "nothing",
        got: entry[key].join(", "),
        remedy,
      });
  if (entry.rotation !== "ignored")
    row.refuse("rotation", {
      what: "a zero that stays on the fixture looks at no skew of the part",
      expected: "ignored",
      got: entry.rotation,
      remedy,
    });
  return known;
}

/** An element's name, or a coordinate; nothing is 0. */
function readZero(text: string, entry: string, row: RowReader, elements: ReadonlyMap<string, Element>): ZeroPlace {
  const trimmed = text.trim();
  if (trimmed !== "" && elements.has(trimmed)) return { kind: "element", element: trimmed };
  return { kind: "coordinate", value: row.length(entry, text) ?? mm(0) };
}

function readSampling({ sampling }: SetupDocument, problems: Problem[]): Setup["sampling"] {
  const whole = (value: number, least: number, most: number, entry: "trials" | "seed", usual: number): number => {
    if (Number.isInteger(value) && value >= least && value <= most) return value;
    problems.push({
      at: `sampling.${entry}`,
      what: "this is counted",
      expected: `a whole number from ${least} to ${most}`,
      got: String(value),
    });
    return usual;
  };
  return { trials: whole(sampling.trials, 1, mostTrials, "trials", 2048), seed: whole(sampling.seed, 0, 0xffffffff, "seed", 1) };
}
