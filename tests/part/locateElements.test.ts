import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { readSetup } from "../../lib/document/readSetup.ts";
import { locateElements } from "../../lib/part/locateElements.ts";
import { documentFrom } from "../properties/setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const face = (id: string, outward: string, more: object = {}) => ({ id, kind: "face", outward, ...more });
const size = (id: string, from: string, to: string, nominal: string) => ({ id, from, to, nominal, tolerance: "±0.1" });

function locate(elements: object[], dimensions: object[]) {
  const { setup } = readSetup(documentFrom({ part: { elements, dimensions }, tools: [], touches: [], strategies: [] }));
  return locateElements(setup.part);
}

const runs = { numRuns: 150 };

describe("locateElements, gains by the drawing's datum", () => {
  // An element's place in the drawing's frame follows the size by 0, 1 or 1/2.
  const faces = (datum: string) =>
    [face("left", "-X"), face("right", "+X"), { id: "middle", kind: "middle", of: ["left", "right"] }].map((each) =>
      each.id === datum ? { ...each, datum: "B" } : each,
    );
  const expected = {
    left: { left: [0, 0], right: [100, 1], middle: [50, 0.5] },
    right: { left: [-100, -1], right: [0, 0], middle: [-50, -0.5] },
    middle: { left: [-50, -0.5], right: [50, 0.5], middle: [0, 0] },
  } as const;

  it.each(["left", "right", "middle"] as const)("locateElements(datum on the %s) places all three with gains of 0, 1/2 or 1", (datum) => {
    const { places, problems } = locate(faces(datum), [size("S", "left", "right", "100")]);
    expect(problems).toEqual([]);
    for (const [id, [nominal, gain]] of Object.entries(expected[datum])) {
      const [x, y, z] = places.get(id) ?? [];
      expect(x?.nominal).toBeCloseTo(nominal, 12);
      expect(x?.gains.get("S") ?? 0).toBeCloseTo(gain, 12);
      expect([y, z]).toEqual([undefined, undefined]);
    }
  });

  it("locateElements(a chain of faces, a datum anywhere in it) sums the dimensions between with their directions", () => {
    const chain = fc.record({
      sizes: fc.array(fc.integer({ min: 1000, max: 90_000 }), { minLength: 1, maxLength: 7 }),
      reversed: fc.array(fc.boolean(), { minLength: 7, maxLength: 7 }),
      datum: fc.nat(),
      order: fc.nat(),
    });
    fc.assert(
      fc.property(chain, ({ sizes, reversed, datum, order }) => {
        const at = datum % (sizes.length + 1);
        const elements = Array.from({ length: sizes.length + 1 }, (_, i) =>
          face(`f${i}`, i % 2 ? "+X" : "-X", i === at ? { datum: "A", x: "7.5" } : {}),
        );
        const dimensions = sizes.map((micrometres, i) => {
          const [from, to] = reversed[i] ? [`f${i + 1}`, `f${i}`] : [`f${i}`, `f${i + 1}`];
          return size(`d${i}`, from as string, to as string, String((reversed[i] ? -micrometres : micrometres) / 1000));
        });
        const shuffled = dimensions.map((_, i) => dimensions[(i + order) % dimensions.length] as object);
        const { places, problems } = locate(elements, shuffled);
        expect(problems).toEqual([]);
        elements.forEach(({ id }, i) => {
          const place = places.get(id)?.[0];
          const [low, high] = i < at ? [i, at] : [at, i];
          const between = sizes.slice(low, high).reduce((sum, value) => sum + value / 1000, 0);
          expect(place?.nominal).toBeCloseTo(7.5 + (i < at ? -between : between), 9);
          sizes.forEach((_, d) => {
            const inside = d >= low && d < high;
            const gain = inside ? (i < at ? -1 : 1) * (reversed[d] ? -1 : 1) : 0;
            expect(place?.gains.get(`d${d}`) ?? 0).toBeCloseTo(gain, 12);
          });
        });
      }),
      runs,
    );
  });

  it("locateElements(middle of middles) halves again", () => {
    const elements = [
      face("a", "-X", { datum: "A" }),
      face("b", "+X"),
      face("c", "-X"),
      face("d", "+X"),
      { id: "ab", kind: "middle", of: ["a", "b"] },
      { id: "cd", kind: "middle", of: ["c", "d"] },
    ];
    const { places } = locate(elements, [size("L", "a", "b", "80"), size("o", "ab", "cd", "3"), size("w", "c", "d", "20")]);
    // c = L/2 + o - w/2 and d = L/2 + o + w/2, by hand.
    expect(places.get("c")?.[0]).toMatchObject({
      nominal: 33,
      gains: new Map([
        ["L", 0.5],
        ["o", 1],
        ["w", -0.5],
      ]),
    });
    expect(places.get("d")?.[0]?.nominal).toBe(53);
    expect(places.get("d")?.[0]?.gains).toEqual(
      new Map([
        ["L", 0.5],
        ["o", 1],
        ["w", 0.5],
      ]),
    );
  });
});

describe("locateElements, drawings that do not hold together", () => {
  it("locateElements(three dimensions round a circle) tells the one that closes it", () => {
    const elements = [face("a", "-X", { datum: "A" }), face("b", "+X"), face("c", "+X")];
    const { problems } = locate(elements, [size("ab", "a", "b", "10"), size("bc", "b", "c", "5"), size("ac", "a", "c", "15")]);
    expect(problems.map(({ at }) => at)).toEqual(["part.dimensions.ac"]);
  });

  it("locateElements(an element that nothing ties) says so along its axis", () => {
    const { problems } = locate([face("a", "-X", { datum: "A" }), face("b", "+X"), face("c", "+Y")], [size("ab", "a", "b", "10")]);
    expect(problems).toMatchObject([{ at: "part.elements.c", what: 'nothing ties "c" to a datum along Y' }]);
  });

  it("locateElements(two datum faces and a dimension between them) tells the dimension", () => {
    const { problems } = locate([face("a", "-X", { datum: "A" }), face("b", "+X", { datum: "B", x: "10" })], [size("ab", "a", "b", "10")]);
    expect(problems.map(({ at }) => at)).toEqual(["part.dimensions.ab"]);
  });

  it("locateElements(a bore tied along X alone) misses Y alone", () => {
    const { places, problems } = locate(
      [face("a", "-X", { datum: "A" }), { id: "hole", kind: "bore", diameter: "8" }],
      [{ ...size("x", "a", "hole", "30"), axis: "X" }],
    );
    expect(places.get("hole")?.[0]?.nominal).toBe(30);
    expect(problems).toMatchObject([{ what: 'nothing ties "hole" to a datum along Y' }]);
  });
});

// 100 from left to right directly, 40 + 60.5 by way of the step: common arithmetic, no source.
it.each([
  ["60", /along X$/],
  ["60.5", /along X, and contradicts them by 0\.5 mm$/],
] as const)("locateElements(a circle whose last chain measures 40 and %s of 100) tells whether it contradicts", (rest, expected) => {
  const { problems } = locate(
    [face("left", "-X", { datum: "A" }), face("step", "+X"), face("right", "+X")],
    [size("all", "left", "right", "100"), size("first", "left", "step", "40"), size("rest", "step", "right", rest)],
  );
  expect(problems.map(({ at, what }) => [at, what])).toEqual([["part.dimensions.rest", expect.stringMatching(expected)]]);
});
