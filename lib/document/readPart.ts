import { suggestName } from "../base/nearestName.ts";
import { once } from "../base/once.ts";
import type { Problem } from "../base/outcome.ts";
import { type Mm, mm, type Radian, radian } from "../base/quantity.ts";
import { type Axis, indexOfAxis } from "../base/vector.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { unit } from "../formula/units.ts";
import type { DatumSystem } from "../part/datumSystem.ts";
import { type GeneralClass, generalClassOf, generalTolerance, generalToleranceOfAngle } from "../part/generalTolerance.ts";
import { type LocatedPart, locateElements } from "../part/locateElements.ts";
import type { LimitedSize } from "../part/maximumMaterial.ts";
import { largestTurn } from "../part/parseAngleTolerance.ts";
import type { TolerancedSize } from "../part/parseTolerance.ts";
import {
  type AngleLimits,
  axesOf,
  type Characteristic,
  type Dimension,
  type Element,
  isBore,
  type Limits,
  type Lobing,
  type Part,
  type Round,
  type Tilt,
} from "../part/part.ts";
import { sizeAcross } from "../part/sizeAcross.ts";
import { isUpTo, sizeText } from "../part/sizeRange.ts";
import { sourceOfMeasurement } from "../part/sourceOfMeasurement.ts";
import { directionOf, lengthsOf, lineTilt, planarTilts, relationOf, roundTilt, turnsBetween } from "../part/tilts.ts";
import { leastIn, nominalWall, wallBounds } from "../part/wall.ts";
import { readDatumSystems, readDatums } from "./readDatumSystems.ts";
import type { Reading } from "./reading.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { CharacteristicEntry, DimensionEntry, ElementEntry, SetupDocument } from "./setupDocument.ts";

/** A measured size should be of the order of the drawing's; a factor of two tells millimetres from inches with room to spare. */
const sizeFactor = 2;

export function readPart({ part }: SetupDocument, reading: Reading, problems: Problem[]): Part {
  const general = generalClassOf(part.generalTolerance);
  const elements = readRows(part.elements, "part.elements", reading, problems, (entry, row) => readElement(entry, row, general));
  const known: KnownElements = Object.assign(new Map(elements.map((element) => [element.id, element])), {
    listed: new Set(part.elements.map(({ id }) => id)),
  });
  const dimensions = readRows(part.dimensions, "part.dimensions", reading, problems, (entry, row) =>
    readDimension(entry, row, known, general),
  );
  const whole = elements.filter((element) => middleIsWhole(element, known, problems));
  const located = once(() => locateElements({ name: part.name, elements: whole, dimensions, characteristics: [] }));
  const systems = readDatumSystems(part.datumSystems, elements, reading, problems);
  const context: CharacteristicContext = {
    known,
    general,
    located,
    systems,
    names: new Set(part.characteristics.map(({ id }) => id)),
    unreadSystems: new Set(part.datumSystems.map(({ id }) => id)),
  };
  const characteristics = readRows(part.characteristics, "part.characteristics", reading, problems, (entry, row) =>
    readDemand(entry, row, context),
  ).flat();
  return { name: part.name, elements: whole, dimensions, characteristics };
}

function readElement(entry: ElementEntry, row: RowReader, general: GeneralClass | undefined): Element | undefined {
  const base = {
    id: entry.id,
    made: entry.made,
    ...(entry.made === "before" && entry.operation !== undefined && entry.operation !== "" && { cutIn: entry.operation }),
    datum: entry.datum.trim(),
    at: [row.length("x", entry.x), row.length("y", entry.y), row.length("z", entry.z)] as const,
    roughness: row.doubt("roughness", entry.roughness),
    skew: row.doubt("skew", entry.skew),
    process: row.doubt("process", entry.process),
    outOfSquare: row.angleDoubt("outOfSquare", entry.outOfSquare, largestTurn),
  };
  const isRound = entry.kind === "bore" || entry.kind === "boss";
  if (entry.kind !== "angled face")
    refuseEntries(
      entry,
      ["facing", "inclination"],
      "only an angled face looks between the axes",
      "leave it empty, or change the kind",
      row,
    );
  if (!isRound) {
    refuseEntries(entry, ["lobes", "lobeAmplitude"], "only a round wall has lobes", "state roughness and lean of a face", row);
    refuseEntries(entry, ["diameter", "diameterTolerance"], "only a round wall has a diameter", "leave it empty, or change the kind", row);
  }
  // A round wall is cut on all sides alike, so that it moves no axis; but what is stated of it must be readable.
  const deflection = row.doubt("deflection", entry.deflection);
  switch (entry.kind) {
    case "face":
      if (entry.outward !== undefined) return { ...base, kind: "face", outward: entry.outward, deflection };
      row.refuse("outward", { what: "a face needs the direction out of its metal", expected: "+X, -X, +Y, -Y, +Z or -Z", got: "" });
      return undefined;
    case "angled face": {
      const inclination = inclinationOf(entry, row);
      const facing = inclination === undefined ? undefined : facingOf(entry, row, inclination);
      if (entry.made !== "before")
        row.refuse("made", {
          what: "an angled face is known as something to touch, and nothing is worked out for one that is cut here",
          expected: "before",
          got: entry.made,
        });
      return facing === undefined || inclination === undefined ? undefined : { ...base, kind: "angled face", facing, inclination };
    }
    case "middle":
      if (entry.of !== undefined) return { ...base, kind: "middle", of: entry.of };
      row.refuse("of", { what: "a middle needs the two faces that it lies between", expected: "two elements of kind face", got: "" });
      return undefined;
    default: {
      const diameter = row.magnitude("diameter", entry.diameter);
      if (diameter === undefined && entry.diameter.trim() === "")
        row.refuse("diameter", { what: "a round wall needs its diameter", expected: "a length", got: "" });
      const size = diameter === undefined ? undefined : ({ nominal: diameter, kind: entry.kind === "bore" ? "hole" : "shaft" } as const);
      const limits = size && readLimits("diameterTolerance", entry.diameterTolerance, row, size, general);
      return { ...base, kind: entry.kind, diameter: diameter ?? mm(0), diameterLimits: limits, lobing: readLobing(entry, row) };
    }
  }
}

/** Nearer to an axis than this, radians, a face looks along it. */
const alongAnAxis = 1e-9;

/** How far an angled face looks up; told at its entry where that is along Z, or beyond. */
function inclinationOf({ inclination: text = "" }: ElementEntry, row: RowReader): Radian | undefined {
  if (text.trim() === "") return radian(0);
  const inclination = row.sureQuantity("inclination", text, unit("deg"));
  if (inclination === undefined) return undefined;
  if (Math.abs(inclination) < Math.PI / 2 - alongAnAxis) return radian(Math.abs(inclination) < alongAnAxis ? 0 : inclination);
  const isLevel = Math.abs(Math.abs(inclination) - Math.PI / 2) <= alongAnAxis;
  row.refuse("inclination", {
    what: isLevel ? "this face looks along Z" : "this is more than a quarter turn: the face would look the other way",
    expected: isLevel ? "an element of kind face" : "an angle from level between -90 and 90 degrees",
    got: text,
    ...(!isLevel && { remedy: "turn the direction that it faces by 180 degrees, and count the inclination from level" }),
  });
  return undefined;
}

/** Where an angled face looks; told at its entry where that is not known, or is along an axis. */
function facingOf({ facing: text = "" }: ElementEntry, row: RowReader, inclination: Radian): Radian | undefined {
  const expected = "the angle from +X towards +Y, out of the metal, such as `30 deg`";
  const facing = row.sureQuantity("facing", text, unit("deg"));
  if (facing === undefined) {
    if (text.trim() === "") row.refuse("facing", { what: "an angled face needs the direction in which it looks", expected, got: "" });
    return undefined;
  }
  if (Math.abs(facing) > 2 * Math.PI) row.refuse("facing", { what: "this is more than a whole turn", expected, got: text });
  else if (inclination === 0 && Math.abs(Math.sin(2 * facing)) < alongAnAxis)
    row.refuse("facing", { what: "this face looks along an axis", expected: "an element of kind face, or an inclination", got: text });
  else return radian(facing);
  return undefined;
}

/** Above this a form error is waviness, and its lobes are narrower than a stylus tells apart (common practice, no source). */
const mostLobes = 100;

/** The form error of a round wall; undefined where none is stated. */
function readLobing(entry: ElementEntry, row: RowReader): Lobing | undefined {
  const { lobes: count = "", lobeAmplitude = "" } = entry;
  const amplitude = row.magnitude("lobeAmplitude", lobeAmplitude);
  if (count.trim() === "") {
    if (amplitude !== undefined)
      row.refuse("lobes", {
        what: "what a form error does to a centre depends on how many lobes it has",
        expected: `a whole number from 2 to ${mostLobes}`,
        got: "",
      });
    return undefined;
  }
  const lobes = row.take("lobes", parseNumber(count))?.value;
  if (lobes !== undefined && !(Number.isInteger(lobes) && lobes >= 2 && lobes <= mostLobes)) {
    row.refuse("lobes", {
      what: "lobes are counted",
      expected: `a whole number from 2 to ${mostLobes}: one lobe is no form error but another place of the axis`,
      got: count,
    });
    return undefined;
  }
  if (amplitude === undefined && lobeAmplitude.trim() === "")
    row.refuse("lobeAmplitude", { what: "how far the lobes rise is missing", expected: "a length", got: "" });
  return lobes === undefined || amplitude === undefined || amplitude === 0 ? undefined : { lobes, amplitude };
}

/** Refuses what is stated of an element that has no such thing. */
function refuseEntries(
  entry: ElementEntry,
  keys: readonly ("facing" | "inclination" | "lobes" | "lobeAmplitude" | "diameter" | "diameterTolerance")[],
  what: string,
  remedy: string,
  row: RowReader,
): void {
  for (const key of keys) {
    const got = entry[key] ?? "";
    if (got.trim() !== "") row.refuse(key, { what, expected: "nothing here", got, remedy });
  }
}

function middleIsWhole(element: Element, known: KnownElements, problems: Problem[]): boolean {
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

function readDimension(
  entry: DimensionEntry,
  row: RowReader,
  known: KnownElements,
  general: GeneralClass | undefined,
): Dimension | undefined {
  const ends = (["from", "to"] as const).map((end) => endOf(entry[end], end, row, known));
  const nominal = row.required("nominal", entry.nominal, "the nominal size");
  const source = sourceOfMeasurement(entry);
  const read = row.doubtfulLength(
    "measured",
    entry.measured,
    source,
    { entry: "measuredUncertainty", text: entry.measuredUncertainty },
    nominal === undefined ? undefined : { from: mm(Math.abs(nominal) / sizeFactor), to: mm(Math.abs(nominal) * sizeFactor) },
  );
  // The source is the deviation from the drawing.
  row.give(source.id, nominal === undefined ? undefined : read?.doubtful?.minus(nominal));
  const value = read?.value;
  const standardUncertainty =
    row.doubtOf(read?.doubtful) ?? row.doubt("measuredUncertainty", entry.measuredUncertainty, { value, words: "the measured size" });
  const [from, to] = ends;
  const kind = from && to && nominal !== undefined ? kindBetween(from, to, nominal) : undefined;
  const limits = nominal === undefined ? undefined : (readLimits("tolerance", entry.tolerance, row, { nominal, kind }, general) ?? exact);
  if (from === undefined || to === undefined || nominal === undefined || limits === undefined) return undefined;
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

/** What characteristics are read with. */
interface CharacteristicContext {
  readonly known: KnownElements;
  readonly general: GeneralClass | undefined;
  readonly located: () => LocatedPart;
  readonly systems: ReadonlyMap<string, DatumSystem>;
  /** Names of all datum systems of the document, readable or not. */
  readonly unreadSystems: ReadonlySet<string>;
  /** Names of all rows of characteristics. */
  readonly names: ReadonlySet<string>;
}

/** What a row demands: one characteristic, or one of each member of a pattern, and both diagonals of a face that tilts two ways. */
function readDemand(entry: CharacteristicEntry, row: RowReader, context: CharacteristicContext): readonly Characteristic[] | undefined {
  const pattern = [entry.of, ...entry.also];
  const repeated = pattern.find((id, i) => pattern.indexOf(id) !== i);
  if (repeated !== undefined) row.refuse("also", { what: "an element counts once in a row", expected: "further elements", got: repeated });
  if (entry.kind === "position within the pattern" && entry.also.length === 0)
    row.refuse("also", {
      what: "one element alone has no place within a pattern",
      expected: "the other elements of the pattern",
      got: "",
      remedy: "name them, or demand a position from the datums",
    });
  const found = pattern.map((of) => readCharacteristic({ ...entry, of }, row, context, pattern));
  const members = found.flatMap((read) => read ?? []);
  // Told once, however many members say it.
  row.tellOnce();
  if (row.failed || found.some((read) => read === undefined)) return undefined;
  if (pattern.length === 1 && members.length === 1) return members;
  const named = members.map((member) => {
    const part = pattern.length > 1 ? [member.of] : [];
    const id = [entry.id, ...part, ...(member.id === entry.id ? [] : [member.id])].join(", ");
    return { ...member, id, row: entry.id };
  });
  const taken = named.find(({ id }) => context.names.has(id));
  if (taken !== undefined)
    row.refuse("id", { what: "another row has the name of a member of this one", got: taken.id, remedy: "rename one of them" });
  return named;
}

/** @param pattern all elements of the row, of which the entry has one at a time */
function readCharacteristic(
  entry: CharacteristicEntry,
  row: RowReader,
  { known, general, located, systems, unreadSystems }: CharacteristicContext,
  pattern: readonly string[],
): Characteristic | readonly Characteristic[] | undefined {
  const ofEntry = entry.of === pattern[0] ? "of" : "also";
  const of = endOf(entry.of, ofEntry, row, known);
  refuseAngled(of, ofEntry, row);
  const isDistance = entry.kind === "distance" || entry.kind === "depth";
  if (!isDistance) refuseAngled(known.get(entry.from), "from", row);
  const datums = readDatums(entry, systems, unreadSystems, row, known);
  if (entry.tolerance.trim() === "" && !((isDistance || entry.kind === "angle") && general !== undefined))
    row.refuse("tolerance", {
      what: "the tolerance is missing",
      expected: expectedTolerance[entry.kind],
      got: "",
    });
  onlyWhere(isOrientation(entry.kind), entry, ["length", "width"], `a ${entry.kind}`, row);
  switch (entry.kind) {
    case "position":
    case "position within the pattern": {
      const zone = readZone(entry, row);
      const axis = axisOfRound(ofEntry, of, row);
      if (axis === undefined || zone === undefined) return undefined;
      const position = { id: entry.id, of: axis.id, zone };
      return entry.kind === "position"
        ? { ...position, kind: "position", ...datums }
        : { ...position, kind: "position within the pattern", pattern };
    }
    case "position at maximum material": {
      const zone = readZone(entry, row);
      const axis = axisOfRound(ofEntry, of, row);
      const atMaximumMaterial = axis && limitedSize(axis, row);
      return atMaximumMaterial && zone ? { id: entry.id, kind: "position", of: axis.id, zone, atMaximumMaterial, ...datums } : undefined;
    }
    case "coaxiality":
      return readCoaxiality(entry, of, row, known, located);
    case "symmetry":
      return readSymmetry(entry, of, row, known, located);
    case "wall thickness":
      return readWall(entry, of, row, known, located);
    case "parallelism":
    case "perpendicularity":
    case "angle":
      return readOrientation({ ...entry, kind: entry.kind }, of, row, known, located, general);
  }
  if (!isDistance) {
    const axis = of && commonAxis(of, of, entry.axis, row, known);
    const place = of && axis && located().places.get(of.id)?.[indexOfAxis(axis)]?.nominal;
    const limits = demandedLimits(entry, row, place === undefined ? undefined : { nominal: mm(place), kind: "place" }, undefined);
    return of && axis && limits && { id: entry.id, kind: "coordinate", of: of.id, axis, limits, ...datums };
  }
  const from = endOf(entry.from, "from", row, known);
  const axis = of && from && commonAxis(from, of, entry.kind === "depth" ? "Z" : entry.axis, row, known);
  const isWhole = of !== undefined && from !== undefined && axis !== undefined;
  const size = isWhole ? sizeBetween(from, of, axis, located()) : undefined;
  const limits = demandedLimits(entry, row, size, isWhole ? general : undefined);
  return isWhole && limits ? { id: entry.id, kind: "distance", of: of.id, from: from.id, axis, limits } : undefined;
}

/** What the drawing demands is told along axes, and between elements that look along them. */
function refuseAngled(element: Element | undefined, entry: "of" | "also" | "from", row: RowReader): void {
  if (element?.kind !== "angled face") return;
  row.refuse(entry, {
    what: "of a face that looks along no axis nothing is demanded but a distance from its point, as of a theoretical sharp edge",
    expected: "a face, a bore, a boss or a middle",
    got: element.id,
    remedy: "measure from the elements that the drawing's frame rests on, or demand a distance from it along an axis",
  });
}

function isOrientation(kind: CharacteristicEntry["kind"]): boolean {
  return kind === "parallelism" || kind === "perpendicularity" || kind === "angle";
}

const expectedTolerance: Readonly<Record<CharacteristicEntry["kind"], string>> = {
  position: "the diameter of the zone",
  "position at maximum material": "the diameter of the zone",
  coaxiality: "the diameter of the zone",
  symmetry: "the width of the zone",
  coordinate: "deviations such as ±0.05",
  distance: "deviations such as ±0.05",
  depth: "deviations such as ±0.05",
  "wall thickness": "at least a length, such as `at least 3 mm`, or deviations such as ±0.2",
  "position within the pattern": "the diameter of the zone",
  parallelism: "the width of the zone, or its diameter",
  perpendicularity: "the width of the zone, or its diameter",
  angle: "deviations such as ±0.1 deg",
};

/** The size of a zone: above 0, mm; undefined where it cannot be read. */
function readZone({ kind, tolerance }: CharacteristicEntry, row: RowReader): Mm | undefined {
  const zone = row.magnitude("tolerance", tolerance);
  if (zone !== 0) return zone;
  const expected = `a ${kind === "symmetry" || kind === "parallelism" || kind === "perpendicularity" ? "width" : "diameter"} above 0`;
  row.refuse("tolerance", { what: "a zone of no size can never be met", expected, got: tolerance });
  return undefined;
}

/** The element, if it is round; told at its entry if it is not. */
function axisOfRound(entry: "of" | "also" | "from", element: Element | undefined, row: RowReader): Round | undefined {
  if (element === undefined || element.kind === "bore" || element.kind === "boss") return element;
  row.refuse(entry, { what: "a round zone is for an axis", expected: "a bore or a boss", got: element.id });
  return undefined;
}

/** The size that gives a bonus: limited by the drawing, and yet to be cut. */
function limitedSize({ id, kind, made, diameter, diameterLimits }: Round, row: RowReader): LimitedSize | undefined {
  if (made === "before")
    row.refuse("of", {
      what: "the bonus is worked out for what is cut here; place and size of what is there already are known from the same touches",
      expected: "a bore or a boss that is cut here",
      got: id,
      remedy: "demand a position without the modifier",
    });
  else if (diameterLimits === undefined)
    row.refuse("of", {
      what: `nothing limits the diameter of "${id}", so there is no maximum material`,
      expected: "a bore or a boss whose diameter has a tolerance",
      got: id,
      remedy: "state the tolerance of its diameter",
    });
  else return { kind, nominal: diameter, limits: diameterLimits };
  return undefined;
}

function readCoaxiality(
  entry: CharacteristicEntry,
  of: Element | undefined,
  row: RowReader,
  known: KnownElements,
  located: () => LocatedPart,
): Characteristic | undefined {
  const zone = readZone(entry, row);
  const axis = axisOfRound("of", of, row);
  const reference = axisOfRound("from", endOf(entry.from, "from", row, known), row);
  if (axis === undefined || reference === undefined || zone === undefined) return undefined;
  areApart(axis, reference, row);
  for (const along of ["X", "Y"] as const) haveOnePlace(axis, reference, along, row, located());
  return { id: entry.id, kind: "coaxiality", of: axis.id, from: reference.id, zone };
}

function readSymmetry(
  entry: CharacteristicEntry,
  of: Element | undefined,
  row: RowReader,
  known: KnownElements,
  located: () => LocatedPart,
): Characteristic | undefined {
  const width = readZone(entry, row);
  const middle = middleOrNothing("of", of, row);
  const reference = middleOrNothing("from", endOf(entry.from, "from", row, known), row);
  if (middle === undefined || reference === undefined || width === undefined) return undefined;
  areApart(middle, reference, row);
  const axis = commonAxis(reference, middle, entry.axis, row, known);
  if (axis === undefined) return undefined;
  haveOnePlace(middle, reference, axis, row, located());
  const limits: Limits = { lower: mm(-width / 2), upper: mm(width / 2) };
  return { id: entry.id, kind: "symmetry", of: middle.id, from: reference.id, axis, limits };
}

function readOrientation(
  entry: CharacteristicEntry & { readonly kind: "parallelism" | "perpendicularity" | "angle" },
  of: Element | undefined,
  row: RowReader,
  known: KnownElements,
  located: () => LocatedPart,
  general: GeneralClass | undefined,
): Characteristic | readonly Characteristic[] | undefined {
  const from = endOf(entry.from, "from", row, known);
  const limits = entry.kind === "angle" ? readAngleLimits(entry, row, general) : undefined;
  const zone = entry.kind === "angle" ? undefined : readZone(entry, row);
  if (of === undefined || from === undefined) return undefined;
  areApart(of, from, row);
  if (of.made === "before" && from.made === "before")
    row.refuse("of", {
      what: "both were there before this setup, and nothing here turns the one against the other",
      expected: "an element that is cut here, or a datum that is",
      got: of.id,
    });
  const [feature, datum] = [directionOf(of, known), directionOf(from, known)];
  if (feature === undefined || datum === undefined) return undefined;
  const base = { id: entry.id, of: of.id, from: from.id };
  const about = turnsBetween(feature, datum);
  if (entry.kind === "angle") {
    onlyWhere(entry.tolerance.trim() === "" && general !== undefined, entry, ["length"], "an angle with a tolerance of its own", row);
    onlyWhere(false, entry, ["width"], "an angle", row);
    const axis = about.length === 1 && entry.axis === undefined ? about[0] : about.find((each) => each === entry.axis);
    if (axis === undefined)
      row.refuse("axis", {
        what: "the axis must be one about which the one turns against the other",
        expected: about.join(" or "),
        got: entry.axis ?? "",
      });
    return axis && limits && { ...base, kind: "angle", tilts: [[{ about: axis, factor: 1 }]], limits };
  }
  const { kind } = entry;
  const drawn = relationOf(feature, datum);
  if (kind !== drawn) {
    const words = { parallelism: "parallel", perpendicularity: "square to each other" } as const;
    row.refuse("kind", {
      what: `the drawing puts "${of.id}" and "${from.id}" ${words[drawn]}, so their ${kind} says nothing`,
      expected: drawn,
      got: kind,
    });
    return undefined;
  }
  const isRound = feature.shape === "line" && about.length === 2 && entry.axis === undefined;
  if (entry.axis !== undefined && !(feature.shape === "line" && about.length === 2 && entry.axis !== "Z"))
    row.refuse("axis", {
      what: "a direction is stated only for an axis that could lean to two sides",
      expected: feature.shape === "line" && about.length === 2 ? "X or Y, or nothing for a round zone" : "nothing",
      got: entry.axis,
    });
  const lengths = readLengths(entry, lengthsOf(feature, datum), row, known, located);
  if (lengths === undefined || zone === undefined) return undefined;
  const [length] = lengths as [number];
  if (isRound) return { ...base, kind, tilts: roundTilt(length), zone };
  const planar = entry.axis === undefined ? planarTilts(feature, datum, lengths) : [lineTilt(length, entry.axis)];
  const both: Limits = { lower: mm(-zone), upper: mm(zone) };
  const one = (tilt: Tilt, id: string): Characteristic => ({ ...base, id, kind, tilts: [tilt], limits: both });
  return planar.length === 1
    ? one(planar[0] as Tilt, entry.id)
    : planar.map((tilt, i) => one(tilt, i === 0 ? "one diagonal" : "other diagonal"));
}

/** The limits that an angle states, else those of the part's general tolerance, which go by the length of its shorter side; undefined for none. */
function readAngleLimits(entry: CharacteristicEntry, row: RowReader, general: GeneralClass | undefined): AngleLimits | undefined {
  if (entry.tolerance.trim() !== "") return row.angleTolerance("tolerance", entry.tolerance);
  if (general === undefined) return undefined;
  const side = row.magnitude("length", entry.length);
  if (side === undefined) {
    if (entry.length.trim() === "")
      row.refuse("length", {
        what: "the general tolerance of an angle goes by the length of its shorter side",
        expected: "that length, or a tolerance of its own",
        got: "",
      });
    return undefined;
  }
  const half = row.take("length", generalToleranceOfAngle(side, general));
  return half && { lower: radian(-half), upper: half, standard: `ISO 2768-${general}` };
}

/** The lengths over which a tilt counts: as stated, or the part's size across; undefined where one is not known. */
function readLengths(
  entry: CharacteristicEntry,
  along: readonly Axis[],
  row: RowReader,
  known: KnownElements,
  located: () => LocatedPart,
): readonly number[] | undefined {
  onlyWhere(along.length > 1, entry, ["width"], "a tilt that counts over one length", row);
  const lengths = along.map((axis, i) => {
    const name = i === 0 ? "length" : "width";
    const stated = row.magnitude(name, entry[name]);
    if (stated !== undefined && stated > 0) return stated;
    const across = entry[name].trim() === "" ? sizeAcross(axis, known.values(), located()) : undefined;
    if (across === undefined)
      row.refuse(name, {
        what: `over what length along ${axis} the tilt counts is not known`,
        expected: "a length above 0",
        got: entry[name],
        remedy: `state the length of "${entry.of}" along ${axis}, or the part's faces there`,
      });
    return across;
  });
  return lengths.every((length) => length !== undefined) ? lengths : undefined;
}

/** Refuses entries that say nothing of what they are stated for. */
function onlyWhere(
  allowed: boolean,
  entry: CharacteristicEntry,
  names: readonly ("length" | "width" | "datums")[],
  what: string,
  row: RowReader,
): void {
  if (allowed) return;
  for (const name of names)
    if (entry[name].trim() !== "")
      row.refuse(name, { what: `this says nothing of ${what}`, expected: "nothing", got: entry[name], remedy: "leave it empty" });
}

function readWall(
  entry: CharacteristicEntry,
  of: Element | undefined,
  row: RowReader,
  known: KnownElements,
  located: () => LocatedPart,
): Characteristic | undefined {
  const from = endOf(entry.from, "from", row, known);
  if (of === undefined || from === undefined) return undefined;
  if (!isBore(of)) row.refuse("of", { what: "a wall begins at a bore", expected: "a bore", got: of.id });
  const bounds = wallBounds(of, from);
  if (bounds === undefined) {
    row.refuse("from", {
      what: "a wall ends at an upright face or at another bore",
      expected: "a face along X or Y, or a bore",
      got: from.id,
    });
    return undefined;
  }
  for (const [end, element] of [
    ["of", bounds.bore],
    ["from", bounds.other],
  ] as const)
    if (element.kind !== "face" && element.diameterLimits === undefined)
      row.refuse(end, {
        what: `a wall is as thick as the diameter of "${element.id}" leaves it, and nothing limits that`,
        expected: "a bore whose diameter has a tolerance",
        got: element.id,
        remedy: "state the tolerance of its diameter",
      });
  const nominal = nominalWall(bounds, located());
  if (nominal === undefined)
    row.refuse("from", {
      what: "the drawing does not say how far the two are apart",
      expected: "dimensions that tie both to datums",
      got: from.id,
    });
  else if (nominal <= 0)
    row.refuse("from", {
      what: `the drawing leaves no metal between "${of.id}" and "${from.id}"`,
      expected: "a face that looks away from the bore, or a bore apart from it",
      got: `a wall of ${sizeText(nominal)}`,
    });
  if (row.failed || nominal === undefined) return undefined;
  const limits = wallLimits(entry, mm(nominal), row);
  return limits && { id: entry.id, kind: "wall thickness", of: of.id, from: from.id, limits };
}

/** `at least 3 mm` limits the wall itself, and nothing above; all else are deviations. */
function wallLimits(entry: CharacteristicEntry, nominal: Mm, row: RowReader): Limits | undefined {
  const least = leastIn(entry.tolerance);
  if (least === undefined) return demandedLimits(entry, row, { nominal, kind: "place" }, undefined);
  const wall = row.required("tolerance", least, "the least wall");
  if (wall === undefined) return undefined;
  if (wall > 0 && wall < nominal) return { lower: mm(wall - nominal), upper: mm(Number.POSITIVE_INFINITY) };
  row.refuse("tolerance", {
    what: "the drawing's own wall leaves no room for this limit",
    expected: `above 0 and below ${sizeText(nominal)}`,
    got: entry.tolerance,
  });
  return undefined;
}

/** The element, if it is a middle; told at its entry if it is not. */
function middleOrNothing(entry: "of" | "from", element: Element | undefined, row: RowReader): Element | undefined {
  if (element === undefined || element.kind === "middle") return element;
  row.refuse(entry, { what: "symmetry is of one middle about another", expected: "an element of kind middle", got: element.id });
  return undefined;
}

/** Nothing can be off itself: such a demand would always be met. */
function areApart(of: Element, from: Element, row: RowReader): void {
  if (of === from) row.refuse("from", { what: "an element has no deviation from itself", expected: "another element", got: from.id });
}

/** Refuses coaxial or symmetric elements that the drawing puts at different places. */
function haveOnePlace(of: Element, from: Element, axis: Axis, row: RowReader, located: LocatedPart): void {
  const size = sizeBetween(from, of, axis, located);
  if (size === undefined || isUpTo(Math.abs(size.nominal), 0)) return;
  row.refuse("from", {
    what: `the drawing does not put "${of.id}" and "${from.id}" at the same place along ${axis}`,
    expected: `the same nominal ${axis} for both`,
    got: `${sizeText(Math.abs(size.nominal))} apart`,
    remedy: "see their basic coordinates and dimensions",
  });
}

/** The distance between two elements where the drawing puts them; undefined where it does not. */
function sizeBetween(from: Element, to: Element, axis: Axis, { places }: LocatedPart): TolerancedSize | undefined {
  const [start, end] = [from, to].map(({ id }) => places.get(id)?.[indexOfAxis(axis)]?.nominal);
  if (start === undefined || end === undefined) return undefined;
  const nominal = mm(end - start);
  return { nominal, kind: kindBetween(from, to, nominal) };
}

function demandedLimits(
  { tolerance }: CharacteristicEntry,
  row: RowReader,
  size: TolerancedSize | undefined,
  general: GeneralClass | undefined,
): Limits | undefined {
  const limits = readLimits("tolerance", tolerance, row, size, general);
  if (limits && limits.lower === limits.upper)
    row.refuse("tolerance", { what: "a tolerance of no size can never be met", expected: "two different limits", got: tolerance });
  return limits;
}

/** The limits that an entry states, else those of the part's general tolerance; undefined for none, or where they cannot be read. */
function readLimits(
  entry: string,
  text: string,
  row: RowReader,
  size: TolerancedSize | undefined,
  general: GeneralClass | undefined,
): Limits | undefined {
  if (text.trim() !== "") return row.tolerance(entry, text, size);
  if (general === undefined) return undefined;
  if (size !== undefined) return row.take(entry, generalTolerance(mm(Math.abs(size.nominal)), general));
  row.refuse(entry, {
    what: "a general tolerance goes by the nominal size, and nothing on the drawing gives it here",
    expected: "a tolerance of its own, or dimensions that tie both elements to datums",
    got: text,
  });
  return undefined;
}

/** Two faces that look away from each other have metal inside, two that look at each other a gap; all else is no feature of size. */
function kindBetween(from: Element, to: Element, nominal: Mm): TolerancedSize["kind"] {
  const [low, high] = nominal < 0 ? [to, from] : [from, to];
  if (low.kind !== "face" || high.kind !== "face" || low.outward[0] === high.outward[0]) return undefined;
  return low.outward[0] === "-" ? "shaft" : "hole";
}

/** Elements by name: those that can be read. */
interface KnownElements extends ReadonlyMap<string, Element> {
  /** Names of all that are stated. */
  readonly listed: ReadonlySet<string>;
}

function endOf(id: string, entry: string, row: RowReader, known: KnownElements): Element | undefined {
  const element = known.get(id);
  if (element === undefined && known.listed.has(id))
    row.refuse(entry, { what: `"${id}" cannot be read`, got: id, remedy: "see what is said at that element" });
  else if (element === undefined)
    row.refuse(entry, {
      what: "there is no readable element by this name",
      expected: "the name of an element of the part",
      got: id,
      ...suggestName(id, known.keys()),
    });
  return element;
}

/** The axis along which both have a place: the stated one, or the only one that they share. */
function commonAxis(a: Element, b: Element, stated: Axis | undefined, row: RowReader, known: KnownElements): Axis | undefined {
  const shared = axesOf(a, known).filter((axis) => axesOf(b, known).includes(axis));
  if (stated !== undefined && shared.includes(stated)) return stated;
  if (stated === undefined && shared.length === 1) return shared[0];
  const possible = shared.length > 0 ? shared.join(" or ") : `no axis: "${a.id}" and "${b.id}" share none`;
  row.refuse("axis", { what: "the axis must be one along which both elements have a place", expected: possible, got: stated ?? "" });
  return undefined;
}
