import type { Outcome } from "../base/outcome.ts";
import type { Expression } from "./expression.ts";
import { parseStretch } from "./internals/parseStretch.ts";
import { openFormula } from "./internals/scanFormula.ts";
import type { NumberOptions } from "./parseNumber.ts";

/**
 * The tree of a typed formula: numbers with or without a unit behind them,
 * names of cells, + - * / ^, brackets and the functions of `argumentCounts`.
 *
 * mathjs does the one thing it is needed for, to find which operator binds
 * what, and never sees what a person typed: before it parses, every number is
 * replaced by its place in the list of pieces, every word by a letter and its
 * place. So no text can reach its strings, assignments, matrices, conversions
 * or properties; and every leaf of its tree (whose nodes know no position)
 * leads back to the character it came from. Its binding rules hold: ^ before a
 * leading minus, number and unit before * and /, and a fraction of two numbers
 * before the unit behind it (`1/2 in` is half an inch; whole numbers only).
 */
export function parseExpression(text: string, options: NumberOptions = {}): Outcome<Expression> {
  const formula = openFormula(text);
  return formula.ok ? parseStretch(formula.value, options) : formula;
}
