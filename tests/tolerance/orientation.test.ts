import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Stack } from "../../lib/tolerance/stack.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

// Zones: ISO 1101:2017, parallelism and perpendicularity (two planes at a distance t, or a cylinder of diameter t), clause from memory; the rest is plane
// geometry of small turns, with the arithmetic beside each check.

/** A block of 100 by 80 by 20. Bottom, left and front are there; top, right, back and the hole are cut here. */
const elements = [
  { id: "bottom", kind: "face", outward: "-Z", datum: "A" },
  { id: "left", kind: "face", outward: "-X", datum: "B" },
  { id: "front", kind: "face", outward: "-Y", datum: "C" },
  { id: "top", kind: "face", outward: "+Z", made: "here", z: "20" },
  { id: "right", kind: "face", outward: "+X", made: "here", x: "100" },
  { id: "back", kind: "face", outward: "+Y", made: "here", y: "80" },
  { id: "step", kind: "face", outward: "+X", made: "here", x: "60" },
  { id: "hole", kind: "bore", made: "here", diameter: "8", x: "50", y: "40", z: "20" },
];

const pads = (heights: readonly object[] = [{}, {}, {}]) => [
  { id: "pad 1", kind: "pad", element: "bottom", x: "10", y: "10", ...heights[0] },
  { id: "pad 2", kind: "pad", element: "bottom", x: "90", y: "10", ...heights[1] },
  { id: "pad 3", kind: "pad", element: "bottom", x: "50", y: "70", ...heights[2] },
];
const stops = [
  { id: "stop 1", kind: "stop", element: "left", y: "10", z: "10" },
  { id: "stop 2", kind: "stop", element: "left", y: "70", z: "10" },
  { id: "stop 3", kind: "stop", element: "front", x: "50", z: "10" },
];

/** Squareness ±0.02, ±0.02 and ±0.03 over 300 about X, Y and Z. */
const machine = { squareness: { x: "0.02", y: "0.02", z: "0.03" }, squarenessOver: "300" };
const tool = { id: "tool", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002", length: "100" };

interface Change {
  readonly machine?: object;
  readonly locators?: readonly object[];
  readonly rotation?: "ignored" | "measured" | "applied";
  readonly elements?: readonly object[];
  readonly skewed?: number;
  readonly touches?: readonly object[];
  readonly generalTolerance?: string;
}

/** Left is touched at Y 10 and 70, front once; the part is turned by `skewed` radians. */
function block(characteristic: object, change: Change = {}) {
  const { skewed = 0 } = change;
  const at = (y: number) => typed(-3 / Math.cos(skewed) - y * Math.tan(skewed));
  return documentFrom({
    part: {
      generalTolerance: change.generalTolerance ?? "none stated",
      elements: change.elements ?? elements,
      characteristics: [{ id: "demand", ...characteristic }],
    },
    tools: [tool],
    machine: change.machine ?? machine,
    fixture: { locators: change.locators ?? [...pads(), ...stops] },
    touches: change.touches ?? [
      { id: "left 1", element: "left", travelling: "+X", tool: "tool", readings: at(10), y: "10", z: "-10" },
      { id: "left 2", element: "left", travelling: "+X", tool: "tool", readings: at(70), y: "70", z: "-10" },
      {
        id: "front 1",
        element: "front",
        travelling: "+Y",
        tool: "tool",
        readings: typed(-3 / Math.cos(skewed) + 50 * Math.tan(skewed)),
        x: "50",
        z: "-10",
      },
    ],
    strategies: [{ id: "s", touches: ["left 1", "left 2", "front 1"], rotation: change.rotation ?? "applied" }],
  });
}

type View = "thisPart" | "batch";

function judged(characteristic: object, change: Change = {}, view: View = "thisPart") {
  const evaluation = evaluateSetup(block(characteristic, change));
  const [strategy] = evaluation.strategies;
  if (strategy === undefined) throw new Error("there is no strategy");
  return { evaluation, judgement: must(strategy.evaluation)[view] };
}

function stacksOf(characteristic: object, change: Change = {}, view: View = "thisPart"): readonly Stack[] {
  return judged(characteristic, change, view).judgement.stacks.map(must);
}

function only(stacks: readonly Stack[]): Stack {
  expect(stacks).toHaveLength(1);
  return stacks[0] as Stack;
}

/** Everything that keeps the demand from being read or judged, place and words. */
function refusals(characteristic: object, change: Change = {}, view: View = "thisPart"): string[] {
  const { evaluation, judgement } = judged(characteristic, change, view);
  const problems = [...evaluation.problems, ...judgement.stacks.flatMap((stack) => (stack.ok ? [] : stack.problems))];
  return [...new Set(problems.map(({ at, what }) => `${at}: ${what}`))].filter((line) => !line.startsWith("fixture.locators"));
}

const uncertaintyOf = ({ components: [x] }: Stack) => x?.standardUncertainty as number;

describe("a face that is touched at two places, and what is cut beside it", () => {
  // Two readings that scatter by 0.002, 60 apart, turn by 0.002·√2/60; the radius is common and turns nothing.
  const turn = (0.002 * Math.SQRT2) / 60;
  const square = 0.03 / 300 / Math.sqrt(3);

  it("a face cut along X, square to it, has the doubt of the turn and of the machine's squareness over its length of 100", () => {
    const demand = { kind: "perpendicularity", of: "back", from: "left", tolerance: "0.05", length: "100" };
    for (const view of ["thisPart", "batch"] as const) {
      const stack = only(stacksOf(demand, {}, view));
      expect(stack.deviation).toBeCloseTo(0, 12);
      expect(uncertaintyOf(stack)).toBeCloseTo(100 * Math.hypot(turn, square), 9);
      expect(stack.limits).toEqual({ lower: -0.05, upper: 0.05 });
    }
  });

  it("a face cut along Y, parallel to it, follows the same way as the touches: squareness about Z cancels", () => {
    const upright = elements.map((element) => (element.id === "left" ? { ...element, outOfSquare: "0" } : element));
    // Tilts both ways: over Y 80 the turn, over Z 20 the squareness about Y of what is upright; the two diagonals add and subtract them.
    const [one, other] = stacksOf(
      { kind: "parallelism", of: "right", from: "left", tolerance: "0.05", length: "80", width: "20" },
      { elements: upright },
    ) as [Stack, Stack];
    const tilt = 0.02 / 300 / Math.sqrt(3);
    for (const stack of [one, other]) expect(uncertaintyOf(stack)).toBeCloseTo(Math.hypot(80 * turn, 20 * tilt), 9);
  });

  it("the angle between the two is the turn itself, in radians", () => {
    const stack = only(stacksOf({ kind: "angle", of: "back", from: "left", tolerance: "±0.02 deg" }));
    expect(stack.unit).toBe("rad");
    expect(stack.limits.upper).toBeCloseTo((0.02 * Math.PI) / 180, 15);
    expect(uncertaintyOf(stack)).toBeCloseTo(Math.hypot(turn, square), 12);
  });

  // ISO 2768-1, table 3, class m: ±0°20' for shorter sides over 50 up to 120 mm (values from memory); 20 minutes are a third of a degree.
  it("an angle without a tolerance has the general one, by the length of its shorter side", () => {
    const stack = only(stacksOf({ kind: "angle", of: "back", from: "left", length: "80" }, { generalTolerance: "ISO 2768-m" }));
    expect(stack.limits.upper).toBeCloseTo(Math.PI / 180 / 3, 12);
    expect(stack.limits.lower).toBeCloseTo(-Math.PI / 180 / 3, 12);
    const told = (demand: object) =>
      evaluateSetup(block({ kind: "angle", of: "back", from: "left", ...demand }, { generalTolerance: "ISO 2768-m" })).problems.map(
        ({ at, what }) => `${at}: ${what}`,
      );
    expect(told({})).toContainEqual(expect.stringMatching(/demand\.length: the general tolerance of an angle goes by/));
    expect(told({ length: "80", tolerance: "±0.1 deg" })).toContainEqual(
      expect.stringMatching(/demand\.length: this says nothing of an angle/),
    );
  });

  it("a strategy that does not look at the turn cuts by the whole of it", () => {
    // Turned by 0.001: over 100 that is 0.1.
    const demand = { kind: "perpendicularity", of: "back", from: "left", tolerance: "0.3", length: "100" };
    const stack = only(stacksOf(demand, { rotation: "ignored", skewed: 0.001 }));
    expect(Math.abs(stack.deviation)).toBeCloseTo(0.1, 6);
    expect(Math.abs(only(stacksOf(demand, { skewed: 0.001 })).deviation)).toBeCloseTo(0, 9);
  });

  it("two faces cut here by X and by Y differ by the squareness about Z alone, over the length of the one that is judged", () => {
    // Right is cut along Y, over 80: at worst 80·0.03/300 = 0.008.
    const stack = only(stacksOf({ kind: "perpendicularity", of: "right", from: "back", tolerance: "0.05", length: "80" }));
    expect(stack.worstCase.upper).toBeCloseTo(0.008, 12);
    expect(stack.rows.map(({ source }) => source.id)).toEqual(["machine, squareness about Z"]);
  });
});

describe("tilts, which locators hold", () => {
  // Through (10, 10, 0.01), (90, 10, 0.05), (50, 70, 0.06): 0.04/80 = 0.0005 along X, (0.06 - 0.03)/60 = 0.0005 along Y.
  const lifted = { locators: [...pads([{ height: "0.01" }, { height: "0.05" }, { height: "0.06" }]), ...stops] };

  it("a top cut flat over a bottom that rises by 0.0005 both ways is out by the rise of each diagonal: 0.09 and 0.01", () => {
    const stacks = stacksOf({ kind: "parallelism", of: "top", from: "bottom", tolerance: "0.1", length: "100", width: "80" }, lifted);
    const off = stacks.map(({ deviation }) => Math.abs(deviation)).sort((a, b) => b - a);
    expect(off[0]).toBeCloseTo(0.0005 * (100 + 80), 12);
    expect(off[1]).toBeCloseTo(0.0005 * (100 - 80), 12);
  });

  it("the hole leans against the bottom by 0.0005·√2, over 20 a cylinder of diameter 0.0141", () => {
    const stack = only(stacksOf({ kind: "perpendicularity", of: "hole", from: "bottom", tolerance: "0.05", length: "20" }, lifted));
    expect(stack.isRound).toBe(true);
    expect(stack.deviation).toBeCloseTo(20 * 0.0005 * Math.SQRT2, 12);
  });

  it("towards X alone it leans by 0.0005 over 20", () => {
    const demand = { kind: "perpendicularity", of: "hole", from: "bottom", axis: "X", tolerance: "0.05", length: "20" };
    expect(Math.abs(only(stacksOf(demand, lifted)).deviation)).toBeCloseTo(20 * 0.0005, 12);
  });

  it("the squareness of what is upright leans the hole: at worst 20·0.02/300 towards each side", () => {
    const demand = { kind: "perpendicularity", of: "hole", from: "bottom", axis: "Y", tolerance: "0.05", length: "20" };
    expect(only(stacksOf(demand)).worstCase.upper).toBeCloseTo((20 * 0.02) / 300, 12);
  });

  it("pads within ±0.01 tilt about Y by ±0.02/80 at worst, and by locating alone so does the top", () => {
    const error = { heightError: "0.01" };
    const { evaluation } = judged(
      { kind: "angle", of: "top", from: "bottom", axis: "Y", tolerance: "±0.1" },
      { locators: [...pads([error, error, {}]), ...stops] },
    );
    const located = must((evaluation.fixture as NonNullable<typeof evaluation.fixture>).located);
    expect(must(located.judgement.stacks[0] as never as { ok: true; value: Stack }).worstCase.upper).toBeCloseTo(0.02 / 80, 12);
  });

  it("the lengths are the part's size across where none is stated", () => {
    const opposite = [
      ...elements,
      { id: "right before", kind: "face", outward: "+X", datum: "D", x: "100" },
      { id: "back before", kind: "face", outward: "+Y", datum: "E", y: "80" },
    ];
    const demand = { kind: "parallelism", of: "top", from: "bottom", tolerance: "0.1" };
    const stated = stacksOf({ ...demand, length: "100", width: "80" }, lifted);
    expect(stacksOf(demand, { ...lifted, elements: opposite }).map(({ deviation }) => deviation)).toEqual(
      stated.map(({ deviation }) => deviation),
    );
  });
});

describe("a turn that no entry determines is a problem, never a doubt of nothing", () => {
  const perpendicular = { kind: "perpendicularity", of: "back", from: "left", tolerance: "0.05", length: "100" };

  it("squareness that is not stated", () => {
    expect(refusals(perpendicular, { machine: {} })).toEqual([
      expect.stringMatching(/^machine\.squareness\.z: how "back" stands to "left" rests on the squareness of the machine about Z/),
    ]);
  });

  it("a tilt without locators", () => {
    expect(
      refusals({ kind: "parallelism", of: "top", from: "bottom", tolerance: "0.1", length: "100", width: "80" }, { locators: [] }),
    ).toEqual([
      expect.stringMatching(/nothing determines how the part is tilted about X/),
      expect.stringMatching(/nothing determines how the part is tilted about Y/),
    ]);
  });

  it("a datum that another face than itself orients, until its own angle is stated", () => {
    const demand = { ...perpendicular, of: "right", from: "front" };
    expect(refusals(demand)).toEqual([expect.stringMatching(/^part\.elements\.front\.outOfSquare: .*demand rests on it/)]);
    // ±0.01 deg over 100: at worst 100·0.01·π/180; the turn by the touches and the squareness have their own part.
    const stated = elements.map((element) => (element.id === "front" ? { ...element, outOfSquare: "0.01" } : element));
    const row = only(stacksOf(demand, { elements: stated })).rows.find(
      ({ source }) => source.id === "element front, out of square about Z",
    );
    expect(Math.abs(row?.reaches[0] ?? 0)).toBeCloseTo((100 * 0.01 * Math.PI) / 180, 9);
  });

  it("two cuts by the same motions", () => {
    expect(refusals({ ...perpendicular, kind: "parallelism", of: "right", from: "step", length: "80", width: "20" })).toEqual([
      expect.stringMatching(/cut here by the same motions.*about Y/),
      expect.stringMatching(/cut here by the same motions.*about Z/),
    ]);
  });

  it("the next part under a strategy that applies no turn, without locators that hold it", () => {
    expect(refusals(perpendicular, { rotation: "ignored", locators: pads() }, "batch")).toEqual([
      expect.stringMatching(/nothing determines how the part is turned about Z/),
    ]);
    // With two stops at the left, 60 apart and each within ±0.01, the locators tell it: back is cut along X, by which the fixture is taken to stand.
    const error = { heightError: "0.01" };
    const held = [...pads(), { ...stops[0], ...error }, { ...stops[1], ...error }, stops[2] as object];
    const stack = only(stacksOf(perpendicular, { rotation: "ignored", locators: held }, "batch"));
    expect(stack.worstCase.upper).toBeCloseTo((100 * 0.02) / 60, 9);
  });
});

describe("what is refused at its place", () => {
  const wrong: readonly (readonly [string, object, RegExp])[] = [
    [
      "the other relation",
      { kind: "parallelism", of: "back", from: "left", tolerance: "0.1", length: "100" },
      /demand\.kind: the drawing puts "back" and "left" square/,
    ],
    [
      "two that were there",
      { kind: "perpendicularity", of: "front", from: "left", tolerance: "0.1", length: "100" },
      /demand\.of: both were there/,
    ],
    [
      "no length",
      { kind: "perpendicularity", of: "hole", from: "bottom", tolerance: "0.1", length: "0" },
      /demand\.length: over what length along Z/,
    ],
    [
      "no such datum",
      { kind: "perpendicularity", of: "hole", from: "botom", tolerance: "0.1" },
      /demand\.from: there is no readable element/,
    ],
    [
      "itself",
      { kind: "parallelism", of: "top", from: "top", tolerance: "0.1", length: "1", width: "1" },
      /demand\.from: an element has no deviation from itself/,
    ],
    [
      "a length for an angle",
      { kind: "angle", of: "back", from: "left", tolerance: "0.1", length: "100" },
      /demand\.length: this says nothing of an angle/,
    ],
    [
      "an angle about its own normal",
      { kind: "angle", of: "back", from: "left", axis: "X", tolerance: "0.1" },
      /demand\.axis: the axis must be one about which/,
    ],
    ["no tolerance", { kind: "angle", of: "back", from: "left" }, /demand\.tolerance: the tolerance is missing/],
    ["a length as the tolerance of an angle", { kind: "angle", of: "back", from: "left", tolerance: "0.1 mm" }, /demand\.tolerance/],
    ["one limit", { kind: "angle", of: "back", from: "left", tolerance: "+0.1" }, /leaves the other limit open/],
  ];
  it.each(wrong)("%s", (_, characteristic, expected) => {
    expect(refusals(characteristic).some((line) => expected.test(line))).toBe(true);
  });

  it("squareness without the length over which it was found", () => {
    const demand = { kind: "perpendicularity", of: "back", from: "left", tolerance: "0.1", length: "100" };
    const { problems } = evaluateSetup(block(demand, { machine: { squareness: { z: "0.02" } } }));
    expect(problems.map(({ at }) => at)).toContain("machine.squarenessOver");
  });
});

describe("the machine's squareness moves places too", () => {
  it("a hole 60 from the touched height along Y is off by 60·0.03/300 along X at worst, one at that height by nothing", () => {
    // One touch at Y 10: the hole at Y 40 is 30 above it.
    const touches = [
      { id: "left 1", element: "left", travelling: "+X", tool: "tool", readings: "-3", y: "10" },
      { id: "left 2", element: "left", travelling: "+X", tool: "tool", readings: "-3", y: "10" },
      { id: "front 1", element: "front", travelling: "+Y", tool: "tool", readings: "-3", x: "50" },
    ];
    const reach = (y: string) => {
      const moved = elements.map((element) => (element.id === "hole" ? { ...element, y } : element));
      const { rows } = only(
        stacksOf({ kind: "position", of: "hole", tolerance: "0.2" }, { elements: moved, touches, rotation: "ignored" }),
      );
      return rows.find(({ source }) => source.id === "machine, squareness about Z")?.reaches[0] ?? 0;
    };
    expect(reach("70")).toBeCloseTo((-60 * 0.03) / 300, 12);
    expect(reach("10")).toBeCloseTo(0, 12);
  });

  it("asks for the Y of a touch along X", () => {
    const touches = [{ id: "left 1", element: "left", travelling: "+X", tool: "tool", readings: "-3" }];
    const { problems } = evaluateSetup(block({ kind: "position", of: "hole", tolerance: "0.2" }, { touches }));
    expect(problems.map(({ at }) => at)).toContain("touches.left 1.y");
  });
});

it("turning the part and all its touches leaves what a strategy that applies the turn makes of an orientation", () => {
  const demand = { kind: "perpendicularity", of: "back", from: "left", tolerance: "0.05", length: "100" };
  const still = only(stacksOf(demand));
  fc.assert(
    fc.property(fc.double({ min: -0.01, max: 0.01, noNaN: true }), (skewed) => {
      const turned = only(stacksOf(demand, { skewed }));
      expect(turned.deviation).toBeCloseTo(0, 9);
      // The ways' shares go with the squared cosine of the turn, at most 1e-4 of them here.
      expect(uncertaintyOf(turned)).toBeCloseTo(uncertaintyOf(still), 5);
    }),
    { numRuns: 20 },
  );
});
