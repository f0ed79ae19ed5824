import { failure, type Outcome, success } from "../base/outcome.ts";
import type { Mm } from "../base/quantity.ts";
import type { Names } from "../formula/names.ts";
import { parseLength, type QuantityOptions } from "../formula/parseQuantity.ts";
import type { Limits } from "./part.ts";

/**
 * Permitted deviations as drawings write them: `±0.05`, `+0.1 -0.02`,
 * `+0.1 / -0.02`, `0 / -0.03`, `+0.021 0`, or one number that is meant both ways.
 * Bare numbers take `unit`.
 */
export function parseTolerance(text: string, unit: "mm" | "inch", names?: Names): Outcome<Limits> {
  const trimmed = text.trim();
  const both = /^(?:±|\+\s*\/\s*[-−])\s*(.+)$/u.exec(trimmed);
  if (both) return symmetric(both[1] as string, { unit, names }, text);
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
    if (first.ok && second.ok) return ordered(first.value.value, second.value.value, text);
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
  return symmetric(trimmed, { unit, names }, text);
}

function symmetric(amount: string, options: QuantityOptions & { readonly unit: "mm" | "inch" }, text: string): Outcome<Limits> {
  const half = parseLength(amount, options);
  if (!half.ok) return failure(...half.problems.map((problem) => ({ ...problem, expected: problem.expected ?? wanted, got: text })));
  if (!(half.value.value >= 0))
    return failure({ at: "", what: "a tolerance that reaches both ways cannot be negative", expected: wanted, got: text });
  return success({ lower: -half.value.value as Mm, upper: half.value.value });
}

function ordered(a: Mm, b: Mm, text: string): Outcome<Limits> {
  if (a === b) return failure({ at: "", what: "the two limits are the same", expected: wanted, got: text });
  return success(a < b ? { lower: a, upper: b } : { lower: b, upper: a });
}

const wanted = "deviations such as ±0.05, +0.1 -0.02, or 0.05 for both ways";
