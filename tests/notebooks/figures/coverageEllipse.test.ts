import { expect, it } from "vitest";
import { coverageEllipse } from "../../../notebooks/figures/coverageEllipse.ts";
import { budget, contribution } from "./exampleBudget.ts";

// Chi-square of two degrees of freedom at 0.95: 5.991 (any table; closed form -2 ln 0.05).
const radius95 = Math.sqrt(5.991464547107979);

it("coverageEllipse(x, y, 0.95) is a circle of 2.4477 standard uncertainties when X and Y share nothing and are alike", () => {
  const { major, minor, correlation } = coverageEllipse(budget(0, contribution("a", 0.003)), budget(0, contribution("b", 0.003)), 0.95);
  expect(major).toBeCloseTo(0.003 * radius95, 12);
  expect(minor).toBeCloseTo(0.003 * radius95, 12);
  expect(correlation).toBe(0);
});

it("coverageEllipse(x, y, p) lies at 45° with axes √(1 ± ρ) for equal uncertainties and correlation ρ", () => {
  // ρ = 1/2: one of two equal variances is shared.
  const shared = contribution("shared", 1);
  const { major, minor, angle, correlation } = coverageEllipse(
    budget(0, shared, contribution("a", 1)),
    budget(0, shared, contribution("b", 1)),
    0.95,
  );
  expect(correlation).toBeCloseTo(0.5, 12);
  expect(angle).toBeCloseTo(Math.PI / 4, 12);
  expect(major).toBeCloseTo(radius95 * Math.sqrt(3), 12);
  expect(minor).toBeCloseTo(radius95, 12);
});

it("coverageEllipse(x, y, p) turns the other way when a shared source acts with opposite signs", () => {
  const x = budget(0, contribution("shared", 1));
  const y = budget(0, { ...contribution("shared", 1), sensitivity: -1, amount: -1 });
  const { minor, angle, correlation } = coverageEllipse(x, y, 0.95);
  expect([correlation, angle, minor]).toEqual([-1, -Math.PI / 4, 0]);
});

it("coverageEllipse(x, y, p) is a point for exact values, and refuses a probability that is none", () => {
  expect(coverageEllipse(budget(1), budget(2), 0.95)).toEqual({ major: 0, minor: 0, angle: 0, correlation: 0 });
  expect(() => coverageEllipse(budget(1), budget(2), 1)).toThrow("probability: expected above 0 and below 1, got 1");
});
