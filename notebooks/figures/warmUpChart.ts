import type { WarmUpEvaluation } from "../../lib/decision/judgeWarmUp.ts";
import { driftAt } from "../../lib/drift/warmUpCurve.ts";
import { type Course, drawCourse } from "./course/courseSheet.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import type { FigureTable } from "./figureTable.ts";

type Readings = readonly { readonly minutes: number; readonly value: number }[];

export interface WarmUpChartOptions extends FigureOptions {
  readonly unit: DisplayUnit;
  readonly words: readonly string[];
}

/** Readings of a warm-up as drift from the start, the curve through them, and until when the zero in force lasts. */
export function warmUpChart(
  { axis, curve, until, life }: WarmUpEvaluation,
  readings: Readings,
  options: WarmUpChartOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const sheet = openSheet(
    {
      ...options,
      kind: "warm-up",
      subject: axis,
      title: `Drift along ${axis} while the machine warms`,
      description: options.words.join(" "),
    },
    environment,
  );
  const steps = 80;
  const known = life.ok ? life.value : undefined;
  const level = known && driftAt(curve, known.setAt);
  const course: Course = {
    points: readings.map(({ minutes, value }) => ({ at: minutes, value: value - curve.start, isStrange: false })),
    curve: Array.from({ length: steps + 1 }, (_, i) => ({ at: (until * i) / steps, value: driftAt(curve, (until * i) / steps) })),
    levels:
      known === undefined || level === undefined
        ? []
        : [
            { value: level, words: "zero as set", isLimit: false },
            { value: level + Math.sign(curve.rise) * known.allowed, words: "allowed", isLimit: true },
          ],
    moments:
      known !== undefined && known.assuredBefore <= until && known.assuredBefore > known.setAt
        ? [{ at: known.assuredBefore, words: "good until here" }]
        : [],
    across: "minutes since the start",
    isCounted: false,
  };
  const { marks, bottom } = drawCourse(course, sheet, writerOf(options.unit));
  return sheet.finish(bottom + 4, [], marks);
}

export function warmUpChartTable({ axis, curve }: WarmUpEvaluation, readings: Readings, unit: DisplayUnit): FigureTable {
  const writer = writerOf(unit);
  const decimals = unit === "inch" ? 5 : 4;
  return {
    caption: `Drift along ${axis} since the start, as read and by the curve`,
    columns: ["minutes", `as read,${writer.suffix}`, `by the curve,${writer.suffix}`],
    rows: readings.map(({ minutes, value }) => [
      String(minutes),
      writer.signed(value - curve.start, decimals),
      writer.signed(driftAt(curve, minutes), decimals),
    ]),
  };
}
