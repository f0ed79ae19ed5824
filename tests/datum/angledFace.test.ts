import { describe, expect, it } from "vitest";
import type { Strategy } from "../../lib/datum/strategy.ts";
import { usualStrategy } from "../../lib/datum/usualStrategy.ts";
import { predictReadings } from "../../lib/decision/predictReadings.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { factsOfSetup } from "../../lib/slips/factsOfSetup.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must } from "../properties/setups.ts";

const slope = { id: "slope", kind: "angled face", facing: "150", datum: "B" };
const touchOnSlope = { id: "s", element: "slope", travelling: "+X", tool: "pin", readings: "-203", y: "-80" };

/** A front face through the drawing's origin, and a face through it that looks 150 degrees from +X: the metal lies to its right, below it. */
function evaluated({ element = {}, touch = {}, more = {}, part = {} }: Record<string, object> = {}) {
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "front", kind: "face", outward: "-Y", datum: "A" },
          { ...slope, ...element },
        ],
        ...part,
      },
      tools: [{ id: "pin", kind: "tool or pin", radius: "3", radiusUncertainty: "0.001", scatter: "0" }],
      touches: [
        { id: "f", element: "front", travelling: "+Y", tool: "pin", readings: "-103" },
        { ...touchOnSlope, ...touch },
      ],
      strategies: [{ id: "corner", touches: ["f", "s"] }],
      chosen: "corner",
      ...more,
    }),
  );
}

const told = (problems: readonly { readonly at: string; readonly what: string }[]) => problems.map(({ at, what }) => `${at}: ${what}`);

describe("an angled face", () => {
  // By hand: Oy = -103 + 3. The centre stands 3 off along (-cos 30, sin 30): -cos 30 (-203 - Ox) + 0.5 (-80 + 100) = 3, so Ox = -203 - 7 / cos 30.
  // Both by the radius: dOx/dr = (1 + 0.5) / cos 30 = 1.7321.
  it("is corrected along its normal, and its corner with a face is the zero", () => {
    const [found] = evaluated().strategies;
    const { zero } = must((found as NonNullable<typeof found>).evaluation);
    const [x, y] = [must(zero[0]), must(zero[1])];
    expect(y.value).toBeCloseTo(-100, 12);
    expect(x.value).toBeCloseTo(-203 - 7 / Math.cos(Math.PI / 6), 10);
    const radius = x.sources.findIndex(({ id }) => id === "tool pin, radius");
    expect(x.sensitivities[radius]).toBeCloseTo(1.5 / Math.cos(Math.PI / 6), 10);
  });

  // By hand, with e off the spindle: Oy = -103 + 3 + ey, and -cos 30 (-203 + ex - Ox) + 0.5 (-80 + ey - Oy) = 3. Ox follows ex as it is, and ey not at all.
  // A place across that is off by d moves Ox by d tan 30.
  it("follows what is off across the travel as well", () => {
    const tool = { id: "pin", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0", eccentricity: "0.002" };
    const machine = { lostMotion: { x: "0", y: "0.006", z: "0" }, displayStep: "0.001", positioning: "0.01", positioningOver: "1000" };
    const [found] = evaluated({ more: { tools: [tool], machine } }).strategies;
    const x = must(must((found as NonNullable<typeof found>).evaluation).zero[0]);
    const by = (id: string) => {
      const at = x.sources.findIndex((source) => source.id === id);
      return at < 0 ? undefined : x.sensitivities[at];
    };
    expect(Math.abs(by("tool pin, eccentricity X") ?? 0)).toBeCloseTo(1, 10);
    expect(by("tool pin, eccentricity Y") ?? 0).toBeCloseTo(0, 10);
    expect(Math.abs(by("touch s, lost motion across") ?? 0)).toBeCloseTo(Math.tan(Math.PI / 6), 10);
    expect(Math.abs(by("touch s, display step across") ?? 0)).toBeCloseTo(Math.tan(Math.PI / 6), 10);
    // A check comes to stand there anew: its own error across is in the prediction beside that of the touch, and neither takes the other away.
    const predicted = predictReadings(evaluated({ more: { tools: [tool], machine } }).location).find(({ touch }) => touch === "s");
    const budget = budgetOf((predicted as NonNullable<typeof predicted>).reading);
    for (const which of ["", " of a check"]) {
      const at = budget.sources.findIndex(({ id }) => id === `touch s, lost motion across${which}`);
      expect([which, Math.abs(budget.sensitivities[at] as number)]).toEqual([which, expect.closeTo(Math.tan(Math.PI / 6), 9)]);
    }
  });

  it.each([
    // The mirrored part about Y: X of the machine is -X of the drawing; so are the readings and the travel, and the zero.
    ["turned over about Y", "-X", "203", "+Y", "-103", 203 + 7 / Math.cos(Math.PI / 6), -100],
    // About X: Y of the machine is -Y of the drawing.
    ["turned over about X", "+X", "-203", "-Y", "103", -203 - 7 / Math.cos(Math.PI / 6), 100],
  ])("%s is touched from the mirrored side", (lies, travelling, readings, frontTravelling, frontReadings, x, y) => {
    const isAboutX = lies.endsWith("X");
    const { strategies, problems } = evaluated({
      more: {
        operations: [{ id: "10", lies, chosen: "corner" }],
        touches: [
          { id: "f", element: "front", travelling: frontTravelling, tool: "pin", readings: frontReadings },
          { ...touchOnSlope, travelling, readings, y: isAboutX ? "80" : "-80" },
        ],
      },
    });
    expect(problems).toEqual([]);
    const { zero } = must((strategies[0] as (typeof strategies)[number]).evaluation);
    expect(must(zero[0]).value).toBeCloseTo(x, 10);
    expect(must(zero[1]).value).toBeCloseTo(y, 10);
  });

  it.each<[string, Record<string, object>, string]>([
    [
      "without the place along it",
      { touch: { y: "" } },
      "touches.s.y: the Y where an angled face was touched must be known, since it runs away",
    ],
    ["from the side of its metal", { touch: { travelling: "-X" } }, "touches.s.travelling: a tool travelling -X cannot touch"],
    ["from above", { touch: { travelling: "-Z", readings: "-50" } }, "touches.s.travelling: a tool travelling -Z cannot touch"],
    [
      "along it",
      { element: { facing: "165" }, touch: { travelling: "-Y", readings: "-60", x: "-203", y: "" } },
      'meets "slope" at less than 30 degrees',
    ],
    ["without its direction", { element: { facing: "" } }, "part.elements.slope.facing: an angled face needs the direction"],
    ["along an axis", { element: { facing: "90 deg" } }, "part.elements.slope.facing: this face looks along an axis"],
    ["in another unit", { element: { facing: "30 mm" } }, "part.elements.slope.facing: "],
    ["cut here", { element: { made: "here" } }, "part.elements.slope.made: an angled face is known as something to touch"],
    ["with a diameter", { element: { diameter: "5" } }, "part.elements.slope.diameter: only a round wall has a diameter"],
  ])("%s is refused at its place", (_, change, expected) => {
    expect(told(evaluated(change).problems).join("\n")).toContain(expected);
  });

  it("is neither a datum of an orientation nor a datum of a system of its own", () => {
    const hole = { id: "hole", kind: "bore", made: "here", x: "20", y: "10", diameter: "8" };
    const part = {
      elements: [{ id: "front", kind: "face", outward: "-Y", datum: "A" }, slope, hole],
      datumSystems: [{ id: "own", primary: "slope" }],
      characteristics: [{ id: "gap", kind: "perpendicularity", of: "hole", from: "slope", tolerance: "0.1" }],
    };
    const problems = told(evaluated({ part }).problems).join("\n");
    expect(problems).toContain(
      "part.characteristics.gap.from: of a face that looks along no axis nothing is demanded but a distance from its point",
    );
    expect(problems).toContain('part.datumSystems.own.primary: "slope" looks along no axis');
  });

  // Two touches of it differ by how it looks, 80 tan 30 = 46 mm here, and not by a skew.
  it("is no skewed edge where it is touched twice", () => {
    const touches = [
      { id: "f", element: "front", travelling: "+Y", tool: "pin", readings: "-103", x: "-150" },
      touchOnSlope,
      { ...touchOnSlope, id: "s2", readings: String(-203 + 80 * Math.tan(Math.PI / 6)), y: "0" },
    ];
    const evaluation = evaluated({ more: { touches, strategies: [{ id: "corner", touches: ["f", "s", "s2"] }] } });
    expect(told(evaluation.problems)).toEqual([]);
    const [inUse] = evaluation.strategies;
    expect(factsOfSetup(evaluation, must((inUse as NonNullable<typeof inUse>).evaluation)).edges).toEqual([]);
  });

  it("is told as a face of the corner, and no locator pushes against it", () => {
    const { setup, location } = evaluated();
    expect(usualStrategy(setup.strategies[0] as Strategy, location)).toBe('corner of "slope" and "front"');
    const fixture = { locators: [{ id: "stop", kind: "stop", element: "slope", facing: "+X", y: "10", z: "-5" }] };
    expect(told(evaluated({ more: { fixture } }).problems).join("\n")).toContain("fixture.locators.stop.element: a stop meets a face");
  });

  it("refuses the direction where the element is no angled face", () => {
    const part = { elements: [{ id: "front", kind: "face", outward: "-Y", datum: "A", facing: "30" }, slope] };
    expect(told(evaluated({ part }).problems).join("\n")).toContain(
      "part.elements.front.facing: only an angled face looks between the axes",
    );
  });
});
