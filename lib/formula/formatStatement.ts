import type { Expression } from "./expression.ts";
import { formatExpression, type NameText } from "./formatExpression.ts";
import { inGroups, isRelative, type LimitShape, type StatedDoubt, type Statement } from "./statement.ts";

/** A statement as text that means the same when it is parsed again. */
export function formatStatement({ expression, doubt }: Statement): string {
  return formatParts(expression, doubt, (name) => name);
}

/**
 * A statement with a number, sign and unit in the place of each name, to be read beside the result: `(-398.4655 mm + -238.2548 mm) / 2`.
 *
 * @param numberOf the text of a name's value; of a column its values, parted by commas
 */
export function formulaWithNumbers({ expression, doubt }: Statement, numberOf: NameText): string {
  return formatParts(expression, doubt, numberOf);
}

function formatParts(expression: Expression, doubt: StatedDoubt | undefined, nameText: NameText): string {
  const value = formatExpression(expression, nameText);
  switch (doubt?.kind) {
    case "standard":
      return `${value} ± ${formatExpression(doubt.size, nameText)}${percentOf(doubt)}${formatNotes(doubt)}`;
    case "within":
      return `${value} within ${formatExpression(doubt.halfWidth, nameText)}${percentOf(doubt)}${formatShape(doubt.shape)}`;
    case "limits":
      return `from ${formatExpression(doubt.lower, nameText)} to ${formatExpression(doubt.upper, nameText)}${formatShape(doubt.shape)}`;
    case "notBelow":
      return `${value} not below ${formatExpression(doubt.lowest, nameText)}`;
    case "readings":
      return inGroups(doubt.readings, doubt.groupSizes ?? [doubt.readings.length])
        .map((group) => group.map((reading) => formatExpression(reading)).join("; "))
        .join(" | ");
    default:
      return value;
  }
}

function percentOf(doubt: StatedDoubt): string {
  return isRelative(doubt) ? " %" : "";
}

function formatNotes({ coverageFactor, degreesOfFreedom }: StatedDoubt & { readonly kind: "standard" }): string {
  const factor = coverageFactor === undefined ? "" : ` (k = ${coverageFactor})`;
  return degreesOfFreedom === undefined
    ? factor
    : `${factor} (${degreesOfFreedom} ${degreesOfFreedom === 1 ? "degree" : "degrees"} of freedom)`;
}

function formatShape(shape: LimitShape): string {
  if ("topRatio" in shape) return ` ${shape.name} (top ${shape.topRatio})`;
  return shape.name === "rectangular" ? "" : ` ${shape.name}`;
}
