import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { enlargementText } from "./enlargement.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { arrangeSizes, marginsOf } from "./sketch/arrangeSizes.ts";
import type { Board } from "./sketch/board.ts";
import { drawDatums } from "./sketch/drawDatums.ts";
import { drawHeights, stripWidth } from "./sketch/drawHeights.ts";
import { drawLabels } from "./sketch/drawLabels.ts";
import { drawPart } from "./sketch/drawPart.ts";
import { drawSizes } from "./sketch/drawSizes.ts";
import { drawAngledTouches, drawFaceTouches, drawRoundTouches } from "./sketch/drawTouches.ts";
import { drawZero } from "./sketch/drawZero.ts";
import { faceSlots } from "./sketch/faceSlots.ts";
import { planOf } from "./sketch/planOf.ts";
import { projectionOf } from "./sketch/projection.ts";
import { otherSizes, sketchInWords } from "./sketch/sketchInWords.ts";
import { type SketchTouch, sketchModel } from "./sketch/sketchModel.ts";
import { drawTouchedFixture, planWithFixture, touchedFixture } from "./sketch/touchedFixture.ts";
import { turnedPart } from "./sketch/turnedPart.ts";
import { pathOf } from "./svgBuilder.ts";
import { writeLines } from "./writeLines.ts";

export interface SetupSketchOptions extends FigureOptions {
  readonly unit: DisplayUnit;
  /** The touch that a person stands on: it takes the colour of what is touched. */
  readonly highlight?: string;
}

/**
 * The part seen from above at nominal sizes, as a strategy uses it: faces, bores
 * and what is cut here, touches with the way of the tool, datums, part zero with
 * the enlarged ellipse of its doubt, the enlarged skew, sizes that touches have
 * measured; beside it what was touched from above.
 */
export function setupSketch(
  evaluation: SetupEvaluation,
  strategyId: string,
  options: SetupSketchOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const model = sketchModel(evaluation, strategyId, options.highlight);
  const plan = planOf(evaluation.setup.part, evaluation.location.located);
  const writer = writerOf(options.unit);
  const description = sketchInWords(evaluation, model, strategyId, writer);
  const title = strategyId === "" ? "Setup seen from above" : `Setup seen from above, ${strategyId}`;
  const sheet = openSheet({ ...options, kind: "sketch", subject: strategyId, title, description }, environment);
  if (plan === undefined) {
    const words = "Nothing of the part has a place in X and Y yet: give a face or a bore a datum letter, or tie it to one by a dimension.";
    return notes(sheet, [], 4, [words, ...model.missing]);
  }

  const turned = turnedPart(model.strategy);
  const strip = model.touches.filter(({ contact }) => contact.travel[2] !== 0);
  const beside = strip.length > 0 && sheet.width >= narrow;
  const stripRoom = stripWidth(strip.filter(({ touch }) => touch.travelling === "-Z").length);
  const planWidth = beside ? sheet.width - stripRoom - 16 : sheet.width;
  const { thisPart } = evaluation.location;
  const fixture = touchedFixture(evaluation, model.touches, plan);
  const slots = faceSlots(plan, model.touches, thisPart.ok ? thisPart.value : undefined, fixture.lines);
  const sizes = arrangeSizes(plan, model, slots, evaluation);
  const margins = marginsOf(plan, model, slots, sizes, turned.drawn);
  const projection = projectionOf(planWithFixture(plan, fixture), planWidth, margins, turned.drawn);
  const board: Board = { sheet, draw: sheet.draw, writer, projection, marks: [], obstacles: [], lines: [], labels: [] };

  drawPart(board, plan, model.rough);
  const factor = model.strategy && drawZero(board, plan, model.strategy);
  drawSizes(board, plan, sizes);
  drawDatums(board, plan, slots);
  drawAngledTouches(board, plan, model.touches);
  drawTouchedFixture(board, fixture);
  drawRoundTouches(board, { rounds: [...plan.rounds, ...fixture.rounds] }, model.touches);
  drawFaceTouches(board, slots);
  const planBottom = projection.bounds.bottom + margins.bottom;
  drawLabels(board, planWidth, planBottom);

  let bottom = planBottom;
  if (strip.length > 0) {
    const place = beside
      ? { x: planWidth + 16, y: 6, width: stripRoom, wordsBeside: false }
      : { x: 0, y: planBottom + 8, width: sheet.width, wordsBeside: true };
    const line = beside ? pathOf("M", planWidth + 8, 6, "V", planBottom - 4) : pathOf("M", 0, planBottom + 4, "H", sheet.width);
    board.marks.push(sheet.draw("path", { class: "fig-hair", d: line }));
    const thicknesses = new Map(evaluation.setup.spacers.map(({ id, thickness }) => [id, thickness as number]));
    const reached = drawHeights(
      board,
      {
        touches: strip,
        located: evaluation.location.touchable.located,
        strategy: model.strategy,
        thicknessOf: (id) => thicknesses.get(id),
      },
      place,
    );
    bottom = Math.max(bottom, reached);
  }
  const sentences = [
    ...(factor === undefined ? [] : [`Ellipse: where the zero is with 95 %, ${enlargementText(factor)}.`]),
    ...(turned.words === undefined ? [] : [turned.words]),
    ...otherSizes(model, sizes, writer),
    ...(model.touches.some(({ used }) => !used) && model.strategy ? ["Broken arrows: touches that this strategy does not count."] : []),
    ...(fixture.lines.length + fixture.rounds.length > 0 ? ["Filled: of the fixture, touched before the part is in or beside it."] : []),
    ...(model.rough.size > 0 ? ["Hatched: stated as markedly rougher than the other faces."] : []),
    ...datumsNotShown(evaluation, strip),
    ...model.missing,
  ];
  return notes(sheet, board.marks, bottom, sentences);
}

/** Figures at least this wide, pixels, have the strip beside the plan. */
const narrow = 430;

/** Datums on faces along Z that no touch brings into the strip. */
function datumsNotShown({ setup }: SetupEvaluation, strip: readonly SketchTouch[]): string[] {
  const faces = setup.part.elements.filter((element) => element.kind === "face" && element.outward[1] === "Z" && element.datum !== "");
  return faces
    .filter(({ id }) => !strip.some(({ element }) => element.id === id))
    .map(({ id, datum }) => `Datum ${datum} is ${id}, along Z.`);
}

function notes(sheet: Sheet, marks: readonly SVGElement[], top: number, sentences: readonly string[]): SVGSVGElement {
  const words = writeLines(sheet, sentences, top, "fig-small fig-soft");
  const { draw, id } = sheet;
  const rough = draw(
    "pattern",
    { id: `${id}-rough`, width: 5, height: 5, patternUnits: "userSpaceOnUse" },
    draw("path", { class: "fig-rough-line", d: "M -1 1 L 1 -1 M 0 5 L 5 0 M 4 6 L 6 4" }),
  );
  return sheet.finish(words.bottom + 7, [rough], [...marks, ...words.marks]);
}
