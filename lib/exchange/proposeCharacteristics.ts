import { millimetresPerInch } from "../base/quantity.ts";
import { type Axis, indexOfAxis } from "../base/vector.ts";
import { blankEntries } from "../document/blankEntries.ts";
import { readDrawnPart } from "../document/readSetup.ts";
import type { CharacteristicEntry, MeasuredFeatureEntry, SetupDocument } from "../document/setupDocument.ts";
import { locateElements } from "../part/locateElements.ts";
import { difference, type LengthUnit, lengthEntry, unitText } from "./lengthText.ts";
import { freeName, type LeftOut, type ProposedLine, withDoubt } from "./proposal.ts";
import { isOfTwo, type ReadCharacteristic, type ReadCharacteristics, type ReadMeasured } from "./readCharacteristic.ts";

/** Nearer than this two places are the same, mm: a nominal has its digits, and no doubt. */
const near = 1e-6;

/**
 * Characteristics as rows of what the drawing demands, and measured values as deviations of made parts: along the axis of a coordinate that the setup has (or
 * that comes along in the same text). Other measured values say nothing of a place, and are left out. A nominal is compared with where the setup's drawing has the element.
 */
export function proposeCharacteristics(
  { characteristics, measured }: ReadCharacteristics,
  document: SetupDocument,
): { readonly lines: readonly ProposedLine[]; readonly leftOut: readonly LeftOut[] } {
  const placeOf = placesOnDrawing(document);
  const demands = characteristics.map((each) => proposeDemand(each, document, placeOf));
  const leftOut: LeftOut[] = [];
  const lines = [...demands];
  for (const [key, values] of groupedByPlace(measured, document, characteristics, leftOut))
    lines.push(proposeMade(key, values, document, placeOf));
  return { lines, leftOut };
}

/** Where the drawing of the setup has an element along an axis, mm; undefined where it does not say. */
type PlaceOf = (element: string, axis: Axis) => number | undefined;

function placesOnDrawing(document: SetupDocument): PlaceOf {
  const { places } = locateElements(readDrawnPart(document));
  return (element, axis) => places.get(element)?.[indexOfAxis(axis)]?.nominal;
}

function proposeDemand(read: ReadCharacteristic, document: SetupDocument, placeOf: PlaceOf): ProposedLine {
  const { at, name, kind, of, also = [], from, datums, axis, nominal, unit, length, width } = read;
  const { part } = document;
  const id = name.trim().slice(0, 80);
  const tolerance = toleranceEntry(read, document.unit);
  const isElement = (wanted: string) => part.elements.some((each) => each.id === wanted);
  const unknown = [...new Set([of, ...also, from])].filter((each) => each !== "" && !isElement(each));
  const about = [
    of === "" ? "of which element is for you to say" : `of ${[of, ...also].join(", ")}`,
    ...(isOfTwo(kind) ? [from === "" ? "the other element is for you to say" : `from ${from}`] : []),
    ...unknown.map((each) => `"${each}" is no element of the setup yet`),
    ...(datums === ""
      ? []
      : [`by ${datums}${part.datumSystems.some((each) => each.id === datums) ? "" : ", which is no datum system of the setup yet"}`]),
  ];
  const words = [
    kind,
    of === "" ? "" : `of ${of}`,
    from === "" ? "" : `from ${from}`,
    axis === undefined ? "" : `along ${axis}`,
    nominal === undefined ? "" : `nominal ${nominal} ${unit === "deg" ? unit : unitText(unit)}`,
  ];
  const isThere = part.characteristics.some((each) => each.id === id);
  const line: ProposedLine = {
    at,
    read: `"${id}": ${words.filter(Boolean).join(", ")}`,
    becomes: `characteristic "${id}", ${kind}, tolerance ${tolerance}; ${about.join("; ")}`,
    change: (changed) => {
      const row: CharacteristicEntry = {
        ...blankEntries.characteristic(freeName(id, changed.part.characteristics)),
        kind,
        of,
        also: [...also],
        from,
        datums,
        ...(axis !== undefined && { axis }),
        tolerance,
        length: sizeEntry(length, unit, changed.unit),
        width: sizeEntry(width, unit, changed.unit),
      };
      return { ...changed, part: { ...changed.part, characteristics: [...changed.part.characteristics, row] } };
    },
  };
  const doubts = [isThere ? "a characteristic of this name is there already" : undefined, ...read.doubts, otherNominal(read, placeOf)];
  return doubts.reduce(withDoubt, line);
}

function toleranceEntry({ tolerance, unit }: ReadCharacteristic, bare: LengthUnit): string {
  const behind = unit === bare ? "" : ` ${unit === "deg" ? unit : unitText(unit)}`;
  if ("zone" in tolerance) return `${tolerance.zone}${behind}`;
  if ("least" in tolerance) return `at least ${tolerance.least}${behind}`;
  const { upper, lower } = tolerance;
  if (Number(upper) === -Number(lower) && Number(upper) > 0) return `±${upper}${behind}`;
  const signed = (digits: string) => (Number(digits) > 0 ? `+${digits}` : digits);
  return `${signed(upper)}${behind} ${signed(lower)}${behind}`;
}

function sizeEntry(digits: string | undefined, unit: ReadCharacteristic["unit"], bare: LengthUnit): string {
  return digits === undefined || unit === "deg" ? "" : lengthEntry({ digits, unit }, bare);
}

/** That the setup's drawing has another nominal; undefined where it has the same, or does not say. */
function otherNominal({ kind, of, from, datums, axis, nominal, unit }: ReadCharacteristic, placeOf: PlaceOf): string | undefined {
  if (nominal === undefined || unit === "deg" || datums !== "") return undefined;
  const along = kind === "depth" ? "Z" : axis;
  if (along === undefined) return undefined;
  const place = placeOf(of, along);
  if (kind === "coordinate") return isElsewhere(place, nominal, unit) ? drawnElsewhere(of, along, place, nominal, unit) : undefined;
  if (kind !== "distance" && kind !== "depth") return undefined;
  const other = placeOf(from, along);
  if (place === undefined || other === undefined) return undefined;
  const [apart, stated] = [Math.abs(place - other), Math.abs(millimetresOf(nominal, unit))];
  return Math.abs(apart - stated) <= near
    ? undefined
    : `the drawing of the setup has "${of}" and "${from}" ${shownMillimetres(apart)} mm apart, and the nominal is ${nominal} ${unitText(unit)}`;
}

function isElsewhere(place: number | undefined, nominal: string, unit: LengthUnit): place is number {
  return place !== undefined && Math.abs(place - millimetresOf(nominal, unit)) > near;
}

function drawnElsewhere(element: string, axis: Axis, place: number, nominal: string, unit: LengthUnit): string {
  return `the drawing of the setup has "${element}" at ${axis} ${shownMillimetres(place)} mm, and the nominal is ${nominal} ${unitText(unit)}`;
}

function millimetresOf(digits: string, unit: LengthUnit): number {
  return Number(digits) * (unit === "inch" ? millimetresPerInch : 1);
}

function shownMillimetres(value: number): string {
  return String(Number(value.toFixed(6)));
}

interface MadeValue {
  readonly measured: ReadMeasured;
  readonly axis: Axis;
  readonly nominal: string;
  readonly deviation: string;
  /** The datum system that it was measured from; empty for the drawing's frame. */
  readonly datums: string;
}

/** What a measured value is known by. */
interface NamedDemand {
  readonly name: string;
  readonly kind: CharacteristicEntry["kind"];
  readonly of: string;
  readonly axis?: Axis | undefined;
  readonly datums: string;
}

/** Measured coordinates by part and element. */
function groupedByPlace(
  measured: readonly ReadMeasured[],
  { part }: SetupDocument,
  coming: readonly ReadCharacteristic[],
  leftOut: LeftOut[],
): ReadonlyMap<string, readonly MadeValue[]> {
  const groups = new Map<string, MadeValue[]>();
  const elements = new Set(part.elements.map(({ id }) => id));
  // What the setup has counts before what comes along.
  const demands = new Map<string, NamedDemand | "several">([
    ...demandsByName(coming),
    ...part.characteristics.map((each) => [each.id, { ...each, name: each.id }] as const),
  ]);
  for (const each of measured) {
    const known = demands.get(each.name);
    const leave = (why: string) =>
      leftOut.push({ at: each.at, what: `"${each.name}" of ${each.part || "a part"}, measured ${each.value}: ${why}` });
    if (known === undefined) leave("the setup has no characteristic of this name");
    else if (known === "several") leave("several characteristics of this name come along, of different places");
    else if (known.kind !== "coordinate" || known.axis === undefined || !elements.has(known.of))
      leave("only coordinates of an element along an axis say where it was made");
    else if (each.nominal === undefined) leave("no nominal beside it");
    else {
      const key = JSON.stringify([each.part, known.of]);
      const values = groups.get(key) ?? [];
      const { nominal } = each;
      if (values.some(({ axis }) => axis === known.axis)) leave(`${known.axis} of it is there twice`);
      else
        groups.set(key, [
          ...values,
          { measured: each, axis: known.axis, nominal, deviation: difference(each.value, nominal), datums: known.datums.trim() },
        ]);
    }
  }
  return groups;
}

function demandsByName(coming: readonly ReadCharacteristic[]): ReadonlyMap<string, NamedDemand | "several"> {
  const demands = new Map<string, NamedDemand | "several">();
  for (const each of coming) {
    const present = demands.get(each.name);
    const isSame =
      typeof present === "object" &&
      present.kind === each.kind &&
      present.of === each.of &&
      present.axis === each.axis &&
      present.datums === each.datums;
    demands.set(each.name, present === undefined || isSame ? each : "several");
  }
  return demands;
}

function proposeMade(key: string, values: readonly MadeValue[], { madeParts }: SetupDocument, placeOf: PlaceOf): ProposedLine {
  const [part, element] = JSON.parse(key) as [string, string];
  const told = values.map(({ axis, deviation, measured: { unit } }) => `${axis} ${deviation} ${unitText(unit)}`).join(", ");
  const there = madeParts.measured.find((row) => row.part.trim() === part && row.element.trim() === element);
  const line: ProposedLine = {
    at: values.map(({ measured: { at } }) => at).join(", "),
    read: values.map(({ measured: { name, value }, nominal }) => `"${name}" ${value}, nominal ${nominal}`).join("; "),
    becomes: `${element} of ${part || "a made part"}: made less wanted ${told}`,
    change: (changed) => {
      const row: MeasuredFeatureEntry = {
        ...blankEntries.measuredFeature(freeName([part, element].filter(Boolean).join(" ").slice(0, 70), changed.madeParts.measured)),
        part,
        element,
        ...Object.fromEntries(
          values.map(({ axis, deviation, measured: { unit } }) => [
            axis.toLowerCase(),
            lengthEntry({ digits: deviation, unit }, changed.unit),
          ]),
        ),
      };
      return { ...changed, madeParts: { ...changed.madeParts, measured: [...changed.madeParts.measured, row] } };
    },
  };
  const isAgain =
    there === undefined ? undefined : `row "${there.id}" has ${element} of ${part || "this part"} already, and it would count twice`;
  const otherPlaces = values.map(({ axis, nominal, datums, measured: { name, unit } }) => {
    if (datums !== "") return `"${name}" is measured from the datum system "${datums}", and made parts are told in the drawing's frame`;
    const place = placeOf(element, axis);
    return isElsewhere(place, nominal, unit) ? drawnElsewhere(element, axis, place, nominal, unit) : undefined;
  });
  return [isAgain, ...otherPlaces].reduce(withDoubt, line);
}
