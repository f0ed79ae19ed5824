import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import type { Axis } from "../base/vector.ts";
import { axesOf, type Characteristic, type Dimension, type Element, type Limits, type Part } from "../part/part.ts";
import { sourceOfMeasurement } from "../part/sourceOfMeasurement.ts";
import type { Reading } from "./reading.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { CharacteristicEntry, DimensionEntry, ElementEntry, SetupDocument } from "./setupDocument.ts";

/** A measured size should be of the order of the drawing's; a factor of two tells millimetres from inches with room to spare. */
const sizeFactor = 2;

export function readPart({ part }: SetupDocument, reading: Reading, problems: Problem[]): Part {
  const elements = readRows(part.elements, "part.elements", reading, problems, (entry, row) => readElement(entry, row));
  const known = new Map(elements.map((element) => [element.id, element]));
  const dimensions = readRows(part.dimensions, "part.dimensions", reading, problems, (entry, row) => readDimension(entry, row, known));
  const characteristics = readRows(part.characteristics, "part.characteristics", reading, problems, (entry, row) =>
    readCharacteristic(entry, row, known),
  );
  return { name: part.name, elements: elements.filter((element) => middleIsWhole(element, known, problems)), dimensions, characteristics };
}

function readElement(entry: ElementEntry, row: RowReader): Element | undefined {
  const base = {
    id: entry.id,
    made: entry.made,
    datum: entry.datum.trim(),
    at: [row.length("x", entry.x), row.length("y", entry.y), row.length("z", entry.z)] as const,
    roughness: row.doubt("roughness", entry.roughness),
    skew: row.doubt("skew", entry.skew),
    process: row.doubt("process", entry.process),
  };
  switch (entry.kind) {
    case "face":
      if (entry.outward !== undefined) return { ...base, kind: "face", outward: entry.outward };
      row.refuse("outward", { what: "a face needs the direction out of its metal", expected: "+X, -X, +Y, -Y, +Z or -Z", got: "" });
      return undefined;
    case "middle":
      if (entry.of !== undefined) return { ...base, kind: "middle", of: entry.of };
      row.refuse("of", { what: "a middle needs the two faces that it lies between", expected: "two elements of kind face", got: "" });
      return undefined;
    default: {
      const diameter = row.magnitude("diameter", entry.diameter);
      if (diameter === undefined && entry.diameter.trim() === "")
        row.refuse("diameter", { what: "a round wall needs its diameter", expected: "a length", got: "" });
      const limits = entry.diameterTolerance.trim() === "" ? undefined : row.tolerance("diameterTolerance", entry.diameterTolerance);
      return { ...base, kind: entry.kind, diameter: diameter ?? mm(0), diameterLimits: limits };
    }
  }
}

function middleIsWhole(element: Element, known: ReadonlyMap<string, Element>, problems: Problem[]): boolean {
  if (element.kind !== "middle") return true;
  const faces = element.of.map((id) => known.get(id));
  const [a, b] = faces;
  if (a?.kind === "face" && b?.kind === "face" && a.outward[1] === b.outward[1] && a.outward[0] !== b.outward[0]) return true;
  problems.push({
    at: `part.elements.${element.id}.of`,
    what: "a middle lies between two faces that look in opposite directions",
    expected: "two elements of kind face, one looking toward + and one toward - along the same axis",
    got: element.of.join(", "),
  });
  return false;
}

function readDimension(entry: DimensionEntry, row: RowReader, known: ReadonlyMap<string, Element>): Dimension | undefined {
  const ends = (["from", "to"] as const).map((end) => endOf(entry[end], end, row, known));
  const nominal = row.required("nominal", entry.nominal, "the nominal size");
  const limits = entry.tolerance.trim() === "" ? exact : row.tolerance("tolerance", entry.tolerance);
  const source = sourceOfMeasurement(entry);
  const read = row.doubtfulLength(
    "measured",
    entry.measured,
    source,
    { entry: "measuredUncertainty", text: entry.measuredUncertainty },
    { from: mm(Math.abs(nominal) / sizeFactor), to: mm(Math.abs(nominal) * sizeFactor) },
  );
  // The source is the deviation from the drawing.
  row.give(source.id, read?.doubtful?.minus(nominal));
  const value = read?.value;
  const standardUncertainty = row.doubtOf(read?.doubtful) ?? row.doubt("measuredUncertainty", entry.measuredUncertainty);
  const [from, to] = ends;
  if (from === undefined || to === undefined || limits === undefined) return undefined;
  if (from === to) row.refuse("to", { what: "a dimension ties two different elements", got: entry.to });
  const axis = commonAxis(from, to, entry.axis, row, known);
  if (axis === undefined) return undefined;
  return {
    id: entry.id,
    from: from.id,
    to: to.id,
    axis,
    nominal,
    limits,
    spread: entry.spread,
    measured: value === undefined ? undefined : { value, standardUncertainty },
  };
}

const exact: Limits = { lower: mm(0), upper: mm(0) };

function readCharacteristic(entry: CharacteristicEntry, row: RowReader, known: ReadonlyMap<string, Element>): Characteristic | undefined {
  const of = endOf(entry.of, "of", row, known);
  if (entry.tolerance.trim() === "")
    row.refuse("tolerance", {
      what: "the tolerance is missing",
      expected: entry.kind === "position" ? "the diameter of the zone" : "deviations such as ±0.05",
      got: "",
    });
  if (entry.kind === "position") {
    const zone = row.magnitude("tolerance", entry.tolerance);
    if (zone === 0)
      row.refuse("tolerance", { what: "a zone of no size can never be met", expected: "a diameter above 0", got: entry.tolerance });
    if (of === undefined || zone === undefined) return undefined;
    if (!axesOf(of, known).includes("X") || !axesOf(of, known).includes("Y"))
      row.refuse("of", { what: "a position zone is for an axis", expected: "a bore or a boss", got: entry.of });
    return { id: entry.id, kind: "position", of: of.id, zone };
  }
  const limits = entry.tolerance.trim() === "" ? undefined : row.tolerance("tolerance", entry.tolerance);
  if (limits && limits.lower === limits.upper)
    row.refuse("tolerance", { what: "a tolerance of no size can never be met", expected: "two different limits", got: entry.tolerance });
  if (entry.kind === "coordinate") {
    if (of === undefined || limits === undefined) return undefined;
    const axis = commonAxis(of, of, entry.axis, row, known);
    return axis && { id: entry.id, kind: "coordinate", of: of.id, axis, limits };
  }
  const from = endOf(entry.from, "from", row, known);
  if (of === undefined || from === undefined || limits === undefined) return undefined;
  const axis = commonAxis(from, of, entry.kind === "depth" ? "Z" : entry.axis, row, known);
  return axis && { id: entry.id, kind: "distance", of: of.id, from: from.id, axis, limits };
}

function endOf(id: string, entry: string, row: RowReader, known: ReadonlyMap<string, Element>): Element | undefined {
  const element = known.get(id);
  if (element === undefined)
    row.refuse(entry, {
      what: "there is no readable element by this name",
      expected: "the name of an element of the part",
      got: id,
      ...suggestName(id, known.keys()),
    });
  return element;
}

/** The axis along which both have a place: the stated one, or the only one that they share. */
function commonAxis(
  a: Element,
  b: Element,
  stated: Axis | undefined,
  row: RowReader,
  known: ReadonlyMap<string, Element>,
): Axis | undefined {
  const shared = axesOf(a, known).filter((axis) => axesOf(b, known).includes(axis));
  if (stated !== undefined && shared.includes(stated)) return stated;
  if (stated === undefined && shared.length === 1) return shared[0];
  const possible = shared.length > 0 ? shared.join(" or ") : `no axis: "${a.id}" and "${b.id}" share none`;
  row.refuse("axis", { what: "the axis must be one along which both elements have a place", expected: possible, got: stated ?? "" });
  return undefined;
}
