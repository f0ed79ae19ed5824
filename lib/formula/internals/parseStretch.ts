import { failure, type Outcome, success } from "../../base/outcome.ts";
import type { Expression, NumberExpression } from "../expression.ts";
import type { NumberOptions } from "../parseNumber.ts";
import { convertTree } from "./convertTree.ts";
import { parseTree } from "./parseTree.ts";
import { type FormulaText, scanFormula, type Token } from "./scanFormula.ts";

/** The tree of a formula that is a typed text or a stretch of one (see `parseExpression`). */
export function parseStretch(formula: FormulaText, options: NumberOptions): Outcome<Expression> {
  const tokens = scanFormula(formula, options);
  if (!tokens.ok) return tokens;
  const { typed } = formula;
  if (tokens.value.length === 0) return failure({ at: "", what: "nothing is typed", expected: "a formula", got: typed });
  const number = convertNumber(tokens.value);
  if (number) return success(number);
  const tree = parseTree(tokens.value, formula);
  return tree.ok ? convertTree(tree.value, tokens.value, typed) : tree;
}

/** A number with at most a sign before and a unit behind it, which is what nearly every entry is: nothing has to be found out. */
function convertNumber(tokens: readonly Token[]): Expression | undefined {
  const [first] = tokens;
  const sign = first?.kind === "sign" && (first.text === "-" || first.text === "+") ? first : undefined;
  const [number, unit, ...rest] = sign ? tokens.slice(1) : tokens;
  if (number?.kind !== "number" || (unit !== undefined && unit.kind !== "unit") || rest.length > 0) return undefined;
  const { value, decimals, text, character } = number;
  const expression: NumberExpression = { kind: "number", value, decimals, text, ...(unit && { unit: unit.unit }), character };
  return sign?.text === "-" ? { kind: "negate", operand: expression, character: sign.character } : expression;
}
