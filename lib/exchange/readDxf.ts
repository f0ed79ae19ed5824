import { failure, type Outcome, success } from "../base/outcome.ts";
import { digitsOf, type LengthUnit, scaled, type UnitScale } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import { atMost, usableText } from "./sizeLimits.ts";

export interface ReadCircle {
  readonly at: string;
  readonly layer: string;
  readonly x: string;
  readonly y: string;
  readonly radius: string;
}

export interface ReadLine {
  readonly at: string;
  readonly layer: string;
  readonly from: readonly [x: string, y: string];
  readonly to: readonly [x: string, y: string];
}

/** What a drawing shows from above: its own digits, or those of millimetres or inches where it is in another unit. */
export interface ReadDrawing {
  /** Undefined where the file does not say it. */
  readonly unit: LengthUnit | undefined;
  readonly circles: readonly ReadCircle[];
  readonly lines: readonly ReadLine[];
  readonly leftOut: readonly LeftOut[];
}

/** Real drawings of a part have a tenth of that. */
const mostEntities = 100_000;

/** A group of a DXF file: what the value means, the value, and the line of the file that it stands in. */
interface Group {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/**
 * Circles and lines of the section ENTITIES of a DXF file in text form (group codes of the DXF reference, from memory: 0 begins an entity, 8 its layer, 10 to 31
 * its points, 40 a radius, 67 paper, 230 the direction that it is seen from; `$INSUNITS` of the header its unit). A strict reader of our own: the
 * rest of the format has no place in a setup, and files that say one thing in two ways are refused. Blocks are not resolved.
 */
export function readDxf(text: string): Outcome<ReadDrawing> {
  const usable = usableText(text, "a DXF file in text form");
  if (!usable.ok) return usable;
  const groups = groupsOf(usable.value);
  if (!groups.ok) return groups;
  const sections = sectionsOf(groups.value);
  if (!sections.ok) return sections;
  const header = sections.value.get("HEADER") ?? [];
  const unit = unitOf(header);
  if (!unit.ok) return unit;
  const entities = sections.value.get("ENTITIES");
  if (entities === undefined) return failure({ at: "", what: "the file has no section ENTITIES", expected: "a DXF file of a drawing" });
  const starts = entities.flatMap(({ code }, i) => (code === 0 ? [i] : []));
  const few = atMost(mostEntities, starts.length, "the drawing has", "entities", "export the part alone");
  if (!few.ok) return few;
  const drawing = { circles: [] as ReadCircle[], lines: [] as ReadLine[], leftOut: [] as LeftOut[] };
  const others = new Map<string, { line: number; count: number }>();
  for (const [i, start] of starts.entries())
    readEntity(entities.slice(start, starts[i + 1] ?? entities.length), unit.value, drawing, others);
  for (const [kind, { line, count }] of others)
    drawing.leftOut.push({ at: `line ${line}`, what: `${kind}${count > 1 ? `, ${count} times` : ""}: only circles and lines are read` });
  const blocks = (sections.value.get("BLOCKS") ?? []).find(({ code, value }) => code === 0 && (value === "CIRCLE" || value === "LINE"));
  if (blocks !== undefined)
    drawing.leftOut.push({ at: `line ${blocks.line}`, what: "what stands in blocks is not looked at: explode them before exporting" });
  return success({ unit: unit.value?.unit, ...drawing });
}

function groupsOf(text: string): Outcome<Group[]> {
  const lines = text.split(/\r\n|\r|\n/);
  const groups: Group[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = (lines[i] as string).trim();
    if (code === "" && lines.slice(i).every((line) => line.trim() === "")) break;
    if (!/^-?\d{1,4}$/.test(code))
      return failure({
        at: `line ${i + 1}`,
        what: "this is no group code",
        expected: "a whole number, as in every second line of a DXF file in text form",
        got: code.slice(0, 80),
      });
    groups.push({ code: Number(code), value: (lines[i + 1] as string).trim(), line: i + 2 });
  }
  const last = groups.at(-1);
  return last?.code === 0 && last.value === "EOF"
    ? success(groups)
    : failure({ at: `line ${lines.length}`, what: "the file breaks off", expected: "0 and EOF at its end", remedy: "export it again" });
}

function sectionsOf(groups: readonly Group[]): Outcome<ReadonlyMap<string, readonly Group[]>> {
  const sections = new Map<string, readonly Group[]>();
  for (let i = 0; i < groups.length; i++) {
    const { code, value, line } = groups[i] as Group;
    if (code !== 0 || value !== "SECTION") continue;
    const name = groups[i + 1];
    let end = i + 1;
    while (end < groups.length && !(groups[end]?.code === 0 && groups[end]?.value === "ENDSEC")) end += 1;
    if (name?.code !== 2 || end === groups.length)
      return failure({ at: `line ${line}`, what: "a section without a name, or without an end" });
    if (sections.has(name.value)) return failure({ at: `line ${name.line}`, what: `section ${name.value} is there twice` });
    sections.set(name.value, groups.slice(i + 2, end));
    i = end;
  }
  return success(sections);
}

/** By the codes of `$INSUNITS` (DXF reference, from memory); a word for a unit in which no part of this trade is drawn. */
const drawnUnits: Readonly<Record<number, UnitScale | string>> = {
  1: { unit: "inch" },
  2: { unit: "inch", times: 12 },
  3: "miles",
  4: { unit: "mm" },
  5: { unit: "mm", power: 1 },
  6: { unit: "mm", power: 3 },
  7: "kilometres",
  8: { unit: "inch", power: -6 },
  9: { unit: "inch", power: -3 },
  10: { unit: "inch", times: 36 },
  11: "angstroms",
  12: { unit: "mm", power: -6 },
  13: { unit: "mm", power: -3 },
  14: { unit: "mm", power: 2 },
  15: "decametres",
  16: "hectometres",
  17: "gigametres",
  18: "astronomical units",
  19: "light years",
  20: "parsecs",
  21: "feet of the US survey",
  22: "inches of the US survey",
  23: "yards of the US survey",
  24: "miles of the US survey",
};

/** Undefined where the header does not state it, or states 0, which is none. */
function unitOf(header: readonly Group[]): Outcome<UnitScale | undefined> {
  const stated = header.flatMap(({ code, value }, i) => (code === 9 && value === "$INSUNITS" ? [header[i + 1]] : []));
  const [group] = stated;
  if (stated.length === 0) return success(undefined);
  const at = group === undefined ? "$INSUNITS" : `line ${group.line}`;
  if (stated.length > 1 || group === undefined || !/^\d+$/.test(group.value))
    return failure({
      at,
      what: "the drawing does not state its unit as one code",
      expected: "$INSUNITS once, with a whole number",
      got: group?.value ?? "",
    });
  if (Number(group.value) === 0) return success(undefined);
  const unit = drawnUnits[Number(group.value)];
  if (typeof unit === "object") return success(unit);
  return failure({
    at,
    what: unit === undefined ? "the drawing states its unit by a code that is not known" : `the drawing is in ${unit}`,
    expected: "millimetres or inches ($INSUNITS 4 or 1), or their parts and multiples",
    got: group.value,
    remedy: "export it in millimetres or inches",
  });
}

function readEntity(
  groups: readonly Group[],
  unit: UnitScale | undefined,
  { circles, lines, leftOut }: { circles: ReadCircle[]; lines: ReadLine[]; leftOut: LeftOut[] },
  others: Map<string, { line: number; count: number }>,
): void {
  const [{ value: kind, line }] = groups as [Group];
  const at = `line ${line}`;
  if (kind !== "CIRCLE" && kind !== "LINE") {
    others.set(kind, { line: others.get(kind)?.line ?? line, count: (others.get(kind)?.count ?? 0) + 1 });
    return;
  }
  const textOf = (code: number) => groups.find((group) => group.code === code)?.value;
  const coordinates = (kind === "CIRCLE" ? [10, 20, 40] : [10, 20, 11, 21]).map((code) => {
    const digits = digitsOf(textOf(code) ?? "");
    return digits === undefined || unit === undefined ? digits : scaled(digits, unit);
  });
  const layer = textOf(8) ?? "";
  if (textOf(67) === "1") leftOut.push({ at, what: `${kind} on a sheet of paper, not of the part` });
  else if (textOf(230) !== undefined && Number(textOf(230)) !== 1) leftOut.push({ at, what: `${kind} that is not seen from above` });
  else if (coordinates.some((digits) => digits === undefined)) leftOut.push({ at, what: `${kind} without all its coordinates as numbers` });
  else {
    const [a, b, c, d] = coordinates as [string, string, string, string];
    if (kind === "LINE") lines.push({ at, layer, from: [a, b], to: [c, d] });
    else if (!(Number(c) > 0)) leftOut.push({ at, what: `a circle of radius ${c}` });
    else circles.push({ at, layer, x: a, y: b, radius: c });
  }
}
