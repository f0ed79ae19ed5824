import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { lookForSlips } from "../../lib/slips/lookForSlips.ts";
import { documentFrom } from "../properties/setups.ts";

const block = {
  part: {
    elements: [
      { id: "left", kind: "face", outward: "-X", datum: "A" },
      { id: "front", kind: "face", outward: "-Y", datum: "B" },
      { id: "top", kind: "face", outward: "+Z", datum: "C" },
      { id: "bore", kind: "bore", x: "50", y: "40", diameter: "20", diameterTolerance: "±0.03" },
    ],
    dimensions: [
      { id: "bore X", from: "left", to: "bore", axis: "X", nominal: "50", tolerance: "±0.5" },
      { id: "bore Y", from: "front", to: "bore", axis: "Y", nominal: "40", tolerance: "±0.5" },
    ],
  },
  tools: [
    {
      id: "pin",
      kind: "tool or pin",
      radius: "3",
      radiusUncertainty: "0.002",
      scatter: "0.002",
      length: "100",
      lengthUncertainty: "0.002",
    },
    { id: "clock", kind: "swept indicator", scatter: "0.002" },
  ],
  machine: { register: "G54" },
  touches: [
    { id: "l", element: "left", travelling: "+X", tool: "pin", readings: "-403" },
    { id: "f", element: "front", travelling: "+Y", tool: "pin", readings: "-203" },
    { id: "t", element: "top", travelling: "-Z", tool: "pin", readings: "-200" },
  ],
  strategies: [{ id: "corner", touches: ["l", "f", "t"] }],
  chosen: "corner",
};

/** What one rule says of the block with more stated of it. */
function answer(rule: string, more: Readonly<Record<string, unknown>>) {
  const evaluation = evaluateSetup(documentFrom({ ...block, ...more }));
  const inUse = evaluation.strategies[0]?.evaluation;
  const found = lookForSlips(evaluation, inUse?.ok ? inUse.value : undefined).answers.find((each) => each.rule.name === rule)?.answer;
  if (found === undefined) throw new Error(`no rule "${rule}"`);
  return found.kind === "found" ? found.findings.map(({ at, evidence }) => `${at}: ${evidence}`) : found.kind;
}

// Every number is by hand: part zero is -400, -200 in the machine (F = R + 3).
describe("a shift left on, by the log", () => {
  const zero = { id: "zero", register: "G54", x: "-400", y: "-200", z: "-300" };

  it("is seen along every axis where one is on and nothing asks for it", () => {
    const rule = "shift left on";
    expect(answer(rule, {})).toBe("not applicable");
    expect(answer(rule, { offsets: [zero] })).toBe("not applicable");
    expect(
      answer(rule, { offsets: [zero, { id: "dry", kind: "global shift", z: "50" }, { id: "wet", kind: "global shift", z: "0" }] }),
    ).toBe("nothing");
    expect(answer(rule, { offsets: [zero, { id: "dry", kind: "global shift", z: "50" }] })).toEqual([
      "offsets.dry: +50.000 mm is in force along Z beyond what every register holds",
    ]);
    expect(answer(rule, { offsets: [zero, { id: "old", kind: "local shift", register: "G54", x: "120" }] })).toEqual([
      "offsets.old: +120.000 mm is in force along X beyond what G54 holds",
    ]);
  });

  it("is none that a nest asks for, and a global one beside it still is", () => {
    const nest = { id: "second", kind: "local shift", register: "G54", x: "120", nest: "two" };
    expect(answer("shift left on", { offsets: [zero, nest] })).toBe("nothing");
    expect(answer("shift left on", { offsets: [zero, nest, { id: "dry", kind: "global shift", x: "0.5" }] })).toHaveLength(1);
  });
});

describe("a machine position typed as a shift, by log and nests", () => {
  const rule = "machine position typed as a shift";
  const nests = [
    { id: "one", x: "0", y: "0" },
    { id: "two", x: "120", y: "0" },
  ];
  const zero = { id: "zero", register: "G54", x: "-400", y: "-200" };
  const shift = (x: string) => ({ id: "second", kind: "local shift", register: "G54", x, y: "0", nest: "two" });

  // The second nest stands at -400 + 120 = -280 in the machine.
  it("is seen in a local shift of the log", () => {
    expect(answer(rule, { nests, offsets: [zero, shift("120.02")] })).toBe("nothing");
    const [told, ...others] = answer(rule, { nests, offsets: [zero, shift("-280.02")] });
    expect(others).toEqual([]);
    expect(told).toContain("offsets.second: the shift along X is -280.020 mm for a pitch of 120.000 mm");
  });

  it("is seen where a nest was found, beside the zero in use", () => {
    const found = (foundX: string) => [nests[0], { ...nests[1], foundX, foundY: "0" }];
    expect(answer(rule, { nests: found("120.01") })).toBe("nothing");
    expect(answer(rule, { nests: found("-279.99") })).toHaveLength(1);
  });
});

// A bore of 20 about (50, 40) of the part, that is (-350, -160) in the machine, touched by a pin of 3 on all sides: the pin stands 7 off the middle.
describe("the diameter of a round wall", () => {
  const side = (id: string, travelling: string, axis: 0 | 1, at: number) => ({
    id,
    element: "bore",
    travelling,
    tool: "pin",
    readings: String(at),
    ...(axis === 0 ? { y: "-160" } : { x: "-350" }),
  });
  const touched = (half: number) => ({
    touches: [
      ...block.touches,
      side("b1", "+X", 0, -350 + half),
      side("b2", "-X", 0, -350 - half),
      side("b3", "+Y", 1, -160 + half),
      side("b4", "-Y", 1, -160 - half),
    ],
  });

  it("is compared with the drawing's", () => {
    expect(answer("poor centre of a round wall", touched(7.01))).toBe("nothing");
    // 0.3 beyond limits of ±0.03, that is 30 of their standard deviations of 0.01.
    expect(answer("poor centre of a round wall", touched(7.15))).toEqual([
      'touches: the touches find the diameter of "bore" +0.300 mm beside what is known of it',
    ]);
  });
});

// The first sweep reads 0.2 more on the + side: the axis lies 0.1 farther along X.
describe("a total indicator reading used for the shift", () => {
  const sweep = (id: string, x: string, total: string) => ({
    id,
    element: "bore",
    travelling: "sweep",
    tool: "clock",
    readings: `X${x} Y-160`,
    total: { x: total, y: "0" },
  });
  const swept = (x: string, total: string) => ({ touches: [...block.touches, sweep("s1", "-350.1", "0.2"), sweep("s2", x, total)] });

  it("is seen by the next sweep of the same wall", () => {
    const rule = "total indicator reading used for the shift";
    expect(answer(rule, { touches: [...block.touches, sweep("s1", "-350.1", "0.2")] })).toBe("not applicable");
    expect(answer(rule, swept("-350", "0"))).toBe("nothing");
    expect(answer(rule, swept("-349.9", "-0.2"))).toHaveLength(1);
  });

  // Half of 0.001 is 0.0005, which a display of 0.001 shows as 0.001: the whole of a total reading that is less than the indicator's scatter of 0.002.
  it("is not seen in a total reading that says nothing", () => {
    const rule = "total indicator reading used for the shift";
    expect(answer(rule, { touches: [...block.touches, sweep("s1", "-350.001", "0.001"), sweep("s2", "-350", "0")] })).toBe("nothing");
  });

  // Of a lever at 60° half of what is shown is true: the axis was 0.05 away, and half of the total reading is the whole of what was true of it.
  it("counts what is true of the reading of a lever, and suggests half of that", () => {
    const rule = "total indicator reading used for the shift";
    const tools = block.tools.map((tool) => (tool.id === "clock" ? { ...tool, leverAngle: "60" } : tool));
    expect(answer(rule, { ...swept("-350.05", "0"), tools })).toBe("nothing");
    expect(answer(rule, { ...swept("-350", "-0.2"), tools })).toHaveLength(1);
    expect(answer(rule, { ...swept("-349.9", "-0.6"), tools })).toHaveLength(1);
  });
});

describe("a reading written down after the way back", () => {
  const rule = "reading written down after the retract";
  const over = { id: "over", tool: "pin", x: "0", y: "0", clearance: "10" };
  const check = (readings: string) => ({ id: "again", element: "top", travelling: "-Z", tool: "pin", readings });

  it("is seen by the clearance of the tool's check move", () => {
    expect(answer(rule, { checks: [check("-190")] })).toBe("not applicable");
    expect(answer(rule, { checks: [check("-200")], checkMoves: [over] })).toBe("nothing");
    expect(answer(rule, { checks: [check("-190")], checkMoves: [over] })).toHaveLength(1);
  });
});

describe("made parts and the age of a zero", () => {
  const measured = (deviations: readonly number[]) => ({
    madeParts: { measured: deviations.map((x, i) => ({ id: `m${i}`, part: `p${i}`, element: "bore", tool: "pin", x: String(x) })) },
  });

  it("parts that alternate look corrected each, parts that do not do not", () => {
    const rule = "corrected on too few parts";
    expect(answer(rule, {})).toBe("not applicable");
    expect(answer(rule, measured([0.01, 0.012, 0.009, 0.011, 0.013, 0.01, 0.012, 0.011]))).toBe("nothing");
    expect(answer(rule, measured(Array.from({ length: 16 }, (_, i) => (i % 2 === 0 ? 0.02 : -0.02))))).toHaveLength(1);
  });

  // One part scatters by 0.003: a deviation of 0.060 is 20 of it, what was measured on each part by hand.
  describe("with a correction between", () => {
    const wrong = "correction with the wrong sign or in the wrong place";
    const tooFew = "corrected on too few parts";
    const features = ["bore", "slot"];
    const made = (parts: readonly (readonly [bore: number, slot: number])[], corrections: readonly object[], more: object = {}) => ({
      part: {
        ...block.part,
        elements: [...block.part.elements, { id: "slot", kind: "bore", x: "80", y: "40", diameter: "10" }],
      },
      madeParts: {
        measured: parts.flatMap((values, i) =>
          values.map((x, k) => ({
            id: `${i + 1} ${features[k]}`,
            part: String(i + 1),
            element: features[k],
            tool: `cutter ${k + 1}`,
            x: String(x),
          })),
        ),
        corrections: corrections.map((each, i) => ({ id: `c${i + 1}`, ...each })),
        partScatter: "0.003",
        ...more,
      },
    });
    const back = { after: "1", x: "-0.06" };

    it("one that took the next part farther off by as much has the wrong sign", () => {
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.061],
              [0.002, -0.001],
            ],
            [],
          ),
        ),
      ).toBe("not applicable");
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.061],
              [0.002, -0.001],
            ],
            [back],
          ),
        ),
      ).toBe("nothing");
      const [told, ...others] = [
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.121, 0.119],
            ],
            [back],
          ),
        ),
      ].flat();
      expect(others).toEqual([]);
      expect(told).toBe(
        'madeParts.corrections.c1: "all that was measured along X" was off by +0.060 mm, and after a correction of -0.060 mm by +0.120 mm',
      );
      // Typed as it went in, away from the target.
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.121, 0.119],
            ],
            [{ after: "1", x: "0.06" }],
          ),
        ),
      ).toHaveLength(1);
      // Half of what was found, with the wrong sign, is 0.030 farther off.
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.09, 0.091],
            ],
            [{ after: "1", x: "-0.03" }],
          ),
        ),
      ).toHaveLength(1);
    });

    it("is not judged where it is not known how parts scatter, or it cannot be read", () => {
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.12, 0.12],
            ],
            [back],
            { partScatter: "" },
          ),
        ),
      ).toBe("not applicable");
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.12, 0.12],
            ],
            [{ ...back, x: "abc" }],
          ),
        ),
      ).toBe("not applicable");
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.12, 0.12],
            ],
            [{ ...back, after: "3" }],
          ),
        ),
      ).toBe("not applicable");
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.12, 0.12],
            ],
            [{ ...back, tool: "cutter 3" }],
          ),
        ),
      ).toBe("not applicable");
    });

    it("one of a single tool is in the wrong place where all tools are off alike", () => {
      const one = { ...back, tool: "cutter 1" };
      expect(answer(wrong, made([[0.06, 0.001]], [one]))).toBe("nothing");
      expect(answer(wrong, made([[0.06, 0.061]], [back]))).toBe("nothing");
      expect(answer(wrong, made([[0.06, 0.061]], [one]))).toEqual(["madeParts.corrections.c1: all of 2 tools are off by about the same"]);
      // Only parts since the correction before count: there the slot is right.
      const again = [
        { after: "1", x: "-0.06" },
        { after: "2", x: "-0.06", tool: "cutter 1" },
      ];
      expect(
        answer(
          wrong,
          made(
            [
              [0.06, 0.06],
              [0.06, 0],
            ],
            again,
          ),
        ),
      ).toBe("nothing");
    });

    // 2·0.003 for one part, 2·0.003/√4 = 0.003 for four.
    it("one that rests on less than scatter is one on too few parts", () => {
      expect(answer(tooFew, made([[0.06, 0.06]], [back]))).toBe("nothing");
      expect(answer(tooFew, made([[0.004, 0.006]], [{ after: "1", x: "-0.005" }]))).toEqual([
        'madeParts.corrections.c1: "all that was measured along X" is off by +0.005 mm on one part; scatter alone gives up to +0.006 mm',
      ]);
      const four = [0.004, 0.006, 0.005, 0.005].map((x) => [x, x] as const);
      expect(answer(tooFew, made(four, [{ after: "4", x: "-0.005" }]))).toBe("nothing");
      expect(
        answer(
          tooFew,
          made(four, [
            { after: "1", y: "-0.06" },
            { after: "4", x: "-0.005" },
          ]),
        ),
      ).toBe("nothing");
      expect(
        answer(
          tooFew,
          made(four, [
            { after: "3", x: "-0.06" },
            { after: "4", x: "-0.005" },
          ]),
        ),
      ).toHaveLength(1);
    });
  });

  // 0.04·(1 - exp(-t/40)): set cold, it has drifted by 0.039 after 150 minutes; set after 100, by 0.0023.
  it("a zero that was set cold is too old when the drift by the curve is more than is allowed", () => {
    const readings = Array.from({ length: 16 }, (_, i) => ({
      id: `w${i}`,
      minutes: String(10 * i),
      reading: (-200 + 0.04 * (1 - Math.exp(-i / 4)) + (i % 2 === 0 ? 0.0002 : -0.0002)).toFixed(4),
    }));
    const warmed = (setAt: string) => answer("zero set cold, or too long ago", { warmUp: { readings, allowed: "0.01", setAt } });
    expect(warmed("100")).toBe("nothing");
    expect(warmed("0")).toHaveLength(1);
    expect(answer("zero set cold, or too long ago", {})).toBe("not applicable");
  });
});

// A plate of 120 by 80 with a bore at (45, 40), bored as drawn and turned over about X, so that its left face is at the left again and its front at the back: the bore lies
// 45 from the left face. Turned about Y the right face would be there, and the bore 120 - 45 = 75 from it.
describe("a part that was turned over", () => {
  const turned = (boreX: number) => ({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "A" },
        // A shoulder looks the same way as the face that the part would lie against.
        { id: "shoulder", kind: "face", outward: "+X" },
        { id: "right", kind: "face", outward: "+X" },
        { id: "front", kind: "face", outward: "-Y", datum: "B" },
        { id: "top", kind: "face", outward: "+Z", datum: "C" },
        { id: "bottom", kind: "face", outward: "-Z" },
        { id: "hole", kind: "bore", made: "here", operation: "10", x: "45", y: "40", diameter: "20", process: "0.004" },
        { id: "pocket", kind: "bore", made: "here", operation: "20", x: "45", y: "40", diameter: "30", process: "0.004" },
      ],
      dimensions: [
        { id: "length", from: "left", to: "right", axis: "X", nominal: "120", tolerance: "±0.1" },
        { id: "short", from: "left", to: "shoulder", axis: "X", nominal: "100", tolerance: "±0.1" },
        { id: "thickness", from: "bottom", to: "top", axis: "Z", nominal: "20", tolerance: "±0.1" },
      ],
    },
    operations: [
      { id: "10", lies: "as drawn", chosen: "first" },
      { id: "20", lies: "turned over about X", chosen: "second" },
    ],
    operation: "20",
    touches: [
      ...block.touches.map((touch) => ({ ...touch, operation: "10" })),
      { id: "l2", operation: "20", element: "left", travelling: "+X", tool: "pin", readings: "-403" },
      { id: "f2", operation: "20", element: "front", travelling: "-Y", tool: "pin", readings: "-117" },
      { id: "b2", operation: "20", element: "bottom", travelling: "-Z", tool: "pin", readings: "-200" },
      { id: "h1", operation: "20", element: "hole", travelling: "+X", tool: "pin", readings: String(boreX + 7), y: "-160" },
      { id: "h2", operation: "20", element: "hole", travelling: "-X", tool: "pin", readings: String(boreX - 7), y: "-160" },
    ],
    strategies: [
      { id: "first", operation: "10", touches: ["l", "f", "t"] },
      { id: "second", operation: "20", touches: ["l2", "f2", "b2"] },
    ],
    chosen: "",
  });

  it("is told where the bore of the first side lies as another turn would have it", () => {
    const rule = "part turned over about another axis";
    expect(answer(rule, {})).toBe("not applicable");
    expect(answer(rule, turned(-355))).toBe("nothing");
    const [told, ...others] = answer(rule, turned(-325));
    expect(others).toEqual([]);
    expect(told).toContain("turned about X it should lie at 45.000 mm, turned about Y at 75.000 mm");
  });
});

describe("a typing slip in a reading that was taken in an older work frame", () => {
  const [, front, top] = block.touches;
  // Left stands at -400: the axis of the pin shows -403, which is 12.345 in a frame whose zero stands at -415.345.
  const inFrame = (readings: string, more = {}) =>
    answer("typing slip", {
      workFrames: [{ id: "old", x: "-415.345" }],
      touches: [{ ...block.touches[0], frame: "old", readings, ...more }, front, top],
    });

  it("is undone in the digits that were typed", () => {
    expect(inFrame("12.345 12.346 12.344")).toBe("nothing");
    expect(inFrame("12.345 12.345 13.245")).toEqual([
      'touches.l.readings: reading 3 of "l" is 13.245 mm, +0.900 mm beside the others; with an exchange of two digits undone it is 12.345 mm',
    ]);
    expect(inFrame("12.345 12.345 -12.345")).toEqual([
      'touches.l.readings: reading 3 of "l" is -12.345 mm, -24.690 mm beside the others; with a dropped or added minus undone it is 12.345 mm',
    ]);
    // -403.000 and -403.900 by the machine: exchanging those digits would be another slip.
    expect(inFrame("12.345 12.346 11.445")).toBe("nothing");
  });

  it("is one of a check too, and what is told of the check are its digits", () => {
    const checked = (readings: string) =>
      answer("typing slip", {
        workFrames: [{ id: "old", x: "-415.345" }],
        checks: [{ id: "again", element: "left", travelling: "+X", tool: "pin", frame: "old", readings }],
      });
    expect(checked("12.345")).toBe("nothing");
    expect(checked("13.245")).toEqual([
      'checks.again.readings: check "again" is 13.245 mm, +0.900 mm beside its prediction; with an exchange of two digits undone it is 12.345 mm',
    ]);
  });
});

describe("a block forgotten under a touch from above", () => {
  /** The top of the block is at -300; it lies askew by so much per mm along X, and a touch may have something under it. */
  const tops = (slope: number, under: readonly number[]) => ({
    touches: [
      ...block.touches.slice(0, 2),
      ...[
        [10, 10],
        [90, 10],
        [10, 70],
        [90, 70],
        [50, 40],
      ].flatMap(([x = 0, y = 0], i) =>
        under[i] === undefined
          ? []
          : [
              {
                id: `t${i + 1}`,
                element: "top",
                travelling: "-Z",
                tool: "pin",
                x: `${x - 400}`,
                y: `${y - 200}`,
                readings: (-200 + slope * (x - 10) + under[i]).toFixed(3),
              },
            ],
      ),
    ],
    strategies: [{ id: "corner", touches: ["l", "f", ...under.map((_, i) => `t${i + 1}`)] }],
  });
  const rule = "block or paper forgotten, or counted twice";

  it("is none where the face lies in a plane that is askew, by the thickness of paper over the part", () => {
    expect(answer(rule, tops(0.001, [0, 0, 0]))).toBe("not applicable");
    expect(answer(rule, tops(0.001, [0, 0, 0, 0]))).toBe("nothing");
    expect(answer(rule, tops(0.001, [0, 0, 0, 0, 0]))).toBe("nothing");
  });

  it("is told beside the plane of the other touches", () => {
    // In the middle of four corners the other four have their plane's height: 0.08 above it, whatever the tilt.
    for (const slope of [0, 0.001])
      expect(answer(rule, tops(slope, [0, 0, 0, 0, 0.08]))).toEqual([
        'touches.t5: the face by "t5" lies +0.080 mm beside the other touches of it: the thickness of a usual thickness of 0.08 mm',
      ]);
  });

  it("is told where the face would have to lie steeper than a part can, from three touches too", () => {
    expect(answer(rule, tops(0, [0, 25, 0]))).toEqual([
      'touches.t2: the face by "t2" lies +25.000 mm beside "t1": the thickness of a usual thickness of 25 mm',
    ]);
  });
});
