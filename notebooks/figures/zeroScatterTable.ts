import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { foundZero } from "./scatter/foundZero.ts";
import type { ZeroScatterOptions } from "./zeroScatter.ts";

/** The table behind `zeroScatter`: zero, typed offset and the ellipses' axes. */
export function zeroScatterTable(evaluation: SetupEvaluation, strategyId: string, { unit }: Pick<ZeroScatterOptions, "unit">): FigureTable {
  const writer = writerOf(unit);
  const head = { caption: `Where the zero of ${strategyId} may be in X and Y`, columns: ["what", "X", "Y"] };
  const found = foundZero(evaluation, strategyId);
  if (typeof found === "string") return { ...head, rows: [["zero", `not known: ${found}`, ""]] };
  const { x, y, typed, ellipses } = found;
  const [ux, uy] = [writer.withUncertainty(x.value, x.standardUncertainty), writer.withUncertainty(y.value, y.standardUncertainty)];
  const length = (value: number) => `${writer.withUncertainty(0, value).uncertainty}${writer.suffix}`;
  return {
    ...head,
    rows: [
      ["zero as found", `${ux.value}${writer.suffix}`, `${uy.value}${writer.suffix}`],
      ["standard uncertainty", `${ux.uncertainty}${writer.suffix}`, `${uy.uncertainty}${writer.suffix}`],
      ...(typed === undefined
        ? []
        : [
            [
              "typed less found",
              writer.signed(typed[0], ux.decimals) + writer.suffix,
              writer.signed(typed[1], uy.decimals) + writer.suffix,
            ],
          ]),
      ...ellipses.map(({ name, ellipse }) => [
        `${name} ellipse, half axes at ${((ellipse.angle * 180) / Math.PI).toFixed(1).replace("-", "−")}° from X`,
        length(ellipse.major),
        length(ellipse.minor),
      ]),
      ["correlation", (ellipses[0]?.ellipse.correlation ?? 0).toFixed(2).replace("-", "−"), ""],
    ],
  };
}
