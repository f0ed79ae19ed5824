import { expect, it } from "vitest";
import { coverageFactor } from "../../lib/uncertainty/coverage.ts";
import { formatWithUncertainty } from "../../lib/uncertainty/roundForReport.ts";

// JCGM 100:2008, 7.2.6: u_c = 10.47 mΩ may be rounded up to 11 mΩ (value from memory, recomputed).
it("gum-7.2.6-round-up: formatWithUncertainty(…, 10.47, {direction: up}) states 11 (JCGM 100, 7.2.6)", () => {
  expect(formatWithUncertainty(0, 10.47, { direction: "up" }).standardUncertainty).toBe("11");
  expect(formatWithUncertainty(0, 10.47).standardUncertainty).toBe("10");
});

// JCGM 100:2008, 7.2.6: u = 28.05 kHz is to be rounded down to 28 kHz (value from memory, recomputed).
it("formatWithUncertainty(…, 28.05) states 28 (JCGM 100, 7.2.6)", () => {
  expect(formatWithUncertainty(0, 28.05).standardUncertainty).toBe("28");
});

// JCGM 100:2008, 7.2.6: y_i = 10.057 62 Ω with u_c = 27 mΩ is rounded to 10.058 Ω (value from memory, recomputed).
it("formatWithUncertainty(10.05762, 0.027) states 10.058 (JCGM 100, 7.2.6)", () => {
  expect(formatWithUncertainty(10.05762, 0.027)).toEqual({ value: "10.058", standardUncertainty: "0.027", decimals: 3 });
});

// JCGM 100:2008, 7.2.2 and 7.2.4: m_S = 100.021 47 g, u_c = 0.35 mg, k = 2.26 for 9 degrees of freedom, U = 0.79 mg
// (value from memory, recomputed).
it("gum-7.2.4-expanded: coverageFactor(0.95, 9) is 2.26; formatWithUncertainty(100.02147 g, 0.35 mg) and its U state 100.02147, 0.00035 and 0.00079 (JCGM 100, 7.2.2, 7.2.4)", () => {
  expect(formatWithUncertainty(100.02147, 0.00035)).toMatchObject({ value: "100.02147", standardUncertainty: "0.00035" });
  const k = coverageFactor(0.95, 9);
  expect(Math.abs(k - 2.26)).toBeLessThanOrEqual(0.005);
  expect(Math.abs(k * 0.35 - 0.79)).toBeLessThanOrEqual(0.005);
  expect(formatWithUncertainty(100.02147, k * 0.00035)).toMatchObject({ value: "100.02147", standardUncertainty: "0.00079" });
});

// JCGM 101:2008, 7.9.2: u = c · 10^l with c of n digits has the numerical tolerance δ = ½ · 10^l; u = 0.000 35 with two digits: δ = 0.000 005,
// with one digit: 0.000 05; u = 2 with one digit: 0.5 (value from memory, recomputed). Decimals kept are −l.
it.each([
  [0.00035, 2, 5e-6],
  [0.00035, 1, 5e-5],
  [2, 1, 0.5],
])(
  "s1-7.9.2-tolerance: formatWithUncertainty(…, %d, {digits: %d}) keeps the decimals of JCGM 101's numerical tolerance %d",
  (standardUncertainty, digits, tolerance) => {
    const { decimals } = formatWithUncertainty(0, standardUncertainty, { digits });
    expect(Math.abs(0.5 * 10 ** -decimals - tolerance)).toBeLessThanOrEqual(1e-12);
  },
);
