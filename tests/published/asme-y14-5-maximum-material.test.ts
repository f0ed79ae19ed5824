import { expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { bonusOf, virtualCondition } from "../../lib/part/maximumMaterial.ts";

// ASME Y14.5-2009, 7.3.4: a hole at maximum material may be off by the stated zone and by its departure from that size (rule of the standard,
// closed form). A bore of 10.0 to 10.3 with a zone of 0.2.
const bore = { kind: "bore", nominal: 10, limits: { lower: mm(0), upper: mm(0.3) } } as const;

it.each([
  [10.0, 0.2],
  [10.1, 0.3],
  [10.2, 0.4],
  [10.3, 0.5],
])("position-mmc-bonus: a bore of %d may use a zone of %d", (actual, allowed) => {
  expect(0.2 + bonusOf(bore, actual)).toBeCloseTo(allowed, 9);
});

it("position-mmc-bonus: the virtual condition is 9.8", () => {
  expect(virtualCondition(bore, 0.2)).toBeCloseTo(9.8, 9);
});

// The same rule for a shaft, by hand: its maximum material is the largest size, and its boundary lies outside.
it("a boss of 9.7 to 10.0 with a zone of 0.2 may use 0.3 at 9.9, within a boundary of 10.2", () => {
  const boss = { kind: "boss", nominal: 10, limits: { lower: mm(-0.3), upper: mm(0) } } as const;
  expect(0.2 + bonusOf(boss, 9.9)).toBeCloseTo(0.3, 9);
  expect(virtualCondition(boss, 0.2)).toBeCloseTo(10.2, 9);
});
