import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { generalTolerance, generalToleranceOfAngle, generalToleranceOfEdge } from "../../lib/part/generalTolerance.ts";
import { must } from "../acceptance/openDocument.ts";

// ISO 2768-1:1989, table 1: permissible deviations to either side, mm (seen in part; a table, so that agreement proves only that both copies agree).
const ends = [3, 6, 30, 120, 400, 1000, 2000, 4000];

describe("linear dimensions", () => {
  it.each([
    ["f", [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, undefined]],
    ["m", [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2]],
    ["c", [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4]],
    ["v", [undefined, 0.5, 1, 1.5, 2.5, 4, 6, 8]],
  ] as const)("iso2768-linear: class %s: each range ends with its upper bound, and a little more is in the next", (generalClass, table) => {
    const at = (size: number) => {
      const found = generalTolerance(mm(size), generalClass);
      return found.ok ? found.value.upper : undefined;
    };
    expect(ends.map((size) => at(size))).toEqual(table);
    expect(ends.map((size) => at(size + 1e-6))).toEqual([...table.slice(1), undefined]);
    expect(at(0.5)).toBe(table[0]);
    expect(at(0.499)).toBeUndefined();
    expect(at(0)).toBeUndefined();
    expect(at(Number.NaN)).toBeUndefined();
  });

  it("is the same to both sides, and names the standard", () => {
    expect(must(generalTolerance(mm(20), "m"))).toEqual({ lower: -0.2, upper: 0.2, standard: "ISO 2768-m" });
  });

  it("3 inch tenths that come out at 30 mm by a hair too much stay in the range that ends with 30", () => {
    expect(must(generalTolerance(mm(30 + 1e-12), "m")).upper).toBe(0.2);
  });
});

// Table 2 (from memory): broken edges.
it.each([
  ["f", [0.2, 0.5, 1]],
  ["m", [0.2, 0.5, 1]],
  ["c", [0.4, 1, 2]],
  ["v", [0.4, 1, 2]],
] as const)("external radii and chamfers of class %s", (generalClass, table) => {
  expect([3, 6, 6.01].map((size) => must(generalToleranceOfEdge(mm(size), generalClass)).upper)).toEqual(table);
  expect(generalToleranceOfEdge(mm(0.4), generalClass).ok).toBe(false);
});

// Table 3 (from memory): degrees and minutes, by the shorter side of the angle.
it.each([
  ["f", [60, 30, 20, 10, 5]],
  ["m", [60, 30, 20, 10, 5]],
  ["c", [90, 60, 30, 15, 10]],
  ["v", [180, 120, 60, 30, 20]],
] as const)("angles of class %s", (generalClass, minutes) => {
  const found = [10, 50, 120, 400, 401].map((side) => must(generalToleranceOfAngle(mm(side), generalClass)));
  found.forEach((angle, i) => {
    expect((angle * 180 * 60) / Math.PI).toBeCloseTo(minutes[i] as number, 9);
  });
  expect(generalToleranceOfAngle(mm(0), generalClass).ok).toBe(false);
});
