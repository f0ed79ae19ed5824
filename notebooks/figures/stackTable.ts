import type { Stack } from "../../lib/tolerance/stack.ts";
import { type DisplayUnit, unitOfStack, writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { stackInWords } from "./stackInWords.ts";

/** The table behind `toleranceStack`: what every source does, at one standard uncertainty and at its limit; largest first. */
export function stackTable(stack: Stack, { title, unit }: { readonly title: string; readonly unit: DisplayUnit }): FigureTable {
  const writer = writerOf(unitOfStack(stack, unit));
  const largest = Math.max(...stack.rows.flatMap(({ amounts }) => amounts.map(Math.abs)), 0);
  const decimals = writer.withUncertainty(0, largest).decimals + 1;
  const unitName = writer.suffix === "" ? "" : `,${writer.suffix}`;
  const components = stack.isRound ? ["X, ", "Y, "] : [""];
  return {
    caption: `How the tolerance is used: ${title}. ${stackInWords(stack, writer).join(" ")}`,
    columns: [
      "source",
      "family",
      ...components.map((name) => `${name}one standard uncertainty${unitName}`),
      ...components.map((name) => `${name}at its limit${unitName}`),
      "limit from",
    ],
    rows: stack.rows.map(({ source, family, amounts, reaches, unlimited }) => [
      source.label,
      family,
      ...amounts.map((amount) => writer.signed(amount, decimals)),
      ...reaches.map((reach) => writer.signed(reach, decimals)),
      unlimited ? "3 standard uncertainties" : source.limit === undefined ? "its own end" : "stated limit",
    ]),
  };
}
