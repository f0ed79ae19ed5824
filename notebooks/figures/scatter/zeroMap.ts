import { ticks } from "d3";
import type { CoverageEllipse } from "../coverageEllipse.ts";
import { decimalsOfStep } from "../decimalsOfStep.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { linearScale } from "../linearScale.ts";
import { pathOf } from "../svgBuilder.ts";
import type { FoundZero } from "./foundZero.ts";

/** The square that is shown about the zero as found. */
export interface ZeroMap {
  readonly sheet: Sheet;
  readonly writer: UnitWriter;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** Half of the square that is shown, mm. */
  readonly half: number;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly tooFine: boolean;
}

const top = 10;
/** Register steps closer than this, pixels, are a grey area and no grid. */
const leastStep = 5;

export function zeroMap({ ellipses, typed, step }: FoundZero, sheet: Sheet, writer: UnitWriter): ZeroMap {
  const side = Math.min(300, sheet.width - 88);
  const left = Math.max(62, (sheet.width - side) / 2);
  const largest = Math.max(...ellipses.map(({ ellipse }) => ellipse.major), ...(typed ?? []).map(Math.abs), step * 0.75);
  const half = largest > 0 ? largest * 1.15 : 1;
  const x = linearScale([-half, half], [left, left + side]);
  const y = linearScale([-half, half], [top + side, top]);
  return {
    sheet,
    writer,
    left,
    top,
    right: left + side,
    bottom: top + side,
    half,
    x,
    y,
    tooFine: step > 0 && (step / half) * (side / 2) < leastStep,
  };
}

export function drawFrame({ sheet: { draw }, writer, left, right, bottom, half, x, y }: ZeroMap): SVGElement[] {
  const marks = ticks(-half * writer.factor, half * writer.factor, 4);
  const decimals = decimalsOfStep(marks);
  const places = marks.map((mark) => mark / writer.factor);
  return [
    draw("rect", { class: "fig-frame", x: left, y: top, width: right - left, height: bottom - top }),
    draw("path", { class: "fig-chain", d: pathOf("M", left, y(0), "H", right, "M", x(0), top, "V", bottom) }),
    ...places.flatMap((place) => [
      draw("path", { class: "fig-axis", d: pathOf("M", x(place), bottom, "v", 4, "M", left, y(place), "h", -4) }),
      draw("text", { class: "fig-small fig-soft fig-middle", x: x(place), y: bottom + 16 }, writer.signed(place, decimals)),
      draw("text", { class: "fig-small fig-soft fig-end", x: left - 7, y: y(place) + 4 }, writer.signed(place, decimals)),
    ]),
    draw(
      "text",
      { class: "fig-small fig-end fig-halo", x: right - 5, y: bottom - 6 },
      `X${writer.suffix === "" ? "" : `,${writer.suffix}`}`,
    ),
    draw("text", { class: "fig-small fig-halo", x: left + 5, y: top + 14 }, `Y${writer.suffix === "" ? "" : `,${writer.suffix}`}`),
  ];
}

/** The values that the register can hold, through the offset as typed. */
export function drawSteps(
  { sheet: { draw }, left, right, bottom, half, x, y, tooFine }: ZeroMap,
  { typed, step }: FoundZero,
): SVGElement[] {
  if (step <= 0 || typed === undefined || tooFine) return [];
  const lines = (offset: number) => {
    const first = Math.ceil((-half - offset) / step);
    const count = Math.floor((half - offset) / step) - first + 1;
    return Array.from({ length: Math.max(0, count) }, (_, i) => offset + (first + i) * step);
  };
  return [
    draw("path", {
      class: "fig-hair",
      d: lines(typed[0])
        .map((at) => pathOf("M", x(at), top, "V", bottom))
        .join(" "),
    }),
    draw("path", {
      class: "fig-hair",
      d: lines(typed[1])
        .map((at) => pathOf("M", left, y(at), "H", right))
        .join(" "),
    }),
  ];
}

export function drawEllipse({ major, minor, angle }: CoverageEllipse, name: string, { sheet: { draw }, x, y }: ZeroMap): SVGElement {
  const length = (value: number) => Math.max(0.5, x(value) - x(0));
  const degrees = Math.round((-angle * 18000) / Math.PI) / 100;
  return draw(
    "g",
    {},
    draw("ellipse", {
      class: name === "95 %" ? "fig-region fig-region-wide" : "fig-region",
      cx: x(0),
      cy: y(0),
      rx: length(major),
      ry: length(minor),
      transform: `rotate(${degrees} ${x(0).toFixed(2)} ${y(0).toFixed(2)})`,
    }),
    draw(
      "text",
      {
        class: "fig-small fig-calm fig-halo",
        x: x(major * Math.cos(angle) * 0.71 - minor * Math.sin(angle) * 0.71) + 4,
        y: y(major * Math.sin(angle) * 0.71 + minor * Math.cos(angle) * 0.71) - 3,
      },
      name,
    ),
  );
}

export function drawPoints({ sheet: { draw }, x, y }: ZeroMap, { typed }: FoundZero): SVGElement[] {
  const zero = draw("circle", { class: "fig-calm-dot", cx: x(0), cy: y(0), r: 2.5 });
  if (typed === undefined) return [zero];
  const [tx, ty] = [x(typed[0]), y(typed[1])];
  return [zero, draw("path", { class: "fig-typed", d: pathOf("M", tx - 5, ty - 5, "l", 10, 10, "m", 0, -10, "l", -10, 10) })];
}
