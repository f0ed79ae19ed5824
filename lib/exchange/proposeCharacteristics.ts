import { blankEntries } from "../document/blankEntries.ts";
import type { CharacteristicEntry, MeasuredFeatureEntry, SetupDocument } from "../document/setupDocument.ts";
import { difference, type LengthUnit, lengthEntry, unitText } from "./lengthText.ts";
import { freeName, type LeftOut, type ProposedLine } from "./proposal.ts";
import type { ReadCharacteristic, ReadCharacteristics, ReadMeasured } from "./readCharacteristic.ts";

/**
 * Characteristics as rows of what the drawing demands, and measured values as deviations of made parts: along the axis of a coordinate that the setup has (or
 * that comes along in the same text). Other measured values say nothing of a place, and are left out.
 */
export function proposeCharacteristics(
  { unit, characteristics, measured }: ReadCharacteristics,
  document: SetupDocument,
): { readonly lines: readonly ProposedLine[]; readonly leftOut: readonly LeftOut[] } {
  const demands = characteristics.map((each) => proposeDemand(each, unit, document));
  const leftOut: LeftOut[] = [];
  const lines = [...demands];
  for (const [key, values] of groupedByPlace(measured, document, characteristics, leftOut)) lines.push(proposeMade(key, values, unit));
  return { lines, leftOut };
}

function proposeDemand(read: ReadCharacteristic, unit: LengthUnit, document: SetupDocument): ProposedLine {
  const { at, name, kind, of, axis, nominal } = read;
  const id = name.trim().slice(0, 80);
  const tolerance = toleranceEntry(read, unit, document.unit);
  const isThere = document.part.characteristics.some((each) => each.id === id);
  const isKnown = document.part.elements.some((each) => each.id === of);
  const about = of === "" ? "; of which element is for you to say" : isKnown ? ` of ${of}` : `; "${of}" is no element of the setup yet`;
  const words = [
    kind,
    of === "" ? "" : `of ${of}`,
    axis === undefined ? "" : `along ${axis}`,
    nominal === undefined ? "" : `nominal ${nominal} ${unitText(unit)}`,
  ];
  return {
    at,
    read: `"${id}": ${words.filter(Boolean).join(", ")}`,
    becomes: `characteristic "${id}", ${kind}, tolerance ${tolerance}${about}`,
    ...(isThere && { doubt: "a characteristic of this name is there already" }),
    change: (changed) => {
      const row: CharacteristicEntry = {
        ...blankEntries.characteristic(freeName(id, changed.part.characteristics)),
        kind,
        of,
        ...(axis !== undefined && { axis }),
        tolerance,
      };
      return { ...changed, part: { ...changed.part, characteristics: [...changed.part.characteristics, row] } };
    },
  };
}

function toleranceEntry({ tolerance }: ReadCharacteristic, unit: LengthUnit, bare: LengthUnit): string {
  if ("zone" in tolerance) return lengthEntry({ digits: tolerance.zone, unit }, bare);
  const { upper, lower } = tolerance;
  const behind = unit === bare ? "" : ` ${unitText(unit)}`;
  if (Number(upper) === -Number(lower) && Number(upper) > 0) return `±${upper}${behind}`;
  const signed = (digits: string) => (Number(digits) > 0 ? `+${digits}` : digits);
  return `${signed(upper)}${behind} ${signed(lower)}${behind}`;
}

interface MadeValue {
  readonly measured: ReadMeasured;
  readonly axis: "X" | "Y" | "Z";
  readonly deviation: string;
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
  const demands = new Map(
    [...coming, ...part.characteristics.map((each) => ({ ...each, name: each.id }))].map((each) => [each.name, each]),
  );
  for (const each of measured) {
    const known = demands.get(each.name);
    const leave = (why: string) =>
      leftOut.push({ at: each.at, what: `"${each.name}" of ${each.part || "a part"}, measured ${each.value}: ${why}` });
    if (known === undefined) leave("the setup has no characteristic of this name");
    else if (known.kind !== "coordinate" || known.axis === undefined || !elements.has(known.of))
      leave("only coordinates of an element along an axis say where it was made");
    else if (each.nominal === undefined) leave("no nominal beside it");
    else {
      const key = JSON.stringify([each.part, known.of]);
      const values = groups.get(key) ?? [];
      if (values.some(({ axis }) => axis === known.axis)) leave(`${known.axis} of it is there twice`);
      else groups.set(key, [...values, { measured: each, axis: known.axis, deviation: difference(each.value, each.nominal) }]);
    }
  }
  return groups;
}

function proposeMade(key: string, values: readonly MadeValue[], unit: LengthUnit): ProposedLine {
  const [part, element] = JSON.parse(key) as [string, string];
  const told = values.map(({ axis, deviation }) => `${axis} ${deviation} ${unitText(unit)}`).join(", ");
  return {
    at: values.map(({ measured: { at } }) => at).join(", "),
    read: values.map(({ measured: { name, value, nominal } }) => `"${name}" ${value}, nominal ${nominal}`).join("; "),
    becomes: `${element} of ${part || "a made part"}: made less wanted ${told}`,
    change: (changed) => {
      const row: MeasuredFeatureEntry = {
        ...blankEntries.measuredFeature(freeName([part, element].filter(Boolean).join(" ").slice(0, 70), changed.madeParts.measured)),
        part,
        element,
        ...Object.fromEntries(
          values.map(({ axis, deviation }) => [axis.toLowerCase(), lengthEntry({ digits: deviation, unit }, changed.unit)]),
        ),
      };
      return { ...changed, madeParts: { ...changed.madeParts, measured: [...changed.madeParts.measured, row] } };
    },
  };
}
