import { registers } from "../equipment/equipment.ts";

/** A work offset register of the controller. */
export interface OffsetRegister {
  /** `G54` to `G59.3`, and `P10` on. */
  readonly name: string;
  /** The P word that names it in `G10 L2`. */
  readonly number: number;
}

/** Registers beyond the nine of RS274/NGC are numbered on by many controllers, up to some hundreds (common practice, no source). */
export const mostRegisters = 300;

/**
 * The register of a number: 1 to 9 are G54 to G59.3 (RS274/NGC, NISTIR 6556, 3.5.5); further ones are P10 on, which RS274/NGC version 3 does not have.
 * Undefined for anything but a whole number from 1 to `mostRegisters`.
 */
export function registerOf(number: number): OffsetRegister | undefined {
  if (!(Number.isInteger(number) && number >= 1 && number <= mostRegisters)) return undefined;
  return { name: registers[number - 1] ?? `P${number}`, number };
}

/** The register that a text names, in either case: `G54`, `g59.1`, `P7`, `P 12`; undefined where there is none. */
export function readRegister(text: string): OffsetRegister | undefined {
  const name = text.replace(/\s/gu, "").toUpperCase();
  const place = (registers as readonly string[]).indexOf(name);
  if (place >= 0) return registerOf(place + 1);
  const numbered = /^P(\d{1,4})$/u.exec(name);
  return numbered ? registerOf(Number(numbered[1])) : undefined;
}

/** What `readRegister` takes, in words. */
export const registerWords = `G54 to G59, G59.1 to G59.3, or P10 to P${mostRegisters}`;
