import type { Evidence, Source } from "../uncertainty/source.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** Sizes and places on a drawing hold at this temperature, °C (ISO 1:2016, 4). */
export const referenceTemperature = 20;

/** A value with its standard uncertainty. */
export interface Estimate {
  readonly value: number;
  readonly standardUncertainty: number;
}

/** One of the two bodies that expand: temperature in °C, coefficient of linear expansion per kelvin. */
export interface WarmBody {
  readonly temperature: Estimate;
  readonly coefficient: Estimate;
}

/** How warm the part and the machine's scales are while touching and cutting. */
export interface Heat {
  readonly part: WarmBody;
  readonly scale: WarmBody;
  /** What the coefficients rest on. */
  readonly evidence: Evidence;
  /** Whether the programme or the control takes out what is expected, so that only the doubt is left. */
  readonly takenOut: boolean;
}

/**
 * How far a place is off at the reference temperature, per mm of the machine's coordinate: the scale shows less than it moves when it is warm, and the
 * part shrinks when it cools,
 *
 *     α(scale) · (t(scale) - 20 °C) - α(part) · (t(part) - 20 °C)
 *
 * (linear expansion, ISO 1 for the 20 °C; products of both expansions, below a millionth of a length, are left out). One value for all axes and
 * places, so that it acts as a scale about whatever was touched. Its expected part is left out where it is taken out of the work.
 */
export function heatPerLength(heat: Heat | undefined, book: SourceBook): Uncertain {
  if (heat === undefined) return certain(0);
  const rate = strainOf("scale", heat, book).minus(strainOf("part", heat, book));
  return heat.takenOut ? rate.minus(rate.value) : rate;
}

/** The factor by which the programme's coordinates must be multiplied for the part to be right at the reference temperature. */
export function programmeFactor({ part, scale }: Heat): number {
  return 1 + expectedStrain(part) - expectedStrain(scale);
}

function expectedStrain({ temperature, coefficient }: WarmBody): number {
  return coefficient.value * (temperature.value - referenceTemperature);
}

/** The source behind the temperature or the coefficient of one of the two bodies. */
export function sourceOfHeat(
  body: "part" | "scale",
  quantity: "temperature" | "coefficient",
  evidence: Evidence,
): Pick<Source, "id" | "label" | "family" | "evidence"> {
  const owner = body === "part" ? "the part" : "the scales";
  return quantity === "temperature"
    ? { id: `heat, temperature of ${owner}`, label: `temperature of ${owner}`, family: "heat", evidence: { kind: "stated" } }
    : { id: `heat, coefficient of ${owner}`, label: `expansion coefficient of ${owner}`, family: "heat", evidence };
}

function strainOf(body: "part" | "scale", heat: Heat, book: SourceBook): Uncertain {
  const value = (quantity: "temperature" | "coefficient") => {
    const { value: estimate, standardUncertainty } = heat[body][quantity];
    return book.value({
      ...sourceOfHeat(body, quantity, heat.evidence),
      estimate,
      distribution: { shape: "normal", standardDeviation: standardUncertainty },
    });
  };
  return value("coefficient").times(value("temperature").minus(referenceTemperature));
}
