import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { entryOf } from "../../lib/base/matrix.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { covarianceMatrix } from "../../lib/uncertainty/covariance.ts";
import { documentFrom, must, typed } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// The shop's hand formulas, written out here from the trade and not from the code. R: displayed coordinate; a: +1 when the tool
// travelled in the + direction, -1 otherwise; r: effective radius; O: machine coordinate of part zero; S: size; L: tool length; h: block.

const runs = { numRuns: 60 };

const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);
const reading = micrometres(-700, 700);
const radius = micrometres(0.5, 20);
const size = micrometres(20, 400);
const doubt = fc.integer({ min: 1, max: 90 }).map((value) => value / 10_000);

type Direction = "+X" | "-X" | "+Y" | "-Y";
const signOf = (travelling: string) => (travelling.startsWith("+") ? 1 : -1);

const faces = [
  { id: "left", kind: "face", outward: "-X", datum: "C" },
  { id: "right", kind: "face", outward: "+X" },
  { id: "front", kind: "face", outward: "-Y", datum: "B" },
  { id: "back", kind: "face", outward: "+Y" },
  { id: "top", kind: "face", outward: "+Z", datum: "A" },
  { id: "middle", kind: "middle", of: ["left", "right"] },
];
const touchOn: Record<string, Direction> = { left: "+X", right: "-X", front: "+Y", back: "-Y" };

function plate(width: number, depth: number, tables: object): SetupDocument {
  return documentFrom({
    part: {
      elements: faces,
      dimensions: [
        { id: "width", from: "left", to: "right", nominal: typed(width), tolerance: "±0.2" },
        { id: "depth", from: "front", to: "back", nominal: typed(depth), tolerance: "±0.2" },
      ],
    },
    ...tables,
  });
}

function evaluated(document: SetupDocument, strategy = "s") {
  const evaluation = evaluateSetup(document);
  expect(evaluation.problems).toEqual([]);
  const found = evaluation.strategies.find(({ id }) => id === strategy)?.evaluation;
  if (found === undefined) throw new Error(`no strategy ${strategy}`);
  return { ...evaluation, strategy: must(found) };
}

function zero(document: SetupDocument, axis: 0 | 1 | 2): Budget {
  return must(evaluated(document).strategy.zero[axis]);
}

function uncertaintyOf(...parts: number[]): number {
  return Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
}

describe("a face, and the zero from one face", () => {
  it("F = R + a r and O = F - x, with u² = s²/n + u(r)² + late trigger²/3 + eccentricity²/2 + roughness²/3", () => {
    const side = fc.constantFrom("left", "right", "front", "back");
    const amounts = fc.tuple(doubt, doubt, doubt, doubt, doubt);
    fc.assert(
      fc.property(side, fc.array(reading, { minLength: 1, maxLength: 4 }), radius, size, size, amounts, (face, readings, r, w, d, u) => {
        const [scatter, radiusUncertainty, late, eccentricity, roughness] = u;
        const travelling = touchOn[face] as Direction;
        const document = plate(w, d, {
          part: {
            elements: faces.map((each) => (each.id === face ? { ...each, roughness: typed(roughness) } : each)),
            dimensions: [
              { id: "width", from: "left", to: "right", nominal: typed(w), tolerance: "±0.2" },
              { id: "depth", from: "front", to: "back", nominal: typed(d), tolerance: "±0.2" },
            ],
          },
          tools: [
            {
              id: "tip",
              kind: "touch probe",
              radius: typed(r),
              radiusUncertainty: typed(radiusUncertainty),
              lateTrigger: typed(late),
              eccentricity: typed(eccentricity),
              scatter: typed(scatter),
            },
          ],
          touches: [{ id: "t", element: face, travelling, tool: "tip", readings: readings.map(typed).join("; ") }],
          strategies: [{ id: "s", touches: ["t"] }],
        });
        const R = readings.reduce((sum, value) => sum + value, 0) / readings.length;
        const F = R + signOf(travelling) * r;
        const u1 = uncertaintyOf(
          scatter / Math.sqrt(readings.length),
          radiusUncertainty,
          late / Math.sqrt(3),
          eccentricity / Math.SQRT2,
          roughness / Math.sqrt(3),
        );
        const { faces: found, strategy } = evaluated(document);
        expect(found[0]?.budget.value).toBeCloseTo(F, 10);
        expect(found[0]?.budget.standardUncertainty).toBeCloseTo(u1, 10);
        const x = face === "right" ? w : face === "back" ? d : 0;
        const O = must(strategy.zero[face === "left" || face === "right" ? 0 : 1]);
        expect(O.value).toBeCloseTo(F - x, 10);
        expect(O.standardUncertainty).toBeCloseTo(u1, 10);
      }),
      runs,
    );
  });
});

describe("a middle from one face", () => {
  it("O = F ± S/2 with the nominal width and u(F), or with the measured one and u² = u(F)² + u(S)²/4", () => {
    const side = fc.constantFrom("left", "right");
    fc.assert(
      fc.property(side, reading, radius, size, micrometres(-1, 1), doubt, doubt, (face, R, r, w, off, s, uS) => {
        const travelling = touchOn[face] as Direction;
        const document = (sizes: string) =>
          plate(w, 80, {
            part: {
              elements: faces,
              dimensions: [
                {
                  id: "width",
                  from: "left",
                  to: "right",
                  nominal: typed(w),
                  tolerance: "±1.1",
                  measured: typed(w + off),
                  measuredUncertainty: typed(uS),
                },
                { id: "depth", from: "front", to: "back", nominal: "80", tolerance: "±0.2" },
              ],
            },
            tools: [{ id: "tip", kind: "touch probe", radius: typed(r), scatter: typed(s) }],
            touches: [{ id: "t", element: face, travelling, tool: "tip", readings: typed(R) }],
            strategies: [{ id: "s", touches: ["t"], zero: { x: "middle" }, sizes }],
          });
        // Into the metal: the way that the tool travelled.
        const F = R + signOf(travelling) * r;
        for (const [sizes, S, u] of [
          ["nominal", w, s],
          ["measured", w + off, uncertaintyOf(s, uS / 2)],
        ] as const) {
          const O = zero(document(sizes), 0);
          expect(O.value, sizes).toBeCloseTo(F + (signOf(travelling) * S) / 2, 10);
          expect(O.standardUncertainty, sizes).toBeCloseTo(u, 10);
        }
      }),
      runs,
    );
  });
});

/** Readings of the two faces of a plate (outside) or of a pocket (inside), with the tool between or outside. */
const opposite = fc.record({ left: reading, travel: size, r: radius, x: micrometres(-100, 100), inside: fc.boolean() });

function betweenFaces({ left, travel, r, x, inside }: { left: number; travel: number; r: number; x: number; inside: boolean }) {
  const nominal = inside ? travel + 2 * r : travel - 2 * r;
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: inside ? "+X" : "-X" },
        { id: "right", kind: "face", outward: inside ? "-X" : "+X" },
        { id: "middle", kind: "middle", of: ["left", "right"], datum: "B", x: typed(x) },
      ],
      dimensions: [{ id: "S", from: "left", to: "right", nominal: typed(nominal + 0.05), tolerance: "±0.2" }],
    },
    tools: [
      {
        id: "tip",
        kind: "touch probe",
        radius: typed(r),
        radiusUncertainty: "0.0015",
        lateTrigger: "0.006",
        eccentricity: "0.004",
        scatter: "0.005",
      },
    ],
    touches: [
      { id: "l", element: "left", travelling: inside ? "-X" : "+X", tool: "tip", readings: typed(left) },
      { id: "r", element: "right", travelling: inside ? "+X" : "-X", tool: "tip", readings: typed(left + travel) },
    ],
    strategies: [{ id: "s", touches: ["l", "r"], hold: ["middle"] }],
  });
}

describe("mid-plane and width", () => {
  it("O = (R1 + R2)/2 - x: the radius and the late trigger cancel, the eccentricity does not", () => {
    fc.assert(
      fc.property(opposite, (job) => {
        const O = zero(betweenFaces(job), 0);
        expect(O.value).toBeCloseTo(job.left + job.travel / 2 - job.x, 10);
        expect(O.standardUncertainty).toBeCloseTo(uncertaintyOf(0.005 / Math.SQRT2, 0.004 / Math.SQRT2), 10);
        const ids = O.contributions.map(({ source }) => source.id);
        expect(ids.filter((id) => id.includes("radius") || id.includes("late trigger"))).toEqual([]);
      }),
      runs,
    );
  });

  it("S = R2 - R1 - 2 r outside, + 2 r inside: the radius counts twice, the eccentricity cancels", () => {
    fc.assert(
      fc.property(opposite, (job) => {
        const { sizes } = evaluated(betweenFaces(job));
        const { value, standardUncertainty, contributions } = (sizes[0] as (typeof sizes)[number]).budget;
        const sign = job.inside ? 1 : -1;
        expect(value).toBeCloseTo(job.travel + sign * 2 * job.r, 10);
        const of = (text: string) => contributions.find(({ source }) => source.id.includes(text))?.sensitivity ?? 0;
        expect(of("radius")).toBeCloseTo(sign * 2, 10);
        expect(of("late trigger")).toBeCloseTo(sign * 2, 10);
        expect(of("eccentricity")).toBeCloseTo(0, 10);
        expect(standardUncertainty).toBeCloseTo(uncertaintyOf(0.005 * Math.SQRT2, 2 * 0.0015, (2 * 0.006) / Math.sqrt(3)), 10);
      }),
      runs,
    );
  });

  it("turning the spindle half round between the two touches removes the eccentricity from the mid-plane", () => {
    fc.assert(
      fc.property(opposite, (job) => {
        const document = betweenFaces(job);
        const turned = {
          ...document,
          touches: document.touches.map((touch, i) => (i === 1 ? { ...touch, spindle: "turned half round" as const } : touch)),
        };
        const O = zero(turned, 0);
        expect(O.value).toBeCloseTo(job.left + job.travel / 2 - job.x, 10);
        expect(O.standardUncertainty).toBeCloseTo(0.005 / Math.SQRT2, 10);
      }),
      runs,
    );
  });
});

function bore(points: readonly (readonly [number, number])[], diameter: number, r: number): SetupDocument {
  return documentFrom({
    part: { elements: [{ id: "bore", kind: "bore", diameter: typed(diameter), datum: "A" }] },
    tools: [{ id: "tip", kind: "touch probe", radius: typed(r), scatter: "0.002" }],
    touches: points.map(([x, y], i) => ({
      id: `t${i}`,
      element: "bore",
      travelling: "radial",
      tool: "tip",
      readings: `X${typed(x)} Y${typed(y)}`,
    })),
    strategies: [{ id: "s", touches: points.map((_, i) => `t${i}`) }],
  });
}

function circle(cx: number, cy: number, reach: number, angles: readonly number[]): (readonly [number, number])[] {
  return angles.map((t) => [cx + reach * Math.cos(t), cy + reach * Math.sin(t)] as const);
}

/** (AᵀA)⁻¹ of rows [cos t, sin t, 1] by cofactors: its first two diagonal entries. */
function centreAmplification(angles: readonly number[]): readonly [number, number] {
  const sum = (f: (t: number) => number) => angles.reduce((total, t) => total + f(t), 0);
  const [cc, cs, ss] = [sum((t) => Math.cos(t) ** 2), sum((t) => Math.cos(t) * Math.sin(t)), sum((t) => Math.sin(t) ** 2)];
  const [c, s, n] = [sum(Math.cos), sum(Math.sin), angles.length];
  const determinant = cc * (ss * n - s * s) - cs * (cs * n - s * c) + c * (cs * s - ss * c);
  return [Math.sqrt((ss * n - s * s) / determinant), Math.sqrt((cc * n - c * c) / determinant)];
}

describe("centre of a bore", () => {
  it("4 touches at 0, 90, 180, 270: O = ((Rx+ + Rx-)/2, (Ry+ + Ry-)/2), wherever the tool stood across", () => {
    const across = micrometres(-2, 2);
    fc.assert(
      fc.property(reading, reading, micrometres(20, 80), radius, across, across, (cx, cy, diameter, r, offY, offX) => {
        const reach = diameter / 2 - Math.min(r, diameter / 4);
        const halfX = Math.sqrt(reach ** 2 - offY ** 2);
        const halfY = Math.sqrt(reach ** 2 - offX ** 2);
        const touch = (id: string, travelling: Direction, at: number, other: object) => ({
          id,
          element: "bore",
          travelling,
          tool: "tip",
          readings: typed(at),
          ...other,
        });
        const document = documentFrom({
          part: { elements: [{ id: "bore", kind: "bore", diameter: typed(diameter), datum: "A" }] },
          tools: [{ id: "tip", kind: "touch probe", radius: typed(Math.min(r, diameter / 4)), scatter: "0.002" }],
          touches: [
            touch("x+", "+X", cx + halfX, { y: typed(cy + offY) }),
            touch("x-", "-X", cx - halfX, { y: typed(cy + offY) }),
            touch("y+", "+Y", cy + halfY, { x: typed(cx + offX) }),
            touch("y-", "-Y", cy - halfY, { x: typed(cx + offX) }),
          ],
          strategies: [{ id: "s", touches: ["x+", "x-", "y+", "y-"] }],
        });
        const { strategy } = evaluated(document);
        expect(must(strategy.zero[0]).value).toBeCloseTo(cx, 9);
        expect(must(strategy.zero[1]).value).toBeCloseTo(cy, 9);
      }),
      runs,
    );
  });

  it("N equally spaced touches: u = s √(2/N) per axis", () => {
    const count = fc.integer({ min: 3, max: 12 });
    fc.assert(
      fc.property(count, reading, reading, fc.integer({ min: 0, max: 359 }), (n, cx, cy, start) => {
        const angles = Array.from({ length: n }, (_, i) => (start * Math.PI) / 180 + (2 * Math.PI * i) / n);
        const { strategy } = evaluated(bore(circle(cx, cy, 17, angles), 40, 3));
        for (const axis of [0, 1] as const) {
          expect(must(strategy.zero[axis]).value).toBeCloseTo([cx, cy][axis] as number, 9);
          expect(must(strategy.zero[axis]).standardUncertainty).toBeCloseTo(0.002 * Math.sqrt(2 / n), 9);
        }
      }),
      runs,
    );
  });

  it("N touches anywhere: u² = s² (AᵀA)⁻¹ with rows [cos t, sin t, 1]", () => {
    const angles = fc
      .uniqueArray(fc.integer({ min: 0, max: 35 }), { minLength: 3, maxLength: 8 })
      .map((tens) => tens.map((ten) => (ten * Math.PI) / 18));
    fc.assert(
      fc.property(angles, reading, reading, (t, cx, cy) => {
        const expected = centreAmplification(t);
        const { strategy } = evaluated(bore(circle(cx, cy, 17, t), 40, 3));
        for (const axis of [0, 1] as const) {
          const { value, standardUncertainty } = must(strategy.zero[axis]);
          expect(value).toBeCloseTo([cx, cy][axis] as number, 7);
          expect(standardUncertainty / (0.002 * (expected[axis] as number))).toBeCloseTo(1, 6);
        }
      }),
      runs,
    );
  });

  // Closed form of the same matrix, to the digits that shop tables print.
  it.each([
    [60, 9.1],
    [90, 4.2],
    [120, 2.5],
    [180, 1.2],
  ])("three touches over an arc of %d degrees: u = %d s along the bisector, as shops tabulate it", (arc, factor) => {
    const half = (arc * Math.PI) / 360;
    // (AᵀA)⁻¹ by hand for touches at -half, 0, half: √(3/2) / (1 - cos half); the table rounds it to two digits, some up.
    const exact = Math.sqrt(1.5) / (1 - Math.cos(half));
    expect(Math.abs(exact - factor)).toBeLessThan(0.06);
    const { strategy } = evaluated(bore(circle(100, 50, 17, [-half, 0, half]), 40, 3));
    expect(must(strategy.zero[0]).standardUncertainty / 0.002).toBeCloseTo(exact, 6);
  });
});

const edge = fc.record({ x: reading, y: reading, skew: fc.integer({ min: -60, max: 60 }).map((milli) => milli / 1000), r: radius });

describe("skew, corner of a skewed part, turned part", () => {
  function skewedPart(x: number, y: number, skew: number, r: number, shares: readonly number[], place: readonly [number, number]) {
    const at = (along: number, off: number): [number, number] => [
      x + along * Math.cos(skew) - off * Math.sin(skew),
      y + along * Math.sin(skew) + off * Math.cos(skew),
    ];
    const onEdge = shares.map((share) => at(share, -r));
    const onLeft = at(-r, 31.5);
    return {
      onEdge,
      onLeft,
      document: plate(120, 80, {
        tools: [{ id: "tip", kind: "touch probe", radius: typed(r), radiusUncertainty: "0.001", scatter: "0.002" }],
        touches: [
          ...onEdge.map(([X, Y], i) => ({
            id: `b${i}`,
            element: "front",
            travelling: "+Y",
            tool: "tip",
            x: typed(X),
            readings: typed(Y),
          })),
          { id: "c", element: "left", travelling: "+X", tool: "tip", y: typed(onLeft[1]), readings: typed(onLeft[0]) },
        ],
        strategies: [
          {
            id: "s",
            touches: [...shares.map((_, i) => `b${i}`), "c"],
            rotation: "applied",
            zero: { x: typed(place[0]), y: typed(place[1]) },
          },
        ],
      }),
    };
  }

  it("two touches: theta = atan2(R2 - R1, X2 - X1), u = √2 s / baseline (by the cosine of the skew)", () => {
    fc.assert(
      fc.property(edge, ({ x, y, skew, r }) => {
        const { onEdge, document } = skewedPart(x, y, skew, r, [15, 90], [0, 0]);
        const [[x1, y1], [x2, y2]] = onEdge as [[number, number], [number, number]];
        const { value, standardUncertainty, contributions } = must(evaluated(document).strategy.rotation);
        expect(value).toBeCloseTo(Math.atan2(y2 - y1, x2 - x1), 10);
        const baseline = Math.hypot(x2 - x1, y2 - y1);
        expect(standardUncertainty).toBeCloseTo((Math.SQRT2 * 0.002 * Math.cos(skew)) / baseline, 10);
        expect(contributions.filter(({ source }) => source.id.includes("radius"))).toEqual([]);
      }),
      runs,
    );
  });

  it("n touches on a straight edge: u(theta) = s / √Σ(x - x̄)²", () => {
    fc.assert(
      fc.property(edge, fc.integer({ min: 3, max: 7 }), ({ x, y, r }, n) => {
        const shares = Array.from({ length: n }, (_, i) => 5 + 14 * i + 3 * (i % 2));
        const mean = shares.reduce((sum, share) => sum + share, 0) / n;
        const { document } = skewedPart(x, y, 0, r, shares, [0, 0]);
        const { value, standardUncertainty } = must(evaluated(document).strategy.rotation);
        expect(value).toBeCloseTo(0, 10);
        expect(standardUncertainty).toBeCloseTo(0.002 / Math.sqrt(shares.reduce((sum, share) => sum + (share - mean) ** 2, 0)), 10);
      }),
      runs,
    );
  });

  it("corner = n (n . P_B + r) + u (u . P_C + r), and a zero elsewhere M = O + Rot(theta) p", () => {
    fc.assert(
      fc.property(edge, reading, reading, ({ x, y, skew, r }, px, py) => {
        const { onEdge, onLeft, document } = skewedPart(x, y, skew, r, [15, 90], [px, py]);
        const [[x1, y1], [x2, y2]] = onEdge as [[number, number], [number, number]];
        const theta = Math.atan2(y2 - y1, x2 - x1);
        const u = [Math.cos(theta), Math.sin(theta)] as const;
        const n = [-Math.sin(theta), Math.cos(theta)] as const;
        const alongN = n[0] * x1 + n[1] * y1 + r;
        const alongU = u[0] * onLeft[0] + u[1] * onLeft[1] + r;
        const corner = [n[0] * alongN + u[0] * alongU, n[1] * alongN + u[1] * alongU] as const;
        const { strategy } = evaluated(document);
        expect(must(strategy.zero[0]).value).toBeCloseTo(corner[0] + u[0] * px - u[1] * py, 9);
        expect(must(strategy.zero[1]).value).toBeCloseTo(corner[1] + u[1] * px + u[0] * py, 9);
      }),
      runs,
    );
  });

  it("touches that are just enough are predicted at their own readings, on skewed faces too", () => {
    fc.assert(
      fc.property(edge, ({ x, y, skew, r }) => {
        const { onEdge, onLeft, document } = skewedPart(x, y, skew, r, [15, 90], [0, 0]);
        const { predictions } = evaluated(document);
        const expected = [...onEdge.map((centre) => centre[1]), onLeft[0]];
        expect(predictions.map(({ budget }) => budget.value)).toEqual(expected.map((value) => expect.closeTo(value, 8)));
      }),
      { ...runs, numRuns: 30 },
    );
  });

  it("a feature at arm d is off by d sin(theta) across, when the skew is not looked at", () => {
    fc.assert(
      fc.property(edge, micrometres(10, 110), ({ x, y, skew, r }, d) => {
        const { document } = skewedPart(x, y, skew, r, [15, 90], [0, 0]);
        const hole = (id: string, at: string, across: string) => ({ id, kind: "bore", made: "here", diameter: "8", x: at, y: across });
        const judged = evaluated({
          ...document,
          ...documentFrom({
            ...document,
            part: {
              ...document.part,
              elements: [...document.part.elements, hole("near", "0", "0"), hole("far", typed(d), "0")],
              characteristics: [{ id: "rise", kind: "distance", of: "far", from: "near", axis: "Y", tolerance: "±9" }],
            },
            strategies: [{ id: "s", touches: ["b0", "c"] }],
          }),
        });
        const stack = must(judged.strategy.thisPart.stacks[0] as never) as { deviation: number };
        expect(stack.deviation).toBeCloseTo(-d * Math.sin(skew), 9);
      }),
      { ...runs, numRuns: 30 },
    );
  });
});

describe("Z with lengths from the gauge line", () => {
  it("O = R - L - h, with u² = s²/n + u(L)² + u(h)²", () => {
    fc.assert(
      fc.property(
        fc.array(reading, { minLength: 1, maxLength: 3 }),
        size,
        micrometres(0, 60),
        doubt,
        doubt,
        doubt,
        (R, L, h, s, uL, uh) => {
          const document = plate(100, 80, {
            tools: [{ id: "tool", kind: "tool or pin", length: typed(L), lengthUncertainty: typed(uL), scatter: typed(s) }],
            spacers: [{ id: "block", thickness: typed(h), uncertainty: typed(uh) }],
            touches: [{ id: "t", element: "top", travelling: "-Z", tool: "tool", spacer: "block", readings: R.map(typed).join("; ") }],
            strategies: [{ id: "s", touches: ["t"] }],
          });
          const O = zero(document, 2);
          expect(O.value).toBeCloseTo(R.reduce((sum, value) => sum + value, 0) / R.length - L - h, 10);
          expect(O.standardUncertainty).toBeCloseTo(uncertaintyOf(s / Math.sqrt(R.length), uL, uh), 10);
        },
      ),
      runs,
    );
  });
});

describe("readings in other units and other frames", () => {
  it("the same job in inches has the same zero (an inch is 25.4 mm)", () => {
    fc.assert(
      fc.property(reading, size, radius, (left, width, r) => {
        const inches = (value: number) => typed(value / 25.4);
        const make = (unit: "mm" | "inch", text: (value: number) => string) =>
          documentFrom({
            unit,
            part: {
              elements: faces,
              dimensions: [
                { id: "width", from: "left", to: "right", nominal: text(width), tolerance: text(0.2) },
                { id: "depth", from: "front", to: "back", nominal: text(80), tolerance: text(0.2) },
              ],
            },
            tools: [{ id: "tip", kind: "touch probe", radius: text(r), radiusUncertainty: text(0.001), scatter: text(0.002) }],
            touches: [
              { id: "l", element: "left", travelling: "+X", tool: "tip", readings: text(left) },
              { id: "r", element: "right", travelling: "-X", tool: "tip", readings: text(left + width + 2 * r + 0.01) },
            ],
            strategies: [{ id: "s", touches: ["l", "r"], hold: ["middle"], zero: { x: "middle" } }],
          });
        const metric = zero(make("mm", typed), 0);
        const imperial = zero(make("inch", inches), 0);
        expect(imperial.value).toBeCloseTo(metric.value, 9);
        expect(imperial.standardUncertainty).toBeCloseTo(metric.standardUncertainty, 9);
      }),
      { ...runs, numRuns: 30 },
    );
  });

  it("readings in an older work frame are machine coordinates less its origin, also where the tool stood across", () => {
    fc.assert(
      fc.property(edge, reading, reading, ({ x, y, skew, r }, ox, oy) => {
        const make = (frame: string, shift: readonly [number, number]) => {
          const at = (along: number, off: number): readonly [string, string] => [
            typed(x + along * Math.cos(skew) - off * Math.sin(skew) - shift[0]),
            typed(y + along * Math.sin(skew) + off * Math.cos(skew) - shift[1]),
          ];
          const front = (id: string, along: number) => {
            const [X, Y] = at(along, -r);
            return { id, element: "front", travelling: "+Y", tool: "tip", x: X, readings: Y, frame };
          };
          const [X, Y] = at(-r, 30);
          return plate(120, 80, {
            tools: [{ id: "tip", kind: "touch probe", radius: typed(r), scatter: "0.002" }],
            workFrames: [{ id: "old", x: typed(ox), y: typed(oy) }],
            touches: [
              front("b1", 10),
              front("b2", 95),
              { id: "c", element: "left", travelling: "+X", tool: "tip", y: Y, readings: X, frame },
            ],
            strategies: [{ id: "s", touches: ["b1", "b2", "c"], rotation: "applied" }],
          });
        };
        const machine = evaluated(make("machine", [0, 0])).strategy;
        const older = evaluated(make("old", [ox, oy])).strategy;
        for (const axis of [0, 1] as const) expect(must(older.zero[axis]).value).toBeCloseTo(must(machine.zero[axis]).value, 9);
        expect(must(older.rotation).value).toBeCloseTo(must(machine.rotation).value, 11);
      }),
      { ...runs, numRuns: 30 },
    );
  });
});

describe("a swept indicator", () => {
  it("the axis is off the spindle by half the total reading: away from the larger reading in a bore, towards it on a boss", () => {
    fc.assert(
      fc.property(reading, reading, micrometres(-1, 1), micrometres(-1, 1), fc.constantFrom("bore", "boss"), (x, y, tx, ty, kind) => {
        const document = documentFrom({
          part: { elements: [{ id: "round", kind, diameter: "40", datum: "A" }] },
          tools: [{ id: "dial", kind: "swept indicator", scatter: "0.002" }],
          touches: [
            {
              id: "t",
              element: "round",
              travelling: "sweep",
              tool: "dial",
              readings: `X${typed(x)} Y${typed(y)}`,
              total: { x: typed(tx), y: typed(ty) },
            },
          ],
          strategies: [{ id: "s", touches: ["t"] }],
        });
        // Geometry: the wall is nearer to the indicator on the side towards which the spindle stands off the axis of a bore.
        const side = kind === "bore" ? -1 : 1;
        expect(zero(document, 0).value).toBeCloseTo(x + (side * tx) / 2, 10);
        expect(zero(document, 1).value).toBeCloseTo(y + (side * ty) / 2, 10);
      }),
      runs,
    );
  });

  const degree = Math.PI / 180;
  const sweptBy = (lever: object, kind: string, [tx, ty]: readonly [number, number]) =>
    documentFrom({
      part: { elements: [{ id: "round", kind, diameter: "40", datum: "A" }] },
      tools: [{ id: "dial", kind: "swept indicator", scatter: "0.002", ...lever }],
      touches: [
        { id: "t", element: "round", travelling: "sweep", tool: "dial", readings: "X100 Y50", total: { x: typed(tx), y: typed(ty) } },
      ],
      strategies: [{ id: "s", touches: ["t"] }],
    });
  const totals = fc.tuple(micrometres(-1, 1), micrometres(-1, 1));

  // True = reading · cos(angle) (general metrology texts, from memory); its doubt by the derivative of the cosine, one angle for both axes.
  it("of a lever at an angle each total counts times its cosine, and the doubt of the angle shifts both axes together", () => {
    fc.assert(
      fc.property(
        totals,
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 5 }),
        fc.constantFrom("bore", "boss"),
        (total, angle, doubt, kind) => {
          const { strategy } = evaluated(sweptBy({ leverAngle: `${angle}`, leverAngleUncertainty: `${doubt} deg` }, kind, total));
          const side = kind === "bore" ? -1 : 1;
          const bend = total.map((each) => (each / 2) * Math.sin(angle * degree) * doubt * degree);
          for (const axis of [0, 1] as const) {
            const { value, standardUncertainty } = must(strategy.zero[axis]);
            expect(value).toBeCloseTo(([100, 50][axis] as number) + (side * (total[axis] as number) * Math.cos(angle * degree)) / 2, 10);
            expect(standardUncertainty).toBeCloseTo(Math.hypot(0.002, bend[axis] as number), 10);
          }
          const both = covarianceMatrix([must(strategy.zero[0]), must(strategy.zero[1])]);
          expect(entryOf(both, 0, 1)).toBeCloseTo((bend[0] as number) * (bend[1] as number), 12);
        },
      ),
      runs,
    );
  });

  // Anything from cos(largest) to 1, equally likely: the middle, and a variance of (1 - cos)²/12 (JCGM 100:2008, 4.3.8).
  it("of a lever of which only the largest angle is known, each total counts with the middle of what may be true of it", () => {
    fc.assert(
      fc.property(totals, fc.integer({ min: 0, max: 60 }), fc.constantFrom("bore", "boss"), (total, largest, kind) => {
        const { strategy } = evaluated(sweptBy({ leverAngleLimit: `${largest} deg` }, kind, total));
        const side = kind === "bore" ? -1 : 1;
        const lost = 1 - Math.cos(largest * degree);
        for (const axis of [0, 1] as const) {
          const { value, standardUncertainty } = must(strategy.zero[axis]);
          expect(value).toBeCloseTo(([100, 50][axis] as number) + (side * (total[axis] as number) * (1 - lost / 2)) / 2, 10);
          expect(standardUncertainty).toBeCloseTo(Math.hypot(0.002, (((total[axis] as number) / 2) * lost) / Math.sqrt(12)), 10);
        }
      }),
      runs,
    );
  });
});

describe("predicted readings", () => {
  it("R = O + x - a r for a face touched again, doubted by the scatter of both touches alone", () => {
    fc.assert(
      fc.property(reading, radius, fc.integer({ min: 1, max: 4 }), (R, r, n) => {
        const document = plate(100, 80, {
          tools: [
            {
              id: "tip",
              kind: "touch probe",
              radius: typed(r),
              radiusUncertainty: "0.003",
              lateTrigger: "0.01",
              eccentricity: "0.01",
              scatter: "0.002",
            },
          ],
          machine: { lostMotion: { x: "0.02" }, working: { x: "-" } },
          touches: [
            {
              id: "l",
              element: "left",
              travelling: "+X",
              tool: "tip",
              readings: Array.from({ length: n }, (_, i) => typed(R + 0.001 * i)).join("; "),
            },
          ],
          strategies: [{ id: "s", touches: ["l"] }],
        });
        const { predictions } = evaluated(document);
        const { value, standardUncertainty } = (predictions[0] as (typeof predictions)[number]).budget;
        expect(value).toBeCloseTo(R + (0.001 * (n - 1)) / 2, 10);
        expect(standardUncertainty).toBeCloseTo(uncertaintyOf(0.002, 0.002 / Math.sqrt(n)), 10);
      }),
      runs,
    );
  });

  it("a face touched twice is predicted at the mean of both, with u² = s² + s²/2", () => {
    fc.assert(
      fc.property(reading, radius, doubt, (R, r, apart) => {
        const document = plate(100, 80, {
          tools: [{ id: "tip", kind: "touch probe", radius: typed(r), radiusUncertainty: "0.003", scatter: "0.002" }],
          touches: [0, apart].map((more, i) => ({
            id: `l${i}`,
            element: "left",
            travelling: "+X",
            tool: "tip",
            readings: typed(R + more),
          })),
          strategies: [{ id: "s", touches: ["l0"] }],
        });
        for (const { budget } of evaluated(document).predictions) {
          expect(budget.value).toBeCloseTo(R + apart / 2, 10);
          expect(budget.standardUncertainty).toBeCloseTo(0.002 * Math.sqrt(1.5), 10);
        }
      }),
      { ...runs, numRuns: 20 },
    );
  });
});
