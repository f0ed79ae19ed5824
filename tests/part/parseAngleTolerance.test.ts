import { describe, expect, it } from "vitest";
import { parseAngleTolerance } from "../../lib/part/parseAngleTolerance.ts";

const degrees = (text: string) => {
  const parsed = parseAngleTolerance(text);
  return parsed.ok ? [parsed.value.lower, parsed.value.upper].map((radians) => (radians * 180) / Math.PI) : parsed.problems[0]?.what;
};
const near = (lower: number, upper: number) => [expect.closeTo(lower, 10), expect.closeTo(upper, 10)];

describe("parseAngleTolerance", () => {
  // 60 minutes of arc are a degree (SI Brochure, table 8).
  it.each([
    ["±6 arcmin", -0.1, 0.1],
    ["+0.1 -0.05", -0.05, 0.1],
    ["+12 arcmin -6 arcmin", -0.1, 0.2],
    ["+12 arcmin 0", 0, 0.2],
  ])("parseAngleTolerance(%j) reaches from %d to %d degrees", (text, lower, upper) => {
    expect(degrees(text)).toEqual(near(lower, upper));
  });

  it("parseAngleTolerance(+2 -1 arcmin) asks for which limits the unit is", () => {
    expect(degrees("+2 -1 arcmin")).toMatch(/stands behind one of the two limits/);
  });

  // As a formula 0.1 -0.05 would be one difference, and 2.1/1.9 a ratio near 1.
  it.each(["0.1 -0.05", "2.1/1.9 deg", "2.1 - 1.9", "1.9 2.1"])("parseAngleTolerance(%j) refuses two numbers without signs", (text) => {
    expect(degrees(text)).toMatch(/without signs/);
  });

  it("parseAngleTolerance(1/2 deg) is half a degree both ways", () => {
    expect(degrees("1/2 deg")).toEqual(near(-0.5, 0.5));
  });
});
