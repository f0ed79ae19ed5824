import { listText } from "../base/listText.ts";
import { describeProblem } from "../base/outcome.ts";
import { parseLength } from "../formula/parseQuantity.ts";
import { figuresIn } from "./internals/figures.ts";
import type { SetupRecord } from "./setupRecord.ts";
import { shortChecksum } from "./shortChecksum.ts";

/** What a person types to see whether a setup still stands as it was recorded. */
export interface ReplayEntries {
  /** At least the first eight digits of the record's checksum, with blanks as it pleases. */
  readonly checksum: string;
  /** What the display shows at the readings that must come again, by their names; empty for those that were not taken. */
  readonly readings: ReadonlyMap<string, string>;
}

/** What a checksum and readings from a record say of a setup: the same inputs or not, and each reading within its limits or not. */
export interface Replay {
  /** Undefined while nothing usable is typed. */
  readonly sameInputs: boolean | undefined;
  /** One for each reading that was typed. */
  readonly readings: readonly { readonly name: string; readonly isWithin: boolean | undefined }[];
  /** The same inputs, and at least three readings, each within its limits. */
  readonly isVerified: boolean;
  /** What is said of it all; the verdict last. */
  readonly sentences: readonly string[];
}

/** What a record is held against. */
export interface Recorded {
  /** SHA-256 of the inputs that the zero stands on, 64 hexadecimal digits. */
  readonly checksum: string;
  /** The same setup by earlier schemes. */
  readonly earlier: readonly { readonly scheme: string; readonly checksum: string }[];
  /** What the setup holds that the checksum does not count, as `2 checks`. */
  readonly beside: readonly string[];
  /** The operation that the readings are of; undefined where there is one alone. */
  readonly operation: string | undefined;
  readonly checks: SetupRecord["checks"];
  readonly unit: "mm" | "inch";
}

/** So many readings verify a setup: one for each axis, as a rule. Common practice, no source. */
const enoughReadings = 3;
/** Digits of a checksum that are enough to know it by: those of its short form. */
const enoughDigits = 8;

/** Compares the short form of a record's checksum, and readings taken now, with what this setup says. Nothing is changed by it. */
export function replaySetup(recorded: Recorded, typed: ReplayEntries): Replay {
  const { checks, unit } = recorded;
  const inputs = compareChecksum(recorded, typed.checksum);
  const figures = figuresIn(unit);
  const names = [...new Set(checks.map(({ name }) => name))];
  const readings = names.flatMap((name): CheckedReading[] => {
    const text = typed.readings.get(name)?.trim() ?? "";
    const check = checks.find((each) => each.name === name);
    if (text === "" || check === undefined) return [];
    const shown = parseLength(text, { unit });
    if (!shown.ok) {
      const words = shown.problems.map((problem) => describeProblem({ ...problem, at: `"${name}"` })).join(" ");
      return [{ name, isWithin: undefined, words }];
    }
    const { value } = shown.value;
    const [lower, upper] = [check.lower, check.upper];
    const limits = `${check.written.lower} to ${check.written.upper} ${figures.unit}`;
    const isWithin = value >= lower && value <= upper;
    const off = figures.uncertainty(Math.max(lower - value, value - upper, 0));
    const words = isWithin
      ? `"${name}" shows ${figures.length(value)} along ${check.axis}, within its limits, ${limits}.`
      : `"${name}" shows ${figures.length(value)} along ${check.axis}, outside of its limits, ${limits}, by ${off}.`;
    return [{ name, isWithin, words }];
  });
  const within = readings.filter(({ isWithin }) => isWithin === true).length;
  const isVerified = inputs.same === true && within === readings.length && within >= enoughReadings;
  return {
    sameInputs: inputs.same,
    readings: readings.map(({ name, isWithin }) => ({ name, isWithin })),
    isVerified,
    sentences: [inputs.words, ...readings.map(({ words }) => words), verdict(inputs.same, readings, isVerified)],
  };
}

interface CheckedReading {
  readonly name: string;
  /** Undefined for what is no reading. */
  readonly isWithin: boolean | undefined;
  readonly words: string;
}

function compareChecksum(
  { checksum: full, earlier, ...recorded }: Recorded,
  text: string,
): { readonly same: boolean | undefined; readonly words: string } {
  const digits = text.replace(/[\s-]/g, "").toLowerCase();
  if (digits === "") return { same: undefined, words: "The record's checksum is not typed yet." };
  if (!/^[0-9a-f]*$/.test(digits) || digits.length < enoughDigits || digits.length > full.length)
    return {
      same: undefined,
      words: `This is no checksum: expected the ${enoughDigits} digits 0 to 9 and a to f of its short form, or all ${full.length}, got "${text.trim().slice(0, 80)}".`,
    };
  if (full.startsWith(digits))
    return { same: true, words: `The inputs are the same as those of the record: ${shortChecksum(full)}.${besideWords(recorded)}` };
  const former = earlier.find(({ checksum }) => checksum.startsWith(digits));
  return former !== undefined
    ? {
        same: true,
        words: `The inputs are the same as those of the record, by its own scheme, "${former.scheme}", which counts every entry: ${shortChecksum(former.checksum)}.`,
      }
    : {
        same: false,
        words: `The inputs are other ones than those of the record: here ${shortChecksum(full)}. Compare the entries, or open the file that the record was made from.`,
      };
}

/** What may have been added since, because the checksum does not count it. */
function besideWords({ beside, operation }: Pick<Recorded, "beside" | "operation">): string {
  const held =
    beside.length === 0
      ? ""
      : ` The checksum does not count ${listText(beside)} that the setup holds besides, because the zero does not stand on them: the record lists those that were there when it was made.`;
  return `${held}${operation === undefined ? "" : ` The readings below are those of operation "${operation}", which is looked at.`}`;
}

function verdict(same: boolean | undefined, readings: readonly { readonly isWithin: boolean | undefined }[], isVerified: boolean): string {
  if (isVerified)
    return `Verified: the same inputs, and ${readings.length} readings within their limits. That is no promise about what was not touched.`;
  if (same === false) return "Not verified: this is another setup than the recorded one.";
  if (readings.some(({ isWithin }) => isWithin === false))
    return "Not verified: a reading disagrees with the record. Touch again before this zero is used.";
  const known = readings.filter(({ isWithin }) => isWithin === true).length;
  if (known < enoughReadings) return `Not verified yet: ${known} of ${enoughReadings} readings within their limits.`;
  return "Not verified yet.";
}
