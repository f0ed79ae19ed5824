import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, cross, turnAboutZ, type Vector } from "../../lib/base/vector.ts";
import { liftAt, tellsPlane, tiltOf } from "../../lib/datum/tilt.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
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
        const tilt = tiltOf(open(plate(points, { skew })).location);
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
        const tilt = tiltOf(open(plate(points)).location);
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
        const tilt = tiltOf(open(plate(points)).location);
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
    expect(evaluation.tilt?.heightAtOrigin.value).toBeCloseTo(atOrigin, 8);
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
    expect(tiltOf(open(plate(points)).location)).toBeUndefined();
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
