import type { ResultCorrelation } from "../../lib/decision/correlationsOfResult.ts";
import { noCorrelation } from "../../lib/record/correlationText.ts";
import { correlationCell } from "./correlationTable.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { linearScale } from "./linearScale.ts";
import { pathOf } from "./svgBuilder.ts";
import { fitText, textWidth } from "./textWidth.ts";
import { writeLines } from "./writeLines.ts";

export interface CorrelationBarsOptions extends FigureOptions {
  /** The result that the others go together with. */
  readonly title: string;
}

/** The most rows that are drawn. */
const mostRows = 8;
const rowHeight = 19;
const scaleHeight = 18;
/** From this width on labels stand beside the scale. */
const besideFrom = 430;

/**
 * What errs together with a result: one row by other result, the strongest first, with a dot on a scale from -1 (as far the other way) to
 * +1 (just as far), and a line to it from 0, where two results share no doubt.
 */
export function correlationBars(
  correlations: readonly ResultCorrelation[],
  options: CorrelationBarsOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const related = correlations.filter(({ coefficient }) => Math.abs(coefficient) >= noCorrelation);
  const shown = related.slice(0, mostRows);
  const words = wordsOf(correlations, related, shown);
  const title = `What errs together with ${options.title}`;
  const description = [
    ...shown.slice(0, 3).map(({ id, coefficient }) => `${id}: correlation ${correlationCell(coefficient)}.`),
    ...words,
  ].join(" ");
  const sheet = openSheet({ ...options, kind: "correlation", subject: options.title, title, description }, environment);
  const layout = layoutOf(sheet, shown);
  const content = shown.length === 0 ? [] : drawScale(layout, 4 + scaleHeight + shown.length * layout.rowHeight);
  shown.forEach((row, i) => {
    content.push(drawRow(row, 4 + scaleHeight + i * layout.rowHeight, layout));
  });
  const told = writeLines(sheet, words, shown.length === 0 ? 0 : 8 + scaleHeight + shown.length * layout.rowHeight, "fig-small fig-soft");
  return sheet.finish(told.bottom + 6, [], [...content, ...told.marks]);
}

function wordsOf(
  all: readonly ResultCorrelation[],
  related: readonly ResultCorrelation[],
  shown: readonly ResultCorrelation[],
): readonly string[] {
  if (all.length === 0) return ["No other result is in doubt."];
  const more = related.length - shown.length;
  const weakest = related[shown.length];
  const unrelated = all.length - related.length;
  const results = (count: number) => `${count} ${count === 1 ? "result" : "results"}`;
  return [
    ...(more > 0 ? [`${results(more)} more, none stronger than ${correlationCell(Math.abs(weakest?.coefficient ?? 0))}.`] : []),
    ...(related.length === 0 ? ["It shares no doubt with any other result."] : []),
    ...(related.length > 0 && unrelated > 0 ? [`With ${results(unrelated)} it shares no doubt.`] : []),
  ];
}

interface Layout {
  readonly sheet: Sheet;
  readonly beside: boolean;
  readonly labelRoom: number;
  readonly rowHeight: number;
  readonly placeOf: (coefficient: number) => number;
}

function layoutOf(sheet: Sheet, shown: readonly ResultCorrelation[]): Layout {
  const { width } = sheet;
  const beside = width >= besideFrom;
  const figures = textWidth("< −0.99") + 10;
  const widest = Math.max(0, ...shown.map(({ id }) => textWidth(id)));
  const labelRoom = beside ? Math.min(width * 0.45, widest + 22) : width - figures;
  const range = beside ? ([labelRoom, width - figures - 8] as const) : ([14, width - 14] as const);
  return { sheet, beside, labelRoom, rowHeight: beside ? rowHeight : 32, placeOf: linearScale([-1, 1], range) };
}

function drawScale({ sheet: { draw }, placeOf, beside }: Layout, bottom: number): SVGElement[] {
  const marks = [-1, 0, 1].map((mark) =>
    draw("text", { class: "fig-small fig-soft fig-middle", x: placeOf(mark), y: 13 }, mark === 0 ? "0" : mark < 0 ? "−1" : "+1"),
  );
  const lines = beside
    ? [-1, 0, 1].map((mark) =>
        draw("path", { class: mark === 0 ? "fig-axis" : "fig-hair", d: pathOf("M", placeOf(mark), scaleHeight, "V", bottom) }),
      )
    : [];
  return [...lines, ...marks];
}

function drawRow({ id, coefficient }: ResultCorrelation, y: number, { sheet, beside, labelRoom, rowHeight: height, placeOf }: Layout) {
  const { draw, width } = sheet;
  const figures = correlationCell(coefficient);
  const middle = beside ? y + height / 2 : y + 22;
  const baseline = beside ? y + height - 6 : y + 12;
  const [from, to] = [placeOf(0), placeOf(coefficient)];
  return draw(
    "g",
    { class: "fig-row" },
    draw("title", {}, `${id}: ${figures}`),
    draw("text", { x: 2, y: baseline }, fitText(id, labelRoom - 8)),
    ...(beside
      ? []
      : [
          draw("path", { class: "fig-hair", d: pathOf("M", placeOf(-1), middle, "H", placeOf(1)) }),
          draw("path", { class: "fig-axis", d: pathOf("M", from, middle - 5, "v", 10) }),
        ]),
    draw("path", { class: "fig-lever", d: pathOf("M", from, middle, "H", to) }),
    draw("circle", { class: "fig-calm-dot", cx: to, cy: middle, r: 3.5 }),
    draw("text", { class: "fig-end", x: width - 4, y: baseline }, figures),
  );
}
