import { expect, it } from "vitest";
import { readCorrelations } from "../../lib/document/readCorrelations.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import { cell } from "../ledger/blocks.ts";
import { documentFrom } from "../properties/setups.ts";

const ledger = [cell("half_angle", "45 deg"), cell("per_touch", "0.75"), cell("doubtful_angle", "90 deg ± 1 deg"), cell("share", "0.5")];

function read(locator: object, tool: object = {}, more: object = {}) {
  const { setup, problems } = readSetup(
    documentFrom({
      part: { elements: [{ id: "pin", kind: "boss", diameter: "20", datum: "A" }] },
      fixture: { locators: [{ id: "v", kind: "V-block", element: "pin", facing: "+Y", ...locator }] },
      tools: [{ id: "tip", kind: "touch probe", radius: "3", scatter: "0.002", ...tool }],
      touches: [],
      strategies: [],
      ledger,
      ...more,
    }),
  );
  return { setup, told: problems.map(({ at, what }) => `${at}: ${what}`) };
}

// Half a right angle twice, and π/2 rad, are 90° (SI Brochure, table 8).
it.each(["", "90", "90 deg", "2 * half_angle", "5400 arcmin"])("the angle of a V-block may be %j", (angle) => {
  const { setup, told } = read({ angle });
  expect(told).toEqual([]);
  expect(setup.fixture.locators[0]?.angle).toBeCloseTo(Math.PI / 2, 12);
});

it("the angle of a V-block takes no doubt along without a word", () => {
  expect(read({ angle: "doubtful_angle" }).told).toEqual([
    expect.stringContaining("fixture.locators.v.angle: what is named here is in doubt"),
  ]);
});

it.each(["1.5", "1.5 min", "2 * per_touch", "2 * per_touch min", "90 / 60 min", "3/2 minutes"])(
  "minutes for a touch may be %j",
  (touchMinutes) => {
    const { setup, told } = read({}, { touchMinutes });
    expect(told).toEqual([]);
    expect(setup.tools[0]?.touchMinutes).toBeCloseTo(1.5, 12);
  },
);

it("a chance of a slip may be a formula, in per cent", () => {
  const { setup, told } = read({}, {}, { slipChances: [{ id: "s", slip: "radius or diameter", chance: "share / 2 %" }] });
  expect(told).toEqual([]);
  expect([...setup.slipChances.values()]).toEqual([0.0025]);
});

it("a coefficient of correlation may be a formula of numbers, and names no cells", () => {
  const coefficientOf = (coefficient: string) => {
    const problems: { readonly at: string; readonly what: string }[] = [];
    const row = { id: "r", one: "tool a, radius", other: "tool b, radius", coefficient, evidence: "stated" as const, note: "" };
    const { ofSetup } = readCorrelations(
      documentFrom({ part: { elements: [] }, tools: [], correlations: [row], touches: [], strategies: [] }),
      problems,
    );
    return problems.length > 0 ? problems.map(({ at }) => at) : ofSetup[0]?.coefficient;
  };
  expect(coefficientOf("0.9 * 0.5")).toBeCloseTo(0.45, 12);
  expect(coefficientOf("-1/2")).toBe(-0.5);
  expect(coefficientOf("3/2")).toEqual(["correlations.r.coefficient"]);
  expect(coefficientOf("share")).toEqual(["correlations.r.coefficient"]);
});
