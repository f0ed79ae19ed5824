import { expect, it } from "vitest";
import { findUnit, toBaseUnit } from "../../lib/formula/units.ts";

// NIST SP 811 (2008), appendix B.8: inch 2.54 E-02 m, mil 2.54 E-05 m, microinch 2.54 E-08 m, foot 3.048 E-01 m, each exact;
// degree 1.745 329 E-02 rad, minute 2.908 882 E-04 rad, second 4.848 137 E-06 rad.
it.each([
  ["in", 0.0254],
  ["mil", 2.54e-5],
  ["thou", 2.54e-5],
  ["uin", 2.54e-8],
  ["ft", 0.3048],
])("units-sp811: one %s is %d m exactly", (spelling, metres) => {
  const found = findUnit(spelling);
  expect(found && (found.numerator * 1e7) / found.denominator).toBe(Math.round(metres * 1e10));
});

it.each([
  ["deg", 0.01745329, 5e-9],
  ["arcmin", 0.0002908882, 5e-11],
  ["arcsec", 4.848137e-6, 5e-13],
])("units-sp811: one %s is %d rad to the digits printed", (spelling, radians, halfLastDigit) => {
  const found = findUnit(spelling);
  expect(Math.abs((found ? toBaseUnit(1, found) : Number.NaN) - radians)).toBeLessThanOrEqual(halfLastDigit);
});

// SI Brochure, 9th edition (2019), table 7: m 10⁻³, µ 10⁻⁶, n 10⁻⁹, c 10⁻²; lengths here in mm, angles in rad (value from memory).
it.each([
  ["nm", 1, 1e6],
  ["um", 1, 1e3],
  ["μm", 1, 1e3],
  ["mm", 1, 1],
  ["cm", 10, 1],
  ["m", 1000, 1],
  ["mrad", 1, 1e3],
  ["urad", 1, 1e6],
  ["mK", 1, 1e3],
  ["degC", 1, 1],
])("one %s is %d / %d of the base unit", (spelling, numerator, denominator) => {
  expect(findUnit(spelling)).toMatchObject({ numerator, denominator });
});
