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

// JCGM 100:2008, 5.1.6: u = 0.1 % of a radius of 3 mm is 0.003 mm; of 100 mm 0.01 % is 0.01 mm; of 23.6e-6/K 10 % is 2.36e-6/K.
it("a doubt beside its value may be a share of it", () => {
  const heat = { temperature: "22", temperatureUncertainty: "0.5", coefficient: "23.6", coefficientUncertainty: "10 %" };
  const { setup, told } = read(
    {},
    { radiusUncertainty: "0.1 %", length: "100", lengthUncertainty: "share / 50 %" },
    {
      heat: { part: heat, scale: { ...heat, coefficientUncertainty: "" } },
      spacers: [{ id: "block", thickness: "50", uncertainty: "0.001%" }],
    },
  );
  expect(told).toEqual([]);
  expect(setup.tools[0]?.radiusUncertainty).toBeCloseTo(0.003, 12);
  expect(setup.tools[0]?.lengthUncertainty).toBeCloseTo(0.01, 12);
  expect(setup.spacers[0]?.standardUncertainty).toBeCloseTo(0.0005, 12);
  expect(setup.machine.heat?.part.coefficient.standardUncertainty).toBeCloseTo(2.36e-6, 15);
});

it("an effective radius by half the catalogue diameter has its share too, and an entry with its doubt in per cent brings it", () => {
  expect(read({}, { radius: "", diameter: "6", radiusUncertainty: "0.1 %" }).setup.tools[0]?.radiusUncertainty).toBeCloseTo(0.003, 12);
  const { setup, told } = read({}, { radius: "3 mm ± 0.2 % (k = 2)", length: "100.00; 100.02 | 100.04; 100.06 mm" });
  expect(told).toEqual([]);
  expect(setup.tools[0]?.radiusUncertainty).toBeCloseTo(0.003, 12);
  // F = 8 with 1 and 2 degrees of freedom has a chance of 11 %: one group of four (scipy: stats.sem).
  expect(setup.tools[0]?.lengthUncertainty).toBeCloseTo(0.012909944487, 10);
});

it.each([
  [
    { length: "0", lengthUncertainty: "1 %" },
    "tools.tip.lengthUncertainty: the length is 0, and a doubt in per cent of nothing says nothing",
  ],
  [{ lengthUncertainty: "1 %" }, "tools.tip.lengthUncertainty: the length is not known, so that nothing can be a share of it"],
  [{ radiusUncertainty: "-1 %" }, "tools.tip.radiusUncertainty: this cannot be negative"],
  [{ radiusUncertainty: "%" }, "tools.tip.radiusUncertainty: a number is missing before the sign %"],
  [{ radiusUncertainty: "1 mm %" }, 'tools.tip.radiusUncertainty: "mm" is'],
  [{ lateTrigger: "1 %" }, "tools.tip.lateTrigger: this is not the doubt of one value that it could be a share of"],
])("%j is refused: %s", (tool, expected) => {
  expect(read({}, tool).told).toContainEqual(expect.stringContaining(expected.split(": ")[0] as string));
  expect(read({}, tool).told.join()).toContain(expected);
});

it("a temperature has no doubt in per cent", () => {
  const heat = { temperature: "22", temperatureUncertainty: "1 %", coefficient: "23.6", coefficientUncertainty: "" };
  expect(read({}, {}, { heat: { part: heat, scale: { ...heat, temperatureUncertainty: "" } } }).told).toEqual([
    expect.stringContaining("heat.part.temperatureUncertainty: a temperature has no doubt in per cent"),
  ]);
});
