/**
 * The dimension of a quantity as exponents of the three that a setup needs.
 *
 * A plane angle is a dimension of its own here. The SI calls the radian a name
 * for the number one (SI Brochure, 9th edition, table 4), but a formula that
 * adds an angle to a number, or hands bare degrees to a sine, is a slip that
 * can be seen only while the two are told apart.
 */
export interface Dimension {
  readonly length: number;
  readonly angle: number;
  readonly temperature: number;
}

export const dimensionless: Dimension = { length: 0, angle: 0, temperature: 0 };
export const lengthDimension: Dimension = { length: 1, angle: 0, temperature: 0 };
export const angleDimension: Dimension = { length: 0, angle: 1, temperature: 0 };
/** Of a temperature difference: nothing in this library needs the zero of a temperature scale. */
export const temperatureDimension: Dimension = { length: 0, angle: 0, temperature: 1 };

export function multiplyDimensions(a: Dimension, b: Dimension): Dimension {
  return {
    length: withoutRounding(a.length + b.length),
    angle: withoutRounding(a.angle + b.angle),
    temperature: withoutRounding(a.temperature + b.temperature),
  };
}

/** The dimension of a quantity raised to `exponent`, which may be negative or a fraction. */
export function raiseDimension(dimension: Dimension, exponent: number): Dimension {
  return {
    length: scale(dimension.length, exponent),
    angle: scale(dimension.angle, exponent),
    temperature: scale(dimension.temperature, exponent),
  };
}

/**
 * The dimension of a quantity raised to an exponent that a person wrote; undefined where an exponent comes out that is large, or neither
 * whole nor a simple fraction. Such powers mean nothing (0.333 is a slip for 1/3), and without them no two dimensions are so near to each other
 * that `sameDimension` could take one for the other.
 */
export function simplePower(dimension: Dimension, exponent: number): Dimension | undefined {
  const length = simpleExponent(dimension.length * exponent);
  const angle = simpleExponent(dimension.angle * exponent);
  const temperature = simpleExponent(dimension.temperature * exponent);
  return length === undefined || angle === undefined || temperature === undefined ? undefined : { length, angle, temperature };
}

/** The fraction of whole numbers that an exponent is but for a rounding. */
function simpleExponent(exponent: number): number | undefined {
  if (!(Math.abs(exponent) <= largestExponent)) return undefined;
  for (let denominator = 1; denominator <= largestDenominator; denominator++) {
    const numerator = Math.round(exponent * denominator) + 0;
    const isRounding = Math.abs(exponent * denominator - numerator) <= 2 ** -48 * Math.abs(numerator);
    if (isRounding) return numerator / denominator;
  }
  return undefined;
}

const largestExponent = 100;
const largestDenominator = 12;

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return (
    Math.abs(a.length - b.length) < roundingAllowance &&
    Math.abs(a.angle - b.angle) < roundingAllowance &&
    Math.abs(a.temperature - b.temperature) < roundingAllowance
  );
}

/** In words, with its article: `a length`, `an angle`, `a number`, `a length^2 · angle / temperature`. */
export function describeDimension(dimension: Dimension): string {
  const words = nameDimension(dimension);
  return words.startsWith("angle") ? `an ${words}` : `a ${words}`;
}

/** In words: `length`, `number`, `length · angle`, `1 / temperature`. */
export function nameDimension(dimension: Dimension): string {
  const parts = [
    ["length", dimension.length] as const,
    ["angle", dimension.angle] as const,
    ["temperature", dimension.temperature] as const,
  ];
  const above = parts.filter(([, exponent]) => exponent > 0).map(describePower);
  const below = parts.filter(([, exponent]) => exponent < 0).map(([name, exponent]) => describePower([name, -exponent]));
  if (below.length === 0) return above.join(" · ") || "number";
  return `${above.join(" · ") || "1"} / ${below.length > 1 ? `(${below.join(" · ")})` : below[0]}`;
}

/** What to do where two dimensions differ in the angle alone; undefined where they differ otherwise. */
export function remedyForAngle(a: Dimension, b: Dimension): string | undefined {
  const differInAngleAlone = a.angle !== b.angle && sameDimension({ ...a, angle: 0 }, { ...b, angle: 0 });
  return differInAngleAlone ? "an angle becomes a number by sin, cos or tan, or divided by 1 rad" : undefined;
}

/** Exponents such as (1/3) · 3 miss the whole number by a rounding; no sensible formula has exponents this close. */
const roundingAllowance = 1e-9;

function scale(exponent: number, by: number): number {
  return withoutRounding(exponent * by);
}

/** A whole number where only a rounding is missing; 0 · (−1) would be −0, which an equality check of a test or a key tells from 0. */
function withoutRounding(exponent: number): number {
  const whole = Math.round(exponent) + 0;
  return Math.abs(exponent - whole) < roundingAllowance ? whole : exponent;
}

function describePower([name, exponent]: readonly [string, number]): string {
  return exponent === 1 ? name : `${name}^${Number(exponent.toPrecision(3))}`;
}
