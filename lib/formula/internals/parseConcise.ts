import { suggestName } from "../../base/nearestName.ts";
import { failure, type Outcome, success } from "../../base/outcome.ts";
import type { Expression, NumberExpression } from "../expression.ts";
import { type NumberOptions, type ParsedNumber, parseNumber } from "../parseNumber.ts";
import { findUnit, unitSpellings } from "../units.ts";
import type { FormulaText } from "./scanFormula.ts";

/** A value and its standard uncertainty. */
interface Concise {
  readonly expression: Expression;
  readonly size: Expression;
}

/**
 * `12.500(2) mm`, the uncertainty as a number of last digits, or `12.500(0.002) mm`, the uncertainty in full with as many decimals
 * as the value (JCGM 100:2008, 7.2.2, forms 2 and 3). Undefined where the text is not of this form.
 */
export function parseConcise({ typed, text, characterAt }: FormulaText, options: NumberOptions): Outcome<Concise> | undefined {
  const found = form.exec(text);
  const [, sign, digits, inBrackets, unitWord] = found?.indices ?? [];
  if (!sign || !digits || !inBrackets || !unitWord) return undefined;
  const refuse = (what: string, index: number, details: { expected?: string; remedy?: string } = {}) =>
    failure<never>({ at: "", what, got: typed, character: characterAt(index), ...details });

  const number = parseNumber(text.slice(...digits), options);
  if (!number.ok)
    return failure(
      ...number.problems.map((problem) => ({ ...problem, got: typed, character: characterAt(digits[0] + (problem.character ?? 0)) })),
    );
  const size = sizeOf(text.slice(...inBrackets), number.value, options);
  if (!size) {
    const expected = "digits, counted from the last one of the value, or a number with as many decimals as the value";
    return refuse(`"${text.slice(...inBrackets)}" is no uncertainty of ${number.value.understoodAs}`, inBrackets[0], { expected });
  }
  const word = text.slice(...unitWord);
  const unit = findUnit(word);
  if (word !== "" && !unit) return refuse(`"${word}" is not a unit known here`, unitWord[0], suggestName(word, unitSpellings()));

  const toExpression = ({ value, decimals, understoodAs }: ParsedNumber, index: number): NumberExpression => ({
    kind: "number",
    value,
    decimals,
    text: understoodAs,
    ...(unit && { unit }),
    character: characterAt(index),
  });
  const value = toExpression(number.value, digits[0]);
  const isNegative = text.slice(...sign) === "-";
  return success({
    expression: isNegative ? { kind: "negate", operand: value, character: characterAt(sign[0]) } : value,
    size: toExpression(size, inBrackets[0]),
  });
}

const form = /^\s*([+-]?)\s*([\d.,'\u00a0]*\d)\(([\d.,]*\d)\)\s*([\p{L}]*)\s*$/du;

function sizeOf(text: string, { decimals }: ParsedNumber, options: NumberOptions): ParsedNumber | undefined {
  if (/^\d+$/.test(text)) {
    const padded = text.padStart(decimals + 1, "0");
    const written = decimals === 0 ? padded : `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
    const parsed = parseNumber(written);
    return parsed.ok ? parsed.value : undefined;
  }
  const parsed = parseNumber(text, options);
  return parsed.ok && parsed.value.decimals === decimals ? parsed.value : undefined;
}
