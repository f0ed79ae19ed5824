import { describe, expect, it } from "vitest";
import { success } from "../../lib/base/outcome.ts";
import { mm } from "../../lib/base/quantity.ts";
import { lengthDimension } from "../../lib/formula/dimension.ts";
import { namesOf } from "../../lib/ledger/namesOf.ts";
import { parseTolerance } from "../../lib/part/parseTolerance.ts";
import { certain, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";

function limits(text: string, unit: "mm" | "inch" = "mm"): readonly [number, number] | undefined {
  const parsed = parseTolerance(text, unit);
  return parsed.ok ? [parsed.value.lower, parsed.value.upper] : undefined;
}

/** What the name `play` stands for. */
const play = (value: Uncertain) => namesOf(new Map([["play", success({ kind: "quantity", value, dimension: lengthDimension } as const)]]));

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

  // Limits of size as drawings write them (ISO 129-1, ASME Y14.5: the two limits one over the other or side by side); 20.05 - 20 = 0.05.
  it.each([
    ["20.05/19.95", 20, -0.05, 0.05],
    ["20.05 / 19.95", 20, -0.05, 0.05],
    ["19.95/20.05 mm", 20, -0.05, 0.05],
    ["20.05 - 19.95", 20, -0.05, 0.05],
    ["20.05-19.95", 20, -0.05, 0.05],
    ["19.95 20.05", 20, -0.05, 0.05],
    ["19.95 to 20.05", 20, -0.05, 0.05],
    ["19.95..20.05", 20, -0.05, 0.05],
    ["19,95; 20,02", 20, -0.05, 0.02],
    ["20.08/20.02", 20, 0.02, 0.08],
    // A length that goes against its axis has its deviations turned over.
    ["20.08/20.02", -20, -0.08, -0.02],
    // 19/20 is no fraction here, although 19 < 20.
    ["19.5/20", 20, -0.5, 0],
    ["3.5 - 2.5", 3, -0.5, 0.5],
  ] as const)("parseTolerance(%j) of %d mm is limits of size", (text, nominal, lower, upper) => {
    const parsed = parseTolerance(text, "mm", undefined, { nominal: mm(nominal), kind: undefined });
    expect(parsed.ok && [parsed.value.lower, parsed.value.upper]).toEqual(near(lower, upper));
  });

  it.each([
    ["20.05/19.95", 50],
    ["20.05 - 19.95", 50],
    ["20.05 -19.95", 50],
    ["20.05-19.95", undefined],
    ["19.95 20.05", undefined],
    ["20.05/19.95", undefined],
    ["0.1 - 0.02", 20],
    ["0.1/0.02", 20],
    // Both ways to read it are possible: +0.6 -0.4, or 0.4 to 0.6.
    ["0.6 -0.4", 0.5],
    // The nominal, typed into the wrong column.
    ["20", 20],
    ["20.05", 20],
    ["±2.5", 20],
    ["+20.05 +19.95", 20],
  ] as const)("parseTolerance(%j) of %s mm is refused, with what to write", (text, nominal) => {
    const parsed = parseTolerance(text, "mm", undefined, nominal === undefined ? undefined : { nominal: mm(nominal), kind: undefined });
    expect(parsed.ok ? parsed.value : parsed.problems[0]?.remedy).toMatch(/^(write|state) the deviations|^state deviations/);
  });

  it("parseTolerance(what is meant, with its unit) believes a wide tolerance, and one in proportion without it", () => {
    const of20 = (text: string) => parseTolerance(text, "mm", undefined, { nominal: mm(20), kind: undefined });
    expect(of20("±2.5 mm")).toMatchObject({ ok: true, value: { lower: -2.5, upper: 2.5 } });
    expect(of20("±2")).toMatchObject({ ok: true });
    expect(of20("0.1 -0.02")).toMatchObject({ ok: true, value: { lower: -0.02, upper: 0.1 } });
  });

  it("parseTolerance(1/64 of an inch) stays a fraction beside a nominal that it cannot be a limit of", () => {
    const parsed = parseTolerance("1/64", "inch", undefined, { nominal: mm(50.8), kind: undefined });
    expect(parsed.ok && parsed.value.upper).toBeCloseTo(0.396875, 12);
  });

  it.each(["play", "±play", "±(play / 2)", "+play -0.02"])("parseTolerance(%j) refuses a name that brings a doubt", (text) => {
    const doubtful = play(
      fromSource({
        id: "play",
        label: "play",
        family: "process",
        estimate: 0.05,
        distribution: { shape: "normal", standardDeviation: 0.01 },
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        evidence: { kind: "stated" },
      }),
    );
    const parsed = parseTolerance(text, "mm", doubtful);
    expect(parsed.ok ? parsed.value : parsed.problems[0]?.what).toMatch(/in doubt/);
    const sure = play(certain(0.05));
    expect(parseTolerance(text, "mm", sure).ok).toBe(true);
  });

  it("parseTolerance(play - 0.02) asks whether it is a difference or two deviations", () => {
    const sure = play(certain(0.05));
    expect(parseTolerance("play - 0.02", "mm", sure)).toMatchObject({ ok: false, problems: [{ remedy: expect.stringContaining("±") }] });
  });

  it.each(["", "-0.1", "+0.1", "0.1 0.1", "abc", "+0.1 -"])("parseTolerance(%j) is refused", (text) => {
    expect(limits(text)).toBeUndefined();
  });
});
