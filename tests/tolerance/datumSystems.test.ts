import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

// Datum systems: ISO 5459:2011, primary, secondary and tertiary datum, each constrained by those before it; clauses from memory. The numbers are plane
// geometry, with the arithmetic beside each check.

/** A plate of 100 by 80: left (B) and front (C) carry letters, right hangs on left by 100 ±0.1; the hole is cut at (30, 50). */
const elements = [
  { id: "bottom", kind: "face", outward: "-Z", datum: "A" },
  { id: "left", kind: "face", outward: "-X", datum: "B" },
  { id: "front", kind: "face", outward: "-Y", datum: "C" },
  { id: "right", kind: "face", outward: "+X" },
  { id: "centre", kind: "middle", of: ["left", "right"] },
  { id: "hole", kind: "bore", made: "here", diameter: "8", x: "30", y: "50" },
];
const width = { id: "width", from: "left", to: "right", axis: "X", nominal: "100", tolerance: "±0.1" };
const tool = { id: "tool", kind: "touch probe", radius: "3", length: "100", scatter: "0" };
const touchLeft = { id: "left", element: "left", travelling: "+X", tool: "tool", readings: "-3", y: "40" };
const touchFront = { id: "front", element: "front", travelling: "+Y", tool: "tool", readings: "-3", x: "50" };
/** 100.06 from the left. */
const touchRight = { id: "right", element: "right", travelling: "-X", tool: "tool", readings: "103.06", y: "40" };

interface Job {
  readonly elements?: readonly object[];
  readonly dimensions?: readonly object[];
  readonly systems?: readonly object[];
  readonly characteristics?: readonly object[];
  readonly touches?: readonly object[];
  readonly strategy?: object;
}

const position = (datums: string, more: object = {}) => ({
  id: "position",
  kind: "position",
  of: "hole",
  tolerance: "0.5",
  datums,
  ...more,
});

function plate(job: Job) {
  const touches = job.touches ?? [touchLeft, touchFront, touchRight];
  return documentFrom({
    part: {
      elements: job.elements ?? elements,
      dimensions: job.dimensions ?? [width],
      datumSystems: job.systems ?? [],
      characteristics: job.characteristics ?? [],
    },
    tools: [tool],
    touches,
    strategies: [{ id: "s", touches: ["left", "front"], ...job.strategy }],
  });
}

function stacksOf(job: Job, view: "thisPart" | "batch"): readonly Stack[] {
  const evaluation = evaluateSetup(plate(job));
  expect(evaluation.problems).toEqual([]);
  const [strategy] = evaluation.strategies;
  if (strategy === undefined) throw new Error("there is no strategy");
  return must(strategy.evaluation)[view].stacks.map(must);
}

const componentsOf = (job: Job, view: "thisPart" | "batch") => (stacksOf(job, view)[0] as Stack).components;
const valuesOf = (job: Job, view: "thisPart" | "batch") => componentsOf(job, view).map(({ value }) => value);
const reachOf = (job: Job, source: string, component = 0) =>
  stacksOf(job, "batch")[0]?.rows.find(({ source: { id } }) => id.startsWith(source))?.reaches[component] ?? 0;
const told = (job: Job) => evaluateSetup(plate(job)).problems.map(({ at, what }) => `${at}: ${what}`);

describe("the zero is taken from the left face", () => {
  it("from the right face all of the width counts, from the mid-plane half of it, from the left nothing", () => {
    const by = (primary: string) => ({ systems: [{ id: "S", primary, secondary: "front" }], characteristics: [position("S")] });
    expect(reachOf(by("left"), "dimension width")).toBe(0);
    expect(reachOf(by("centre"), "dimension width")).toBeCloseTo(-0.05, 12);
    expect(reachOf(by("right"), "dimension width")).toBeCloseTo(-0.1, 12);
  });

  it("this part is 100.06 wide: the hole is 0.06 too far from the right, 0.03 from the mid-plane", () => {
    const by = (primary: string) => ({ systems: [{ id: "S", primary, secondary: "C" }], characteristics: [position("S")] });
    expect(valuesOf(by("B"), "thisPart")[0]).toBeCloseTo(0, 12);
    expect(valuesOf(by("centre"), "thisPart")[0]).toBeCloseTo(-0.03, 12);
    expect(valuesOf(by("right"), "thisPart")[0]).toBeCloseTo(-0.06, 12);
  });

  it("a coordinate goes by the system too, and others on the same part by the letters", () => {
    const coordinate = { id: "from the right", kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.2", datums: "S" };
    const [one, other] = stacksOf(
      {
        systems: [{ id: "S", primary: "right", secondary: "C" }],
        characteristics: [coordinate, { ...coordinate, id: "by letters", datums: "" }],
      },
      "thisPart",
    );
    expect(one?.deviation).toBeCloseTo(-0.06, 12);
    expect(other?.deviation).toBeCloseTo(0, 12);
  });
});

describe("the order of the datums", () => {
  // Left is straight along Y; front rises by 0.001, 0.01 at X 10 and 0.09 at X 90. The zero: X at left, Y at front where X is 10.
  const touches = [
    { ...touchLeft, id: "left", y: "10" },
    { ...touchLeft, id: "left above", y: "70" },
    { ...touchFront, id: "front", x: "10", readings: "-2.99" },
    { ...touchFront, id: "front beyond", x: "90", readings: "-2.91" },
  ];
  const hole = elements.map((element) => (element.id === "hole" ? { ...element, x: "80", y: "60" } : element));
  const by = (...datums: string[]): Job => ({
    elements: hole,
    touches,
    systems: [{ id: "S", primary: datums[0], secondary: datums[1] }],
    characteristics: [position("S")],
  });

  it("left before front: left turns the frame, so not at all; the hole at (80, 60.01) is 0.04 below its place from the middle of the front's touches", () => {
    const [x, y] = valuesOf(by("left", "front"), "thisPart");
    expect(x).toBeCloseTo(0, 5);
    expect(y).toBeCloseTo(-0.04, 5);
  });

  it("front before left: front turns it by 0.001 about the left's middle at Y 40, the hole is 20·0.001 beyond and 80·0.001 less 0.01 below", () => {
    const [x, y] = valuesOf(by("front", "left"), "thisPart");
    expect(x).toBeCloseTo(0.02, 4);
    expect(y).toBeCloseTo(-0.07, 4);
  });

  it("the letters in their order are the system of the same datums, to the last digit", () => {
    const letters = stacksOf({ elements: hole, touches, characteristics: [position("")] }, "thisPart");
    const system = stacksOf(by("B", "C"), "thisPart");
    expect(system[0]?.components.map(({ value }) => value)).toEqual(letters[0]?.components.map(({ value }) => value));
    expect(system[0]?.chance).toBe(letters[0]?.chance);
  });
});

describe("axes as datums", () => {
  const rounds = [
    ...elements.filter(({ id }) => id !== "right" && id !== "centre"),
    { id: "one", kind: "bore", diameter: "10", diameterTolerance: "H7" },
    { id: "two", kind: "bore", diameter: "10", diameterTolerance: "H7" },
  ];
  const dimensions = [
    { id: "one x", from: "left", to: "one", axis: "X", nominal: "10", tolerance: "±0.02" },
    { id: "one y", from: "front", to: "one", axis: "Y", nominal: "20", tolerance: "±0.03" },
    { id: "two x", from: "one", to: "two", axis: "X", nominal: "80", tolerance: "±0.02" },
    { id: "two y", from: "one", to: "two", axis: "Y", nominal: "0", tolerance: "±0.04" },
  ];
  const job = (secondary: string): Job => ({
    elements: rounds,
    dimensions,
    touches: [touchLeft, touchFront],
    systems: [{ id: "S", primary: "one", secondary }],
    characteristics: [position("S")],
  });

  it("the axis of a bore places, a face turns: of the bore's own place nothing is left but what the zero does not follow", () => {
    // The hole is cut from left and front; the bore is off by its own dimensions, ±0.02 and ±0.03.
    expect(reachOf(job("left"), "dimension one x")).toBeCloseTo(-0.02, 12);
    expect(reachOf(job("left"), "dimension one y", 1)).toBeCloseTo(-0.03, 12);
    expect(reachOf(job("left"), "dimension two y", 1)).toBe(0);
  });

  it("the line to a second bore turns: 0.04 over 80 moves the hole, 20 along X and 30 along Y from the first, by 0.01 and 0.015", () => {
    expect(reachOf(job("two"), "dimension two y", 1)).toBeCloseTo((-0.04 / 80) * 20, 12);
    expect(reachOf(job("two"), "dimension two y", 0)).toBeCloseTo((0.04 / 80) * 30, 12);
    expect(reachOf(job("two"), "dimension two x", 0)).toBe(0);
  });

  it("holes that are cut here are datums as well: what all of them follow cancels", () => {
    const here = (id: string, x: string, y: string) => ({ id, kind: "bore", made: "here", diameter: "6", x, y, process: "0.01" });
    const stacks = stacksOf(
      {
        elements: [...elements, here("one", "10", "20"), here("two", "90", "20")],
        systems: [{ id: "S", primary: "one", secondary: "two" }],
        characteristics: [position("S")],
        touches: [
          { ...touchLeft, readings: "-3.2" },
          { ...touchFront, readings: "-2.9" },
        ],
      },
      "thisPart",
    );
    expect(stacks[0]?.deviation).toBeCloseTo(0, 12);
    expect(stacks[0]?.rows.map(({ source }) => source.family)).toEqual(stacks[0]?.rows.map(() => "process"));
  });
});

it("moving the whole part moves no deviation from any datum system", () => {
  fc.assert(
    fc.property(fc.double({ min: -200, max: 200, noNaN: true }), fc.double({ min: -200, max: 200, noNaN: true }), (x, y) => {
      const touches = [
        { ...touchLeft, readings: typed(x - 3), y: typed(y + 40) },
        { ...touchFront, readings: typed(y - 3), x: typed(x + 50) },
        { ...touchRight, readings: typed(x + 103.06), y: typed(y + 40) },
      ];
      for (const primary of ["left", "centre", "right"]) {
        const job = { systems: [{ id: "S", primary, secondary: "front" }], characteristics: [position("S")] };
        const [still, moved] = [valuesOf(job, "thisPart"), valuesOf({ ...job, touches }, "thisPart")];
        for (const i of [0, 1]) expect(moved[i]).toBeCloseTo(still[i] as number, 9);
      }
    }),
    { numRuns: 15 },
  );
});

it("a fixture that holds the datum itself leaves no size, one that holds the other side all of it", () => {
  // A stop 0.02 proud at the right moves the part by -0.02, and the size with it.
  const stop = (element: string) => ({
    locators: [
      { id: "pad 1", kind: "pad", element: "bottom", x: "10", y: "10" },
      { id: "pad 2", kind: "pad", element: "bottom", x: "90", y: "10" },
      { id: "pad 3", kind: "pad", element: "bottom", x: "50", y: "70" },
      { id: "stop 1", kind: "stop", element: "front", x: "10", z: "5" },
      { id: "stop 2", kind: "stop", element: "front", x: "90", z: "5" },
      { id: "stop 3", kind: "stop", element, y: "40", z: "5" },
    ],
  });
  const reach = (element: string, primary: string) => {
    const document = plate({ systems: [{ id: "S", primary, secondary: "front" }], characteristics: [position("S")] });
    const { fixture } = evaluateSetup({
      ...document,
      fixture: {
        ...document.fixture,
        ...documentFrom({ part: { elements: [] }, tools: [], touches: [], strategies: [], fixture: stop(element) }).fixture,
      },
    });
    const located = fixture && must(fixture.located);
    const [stack] = located?.judgement.stacks.map(must) ?? [];
    return stack?.rows.find(({ source }) => source.id.startsWith("dimension width"))?.reaches[0] ?? 0;
  };
  expect(reach("left", "left")).toBe(0);
  expect(reach("right", "right")).toBe(0);
  expect(Math.abs(reach("left", "right"))).toBeCloseTo(0.1, 12);
  expect(Math.abs(reach("left", "centre"))).toBeCloseTo(0.05, 12);
  expect(Math.abs(reach("right", "centre"))).toBeCloseTo(0.05, 12);
});

describe("what is refused at its place", () => {
  const system = (change: object) => told({ systems: [{ id: "S", ...change }], characteristics: [position("S")] });
  it.each([
    ["a datum that no element carries", { primary: "E" }, /^part\.datumSystems\.S\.primary: no element carries this datum/],
    ["no primary datum", {}, /^part\.datumSystems\.S\.primary: a datum system needs at least its primary/],
    [
      "a place left out",
      { primary: "left", tertiary: "front" },
      /^part\.datumSystems\.S\.secondary: a datum before this system's last one is missing/,
    ],
    ["the same twice", { primary: "left", secondary: "B" }, /^part\.datumSystems\.S\.secondary: a datum counts once/],
    [
      "parallel normals",
      { primary: "left", secondary: "right" },
      /^part\.datumSystems\.S\.secondary: "right" fixes nothing that the datums before it leave open/,
    ],
    ["no place along Y", { primary: "left" }, /^part\.characteristics\.position\.datums: the datums of "S" fix no place along Y/],
  ] as const)("%s", (_, change, expected) => {
    const lines = system(change);
    expect(lines.some((line) => expected.test(line))).toBe(true);
  });

  it("an axis alone, which leaves the turn open", () => {
    const bore = { id: "one", kind: "bore", diameter: "10", datum: "D", x: "10", y: "20" };
    expect(told({ elements: [...elements, bore], systems: [{ id: "S", primary: "one" }], characteristics: [position("S")] })).toEqual([
      expect.stringMatching(/^part\.characteristics\.position\.datums: .* leave the turn about Z open/),
    ]);
  });

  it("a system that is not there, or cannot be read", () => {
    expect(told({ characteristics: [position("T")] })).toEqual([expect.stringMatching(/datums: there is no datum system by this name/)]);
    expect(system({ primary: "E" })).toContainEqual(expect.stringMatching(/position\.datums: this datum system cannot be read/));
  });

  it("a letter that several elements carry", () => {
    const twice = elements.map((element) => (element.id === "right" ? { ...element, datum: "B", x: "100" } : element));
    expect(told({ elements: twice, dimensions: [], systems: [{ id: "S", primary: "B", secondary: "front" }] })).toEqual([
      expect.stringMatching(/^part\.datumSystems\.S\.primary: several elements carry the letter B/),
    ]);
  });

  it("datums of a demand that goes by another element", () => {
    const distance = { id: "d", kind: "distance", of: "hole", from: "left", axis: "X", tolerance: "0.1", datums: "S" };
    expect(told({ systems: [{ id: "S", primary: "left", secondary: "front" }], characteristics: [distance] })).toEqual([
      expect.stringMatching(/^part\.characteristics\.d\.datums: a distance goes by no datum system/),
    ]);
  });
});
