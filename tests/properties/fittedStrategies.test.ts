import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addScaled, turnAboutZ, type Vector } from "../../lib/base/vector.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, open, typed } from "./setups.ts";

// Strategies by several elements against their hand formulas, written out here.

const runs = { numRuns: 40 };
const s = 0.003;
const indicator = { id: "indicator", kind: "swept indicator", scatter: String(s) };
const probe = { id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.002", scatter: String(s) };

const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);
const noise = fc.integer({ min: -60, max: 60 }).map((tenths) => tenths / 10_000);
const skew = micrometres(-30, 30).map((milliradians) => milliradians / 1000);
const at = fc.tuple(micrometres(-600, -100), micrometres(-400, -100));

interface Point {
  readonly x: number;
  readonly y: number;
}

function swept(id: string, { x, y }: Point): object {
  return { id, element: id, travelling: "sweep", tool: "indicator", readings: `X${typed(x)} Y${typed(y)}` };
}

/** Best fit of two sets of points, shift and turn: the turn is atan2(Σ p × q, Σ p · q) about the means (planar Procrustes, a handbook formula). */
function planarFit(drawn: readonly Point[], found: readonly Point[]) {
  const mean = (points: readonly Point[]): Point => ({
    x: points.reduce((total, { x }) => total + x, 0) / points.length,
    y: points.reduce((total, { y }) => total + y, 0) / points.length,
  });
  const [p, q] = [mean(drawn), mean(found)];
  let crossed = 0;
  let along = 0;
  let square = 0;
  drawn.forEach((each, i) => {
    const [a, b] = [each.x - p.x, each.y - p.y];
    const [c, d] = [(found[i] as Point).x - q.x, (found[i] as Point).y - q.y];
    crossed += a * d - b * c;
    along += a * c + b * d;
    square += a * a + b * b;
  });
  return { drawn: p, found: q, turn: Math.atan2(crossed, along), square };
}

describe("best fit to a pattern of bores", () => {
  const places = fc.constantFrom(
    [
      { x: 0, y: 0 },
      { x: 120, y: 10 },
    ],
    [
      { x: 10, y: 5 },
      { x: 130, y: 0 },
      { x: 70, y: 80 },
    ],
    [
      { x: -40, y: -30 },
      { x: 45, y: -25 },
      { x: 40, y: 35 },
      { x: -42, y: 28 },
      { x: 0, y: 5 },
    ],
  );

  it("zero and turn are those of the planar fit; u(turn) = s/√Σ|p - p̄|², u(zero) = s·√(1/n + |z - p̄|²/Σ|p - p̄|²) across", () => {
    fc.assert(
      fc.property(places, at, skew, fc.array(noise, { minLength: 10, maxLength: 10 }), (drawn, [ox, oy], by, off) => {
        const found = drawn.map(({ x, y }, i): Point => {
          const [turnedX, turnedY] = turnAboutZ([x, y, 0], by);
          return { x: ox + turnedX + (off[2 * i] as number), y: oy + turnedY + (off[2 * i + 1] as number) };
        });
        const { solution } = open(
          documentFrom({
            part: {
              elements: drawn.map(({ x, y }, i) => ({
                id: `bore ${i}`,
                kind: "bore",
                datum: "A",
                x: String(x),
                y: String(y),
                diameter: "12",
              })),
            },
            tools: [indicator],
            touches: found.map((point, i) => swept(`bore ${i}`, point)),
            strategies: [{ id: "s", touches: drawn.map((_, i) => `bore ${i}`), rotation: "applied" }],
          }),
        );
        const best = planarFit(drawn, found);
        const [zeroX, zeroY] = addScaled([best.found.x, best.found.y, 0], 1, turnAboutZ([-best.drawn.x, -best.drawn.y, 0], best.turn));
        const { fromReadings } = solution("s");
        expect(fromReadings.rotation.value).toBeCloseTo(best.turn, 10);
        expect(fromReadings.zero[0].value).toBeCloseTo(zeroX, 7);
        expect(fromReadings.zero[1].value).toBeCloseTo(zeroY, 7);
        const [x, y, rotation] = budgetsOf([fromReadings.zero[0], fromReadings.zero[1], fromReadings.rotation]);
        const arm = turnAboutZ([-best.drawn.x, -best.drawn.y, 0], best.turn);
        expect((rotation?.standardUncertainty as number) / (s / Math.sqrt(best.square))).toBeCloseTo(1, 3);
        expect((x?.standardUncertainty as number) / (s * Math.sqrt(1 / drawn.length + arm[1] ** 2 / best.square))).toBeCloseTo(1, 3);
        expect((y?.standardUncertainty as number) / (s * Math.sqrt(1 / drawn.length + arm[0] ** 2 / best.square))).toBeCloseTo(1, 3);
      }),
      runs,
    );
  });
});

/** A swept bore at (40, 30) of the drawing, which places the part. */
const boreElement = { id: "bore", kind: "bore", datum: "A", x: "40", y: "30", diameter: "30" };
const bore: Vector = [40, 30, 0];

describe("a bore that places and a slot that turns", () => {
  it("turn = φ - asin((y slot - y bore)/|q|), q from the bore to the middle between the walls, φ its angle; the tip's radius cancels", () => {
    fc.assert(
      fc.property(at, skew, noise, noise, ([ox, oy], by, offLower, offUpper) => {
        const [slotX, slotY, width, r] = [150, 42, 20, 3];
        const machine = (point: Vector) => addScaled([ox, oy, 0], 1, turnAboutZ(point, by));
        const lower = machine([slotX, slotY - width / 2 + r, 0]);
        const upper = machine([slotX, slotY + width / 2 - r, 0]);
        const [hx, hy] = machine(bore);
        const [one, other] = [
          { x: lower[0], y: lower[1] + offLower },
          { x: upper[0], y: upper[1] + offUpper },
        ];
        const { solution } = open(
          documentFrom({
            part: {
              elements: [
                boreElement,
                { id: "lower", kind: "face", outward: "+Y" },
                { id: "upper", kind: "face", outward: "-Y" },
                { id: "slot", kind: "middle", of: ["lower", "upper"], datum: "B", y: String(slotY) },
              ],
              dimensions: [{ id: "width", from: "lower", to: "upper", nominal: String(width), tolerance: "±0.1" }],
            },
            tools: [indicator, probe],
            touches: [
              swept("bore", { x: hx, y: hy }),
              { id: "a", element: "lower", travelling: "-Y", tool: "probe", readings: typed(one.y), x: typed(one.x) },
              { id: "b", element: "upper", travelling: "+Y", tool: "probe", readings: typed(other.y), x: typed(other.x) },
            ],
            strategies: [{ id: "s", touches: ["bore", "a", "b"], hold: ["slot"], rotation: "applied", zero: { x: "bore", y: "bore" } }],
          }),
        );
        const [qx, qy] = [(one.x + other.x) / 2 - hx, (one.y + other.y) / 2 - hy];
        const turn = Math.atan2(qy, qx) - Math.asin((slotY - 30) / Math.hypot(qx, qy));
        const { fromReadings } = solution("s");
        expect(fromReadings.rotation.value).toBeCloseTo(turn, 10);
        expect(fromReadings.zero[0].value).toBeCloseTo(hx, 8);
        expect(fromReadings.zero[1].value).toBeCloseTo(hy, 8);
        // Scatter of the bore along the slot's normal, and of the mean of two touches across the travel, over the arm along the slot.
        const arm = qx * Math.cos(turn) + qy * Math.sin(turn);
        const across = Math.cos(turn);
        const [rotation] = budgetsOf([fromReadings.rotation]);
        const expected = Math.hypot(s, (s * across) / Math.SQRT2) / arm;
        // A sweep scatters along the part's axes: second powers of the turn.
        expect((rotation?.standardUncertainty as number) / expected).toBeCloseTo(1, 3);
      }),
      runs,
    );
  });
});

describe("a bore that places and an edge that turns", () => {
  it("turn = atan2(ΔY, ΔX) along the edge, zero at the bore, u(turn) = √2 s cos(turn)/baseline", () => {
    fc.assert(
      fc.property(at, skew, noise, noise, ([ox, oy], by, offA, offB) => {
        const machine = (point: Vector) => addScaled([ox, oy, 0], 1, turnAboutZ(point, by));
        const [a, b] = [machine([5, -23, 0]), machine([165, -23, 0])];
        const [hx, hy] = machine(bore);
        const { solution } = open(
          documentFrom({
            part: { elements: [boreElement, { id: "front", kind: "face", outward: "-Y", datum: "B", y: "-20" }] },
            tools: [indicator, probe],
            touches: [
              swept("bore", { x: hx, y: hy }),
              { id: "a", element: "front", travelling: "+Y", tool: "probe", readings: typed(a[1] + offA), x: typed(a[0]) },
              { id: "b", element: "front", travelling: "+Y", tool: "probe", readings: typed(b[1] + offB), x: typed(b[0]) },
            ],
            strategies: [{ id: "s", touches: ["bore", "a", "b"], orient: ["front"], rotation: "applied", zero: { x: "bore", y: "bore" } }],
          }),
        );
        const [dx, dy] = [b[0] - a[0], b[1] + offB - a[1] - offA];
        const turn = Math.atan2(dy, dx);
        const { fromReadings } = solution("s");
        expect(fromReadings.rotation.value).toBeCloseTo(turn, 10);
        expect(fromReadings.zero[0].value).toBeCloseTo(hx, 8);
        expect(fromReadings.zero[1].value).toBeCloseTo(hy, 8);
        const [rotation] = budgetsOf([fromReadings.rotation]);
        expect((rotation?.standardUncertainty as number) / ((Math.SQRT2 * s * Math.cos(turn)) / Math.hypot(dx, dy))).toBeCloseTo(1, 9);
      }),
      runs,
    );
  });
});
