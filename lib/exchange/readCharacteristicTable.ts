import { type Outcome, success } from "../base/outcome.ts";
import type { Axis } from "../base/vector.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { parseTable } from "../readings/parseTable.ts";
import { undefused } from "./defused.ts";
import { difference, type LengthUnit } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import {
  characteristicKind,
  isOfTwo,
  isOfZone,
  type ReadCharacteristic,
  type ReadCharacteristics,
  type ReadMeasured,
  type ReadTolerance,
} from "./readCharacteristic.ts";
import { usableText } from "./sizeLimits.ts";

/** The words by which a column is known. */
const columns = {
  name: ["characteristic", "name"],
  kind: ["kind", "type"],
  of: ["element", "feature", "of"],
  also: ["also", "further elements"],
  from: ["from", "other element", "datum"],
  datums: ["datums", "datum system"],
  axis: ["axis"],
  nominal: ["nominal"],
  zone: ["tolerance", "zone"],
  upper: ["upper deviation", "upper tolerance"],
  lower: ["lower deviation", "lower tolerance"],
  upperLimit: ["upper limit", "maximum"],
  lowerLimit: ["lower limit", "minimum"],
  length: ["length"],
  width: ["width"],
  part: ["part", "serial"],
  measured: ["measured", "actual"],
  unit: ["unit"],
} as const;
type Column = keyof typeof columns;
/** What a row without a demand has no use for. */
const ofDemand = [
  "kind",
  "of",
  "also",
  "from",
  "datums",
  "axis",
  "zone",
  "upper",
  "lower",
  "upperLimit",
  "lowerLimit",
  "length",
  "width",
] as const;
const ofTolerance = ["zone", "upper", "lower", "upperLimit", "lowerLimit"] as const;

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
 * nominal, tolerance`, or `upper deviation` and `lower deviation`, or `upper limit` and `lower limit`; `from` for what is between two elements, `datums` for
 * the datum system, `also` for further elements of a pattern, `length` and `width` of an orientation; and `part, characteristic, measured, nominal`. A row may have both. Columns
 * that are not known, and what in a row says nothing for a setup, are told.
 *
 * @param unit of lengths where a column `unit` does not say `mm` or `in`, unless other rows say another; angles are in degrees
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
  const rowAt = (row: readonly string[], i: number) =>
    new TableRow(`row ${i + 2}`, (column) => undefused(row[places.get(column) ?? -1] ?? ""));
  const read = rows.map(rowAt);
  const stated = new Set(read.flatMap((row) => row.statedUnit() ?? []));
  const isCommon = [...stated].every((each) => each === unit);
  const characteristics: ReadCharacteristic[] = [];
  const measured: ReadMeasured[] = [];
  const demanded = new Set<string>();
  for (const row of read) {
    const { demand, value, left } = row.read(isCommon ? unit : undefined);
    leftOut.push(...left);
    if (value !== undefined) measured.push(value);
    if (demand === undefined) continue;
    // Each part that was measured repeats what is demanded.
    const key = JSON.stringify({ ...demand, at: "" });
    if (value === undefined || !demanded.has(key)) characteristics.push(demand);
    demanded.add(key);
  }
  return success({ unit, characteristics, measured, leftOut });
}

interface RowContent {
  readonly demand?: ReadCharacteristic;
  readonly value?: ReadMeasured;
  readonly left: readonly LeftOut[];
}

class TableRow {
  private readonly at: string;
  private readonly cell: (column: Column) => string;
  private readonly problems: string[] = [];

  constructor(at: string, cell: (column: Column) => string) {
    this.at = at;
    this.cell = cell;
  }

  /** Of lengths; undefined where none is stated, or none that is known. */
  statedUnit(): LengthUnit | undefined {
    const unit = this.cell("unit").toLowerCase();
    return unit === "mm" ? "mm" : unit === "in" || unit === "inch" ? "inch" : undefined;
  }

  /** @param otherwise the unit of lengths where the row states none; undefined where other rows state another */
  read(otherwise: LengthUnit | undefined): RowContent {
    const name = this.cell("name");
    if (name === "") return this.leave("no name");
    const isAngle = characteristicKind(this.cell("kind")) === "angle";
    const unit = this.statedUnit() ?? (this.cell("unit") === "" || isAngle ? otherwise : undefined);
    if (unit === undefined && !isAngle)
      return this.leave(
        this.cell("unit") === ""
          ? `"${name}": no unit, where other rows state another than the setup's`
          : `"${name}": unit "${this.cell("unit").slice(0, 40)}": mm or in`,
      );
    const hasDemand = ["kind", ...ofTolerance].some((column) => this.cell(column as Column) !== "");
    const [measured, nominal] = [this.number("measured"), this.number("nominal")];
    const value =
      measured === undefined || unit === undefined || isAngle || this.problems.length > 0
        ? undefined
        : { at: this.at, part: this.cell("part"), name, unit, value: measured, nominal };
    const left =
      isAngle && measured !== undefined ? [this.left(`"${name}", measured ${measured}: an angle does not say where it was made`)] : [];
    if (value !== undefined && !hasDemand) return { value, left: this.unused(name, ofDemand, "without a kind and a tolerance") };
    const demand = this.readDemand(name, nominal, isAngle ? "deg" : (unit ?? "mm"));
    if (typeof demand === "string") return { ...(value !== undefined && { value }), left: [...left, this.left(`"${name}": ${demand}`)] };
    const useless = this.unused(name, uselessOf(demand.kind), `of ${demand.kind}`);
    return { ...(value !== undefined && { value }), demand, left: [...left, ...useless] };
  }

  private leave(what: string): RowContent {
    return { left: [this.left(what)] };
  }

  private left(what: string): LeftOut {
    return { at: this.at, what };
  }

  private unused(name: string, of: readonly Column[], why: string): LeftOut[] {
    const stated = of.filter((column) => this.cell(column) !== "").map((column) => columns[column][0]);
    return stated.length === 0 ? [] : [this.left(`"${name}": ${stated.join(", ")}: nothing is known of it ${why}`)];
  }

  private readDemand(name: string, nominal: string | undefined, unit: LengthUnit | "deg"): ReadCharacteristic | string {
    const { at, cell } = this;
    const kind = characteristicKind(cell("kind"));
    if (this.problems.length === 0 && kind === undefined)
      return cell("kind") === "" ? "no kind and no measured value" : `a setup has no characteristic of kind "${cell("kind").slice(0, 40)}"`;
    const stated = cell("unit").toLowerCase();
    if (unit === "deg" && stated !== "" && stated !== "deg" && stated !== "\u00b0")
      return `unit "${stated.slice(0, 40)}": an angle is in degrees (deg)`;
    const axis = cell("axis").toUpperCase();
    const limits = Object.fromEntries(ofTolerance.map((column) => [column, this.number(column)])) as StatedLimits;
    const [length, width] = [this.number("length"), this.number("width")];
    if (axis !== "" && axis !== "X" && axis !== "Y" && axis !== "Z") this.problems.push(`axis "${axis.slice(0, 20)}": X, Y or Z`);
    const tolerance = kind && toleranceOf(kind, { ...limits, nominal });
    if (tolerance === undefined || this.problems.length > 0 || kind === undefined)
      return this.problems.join("; ") || "its tolerance is not there as numbers";
    return {
      at,
      name,
      kind,
      of: cell("of"),
      also: cell("also")
        .split(/[,;|]/)
        .map((each) => each.trim())
        .filter((each) => each !== ""),
      from: cell("from"),
      datums: cell("datums"),
      axis: axis === "" ? undefined : (axis as Axis),
      unit,
      nominal,
      length,
      width,
      tolerance,
      doubts: [],
    };
  }

  private number(column: Column): string | undefined {
    const typed = this.cell(column);
    if (typed === "") return undefined;
    const parsed = parseNumber(typed.replace(/^\+/, ""));
    if (parsed.ok) return parsed.value.understoodAs;
    this.problems.push(`${columns[column][0]} "${typed.slice(0, 40)}": ${parsed.problems[0]?.what ?? "no number"}`);
    return undefined;
  }
}

/** What a setup has no place for. */
function uselessOf(kind: ReadCharacteristic["kind"]): readonly Column[] {
  const isOrientation = kind === "parallelism" || kind === "perpendicularity";
  return [...(isOfTwo(kind) ? [] : (["from"] as const)), ...(isOrientation ? [] : (["length", "width"] as const))];
}

type StatedLimits = Readonly<Record<(typeof ofTolerance)[number], string | undefined>>;

function toleranceOf(
  kind: ReadCharacteristic["kind"],
  { zone, upper, lower, upperLimit, lowerLimit, nominal }: StatedLimits & { readonly nominal: string | undefined },
): ReadTolerance | undefined {
  const isAbove0 = zone !== undefined && Number(zone) > 0;
  if (isOfZone(kind)) return isAbove0 ? { zone } : undefined;
  if (upper !== undefined && lower !== undefined) return { upper, lower };
  if (upperLimit !== undefined && lowerLimit !== undefined && nominal !== undefined)
    return { upper: difference(upperLimit, nominal), lower: difference(lowerLimit, nominal) };
  if (kind === "wall thickness" && lowerLimit !== undefined && upperLimit === undefined && Number(lowerLimit) > 0)
    return { least: lowerLimit };
  return isAbove0 ? { upper: zone, lower: `-${zone}` } : undefined;
}
