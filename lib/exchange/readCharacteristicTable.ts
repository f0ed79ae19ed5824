import { failure, type Outcome, success } from "../base/outcome.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { parseTable } from "../readings/parseTable.ts";
import { undefused } from "./defused.ts";
import { difference, type LengthUnit } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import {
  characteristicKind,
  isOfZone,
  type ReadCharacteristic,
  type ReadCharacteristics,
  type ReadMeasured,
} from "./readCharacteristic.ts";
import { usableText } from "./sizeLimits.ts";

/** The words by which a column is known. */
const columns = {
  name: ["characteristic", "name"],
  kind: ["kind", "type"],
  of: ["element", "feature", "of"],
  axis: ["axis"],
  nominal: ["nominal"],
  zone: ["tolerance", "zone"],
  upper: ["upper deviation", "upper tolerance"],
  lower: ["lower deviation", "lower tolerance"],
  upperLimit: ["upper limit", "maximum"],
  lowerLimit: ["lower limit", "minimum"],
  part: ["part", "serial"],
  measured: ["measured", "actual"],
  unit: ["unit"],
} as const;
type Column = keyof typeof columns;

/** Whether the first line names columns that only such a table has. */
export function isCharacteristicTable(text: string): boolean {
  const [first = ""] = text.trimStart().split(/\r\n|\r|\n/, 1);
  const names = first
    .slice(0, 1000)
    .toLowerCase()
    .split(/[\t;,]/)
    .map((name) => name.trim().replace(/^"|"$/g, ""));
  const has = (column: Column) => columns[column].some((word) => names.includes(word));
  return has("name") && (has("kind") || has("measured"));
}

/**
 * Characteristics and measured values from cells under a row of names (RFC 4180, or with semicolons or tabs): `characteristic, kind, element, axis,
 * nominal, tolerance`, or `upper deviation` and `lower deviation`, or `upper limit` and `lower limit`; and `part, characteristic, measured, nominal`. Columns
 * that are not known, and rows that say nothing for a setup, are told.
 *
 * @param unit of the numbers, unless a column `unit` says `mm` or `in`, the same in every row
 */
export function readCharacteristicTable(text: string, unit: LengthUnit): Outcome<ReadCharacteristics> {
  const usable = usableText(text, "cells under a row of names");
  if (!usable.ok) return usable;
  const table = parseTable(usable.value, { maximumRows: 10_000 });
  if (!table.ok) return table;
  const all = table.value.header === undefined ? table.value.rows : [table.value.header, ...table.value.rows];
  const [header = [], ...rows] = all;
  const names = header.map((name) => name.toLowerCase());
  const places = new Map(
    (Object.keys(columns) as Column[]).map((column) => [
      column,
      names.findIndex((name) => (columns[column] as readonly string[]).includes(name)),
    ]),
  );
  const leftOut: LeftOut[] = header.flatMap((name, i) =>
    [...places.values()].includes(i) || name === "" ? [] : [{ at: `column ${i + 1}`, what: `"${name}": no column that is read` }],
  );
  const cellOf = (row: readonly string[], column: Column) => undefused(row[places.get(column) ?? -1] ?? "");
  const units = new Set(rows.map((row) => cellOf(row, "unit").toLowerCase()).filter((each) => each !== ""));
  const [stated] = units;
  if (units.size > 1 || (stated !== undefined && !["mm", "in", "inch"].includes(stated)))
    return failure({
      at: "column unit",
      what: "lengths are in one unit",
      expected: "mm or in, the same in every row",
      got: [...units].join(", ").slice(0, 80),
    });
  const characteristics: ReadCharacteristic[] = [];
  const measured: ReadMeasured[] = [];
  rows.forEach((row, i) => {
    const at = `row ${i + 2}`;
    const read = readRow(at, (column) => cellOf(row, column), table.value.separator === ",");
    if (typeof read === "string") leftOut.push({ at, what: read });
    else if ("value" in read) measured.push(read);
    else characteristics.push(read);
  });
  return success({ unit: stated === undefined ? unit : stated === "mm" ? "mm" : "inch", characteristics, measured, leftOut });
}

/** What the row says, or why that is nothing for a setup. */
function readRow(at: string, cell: (column: Column) => string, hasPoints: boolean): ReadCharacteristic | ReadMeasured | string {
  const name = cell("name");
  if (name === "") return "no name";
  const problems: string[] = [];
  const number = (column: Column): string | undefined => {
    const typed = cell(column);
    if (typed === "") return undefined;
    const parsed = parseNumber(typed.replace(/^\+/, ""), hasPoints ? { decimalMark: "." } : {});
    if (parsed.ok) return parsed.value.understoodAs;
    problems.push(`${column} "${typed.slice(0, 40)}": ${parsed.problems[0]?.what ?? "no number"}`);
    return undefined;
  };
  const [value, nominal] = [number("measured"), number("nominal")];
  if (value !== undefined && problems.length === 0) return { at, part: cell("part"), name, value, nominal };
  const kind = characteristicKind(cell("kind"));
  const axis = cell("axis").toUpperCase();
  if (problems.length === 0 && kind === undefined)
    return `"${name}": ${cell("kind") === "" ? "no kind and no measured value" : `a setup has no characteristic of kind "${cell("kind").slice(0, 40)}"`}`;
  const [zone, upper, lower, upperLimit, lowerLimit] = [
    number("zone"),
    number("upper"),
    number("lower"),
    number("upperLimit"),
    number("lowerLimit"),
  ];
  if (axis !== "" && axis !== "X" && axis !== "Y" && axis !== "Z") problems.push(`axis "${axis.slice(0, 20)}": X, Y or Z`);
  const tolerance = kind && toleranceOf(isOfZone(kind), { zone, upper, lower, upperLimit, lowerLimit, nominal });
  if (tolerance === undefined || problems.length > 0 || kind === undefined)
    return `"${name}": ${problems.join("; ") || "its tolerance is not there as numbers"}`;
  return { at, name, kind, of: cell("of"), axis: axis === "" ? undefined : (axis as "X" | "Y" | "Z"), nominal, tolerance };
}

function toleranceOf(
  isZone: boolean,
  {
    zone,
    upper,
    lower,
    upperLimit,
    lowerLimit,
    nominal,
  }: Readonly<Record<"zone" | "upper" | "lower" | "upperLimit" | "lowerLimit" | "nominal", string | undefined>>,
): ReadCharacteristic["tolerance"] | undefined {
  if (isZone) return zone !== undefined && Number(zone) > 0 ? { zone } : undefined;
  if (upper !== undefined && lower !== undefined) return { upper, lower };
  if (upperLimit !== undefined && lowerLimit !== undefined && nominal !== undefined)
    return { upper: difference(upperLimit, nominal), lower: difference(lowerLimit, nominal) };
  return zone !== undefined && Number(zone) > 0 ? { upper: zone, lower: `-${zone}` } : undefined;
}
