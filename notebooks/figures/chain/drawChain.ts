import type { ChainLink, DimensionChain } from "../../../lib/tolerance/dimensionChain.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { linearScale } from "../linearScale.ts";
import { arrowhead } from "../sketch/board.ts";
import { pathOf } from "../svgBuilder.ts";
import { fitText, smallSize, textWidth } from "../textWidth.ts";
import { arrangePlaces } from "./arrangePlaces.ts";
import { linkInWords, placeInWords } from "./chainWords.ts";

const side = 16;
const lineHeight = 14;
const rowHeight = 32;
/** Dimension lines shorter than this have no room for two arrowheads, pixels. */
const shortest = 20;

/** One chain from `top` down: places along the axis, a dimension line for each of its links. Returns how far down it reaches. */
export function drawChain(
  sheet: Sheet,
  chain: DimensionChain,
  programmed: readonly { readonly element: string; readonly to: number }[],
  writer: UnitWriter,
  top: number,
): { readonly marks: SVGElement[]; readonly bottom: number } {
  const { draw, width } = sheet;
  const marks: SVGElement[] = [draw("text", { class: "fig-strong", x: 2, y: top + 14 }, `Along ${chain.axis}`)];
  const all = [...chain.places.map(({ nominal }) => nominal), chain.zero];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const x = most > least ? linearScale([least, most], [side, width - side]) : () => width / 2;
  const zeroHasPlace = chain.places.some(({ isZero }) => isZero);
  const named = [
    ...chain.places.map((place) => ({ x: x(place.nominal), text: placeInWords(place) })),
    ...(zeroHasPlace ? [] : [{ x: x(chain.zero), text: `zero at ${writer.stated(chain.zero)}` }]),
  ];
  const arranged = arrangePlaces(named, { from: 2, to: width - 2 });
  const rows = Math.max(...arranged.map(({ level, lines }) => level + lines.length));
  const axis = top + 22 + rows * lineHeight + 16;
  const rowsBelow = chain.links.length + programmed.length;
  const bottom = axis + 14 + Math.max(0, rowsBelow) * rowHeight;

  for (const place of chain.places)
    marks.push(
      draw("path", { class: place.end === undefined ? "fig-hair" : "fig-axis", d: pathOf("M", x(place.nominal), axis, "V", bottom - 8) }),
    );
  for (const { x: at, lines, left, level } of arranged) {
    const foot = axis - 14 - level * lineHeight;
    marks.push(draw("path", { class: "fig-hair", d: pathOf("M", at, axis, "V", foot - 2) }));
    for (const [i, { text, whole }] of lines.entries()) {
      const y = foot - 4 - (lines.length - 1 - i) * lineHeight;
      marks.push(draw("text", { class: "fig-small fig-halo", x: left, y }, text, ...(text === whole ? [] : [draw("title", {}, whole)])));
    }
  }
  marks.push(draw("path", { class: "fig-axis", d: pathOf("M", x(least) - 8, axis, "H", x(most) + 8) }));
  for (const place of chain.places) marks.push(...placeMarks(sheet, place, x(place.nominal), axis));
  marks.push(draw("circle", { class: "fig-zero-ring", cx: x(chain.zero), cy: axis, r: 4.5 }));

  let y = axis + 14;
  for (const link of chain.links) {
    marks.push(...dimensionLine(sheet, link, [x(link.from), x(link.to)], y, writer));
    y += rowHeight;
  }
  for (const { element, to } of programmed) {
    const [from, end] = [x(chain.zero), x(to)];
    const way = writer.stated(Math.abs(to - chain.zero));
    marks.push(
      ...lineBetween(sheet, from, end, y + 22, "fig-open", true),
      words(sheet, `${element} is cut ${way} from zero: no size of the part in it`, [from, end], y + 16),
    );
    y += rowHeight;
  }
  return { marks, bottom };
}

function placeMarks(
  { draw }: Sheet,
  { datum, touches, end, element }: DimensionChain["places"][number],
  x: number,
  axis: number,
): SVGElement[] {
  return [
    ...(end === "of" ? [draw("path", { class: "fig-cut", d: pathOf("M", x, axis - 7, "V", axis + 7) }, draw("title", {}, element))] : []),
    ...(end === "of" ? [] : [draw("path", { class: "fig-edge", d: pathOf("M", x, axis - 4, "V", axis + 4) })]),
    ...(datum === ""
      ? []
      : [
          draw(
            "path",
            { class: "fig-triangle", d: pathOf("M", x - 5, axis + 8, "h", 10, "L", x, axis, "Z") },
            draw("title", {}, `datum ${datum}`),
          ),
        ]),
    ...(touches.length === 0
      ? []
      : [
          draw(
            "g",
            { class: "fig-touch" },
            draw("title", {}, `touched by ${touches.join(", ")}`),
            arrowhead(draw, [x, axis - 1], [0, 1], "fig-tip", 10),
          ),
        ]),
  ];
}

function dimensionLine(sheet: Sheet, link: ChainLink, [from, to]: readonly [number, number], y: number, writer: UnitWriter): SVGElement[] {
  const size = Math.abs(link.gain);
  const className = size < 1e-3 ? "fig-gain-none" : size < 0.75 ? "fig-gain-part" : "fig-gain-whole";
  return [
    ...lineBetween(sheet, from, to, y + 22, className, false),
    words(sheet, linkInWords(link, writer), [from, to], y + 16, size >= 1e-3),
  ];
}

function lineBetween({ draw }: Sheet, from: number, to: number, y: number, className: string, oneWay: boolean): SVGElement[] {
  const [left, right] = from < to ? [from, to] : [to, from];
  const line = draw("path", { class: className, d: pathOf("M", left, y, "H", right) });
  if (right - left < shortest) return [line, ...[left, right].map((at) => draw("circle", { class: "fig-ink-fill", cx: at, cy: y, r: 2 }))];
  const head = (at: number, sign: 1 | -1) => arrowhead(draw, [at, y], [sign, 0], "fig-ink-fill", 8);
  return [line, ...(oneWay ? [] : [head(from, from < to ? -1 : 1)]), head(to, from < to ? 1 : -1)];
}

/** Over the middle of its line, kept on the sheet. */
function words({ draw, width }: Sheet, text: string, [from, to]: readonly [number, number], y: number, strong = false): SVGElement {
  const shown = fitText(text, width - 8, smallSize);
  const length = textWidth(shown, smallSize) * (strong ? 1.06 : 1);
  const x = Math.max(4, Math.min(width - 4 - length, (from + to) / 2 - length / 2));
  return draw(
    "text",
    { class: `fig-small fig-halo${strong ? " fig-strong" : " fig-soft"}`, x, y },
    shown,
    ...(shown === text ? [] : [draw("title", {}, text)]),
  );
}
