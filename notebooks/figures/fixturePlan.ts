import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { LocatingEvaluation } from "../../lib/tolerance/judgeFixture.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { enlargementText } from "./enlargement.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { drawLocators, drawToolingHole } from "./fixture/drawLocators.ts";
import { type ChosenError, drawMotion } from "./fixture/drawMotion.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import type { Board } from "./sketch/board.ts";
import { drawLabels } from "./sketch/drawLabels.ts";
import { drawPart } from "./sketch/drawPart.ts";
import { type Plan, planOf } from "./sketch/planOf.ts";
import { projectionOf } from "./sketch/projection.ts";
import { planWithFixture } from "./sketch/touchedFixture.ts";
import { writeLines } from "./writeLines.ts";

export interface FixturePlanOptions extends FigureOptions {
  readonly unit: DisplayUnit;
  /** Label of the contact whose error is drawn; the first that bears unless given. */
  readonly contact?: string;
}

/** What a contact errs by where nothing is stated to be in doubt, mm: only to show what it would do. */
const supposedError = 0.01;

/**
 * The part on its locators, seen from above: every locator with the direction in which it holds, and the outline as the error of one of
 * them moves it.
 */
export function fixturePlan(evaluation: SetupEvaluation, options: FixturePlanOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const located = evaluation.fixture?.located;
  const writer = writerOf(options.unit);
  const head = { ...options, kind: "fixture", subject: options.contact ?? "", title: "The part on its locators, from above" };
  if (located?.ok !== true) {
    const words = located === undefined ? "Nothing is stated of the fixture." : `Not known: ${outcomeInWords(located.problems)}.`;
    return onlyWords(openSheet({ ...head, description: words }, environment), words);
  }
  const locating = located.value;
  const holes = evaluation.setup.fixture.locators.flatMap(({ id, kind, at: [x, y], round }) =>
    kind === "tooling hole" && x !== undefined && y !== undefined ? [{ id, x, y, radius: (round?.diameter ?? 0) / 2 }] : [],
  );
  const plan = planWith(planOf(evaluation.setup.part, evaluation.location.located), locating);
  const chosen = chosenError(evaluation, locating, options.contact);
  const { isOnFixture } = evaluation.location;
  const touched = evaluation.setup.fixture.locators.flatMap(({ id }) => (isOnFixture(id) ? [id] : []));
  const description = [
    ...fixtureInWords(locating, chosen, writer),
    ...(touched.length > 0 ? [`Touched: ${touched.join(", ")}.`] : []),
    ...holes.map(({ id, x, y }) => `${id} at X ${writer.stated(x)}, Y ${writer.stated(y)} is a tooling hole and holds nothing.`),
  ].join(" ");
  const sheet = openSheet({ ...head, description }, environment);
  if (plan === undefined) return onlyWords(sheet, "Nothing of the part has a place in X and Y yet.");
  const whole = planWithFixture(plan, {
    lines: [],
    rounds: holes.map(({ x, y, radius }) => ({ element: { diameter: 2 * radius }, x, y })),
  });
  const projection = projectionOf(whole, sheet.width, { left: room, right: room, top: room, bottom: room }, 0);
  const board: Board = { sheet, draw: sheet.draw, writer, projection, marks: [], obstacles: [], lines: [], labels: [] };
  const { contacts, layout } = locating.location;
  drawPart(board, plan, new Set());
  const motion = chosen && drawMotion(board, plan, locating.location, chosen);
  drawLocators(
    board,
    contacts.map((contact, i) => ({
      contact,
      bears: layout.bearing.includes(i),
      lit: i === chosen?.contact,
      touched: isOnFixture(contact.locator),
    })),
  );
  for (const { id, x, y, radius } of holes) drawToolingHole(board, isOnFixture(id) ? `${id}, touched` : id, [x, y], radius);
  const bottom = projection.bounds.bottom + room;
  drawLabels(board, sheet.width, bottom);
  const words = writeLines(
    sheet,
    [...(chosen === undefined ? [] : [motionInWords(locating, chosen, motion ?? "still", writer)]), ...legend(locating)],
    bottom,
    "fig-small fig-soft",
  );
  return sheet.finish(words.bottom + 7, [], [...board.marks, ...words.marks]);
}

/** About the outline, pixels: arrows and names stand there. */
const room = 58;

function onlyWords(sheet: Sheet, sentence: string): SVGSVGElement {
  const words = writeLines(sheet, [sentence], 2, "fig-soft");
  return sheet.finish(words.bottom + 8, [], words.marks);
}

/** One standard uncertainty of the contact that is looked at; a supposed error where nothing of it is in doubt. */
function chosenError(
  { setup }: SetupEvaluation,
  { location: { contacts, layout }, errors }: LocatingEvaluation,
  wanted: string | undefined,
): ChosenError | undefined {
  const contact = contacts.findIndex(({ label }) => label === wanted);
  const index = contact < 0 ? layout.bearing[0] : contact;
  if (index === undefined) return undefined;
  const levels = setup.part.elements.flatMap(({ made, at }) => (made === "here" && at[2] !== undefined ? [at[2]] : []));
  return { contact: index, error: errors[index]?.standardUncertainty || supposedError, level: Math.max(0, ...levels) };
}

/** The plan with its open sides moved out to the locators; a plan of the locators alone where the part has no place. */
function planWith(plan: Plan | undefined, { location: { contacts } }: LocatingEvaluation): Plan | undefined {
  if (plan === undefined) return undefined;
  const side = (axis: "x" | "y", index: 0 | 1): Plan["x"] => {
    const [low, high] = plan[axis];
    const places = contacts.map(({ point }) => point[index]);
    return [low.face ? low : { ...low, at: Math.min(low.at, ...places) }, high.face ? high : { ...high, at: Math.max(high.at, ...places) }];
  };
  return { ...plan, x: side("x", 0), y: side("y", 1) };
}

function motionInWords(locating: LocatingEvaluation, chosen: ChosenError, motion: number | "still" | "free", writer: UnitWriter): string {
  const label = locating.location.contacts[chosen.contact]?.label ?? "";
  if (!locating.location.layout.bearing.includes(chosen.contact)) return `${label} is taken not to touch: its error moves nothing.`;
  const where = `at Z ${writer.stated(chosen.level)}`;
  if (motion === "free") return "No motion is drawn in X and Y: a motion that nothing holds moves the part there.";
  return motion === "still"
    ? `Nothing moves in X and Y ${where} by ${errorInWords(locating, chosen, writer)}.`
    : `Broken outline: the part moved by ${errorInWords(locating, chosen, writer)}, ${where}, ${enlargementText(motion)}.`;
}

function errorInWords({ location, errors }: LocatingEvaluation, { contact, error }: ChosenError, writer: UnitWriter): string {
  const label = location.contacts[contact]?.label ?? "";
  const amount = `${writer.withUncertainty(0, error).uncertainty}${writer.suffix}`;
  const isStated = (errors[contact]?.standardUncertainty ?? 0) > 0;
  return isStated ? `one standard uncertainty of ${label}, ${amount}` : `${amount} at ${label}, of which nothing is stated to be in doubt`;
}

function legend({ location: { contacts, layout } }: LocatingEvaluation): string[] {
  const kinds = [
    contacts.some(({ normal }) => normal[2] > 0) ? "ring with a dot: holds upward" : "",
    contacts.some(({ normal }) => normal[2] < 0) ? "ring with a cross: holds downward" : "",
    contacts.some(({ pushesOnly, normal }) => pushesOnly && normal[2] === 0) ? "arrow: pushes that way" : "",
    contacts.some(({ pushesOnly }) => !pushesOnly) ? "ring between arrows: a pin, holds both ways" : "",
    layout.redundant.length > 0 ? "broken: taken not to touch" : "",
  ].filter((words) => words !== "");
  const [first = "", ...rest] = kinds;
  return kinds.length === 0 ? [] : [`${[first.charAt(0).toUpperCase() + first.slice(1), ...rest].join("; ")}.`];
}

function fixtureInWords(locating: LocatingEvaluation, chosen: ChosenError | undefined, writer: UnitWriter): string[] {
  const { contacts, layout } = locating.location;
  const held = contacts.map(
    ({ label, point, normal }, i) =>
      `${label} at X ${writer.stated(point[0])}, Y ${writer.stated(point[1])} holds along ${directionInWords(normal)}${layout.bearing.includes(i) ? "" : " and is taken not to touch"}`,
  );
  return [
    `${held.join("; ")}.`,
    ...(layout.free.length > 0 ? [`Free: ${layout.free.map(({ words }) => words).join("; ")}.`] : []),
    ...(chosen === undefined ? [] : [`The motion is drawn for ${errorInWords(locating, chosen, writer)}.`]),
  ];
}

function directionInWords(normal: readonly number[]): string {
  const axis = normal.findIndex((value) => Math.abs(value) === 1);
  return axis < 0 ? `(${normal.map((value) => value.toFixed(2)).join(", ")})` : `${(normal[axis] as number) > 0 ? "+" : "−"}${"XYZ"[axis]}`;
}
