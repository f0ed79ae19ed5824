import { millimetresPerInch } from "../../base/quantity.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";

type Unit = "mm" | "inch";

/** A length as a sentence tells it: to the display step of its unit. */
export function lengthText(millimetres: number, unit: Unit): string {
  return unit === "inch" ? `${formatFixed(millimetres / millimetresPerInch, 4)} in` : `${formatFixed(millimetres, 3)} mm`;
}

/** A difference with its sign. */
export function signedText(millimetres: number, unit: Unit): string {
  const text = lengthText(millimetres, unit);
  return text.startsWith("-") ? text : `+${text}`;
}

/** A ratio to two decimals, with its sign. */
export function ratioText(ratio: number): string {
  const text = formatFixed(ratio, 2);
  return text.startsWith("-") ? text : `+${text}`;
}

/** Three significant digits. */
export function figureText(value: number): string {
  return String(Number(value.toPrecision(3)));
}
