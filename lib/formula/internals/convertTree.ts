import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { argumentCounts, type Expression, isFunctionName, type Operator } from "../expression.ts";
import { constants } from "../reservedNames.ts";
import type { Unit } from "../units.ts";
import type { TreeNode } from "./parserOfMathjs.ts";
import { notRead } from "./parseTree.ts";
import type { Token } from "./scanFormula.ts";

/**
 * Our own tree from that of mathjs: five kinds of its nodes are known, anything
 * else is refused. Leaves lead back to the pieces of the text; an operator is
 * the piece before its right side.
 */
export function convertTree(tree: TreeNode, tokens: readonly Token[], text: string): Outcome<Expression> {
  const problems: Problem[] = [];
  const converted = convert(tree, tokens, (problem) => problems.push({ at: "", got: text, ...problem }));
  if (problems.length > 0) return failure(...problems);
  return converted ? success(converted.expression) : failure(notRead(text));
}

/** A part of the tree and the first and last piece that it covers, brackets included. */
interface Converted {
  readonly expression: Expression;
  readonly first: number;
  readonly last: number;
  readonly bracketed?: boolean;
}

type Complain = (problem: Omit<Problem, "at" | "got">) => void;

function convert(node: TreeNode, tokens: readonly Token[], complain: Complain): Converted | undefined {
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

function convertLeaf(node: TreeNode, tokens: readonly Token[]): Converted | undefined {
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

function convertOperator(node: TreeNode, tokens: readonly Token[], complain: Complain): Converted | undefined {
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
function convertWithUnit(left: TreeNode, right: TreeNode, tokens: readonly Token[], complain: Complain): Converted | undefined {
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

function convertCall(node: TreeNode, tokens: readonly Token[], complain: Complain): Converted | undefined {
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
