import { failure, type Outcome, success } from "../base/outcome.ts";
import { coverageFactor } from "../uncertainty/coverage.ts";
import { digitsOf, movedPoint } from "./lengthText.ts";
import type { LeftOut } from "./proposal.ts";
import { childNamed, childText, nodesNamed, type XmlNode } from "./readXml.ts";

/** A certified length with its expanded uncertainty; digits of millimetres. */
export interface CertifiedLength {
  readonly at: string;
  readonly label: string;
  readonly value: string;
  readonly expandedUncertainty: string;
  readonly coverageFactor: string;
  /** U / k, mm. */
  readonly standardUncertainty: number;
  /** As stated, in words: `95 %, normal`; empty where nothing is. */
  readonly coverage: string;
  /** What a person has to see before it is taken. */
  readonly doubts: readonly string[];
}

export interface ReadCertificate {
  readonly lengths: readonly CertifiedLength[];
  readonly leftOut: readonly LeftOut[];
}

/** Powers of ten of millimetres, by the BIPM's names of D-SI. */
const millimetres: Readonly<Record<string, number>> = {
  "\\metre": 3,
  "\\centi\\metre": 1,
  "\\milli\\metre": 0,
  "\\micro\\metre": -3,
  "\\nano\\metre": -6,
};

/**
 * Lengths of a document with quantities of the Digital System of Units (D-SI), a digital calibration certificate for instance: every `si:real` that is a
 * length with an expanded uncertainty and its coverage factor, in the layout of D-SI 1.3 to 2.1 (`expandedUnc`) or of 2.2 on (`measurementUncertaintyUnivariate`);
 * element names from memory. A distribution that is not normal, and a
 * probability that does not go with the coverage factor, ask. Its label, or the name of what it stands in, says what it is. Everything else is told and left out.
 */
export function readDsi(root: XmlNode): Outcome<ReadCertificate> {
  const reals: (readonly [real: XmlNode, label: string])[] = [];
  const leftOut: LeftOut[] = [];
  gather(root, "", reals, leftOut);
  if (reals.length === 0 && leftOut.length === 0)
    return failure({ at: `line ${root.line}`, what: `the document (${root.name}) has no quantity of D-SI`, expected: "si:real elements" });
  const lengths: CertifiedLength[] = [];
  for (const [real, label] of reals) {
    const read = readReal(real, label);
    if (typeof read === "string")
      leftOut.push({ at: `line ${real.line}`, what: `${label === "" ? "a quantity without a name" : label}: ${read}` });
    else lengths.push(read);
  }
  return success({ lengths, leftOut });
}

/** Every quantity with its name: its own label, or the nearest name round it. */
function gather(node: XmlNode, around: string, reals: (readonly [XmlNode, string])[], leftOut: LeftOut[]): void {
  if (/^https:\/\/(?:www\.)?ptb\.de\/si\b/.test(node.namespace)) {
    if (node.name === "real") {
      reals.push([node, childText(node, "label") || around]);
      return;
    }
    if (node.name === "hybrid") {
      // One quantity in several units: it counts once.
      const same = node.children.filter(({ name }) => name === "real");
      const taken = same.find((real) => Object.hasOwn(millimetres, childText(real, "unit"))) ?? same[0];
      if (taken !== undefined) gather(taken, childText(node, "label") || around, reals, leftOut);
      for (const other of node.children)
        if (other !== taken && other.name !== "label")
          leftOut.push({ at: `line ${other.line}`, what: `si:${other.name} ${childText(other, "unit")}: the same quantity again` });
      return;
    }
    if (!["list", "label", "dateTime"].includes(node.name)) {
      leftOut.push({ at: `line ${node.line}`, what: `si:${node.name}: only single real quantities are read` });
      return;
    }
  }
  const own = childNamed(node, "name");
  const name = childText(own, "content") || childText(node, "label") || around;
  for (const child of node.children) if (child !== own) gather(child, name, reals, leftOut);
}

/** The length, or why it is none. */
function readReal(real: XmlNode, label: string): CertifiedLength | string {
  const [unit, value] = [childText(real, "unit"), digitsOf(childText(real, "value"))];
  const power = Object.hasOwn(millimetres, unit) ? millimetres[unit] : undefined;
  if (power === undefined) return `the unit ${unit === "" ? "is missing" : `${unit} is none of length`}`;
  if (value === undefined) return `the value ${childText(real, "value")} is no number`;
  const doubt = childNamed(real, "expandedUnc") ?? nodesNamed(real, "expandedMU")[0];
  if (doubt === undefined) return "it has no expanded uncertainty";
  const expanded = digitsOf(childText(doubt, "uncertainty", "valueExpandedMU"));
  const factor = digitsOf(childText(doubt, "coverageFactor"));
  if (expanded === undefined || factor === undefined || !(Number(expanded) > 0) || !(Number(factor) >= 1))
    return "its expanded uncertainty and coverage factor are not both there as numbers (above 0, and from 1 on)";
  const expandedUncertainty = movedPoint(expanded, power);
  const [probability, distribution] = [childText(doubt, "coverageProbability"), childText(doubt, "distribution")];
  return {
    at: `line ${real.line}`,
    label,
    value: movedPoint(value, power),
    expandedUncertainty,
    coverageFactor: factor,
    standardUncertainty: Number(expandedUncertainty) / Number(factor),
    coverage: [probability === "" ? "" : `coverage probability ${probability}`, distribution].filter(Boolean).join(", "),
    doubts: [
      ...coverageDoubts(Number(factor), probability, distribution),
      ...unreadIn(doubt).map((name) => `${name} of its uncertainty is not used`),
    ],
  };
}

/** How far a rounded coverage factor is from the normal one: 2 from 1.96 for 95 %. */
const ofRounding = 0.03;

/** What the standard uncertainty alone would not tell. */
function coverageDoubts(factor: number, probability: string, distribution: string): string[] {
  const isNormal = ["", "normal", "gaussian", "gauss"].includes(distribution.toLowerCase().replace(/\s*distribution$/, ""));
  if (!isNormal) return [`its distribution is stated as ${distribution.slice(0, 40)}, and it would count as normal`];
  if (probability === "") return [];
  const stated = Number(digitsOf(probability));
  if (!(stated > 0 && stated < 1)) return [`its coverage probability ${probability.slice(0, 40)} is none between 0 and 1`];
  const normal = coverageFactor(stated, Number.POSITIVE_INFINITY);
  if (Math.abs(factor / normal - 1) <= ofRounding) return [];
  const why =
    factor > normal ? "few degrees of freedom, which are not taken, or another distribution" : "another distribution, or a mistake";
  return [`k ${factor} for a coverage probability of ${probability} means ${why}: of a normal one it is ${normal.toFixed(2)}`];
}

const readOfDoubt: readonly string[] = ["uncertainty", "valueExpandedMU", "coverageFactor", "coverageProbability", "distribution"];

function unreadIn(doubt: XmlNode): string[] {
  return doubt.children.filter(({ name }) => !readOfDoubt.includes(name)).map(({ name }) => name);
}
