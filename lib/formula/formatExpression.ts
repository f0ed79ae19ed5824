import { type Expression, isLineFunction } from "./expression.ts";

/** What stands in the place of a name. */
export type NameText = (name: string) => string;

/**
 * A formula as text that means the same when it is parsed again: one blank
 * round operators, no more brackets than needed to be read by a person.
 *
 * @param nameText the name itself unless given; a number with its sign and unit, to put numbers in
 */
export function formatExpression(expression: Expression, nameText: NameText = (name) => name): string {
  const format = (node: Expression): string => formatExpression(node, nameText);
  const inBrackets = (node: Expression, needed: boolean): string => (needed ? `(${format(node)})` : format(node));
  switch (expression.kind) {
    case "number":
      return expression.unit ? `${expression.text} ${expression.unit.symbol}` : expression.text;
    case "name":
      return nameText(expression.name);
    case "negate": {
      const { operand } = expression;
      return `-${inBrackets(operand, bindsAs(operand, nameText) < binding.quantity || isSigned(operand, nameText))}`;
    }
    case "call":
      // With numbers in the place of its columns a line would not show where one of them ends.
      return `${expression.function}(${expression.arguments.map(format).join(isLineFunction(expression.function) ? "; " : ", ")})`;
    case "operation": {
      const { operator, left, right } = expression;
      const own = bindsAs(expression, nameText);
      const leftBinds = bindsAs(left, nameText);
      const rightBinds = bindsAs(right, nameText);
      const leftText = inBrackets(left, operator === "^" ? leftBinds <= own : leftBinds < own);
      // A unit behind a divisor would take the whole fraction with it: 6 / 2 mm is 3 mm.
      const unitBelow = operator === "/" && rightBinds === binding.quantity;
      const rightText = inBrackets(right, rightBinds <= own || right.kind === "negate" || unitBelow);
      return operator === "^" ? `${leftText}^${rightText}` : `${leftText} ${operator} ${rightText}`;
    }
  }
}

/** The higher, the closer it holds its parts together; as mathjs reads formulas. */
const binding = { sum: 1, product: 2, quantity: 3, negate: 4, power: 5, atom: 6 };

function bindsAs(expression: Expression, nameText: NameText): number {
  switch (expression.kind) {
    case "number":
      return expression.unit ? binding.quantity : binding.atom;
    case "name":
      return /^[-\u2212]|\s/.test(nameText(expression.name)) ? binding.quantity : binding.atom;
    case "negate":
      return bindsAs(expression.operand, nameText) === binding.quantity ? binding.quantity : binding.negate;
    case "operation":
      return expression.operator === "^"
        ? binding.power
        : expression.operator === "+" || expression.operator === "-"
          ? binding.sum
          : binding.product;
    default:
      return binding.atom;
  }
}

function isSigned(expression: Expression, nameText: NameText): boolean {
  return expression.kind === "negate" || (expression.kind === "name" && /^[-\u2212]/.test(nameText(expression.name)));
}
