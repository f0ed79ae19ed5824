import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../lib/document/readSetup.ts";
import { registers } from "../../lib/equipment/equipment.ts";
import { enteredOffset } from "../../lib/offsets/enteredOffset.ts";
import { documentFrom, must } from "../properties/setups.ts";

const machine = (tables: object) =>
  readSetup(documentFrom({ part: { elements: [] }, machine: tables, tools: [], touches: [], strategies: [] })).setup.machine;

const offsets = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -2000, max: 2000, noNaN: true })));
const runs = { numRuns: 300 };

describe("enteredOffset", () => {
  it.each([
    ["mm", "", 3, 1],
    ["inch", "", 4, 25.4],
    ["mm", "2", 2, 1],
    ["inch", "5", 5, 25.4],
  ] as const)(
    "enteredOffset(..., %s, decimals %j): what is typed reads back as the same offset, at most half a last digit off",
    (controllerUnit, decimals, digits, inMm) => {
      fc.assert(
        fc.property(offsets, (zero) => {
          const entered = must(enteredOffset(zero, machine({ controllerUnit, decimals })));
          expect(entered.unit).toBe(controllerUnit);
          entered.digits.forEach(({ text }, i) => {
            expect(text).toMatch(new RegExp(`^-?\\d+\\.\\d{${digits}}$`));
            expect(text).not.toMatch(/^-0\.0*$/);
            expect(Math.abs(Number(text) * inMm - (zero[i] as number))).toBeLessThanOrEqual((0.5 * inMm) / 10 ** digits + 1e-9);
            expect(entered.values[i]?.value).toBeCloseTo(Number(text) * inMm, 12);
          });
          // Typed once more, it does not move again.
          const again = must(
            enteredOffset(
              entered.values.map(({ value }) => value),
              machine({ controllerUnit, decimals }),
            ),
          );
          expect(again.digits).toEqual(entered.digits);
          expect(again.lines).toEqual(entered.lines);
        }),
        runs,
      );
    },
  );

  it("enteredOffset(...) keeps to the register's step where one is stated", () => {
    fc.assert(
      fc.property(offsets, (zero) => {
        const entered = must(enteredOffset(zero, machine({ offsetStep: "0.005" })));
        entered.values.forEach(({ value }, i) => {
          expect(Math.abs(value / 0.005 - Math.round(value / 0.005))).toBeLessThan(1e-6);
          expect(Math.abs(value - (zero[i] as number))).toBeLessThanOrEqual(0.0025 + 1e-9);
        });
      }),
      runs,
    );
  });

  it("enteredOffset(a tie, a negative nothing) is typed without a minus before zero", () => {
    expect(must(enteredOffset([-0.0001, 0, -0], machine({}))).digits.map(({ text }) => text)).toEqual(["0.000", "0.000", "0.000"]);
  });

  it.each(registers.map((register, i) => [register, i + 1] as const))("enteredOffset(..., register %s) says P%d", (register, number) => {
    expect(must(enteredOffset([1, 2, 3], machine({ register }))).lines[1]).toBe(`G10 L2 P${number} X1.000 Y2.000 Z3.000`);
  });

  it("enteredOffset(undetermined axes) names only the others; with none left there is nothing to type", () => {
    const entered = must(enteredOffset([undefined, -2.5, undefined], machine({})));
    expect(entered.lines).toEqual(["G21 G90", "G10 L2 P1 Y-2.500"]);
    expect(entered.digits.map(({ axis }) => axis)).toEqual(["Y"]);
    expect(enteredOffset([undefined, undefined, undefined], machine({})).ok).toBe(false);
  });
});
