import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Vector } from "../../lib/base/vector.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { budgetOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

const length = 120;
const radius = 3;
const scatter = 0.002;
const ball = { id: "ball", kind: "touch probe", radius: String(radius), length: String(length), scatter: String(scatter) };

interface Stop {
  readonly id: string;
  readonly element: string;
  readonly travelling: string;
  /** Middle of the ball, machine axes. */
  readonly centre: Vector;
  readonly noZ?: boolean;
}

function row({ id, element, travelling, centre: [x, y, z], noZ = false }: Stop, tool = "ball") {
  const gauge = z + length - radius;
  const along = (travelling[1] as string).toLowerCase() as "x" | "y" | "z";
  const at = { x: typed(x), y: typed(y), z: typed(gauge) };
  return { id, element, travelling, tool, ...at, ...(noZ && { z: "" }), [along]: "", readings: at[along] };
}

const letters = { top: "A", front: "B", left: "C" };

function plate(stops: readonly Stop[], more: { letters?: Partial<typeof letters>; tool?: object; hole?: object; tables?: object } = {}) {
  const datum = { ...letters, ...more.letters };
  return documentFrom({
    part: {
      elements: [
        { id: "top", kind: "face", outward: "+Z", datum: datum.top },
        { id: "front", kind: "face", outward: "-Y", datum: datum.front },
        { id: "left", kind: "face", outward: "-X", datum: datum.left },
        { id: "hole", kind: "bore", made: "here", x: "60", y: "40", z: "-30", diameter: "10", ...more.hole },
      ],
      characteristics: [{ id: "place", kind: "position", of: "hole", tolerance: "0.2" }],
    },
    tools: [{ ...ball, ...more.tool }],
    touches: stops.map((stop) => row(stop)),
    strategies: [{ id: "s", touches: stops.map(({ id }) => id) }],
    chosen: "s",
    ...more.tables,
  });
}

/** A part at X -300, Y -200, Z -150 that rises by 0.001 along Y alone; the front is touched 5 below the top, or where said, the left end at the middle of it. */
const slope = 0.001;
const onTop = (id: string, x: number, y: number): Stop => ({
  id,
  element: "top",
  travelling: "-Z",
  centre: [-300 + x, -200 + y, -150 + slope * (y - 40) + radius],
});
const tops = [onTop("t1", 10, 10), onTop("t2", 110, 10), onTop("t3", 10, 70), onTop("t4", 110, 70)];
const front = (id: string, x: number, z: number, noZ = false): Stop => ({
  id,
  element: "front",
  travelling: "+Y",
  centre: [-300 + x, -200 - slope * z - radius, -150 + z],
  noZ,
});
const left = (z: number): Stop => ({ id: "l", element: "left", travelling: "+X", centre: [-300 - radius, -160, -150 + z] });

function judged(document: ReturnType<typeof plate>) {
  const evaluation = evaluateSetup(document);
  const [first] = evaluation.strategies;
  const strategy = must((first as NonNullable<typeof first>).evaluation);
  const [stack] = strategy.thisPart.stacks;
  return { evaluation, strategy, stack: must(stack as NonNullable<typeof stack>) };
}

const tiltText = ({ evaluation }: ReturnType<typeof judged>) => judgementSentences(evaluation).find(({ kind }) => kind === "tilt")?.text;

describe("a part that lies askew in height", () => {
  // By hand: front and left are touched 10 below the top, the hole counts 30 below it: 20 lower, where the part has moved by 20 · 0.001 towards +Y against the touches.
  // So a hole straight below its place comes to lie 0.02 nearer to the front. u: where the front is, s; and the slope by four
  // touches 60 apart, s/60, times 20.
  it("is drilled off its place by the tilt over the height from the touches", () => {
    const { stack, evaluation } = judged(plate([...tops, front("f", 60, -10), left(-10)]));
    expect(stack.components.map(({ value }) => value)).toEqual([expect.closeTo(0, 9), expect.closeTo(-0.02, 8)]);
    const [, y] = stack.components;
    expect(y?.standardUncertainty).toBeCloseTo(Math.hypot(scatter, (20 * scatter) / 60), 9);
    expect(evaluation.tilt?.across).toMatchObject({ height: expect.closeTo(-10, 8), unplaced: [] });
  });

  // By hand: the front is touched once 5 and once 25 below the top: 20 apart, and so 0.02 off each other though the part is not turned. Its middle stands where
  // the part is 15 below the top; the left at 15 does not matter along Y.
  it("shows touches of one face at two heights as one face", () => {
    const stops = [...tops, front("f1", 10, -5), front("f2", 110, -25), left(-15)];
    const { location } = evaluateSetup(
      plate(stops, { tables: { strategies: [{ id: "s", touches: stops.map(({ id }) => id), rotation: "applied" }] } }),
    );
    const frame = must(location.thisPart);
    expect(frame.rotation.value).toBeCloseTo(0, 9);
    expect(frame.origin[1].value).toBeCloseTo(-200 + 0.015, 7);
    // The slope's own doubt is in the turn, beside that of the touches 100 apart: s√2/100, and the heights' 20/100 of s/60.
    expect(budgetOf(frame.rotation).standardUncertainty).toBeCloseTo(Math.hypot((scatter * Math.SQRT2) / 100, (0.2 * scatter) / 60), 9);
  });

  it("is followed across by nothing where no height is known, and says so", () => {
    const found = judged(plate([...tops, front("f", 60, -10, true), { ...left(-10), noZ: true }]));
    expect(found.stack.components[1]?.value).toBeCloseTo(0, 9);
    expect(found.evaluation.tilt?.across).toBe("no height");
    expect(tiltText(found)).toContain("Places across are not corrected for it: of no touch from the side is the height known");
  });

  it("takes a touch whose height is not known to stand as the others do, and names it", () => {
    const found = judged(plate([...tops, front("f", 60, -10), { ...left(-10), noZ: true }]));
    expect(found.stack.components[1]?.value).toBeCloseTo(-0.02, 8);
    expect(found.evaluation.tilt?.across).toMatchObject({ unplaced: ["l"] });
    const text = tiltText(found);
    expect(text).toContain(
      'Places across count at Z -10.0000 mm of the drawing, the mean height of the touches from the side; "place" is judged where "hole" is cut',
    );
    expect(text).toContain('Y -0.02000 mm (u 0.00067) from there. The height of "l" is not known');
  });

  it("is not followed where another datum comes first: the slope is then that of a face, and not of the drawing's frame", () => {
    const found = judged(plate([...tops, front("f", 60, -10), left(-10)], { letters: { top: "D" } }));
    expect(found.stack.components[1]?.value).toBeCloseTo(0, 9);
    expect(found.evaluation.tilt?.across).toBe("other datum first");
    expect(tiltText(found)).toContain('the drawing\'s frame stands as the first datum does, and "top" is none, or is not before those');
  });

  it("judges what states no Z at the height of the touches", () => {
    const { stack, evaluation } = judged(plate([...tops, front("f", 60, -10), left(-10)], { hole: { z: "" } }));
    expect(stack.components[1]?.value).toBeCloseTo(0, 9);
    expect(evaluation.tilt?.across).toMatchObject({ leans: [{ characteristic: "place", element: "hole", lean: undefined }] });
  });
});

/** Rotation about the unit axis of ω by its length (Rodrigues' formula), then about Z: exact for any angle. */
function rigid([wx, wy]: readonly [number, number], turn: number): (p: Vector) => Vector {
  const angle = Math.hypot(wx, wy);
  const [kx, ky] = angle === 0 ? [1, 0] : [wx / angle, wy / angle];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y, z]) => {
    const along = (kx * x + ky * y) * (1 - c);
    const tilted: Vector = [x * c + ky * z * s + kx * along, y * c - kx * z * s + ky * along, z * c + (kx * y - ky * x) * s];
    return [tilted[0] * Math.cos(turn) - tilted[1] * Math.sin(turn), tilted[0] * Math.sin(turn) + tilted[1] * Math.cos(turn), tilted[2]];
  };
}

describe("against an exact rigid body", () => {
  const tenths = (most: number) => fc.integer({ min: -most * 10, max: most * 10 }).map((value) => value / 10);
  const job = fc.record({
    tilt: fc.tuple(tenths(30), tenths(30)),
    turn: tenths(10),
    heights: fc.tuple(fc.integer({ min: -30, max: -4 }), fc.integer({ min: -30, max: -4 }), fc.integer({ min: -30, max: -4 })),
    depth: fc.integer({ min: -45, max: 0 }),
  });

  // Tilts up to 0.3 mm over 100: what first order leaves is their square times the sizes, below a micrometre and a half; the tilt over a height is up to 0.09 mm.
  it("frame and deviations at depth are what a ball meets on a turned and tilted block", () => {
    fc.assert(
      fc.property(job, ({ tilt: [tx, ty], turn, heights, depth }) => {
        const turned = rigid([tx / 10_000, ty / 10_000], turn / 1000);
        const origin: Vector = [-300, -200, -150];
        const machine = (p: Vector): Vector => {
          const [x, y, z] = turned(p);
          return [origin[0] + x, origin[1] + y, origin[2] + z];
        };
        /** The ball rests on the face at the point: its middle is a radius off it along the turned normal. */
        const stop = (id: string, element: string, travelling: string, point: Vector, normal: Vector): Stop => {
          const [metal, out] = [machine(point), turned(normal)];
          return { id, element, travelling, centre: metal.map((value, i) => value + radius * (out[i] as number)) as unknown as Vector };
        };
        const up = (id: string, x: number, y: number) => stop(id, "top", "-Z", [x, y, 0], [0, 0, 1]);
        const stops = [
          up("t1", 10, 10),
          up("t2", 110, 12),
          up("t3", 60, 75),
          stop("f1", "front", "+Y", [10, 0, heights[0]], [0, -1, 0]),
          stop("f2", "front", "+Y", [110, 0, heights[1]], [0, -1, 0]),
          stop("l", "left", "+X", [0, 40, heights[2]], [-1, 0, 0]),
        ];
        const tables = { strategies: [{ id: "s", touches: stops.map(({ id }) => id), rotation: "applied" }] };
        const { evaluation, strategy, stack } = judged(plate(stops, { hole: { z: String(depth) }, tables }));
        const frame = must(evaluation.location.thisPart);
        const mean = (heights[0] + heights[1] + heights[2]) / 3;
        const there = machine([0, 0, mean]);
        expect(Math.abs(frame.origin[0].value - there[0])).toBeLessThan(0.0015);
        expect(Math.abs(frame.origin[1].value - there[1])).toBeLessThan(0.0015);
        // Where the spindle drills: straight down at the programme's place, turned with the part. In the block's own axes at the hole's height, by fixed point.
        const zero = strategy.zero.map((axis) => must(axis).value);
        const angle = must(strategy.rotation).value;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const drilled = [(zero[0] as number) + 60 * c - 40 * s, (zero[1] as number) + 60 * s + 40 * c] as const;
        let found: Vector = [60, 40, depth];
        for (let i = 0; i < 20; i++) {
          const [x, y] = machine(found);
          const [ex, ey] = [drilled[0] - x, drilled[1] - y];
          const [ct, st] = [Math.cos(turn / 1000), Math.sin(turn / 1000)];
          found = [found[0] + ct * ex + st * ey, found[1] - st * ex + ct * ey, depth];
        }
        const [dx, dy] = stack.components.map(({ value }) => value);
        expect(Math.abs((dx as number) - (found[0] - 60))).toBeLessThan(0.0015);
        expect(Math.abs((dy as number) - (found[1] - 40))).toBeLessThan(0.0015);
      }),
      { numRuns: 60 },
    );
  });
});
