import type { FigureTable } from "./figureTable.ts";
import type { Trace } from "./trace/traceOf.ts";
import { type TraceOptions, traceInWords } from "./trace.ts";

/** The table behind `trace`: every name that is shown, and what it is made from directly. */
export function traceTable(of: Trace, { title, textOf }: Pick<TraceOptions, "title" | "textOf">): FigureTable {
  return {
    caption: traceInWords(of, title).join(" "),
    columns: ["name", "steps", "value", "made directly from"],
    rows: of.columns.flatMap(({ depth, names }) =>
      names.map((name) => [
        name,
        depth === 0 ? "itself" : depth < 0 ? `${-depth} before` : `${depth} behind`,
        textOf(name) ?? "–",
        of.edges
          .filter(([, to]) => to === name)
          .map(([from]) => from)
          .join(", ") || "–",
      ]),
    ),
  };
}
