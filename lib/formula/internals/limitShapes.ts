import { suggestName } from "../../base/nearestName.ts";
import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { constants } from "../reservedNames.ts";
import type { LimitShape } from "../statement.ts";
import { findUnit } from "../units.ts";
import { type FormulaText, stretchOf } from "./scanFormula.ts";

export type ShapeName = LimitShape["name"];

/** As they are typed and printed; of two words before that of which they end. */
const shapeNames: readonly ShapeName[] = ["rectangular", "triangular", "arcsine", "normal", "curvilinear trapezoidal", "trapezoidal"];

/** What may stand behind the limit of a quantity that has one only. */
const exponential = "exponential";

/** The size of a doubt without the word behind it that says its shape; rectangular where there is no such word. */
export function splitShape(size: FormulaText): Outcome<{ readonly size: FormulaText; readonly shape: ShapeName }> {
  const text = size.text.trimEnd();
  const last = wordBehind(text);
  if (last === undefined) return success({ size, shape: "rectangular" });
  const shape = shapeNames.find((name) => new RegExp(`(?<![\\p{L}\\p{M}\\d_])${name.replace(" ", "\\s+")}$`, "u").test(text));
  const spelled = shape === "curvilinear trapezoidal" ? /curvilinear\s+trapezoidal$/.exec(text)?.[0] : shape;
  if (shape && spelled) return success({ size: stretchOf(size, 0, text.length - spelled.length), shape });
  if (last === exponential)
    return refuseLast(size, last, {
      what: `"${last}" is of a quantity with one limit, of which the expectation is known`,
      remedy: "write the expectation, and behind it the limit: 0.02 mm not below 0 mm",
    });
  return refuseLast(size, last, {
    what: `"${last}" is not understood here`,
    expected: `a unit, or how the values lie between the limits: ${shapeNames.join(", ")}`,
    ...suggestName(last, shapeNames),
  });
}

/** What a quantity cannot be below, without the word behind it that says no more than its mark has said. */
export function withoutExponential(limit: FormulaText): Outcome<FormulaText> {
  const text = limit.text.trimEnd();
  const last = wordBehind(text);
  if (last === undefined) return success(limit);
  if (last === exponential) return success(stretchOf(limit, 0, text.length - last.length));
  const isShape = shapeNames.some((name) => name.endsWith(last));
  return refuseLast(limit, last, {
    what: isShape ? `"${last}" needs two limits, and this quantity has one` : `"${last}" is not understood here`,
    expected: `a unit, or ${exponential}`,
    ...(isShape ? { remedy: `write both limits: from 12.49 mm to 12.52 mm ${last}` } : suggestName(last, [exponential])),
  });
}

/** The word behind a formula that is whole without it: no unit, and no name that an operator stands before. */
function wordBehind(text: string): string | undefined {
  const last = /[\p{L}_]/u.test(text.slice(-1)) ? (/(?<![\p{L}\p{M}\d_])[\p{L}_]+$/u.exec(text)?.[0] ?? "") : "";
  if (last === "" || findUnit(last) || constants.has(last)) return undefined;
  return /(?:^|[-+*/^(,;])$/.test(text.slice(0, -last.length).trimEnd()) ? undefined : last;
}

function refuseLast(size: FormulaText, last: string, problem: Omit<Problem, "at">): Outcome<never> {
  const character = size.characterAt(size.text.trimEnd().length - last.length);
  return failure({ at: "", got: size.typed, ...problem, character });
}
