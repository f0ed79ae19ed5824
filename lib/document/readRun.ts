import { listText } from "../base/listText.ts";
import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { axesOf, type Part } from "../part/part.ts";
import type { MadeCorrection, MadeParts, MeasuredFeature, WarmUp } from "../run/madeParts.ts";
import type { Reading } from "./reading.ts";
import { RowReader, readRows } from "./rowReader.ts";
import type { MadeCorrectionEntry, MeasuredFeatureEntry, SetupDocument } from "./setupDocument.ts";

/** What was measured on made parts. */
export function readMadeParts({ madeParts }: SetupDocument, part: Part, reading: Reading, problems: Problem[]): MadeParts {
  const row = new RowReader("madeParts", reading);
  const taken = new Map<string, string>();
  const measured = readRows(madeParts.measured, "madeParts.measured", reading, problems, (entry, each) =>
    readMeasured(entry, each, part, taken),
  );
  const parts = [...new Set(madeParts.measured.map(({ part: made }) => made.trim()))];
  const tools = new Set(measured.map(({ tool }) => tool));
  const corrections = readRows(madeParts.corrections, "madeParts.corrections", reading, problems, (entry, each) =>
    readCorrection(entry, each, parts, tools),
  ).sort((a, b) => parts.indexOf(a.after) - parts.indexOf(b.after));
  const partScatter = row.magnitude("partScatter", madeParts.partScatter);
  problems.push(...row.problems);
  return { measured, parts, corrections, partScatter, seekScale: madeParts.scale === "sought" };
}

/** @param taken places of the features of parts before this row */
function readMeasured(entry: MeasuredFeatureEntry, row: RowReader, part: Part, taken: Map<string, string>): MeasuredFeature {
  const element = entry.element.trim();
  const names = part.elements.map(({ id }) => id);
  const known = part.elements.find(({ id }) => id === element);
  if (known === undefined)
    row.refuse("element", {
      what: element === "" ? "which element was measured is not stated" : "there is no readable element by this name",
      expected: "the name of an element of the part",
      got: entry.element,
      ...suggestName(element, names),
    });
  const deviation = [row.length("x", entry.x), row.length("y", entry.y), row.length("z", entry.z)] as const;
  if (!row.failed && deviation.every((each) => each === undefined))
    row.refuse("x", { what: "nothing is measured here", expected: "a deviation along X, Y or Z, made less wanted", got: "" });
  const along = known === undefined ? axes : axesOf(known, new Map(part.elements.map((each) => [each.id, each])));
  axes.forEach((axis, i) => {
    if (deviation[i] !== undefined && !along.includes(axis))
      row.refuse(axis.toLowerCase(), {
        what: `"${element}" has no place along ${axis}`,
        expected: along.length === 0 ? "nothing" : `a deviation along ${listText(along)}`,
        got: entry[axis.toLowerCase() as "x" | "y" | "z"],
      });
  });
  const made = entry.part.trim();
  const key = JSON.stringify([made, element]);
  const before = taken.get(key);
  if (before !== undefined)
    row.refuse("element", {
      what: `this element of part "${made}" is measured twice, here and at "${before}"`,
      got: element,
      remedy: "name another part of the run, or take one of the rows out",
    });
  taken.set(key, entry.id);
  return { id: entry.id, part: made, element, tool: entry.tool.trim(), deviation };
}

/** @param parts of the run, in the order in which they were made */
function readCorrection(entry: MadeCorrectionEntry, row: RowReader, parts: readonly string[], tools: ReadonlySet<string>): MadeCorrection {
  const [after, tool] = [entry.after.trim(), entry.tool.trim()];
  if (!parts.includes(after))
    row.refuse("after", {
      what: after === "" ? "after which part it was made is not stated" : "nothing was measured on a part by this name",
      expected: "the name of a part of the run",
      got: entry.after,
      ...suggestName(after, parts),
    });
  if (tool !== "" && !tools.has(tool))
    row.refuse("tool", {
      what: "no measured feature was cut by this tool",
      expected: "a tool that a measured feature names, or nothing for the work offset",
      got: entry.tool,
      ...suggestName(
        tool,
        [...tools].filter((each) => each !== ""),
      ),
    });
  const change = [row.length("x", entry.x), row.length("y", entry.y), row.length("z", entry.z)] as const;
  if (!row.failed && change.every((each) => each === undefined))
    row.refuse("x", { what: "nothing is corrected here", expected: "how far what is cut was to move along X, Y or Z", got: "" });
  return { id: entry.id, after, tool, change };
}

/** Readings of a warm-up. */
export function readWarmUp({ warmUp }: SetupDocument, reading: Reading, problems: Problem[]): WarmUp {
  const row = new RowReader("warmUp", reading);
  const readings = readRows(warmUp.readings, "warmUp.readings", reading, problems, (entry, each) => {
    const minutes = each.minutes("minutes", entry.minutes, longestTime, "0");
    if (minutes === undefined && entry.minutes.trim() === "")
      each.refuse("minutes", { what: "when this was read is missing", expected: "minutes since the start", got: "" });
    const value = each.required("reading", entry.reading, "the reading");
    return minutes === undefined || value === undefined ? undefined : { id: entry.id, minutes, value };
  });
  const allowed = row.magnitude("allowed", warmUp.allowed);
  if (allowed === 0)
    row.refuse("allowed", { what: "a zero that may not drift at all is never good", expected: "a length above 0", got: warmUp.allowed });
  const result: WarmUp = {
    axis: warmUp.axis,
    readings,
    start: row.length("start", warmUp.start),
    allowed: allowed === 0 ? undefined : allowed,
    cycle: row.minutes("cycle", warmUp.cycle, longestTime, "above 0"),
    setAt: row.minutes("setAt", warmUp.setAt, longestTime, "0") ?? 0,
  };
  problems.push(...row.problems);
  return result;
}

/** Minutes: a week. */
const longestTime = 10_080;
