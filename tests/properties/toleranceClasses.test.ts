import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { limitsOfClass } from "../../lib/part/iso286/limitsOfClass.ts";
import { standardTolerance, toleranceGrades } from "../../lib/part/iso286/standardTolerance.ts";
import { classText, parseToleranceClass, type ToleranceClass } from "../../lib/part/iso286/toleranceClass.ts";
import { parseTolerance } from "../../lib/part/parseTolerance.ts";

const letters = [
  "a",
  "b",
  "c",
  "cd",
  "d",
  "e",
  "ef",
  "f",
  "fg",
  "g",
  "h",
  "j",
  "js",
  "k",
  "m",
  "n",
  "p",
  "r",
  "s",
  "t",
  "u",
  "v",
  "x",
  "y",
  "z",
  "za",
  "zb",
  "zc",
] as const;

const size = fc.double({ min: 0.01, max: 3150, noNaN: true }).map(mm);
const grade = fc.constantFrom(...toleranceGrades);
const toleranceClass = fc.record({ of: fc.constantFrom("hole" as const, "shaft" as const), deviation: fc.constantFrom(...letters), grade });

const micrometres = (value: number) => Number((value * 1000).toFixed(6));

describe("tolerance classes", () => {
  it("limits that are given lie as far apart as the standard tolerance, lower first", () => {
    fc.assert(
      fc.property(size, toleranceClass, (nominal, each) => {
        const limits = limitsOfClass(nominal, each);
        const tolerance = standardTolerance(nominal, each.grade);
        if (!limits.ok) return;
        if (!tolerance.ok) throw new Error("limits without a tolerance");
        expect(micrometres(limits.value.upper) - micrometres(limits.value.lower)).toBeCloseTo(tolerance.value, 9);
      }),
    );
  });

  it("standard tolerances grow with the grade and never shrink with the size", () => {
    const width = (nominal: number, at: number) => {
      const found = standardTolerance(nominal, toleranceGrades[at] as (typeof toleranceGrades)[number]);
      return found.ok ? found.value : undefined;
    };
    fc.assert(
      fc.property(size, size, fc.integer({ min: 0, max: toleranceGrades.length - 2 }), (one, other, at) => {
        const [finer, coarser, larger] = [width(one, at), width(one, at + 1), width(Math.max(one, other), at)];
        if (finer === undefined) return;
        if (coarser !== undefined) expect(coarser).toBeGreaterThan(finer);
        if (larger !== undefined) expect(larger).toBeGreaterThanOrEqual(finer);
      }),
    );
  });

  it("H starts and h ends at nominal; JS and js lie to both sides alike; all others leave nominal on the side of their letter", () => {
    fc.assert(
      fc.property(size, toleranceClass, (nominal, each) => {
        const limits = limitsOfClass(nominal, each);
        if (!limits.ok) return;
        const { lower, upper } = limits.value;
        const [near, far] = each.of === "hole" ? [lower, upper] : [-upper, -lower];
        if (each.deviation === "h") expect(near).toBeCloseTo(0, 12);
        else if (each.deviation === "js") expect(lower).toBeCloseTo(-upper, 12);
        // Away from the metal: holes larger, shafts smaller.
        else if (each.deviation < "h") expect(near).toBeGreaterThan(0);
        else expect(near).toBeLessThanOrEqual(0);
        expect(far).toBeGreaterThan(near);
      }),
    );
  });

  it("a hole of A to H is the shaft of the same letter turned over", () => {
    fc.assert(
      fc.property(size, fc.constantFrom(...letters.filter((letter) => letter <= "h")), grade, (nominal, deviation, at) => {
        const [hole, shaft] = (["hole", "shaft"] as const).map((of) => limitsOfClass(nominal, { of, deviation, grade: at }));
        expect(hole?.ok).toBe(shaft?.ok);
        if (!hole?.ok || !shaft?.ok) return;
        expect(hole.value.lower).toBeCloseTo(-shaft.value.upper, 12);
        expect(hole.value.upper).toBeCloseTo(-shaft.value.lower, 12);
      }),
    );
  });

  it("a later letter never lies further from the metal", () => {
    const plain = letters.filter((letter) => letter !== "j" && letter !== "js");
    fc.assert(
      fc.property(size, fc.integer({ min: 0, max: plain.length - 2 }), fc.constantFrom("4", "5", "6", "7", "8"), (nominal, i, at) => {
        const [one, next] = [plain[i], plain[i + 1]].map((deviation) =>
          limitsOfClass(nominal, { of: "shaft", deviation: deviation as ToleranceClass["deviation"], grade: at as "6" }),
        );
        // m, n, p and r come close where the tables round; never below each other.
        if (one?.ok && next?.ok) expect(micrometres(next.value.lower)).toBeGreaterThanOrEqual(micrometres(one.value.lower));
      }),
    );
  });

  it("the text of a class is read as that class", () => {
    fc.assert(
      fc.property(toleranceClass, (each) => {
        expect(parseToleranceClass(classText(each))).toEqual({ ok: true, value: each });
      }),
    );
  });

  it("a dimension that goes against its axis has the limits of its length turned over", () => {
    fc.assert(
      fc.property(size, toleranceClass, (nominal, each) => {
        const along = parseTolerance(classText(each), "mm", undefined, { nominal, kind: each.of });
        const against = parseTolerance(classText(each), "mm", undefined, { nominal: mm(-nominal), kind: each.of });
        expect(against.ok).toBe(along.ok);
        if (!along.ok || !against.ok) return;
        expect([against.value.lower + along.value.upper, against.value.upper + along.value.lower]).toEqual([0, 0]);
      }),
    );
  });
});
