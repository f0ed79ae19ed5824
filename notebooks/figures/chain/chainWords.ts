import type { ChainLink, ChainPlace } from "../../../lib/tolerance/dimensionChain.ts";
import type { UnitWriter } from "../displayUnit.ts";
import { toleranceInWords } from "../sketch/toleranceInWords.ts";

/** Gains nearer than this to a common fraction are told as that: a part that lies a little skewed has 0.4999 for a half. */
const nearFraction = 5e-3;
const fractions: readonly (readonly [number, string])[] = [
  [0, "0"],
  [0.25, "1/4"],
  [0.5, "1/2"],
  [0.75, "3/4"],
  [1, "1"],
  [2, "2"],
];

/** How far the deviation moves by one of a size, with its sign: `+1/2`, `−1`, `0`. */
export function gainInWords(gain: number): string {
  const size = Math.abs(gain);
  const common = fractions.find(([value]) => Math.abs(size - value) < nearFraction)?.[1];
  if (common === "0") return "0";
  return `${gain < 0 ? "−" : "+"}${common ?? size.toFixed(2)}`;
}

/** `length 160 ± 0.1: gain +1/2, gives 0.087 mm` */
export function linkInWords({ dimension, gain, amount, knownBy }: ChainLink, writer: UnitWriter): string {
  const { id, nominal, limits } = dimension;
  const size = `${id} ${writer.stated(Math.abs(nominal))}${toleranceInWords(limits, nominal < 0 ? -1 : 1, writer)}`;
  if (knownBy === "touches") return `${size}: told by the touches, gain ${gainInWords(gain)}`;
  const gives = amount === 0 ? "" : `, gives ${amountInWords(amount, writer)}`;
  return `${size}: ${knownBy === "measurement" ? "measured, " : ""}gain ${gainInWords(gain)}${gives}`;
}

/** A standard uncertainty to two digits. */
export function amountInWords(amount: number, writer: UnitWriter): string {
  return `${writer.withUncertainty(0, Math.abs(amount)).uncertainty}${writer.suffix}`;
}

/** An element and what it is there for. */
export function placeInWords({ element, datum, touches, isZero, end }: ChainPlace): string {
  return [
    element,
    ...(datum === "" ? [] : [`datum ${datum}`]),
    ...(touches.length === 0 ? [] : ["touched"]),
    ...(isZero ? ["zero"] : []),
    ...(end === "from" ? ["measured from"] : end === "of" ? ["judged"] : []),
  ].join(", ");
}
