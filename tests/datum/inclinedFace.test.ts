import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { turnAboutZ, type Vector } from "../../lib/base/vector.ts";
import { measureFaces } from "../../lib/datum/measureFaces.ts";
import type { Strategy } from "../../lib/datum/strategy.ts";
import { usualStrategy } from "../../lib/datum/usualStrategy.ts";
import { predictReadings } from "../../lib/decision/predictReadings.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { takenReadings } from "../../lib/slips/explain/takenReadings.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

const ball = {
  id: "ball",
  kind: "touch probe",
  radius: "3",
  radiusUncertainty: "0.001",
  length: "150",
  lengthUncertainty: "0.002",
  scatter: "0",
};
const chamfer = { id: "chamfer", kind: "angled face", facing: "180", inclination: "45", datum: "B", z: "-5" };
const fromAbove = { id: "c", element: "chamfer", travelling: "-Z", tool: "ball", readings: "-158", x: "-98" };

/** A top face at the drawing's Z 0, and a chamfer of 45 degrees that looks to -X and up, through X 0, Z -5. */
function evaluated({ element = {}, touch = {}, tool = {}, more = {}, part = {} }: Record<string, object> = {}) {
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "top", kind: "face", outward: "+Z", datum: "A" },
          { ...chamfer, ...element },
        ],
        ...part,
      },
      tools: [{ ...ball, ...tool }],
      touches: [
        { id: "t", element: "top", travelling: "-Z", tool: "ball", readings: "-150" },
        { ...fromAbove, ...touch },
      ],
      strategies: [{ id: "s", touches: ["t", "c"] }],
      chosen: "s",
      ...more,
    }),
  );
}

const told = (problems: readonly { readonly at: string; readonly what: string }[]) => problems.map(({ at, what }) => `${at}: ${what}`);

function zeroOf(evaluation: ReturnType<typeof evaluated>) {
  const [found] = evaluation.strategies;
  return must((found as NonNullable<typeof found>).evaluation).zero;
}

describe("an inclined face", () => {
  // By hand: Oz = -150 - 150 = -300. The ball's centre stands at Z -158 - 150 + 3 = -305, so 0 above the chamfer's point, -5 below zero. Along the normal
  // (-1, 0, 1)/√2 it is (-(-98 - Ox) + 0)/√2 = 3 off: Ox = -98 + 3√2.
  // A larger radius lifts the centre by as much: (98 + Ox + dr)/√2 = 3 + dr, so dOx/dr = √2 - 1. A longer tool lowers top and chamfer alike: 0.
  it("is corrected along its normal by the ball, whose centre stands a radius above the tip", () => {
    const zero = zeroOf(evaluated());
    const x = must(zero[0]);
    expect(must(zero[2]).value).toBeCloseTo(-300, 12);
    expect(x.value).toBeCloseTo(-98 + 3 * Math.SQRT2, 10);
    const by = (id: string) => x.sensitivities[x.sources.findIndex((source) => source.id === id)] ?? 0;
    expect(by("tool ball, radius")).toBeCloseTo(Math.SQRT2 - 1, 10);
    expect(Math.abs(by("tool ball, length"))).toBeLessThan(1e-12);
  });

  // From the side, travelling +X with the gauge line at Z -158: the same place of the ball is the same touch.
  it("tells the same from the side as from above", () => {
    const zero = zeroOf(evaluated({ touch: { travelling: "+X", readings: "-98", x: "", z: "-158" } }));
    expect(must(zero[0]).value).toBeCloseTo(-98 + 3 * Math.SQRT2, 10);
  });

  // The flank of a 60 degree dovetail leans over by 30 degrees: n = (-cos 30, 0, -sin 30). By hand: the centre is at Z -158 - 150 + 3 + 300 = -5, at the height
  // of the point, so that cos 30 (98 + Ox) = 3.
  it("is a flank that leans over, touched from the side alone", () => {
    const flank = { inclination: "-30" };
    const aside = { travelling: "+X", readings: "-98", x: "", z: "-158" };
    expect(must(zeroOf(evaluated({ element: flank, touch: aside }))[0]).value).toBeCloseTo(-98 + 3 / Math.cos(Math.PI / 6), 10);
    expect(told(evaluated({ element: flank }).problems).join("\n")).toContain(
      'touches.c.travelling: a tool travelling -Z cannot touch "chamfer", whose metal lies on another side',
    );
  });

  // By hand: an error e of the place along X moves Ox by e, of the place along Z by e tan 45 = e; of a touch from above X is the place across.
  it("follows what is off across the travel", () => {
    const machine = { lostMotion: { x: "0.006", y: "0.006", z: "0.004" }, displayStep: "0.001" };
    const tool = { eccentricity: "0.002" };
    const x = must(zeroOf(evaluated({ tool, more: { machine } }))[0]);
    const by = (id: string) => Math.abs(x.sensitivities[x.sources.findIndex((source) => source.id === id)] ?? 0);
    expect(by("tool ball, eccentricity X")).toBeCloseTo(1, 10);
    expect(by("tool ball, eccentricity Y")).toBeCloseTo(0, 10);
    expect(by("touch c, display step")).toBeCloseTo(1, 10);
    expect(by("touch c, display step across")).toBeCloseTo(1, 10);
    expect(by("touch c, lost motion across")).toBeCloseTo(1, 10);
    expect(by("touch t, display step")).toBeCloseTo(1, 10);
    const predicted = predictReadings(evaluated({ tool, more: { machine } }).location).find(({ touch }) => touch === "c");
    expect(predicted?.axis).toBe("Z");
    const { reading } = predicted as NonNullable<typeof predicted>;
    expect(reading.value).toBeCloseTo(-158, 9);
    const budget = budgetOf(reading);
    const share = (id: string) => Math.abs(budget.sensitivities[budget.sources.findIndex((source) => source.id === id)] ?? 0);
    expect(share("touch c, lost motion across of a check")).toBeCloseTo(1, 9);
  });

  // A face that looks between all three axes counts all three: two places across.
  it("counts both places across where its normal has all three shares", () => {
    const machine = { displayStep: "0.001" };
    const evaluation = evaluated({
      element: { facing: "225", x: "0", y: "0" },
      touch: { y: "-40" },
      more: {
        machine,
        part: {
          elements: [
            { id: "top", kind: "face", outward: "+Z", datum: "A" },
            { id: "front", kind: "face", outward: "-Y", datum: "C" },
            { ...chamfer, facing: "225" },
          ],
        },
        touches: [
          { id: "t", element: "top", travelling: "-Z", tool: "ball", readings: "-150" },
          { id: "f", element: "front", travelling: "+Y", tool: "ball", readings: "-53" },
          { ...fromAbove, y: "-40" },
        ],
        strategies: [{ id: "s", touches: ["t", "f", "c"] }],
      },
    });
    const x = must(zeroOf(evaluation)[0]);
    // By hand: n = (-1/2, -1/2, 1/√2); centre (-98, -40, -305), Oy = -50: (98 + Ox)/2 - (-40 + 50)/2 = 3, so Ox = -98 + 6 + 10.
    expect(x.value).toBeCloseTo(-82, 10);
    const by = (id: string) => Math.abs(x.sensitivities[x.sources.findIndex((source) => source.id === id)] ?? 0);
    expect(by("touch c, display step")).toBeCloseTo(Math.SQRT2, 10);
    expect(by("touch c, display step across along X")).toBeCloseTo(1, 10);
    expect(by("touch c, display step across along Y")).toBeCloseTo(1, 10);
  });

  it.each([
    // About Y: X and Z of the machine are -X and -Z of the drawing. What looked to -X and up looks to +X and down, and is touched from the side.
    ["turned over about Y", { travelling: "-X", readings: "98", x: "", z: "-5" }, "-Z", "bottom"],
    ["turned half round about Z", { travelling: "-Z", readings: "-158", x: "98" }, "+Z", "top"],
  ])("%s is touched from where it then looks", (lies, touch, outward, face) => {
    const evaluation = evaluated({
      touch,
      part: {
        elements: [
          { id: face, kind: "face", outward, datum: "A" },
          { ...chamfer, z: outward === "+Z" ? "-5" : "150" },
        ],
      },
      more: {
        operations: [{ id: "10", lies, chosen: "s" }],
        touches: [
          { id: "t", element: face, travelling: "-Z", tool: "ball", readings: outward === "+Z" ? "-150" : "-2" },
          { ...fromAbove, ...touch },
        ],
      },
    });
    expect(told(evaluation.problems)).toEqual([]);
    // Half round: the mirror image of the first example. Over about Y: zero at Z -152; the centre at -5 - 150 + 3 = -152, the point at -150 - 152 = -302, 150 below
    // the centre; n = (1, 0, -1)/√2: (98 - Ox - 150)/√2 = 3.
    const expected = outward === "+Z" ? 98 - 3 * Math.SQRT2 : 98 - 150 - 3 * Math.SQRT2;
    expect(must(zeroOf(evaluation)[0]).value).toBeCloseTo(expected, 10);
  });

  it.each<[string, Record<string, object>, string]>([
    ["without X of a touch from above", { touch: { x: "" } }, "touches.c.x: the X where an angled face was touched must be known"],
    [
      "without Z of a touch from the side",
      { touch: { travelling: "+X", readings: "-98", x: "" } },
      "touches.c.z: the Z where an angled face was touched must be known",
    ],
    ["by another tip than a ball", { tool: { kind: "tool or pin" } }, 'touches.c.tool: "chamfer" is inclined'],
    ["by a ball without a length", { tool: { length: "" } }, 'tools.ball.length: the touch "c" of an inclined face needs the length'],
    ["by a ball without a radius", { tool: { radius: "" } }, 'tools.ball.radius: the touch "c" of an inclined face needs the radius'],
    ["from the other side", { touch: { travelling: "-X", readings: "-98", x: "", z: "-158" } }, "whose metal lies on another side"],
    ["along a direction in the face", { touch: { travelling: "+Y", readings: "-98", z: "-158" } }, "whose metal lies on another side"],
    ["nearly along it", { element: { inclination: "25" } }, 'meets "chamfer" at less than 30 degrees'],
    ["looking along Z", { element: { inclination: "90 deg" } }, "part.elements.chamfer.inclination: this face looks along Z"],
    ["beyond Z", { element: { inclination: "100 deg" } }, "part.elements.chamfer.inclination: this is more than a quarter turn"],
    ["in another unit", { element: { inclination: "45 mm" } }, "part.elements.chamfer.inclination: "],
    ["upright along an axis", { element: { inclination: "0" } }, "part.elements.chamfer.facing: this face looks along an axis"],
    ["without a place along Z", { element: { datum: "", z: "" } }, 'part.elements.chamfer: nothing ties "chamfer" to a datum along Z'],
    [
      "by an inclination of a plain face",
      { part: { elements: [{ id: "top", kind: "face", outward: "+Z", datum: "A", inclination: "3" }] } },
      "part.elements.top.inclination: only an angled face",
    ],
  ])("%s is refused at its place", (_, change, expected) => {
    expect(told(evaluated(change).problems).join("\n")).toContain(expected);
  });

  // A theoretical sharp edge: the point of the flank stands where it meets the floor. By hand: zero at X -100, Z -300, the floor 10.1 below it. The ball's centre
  // stands at X 46, Z -6, so 4.1 above the edge: cos 30 (46 - x) - 0.5 · 4.1 = -(-3), so x = 46 - 5.05 / cos 30 = 40.1688 where the drawing has 40.
  it("gives the theoretical sharp edge where its point is put on it, and distances from there", () => {
    const part = {
      elements: [
        { id: "top", kind: "face", outward: "+Z", datum: "A" },
        { id: "left", kind: "face", outward: "-X", datum: "B" },
        { id: "floor", kind: "face", outward: "+Z" },
        { id: "flank", kind: "angled face", facing: "0", inclination: "-30" },
        { id: "hole", kind: "bore", made: "here", x: "60", y: "10", diameter: "8" },
      ],
      dimensions: [
        { id: "depth", from: "top", to: "floor", axis: "Z", nominal: "-10", tolerance: "±0.3" },
        { id: "at the floor", from: "floor", to: "flank", axis: "Z", nominal: "0", tolerance: "0" },
        { id: "width", from: "left", to: "flank", axis: "X", nominal: "40", tolerance: "±0.3" },
      ],
      characteristics: [{ id: "from the edge", kind: "distance", of: "hole", from: "flank", axis: "X", tolerance: "±0.5" }],
    };
    const touches = [
      { id: "t", element: "top", travelling: "-Z", tool: "ball", readings: "-150" },
      { id: "l", element: "left", travelling: "+X", tool: "ball", readings: "-103" },
      { id: "d", element: "floor", travelling: "-Z", tool: "ball", readings: "-160.1" },
      { id: "k", element: "flank", travelling: "-X", tool: "ball", readings: "-54", z: "-159" },
    ];
    const { strategies, problems } = evaluated({ more: { part, touches, strategies: [{ id: "s", touches: ["t", "l"] }] } });
    expect(told(problems)).toEqual([]);
    const evaluation = must((strategies[0] as (typeof strategies)[number]).evaluation);
    const [stack] = evaluation.thisPart.stacks;
    // The hole is cut at 60: nearer to the edge by what that stands out.
    expect(must(stack as NonNullable<typeof stack>).deviation).toBeCloseTo(40 - (46 - 5.05 / Math.cos(Math.PI / 6)), 8);
  });

  // By hand, at 45 degrees from above: one mm of radius lets the metal lie (1 - 1/√2)·√2 = √2 - 1 lower, one of length 1, a block √2.
  it("shows a wrong radius, length or block by what they count along the travel", () => {
    const shares = takenReadings(evaluated().location).map(({ touch, shares: own }) => [touch.id, own] as const);
    expect(shares).toEqual([
      ["t", { radius: 0, length: 1, block: 1 }],
      ["c", { radius: expect.closeTo(Math.SQRT2 - 1, 12), length: expect.closeTo(1, 12), block: expect.closeTo(Math.SQRT2, 12) }],
    ]);
  });

  it("needs no tie along the axis that it runs along, and no place there", () => {
    expect(told(evaluated().problems)).toEqual([]);
    const { places } = evaluated().location.located;
    expect(places.get("chamfer")?.map((place) => place?.nominal)).toEqual([0, undefined, -5]);
  });

  it("is told in the words of the trade, and as no coordinate", () => {
    const { setup, location } = evaluated();
    expect(usualStrategy(setup.strategies[0] as Strategy, location)).toBe('face "chamfer", X only, height from "top"');
    expect(measureFaces(location).map(({ touch }) => touch)).toEqual(["t"]);
  });

  // The touched point, a radius from the ball's centre against the normal, lies in the plane where the part is; and it moves with the readings.
  it("puts the touched point of any face in its plane, however the part is turned", () => {
    const job = fc.record({
      facing: fc.integer({ min: 100, max: 260 }),
      inclination: fc.integer({ min: 35, max: 55 }),
      at: fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 }), fc.integer({ min: -400, max: -200 })),
      skew: fc.integer({ min: -30, max: 30 }),
      along: fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -4, max: 4 })),
      moved: fc.integer({ min: -900, max: 900 }),
    });
    fc.assert(
      fc.property(job, ({ facing, inclination, at, skew, along, moved }) => {
        const [phi, epsilon, theta] = [(facing * Math.PI) / 180, (inclination * Math.PI) / 180, skew / 1000];
        const normal: Vector = [Math.cos(phi) * Math.cos(epsilon), Math.sin(phi) * Math.cos(epsilon), Math.sin(epsilon)];
        const level: Vector = [-Math.sin(phi), Math.cos(phi), 0];
        const steep: Vector = [-Math.cos(phi) * Math.sin(epsilon), -Math.sin(phi) * Math.sin(epsilon), Math.cos(epsilon)];
        const point: Vector = [2, 3, -5];
        const metal = point.map((p, i) => p + along[0] * (level[i] as number) + along[1] * (steep[i] as number));
        const stop = (place: readonly number[], out: readonly number[]): Vector => {
          const centre = turnAboutZ(place.map((p, i) => p + 3 * (out[i] as number)) as unknown as Vector, theta);
          return [centre[0] + at[0], centre[1] + at[1], centre[2] + at[2] + 150 - 3];
        };
        const shift = moved / 1000;
        const touches = (by: number) => {
          const c = stop(metal, normal);
          const [f1, f2, t] = [stop([10, 0, -8], [0, -1, 0]), stop([90, 0, -8], [0, -1, 0]), stop([40, 30, 0], [0, 0, 1])];
          return [
            { id: "f1", element: "front", travelling: "+Y", tool: "ball", readings: typed(f1[1]), x: typed(f1[0]) },
            { id: "f2", element: "front", travelling: "+Y", tool: "ball", readings: typed(f2[1]), x: typed(f2[0]) },
            { id: "t", element: "top", travelling: "-Z", tool: "ball", readings: typed(t[2]) },
            { id: "c", element: "slope", travelling: "-Z", tool: "ball", readings: typed(c[2]), x: typed(c[0] + by), y: typed(c[1]) },
          ];
        };
        const zero = (by: number) =>
          zeroOf(
            evaluated({
              more: {
                part: {
                  elements: [
                    { id: "front", kind: "face", outward: "-Y", datum: "A" },
                    { id: "top", kind: "face", outward: "+Z", datum: "B" },
                    {
                      id: "slope",
                      kind: "angled face",
                      facing: String(facing),
                      inclination: String(inclination),
                      datum: "C",
                      x: "2",
                      y: "3",
                      z: "-5",
                    },
                  ],
                },
                touches: touches(by),
                strategies: [{ id: "s", touches: ["f1", "f2", "t", "c"], rotation: "applied" }],
              },
            }),
          );
        const found = zero(0).map((each) => must(each).value);
        for (const [axis, value] of found.entries()) expect(value).toBeCloseTo(at[axis] as number, 8);
        // A slope that is met further along X by s lies there: the part moves along the line that the front leaves it.
        const other = zero(shift).map((each) => must(each).value);
        const turned = turnAboutZ(normal, theta);
        const way: Vector = [Math.cos(theta), Math.sin(theta), 0];
        const moves = (shift * turned[0]) / (turned[0] * way[0] + turned[1] * way[1]);
        expect((other[0] as number) - at[0]).toBeCloseTo(moves * way[0], 8);
        expect((other[1] as number) - at[1]).toBeCloseTo(moves * way[1], 8);
      }),
      { numRuns: 60 },
    );
  });
});
