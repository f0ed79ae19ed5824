import { failure, type Outcome, success } from "../base/outcome.ts";
import { difference, digitsOf, type LengthUnit } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import {
  characteristicKind,
  isOfZone,
  type ReadCharacteristic,
  type ReadCharacteristics,
  type ReadMeasured,
} from "./readCharacteristic.ts";
import { childNamed, childText, nodesNamed, type XmlNode } from "./readXml.ts";

/**
 * Characteristics and measured values of a QIF document (ISO 23952, QIF 3.0; element names from memory): items point to nominals, nominals to definitions, measured
 * values to items, each by an id, and each is followed one step at a time, so that ids that point in a circle lead nowhere. Kinds that a setup does
 * not judge are told and left out. A document that does not state its unit of length is refused.
 */
export function readQif(root: XmlNode): Outcome<ReadCharacteristics> {
  if (root.name !== "QIFDocument")
    return failure({ at: `line ${root.line}`, what: `the document is ${root.name}`, expected: "QIFDocument" });
  const unit = unitOf(root);
  if (unit === undefined)
    return failure({
      at: "FileUnits",
      what: "the unit of length is not stated, or is none that is read",
      expected: "mm or inch as the name of the primary unit of length",
    });
  const leftOut: LeftOut[] = [];
  const byId = (group: string) => {
    const nodes = nodesNamed(root, group).flatMap(({ children }) => children);
    return new Map(nodes.map((node) => [node.attributes.get("id") ?? "", node]));
  };
  const [definitions, nominals, items] = [byId("CharacteristicDefinitions"), byId("CharacteristicNominals"), byId("CharacteristicItems")];
  const of = (item: XmlNode) => {
    const nominal = nominals.get(childText(item, "CharacteristicNominalId"));
    return { nominal, definition: definitions.get(childText(nominal, "CharacteristicDefinitionId")) };
  };
  const nameOfItem = (item: XmlNode) =>
    childText(item, "Name") || childText(item, "Description") || `characteristic ${item.attributes.get("id") ?? ""}`.trim();
  const characteristics: ReadCharacteristic[] = [];
  for (const item of items.values()) {
    const read = readItem(item, nameOfItem(item), of(item));
    if (typeof read === "string") leftOut.push({ at: `line ${item.line}`, what: `"${nameOfItem(item)}": ${read}` });
    else characteristics.push(read);
  }
  const measured: ReadMeasured[] = [];
  nodesNamed(root, "MeasurementResults").forEach((results, i) => {
    const part = childText(childNamed(results, "ActualComponent"), "SerialNumber") || childText(results, "SerialNumber") || `part ${i + 1}`;
    for (const measurement of nodesNamed(results, "CharacteristicMeasurements").flatMap(({ children }) => children)) {
      const at = `line ${measurement.line}`;
      const item = items.get(childText(measurement, "CharacteristicItemId"));
      const value = digitsOf(childText(measurement, "Value"));
      if (item === undefined) leftOut.push({ at, what: "a measured value that belongs to no characteristic of the document" });
      else if (value === undefined) leftOut.push({ at, what: `"${nameOfItem(item)}": no measured value as a number` });
      else measured.push({ at, part, name: nameOfItem(item), value, nominal: digitsOf(childText(of(item).nominal, "TargetValue")) });
    }
  });
  return success({ unit, characteristics, measured, leftOut });
}

function unitOf(root: XmlNode): LengthUnit | undefined {
  const units = childNamed(root, "FileUnits");
  const linear = childNamed(childNamed(units, "PrimaryUnits"), "LinearUnit");
  const name = (childText(linear, "UnitName") || (linear?.text ?? "")).toLowerCase();
  return ["mm", "millimeter", "millimetre"].includes(name) ? "mm" : ["in", "inch"].includes(name) ? "inch" : undefined;
}

/** The characteristic, or why a setup has no place for it. */
function readItem(
  item: XmlNode,
  name: string,
  { nominal, definition }: { nominal: XmlNode | undefined; definition: XmlNode | undefined },
): ReadCharacteristic | string {
  if (nominal === undefined || definition === undefined) return "its nominal or its definition is not in the document";
  const word = definition.name.replace(/CharacteristicDefinition$/, "");
  const kind = characteristicKind(word);
  if (kind === undefined) return `a setup has no characteristic of kind ${word}`;
  const target = digitsOf(childText(nominal, "TargetValue"));
  const tolerance = toleranceOf(definition, isOfZone(kind), target);
  if (tolerance === undefined) return "its tolerance is not there as numbers";
  return { at: `line ${item.line}`, name, kind, of: "", axis: undefined, nominal: target, tolerance };
}

function toleranceOf(definition: XmlNode, isZone: boolean, nominal: string | undefined): ReadCharacteristic["tolerance"] | undefined {
  const tolerance = childNamed(definition, "Tolerance");
  if (isZone) {
    const zone = digitsOf(childText(definition, "ToleranceValue") || childText(tolerance, "ToleranceValue"));
    return zone !== undefined && Number(zone) > 0 ? { zone } : undefined;
  }
  const [upper, lower] = [digitsOf(childText(tolerance, "MaxValue")), digitsOf(childText(tolerance, "MinValue"))];
  if (upper === undefined || lower === undefined) return undefined;
  // Limits of the size itself, or deviations from the nominal.
  if (childText(tolerance, "DefinedAsLimit") !== "true") return { upper, lower };
  return nominal === undefined ? undefined : { upper: difference(upper, nominal), lower: difference(lower, nominal) };
}
