import { failure, type Outcome, success } from "../base/outcome.ts";
import { type ArcReach, reachOfArc, reachOfBulge } from "./arcReach.ts";
import { type DxfGroup, dxfGroups, dxfSections } from "./dxfGroups.ts";
import { type DrawnLayer, dxfLayers } from "./dxfLayers.ts";
import { dxfUnit } from "./dxfUnit.ts";
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

/** A part of a circle: never taken for anything, but it can reach beyond the lines. */
export interface ReadArc {
  readonly at: string;
  readonly layer: string;
  readonly radius: number;
  readonly reach: ArcReach;
}

/** What a drawing shows from above: its own digits, or those of millimetres or inches where it is in another unit. */
export interface ReadDrawing {
  /** Undefined where the file does not say it. */
  readonly unit: LengthUnit | undefined;
  /** Layers on which something is that could be brought in, in the order in which they come. */
  readonly layers: readonly DrawnLayer[];
  readonly circles: readonly ReadCircle[];
  readonly lines: readonly ReadLine[];
  readonly arcs: readonly ReadArc[];
  readonly leftOut: readonly LeftOut[];
}

/** Real drawings of a part have a tenth of that. */
const mostEntities = 100_000;
/** More than anybody chooses from. */
const mostLayers = 500;

/**
 * Circles, lines, arcs and outlines (LWPOLYLINE, segment by segment) of the section ENTITIES of a DXF file in text form (group codes of the DXF reference, from memory: 0
 * begins an entity, 6 is its line type, 8 its layer, 10 to 31 its points, 40 a radius, 42 the bulge of a segment, 50 and 51 angles, 60 that it is not seen, 67 paper, 70
 * flags, 230 the direction that it is seen from; `$INSUNITS` of the header its unit). A strict reader of our own: the rest of the format has no place in a setup, and
 * files that say one thing in two ways are refused. Blocks are not resolved.
 */
export function readDxf(text: string): Outcome<ReadDrawing> {
  const usable = usableText(text, "a DXF file in text form");
  if (!usable.ok) return usable;
  const groups = dxfGroups(usable.value);
  if (!groups.ok) return groups;
  const sections = dxfSections(groups.value);
  if (!sections.ok) return sections;
  const unit = dxfUnit(sections.value.get("HEADER") ?? []);
  if (!unit.ok) return unit;
  const entities = sections.value.get("ENTITIES");
  if (entities === undefined) return failure({ at: "", what: "the file has no section ENTITIES", expected: "a DXF file of a drawing" });
  const starts = entities.flatMap(({ code }, i) => (code === 0 ? [i] : []));
  const few = atMost(mostEntities, starts.length, "the drawing has", "entities", "export the part alone");
  if (!few.ok) return few;
  const layers = dxfLayers(sections.value.get("TABLES") ?? []);
  const reader = new EntityReader(unit.value, layers);
  for (const [i, start] of starts.entries()) reader.read(entities.slice(start, starts[i + 1] ?? entities.length));
  const drawing = reader.found();
  const short = atMost(
    mostEntities,
    drawing.lines.length + drawing.arcs.length,
    "the drawing has",
    "lines and arcs",
    "export the part alone",
  );
  if (!short.ok) return short;
  const layered = atMost(mostLayers, drawing.layers.length, "the drawing has things on", "layers", "export the part alone");
  if (!layered.ok) return layered;
  const blocks = (sections.value.get("BLOCKS") ?? []).find(({ code, value }) => code === 0 && isRead(value));
  if (blocks !== undefined)
    drawing.leftOut.push({ at: `line ${blocks.line}`, what: "what stands in blocks is not looked at: explode them before exporting" });
  return success({ unit: unit.value?.unit, ...drawing });
}

/** Kinds that are read, and the codes of the coordinates and sizes that each must have. */
const kinds: Readonly<Record<string, readonly number[]>> = {
  CIRCLE: [10, 20, 40],
  LINE: [10, 20, 11, 21],
  ARC: [10, 20, 40, 50, 51],
  LWPOLYLINE: [10, 20],
};

function isRead(kind: string): boolean {
  return Object.hasOwn(kinds, kind);
}

/** Line types that draughtsmen give what is no edge of the part (ISO 128-2; names from memory of files). */
const ofNoEdge = /^(?:CENT(?:ER|RE)|PHANTOM|DASHDOT|DIVIDE|BORDER)/i;
const closed = 1;

class EntityReader {
  private readonly circles: ReadCircle[] = [];
  private readonly lines: ReadLine[] = [];
  private readonly arcs: ReadArc[] = [];
  private readonly leftOut: LeftOut[] = [];
  private readonly others = new Map<string, { line: number; count: number }>();
  private readonly unit: UnitScale | undefined;
  private readonly stated: ReadonlyMap<string, DrawnLayer>;

  constructor(unit: UnitScale | undefined, layers: readonly DrawnLayer[]) {
    this.unit = unit;
    this.stated = new Map(layers.map((layer) => [layer.name, layer]));
  }

  read(groups: readonly DxfGroup[]): undefined {
    const [{ value: kind, line }] = groups as [DxfGroup];
    if (!isRead(kind)) {
      this.others.set(kind, { line: this.others.get(kind)?.line ?? line, count: (this.others.get(kind)?.count ?? 0) + 1 });
      return undefined;
    }
    const at = `line ${line}`;
    const leave = (what: string): undefined => {
      this.leftOut.push({ at, what });
      return undefined;
    };
    const textOf = (code: number) => groups.find((group) => group.code === code)?.value;
    const layer = textOf(8) ?? "";
    const typed = textOf(6) ?? "BYLAYER";
    const lineType = /^bylayer$/i.test(typed) ? (this.stated.get(layer)?.lineType ?? "") : typed;
    if (textOf(67) === "1") return leave(`${kind} on a sheet of paper, not of the part`);
    if (textOf(60) === "1") return leave(`${kind} that is not shown`);
    if (textOf(230) !== undefined && Number(textOf(230)) !== 1) return leave(`${kind} that is not seen from above`);
    if (ofNoEdge.test(lineType)) return leave(`${kind} of line type ${lineType.slice(0, 40)}, which no edge of a part has`);
    if (kind === "LWPOLYLINE") return this.readOutline(groups, layer, leave);
    const numbers = (kinds[kind] ?? []).map((code) => digitsOf(textOf(code) ?? ""));
    if (numbers.some((digits) => digits === undefined)) return leave(`${kind} without all its coordinates as numbers`);
    const [first, second, third, fourth, fifth] = numbers as [string, string, string, string, string];
    const [a, b, c] = [first, second, third].map((digits) => this.length(digits)) as [string, string, string];
    if (kind === "LINE") this.lines.push({ at, layer, from: [a, b], to: [c, this.length(fourth)] });
    else if (!(Number(c) > 0)) return leave(`${kind === "ARC" ? "an arc" : "a circle"} of radius ${c}`);
    else if (kind === "CIRCLE") this.circles.push({ at, layer, x: a, y: b, radius: c });
    else
      this.arcs.push({
        at,
        layer,
        radius: Number(c),
        reach: reachOfArc([Number(a), Number(b)], Number(c), (Number(fourth) * Math.PI) / 180, (Number(fifth) * Math.PI) / 180),
      });
    return undefined;
  }

  found() {
    const { circles, lines, arcs, leftOut } = this;
    for (const [kind, { line, count }] of this.others)
      leftOut.push({
        at: `line ${line}`,
        what: `${kind}${count > 1 ? `, ${count} times` : ""}: only circles, lines, arcs and outlines are read`,
      });
    const names = new Set([...lines, ...circles, ...arcs].map(({ layer }) => layer));
    const layers = [...names].map((name) => this.stated.get(name) ?? { name, isShown: true, lineType: "" });
    return { layers, circles, lines, arcs, leftOut };
  }

  /** Its segments from vertex to vertex, and back to the first where it is closed. */
  private readOutline(groups: readonly DxfGroup[], layer: string, leave: (what: string) => undefined): undefined {
    const vertices: { readonly at: string; readonly x: string | undefined; y?: string | undefined; bulge?: string | undefined }[] = [];
    for (const { code, value, line } of groups) {
      const last = vertices.at(-1);
      if (code === 10) vertices.push({ at: `line ${line}`, x: digitsOf(value) });
      else if (last !== undefined && code === 20) last.y = digitsOf(value);
      else if (last !== undefined && code === 42) last.bulge = digitsOf(value) ?? "no number";
    }
    const isClosed = (Number(groups.find(({ code }) => code === 70)?.value ?? 0) & closed) === closed;
    const points = vertices.map(({ x, y }) =>
      x === undefined || y === undefined ? undefined : ([this.length(x), this.length(y)] as const),
    );
    if (points.length < 2 || points.includes(undefined) || vertices.some(({ bulge }) => bulge === "no number"))
      return leave("LWPOLYLINE without all its coordinates as numbers");
    const ends = isClosed ? [...points.slice(1), points[0]] : points.slice(1);
    for (const [i, to] of ends.entries()) {
      const [{ at, bulge = "0" }, from] = [vertices[i], points[i]] as [{ at: string; bulge?: string }, readonly [string, string]];
      if (to === undefined || (from[0] === to[0] && from[1] === to[1])) continue;
      if (Number(bulge) === 0) this.lines.push({ at, layer, from, to });
      else
        this.arcs.push({ at, layer, ...reachOfBulge([Number(from[0]), Number(from[1])], [Number(to[0]), Number(to[1])], Number(bulge)) });
    }
    return undefined;
  }

  private length(digits: string): string {
    return this.unit === undefined ? digits : scaled(digits, this.unit);
  }
}
