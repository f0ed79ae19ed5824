import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, cross, turnAboutZ, type Vector } from "../../lib/base/vector.ts";
import { liftAt, tellsPlane } from "../../lib/datum/tilt.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { explainDisagreement } from "../../lib/slips/explain/explainDisagreement.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must, open, typed } from "../properties/setups.ts";

const length = 120;
const s = 0.002;
const tool = { id: "t", kind: "touch probe", radius: "3", length: String(length), lengthUncertainty: "0.004", scatter: String(s) };

/** A plate touched at the top, at drawing places whose machine heights are given; two touches along the front and one at the left place it. */
function plate(tops: readonly Vector[], more: { skew?: number; tables?: object } = {}) {
  const { skew = 0, tables = {} } = more;
  const machine = (point: Vector) => addScaled([-300, -200, 0], 1, turnAboutZ(point, skew));
  const side = (id: string, element: string, travelling: string, point: Vector) => {
    const [x, y] = machine(point);
    const alongX = travelling.endsWith("X");
    return { id, element, travelling, tool: "t", readings: typed(alongX ? x : y), ...(alongX ? { y: typed(y) } : { x: typed(x) }) };
  };
  return documentFrom({
    part: {
      elements: [
        { id: "top", kind: "face", outward: "+Z", datum: "A" },
        { id: "front", kind: "face", outward: "-Y", datum: "B" },
        { id: "left", kind: "face", outward: "-X", datum: "C" },
        { id: "floor", kind: "face", outward: "+Z", made: "here", z: "-10", x: "150", y: "90" },
        { id: "ledge", kind: "face", outward: "+Z", made: "here", z: "-4" },
      ],
      characteristics: [
        { id: "pocket", kind: "depth", of: "floor", from: "top", tolerance: "±0.05" },
        { id: "step", kind: "depth", of: "ledge", from: "top", tolerance: "±0.05" },
      ],
    },
    tools: [tool],
    touches: [
      ...tops.map((point, i) => {
        const [x, y] = machine([point[0], point[1], 0]);
        return {
          id: `top ${i}`,
          element: "top",
          travelling: "-Z",
          tool: "t",
          readings: typed(point[2] + length),
          x: typed(x),
          y: typed(y),
        };
      }),
      side("f1", "front", "+Y", [20, -3, 0]),
      side("f2", "front", "+Y", [140, -3, 0]),
      side("l", "left", "+X", [-3, 50, 0]),
    ],
    strategies: [{ id: "s", touches: [...tops.map((_, i) => `top ${i}`), "f1", "f2", "l"], rotation: "applied" }],
    ...tables,
  });
}

const places: readonly (readonly [number, number])[] = [
  [5, 10],
  [150, 15],
  [70, 95],
  [10, 90],
];
const heights = fc.array(
  fc.integer({ min: -500, max: 500 }).map((tenths) => -150 + tenths / 10_000),
  { minLength: 4, maxLength: 4 },
);
const skews = fc.integer({ min: -20, max: 20 }).map((milliradians) => milliradians / 1000);

function tops(count: 3 | 4, z: readonly number[]): Vector[] {
  return places.slice(0, count).map(([x, y], i): Vector => [x, y, z[i] as number]);
}

describe("three touches from above", () => {
  it("the plane is the one through them: its normal is the cross product of two sides (handbook formula)", () => {
    fc.assert(
      fc.property(heights, skews, (z, skew) => {
        const points = tops(3, z) as [Vector, Vector, Vector];
        const [a, b, c] = points;
        const [nx, ny, nz] = cross(addScaled(b, -1, a), addScaled(c, -1, a));
        const tilt = open(plate(points, { skew })).location.tilt;
        expect(tilt?.slopes[0].value).toBeCloseTo(-nx / nz, 9);
        expect(tilt?.slopes[1].value).toBeCloseTo(-ny / nz, 9);
        expect(tilt?.about.X.value).toBeCloseTo(Math.atan(-ny / nz), 9);
        expect(tilt?.about.Y.value).toBeCloseTo(Math.atan(nx / nz), 9);
        expect(tilt?.agreement).toBeUndefined();
        for (const [x, y, height] of points)
          expect((tilt?.height.value as number) + liftAt(tilt as NonNullable<typeof tilt>, x, y).value).toBeCloseTo(height, 8);
      }),
      { numRuns: 40 },
    );
  });
});

/** Normal equations of z = h + a x + b y about the mean, solved by Cramer's rule. */
function planeByHand(points: readonly Vector[]) {
  const n = points.length;
  const mean = (axis: 0 | 1 | 2) => points.reduce((total, point) => total + point[axis], 0) / n;
  const [mx, my, mz] = [mean(0), mean(1), mean(2)];
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const [x, y, z] of points) {
    xx += (x - mx) ** 2;
    xy += (x - mx) * (y - my);
    yy += (y - my) ** 2;
    xz += (x - mx) * (z - mz);
    yz += (y - my) * (z - mz);
  }
  const det = xx * yy - xy * xy;
  return {
    slopes: [(xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det] as const,
    uncertainties: [s * Math.sqrt(yy / det), s * Math.sqrt(xx / det)] as const,
    middle: [mx, my] as const,
    height: mz,
    /** Covariance of the slopes over s². */
    covariance: [yy / det, -xy / det, xx / det] as const,
  };
}

describe("four touches from above", () => {
  it("the plane is the least-squares one; the tool's length is in its height and in no slope", () => {
    fc.assert(
      fc.property(heights, (z) => {
        const points = tops(4, z);
        const tilt = open(plate(points)).location.tilt;
        const hand = planeByHand(points);
        for (const axis of [0, 1] as const) {
          expect(tilt?.slopes[axis].value).toBeCloseTo(hand.slopes[axis], 9);
          expect(budgetOf(tilt?.slopes[axis] as never).standardUncertainty).toBeCloseTo(hand.uncertainties[axis], 10);
          expect(tilt?.middle[axis]).toBeCloseTo(hand.middle[axis], 8);
        }
        expect(tilt?.height.value).toBeCloseTo(hand.height, 9);
        expect(budgetOf(tilt?.height as never).standardUncertainty).toBeCloseTo(Math.hypot(0.004, s / 2), 9);
        // Four corners: what is left is a multiple of one pattern, so that all touches are off the plane by some of it.
        const sum = tilt?.offPlane.reduce((total, { value }) => total + value, 0) as number;
        expect(sum).toBeCloseTo(0, 9);
        expect(tilt?.agreement?.degreesOfFreedom).toBe(1);
      }),
      { numRuns: 30 },
    );
  });

  it("each stands off the plane of the three others as the cross product of those puts it", () => {
    fc.assert(
      fc.property(heights, (z) => {
        const points = tops(4, z);
        const tilt = open(plate(points)).location.tilt;
        points.forEach(([x, y, height], i) => {
          const [a, b, c] = points.filter((_, j) => j !== i) as [Vector, Vector, Vector];
          const [nx, ny, nz] = cross(addScaled(b, -1, a), addScaled(c, -1, a));
          const there = a[2] - (nx * (x - a[0]) + ny * (y - a[1])) / nz;
          const off = (tilt?.offPlane[i]?.value as number) / (1 - (tilt?.leverages[i] as number));
          expect(off).toBeCloseTo(height - there, 9);
        });
      }),
      { numRuns: 30 },
    );
  });

  it("a check at another place of the face is foreseen on the plane, with the doubt of the plane there", () => {
    const points = tops(4, [-150, -149.94, -149.98, -150.02]);
    const hand = planeByHand(points);
    const [x, y] = [140, 80];
    const check = { id: "c", element: "top", travelling: "-Z", tool: "t", x: typed(x - 300), y: typed(y - 200), readings: "-30" };
    const [checked] = evaluateSetup(plate(points, { tables: { checks: [check] } })).checks;
    if (!checked?.evaluation.ok) throw new Error(JSON.stringify(checked));
    const { predicted, verdict } = checked.evaluation.value;
    const [dx, dy] = [x - hand.middle[0], y - hand.middle[1]];
    expect(predicted.value).toBeCloseTo(hand.height + hand.slopes[0] * dx + hand.slopes[1] * dy + length, 9);
    const [cxx, cxy, cyy] = hand.covariance;
    // The length of the tool is in both, and goes out.
    const expected = s * Math.sqrt(1 + 1 / 4 + dx * dx * cxx + 2 * dx * dy * cxy + dy * dy * cyy);
    expect(verdict?.difference.standardUncertainty).toBeCloseTo(expected, 9);
  });

  it("a depth at a far corner is judged against the plane there; one at no place against the touches' middle", () => {
    const points = tops(4, [-150, -149.94, -149.98, -150.02]);
    const document = plate(points);
    const hand = planeByHand(points);
    const evaluation = evaluateSetup(document);
    const strategy = must(evaluation.strategies[0]?.evaluation as never) as Extract<
      (typeof evaluation.strategies)[number]["evaluation"],
      { ok: true }
    >["value"];
    const [pocket, step] = strategy.thisPart.stacks.map((stack) => must(stack).components[0]);
    const lift = hand.slopes[0] * (150 - hand.middle[0]) + hand.slopes[1] * (90 - hand.middle[1]);
    // Zero is the mean height; the floor is cut 10 below it, and the face stands higher there by the lift: so much deeper.
    expect(pocket?.value).toBeCloseTo(-lift, 8);
    expect(step?.value).toBeCloseTo(0, 8);
    const [dx, dy] = [150 - hand.middle[0], 90 - hand.middle[1]];
    const [cxx, cxy, cyy] = hand.covariance;
    const ofLift = s * Math.sqrt(dx * dx * cxx + 2 * dx * dy * cxy + dy * dy * cyy);
    expect(pocket?.standardUncertainty).toBeCloseTo(Math.hypot(0.004, s / 2, ofLift), 8);
    expect(step?.standardUncertainty).toBeCloseTo(Math.hypot(0.004, s / 2), 8);
    expect(evaluation.tilt).toMatchObject({ face: "top", touches: ["top 0", "top 1", "top 2", "top 3"] });
    expect(evaluation.tilt?.effects.map(({ characteristic, element, lift: at }) => [characteristic, element, at?.value])).toEqual([
      ["pocket", "floor", expect.closeTo(lift, 8)],
      ["step", "ledge", undefined],
    ]);
    const atOrigin = hand.height - hand.slopes[0] * hand.middle[0] - hand.slopes[1] * hand.middle[1];
    expect(evaluation.tilt?.heightAtOrigin?.value).toBeCloseTo(atOrigin, 8);
  });
});

describe("what is no plane", () => {
  it.each([
    ["two touches", tops(3, [-150, -150, -150]).slice(0, 2)],
    [
      "three on a line",
      [
        [10, 10, -150],
        [60, 20, -150],
        [110, 30, -150],
      ] as Vector[],
    ],
  ])("%s tell no tilt", (_, points) => {
    expect(open(plate(points)).location.tilt).toBeUndefined();
  });
});

describe("tellsPlane(places)", () => {
  it.each<[boolean, readonly (readonly [number, number, number])[]]>([
    [
      true,
      [
        [0, 0, 0],
        [100, 0, 0],
        [50, 80, 0],
      ],
    ],
    // On one line, however far apart and whichever way it runs: heights there leave the tilt across it open.
    [
      false,
      [
        [0, 0, 0],
        [50, 0, 0],
        [100, 0, 0],
      ],
    ],
    [
      false,
      [
        [-300, -200, 5],
        [-250, -150, 7],
        [-200, -100, 9],
      ],
    ],
    [
      false,
      [
        [0, 0, 0],
        [100, 0, 0],
      ],
    ],
    [false, []],
  ])("is %s of %j", (expected, places) => {
    expect(tellsPlane(places)).toBe(expected);
  });
});

/**
 * The origin of the drawing stands at -300, -200, -150, and the top rises by 0.001 per mm along X: a ball of radius 3 on a stylus of 120 reads -30 + 0.001 x there. The part leans
 * by as much: a place 40 below another lies 0.04 further along X.
 */
describe("a part that lies askew by 0.001 along X", () => {
  const ball = { id: "ball", kind: "touch probe", radius: "3", length: "120", scatter: "0.002" };
  const face = (id: string, outward: string, datum = "") => ({ id, kind: "face", outward, datum });
  const from = (id: string, element: string, x: number, y: number, depth = 0) => ({
    id,
    element,
    travelling: "-Z",
    tool: "ball",
    readings: (-30 - depth + 0.001 * x).toFixed(6),
    x: `${x - 300}`,
    y: `${y - 200}`,
  });
  const touched = [from("t1", "top", 0, 0), from("t2", "top", 100, 0), from("t3", "top", 0, 80)];
  const fourth = from("t4", "top", 100, 80);
  const front = { id: "f", element: "front", travelling: "+Y", tool: "ball", readings: "-203", x: "-250", z: "-43" };
  const left = { id: "l", element: "left", travelling: "+X", tool: "ball", readings: "-303", y: "-160", z: "-43" };
  const lying = (
    touches: readonly { readonly id: string }[],
    { letters = ["A", "B", "C"], elements = [], dimensions = [], strategy = {}, ...more }: Readonly<Record<string, unknown>> = {},
  ) => {
    const [top, ofFront, ofLeft] = letters as string[];
    return evaluateSetup(
      documentFrom({
        part: {
          elements: [
            face("top", "+Z", top),
            face("front", "-Y", ofFront),
            face("left", "-X", ofLeft),
            face("step", "+Z"),
            ...(elements as object[]),
          ],
          dimensions: [{ id: "deep", from: "top", to: "step", axis: "Z", nominal: "-12", tolerance: "±0.02" }, ...(dimensions as object[])],
          characteristics: [{ id: "depth", kind: "depth", of: "floor", from: "top", tolerance: "±0.05" }].filter(
            () => more["floor"] === true,
          ),
        },
        tools: [ball],
        touches,
        strategies: [{ id: "s", touches: touches.map(({ id }) => id), ...(strategy as object) }],
        chosen: "s",
        ...Object.fromEntries(Object.entries(more).filter(([name]) => name !== "floor")),
      }),
    );
  };
  const onStep = { ...from("step", "step", 100, 80, 12) };
  const below = { ...left, id: "below", readings: "-302.96", z: "-83" };
  const differences = (evaluation: ReturnType<typeof lying>) =>
    evaluation.checks.map(({ check, evaluation: checked }) => [
      check.id,
      checked.ok ? checked.value.verdict?.difference.value : checked.problems,
    ]);

  it("touches that lie in its plane do not disagree, whatever else is touched", () => {
    for (const touches of [
      [...touched, fourth],
      [...touched, front, { ...front, id: "f2", x: "-290" }, { ...front, id: "f3", x: "-210" }, left],
    ]) {
      const { location } = lying(touches);
      expect(location.thisPart.ok && location.thisPart.value.agreement?.chance).toBeGreaterThan(0.9);
      expect(explainDisagreement(location)).toBeUndefined();
    }
  });

  it("checks of other faces are foreseen as they lie, at whatever heights the sides were touched", () => {
    for (const side of [left, { ...left, z: "-63", readings: "-302.98" }]) {
      const checks = differences(lying([...touched, front, side], { checks: [onStep, below] }));
      expect(checks).toEqual([
        ["step", expect.closeTo(0, 9)],
        ["below", expect.closeTo(0, 9)],
      ]);
    }
    // Heights follow also where places across do not: no height of a side is known, or another face is the first datum.
    const noHeights = [front, left].map(({ z: _, ...touch }) => touch);
    expect(differences(lying([...touched, ...noHeights], { checks: [onStep] }))).toEqual([["step", expect.closeTo(0, 9)]]);
    const otherFirst = {
      letters: ["", "B", "C"],
      elements: [face("bottom", "-Z", "A")],
      dimensions: [{ id: "thick", from: "bottom", to: "top", axis: "Z", nominal: "20", tolerance: "±0.1" }],
    };
    expect(differences(lying([...touched, front, left], { ...otherFirst, checks: [onStep] }))).toEqual([["step", expect.closeTo(0, 9)]]);
  });

  it("a check whose place is not noted is asked for it, on a part that lies askew alone", () => {
    const { x: _, ...open } = onStep;
    const told = (tops: typeof touched) =>
      lying([...tops, front, left], { checks: [open] }).checks.map(({ evaluation }) =>
        evaluation.ok ? "foreseen" : evaluation.problems[0]?.at,
      );
    expect(told(touched)).toEqual(["checks.step.x"]);
    expect(told(touched.map((touch) => ({ ...touch, readings: "-30" })))).toEqual(["foreseen"]);
  });

  it("a step that is touched where the face has risen is as deep as it is", () => {
    const { location } = lying([...touched, onStep, front, left]);
    const deep = location.sizes.sizes.findIndex(({ id }) => id === "deep");
    expect(location.thisPart.ok && location.thisPart.value.sizes[deep]?.value).toBeCloseTo(0, 9);
  });

  it("a display above a place shows where that place is", () => {
    const move = { id: "m", tool: "ball", x: "100", y: "80", z: "-30", clearance: "10" };
    const [shown] = lying([...touched, front, left], { checkMoves: [move] }).checkMoves;
    const at = shown?.machine.map((axis) => axis.ok && axis.value.value);
    // The left was touched by the middle of the ball, at -160, 10 below the drawing's origin less what the frame's height differs: z -10 in the plane's middle 0.0333 higher.
    const height = -160 - (-150 + 0.001 * (100 / 3));
    expect(at).toEqual([
      expect.closeTo(-300 + 100 - 0.001 * (-30 - height), 6),
      expect.closeTo(-120, 6),
      expect.closeTo(-150 + 0.1 - 30 + 10 + 120, 6),
    ]);
  });

  it("a strategy whose touches from the side stand at different heights is not in disagreement by it", () => {
    const sides = [
      { ...left, id: "l1", y: "-190" },
      { ...left, id: "l2", y: "-130" },
      { ...left, id: "l3", z: "-73", readings: "-302.97" },
    ];
    const [strategy] = lying([...touched, ...sides, front], { strategy: { rotation: "applied" } }).strategies;
    const { agreement } = strategy?.evaluation.ok ? strategy.evaluation.value.solution.frame : { agreement: undefined };
    expect(agreement?.chance).toBeGreaterThan(0.9);
    const wrong = [sides[0], sides[1], { ...(sides[2] as object), readings: "-303.03" }] as typeof sides;
    const [other] = lying([...touched, ...wrong, front], { strategy: { rotation: "applied" } }).strategies;
    expect(other?.evaluation.ok && other.evaluation.value.solution.frame.agreement?.chance).toBeLessThan(1e-6);
  });

  it("a depth is judged at the touches' middle, and nothing is said of the drawing's origin, where no touch fixes X and Y", () => {
    const floor = { id: "floor", kind: "face", outward: "+Z", made: "here", x: "50", y: "40", z: "-8" };
    const depthOf = (evaluation: ReturnType<typeof lying>) => {
      const [strategy] = evaluation.strategies;
      const stack = strategy?.evaluation.ok ? strategy.evaluation.value.thisPart.stacks[0] : undefined;
      return stack?.ok ? stack.value.components[0]?.value : undefined;
    };
    const open = lying([...touched, fourth], { elements: [floor], floor: true });
    expect(depthOf(open)).toBeCloseTo(0, 9);
    expect(open.tilt?.heightAtOrigin).toBeUndefined();
    expect(open.tilt?.middle).toBeUndefined();
    const placed = lying([...touched, fourth, front, left], { elements: [floor], floor: true });
    expect(depthOf(placed)).toBeCloseTo(0, 9);
    expect(placed.tilt?.heightAtOrigin?.value).toBeCloseTo(-150, 9);
  });
});
