import { parseAngle, parseLength, parseTemperatureDifference } from "../formula/parseQuantity.ts";
import { parseTolerance } from "../part/parseTolerance.ts";
import { isFormula } from "./parseReadings.ts";
import { scanReadings } from "./scanReadings.ts";

/** What an entry is put in order by. */
export interface EntryRank {
  /** Quantities come before words, and words before nothing; quantities of one kind stand together. */
  readonly group: "length" | "angle" | "temperature" | "words" | "nothing";
  /** In the base unit of its kind; 0 for what is no quantity. */
  readonly value: number;
  readonly text: string;
}

/**
 * The rank of an entry of quantities: a length (`0.5 in`, `6 mm / 2`, a bare number in `unit`), an angle, a difference of
 * temperatures, the first of several readings, the upper limit of a tolerance; else words.
 */
export function rankQuantity(text: string, unit: "mm" | "inch"): EntryRank {
  if (text.trim() === "") return { group: "nothing", value: 0, text };
  // Of several readings the first; as a formula they would be one difference.
  const readings = isFormula(text) ? undefined : scanReadings(text, { unit });
  const [first] = readings?.ok ? readings.value : [];
  if (first !== undefined) return { group: "length", value: first.quantity.value, text };
  const length = parseLength(text, { unit });
  if (length.ok) return { group: "length", value: length.value.value, text };
  const angle = parseAngle(text, { unit: "deg" });
  if (angle.ok) return { group: "angle", value: angle.value.value, text };
  const difference = parseTemperatureDifference(text);
  if (difference.ok) return { group: "temperature", value: difference.value.value, text };
  const tolerance = parseTolerance(text, unit);
  return tolerance.ok ? { group: "length", value: tolerance.value.upper, text } : rankWords(text);
}

/** The rank of a name, a note, or a choice. */
export function rankWords(text: string): EntryRank {
  return { group: text.trim() === "" ? "nothing" : "words", value: 0, text };
}

/**
 * Less than 0 where the first comes before the second. Words go in their natural order (`b2` before `b10`), and nothing
 * comes last whichever way quantities and words go.
 */
export function compareRanks(a: EntryRank, b: EntryRank, direction: "ascending" | "descending" = "ascending"): number {
  if (a.group === "nothing" || b.group === "nothing") return Number(a.group === "nothing") - Number(b.group === "nothing");
  const order = groups.indexOf(a.group) - groups.indexOf(b.group) || a.value - b.value || natural.compare(a.text, b.text);
  return direction === "ascending" ? order : -order;
}

const groups: readonly EntryRank["group"][] = ["length", "angle", "temperature", "words"];

/** One language everywhere, so that a document sorts alike on every machine. */
const natural = new Intl.Collator("en", { numeric: true });
