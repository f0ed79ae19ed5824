import { blankEntries } from "../document/blankEntries.ts";
import type { SetupDocument, SpacerEntry, ToolEntry } from "../document/setupDocument.ts";
import { nameOf } from "../ledger/cellNames.ts";
import { lengthEntry } from "./lengthText.ts";
import { freeName, type ProposedLine, withDoubt } from "./proposal.ts";
import type { CertifiedLength } from "./readDsi.ts";

/**
 * Certified lengths as sources: where the label has the name of a tool in it, its radius (half a diameter) or its length; of a spacer, its thickness; a block or a setter
 * that is not there yet, a spacer of its own; everything else, such as a ring, a
 * deviation from a nominal, or what is not above 0, a quantity of the ledger. Each gets the standard uncertainty U/k, and
 * the certificate as evidence where the entry has a place for it.
 */
export function proposeCertificates(lengths: readonly CertifiedLength[], document: SetupDocument): readonly ProposedLine[] {
  return lengths.map((length) => {
    const { at, label, value, expandedUncertainty, coverageFactor, coverage, doubts } = length;
    const line = {
      at,
      read: `${label === "" ? "a length" : label}: ${value} mm, U ${expandedUncertainty} mm, k ${coverageFactor}${coverage === "" ? "" : ` (${coverage})`}`,
      ...targetOf(length, document),
    };
    return doubts.reduce(withDoubt, line);
  });
}

/** Words of lengths that are no sizes of a thing: what it is off a nominal, or its form (common practice, no source). */
const ofDeviation =
  /\b(?:deviations?|errors?|departures?|differences?|corrections?|variations?|bias|runout|flatness|roundness|straightness|parallelism|roughness|form)\b|abweichung/i;

/** "Ring for the probe, diameter" is the ring's diameter, whatever touches it, and that of a stem is not what touches. */
const ofOther = /\b(?:rings?|bores?|plugs?|stems?|shanks?|shafts?|holders?)\b/i;

function targetOf(length: CertifiedLength, document: SetupDocument): Pick<ProposedLine, "becomes" | "change"> & { doubt?: string } {
  const { label, value, expandedUncertainty, coverageFactor, standardUncertainty } = length;
  const entry = (digits: string) => lengthEntry({ digits, unit: "mm" }, document.unit);
  const isSize = Number(value) > 0 && !ofDeviation.test(label);
  const tool = !isSize || ofOther.test(label) ? undefined : longestNamed(label, document.tools);
  const isDiameter = /diameter/i.test(label);
  if (tool !== undefined && (isDiameter || /radius/i.test(label))) {
    const share = isDiameter ? 0.5 : 1;
    const [radius, doubt] = [digits(Number(value) * share), digits(standardUncertainty * share)];
    return {
      becomes: `tool "${tool.id}": radius ${radius} mm with standard uncertainty ${doubt} mm, by certificate${isDiameter ? " (half of the diameter)" : ""}${leftOut(tool)}`,
      ...replaced(tool.radius, "a radius"),
      change: (changed) => ({
        ...changed,
        tools: changed.tools.map((each) =>
          each.id === tool.id
            ? { ...withoutCalibration(each), radius: entry(radius), radiusUncertainty: entry(doubt), radiusEvidence: "certificate" }
            : each,
        ),
      }),
    };
  }
  const doubt = digits(standardUncertainty);
  if (tool !== undefined && /length/i.test(label))
    return {
      becomes: `tool "${tool.id}": length ${value} mm with standard uncertainty ${doubt} mm${leftOut(tool)}`,
      ...replaced(tool.length, "a length"),
      change: (changed) => ({
        ...changed,
        tools: changed.tools.map((each) =>
          each.id === tool.id ? { ...withoutCalibration(each), length: entry(value), lengthUncertainty: entry(doubt) } : each,
        ),
      }),
    };
  const thickness = { thickness: entry(value), uncertainty: entry(doubt), evidence: "certificate" } as const;
  const spacer = isSize ? longestNamed(label, document.spacers) : undefined;
  if (spacer !== undefined)
    return {
      becomes: `spacer "${spacer.id}": thickness ${value} mm with standard uncertainty ${doubt} mm, by certificate${leftOut(spacer)}`,
      ...replaced(spacer.thickness, "a thickness"),
      change: (changed) => ({
        ...changed,
        spacers: changed.spacers.map((each) => (each.id === spacer.id ? { ...withoutCalibration(each), ...thickness } : each)),
      }),
    };
  const name = label.trim().slice(0, 70).trim() || "certified length";
  if (isSize && /\b(?:block|setter|spacer|parallel|thickness)\b/i.test(label))
    return {
      becomes: `a new spacer "${name}": thickness ${value} mm with standard uncertainty ${doubt} mm, by certificate`,
      change: (changed) => ({
        ...changed,
        spacers: [...changed.spacers, { ...blankEntries.spacer(freeName(name, changed.spacers)), ...thickness }],
      }),
    };
  const cell = nameOf(name).slice(0, 70);
  const stated = `${value} mm ± ${expandedUncertainty} mm (k = ${coverageFactor})`;
  return {
    becomes: `a quantity ${cell} of the ledger: ${stated}, by certificate`,
    change: (changed) => {
      const taken = changed.ledger.flatMap((block) => ("id" in block ? [{ id: block.id }] : []));
      const id = nameOf(freeName(cell, taken));
      const block = blankEntries.block("cell", id);
      return {
        ...changed,
        ledger: [...changed.ledger, { ...block, entry: stated, evidence: "certificate", family: "contact tool" } as typeof block],
      };
    },
  };
}

type Calibrated = ToolEntry | SpacerEntry;

/** A certified length comes without the name and the days of its certificate, and those that stand in the row are of the figure that goes. */
function withoutCalibration<R extends Calibrated>({
  certificate: _,
  calibrated: __,
  due: ___,
  ...row
}: R): Omit<R, "certificate" | "calibrated" | "due"> {
  return row;
}

function leftOut({ certificate = "", calibrated = "", due = "" }: Calibrated): string {
  return `${certificate}${calibrated}${due}`.trim() === "" ? "" : "; the certificate and the days that are stated there are left out";
}

function replaced(present: string, what: string): { doubt?: string } {
  return present.trim() === "" ? {} : { doubt: `it has ${what} already: ${present.trim()}` };
}

/** The row whose name stands in the label as whole words; the longest where there are several. */
function longestNamed<T extends { readonly id: string }>(label: string, rows: readonly T[]): T | undefined {
  const words = ` ${plainWords(label)} `;
  return rows
    .filter(({ id }) => plainWords(id) !== "" && words.includes(` ${plainWords(id)} `))
    .sort((a, b) => b.id.length - a.id.length)[0];
}

function plainWords(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\d.]+/gu, " ")
    .trim();
}

/** To fifteen digits, which every double holds: 2.9985 is not told as 2.9984999999999999. */
function digits(value: number): string {
  return String(Number(value.toPrecision(15)));
}
