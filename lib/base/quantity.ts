declare const unit: unique symbol;

/** A length or a coordinate, in millimetres. */
export type Mm = number & { readonly [unit]: "mm" };
/** A plane angle, in radians. */
export type Radian = number & { readonly [unit]: "rad" };
/** A temperature difference, in kelvins. */
export type Kelvin = number & { readonly [unit]: "K" };

/** The international inch is exactly 25.4 mm (NIST SP 811, appendix B.8; ISO 31-1). */
export const millimetresPerInch = 25.4;

/** Marks a bare number as millimetres; it converts nothing. */
export function mm(value: number): Mm {
  return value as Mm;
}

/** Marks a bare number as radians; it converts nothing. */
export function radian(value: number): Radian {
  return value as Radian;
}

/** Marks a bare number as kelvins; it converts nothing. */
export function kelvin(value: number): Kelvin {
  return value as Kelvin;
}
