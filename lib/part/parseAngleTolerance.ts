import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Radian, radian } from "../base/quantity.ts";
import type { Names } from "../formula/names.ts";
import { type ParsedQuantity, parseAngle } from "../formula/parseQuantity.ts";
import { isProperFraction, numberPair } from "./limitsOfSize.ts";
import type { AngleLimits } from "./part.ts";
import { unitForOneLimit } from "./unitForOneLimit.ts";

/** Beyond it an angle is no small turn any more, radians (5°): deviations are told to first order. */
export const largestTurn = radian((5 * Math.PI) / 180);

/**
 * Permitted deviations of an angle: `±0.1 deg`, `±6 arcmin`, `+0.1 deg -0.05 deg`, `+0.1 0`, or one number both
 * ways. Bare numbers are degrees.
 */
export function parseAngleTolerance(text: string, names?: Names): Outcome<AngleLimits> {
  const trimmed = text.trim();
  const both = /^(?:±|\+\s*\/\s*[-−])\s*(.+)$/u.exec(trimmed);
  const two = /^([-+−]?[^-+−/;]+?)\s*(?:[/;]\s*|\s+(?=[-+−0])|(?=[-+−]))([-+−]?[^-+−/;]+)$/u.exec(trimmed);
  if (!both && two && (/^[-+−]/u.test(trimmed) || Number.parseFloat(trimmed) === 0)) {
    const [first, second] = [two[1] as string, two[2] as string].map((part) => angleOf(part, names));
    if (first?.ok === false) return told(first.problems, text);
    if (second?.ok === false) return told(second.problems, text);
    const [one, other] = [first?.value, second?.value] as [ParsedQuantity<Radian>, ParsedQuantity<Radian>];
    return unitForOneLimit([one, other], "deg", { text, expected: wanted }) ?? ordered(one.value, other.value, text);
  }
  if (!both && /^[-+−]/u.test(trimmed))
    return failure({
      at: "",
      what: "one signed deviation leaves the other limit open",
      expected: wanted,
      got: text,
      remedy: `write ±, or both limits, such as ${trimmed} 0`,
    });
  const pair = both ? undefined : numberPair(trimmed);
  if (pair && !(pair.joint === "quotient" && isProperFraction(pair.first, pair.second)))
    return failure({
      at: "",
      what: "two numbers without signs can be two angles, two deviations or one formula",
      expected: wanted,
      got: text,
      remedy: "write the deviations with their signs, such as +0.1 -0.1",
    });
  const half = angleOf(both?.[1] ?? trimmed, names);
  if (!half.ok) return told(half.problems, text);
  if (!(half.value.value > 0)) return failure({ at: "", what: "a tolerance of no size can never be met", expected: wanted, got: text });
  return ordered(radian(-half.value.value), half.value.value, text);
}

function angleOf(text: string, names: Names | undefined): Outcome<ParsedQuantity<Radian>> {
  const parsed = parseAngle(text, { unit: "deg", names });
  if (!parsed.ok) return parsed;
  if (parsed.value.doubtful !== undefined)
    return failure({ at: "", what: "what is named here is in doubt, and a tolerance is sure", got: text });
  return parsed;
}

function ordered(a: Radian, b: Radian, text: string): Outcome<AngleLimits> {
  if (a === b) return failure({ at: "", what: "the two limits are the same", expected: wanted, got: text });
  if (Math.max(Math.abs(a), Math.abs(b)) > largestTurn)
    return failure({ at: "", what: "this is more than a small turn", expected: "at most 5 deg to either side", got: text });
  return success(a < b ? { lower: a, upper: b } : { lower: b, upper: a });
}

function told(problems: Extract<Outcome<never>, { readonly ok: false }>["problems"], text: string): Outcome<never> {
  return failure(...problems.map((problem) => ({ ...problem, expected: problem.expected ?? wanted, got: text })));
}

const wanted = "deviations such as ±0.1 deg, ±6 arcmin, or +0.1 -0.05; bare numbers are degrees";
