import { listText } from "../../lib/base/listText.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { enlargementText } from "./enlargement.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { drawFeature, enlargementOf, largestOn, spotOf } from "./partMap/drawFeatures.ts";
import { mappedFeatures, type PartMap } from "./partMap/mappedFeatures.ts";
import type { Board } from "./sketch/board.ts";
import { drawLabels } from "./sketch/drawLabels.ts";
import { drawPart } from "./sketch/drawPart.ts";
import { planOf } from "./sketch/planOf.ts";
import { projectionOf } from "./sketch/projection.ts";
import { writeLines } from "./writeLines.ts";

export interface PartMapOptions extends FigureOptions {
  readonly unit: DisplayUnit;
}

/** The outline is at most so high, pixels: the map is looked at for what lies on it. */
const highest = 420;

/**
 * The part seen from above with every toleranced feature: its zone, and where its axis comes to lie with 95 % in this part and in the batch, from
 * the covariance of the deviation along X and Y (JCGM 102:2011, 6.5.2); zones and regions enlarged alike.
 */
export function partMap(
  evaluation: SetupEvaluation,
  strategyId: string,
  options: PartMapOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const found = evaluation.strategies.find(({ id }) => id === strategyId)?.evaluation;
  const title = `Where the features come to lie, ${strategyId === "" ? "without a strategy" : strategyId}`;
  const head = { ...options, kind: "part-map", subject: strategyId, title };
  const only = (words: string) => {
    const sheet = openSheet({ ...head, description: words }, environment);
    const written = writeLines(sheet, [words], 2, "fig-soft");
    return sheet.finish(written.bottom + 8, [], written.marks);
  };
  if (found === undefined) return only("No strategy is chosen.");
  if (!found.ok) return only(`Not known: ${outcomeInWords(found.problems)}.`);
  const map = mappedFeatures(evaluation, found.value);
  const plan = planOf(evaluation.setup.part, evaluation.location.located);
  if (plan === undefined) return only("Nothing of the part has a place in X and Y yet.");
  if (evaluation.setup.part.characteristics.length === 0) return only("The drawing demands nothing yet: add a characteristic.");

  const sentences = mapInWords(map);
  const sheet = openSheet({ ...head, description: sentences.join(" ") || "Nothing to be drawn in the plan." }, environment);
  // Zones of features at the very edge stand out of the outline.
  const room = largestOn(sheet) + 8;
  const projection = projectionOf(plan, sheet.width, { left: room, right: room, top: room, bottom: room }, 0, highest);
  const board: Board = {
    sheet,
    draw: sheet.draw,
    writer: writerOf(options.unit),
    projection,
    marks: [],
    obstacles: [],
    lines: [],
    labels: [],
  };
  drawPart(board, plan, new Set());
  // Only the features are named here: the sketch names the rest.
  board.labels.length = 0;
  board.obstacles.length = 0;
  board.marks.push(sheet.draw("g", { class: "fig-under" }, ...board.marks.splice(0)));
  const spots = map.features.map(({ at }) => spotOf(board, plan, at));
  const factor = enlargementOf(map.features, spots, board);
  if (factor !== undefined) {
    for (const [i, feature] of map.features.entries()) drawFeature(board, feature, spots[i] as (typeof spots)[number], factor);
    // Where not all names find a place, those come first that tell where something is wrong.
    board.labels.sort((a, b) => Number(b.className.includes("fig-strong")) - Number(a.className.includes("fig-strong")));
  }
  const bottom = projection.bounds.bottom + room;
  const leftOut = drawLabels(board, sheet.width, bottom);
  const legend = factor === undefined ? [] : [legendWith(factor)];
  const unnamed = leftOut.length === 0 ? [] : [`Without room for a name: ${shortList(leftOut)}.`];
  return finished(sheet, board, bottom, [...legend, ...sentences, ...unnamed]);
}

function finished(sheet: Sheet, { marks }: Board, bottom: number, sentences: readonly string[]): SVGSVGElement {
  const words = writeLines(sheet, sentences, bottom, "fig-small fig-soft");
  return sheet.finish(words.bottom + 7, [], [...marks, ...words.marks]);
}

function legendWith(factor: number): string {
  return `Rings and end marks: tolerance zones. Shaded: where this part's axes and planes lie with 95 % if deviations are normal; broken: the same in the batch. All of these are ${enlargementText(factor)}, the part is not.`;
}

const viewNames = { thisPart: "this part", batch: "the batch" } as const satisfies Record<View, string>;
const mostNamed = 6;

function mapInWords({ features, others }: PartMap): string[] {
  const leaving = (["thisPart", "batch"] as const).flatMap((view) => {
    const names = features.filter(({ regions }) => regions[view]?.leaves === true).map(({ characteristic }) => characteristic);
    return names.length === 0 ? [] : [`In ${viewNames[view]} the region reaches out of the zone: ${shortList(names)}.`];
  });
  const unknown = features.filter(({ regions }) => regions.thisPart === undefined && regions.batch === undefined);
  return [
    ...(leaving.length > 0 || features.length === 0 || unknown.length === features.length
      ? leaving
      : ["All regions lie within their zones."]),
    ...(unknown.length === 0 ? [] : [`Not known: ${shortList(unknown.map(({ characteristic }) => characteristic))}.`]),
    ...(others.length === 0
      ? []
      : [`Not in the plan: ${shortList(others.map(({ characteristic, why }) => `${characteristic} (${why})`))}.`]),
  ];
}

function shortList(names: readonly string[]): string {
  return names.length <= mostNamed ? listText(names) : `${names.slice(0, mostNamed).join(", ")} and ${names.length - mostNamed} more`;
}
