import type { SetupEvaluation, StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { axesOf } from "../../lib/part/part.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { enlargementText } from "./enlargement.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { placeLabels } from "./placeLabels.ts";
import type { Board } from "./sketch/board.ts";
import { datumReach, drawDatums } from "./sketch/drawDatums.ts";
import { drawHeights, stripWidth } from "./sketch/drawHeights.ts";
import { drawPart } from "./sketch/drawPart.ts";
import { type DrawnSize, drawSizes, sizeInWords, sizeRoom } from "./sketch/drawSizes.ts";
import { drawFaceTouches, drawRoundTouches, travelLength } from "./sketch/drawTouches.ts";
import { drawZero } from "./sketch/drawZero.ts";
import { type FaceSlots, faceSlots } from "./sketch/faceSlots.ts";
import { type Plan, planOf } from "./sketch/planOf.ts";
import { type Margins, projectionOf } from "./sketch/projection.ts";
import { type SketchModel, sketchModel } from "./sketch/sketchModel.ts";
import { turnedPart } from "./sketch/turnedPart.ts";
import { pathOf } from "./svgBuilder.ts";
import { smallSize, wrapText } from "./textWidth.ts";

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
export function setupSketch(evaluation: SetupEvaluation, strategyId: string, options: SetupSketchOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const model = sketchModel(evaluation, strategyId, options.highlight);
  const plan = planOf(evaluation.setup.part, evaluation.location.located);
  const description = sketchInWords(evaluation, model, strategyId);
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
  const slots = faceSlots(plan, model.touches, thisPart.ok ? thisPart.value : undefined);
  const sizes = arrangeSizes(plan, model, slots, evaluation);
  const margins = marginsOf(plan, slots, sizes, turned.drawn);
  const projection = projectionOf(plan, planWidth, margins, turned.drawn);
  const board: Board = { sheet, draw: sheet.draw, writer: writerOf(options.unit), projection, marks: [], obstacles: [], labels: [] };

  drawPart(board, plan, model.rough);
  const factor = model.strategy && drawZero(board, plan, model.strategy);
  drawSizes(board, plan, sizes);
  drawDatums(board, plan, slots);
  drawRoundTouches(board, plan, model.touches);
  drawFaceTouches(board, slots);
  const planBottom = projection.bounds.bottom + margins.bottom;
  drawLabels(board, planWidth, planBottom);

  let bottom = planBottom;
  if (strip.length > 0) {
    const place = beside ? { x: planWidth + 16, y: 6, width: stripRoom, wordsBeside: false } : { x: 0, y: planBottom + 8, width: sheet.width, wordsBeside: true };
    const line = beside ? pathOf("M", planWidth + 8, 6, "V", planBottom - 4) : pathOf("M", 0, planBottom + 4, "H", sheet.width);
    board.marks.push(sheet.draw("path", { class: "fig-hair", d: line }));
    const thicknesses = new Map(evaluation.setup.spacers.map(({ id, thickness }) => [id, thickness as number]));
    const reached = drawHeights(board, { touches: strip, located: evaluation.location.located, strategy: model.strategy, thicknessOf: (id) => thicknesses.get(id) }, place);
    bottom = Math.max(bottom, reached);
  }
  const sentences = [
    ...(factor === undefined ? [] : [`Ellipse: where the zero is with 95 %, ${enlargementText(factor)}.`]),
    ...(turned.words === undefined ? [] : [turned.words]),
    ...sizeSentences(model, sizes, board.writer),
    ...(model.touches.some(({ used }) => !used) && model.strategy ? ["Broken arrows: touches that this strategy does not count."] : []),
    ...(model.rough.size > 0 ? ["Hatched: stated as markedly rougher than the other faces."] : []),
    ...model.missing,
  ];
  return notes(sheet, board.marks, bottom, sentences);
}

const narrow = 430;
const least = 14;
/** An optional label that would lie over something with more than this share of itself is left out. */
const mostCovered = 0.08;

function notes(sheet: Sheet, marks: readonly SVGElement[], top: number, sentences: readonly string[]): SVGSVGElement {
  let y = top;
  const lines = sentences.flatMap((sentence) => wrapText(sentence, sheet.width - 4, smallSize)).map((line) => {
    y += 15;
    return sheet.draw("text", { class: "fig-small fig-soft", x: 2, y }, line);
  });
  const { draw, id } = sheet;
  const rough = draw("pattern", { id: `${id}-rough`, width: 5, height: 5, patternUnits: "userSpaceOnUse" }, draw("path", { class: "fig-rough-line", d: "M -1 1 L 1 -1 M 0 5 L 5 0 M 4 6 L 6 4" }));
  return sheet.finish(y + 7, [rough], [...marks, ...lines]);
}

/** Measured sizes that have no dimension line in the plan. */
function sizeSentences({ sizes }: SketchModel, drawn: readonly DrawnSize[], writer: UnitWriter): string[] {
  const rest = sizes.filter((size) => !drawn.some((each) => each.size === size));
  return rest.length === 0 ? [] : [`Measured by touches: ${rest.map((size) => sizeInWords(size, writer).text).join("; ")}${writer.suffix}.`];
}

/** Sides on which dimension lines run: free ones first, outside of touches and datums otherwise. */
function arrangeSizes(plan: Plan, { sizes }: SketchModel, slots: readonly FaceSlots[], { location, setup }: SetupEvaluation): DrawnSize[] {
  const used = { left: 0, right: 0, top: 0, bottom: 0 };
  const known = new Map(setup.part.elements.map((element) => [element.id, element]));
  return sizes.flatMap((size): DrawnSize[] => {
    const { dimension } = size;
    const [from, to] = dimension ? [known.get(dimension.from), known.get(dimension.to)] : [undefined, undefined];
    if (dimension === undefined || dimension.axis === "Z" || !from || !to || !axesOf(from, known).includes(dimension.axis)) return [];
    const axis = dimension.axis === "X" ? 0 : 1;
    const [a, b] = [from, to].map(({ id }) => location.located.places.get(id)?.[axis]?.nominal);
    if (a === undefined || b === undefined) return [];
    const sides = axis === 0 ? (["top", "bottom"] as const) : (["left", "right"] as const);
    const side = outwardReach(slots, plan, sides[0]) + used[sides[0]] <= outwardReach(slots, plan, sides[1]) + used[sides[1]] ? sides[0] : sides[1];
    used[side] += sizeRoom;
    return [{ size, axis, from: a, to: b, side, offset: outwardReach(slots, plan, side) + used[side] - 6 }];
  });
}

/** How far touches and datum letters stand off a side, pixels. */
function outwardReach(slots: readonly FaceSlots[], plan: Plan, side: keyof Margins): number {
  const edge = side === "left" ? plan.x[0] : side === "right" ? plan.x[1] : side === "bottom" ? plan.y[0] : plan.y[1];
  const slot = edge.face && slots.find(({ line }) => line.face.id === edge.face?.id);
  if (slot === undefined) return 4;
  return Math.max(4, slot.touches.length > 0 ? travelLength + 16 : 0, slot.datum === undefined ? 0 : datumReach + 4);
}

function marginsOf(plan: Plan, slots: readonly FaceSlots[], sizes: readonly DrawnSize[], turned: number): Margins {
  const room = (side: keyof Margins) => {
    const lines = sizes.filter((size) => size.side === side);
    // A turned part swings what stands off it.
    const swing = 1 + Math.abs(Math.sin(turned));
    const outermost = lines.length > 0 ? Math.max(...lines.map(({ offset }) => offset)) + (side === "top" || side === "left" ? 20 : 10) : 0;
    return Math.max(least, outermost, outwardReach(slots, plan, side) + 4) * swing;
  };
  return { left: Math.max(30, room("left")), right: Math.max(24, room("right")), top: room("top"), bottom: Math.max(30, room("bottom")) };
}

function drawLabels({ draw, marks, labels, obstacles }: Board, width: number, bottom: number): void {
  // What must be told takes its place first.
  const ordered = [...labels].sort((a, b) => Number(a.optional) - Number(b.optional));
  const boxes = placeLabels(ordered, obstacles, { x: 2, y: 2, width: width - 4, height: bottom - 2 });
  ordered.forEach(({ text, whole, className, optional }, i) => {
    const { box, covered } = boxes[i] as (typeof boxes)[number];
    if (optional && covered > mostCovered) return;
    const attributes = { class: `fig-halo ${className}`.trim(), x: box.x, y: box.y + 11 };
    marks.push(draw("text", attributes, text, ...(text === whole ? [] : [draw("title", {}, whole)])));
  });
}

function sketchInWords({ setup }: SetupEvaluation, model: SketchModel, strategyId: string): string {
  const { strategy, touches, sizes, missing } = model;
  const name = setup.part.name === "" ? "The part" : setup.part.name;
  const used = touches.filter(({ used: counts }) => counts).map(({ touch, element }) => `${touch.id} on ${element.id} (${touch.travelling})`);
  const writer = writerOf(setup.unit);
  return [
    `${name}, seen from above, with its touches and datums.`,
    used.length > 0 ? `${strategyId} counts ${used.join(", ")}.` : "No touch is counted.",
    ...(strategy === undefined ? [] : [zeroInWords(strategy)]),
    ...sizes.filter(({ dimension }) => dimension !== undefined).map((size) => `${sizeInWords(size, writer).text}${writer.suffix}.`),
    ...missing,
  ].join(" ");
}

function zeroInWords({ solution: { zeroOnPart, strategy } }: StrategyEvaluation): string {
  const places = strategy.zero.map((place, i) => (place.kind === "element" ? `${"XYZ"[i]} at ${place.element}` : `${"XYZ"[i]} at ${Math.round((zeroOnPart[i as 0 | 1 | 2] + Number.EPSILON) * 1e4) / 1e4} mm of the drawing`));
  return `Part zero: ${places.join(", ")}.`;
}
