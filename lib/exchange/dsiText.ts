import type { Dimension } from "../formula/dimension.ts";
import { expandedUncertainty } from "../record/expandedUncertainty.ts";
import { supposedText } from "../record/internals/supposedText.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { type Exchanged, exchangedResults } from "./exchangedResults.ts";
import { type XmlElement, xmlText } from "./xmlText.ts";

/** Of the elements of the Digital System of Units; the rules of D-SI and their order are from memory of its guide, versions 1.3 to 2.1. */
const siNamespace = "https://ptb.de/si";

/** A dimension in the library's own units, in BIPM form; `\one` for a number. */
function unitOf({ length, angle, temperature }: Dimension): string {
  const parts = [
    ["\\milli\\metre", length],
    ["\\radian", angle],
    ["\\kelvin", temperature],
  ] as const;
  return parts.map(([unit, power]) => (power === 0 ? "" : power === 1 ? unit : `${unit}\\tothe{${power}}`)).join("") || "\\one";
}

/**
 * Every known result by the strategy in use (see `exchangedResults`) as machine-readable quantities (Digital System of Units, D-SI): a list of real
 * quantities, each with label, value, unit in BIPM form and, where it is in doubt, its expanded uncertainty with coverage factor, coverage probability and
 * distribution. The distribution is that of the coverage factor: Student's t where degrees of freedom are few, normal where they are unlimited. A comment
 * names what is not known; the label of the list says what is only supposed.
 */
export function dsiText(evaluation: Exchanged): string {
  const results = exchangedResults(evaluation);
  const reals = results.flatMap(({ id, dimension, budget }) =>
    dimension && budget.ok ? [realOf(id, unitOf(dimension), budget.value)] : [],
  );
  const unknown = results.flatMap(({ id, budget }) => (budget.ok ? [] : [id]));
  const { title, supposed } = evaluation.setup;
  const label = [...(supposed.length === 0 ? [] : [supposedText(supposed)]), ...(title.trim() === "" ? [] : [title])].join(" ");
  return xmlText(
    {
      name: "si:list",
      attributes: { "xmlns:si": siNamespace },
      children: [...(label === "" ? [] : [{ name: "si:label", children: label }]), ...reals],
    },
    unknown.length === 0 ? undefined : `Not known, and left out: ${unknown.join(", ")}`,
  );
}

function realOf(label: string, unit: string, budget: Budget): XmlElement {
  const { expandedUncertainty: uncertainty, coverageFactor, coverageProbability, degreesOfFreedom } = expandedUncertainty(budget);
  const doubt: XmlElement = {
    name: "si:expandedUnc",
    children: [
      { name: "si:uncertainty", children: String(uncertainty) },
      { name: "si:coverageFactor", children: String(coverageFactor) },
      { name: "si:coverageProbability", children: String(coverageProbability) },
      { name: "si:distribution", children: degreesOfFreedom === Number.POSITIVE_INFINITY ? "normal" : "Student's t" },
    ],
  };
  return {
    name: "si:real",
    children: [
      { name: "si:label", children: label },
      { name: "si:value", children: String(budget.value === 0 ? 0 : budget.value) },
      { name: "si:unit", children: unit },
      ...(uncertainty > 0 ? [doubt] : []),
    ],
  };
}
