import type { UnitWriter } from "../displayUnit.ts";
import type { FoundZero } from "./foundZero.ts";

/** What the map shows, as sentences. */
export function scatterInWords({ x, y, ellipses, typed, step }: FoundZero, writer: UnitWriter): string[] {
  const [ux, uy] = [writer.withUncertainty(x.value, x.standardUncertainty), writer.withUncertainty(y.value, y.standardUncertainty)];
  const correlation = ellipses[0]?.ellipse.correlation ?? 0;
  const together =
    Math.abs(correlation) < 0.005
      ? "X and Y share no doubt."
      : `X and Y share doubt: correlation ${correlation.toFixed(2).replace("-", "−")}.`;
  const finest = Math.max(ux.decimals, uy.decimals);
  return [
    `● zero as found: X ${ux.value} (u ${ux.uncertainty}), Y ${uy.value} (u ${uy.uncertainty})${writer.suffix}. ${together}`,
    ...(typed === undefined
      ? []
      : [
          `× the offset as typed, off by X ${writer.signed(typed[0], finest)}, Y ${writer.signed(typed[1], finest)}${writer.suffix}${step > 0 ? `; thin lines: the register's steps of ${writer.stated(step)}${writer.suffix}` : ""}.`,
        ]),
    "Ellipses hold the true zero with 63 % and 95 %, if both are normal.",
  ];
}
