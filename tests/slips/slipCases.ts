import fc from "fast-check";
import type { Estimate } from "../../lib/slips/estimate.ts";
import type { MiddleFace, RegisterFact, SlipFacts, WidthFact } from "../../lib/slips/slipFacts.ts";

type Facts = Omit<SlipFacts, "unit">;

/** Facts of a setup without and with the slip that one rule sees, by the hand formula of that rule. */
export interface SlipCase {
  readonly rule: string;
  readonly clean: fc.Arbitrary<Facts>;
  readonly slipped: fc.Arbitrary<Facts>;
}

const at = "somewhere";
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** A standard uncertainty of a few micrometres, mm. */
const small = double(0.001, 0.008);
const radius = double(1, 10);
/** Within one standard uncertainty. */
const within = double(-1, 1);

function estimate(value: number, standardUncertainty: number): Estimate {
  return { value, standardUncertainty, degreesOfFreedom: Number.POSITIVE_INFINITY };
}

/** An outside or inside width that is this many radii off, an outside one too large where it is positive. */
function widthOff(radii: number, more: (r: number, u: number) => Partial<WidthFact> = () => ({})): fc.Arbitrary<Facts> {
  return fc
    .tuple(radius, small, within, fc.constantFrom("outside" as const, "inside" as const), double(50, 300))
    .map(([r, u, error, side, known]) => {
      const off = (side === "outside" ? 1 : -1) * radii * r + error * u;
      const width: WidthFact = {
        at,
        name: "length",
        side,
        touched: known + off,
        difference: estimate(off, u),
        knownBy: "its measurement",
        tool: "finder",
        radius: r,
        catalogueRadius: undefined,
        faces: [
          { touch: "l", element: "left", outwards: undefined },
          { touch: "r", element: "right", outwards: undefined },
        ],
        ...more(r, u),
      };
      return { widths: [width] };
    });
}

const cleanWidth = widthOff(0);

function oneSided(radii: number): fc.Arbitrary<Facts> {
  return widthOff(radii, (r, u) => ({
    faces: [
      { touch: "l", element: "left", outwards: estimate(radii * r, u) },
      { touch: "r", element: "right", outwards: estimate(0.2 * u, u) },
    ],
  }));
}

/** A height that is off by this many times what may explain it. */
function heightOff(factor: number): fc.Arbitrary<Facts> {
  return fc.tuple(double(80, 120), double(1, 40), small, within).map(([length, more, u, error]) => ({
    heights: [
      {
        at,
        name: "the top",
        against: "a check",
        difference: estimate(factor * more + error * u, u),
        tool: "cutter",
        length,
        lengths: [{ tool: "drill", length: length + more }],
        spacers: [{ name: "block", thickness: more }],
      },
    ],
  }));
}

/** A reading and what it is compared with. */
function reading(slip: (shown: number) => number, retract = 0): fc.Arbitrary<Facts> {
  return fc.tuple(double(100, 900), fc.boolean(), small, within).map(([size, negative, u, error]) => {
    const expected = Number((negative ? -size : size).toFixed(3));
    // The display shows its last digit; the slip happens to what it shows.
    const value = Number(slip(Number((expected + error * u).toFixed(3))).toFixed(5));
    return {
      readings: [
        {
          at,
          name: "a reading",
          value,
          expected,
          difference: estimate(value - expected, Math.hypot(u, 0.0005)),
          expectedBy: "its repeats",
          retract,
        },
      ],
    };
  });
}

function face(touch: string, more: Partial<MiddleFace> = {}): MiddleFace {
  return { element: touch, touch, tool: "finder", scatter: { standardDeviation: 0.004, degreesOfFreedom: 5 }, roughness: 0.002, ...more };
}

function middle(first: Partial<MiddleFace>, second: Partial<MiddleFace>, eccentricity = 0, turned = false): fc.Arbitrary<Facts> {
  return fc.constant({
    middles: [
      { at, strategy: "middle", middle: "middle", faces: [face("left", first), face("right", second)] as const, eccentricity, turned },
    ],
  });
}

export const slipCases: readonly SlipCase[] = [
  // The signature table: correct 0, radius left out +2, both signs wrong +4, diameter used -2 (in true radii).
  { rule: "diameter used for the radius", clean: cleanWidth, slipped: widthOff(-2) },
  { rule: "radius not applied", clean: cleanWidth, slipped: widthOff(2) },
  { rule: "sign wrong on both sides", clean: cleanWidth, slipped: widthOff(4) },
  { rule: "sign wrong on one side", clean: oneSided(0), slipped: oneSided(2) },
  {
    rule: "inch and millimetre mixed",
    clean: double(1, 300).map((value) => ({
      expectedLengths: [{ at, name: "a size", value: value * 1.001, expected: value, expectedBy: "the drawing" }],
    })),
    slipped: fc.tuple(double(1, 300), fc.constantFrom(25.4, 1 / 25.4)).map(([expected, factor]) => ({
      expectedLengths: [{ at, name: "a size", value: expected * factor * 1.003, expected, expectedBy: "the drawing" }],
    })),
  },
  { rule: "length of another tool", clean: heightOff(0), slipped: heightOff(1) },
  { rule: "block or paper forgotten, or counted twice", clean: heightOff(0), slipped: heightOff(-1) },
  {
    rule: "offset applied twice",
    clean: fc.tuple(double(100, 900), small, within).map(([previous, u, error]) => ({
      zeros: [{ at, axis: "X" as const, found: previous + error * u, previous, standardUncertainty: u }],
    })),
    slipped: fc.tuple(double(100, 900), small, within).map(([previous, u, error]) => ({
      zeros: [{ at, axis: "X" as const, found: 2 * previous + error * u, previous, standardUncertainty: u }],
    })),
  },
  {
    rule: "shift left on",
    clean: fc.tuple(small, within).map(([u, error]) => ({
      shifts: [{ at, register: "G54", axis: "X" as const, remaining: estimate(error * u, u), nestActive: false }],
    })),
    slipped: fc.tuple(small, double(0.5, 100)).map(([u, shift]) => ({
      shifts: [{ at, register: "G54", axis: "X" as const, remaining: estimate(shift, u), nestActive: false }],
    })),
  },
  {
    rule: "wrong register",
    clean: fc.tuple(double(-900, -700), within, fc.boolean()).map(([before, change, isHeightAlone]) => ({
      // A height alone tells no register from another: two vices are about as high.
      registers: isHeightAlone ? [written(before, 300 + change, 300)] : [written(before, change, 300), written(before, change, 0)],
    })),
    slipped: fc.tuple(double(-900, -700), within).map(([before, change]) => ({
      registers: [written(before, 300 + change, 300), written(before, change, 0)],
    })),
  },
  { rule: "middle with one rough or burred face", clean: middle({}, {}), slipped: middle({}, { roughness: 0.08 }) },
  {
    rule: "zero on a face that is no datum",
    clean: double(0, 0.29).map((share) => ({ mismatches: [{ at, strategy: "corner", characteristic: "hole", size: "length", share }] })),
    slipped: double(0.31, 4).map((share) => ({ mismatches: [{ at, strategy: "corner", characteristic: "hole", size: "length", share }] })),
  },
  {
    rule: "nominal width halved instead of the measured one",
    clean: fc
      .tuple(small, within)
      .map(([u, error]) => ({ halves: [{ at, strategy: "s", middle: "m", difference: estimate(error * u, u) }] })),
    slipped: small.map((u) => ({ halves: [{ at, strategy: "s", middle: "m", difference: estimate(0.064, u) }] })),
  },
  {
    // F11: turned over about X, y changes sign; about Y, x does.
    rule: "part turned over about another axis",
    clean: fc.tuple(double(20, 200), small, within).map(([x, u, error]) => turnover(x + error * u, x, -x, u)),
    slipped: fc.tuple(double(20, 200), small, within).map(([x, u, error]) => turnover(-x + error * u, x, -x, u)),
  },
  {
    rule: "opposite touches not alike",
    clean: middle({}, {}, 0.01, true),
    slipped: fc.oneof(middle({}, { tool: "probe" }), middle({}, {}, 0.01, false)),
  },
  {
    rule: "opposite approaches mixed",
    clean: double(0, 0.02).map((lostMotion) => ({
      approaches: [{ at, axis: "X" as const, lostMotion, use: 1 as const, touched: 1, characteristic: "hole", zone: 0.1 }],
    })),
    // One touch towards +, work towards -: all of b.
    slipped: double(0.0105, 0.05).map((lostMotion) => ({
      approaches: [{ at, axis: "X" as const, lostMotion, use: -1 as const, touched: 1, characteristic: "hole", zone: 0.1 }],
    })),
  },
  {
    rule: "part not seated",
    clean: fc.tuple(small, within).map(([u, error]) => ({ seats: [{ at, what: "a lift", lift: estimate(error * u, u) }] })),
    slipped: small.map((u) => ({ seats: [{ at, what: "a lift", lift: estimate(0.08, u) }] })),
  },
  {
    rule: "skew ignored",
    clean: fc.tuple(small, within).map(([u, error]) => edge(error * u, u)),
    slipped: small.map((u) => edge(0.1, u)),
  },
  {
    rule: "angle from too short a baseline",
    // Two touches scatter by √2·s over their baseline (F6).
    clean: double(0.001, 0.003).map((s) => angle((Math.SQRT2 * s) / 300)),
    slipped: double(0.003, 0.008).map((s) => angle((Math.SQRT2 * s) / 20)),
  },
  {
    rule: "poor centre of a round wall",
    // Three points: equally spaced 0.82, over 90 degrees 4.2 along the bisector.
    clean: small.map((u) => ({
      bores: [{ at, element: "bore", amplification: 0.82, points: [{ touch: "a", residual: estimate(0.5 * u, u) }], diameter: undefined }],
    })),
    slipped: small.chain((u) =>
      fc.constantFrom(
        { bores: [{ at, element: "bore", amplification: 4.2, points: [], diameter: undefined }] },
        {
          bores: [{ at, element: "bore", amplification: 0.82, points: [{ touch: "a", residual: estimate(0.2, u) }], diameter: undefined }],
        },
        { bores: [{ at, element: "bore", amplification: 0.82, points: [], diameter: estimate(-0.2, u) }] },
      ),
    ),
  },
  {
    rule: "total indicator reading used for the shift",
    clean: double(0.01, 1).map((total) => ({
      sweeps: [{ at, axis: "X" as const, applied: total / 2, totalReading: total, cosine: 1, standardUncertainty: 0.001 }],
    })),
    slipped: double(0.01, 1).map((total) => ({
      sweeps: [{ at, axis: "X" as const, applied: total, totalReading: total, cosine: 1, standardUncertainty: 0.001 }],
    })),
  },
  {
    rule: "zero set cold, or too long ago",
    clean: double(0, 0.004).map((drift) => ({
      ages: [{ at, axis: "Z" as const, minutes: 20, drift: estimate(drift, 0.002), allowed: 0.01 }],
    })),
    slipped: double(0.011, 0.05).map((drift) => ({
      ages: [{ at, axis: "Z" as const, minutes: 90, drift: estimate(drift, 0.002), allowed: 0.01 }],
    })),
  },
  {
    rule: "correction with the wrong sign or in the wrong place",
    clean: fc.tuple(double(0.03, 0.2), within).map(([first, error]) => ({
      articles: [{ at, characteristic: "hole", first, second: error * 0.003, change: -first, standardUncertainty: 0.003 }],
    })),
    slipped: fc.tuple(double(0.03, 0.2), within).map(([first, error]) => ({
      articles: [{ at, characteristic: "hole", first, second: 2 * first + error * 0.003, change: -first, standardUncertainty: 0.003 }],
    })),
  },
  {
    rule: "corrected on too few parts",
    clean: fc.constant({ runs: [run([0.05], "now")] }),
    slipped: fc.constantFrom(
      { runs: [run([0.005], "now")] },
      {
        runs: [
          run(
            Array.from({ length: 16 }, (_, i) => (i % 2 === 0 ? 0.02 : -0.02)),
            "after each",
          ),
        ],
      },
    ),
  },
  {
    rule: "typing slip",
    clean: reading((expected) => expected),
    slipped: fc.oneof(
      reading((expected) => -expected),
      reading((expected) => expected * 10),
      reading((expected) => expected / 10),
    ),
  },
  {
    rule: "not verified since an event",
    clean: fc.constant({ events: [{ at, name: "crash", verifiedSince: true, voids: "all", standing: "X has been checked" }] }),
    slipped: fc.constant({ events: [{ at, name: "crash", verifiedSince: false, voids: "all", standing: "X has not been checked" }] }),
  },
  {
    rule: "machine position typed as a shift",
    clean: double(50, 200).map((pitch) => ({
      nestShifts: [{ at, axis: "X" as const, shift: pitch * 1.0002, pitch, measuredZero: -412.6, standardUncertainty: 0.005 }],
    })),
    slipped: double(50, 200).map((pitch) => ({
      nestShifts: [{ at, axis: "X" as const, shift: pitch - 412.59, pitch, measuredZero: -412.6, standardUncertainty: 0.005 }],
    })),
  },
  {
    rule: "reading written down after the retract",
    clean: reading((expected) => expected, 2),
    slipped: reading((expected) => expected + 2, 2),
  },
];

/** Along one axis: what the register held, how far it was written from that, and how far from it another register's zero lies. */
function written(before: number, change: number, apart: number): RegisterFact {
  return {
    at,
    register: "G54",
    called: true,
    written: { value: before + change, before },
    others: [{ register: "G55", before: before + apart }],
  };
}

function turnover(touched: number, assumed: number, other: number, standardUncertainty: number): Facts {
  return {
    turnovers: [
      {
        at,
        feature: "bore",
        axis: "X",
        touched,
        standardUncertainty,
        assumed: { turn: "about X", predicted: assumed },
        others: [{ turn: "about Y", predicted: other }],
      },
    ],
  };
}

function edge(difference: number, u: number): Facts {
  return {
    edges: [
      {
        at,
        element: "front",
        touches: ["a", "b"],
        difference: estimate(difference, u),
        baseline: 200,
        arm: 240,
        characteristic: "hole",
        zone: 0.1,
      },
    ],
  };
}

function angle(standardUncertainty: number): Facts {
  return { angles: [{ at, strategy: "s", standardUncertainty, arm: 200, characteristic: "hole", zone: 0.1 }] };
}

function run(deviations: readonly number[], corrected: "now" | "after each") {
  return { at, characteristic: "hole", deviations, standardDeviation: 0.01, corrected };
}
