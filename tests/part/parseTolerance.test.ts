import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { parseTolerance } from "../../lib/part/parseTolerance.ts";

function limits(text: string, unit: "mm" | "inch" = "mm"): readonly [number, number] | undefined {
  const parsed = parseTolerance(text, unit);
  return parsed.ok ? [parsed.value.lower, parsed.value.upper] : undefined;
}

const near = (lower: number, upper: number) => [expect.closeTo(lower, 12), expect.closeTo(upper, 12)];

describe("parseTolerance", () => {
  it.each([
    ["±0.05", -0.05, 0.05],
    ["0.05", -0.05, 0.05],
    ["0,05", -0.05, 0.05],
    ["+/-0.05", -0.05, 0.05],
    ["+0.1 -0.02", -0.02, 0.1],
    ["+0,1 -0,02", -0.02, 0.1],
    ["+0.1 / -0.02", -0.02, 0.1],
    ["0 / -0.03", -0.03, 0],
    ["+0.021 0", 0, 0.021],
    ["-0.02 -0.05", -0.05, -0.02],
    ["±5 um", -0.005, 0.005],
  ])("parseTolerance(%j) reaches from %d to %d", (text, lower, upper) => {
    expect(limits(text)).toEqual(near(lower, upper));
  });

  // Read number by number the first would be in the document's unit and the second in the one behind it, which no drawing means.
  it.each([
    ["+0.002 -0.001 in", "mm"],
    ["+0.1 / -0.05 mm", "inch"],
    ["+20 -10 um", "mm"],
    ["+20 um -0.01", "mm"],
  ] as const)("parseTolerance(%j) in a document in %s asks for which limits the unit is", (text, unit) => {
    const parsed = parseTolerance(text, unit);
    expect(parsed.ok ? "" : parsed.problems[0]?.what).toMatch(/stands behind one of the two limits/);
  });

  it("parseTolerance(a unit behind both, behind a zero's other, or the document's own) asks nothing", () => {
    expect(limits("+20 um / -10 um")).toEqual(near(-0.01, 0.02));
    expect(limits("+20 um / 0")).toEqual(near(0, 0.02));
    expect(limits("+0.1 / -0.02 mm")).toEqual(near(-0.02, 0.1));
  });

  // An inch drawing's fraction is one number: 1/64 in = 0.396 875 mm (NIST SP 811: 25.4 mm to the inch).
  it.each(["1/64 in", "1/64", "±1/64 in", "1 / 64"])("parseTolerance(%j, inch) is one fraction, meant both ways", (text) => {
    expect(limits(text, "inch")).toEqual(near(-0.396875, 0.396875));
  });

  // Two deviations set close together, as they are copied off a drawing: never their sum.
  it("parseTolerance(+0.1-0.02) is two deviations, or is refused", () => {
    const found = limits("+0.1-0.02");
    if (found !== undefined) expect(found).toEqual(near(-0.02, 0.1));
  });

  // 25 H7 and 25 f7: ISO 286-2 as printed in handbooks; a class goes by millimetres whatever bare numbers are.
  it.each([
    ["H7", "hole", 0, 0.021],
    [" h 7 ", "shaft", -0.021, 0],
    ["f7", "shaft", -0.041, -0.02],
    ["JS7", "shaft", -0.0105, 0.0105],
    ["f7", undefined, -0.041, -0.02],
  ] as const)("parseTolerance(%j) of a %s of 25 mm reaches from %d to %d", (text, kind, lower, upper) => {
    const parsed = parseTolerance(text, "inch", undefined, { nominal: mm(25), kind });
    expect(parsed.ok && [parsed.value.lower, parsed.value.upper]).toEqual(near(lower, upper));
  });

  it("parseTolerance(H7) without a size is refused", () => {
    expect(parseTolerance("H7", "mm")).toMatchObject({
      ok: false,
      problems: [{ what: "a tolerance class stands for nothing without a nominal size", got: "H7" }],
    });
  });

  it.each(["", "-0.1", "+0.1", "0.1 0.1", "abc", "+0.1 -"])("parseTolerance(%j) is refused", (text) => {
    expect(limits(text)).toBeUndefined();
  });
});
