import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import type { Names } from "../formula/names.ts";
import { type ParsedQuantity, parseLength, type QuantityOptions } from "../formula/parseQuantity.ts";
import { limitsOfClass } from "./iso286/limitsOfClass.ts";
import { classText, isClassText, parseToleranceClass } from "./iso286/toleranceClass.ts";
import { isPlausibleDeviation, limitsOfSize, numberPair } from "./limitsOfSize.ts";
import type { Limits } from "./part.ts";
import { sizeText } from "./sizeRange.ts";
import { unitForOneLimit } from "./unitForOneLimit.ts";

/** What a tolerance is of, as far as its class needs it. */
export interface TolerancedSize {
  /** Nominal size, with its sign where it goes along an axis. */
  readonly nominal: Mm;
  /** A hole lies inside metal (bore, slot), a shaft has metal inside (boss, width); undefined where it is neither, as a step. A place is no length. */
  readonly kind: "hole" | "shaft" | "place" | undefined;
}

/**
 * Permitted deviations as drawings write them: `±0.05`, `+0.1 -0.02`,
 * `+0.1 / -0.02`, `0 / -0.03`, `+0.021 0`, one number that is meant both ways,
 * limits of size that lie about the nominal (`20.05/19.95`), or a tolerance
 * class of ISO 286 (`H7`, `js9`). The last two are of the length and turn their
 * sides where the nominal is negative. Bare numbers take `unit`; one that is out
 * of proportion to the nominal is asked about.
 *
 * @param size what is toleranced; without it a class and limits of size are refused
 */
export function parseTolerance(text: string, unit: "mm" | "inch", names?: Names, size?: TolerancedSize): Outcome<Limits> {
  const trimmed = text.trim();
  if (isClassText(trimmed)) return limitsByClass(trimmed, unit, names, size);
  const read = { unit, names, size, text };
  const both = /^(?:±|\+\s*\/\s*[-−])\s*(.+)$/u.exec(trimmed);
  if (both) return symmetric(both[1] as string, read);
  const pair = numberPair(trimmed);
  const limits =
    pair && limitsOfSize(pair, size && { nominal: size.nominal, isPlace: size.kind === "place" }, { text, unit, expected: wanted });
  if (limits) return limits;
  // Two signed numbers need nothing between them: +0.1-0.02 is no subtraction.
  const signed = /^([+−-]\s*[\d.,]+)\s*([+−-]\s*[\d.,]+)$/u.exec(trimmed);
  const two = signed ?? /^(\S+(?:\s?[a-zµμ]+)?)\s*[/;\s]\s*([-+−]?\s*[\d.,]+(?:\s?[a-zµμ]+)?)$/iu.exec(trimmed);
  // Without a sign or a zero, 1/64 is one fraction.
  if (
    two &&
    (two.slice(1).some((part) => /^\s*[+−-]/u.test(part as string)) || two.slice(1).some((part) => Number.parseFloat(part as string) === 0))
  ) {
    const first = parseLength(two[1] as string, { unit, names });
    const second = parseLength(two[2] as string, { unit, names });
    if (first.ok && second.ok) return deviations(two[1] as string, first.value, second.value, read);
  }
  if (/^[+−-]/u.test(trimmed)) {
    return failure({
      at: "",
      what: "one signed deviation leaves the other limit open",
      expected: wanted,
      got: text,
      remedy: `write ±, or both limits, such as ${trimmed} 0`,
    });
  }
  return symmetric(trimmed, read);
}

/** What a tolerance is read with. */
interface Reading extends QuantityOptions {
  readonly unit: "mm" | "inch";
  readonly size: TolerancedSize | undefined;
  readonly text: string;
}

function deviations(
  firstText: string,
  first: ParsedQuantity<Mm>,
  second: ParsedQuantity<Mm>,
  { unit, size, text }: Reading,
): Outcome<Limits> {
  // "play - 0.02" is as likely one difference as two deviations.
  if (/^[^\d.,+−-]/u.test(firstText))
    return failure({
      at: "",
      what: "this can be one difference, or two deviations",
      expected: wanted,
      got: text,
      remedy: `write ±(…) for the difference, or + before ${firstText} for the deviation`,
    });
  return (
    refuseDoubt([first, second], text) ??
    unitForOneLimit([first, second], unit === "inch" ? "in" : "mm", { text, expected: wanted }) ??
    outOfProportion([first, second], size, text) ??
    ordered(first.value, second.value, text)
  );
}

/** A tolerance is sure. */
function refuseDoubt(read: readonly ParsedQuantity<Mm>[], text: string): Outcome<never> | undefined {
  if (read.every(({ doubtful }) => doubtful === undefined)) return undefined;
  return failure({
    at: "",
    what: "what is named here is in doubt, and a tolerance is sure",
    expected: wanted,
    got: text,
    remedy: "put the doubt aside with estimate( ), if that is meant",
  });
}

/** Refuses bare numbers that are more than a tolerance of this size can be; a unit that was typed with them is believed. */
function outOfProportion(read: readonly ParsedQuantity<Mm>[], size: TolerancedSize | undefined, text: string): Outcome<never> | undefined {
  if (size === undefined || size.nominal === 0) return undefined;
  const isBare = ({ typedUnit, decimals }: ParsedQuantity<Mm>) => typedUnit === undefined && decimals !== undefined;
  const tooLarge = read.find((each) => isBare(each) && !isPlausibleDeviation(each.value, size.nominal));
  if (tooLarge === undefined) return undefined;
  const nominal = sizeText(Math.abs(size.nominal));
  return failure({
    at: "",
    what: `a deviation of ${sizeText(tooLarge.value)} is out of proportion to the nominal, ${nominal}`,
    expected: "at most 1 mm, or a tenth of the nominal",
    got: text,
    remedy: "state deviations, not sizes; where this is meant, write the unit behind it",
  });
}

function limitsByClass(text: string, unit: "mm" | "inch", names: Names | undefined, size: TolerancedSize | undefined): Outcome<Limits> {
  const refuse = (what: string, remedy: string) => failure({ at: "", what, expected: wanted, got: text, remedy });
  const parsed = parseToleranceClass(text);
  if (names?.dimensions.get(text) !== undefined || names?.problemOf(text) !== undefined) {
    // What is no class can only be the name.
    if (!parsed.ok) return symmetric(text, { unit, names, size, text });
    return refuse(`"${text}" is a tolerance class, and the name of a quantity here`, `write ±${text} for the quantity, or rename it`);
  }
  if (!parsed.ok) return parsed;
  if (size === undefined || size.kind === "place")
    return refuse("a tolerance class stands for nothing without a nominal size", "state the limits as figures");
  const { of, deviation, grade } = parsed.value;
  if (size.kind !== undefined && size.kind !== of && deviation !== "js") {
    const other = classText({ of: size.kind, deviation, grade });
    return size.kind === "hole"
      ? refuse(`${text} is a class of shafts, and this is a hole: it lies inside metal`, `capital letters are of holes, such as ${other}`)
      : refuse(`${text} is a class of holes, and this is a shaft: it has metal inside`, `small letters are of shafts, such as ${other}`);
  }
  const limits = limitsOfClass(mm(Math.abs(size.nominal)), parsed.value);
  if (!limits.ok || size.nominal >= 0) return limits;
  return success(mirrored(limits.value));
}

/** Deviations of a length as deviations along an axis that it goes against. */
function mirrored({ lower, upper, ...rest }: Limits): Limits {
  return { ...rest, lower: mm(0 - upper), upper: mm(0 - lower) };
}

function symmetric(amount: string, reading: Reading): Outcome<Limits> {
  const { text } = reading;
  const half = parseLength(amount, reading);
  if (!half.ok) return failure(...half.problems.map((problem) => ({ ...problem, expected: problem.expected ?? wanted, got: text })));
  if (!(half.value.value >= 0))
    return failure({ at: "", what: "a tolerance that reaches both ways cannot be negative", expected: wanted, got: text });
  return (
    refuseDoubt([half.value], text) ??
    outOfProportion([half.value], reading.size, text) ??
    success({ lower: -half.value.value as Mm, upper: half.value.value })
  );
}

function ordered(a: Mm, b: Mm, text: string): Outcome<Limits> {
  if (a === b) return failure({ at: "", what: "the two limits are the same", expected: wanted, got: text });
  return success(a < b ? { lower: a, upper: b } : { lower: b, upper: a });
}

const wanted = "deviations such as ±0.05, +0.1 -0.02, or 0.05 for both ways, limits such as 20.05/19.95, or a class such as H7";
