import { create, parseDependencies } from "mathjs/number";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { argumentCounts, type Expression, isFunctionName, type Operator } from "./expression.ts";
import type { NumberOptions } from "./parseNumber.ts";
import { constants } from "./reservedNames.ts";
import { scanFormula, type Token } from "./scanFormula.ts";
import type { Unit } from "./units.ts";

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
  const tokens = scanFormula(text, options);
  if (!tokens.ok) return tokens;
  if (tokens.value.length === 0) return failure({ at: "", what: "nothing is typed", expected: "a formula", got: text });
  const tree = parseTree(tokens.value, text);
  if (!tree.ok) return tree;
  const problems: Problem[] = [];
  const converted = convert(tree.value, tokens.value, (problem) => problems.push({ at: "", got: text, ...problem }));
  if (!converted || problems.length > 0) return failure(...(problems.length > 0 ? problems : [notRead(text)]));
  return success(converted.expression);
}

/** What is used of a node of mathjs; its own types allow far more than ever gets here. */
interface Node {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: string;
  readonly op?: string;
  readonly implicit?: boolean;
  readonly content?: Node;
  readonly args?: readonly Node[];
}

/** A part of the tree and the first and last piece that it covers, brackets included. */
interface Converted {
  readonly expression: Expression;
  readonly first: number;
  readonly last: number;
  readonly bracketed?: boolean;
}

type Complain = (problem: Omit<Problem, "at" | "got">) => void;

let parse: ((text: string) => unknown) | undefined;

function parseTree(tokens: readonly Token[], text: string): Outcome<Node> {
  // Made at the first formula: plain numbers, which are nearly all entries, never need it.
  parse ??= create({ ...parseDependencies }).parse;
  const starts: number[] = [];
  let disguised = "";
  for (const [place, token] of tokens.entries()) {
    starts.push(disguised.length);
    disguised += `${token.kind === "sign" ? token.text : token.kind === "number" ? place : `n${place}`} `;
  }
  try {
    return success(parse(disguised) as Node);
  } catch (error) {
    if (!(error instanceof SyntaxError)) return failure(notRead(text));
    // mathjs counts characters from 1, and points at the end where the text ends too early.
    const index = Number((error as SyntaxError & { readonly char?: number }).char) - 1;
    const place = starts.filter((start) => start <= index).length - 1;
    const token = tokens[place];
    const atEnd = !token || index >= disguised.trimEnd().length;
    return failure(
      atEnd ? { ...notRead(text), what: describeEnd(tokens), character: text.length } : misplaced(token, tokens[place - 1], text),
    );
  }
}

function describeEnd(tokens: readonly Token[]): string {
  const last = tokens.at(-1);
  const open =
    tokens.filter((t) => t.kind === "sign" && t.text === "(").length > tokens.filter((t) => t.kind === "sign" && t.text === ")").length;
  const dangling = last?.kind === "sign" && last.text !== ")";
  return dangling ? `something is missing behind "${last.text}"` : open ? "a closing bracket is missing" : "the formula ends too early";
}

function misplaced(token: Token, before: Token | undefined, got: string): Problem {
  const closes = token.kind === "sign" && token.text === ")";
  const what = !closes
    ? `"${token.text}" is not expected here`
    : before?.kind !== "sign" || before.text === ")"
      ? "a bracket is closed that was not opened"
      : before.text === "("
        ? "there is nothing between the brackets"
        : `something is missing behind "${before.text}"`;
  return { at: "", what, got, character: token.character };
}

function notRead(got: string): Problem {
  return { at: "", what: "the formula cannot be read", got };
}

function convert(node: Node, tokens: readonly Token[], complain: Complain): Converted | undefined {
  switch (node.type) {
    case "ConstantNode":
    case "SymbolNode":
      return convertLeaf(node, tokens);
    case "ParenthesisNode": {
      const inside = node.content && convert(node.content, tokens, complain);
      return inside && { expression: inside.expression, first: inside.first - 1, last: inside.last + 1, bracketed: true };
    }
    case "OperatorNode":
      return convertOperator(node, tokens, complain);
    case "FunctionNode":
      return convertCall(node, tokens, complain);
    default:
      return undefined;
  }
}

function convertLeaf(node: Node, tokens: readonly Token[]): Converted | undefined {
  const place = node.type === "ConstantNode" ? Number(node.value) : placeOf(node.name);
  const token = tokens[place];
  if (token?.kind === "number") {
    const { value, decimals, text, character } = token;
    return { expression: { kind: "number", value, decimals, text, character }, first: place, last: place };
  }
  if (token?.kind === "name")
    return { expression: { kind: "name", name: token.text, character: token.character }, first: place, last: place };
  const constant = token?.kind === "constant" ? constants.get(token.text) : undefined;
  if (token === undefined || constant === undefined) return undefined;
  return { expression: { kind: "number", value: constant, text: token.text, character: token.character }, first: place, last: place };
}

function convertOperator(node: Node, tokens: readonly Token[], complain: Complain): Converted | undefined {
  const [left, right] = node.args ?? [];
  if (!left) return undefined;
  if (node.implicit) return right && convertWithUnit(left, right, tokens, complain);
  const a = convert(left, tokens, complain);
  if (!a) return undefined;
  if (!right) {
    const sign = tokens[a.first - 1];
    if (sign === undefined || (node.op !== "-" && node.op !== "+")) return undefined;
    const expression: Expression = node.op === "+" ? a.expression : { kind: "negate", operand: a.expression, character: sign.character };
    return { expression, first: a.first - 1, last: a.last };
  }
  const b = convert(right, tokens, complain);
  const operator = b && tokens[b.first - 1];
  if (!operator || !isOperator(node.op)) return undefined;
  if (node.op === "/" && isBareFraction(b)) {
    complain({
      what: "divided by a fraction with a unit: it is unclear what is divided by what",
      remedy: "put brackets round it",
      character: operator.character,
    });
  }
  return {
    expression: { kind: "operation", operator: node.op, left: a.expression, right: b.expression, character: operator.character },
    first: a.first,
    last: b.last,
  };
}

/** NUMBER UNIT, the only two things that may stand side by side; the number may carry a sign or be a fraction of two numbers. */
function convertWithUnit(left: Node, right: Node, tokens: readonly Token[], complain: Complain): Converted | undefined {
  // `3 mm^2` arrives as 3 times (mm^2).
  const place = placeOf(right.type === "SymbolNode" ? right.name : right.args?.[0]?.name);
  const token = tokens[place];
  const number = convert(left, tokens, complain);
  if (token?.kind !== "unit" || !number) return undefined;
  const { text, character } = token;
  if (right.type !== "SymbolNode") {
    complain({
      what: `it is unclear what the power behind "${text}" raises`,
      remedy: `put brackets round the number and its unit: (3 ${text})^2`,
      character,
    });
    return undefined;
  }
  const expression = number.bracketed ? undefined : withUnit(number.expression, token.unit);
  if (expression) return { expression, first: number.first, last: place };
  if (number.expression.kind === "operation" && number.expression.operator === "/" && !number.bracketed) {
    const what = `it is unclear whether "${text}" belongs to the last number or to the fraction before it`;
    complain({ what, remedy: "put brackets round the number and its unit", character });
    return undefined;
  }
  complain({
    what: `the unit "${text}" must stand directly behind a number`,
    remedy: `write * 1 ${text} if it was meant as a factor`,
    character,
  });
  return undefined;
}

function withUnit(number: Expression, unit: Unit): Expression | undefined {
  if (number.kind === "number") return number.unit ? undefined : { ...number, unit };
  if (number.kind === "negate") {
    const operand = withUnit(number.operand, unit);
    return operand && { ...number, operand };
  }
  return number.kind === "operation" && number.operator === "/" ? fractionWithUnit(number.left, number.right, unit) : undefined;
}

/** Of whole numbers only, as inches are divided: `12.5 / 0.1 in` is more likely a slip than 125 in. */
function fractionWithUnit(above: Expression, below: Expression, unit: Unit): Expression | undefined {
  if (above.kind === "negate") {
    const operand = fractionWithUnit(above.operand, below, unit);
    return operand && { ...above, operand };
  }
  if (above.kind !== "number" || below.kind !== "number" || above.decimals !== 0 || below.decimals !== 0) return undefined;
  const { text, character } = above;
  return { kind: "number", value: above.value / below.value, unit, isFraction: true, text: `${text}/${below.text}`, character };
}

function isBareFraction({ expression, bracketed }: Converted): boolean {
  const number = expression.kind === "negate" ? expression.operand : expression;
  return !bracketed && number.kind === "number" && number.isFraction === true;
}

function convertCall(node: Node, tokens: readonly Token[], complain: Complain): Converted | undefined {
  const place = placeOf(node.name);
  const token = tokens[place];
  const args = (node.args ?? []).map((argument) => convert(argument, tokens, complain));
  if (token?.kind !== "function" || !isFunctionName(token.text) || !args.every((argument) => argument !== undefined)) return undefined;
  const [fewest, most] = argumentCounts[token.text];
  if (args.length < fewest || args.length > most) {
    const expected = fewest === most ? `${fewest}` : `${fewest} or more`;
    complain({
      what: `${token.text} takes ${expected} argument${expected === "1" ? "" : "s"}, not ${args.length}`,
      character: token.character,
    });
  }
  const expression: Expression = {
    kind: "call",
    function: token.text,
    arguments: args.map((argument) => argument.expression),
    character: token.character,
  };
  return { expression, first: place, last: (args.at(-1)?.last ?? place + 1) + 1 };
}

function isOperator(op: string | undefined): op is Operator {
  return op === "+" || op === "-" || op === "*" || op === "/" || op === "^";
}

function placeOf(name: string | undefined): number {
  return Number(name?.slice(1));
}
