import type { Expression } from "../expression.ts";
import type { Unit } from "../units.ts";

/** `number` in `unit`, for a number or a formula of bare numbers. A constant such as pi takes it as a factor, as it would be typed. */
export function withBareUnit(expression: Expression, unit: Unit): Expression {
  if (expression.kind === "number" && expression.decimals !== undefined) return { ...expression, unit };
  if (expression.kind === "negate") return { ...expression, operand: withBareUnit(expression.operand, unit) };
  const { character } = expression;
  return {
    kind: "operation",
    operator: "*",
    left: expression,
    right: { kind: "number", value: 1, decimals: 0, text: "1", unit, character },
    character,
  };
}

/** Where a formula starts in the typed text, but for an opening bracket. */
export function startOf(expression: Expression): number {
  return expression.kind === "operation" ? startOf(expression.left) : expression.character;
}
