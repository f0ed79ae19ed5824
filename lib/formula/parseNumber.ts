import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { normaliseText } from "./normaliseText.ts";

export interface ParsedNumber {
  readonly value: number;
  /** Decimals as typed: 3 for `12.500`, 4 for `1.5e-3`, 0 for `12`. */
  readonly decimals: number;
  /** The number as it was read, with a decimal point and without thousands marks: `-412.607`. */
  readonly understoodAs: string;
}

export interface NumberOptions {
  /** The decimal mark that a person has chosen; without it a doubtful text is asked about, never guessed. */
  readonly decimalMark?: "." | ",";
}

/**
 * The number that a text states, or what is wrong with it.
 *
 * - A sign may lead (`+`, `-`, `−`), and a minus may trail (`412.607-`, as some
 *   displays print it).
 * - A point is the decimal mark. A comma is one where it can be nothing else
 *   (`12,5`, `0,125`, `1234,567`); `12,500` is asked about, unless `decimalMark`
 *   says.
 * - Thousands marks are read where the grouping leaves no other reading
 *   (`1.234,5`, `1,234,567`, `1'234.5`, and no-break or thin blanks). An
 *   ordinary blank is refused: `10 100` can be two numbers or a lost point.
 * - With a decimal comma chosen, a lone point (`412.607`) is refused and not
 *   taken for thousands: machine displays print points.
 * - Refused as well: nothing, words, `NaN`, `Infinity`, hexadecimal, and numbers
 *   so large or so small that a double cannot hold them (`1e999`, `1e-999`).
 *
 * Problems carry the index of the offending character in `text`.
 */
export function parseNumber(text: string, { decimalMark }: NumberOptions = {}): Outcome<ParsedNumber> {
  if (text.length > longestNumber) return failure({ at: "", what: `a number of more than ${longestNumber} characters`, got: text });
  const normalised = normaliseText(text);
  if (!normalised.ok) return normalised;
  const refuse = (problem: Omit<Problem, "at" | "got">): Outcome<never> => {
    const { character } = problem;
    return failure({
      at: "",
      got: text,
      ...problem,
      ...(character !== undefined && { character: normalised.value.characterAt(character) }),
    });
  };

  const parts = splitNumber(normalised.value.text);
  if ("what" in parts) return refuse(parts);
  const marks = findMarks(parts.mantissa, decimalMark);
  if ("what" in marks) return refuse({ ...marks, character: parts.start + (marks.character ?? 0) });

  const [whole = "", fraction = ""] = marks.decimal === undefined ? [parts.mantissa] : parts.mantissa.split(marks.decimal);
  const digits = marks.thousands === undefined ? whole : ungroup(whole, marks.thousands);
  if (digits === undefined || !/^\d*$/.test(fraction) || (fraction === "" && (digits === "" || marks.decimal === ","))) {
    return refuse({ what: `"${parts.mantissa}" is not a number`, expected: "digits with one decimal mark", character: parts.start });
  }

  const size = `${digits.replace(/^0+(?=\d)/, "") || "0"}${fraction && `.${fraction}`}${parts.exponent}`;
  const value = Number(size);
  if (!Number.isFinite(value))
    return refuse({ what: "the number is too large", expected: "at most about 1.8e308", character: parts.start });
  if (value === 0 && /[1-9]/.test(digits + fraction)) {
    return refuse({
      what: "the number is too small to be told from zero",
      expected: "0, or at least about 5e-324",
      character: parts.start,
    });
  }
  const decimals = Math.max(0, fraction.length - Number(parts.exponent.slice(1) || 0));
  // "-0.000" is the number 0.
  return success(
    parts.negative && value !== 0 ? { value: -value, decimals, understoodAs: `-${size}` } : { value, decimals, understoodAs: size },
  );
}

const longestNumber = 400;

type Complaint = Omit<Problem, "at" | "got">;

interface NumberParts {
  readonly negative: boolean;
  /** Digits and marks; not empty. */
  readonly mantissa: string;
  /** Where the mantissa starts in the text. */
  readonly start: number;
  /** `e` with sign and digits, or empty. */
  readonly exponent: string;
}

/** By hand and not by one expression, which would try every way to share out a run of blanks. */
function splitNumber(text: string): NumberParts | Complaint {
  const trimmed = text.trim();
  if (trimmed === "") return { what: "nothing is typed", expected: "a number" };
  const leading = /^[+-]?/.exec(trimmed)?.[0] ?? "";
  const trailing = trimmed.length > 1 && trimmed.endsWith("-") ? "-" : "";
  const body = trimmed.slice(leading.length, trimmed.length - trailing.length).trim();
  const start = body === "" ? text.length : text.indexOf(body, text.indexOf(trimmed) + leading.length);
  const match = /^([\d.,'\u00a0]+)(e[+-]?\d+)?$/i.exec(body);
  if (!match) return body === "" ? { what: "digits are missing", expected: "a number", character: start } : complainAbout(text);
  const [, mantissa = "", exponent = ""] = match;
  if (!/\d/.test(mantissa)) return { what: "digits are missing", expected: "a number", character: start };
  if (leading !== "" && trailing !== "") {
    return { what: "a sign stands before and behind the number", remedy: "leave one of them out", character: text.lastIndexOf("-") };
  }
  return { negative: leading === "-" || trailing === "-", mantissa, start, exponent: exponent.toLowerCase() };
}

function complainAbout(text: string): Complaint {
  const start = text.search(/\S/);
  if (/^[+-]?\s*0[xob]/i.test(text.slice(start)))
    return { what: "hexadecimal, octal and binary numbers are not read", expected: "a decimal number", character: start };
  if (/^[+-]?\s*(nan|inf)/i.test(text.slice(start)))
    return { what: `"${text.trim()}" is no measured value`, expected: "a finite number", character: start };
  const blank = /\d\s+(?=[\d.,])/.exec(text);
  if (blank) {
    const remedy = "remove the blank if it parts thousands; enter two numbers in two places";
    return { what: "a blank stands inside the number", expected: "one number", remedy, character: blank.index + 1 };
  }
  const stranger = text.search(/[^\s\d.,'+-]/);
  const character = stranger === -1 ? start : stranger;
  return {
    what: stranger === -1 ? `"${text.trim()}" is not a number` : `"${text.charAt(stranger)}" does not belong to a number`,
    expected: "a number",
    character,
  };
}

interface Marks {
  readonly decimal?: "." | ",";
  readonly thousands?: string;
}

function findMarks(mantissa: string, chosen: "." | "," | undefined): Marks | Complaint {
  const points = count(mantissa, ".");
  const commas = count(mantissa, ",");
  const grouping = /['\u00a0]/.exec(mantissa)?.[0];
  if (grouping !== undefined) {
    if (points + commas > 1) return { what: "more than one kind of mark parts the thousands", expected: "digits with one decimal mark" };
    const decimal = points === 1 ? "." : commas === 1 ? "," : undefined;
    return checkChoice({ thousands: grouping, ...(decimal && { decimal }) }, chosen);
  }
  if (points > 0 && commas > 0) {
    const pointIsLast = mantissa.lastIndexOf(".") > mantissa.lastIndexOf(",");
    if ((pointIsLast ? points : commas) > 1) return { what: `"${mantissa}" is not a number`, expected: "digits with one decimal mark" };
    return checkChoice(pointIsLast ? { decimal: ".", thousands: "," } : { decimal: ",", thousands: "." }, chosen);
  }
  if (points > 1) return checkThousands({ thousands: "." }, chosen);
  if (commas > 1) return checkThousands({ thousands: "," }, chosen);
  if (points === 1) return checkChoice({ decimal: "." }, chosen);
  if (commas === 1) return loneComma(mantissa, chosen);
  return {};
}

/** `12,500`: a thousands group has one to three digits before it, not starting with 0, and exactly three behind. */
function loneComma(mantissa: string, chosen: "." | "," | undefined): Marks | Complaint {
  const canBeThousands = /^[1-9]\d{0,2},\d{3}$/.test(mantissa);
  if (chosen === ",") return { decimal: "," };
  if (chosen === ".") {
    if (canBeThousands) return { thousands: "," };
    return { what: "the comma is not the decimal mark chosen here", remedy: "write a point", character: mantissa.indexOf(",") };
  }
  if (!canBeThousands) return { decimal: "," };
  const asDecimal = mantissa.replace(",", ".");
  const asThousands = mantissa.replace(",", "");
  return {
    what: `the comma can be a decimal mark (${asDecimal}) or a thousands mark (${asThousands})`,
    expected: "a number with one reading",
    remedy: `write ${asDecimal} or ${asThousands}`,
    character: mantissa.indexOf(","),
  };
}

function checkChoice(marks: Marks, chosen: "." | "," | undefined): Marks | Complaint {
  if (chosen === undefined || marks.decimal === undefined || marks.decimal === chosen) return marks;
  const [used, wanted] = chosen === "," ? ["point", "comma"] : ["comma", "point"];
  return { what: `the ${used} is not the decimal mark chosen here`, remedy: `write a ${wanted}` };
}

function checkThousands(marks: Marks, chosen: "." | "," | undefined): Marks | Complaint {
  if (marks.thousands !== chosen) return marks;
  return { what: "the decimal mark stands more than once", expected: "digits with one decimal mark" };
}

/** The digits of a whole part grouped by three, or undefined where the groups are not thousands. */
function ungroup(whole: string, mark: string): string | undefined {
  const groups = whole.split(mark);
  const sound = groups.length > 1 && groups.every((group, index) => (index === 0 ? /^[1-9]\d{0,2}$/ : /^\d{3}$/).test(group));
  return sound ? groups.join("") : undefined;
}

function count(text: string, sign: string): number {
  return text.split(sign).length - 1;
}
