import { ticks } from "d3";
import { decimalsOfStep } from "../decimalsOfStep.ts";
import type { UnitWriter } from "../displayUnit.ts";
import type { Sheet } from "../figure.ts";
import { linearScale } from "../linearScale.ts";
import { pathOf } from "../svgBuilder.ts";
import { smallSize, textWidth } from "../textWidth.ts";

/** Lengths that follow each other, by part or by time. */
export interface Course {
  /** Where each stands across, and its length, mm. */
  readonly points: readonly CoursePoint[];
  /** A line through them; empty for one from point to point. */
  readonly curve: readonly { readonly at: number; readonly value: number }[];
  /** Lines all the way across, with what they are. */
  readonly levels: readonly { readonly value: number; readonly words: string; readonly isLimit: boolean }[];
  /** Moments, with what happens there. */
  readonly moments: readonly { readonly at: number; readonly words: string }[];
  /** What is told across: "part", "minutes since the start". */
  readonly across: string;
  /** Whether only whole numbers are marked across. */
  readonly isCounted: boolean;
}

export interface CoursePoint {
  readonly at: number;
  readonly value: number;
  /** Drawn open and large: it lies where it should not. */
  readonly isStrange: boolean;
}

const top = 22;
const height = 170;
const bottom = top + height;

/** Draws a course; returns its marks and how far down they reach. */
export function drawCourse(
  course: Course,
  sheet: Sheet,
  writer: UnitWriter,
): { readonly marks: readonly SVGElement[]; readonly bottom: number } {
  const { draw, width } = sheet;
  const values = [...course.points, ...course.curve, ...course.levels].map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? (most - least) * 0.08 : Math.abs(most) * 1e-6 || 1e-3;
  const [from, to] = [least - room, most + room];
  const marks = ticks(from * writer.factor, to * writer.factor, 5);
  const decimals = decimalsOfStep(marks);
  const places = marks.map((mark) => mark / writer.factor);
  const left = Math.max(...places.map((place) => textWidth(writer.signed(place, decimals), smallSize))) + 12;
  const right = width - Math.max(8, ...course.levels.map(({ words }) => textWidth(words, smallSize) + 8));
  const times = [...course.points, ...course.curve, ...course.moments].map(({ at }) => at);
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const margin = last > first ? (last - first) * 0.04 : 1;
  const x = linearScale([first - margin, last + margin], [left, right]);
  const y = linearScale([from, to], [bottom, top]);
  const across = ticks(first, last, Math.min(8, Math.max(2, (right - left) / 50))).filter(
    (mark) => !course.isCounted || Number.isInteger(mark),
  );
  const line = course.curve.length > 0 ? course.curve : course.points;
  return {
    bottom: bottom + 34,
    marks: [
      draw("rect", { class: "fig-frame", x: left, y: top, width: right - left, height }),
      ...places.flatMap((place) => [
        draw("path", { class: "fig-axis", d: pathOf("M", left, y(place), "h", -4) }),
        draw("text", { class: "fig-small fig-soft fig-end", x: left - 7, y: y(place) + 4 }, writer.signed(place, decimals)),
      ]),
      ...across.flatMap((mark) => [
        draw("path", { class: "fig-axis", d: pathOf("M", x(mark), bottom, "v", 4) }),
        draw("text", { class: "fig-small fig-soft fig-middle", x: x(mark), y: bottom + 16 }, String(mark)),
      ]),
      draw("text", { class: "fig-small fig-soft", x: left, y: top - 8 }, writer.suffix.trim()),
      draw("text", { class: "fig-small fig-soft fig-end", x: right, y: bottom + 30 }, course.across),
      ...levelMarks(course, sheet, { y, left, right }),
      ...course.moments.flatMap(({ at, words }) => momentMarks(sheet, x(at), words, { left, right })),
      draw("path", {
        class: course.curve.length > 0 ? "fig-curve" : "fig-thin",
        d: line.map(({ at, value }, i) => pathOf(i === 0 ? "M" : "L", x(at), y(value))).join(" "),
      }),
      ...course.points.map(({ at, value, isStrange }) =>
        isStrange
          ? draw("path", { class: "fig-typed fig-bad", d: pathOf("M", x(at) - 5, y(value) - 5, "l", 10, 10, "m", 0, -10, "l", -10, 10) })
          : draw("circle", { class: "fig-calm-dot", cx: x(at), cy: y(value), r: 2.5 }),
      ),
    ],
  };
}

interface Ends {
  readonly left: number;
  readonly right: number;
}

/** Words of lines stand behind them; of lines that lie too near, below each other. */
function levelMarks(
  { levels }: Course,
  { draw }: Sheet,
  { y, left, right }: Ends & { readonly y: (value: number) => number },
): SVGElement[] {
  let lowest = Number.NEGATIVE_INFINITY;
  return [...levels]
    .sort((a, b) => b.value - a.value)
    .flatMap(({ value, words, isLimit }) => {
      const at = Math.max(y(value) + 4, lowest + 13);
      lowest = at;
      return [
        draw("path", { class: isLimit ? "fig-limit" : "fig-chain", d: pathOf("M", left, y(value), "H", right) }),
        draw("text", { class: `fig-small ${isLimit ? "fig-bad" : "fig-soft"}`, x: right + 6, y: at }, words),
      ];
    });
}

function momentMarks({ draw }: Sheet, at: number, words: string, { left, right }: Ends): SVGElement[] {
  const half = textWidth(words, smallSize) / 2;
  const middle = Math.min(right - half - 2, Math.max(left + half + 2, at));
  return [
    draw("path", { class: "fig-open", d: pathOf("M", at, top, "V", bottom) }),
    draw("text", { class: "fig-small fig-soft fig-middle fig-halo", x: middle, y: top + 13 }, words),
  ];
}
