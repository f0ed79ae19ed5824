import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { cross, type Vector } from "../../lib/base/vector.ts";
import { moveZero } from "../../lib/offsets/moveZero.ts";
import { signsAfterTurn, turnedOver } from "../../lib/offsets/turnedOver.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { valueOfSource } from "../../lib/uncertainty/sourceBook.ts";
import { certain, type Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { documentFrom, must, open } from "../properties/setups.ts";

const none = undefined;
const exact = (...place: Vector) => place.map(certain) as [Uncertain, Uncertain, Uncertain];
const values = (place: readonly Uncertain[]) => place.map(({ value }) => value + 0);

function doubtful(id: string, estimate: number, standardDeviation: number): Uncertain {
  return valueOfSource({
    id,
    label: id,
    family: "part",
    estimate,
    distribution: { shape: "normal", standardDeviation },
    evidence: { kind: "stated" },
  });
}

describe("turnedOver", () => {
  // Half turns about the axes: diag(1, -1, -1), diag(-1, 1, -1), diag(-1, -1, 1), and the thickness where the seat changed sides.
  it.each([
    ["X", [10, -20, 25]],
    ["Y", [-10, 20, 25]],
  ] as const)("turnedOver((10, 20, 5), about %s, thickness 30) is %j", (about, expected) => {
    expect(values(turnedOver(exact(10, 20, 5), { about, across: [none, none, certain(30)] }))).toEqual(expected);
  });

  it("turnedOver((10, 20, 5), about Z) is (-10, -20, 5) from the same corner, and L - x from the other end", () => {
    expect(values(turnedOver(exact(10, 20, 5), { about: "Z", across: [none, none, none] }))).toEqual([-10, -20, 5]);
    expect(values(turnedOver(exact(10, 20, 5), { about: "Z", across: [certain(150), none, none] }))).toEqual([140, -20, 5]);
  });

  it("turnedOver(place, turn): the thickness brings its doubt along with the sensitivity 1; the same face brings none", () => {
    const thickness = doubtful("thickness", 30, 0.012);
    const [, , z] = turnedOver(exact(10, 20, 5), { about: "X", across: [none, none, thickness] });
    expect(budgetOf(z)).toMatchObject({ value: 25, standardUncertainty: 0.012, contributions: [{ sensitivity: 1 }] });
    expect(budgetOf(turnedOver(exact(10, 20, 5), { about: "X", across: [none, none, none] })[2])).toMatchObject({
      value: -5,
      standardUncertainty: 0,
    });
  });

  it("turnedOver(place, turn) refuses a size along the axis of the turn", () => {
    expect(() => turnedOver(exact(0, 0, 0), { about: "X", across: [certain(1), none, none] })).toThrow("along X");
  });

  it("turnedOver(...) never mirrors, keeps distances, and turned again is where it was", () => {
    const coordinate = fc.integer({ min: -500, max: 500 });
    const place = fc.tuple(coordinate, coordinate, coordinate);
    fc.assert(
      fc.property(fc.constantFrom("X", "Y", "Z"), place, place, fc.integer({ min: 1, max: 300 }), (about, a, b, size) => {
        const [sx, sy, sz] = signsAfterTurn(about);
        expect(cross([sx, 0, 0], [0, sy, 0])).toEqual([0, 0, expect.closeTo(sz, 12)]);
        const turn = { about, across: about === "Z" ? ([certain(size), none, none] as const) : ([none, none, certain(size)] as const) };
        const [p, q] = [turnedOver(exact(...a), turn), turnedOver(exact(...b), turn)];
        const apart = (u: readonly number[], v: readonly number[]) => Math.hypot(...u.map((x, i) => x - (v[i] as number)));
        expect(apart(values(p), values(q))).toBeCloseTo(apart(a, b), 9);
        expect(values(turnedOver(p, turn))).toEqual(a.map((x) => x + 0));
      }),
      { numRuns: 200 },
    );
  });
});

/** A plate whose corner is touched: the front at two places 100 apart, the left once; a bore 80 from the left as drawn, 50.012 from the front as measured. */
const plate = (more: { readonly rotation: string; readonly frontRight?: string }) =>
  documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "B" },
        { id: "front", kind: "face", outward: "-Y", datum: "A" },
        { id: "bore", kind: "bore", diameter: "20" },
      ],
      dimensions: [
        { id: "bore X", from: "left", to: "bore", axis: "X", nominal: "80", tolerance: "±0.03" },
        { id: "bore Y", from: "front", to: "bore", axis: "Y", nominal: "50", measured: "50.012", measuredUncertainty: "0.004" },
      ],
    },
    tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }],
    touches: [
      { id: "left", element: "left", travelling: "+X", tool: "pin", readings: "97", y: "220" },
      { id: "front left", element: "front", travelling: "+Y", tool: "pin", readings: "197", x: "110" },
      { id: "front right", element: "front", travelling: "+Y", tool: "pin", readings: more.frontRight ?? "197", x: "210" },
    ],
    strategies: [
      {
        id: "corner",
        touches: more.rotation === "ignored" ? ["left", "front left"] : ["left", "front left", "front right"],
        rotation: more.rotation,
      },
    ],
  });

const bore = { kind: "element", element: "bore" } as const;
const at = (value: number) => ({ kind: "coordinate", value: mm(value) }) as const;

describe("moveZero", () => {
  // By hand, first order about θ = 0. The turn is (y2 - y1)/100 with s = 0.002 each; the front at X = 80 is 0.3 y1 + 0.7 y2, so that the zero and the turn
  // err together: u² = (0.3² + 0.7²) s² + 0.004². The left was touched 30.012 below the bore: u² = s² + 2 (30.012/100)² s² + 0.01² (0.03/3, limits at
  // three standard deviations as the drawing's spread says).
  it("moveZero(corner, bore): the doubt is that of the line at the bore, not the plain sum of zero, turn and sizes", () => {
    const { location, solution } = open(plate({ rotation: "measured" }));
    const moved = must(moveZero(solution("corner"), [bore, bore, at(0)], location));
    const [x, y] = moved.axes.slice(0, 2).map(must);
    expect(moved.turn).toBe("strategy");
    expect(x?.after.value).toBeCloseTo(180, 9);
    expect(y?.after.value).toBeCloseTo(250.012, 9);
    expect(y?.after.standardUncertainty).toBeCloseTo(Math.sqrt(0.58 * 0.002 ** 2 + 0.004 ** 2), 9);
    expect(x?.after.standardUncertainty).toBeCloseTo(Math.sqrt(0.002 ** 2 * (1 + 2 * 0.300_12 ** 2) + 0.01 ** 2), 9);
    expect(moved.axes[2].ok).toBe(false);
  });

  // M = O + Rot(θ) p with θ = atan(0.1/100): the front rises by 0.1 over 100.
  it("moveZero(corner, point) of a turned part goes along the part's own axes", () => {
    const { location, solution } = open(plate({ rotation: "applied", frontRight: "197.1" }));
    const corner = solution("corner");
    const [x, y] = must(moveZero(corner, [at(80), at(50), at(0)], location))
      .axes.slice(0, 2)
      .map(must);
    const angle = Math.atan(0.001);
    const [ox, oy] = corner.fromReadings.zero.map(({ value }) => value) as [number, number, number];
    expect(x?.after.value).toBeCloseTo(ox + 80 * Math.cos(angle) - 50 * Math.sin(angle), 9);
    expect(y?.after.value).toBeCloseTo(oy + 80 * Math.sin(angle) + 50 * Math.cos(angle), 9);
  });

  it("moveZero(corner, corner) costs nothing", () => {
    const { location, solution } = open(plate({ rotation: "measured" }));
    const [x, y] = must(moveZero(solution("corner"), [at(0), at(0), at(0)], location))
      .axes.slice(0, 2)
      .map(must);
    for (const axis of [x, y]) {
      expect(axis?.way).toMatchObject({ value: 0, standardUncertainty: 0 });
      expect(axis?.after.standardUncertainty).toBe(axis?.before.standardUncertainty);
    }
  });

  it("moveZero(strategy that ignores the turn): the turn of all touches is taken where they tell it, and told", () => {
    const { location, solution } = open(plate({ rotation: "ignored", frontRight: "197.1" }));
    const moved = must(moveZero(solution("corner"), [at(80), at(0), at(0)], location));
    expect(moved.turn).toBe("all touches");
    expect(must(moved.axes[1]).way.value).toBeCloseTo(80 * Math.sin(Math.atan(0.001)), 9);
    expect(moved.distance).toBeCloseTo(80, 9);
  });

  it("moveZero(strategy, unknown) is refused with the name", () => {
    const { location, solution } = open(plate({ rotation: "measured" }));
    const moved = moveZero(solution("corner"), [{ kind: "element", element: "boar" }, at(0), at(0)], location);
    expect(moved).toMatchObject({ ok: false, problems: [{ got: "boar", what: expect.stringContaining("place along X") }] });
  });
});
