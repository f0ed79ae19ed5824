import type { RunEvaluation } from "../../lib/decision/judgeRun.ts";
import { type Course, drawCourse } from "./course/courseSheet.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import type { FigureTable } from "./figureTable.ts";

type Chart = RunEvaluation["charts"][number];

export interface RunChartOptions extends FigureOptions {
  readonly unit: DisplayUnit;
  /** What the chart says, in sentences. */
  readonly words: readonly string[];
}

/** A feature of a run, part by part, between the limits that its own scatter sets. */
export function runChart(chart: Chart, options: RunChartOptions, environment: FigureEnvironment = {}): SVGSVGElement {
  const { element, axis, values, run } = chart;
  const sheet = openSheet(
    {
      ...options,
      kind: "run",
      subject: `${element} ${axis}`,
      title: `${element} along ${axis}, part by part`,
      description: options.words.join(" "),
    },
    environment,
  );
  const course: Course = {
    points: values.map((value, i) => ({ at: i + 1, value, isStrange: run.beyond.includes(i) })),
    curve: [],
    levels: [
      { value: run.limits.upper, words: "mean + 3 σ", isLimit: true },
      { value: run.mean, words: "mean", isLimit: false },
      { value: run.limits.lower, words: "mean − 3 σ", isLimit: true },
    ],
    moments: [],
    across: "part of the run",
    isCounted: true,
  };
  const { marks, bottom } = drawCourse(course, sheet, writerOf(options.unit));
  return sheet.finish(bottom + 4, [], marks);
}

export function runChartTable({ element, axis, values, run }: Chart, unit: DisplayUnit): FigureTable {
  const writer = writerOf(unit);
  const decimals = unit === "inch" ? 5 : 4;
  return {
    caption: `${element} along ${axis}, part by part, made less wanted`,
    columns: ["part", `deviation,${writer.suffix}`, "within the limits"],
    rows: values.map((value, i) => [String(i + 1), writer.signed(value, decimals), run.beyond.includes(i) ? "no" : "yes"]),
  };
}
