import type { Estimate } from "../estimate.ts";
import { isBeyondDoubt } from "../estimate.ts";
import type { SlipFacts, WidthFact } from "../slipFacts.ts";
import { judgeEach, type SlipAnswer, type SlipFinding } from "../slipRule.ts";
import { lengthText, ratioText, signedText } from "./words.ts";

/** A difference counts as a whole number of radii within this share of one (common practice, no source). */
export const sameRadii = 0.1;
/** A number of radii can be told from its neighbours when the standard uncertainty is at most this share of one. */
const tellable = 1 / 6;
/** Chance that a clean setup sets off a rule that counts radii; the pattern alone keeps it far lower. */
export const radiiFalseAlarms = 0.001;

/** What a width shows when it is told in radii, by a radius that may be the true one. */
export interface InRadii {
  readonly radius: number;
  readonly radii: number;
  /** `the radius 3.000 mm that was worked with`. */
  readonly by: string;
}

/**
 * Rules 1 to 4 count a width's error in radii: (touched less known) / r, positive when an outside width comes out too large. An inside width turns all
 * signs over. The catalogue's radius stands beside the one that was typed, because the multiples are of the true one.
 */
export function judgeWidths(
  facts: SlipFacts,
  judge: (
    width: WidthFact,
    inRadii: readonly InRadii[],
  ) => { readonly of: InRadii; readonly finding: Omit<SlipFinding, "at" | "evidence" | "beyond"> } | undefined,
): SlipAnswer {
  const usable = facts.widths?.filter(
    ({ radius, difference }) => radius !== undefined && difference.standardUncertainty <= tellable * Math.max(radius, 0.3),
  );
  return judgeEach(
    usable,
    "a width between two faces touched by one tool, known otherwise to within a sixth of a radius,",
    (width, times) => {
      if (!isBeyondDoubt(width.difference, radiiFalseAlarms, times)) return undefined;
      const found = judge(width, widthInRadii(width, facts.unit));
      if (found === undefined) return undefined;
      const { touched, difference, knownBy, name } = width;
      return {
        at: width.at,
        evidence: `the touches find "${name}" ${lengthText(touched, facts.unit)}, ${signedText(difference.value, facts.unit)} beside ${knownBy}: ${ratioText(found.of.radii)} times ${found.of.by}`,
        beyond: beyondDoubt(difference),
        ...found.finding,
      };
    },
  );
}

function widthInRadii({ side, difference, radius, catalogueRadius }: WidthFact, unit: SlipFacts["unit"]): InRadii[] {
  const outwards = side === "outside" ? difference.value : -difference.value;
  const by = (value: number | undefined, words: string): InRadii[] =>
    value === undefined || value === 0
      ? []
      : [{ radius: value, radii: outwards / value, by: `the radius ${lengthText(value, unit)} ${words}` }];
  return [...by(radius, "that was worked with"), ...by(catalogueRadius, "of the catalogue")];
}

/** How far beyond three standard uncertainties. */
export function beyondDoubt({ value, standardUncertainty }: Estimate): number {
  return standardUncertainty === 0 ? Number.POSITIVE_INFINITY : Math.max(1, Math.abs(value) / (3 * standardUncertainty));
}

export function isAbout(radii: number, wanted: number): boolean {
  return Math.abs(radii - wanted) < sameRadii;
}
