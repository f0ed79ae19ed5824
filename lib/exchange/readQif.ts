import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import { difference, digitsOf, inOneUnit, type TypedLength } from "./lengthText.ts";
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
import { QifUnits } from "./readQifUnits.ts";
import { childNamed, childText, nodesNamed, type XmlNode } from "./readXml.ts";

/**
 * Characteristics and measured values of a QIF document (ISO 23952, QIF 3.0; element names from memory): items point to nominals, nominals to definitions, measured
 * values to items, each by an id, and each is followed one step at a time, so that ids that point in a circle lead nowhere. Kinds that a setup does
 * not judge are told and left out. Elements and attributes that are not known to be of no account make a characteristic ask, or are told. A document that does not
 * state its unit of length is refused.
 */
export function readQif(root: XmlNode): Outcome<ReadCharacteristics> {
  if (root.name !== "QIFDocument")
    return failure({ at: `line ${root.line}`, what: `the document is ${root.name}`, expected: "QIFDocument" });
  const units = QifUnits.of(root);
  return units.ok ? success(new QifReader(root, units.value).read()) : units;
}

/** Children that are read, by what they are children of. */
const known = {
  definition: ["Name", "Description", "Tolerance", "ToleranceValue", "MaterialCondition", "DatumReferenceFrameId"],
  tolerance: ["MaxValue", "MinValue", "DefinedAsLimit", "ToleranceValue"],
  nominal: ["Name", "Description", "CharacteristicDefinitionId", "TargetValue", "FeatureNominalIds", "FeatureNominalId"],
  item: ["Name", "Description", "CharacteristicNominalId", "FeatureItemIds", "FeatureItemId"],
  measurement: ["CharacteristicItemId", "Value"],
} as const;
const ofZoneShape = /^(?:(?:Tolerance)?Zone(?:Shape)?|DimensionType)$/;
const ofDirection = ["Axis", "CoordinateAxis", "Direction"] as const;
/** How many digits are shown of a value says nothing of it. */
const ofDisplay: readonly string[] = ["decimalPlaces", "significantFigures", "linearUnit", "angularUnit"];

class QifReader {
  private readonly leftOut: LeftOut[] = [];
  private readonly unused = new Map<string, { line: number; count: number }>();
  private readonly definitions: ById;
  private readonly nominals: ById;
  private readonly items: ById;
  private readonly features: ById;
  private readonly frames: ById;

  private readonly root: XmlNode;
  private readonly units: QifUnits;

  constructor(root: XmlNode, units: QifUnits) {
    this.root = root;
    this.units = units;
    const below = (...groups: readonly string[]) =>
      new ById(groups.flatMap((group) => nodesNamed(root, group)).flatMap(({ children }) => children));
    this.definitions = below("CharacteristicDefinitions");
    this.nominals = below("CharacteristicNominals");
    this.items = below("CharacteristicItems");
    this.features = below("FeatureNominals", "FeatureItems");
    this.frames = below("DatumReferenceFrames");
  }

  read(): ReadCharacteristics {
    const characteristics: ReadCharacteristic[] = [];
    for (const item of this.items.nodes) {
      const read = this.readItem(item);
      if (typeof read === "string") this.leave(item, `"${nameOfItem(item)}": ${read}`);
      else characteristics.push(read);
    }
    const measured: ReadMeasured[] = [];
    nodesNamed(this.root, "MeasurementResults").forEach((results, i) => {
      const part =
        childText(childNamed(results, "ActualComponent"), "SerialNumber") || childText(results, "SerialNumber") || `part ${i + 1}`;
      for (const measurement of nodesNamed(results, "CharacteristicMeasurements").flatMap(({ children }) => children)) {
        const read = this.readMeasurement(measurement, part);
        if (typeof read === "string") this.leave(measurement, read);
        else measured.push(read);
      }
    });
    const unused = [...this.unused].map(([what, { line, count }]) => ({
      at: `line ${line}`,
      what: `${what}${count > 1 ? `, ${count} times` : ""}: not used`,
    }));
    return { unit: this.units.primary, characteristics, measured, leftOut: [...this.leftOut, ...unused] };
  }

  /** The characteristic, or why a setup has no place for it. */
  private readItem(item: XmlNode): ReadCharacteristic | string {
    const nominal = this.nominals.get(childText(item, "CharacteristicNominalId"));
    if (nominal === "twice") return "the id of its nominal is there twice";
    const definition = nominal && this.definitions.get(childText(nominal, "CharacteristicDefinitionId"));
    if (definition === "twice") return "the id of its definition is there twice";
    if (nominal === undefined || definition === undefined) return "its nominal or its definition is not in the document";
    const word = definition.name.replace(/CharacteristicDefinition$/, "");
    const demand = this.readDemand(word, definition);
    if (typeof demand === "string") return demand;
    const { kind } = demand;
    const target = this.length(childNamed(nominal, "TargetValue"));
    const tolerance = this.readTolerance(definition, isOfZone(kind), target);
    if (typeof tolerance === "string") return tolerance;
    const doubts = [...demand.doubts];
    const direction = directionOf([definition, nominal, item]);
    if (direction === "other") return "its direction does not go with X, Y or Z";
    const names = this.featuresOf(item, nominal, doubts);
    if (names.length > (isOfTwo(kind) ? 2 : 1))
      doubts.push(`it belongs to ${names.map((name) => `"${name}"`).join(", ")}: which is meant is for you to say`);
    else if (names.length === 2) doubts.push(`whether it goes from "${names[1]}" to "${names[0]}" or back is for you to see`);
    for (const child of childrenBeside(definition, [...known.definition, ...ofDirection]))
      if (!ofZoneShape.test(child.name)) doubts.push(`${child.name} of its definition is not used`);
    for (const child of childrenBeside(childNamed(definition, "Tolerance"), known.tolerance))
      doubts.push(`${child.name} of its tolerance is not used`);
    this.tellUnused(nominal, [...known.nominal, ...ofDirection]);
    this.tellUnused(item, [...known.item, ...ofDirection]);
    return {
      at: `line ${item.line}`,
      name: nameOfItem(item),
      kind,
      of: names[0] ?? "",
      from: isOfTwo(kind) ? (names[1] ?? "") : "",
      axis: direction,
      datums: demand.datums,
      ...tolerance,
      doubts,
    };
  }

  /** What is demanded, or why a setup does not judge that. */
  private readDemand(
    word: string,
    definition: XmlNode,
  ): { readonly kind: ReadCharacteristic["kind"]; readonly datums: string; readonly doubts: readonly string[] } | string {
    const kind = characteristicKind(word);
    if (kind === undefined || kind === "angle") return `a setup has no characteristic of kind ${word}`;
    const doubts: string[] = [];
    const shape = zoneShapeOf(definition);
    const isForAxis = kind === "position" || kind === "coaxiality";
    if (isForAxis && shape !== undefined && shape !== "round")
      return `its zone is no cylinder (${shape}), and a setup judges the diameter of one`;
    if (kind === "position" && shape === undefined) doubts.push("the document does not say that its zone is a cylinder");
    if (kind === "symmetry" && shape === "round") return "its zone is a cylinder, and a setup judges the width of one between planes";
    if ((kind === "parallelism" || kind === "perpendicularity") && shape !== "round")
      doubts.push("its zone lies between planes as far as the document says: for an axis, state the direction, or it counts as a cylinder");
    const condition = childText(definition, "MaterialCondition")
      .toUpperCase()
      .replace(/[^A-Z]/g, "");
    const isMaximum = condition.startsWith("MAXIMUM") || condition === "MMC";
    if (!isMaximum && !["", "NONE", "REGARDLESS", "REGARDLESSOFFEATURESIZE", "RFS"].includes(condition))
      return `it holds at a material condition that a setup does not judge (${condition.slice(0, 20).toLowerCase()})`;
    if (isMaximum && kind !== "position") doubts.push("it holds at maximum material, whose bonus is not counted");
    const frameId = childText(definition, "DatumReferenceFrameId");
    const atCondition = isMaximum && kind === "position" ? "position at maximum material" : kind;
    if (frameId === "") return { kind: atCondition, datums: "", doubts };
    const frame = this.frames.get(frameId);
    const label = typeof frame === "object" ? childText(frame, "Name") : "";
    doubts.push(`it goes by the datum reference frame "${label || frameId}" of the document, whose datums are for you to compare`);
    return { kind: atCondition, datums: label, doubts };
  }

  private readTolerance(
    definition: XmlNode,
    isZone: boolean,
    target: TypedLength | string | undefined,
  ): Pick<ReadCharacteristic, "unit" | "nominal" | "tolerance"> | string {
    if (typeof target === "string") return `its nominal ${target}`;
    const tolerance = childNamed(definition, "Tolerance");
    const [zone, upper, lower] = [
      this.length(childNamed(definition, "ToleranceValue") ?? childNamed(tolerance, "ToleranceValue")),
      this.length(childNamed(tolerance, "MaxValue")),
      this.length(childNamed(tolerance, "MinValue")),
    ];
    for (const length of isZone ? [zone] : [upper, lower]) if (typeof length === "string") return `its tolerance ${length}`;
    const { unit, digits } = inOneUnit(
      isZone ? { target, zone: lengthOrNothing(zone) } : { target, upper: lengthOrNothing(upper), lower: lengthOrNothing(lower) },
      this.units.primary,
    ) as { unit: TypedLength["unit"]; digits: Readonly<Record<"target" | "zone" | "upper" | "lower", string | undefined>> };
    const whole = (of: ReadTolerance) => ({ unit, nominal: digits.target, tolerance: of });
    if (isZone)
      return digits.zone !== undefined && Number(digits.zone) > 0 ? whole({ zone: digits.zone }) : "its tolerance is not there as numbers";
    if (digits.upper === undefined || digits.lower === undefined) return "its tolerance is not there as numbers";
    // Limits of the size itself, or deviations from the nominal.
    switch (booleanOf(childText(tolerance, "DefinedAsLimit"))) {
      case false:
        return whole({ upper: digits.upper, lower: digits.lower });
      case true:
        return digits.target === undefined
          ? "its limits are of the size itself, and the nominal is not there"
          : whole({ upper: difference(digits.upper, digits.target), lower: difference(digits.lower, digits.target) });
      default:
        return "whether its limits are of the size itself or deviations (DefinedAsLimit) is not stated as true or false";
    }
  }

  /** Names of the features that the characteristic belongs to. */
  private featuresOf(item: XmlNode, nominal: XmlNode, doubts: string[]): readonly string[] {
    const idsIn = (node: XmlNode, group: string, one: string) => [
      ...(childNamed(node, group)?.children ?? []).filter(({ name }) => name === "Id").map(({ text }) => text),
      ...node.children.filter(({ name }) => name === one).map(({ text }) => text),
    ];
    const ofItem = idsIn(item, "FeatureItemIds", "FeatureItemId");
    const ids = ofItem.length > 0 ? ofItem : idsIn(nominal, "FeatureNominalIds", "FeatureNominalId");
    return ids.flatMap((id) => {
      const name = this.nameOfFeature(id);
      if (name === undefined) doubts.push(`its feature ${id} is not in the document by one name`);
      return name ?? [];
    });
  }

  private nameOfFeature(id: string): string | undefined {
    const feature = this.features.get(id);
    if (typeof feature !== "object") return undefined;
    const named = childText(feature, "FeatureName", "Name");
    if (named !== "") return named;
    const nominal = this.features.get(childText(feature, "FeatureNominalId"));
    return typeof nominal === "object" ? childText(nominal, "FeatureName", "Name") || undefined : undefined;
  }

  /** The measured value, or why it is left out. */
  private readMeasurement(measurement: XmlNode, part: string): ReadMeasured | string {
    const item = this.items.get(childText(measurement, "CharacteristicItemId"));
    if (item === "twice") return `a measured value of ${part}: the id of its characteristic is there twice`;
    if (item === undefined) return "a measured value that belongs to no characteristic of the document";
    const name = nameOfItem(item);
    const measured = this.length(childNamed(measurement, "Value"));
    if (typeof measured !== "object")
      return `"${name}" of ${part}: no measured value as a number${measured === undefined ? "" : `: it ${measured}`}`;
    const found = this.nominals.get(childText(item, "CharacteristicNominalId"));
    const target = this.length(typeof found === "object" ? childNamed(found, "TargetValue") : undefined);
    const { unit, digits } = inOneUnit({ value: measured, nominal: lengthOrNothing(target) }, this.units.primary);
    this.tellUnused(measurement, known.measurement);
    return { at: `line ${measurement.line}`, part, name, unit, value: digits.value ?? measured.digits, nominal: digits.nominal };
  }

  /** The length that an element states, in its own unit; what is wrong with it; undefined where the element is not there. */
  private length(node: XmlNode | undefined): TypedLength | string | undefined {
    if (node === undefined) return undefined;
    for (const [attribute] of node.attributes)
      if (!ofDisplay.includes(attribute)) this.count(`attribute ${attribute} of ${node.name}`, node.line);
    if (node.attributes.has("angularUnit")) return "is an angle";
    const digits = digitsOf(node.text);
    if (digits === undefined) return `is no number: "${node.text.slice(0, 40)}"`;
    const unit = node.attributes.get("linearUnit");
    return this.units.length(digits, unit) ?? `is in a unit that is not known: "${(unit ?? "").slice(0, 40)}"`;
  }

  private tellUnused(node: XmlNode, names: readonly string[]): void {
    for (const { name, line } of childrenBeside(node, names)) this.count(`${name} of ${node.name}`, line);
  }

  private count(what: string, line: number): void {
    const seen = this.unused.get(what);
    this.unused.set(what, { line: seen?.line ?? line, count: (seen?.count ?? 0) + 1 });
  }

  private leave({ line }: XmlNode, what: string): void {
    this.leftOut.push({ at: `line ${line}`, what });
  }
}

/** Elements by their id; one that several have names none of them. */
class ById {
  private readonly byId = new Map<string, XmlNode | "twice">();

  readonly nodes: readonly XmlNode[];

  constructor(nodes: readonly XmlNode[]) {
    this.nodes = nodes;
    for (const node of nodes) {
      const id = node.attributes.get("id");
      if (id !== undefined) this.byId.set(id, this.byId.has(id) ? "twice" : node);
    }
  }

  get(id: string): XmlNode | "twice" | undefined {
    return this.byId.get(id);
  }
}

function nameOfItem(item: XmlNode): string {
  return childText(item, "Name") || childText(item, "Description") || `characteristic ${item.attributes.get("id") ?? ""}`.trim();
}

function childrenBeside(node: XmlNode | undefined, names: readonly string[]): readonly XmlNode[] {
  return (node?.children ?? []).filter(({ name }) => !names.includes(name));
}

/** A word for the shape of the zone; undefined where nothing is said of it. */
function zoneShapeOf(definition: XmlNode): string | undefined {
  const about = definition.children.filter(({ name }) => ofZoneShape.test(name));
  if (about.length === 0) return undefined;
  const words = about.flatMap((node) => [node.text, ...descendants(node).flatMap(({ name, text }) => [name, text])]).join(" ");
  return /cylind|diamet|circular/i.test(words) && !/non|planar|spher|parallel/i.test(words)
    ? "round"
    : words.trim().slice(0, 40) || "not told";
}

function descendants(node: XmlNode): XmlNode[] {
  return node.children.flatMap((child) => [child, ...descendants(child)]);
}

/** The axis that one of them states, as a letter or as a direction along it; `other` for one that goes with none. */
function directionOf(nodes: readonly XmlNode[]): Axis | "other" | undefined {
  const [stated] = nodes.flatMap(({ children }) => children).filter(({ name }) => (ofDirection as readonly string[]).includes(name));
  if (stated === undefined) return undefined;
  const letter = axes.find((axis) => axis === stated.text.toUpperCase().replace(/(?:_?AXIS)$/, ""));
  if (letter !== undefined) return letter;
  const numbers = stated.text.split(/\s+/).map((text) => Number(digitsOf(text)));
  const along = axes.find((_, i) => numbers.length === axes.length && numbers.every((number, k) => number === (k === i ? 1 : 0)));
  return along ?? "other";
}

/** XML Schema, part 2, 3.2.2 (from memory): true and 1, false and 0. */
function booleanOf(text: string): boolean | undefined {
  return text === "true" || text === "1" ? true : text === "false" || text === "0" ? false : undefined;
}

function lengthOrNothing(length: TypedLength | string | undefined): TypedLength | undefined {
  return typeof length === "object" ? length : undefined;
}
