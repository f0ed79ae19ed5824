import { failure, type Outcome, success } from "../../base/outcome.ts";
import { shaftDeviations } from "./deviationTables.ts";
import { type ToleranceGrade, toleranceGrades } from "./standardTolerance.ts";

/** Fundamental deviations in small letters, as shafts have them; holes have the same in capitals. */
export type Deviation = keyof typeof shaftDeviations | "h" | "j" | "js";

/** A tolerance class of ISO 286-1: where the tolerance lies, and how wide it is. */
export interface ToleranceClass {
  /** Capital letters are of holes (whatever lies inside metal: bores, slots), small ones of shafts (bosses, widths). */
  readonly of: "hole" | "shaft";
  readonly deviation: Deviation;
  readonly grade: ToleranceGrade;
}

/** As drawings write it: `H7`, `js9`. */
export function classText({ of, deviation, grade }: ToleranceClass): string {
  return `${of === "hole" ? deviation.toUpperCase() : deviation}${grade}`;
}

/** Whether a text is meant as a tolerance class, be it one that exists or not: one or two letters and a number, or two such for a fit. */
export function isClassText(text: string): boolean {
  return /^\s*[a-z]{1,2}\s?\d{1,2}(?:\s*[/\s]\s*[a-z]{1,2}\s?\d{1,2})?\s*$/i.test(text);
}

/** The tolerance class that a text states: `H7`, `g6`, `js9`, `ZA 8`. */
export function parseToleranceClass(text: string): Outcome<ToleranceClass> {
  const refuse = (what: string, remedy?: string) => failure({ at: "", what, expected: wanted, got: text, ...(remedy && { remedy }) });
  const trimmed = text.trim();
  if (/\d\s*[/\s]\s*[a-z]/i.test(trimmed))
    return refuse(
      "this is a fit, the classes of two parts",
      "write the class of this part alone: capital letters for its holes, small ones for its shafts",
    );
  const [, letters = "", number = ""] = /^([a-z]{1,2})\s?(\d{1,2})$/i.exec(trimmed) ?? [];
  if (letters === "") return refuse("this is no tolerance class");
  const small = letters.toLowerCase();
  const capital = letters.toUpperCase();
  const deviation = deviations.find((each) => each === small);
  if (deviation === undefined)
    return refuse(`ISO 286 has no fundamental deviation "${letters}"`, "the letters are A to ZC without I, L, O, Q and W, and JS");
  if (letters !== small && letters !== capital)
    return refuse(
      `"${letters}" is neither of a hole nor of a shaft`,
      `write ${capital}${number} for a hole, ${small}${number} for a shaft`,
    );
  const grade = toleranceGrades.find((each) => each === number);
  if (grade === undefined) return refuse(`ISO 286 has no tolerance grade IT${number}`, "the grades are 01, 0, and 1 to 18");
  return success({ of: letters === capital ? "hole" : "shaft", deviation, grade });
}

const deviations: readonly Deviation[] = [...(Object.keys(shaftDeviations) as (keyof typeof shaftDeviations)[]), "h", "j", "js"];

const wanted = "a class such as H7 or g6";
