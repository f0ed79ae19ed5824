import { expect, it } from "vitest";
import { type Heat, programmeFactor } from "../../lib/equipment/heat.ts";

// OpenStax, College Physics (2012), example 13.3: the main span of the bridge is 1275 m of steel, with 12e-6 per kelvin, from -15 to 40 °C
// (seen in part).
it("thermal-openstax-bridge: programmeFactor(the part at either temperature) differs by 0.84 m over 1275 m", () => {
  const known = (value: number) => ({ value, standardUncertainty: 0 });
  const at = (temperature: number): Heat => ({
    part: { temperature: known(temperature), coefficient: known(12e-6) },
    scale: { temperature: known(20), coefficient: known(12e-6) },
    evidence: { kind: "published", note: "OpenStax, College Physics" },
    takenOut: false,
  });
  expect(Math.abs(1275 * (programmeFactor(at(40)) - programmeFactor(at(-15))) - 0.84)).toBeLessThanOrEqual(0.005);
  expect(programmeFactor(at(20))).toBe(1);
});
