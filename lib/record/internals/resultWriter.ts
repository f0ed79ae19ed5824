import { millimetresPerInch } from "../../base/quantity.ts";
import { formatFixed, formatWithUncertainty } from "../../uncertainty/roundForReport.ts";
import type { ResultWriter } from "../firstOrderInWords.ts";

/** Writes lengths (mm inside) in the reader's unit and angles (radians inside) in degrees. */
export function resultWriter(kind: "mm" | "rad", unit: "mm" | "inch"): ResultWriter {
  const [factor, suffix] = kind === "rad" ? [180 / Math.PI, " degrees"] : unit === "inch" ? [1 / millimetresPerInch, " in"] : [1, " mm"];
  return scaledWriter(factor, suffix);
}

/** Writes values of any unit. @param factor from the unit inside; @param suffix follows a number */
export function scaledWriter(factor: number, suffix: string): ResultWriter {
  return {
    factor,
    suffix,
    withUncertainty: (value, uncertainty) => {
      const { standardUncertainty, decimals } = formatWithUncertainty(value * factor, uncertainty * factor);
      return { uncertainty: standardUncertainty, decimals };
    },
    fixed: (value, decimals) => formatFixed(value * factor, Math.max(0, decimals)),
  };
}
