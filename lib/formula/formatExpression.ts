import type { Expression } from "./expression.ts";

/**
 * A formula as text that means the same when it is parsed again: one blank
 * round operators, no more brackets than needed to be read by a person.
 */
export function formatExpression(expression: Expression): string {
  switch (expression.kind) {
    case "number":
      return expression.unit ? `${expression.text} ${expression.unit.symbol}` : expression.text;
    case "name":
      return expression.name;
    case "negate":
      return `-${inBrackets(expression.operand, bindsAs(expression.operand) < binding.quantity || expression.operand.kind === "negate")}`;
    case "call":
      return `${expression.function}(${expression.arguments.map(formatExpression).join(", ")})`;
    case "operation": {
      const { operator, left, right } = expression;
      const own = bindsAs(expression);
      const leftText = inBrackets(left, operator === "^" ? bindsAs(left) <= own : bindsAs(left) < own);
      // A unit behind a divisor would take the whole fraction with it: 6 / 2 mm is 3 mm.
      const unitBelow = operator === "/" && right.kind === "number" && right.unit !== undefined;
      const rightText = inBrackets(right, bindsAs(right) <= own || right.kind === "negate" || unitBelow);
      return operator === "^" ? `${leftText}^${rightText}` : `${leftText} ${operator} ${rightText}`;
    }
  }
}

/** The higher, the closer it holds its parts together; as mathjs reads formulas. */
const binding = { sum: 1, product: 2, quantity: 3, negate: 4, power: 5, atom: 6 };

function bindsAs(expression: Expression): number {
  switch (expression.kind) {
    case "number":
      return expression.unit ? binding.quantity : binding.atom;
    case "negate":
      return bindsAs(expression.operand) === binding.quantity ? binding.quantity : binding.negate;
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

function inBrackets(expression: Expression, needed: boolean): string {
  const text = formatExpression(expression);
  return needed ? `(${text})` : text;
}
