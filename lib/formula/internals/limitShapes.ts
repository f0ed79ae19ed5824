import { suggestName } from "../../base/nearestName.ts";
import { failure, type Outcome, success } from "../../base/outcome.ts";
import { constants } from "../reservedNames.ts";
import type { LimitShape } from "../statement.ts";
import { findUnit } from "../units.ts";
import { type FormulaText, stretchOf } from "./scanFormula.ts";

export type ShapeName = LimitShape["name"];

/** As they are typed and printed; of two words before that of which they end. */
const shapeNames: readonly ShapeName[] = ["rectangular", "triangular", "arcsine", "normal", "curvilinear trapezoidal", "trapezoidal"];

/** The size of a doubt without the word behind it that says its shape; rectangular where there is no such word. */
export function splitShape(size: FormulaText): Outcome<{ readonly size: FormulaText; readonly shape: ShapeName }> {
  const text = size.text.trimEnd();
  const last = /[\p{L}_]/u.test(text.slice(-1)) ? (/(?<![\p{L}\p{M}\d_])[\p{L}_]+$/u.exec(text)?.[0] ?? "") : "";
  if (last === "" || findUnit(last) || constants.has(last)) return success({ size, shape: "rectangular" });
  const shape = shapeNames.find((name) => new RegExp(`(?<![\\p{L}\\p{M}\\d_])${name.replace(" ", "\\s+")}$`, "u").test(text));
  const spelled = shape === "curvilinear trapezoidal" ? /curvilinear\s+trapezoidal$/.exec(text)?.[0] : shape;
  if (shape && spelled) return success({ size: stretchOf(size, 0, text.length - spelled.length), shape });
  const character = size.characterAt(text.length - last.length);
  const expected = `a unit, or how the values lie between the limits: ${shapeNames.join(", ")}`;
  return failure({
    at: "",
    what: `"${last}" is not understood here`,
    expected,
    got: size.typed,
    ...suggestName(last, shapeNames),
    character,
  });
}
