import { describe, expect, it } from "vitest";
import { optimalZero } from "../../lib/datum/optimalZero.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { documentFrom, must, open, typed } from "../properties/setups.ts";
import reference from "../reference/generalisedLeastSquares.json" with { type: "json" };

interface Read {
  readonly tool: string;
  readonly reading: number;
}

/** A left face at 0 of the drawing, touched towards +X by tips of radius 0, so that a reading is the face. */
function edge(reads: readonly Read[], tools: readonly object[], more: object = {}) {
  return open(
    documentFrom({
      part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "C" }] },
      tools,
      touches: reads.map(({ tool, reading }, i) => ({
        id: `t${i}`,
        element: "left",
        travelling: "+X",
        tool,
        readings: typed(reading),
        y: "0",
      })),
      strategies: [{ id: "s", touches: reads.map((_, i) => `t${i}`) }],
      ...more,
    }),
  );
}

function bestX(opened: ReturnType<typeof edge>) {
  const best = optimalZero(opened.solution("s"), opened.location);
  if (best === undefined) throw new Error("nothing is redundant");
  const [x] = must(best).coordinates;
  if (x === undefined) throw new Error("no X");
  return x;
}

describe("the optimal estimate beside the strategy's own", () => {
  // numpy's generalised least squares (tests/reference/generalisedLeastSquares.py): three touches of scatter 0.002 by a tip whose radius is known to
  // 0.008, two of scatter 0.006 by one whose radius is known to 0.001.
  it("of an edge by two tools is the generalised least-squares one", () => {
    const { observed, estimate, covariance } = reference.cases.find(
      ({ name }) => name === "an edge by two tools",
    ) as (typeof reference.cases)[number];
    const tools = [
      { id: "A", kind: "touch probe", radius: "2", radiusUncertainty: "0.008", scatter: "0.002" },
      { id: "B", kind: "touch probe", radius: "2", radiusUncertainty: "0.001", scatter: "0.006" },
    ];
    const x = bestX(
      edge(
        observed.map((reading, i) => ({ tool: i < 3 ? "A" : "B", reading: reading - 2 })),
        tools,
      ),
    );
    expect(x.optimal.value).toBeCloseTo(estimate[0] as number, 9);
    expect(x.optimal.standardUncertainty).toBeCloseTo(Math.sqrt((covariance[0] as number[])[0] as number), 9);
    // All alike, by the shop's formula: the mean of five, with 3/5 of the one radius and 2/5 of the other.
    const alike = Math.sqrt(3 * 0.002 ** 2 + 2 * 0.006 ** 2 + (3 * 0.008) ** 2 + (2 * 0.001) ** 2) / 5;
    expect(x.conventional.standardUncertainty).toBeCloseTo(alike, 9);
    expect(x.ratio).toBeCloseTo(x.optimal.standardUncertainty / alike, 9);
  });

  it("of alike touches is the mean that the strategy takes (handbook: the mean is best for equal variances)", () => {
    const tools = [{ id: "A", kind: "touch probe", radius: "2", radiusUncertainty: "0.003", scatter: "0.002" }];
    const x = bestX(
      edge(
        [0.001, -0.002, 0.0015].map((reading) => ({ tool: "A", reading })),
        tools,
      ),
    );
    expect(x.ratio).toBeCloseTo(1, 9);
    expect(x.optimal.value).toBeCloseTo(x.conventional.value, 9);
    expect(x.optimal.standardUncertainty).toBeCloseTo(Math.hypot(0.003, 0.002 / Math.sqrt(3)), 9);
  });

  it("is none where the touches are just enough", () => {
    const opened = edge([{ tool: "A", reading: 0 }], [{ id: "A", kind: "touch probe", radius: "2", scatter: "0.002" }]);
    expect(optimalZero(opened.solution("s"), opened.location)).toBeUndefined();
  });

  it("is withheld where the touches disagree by more than their doubts explain", () => {
    const opened = edge(
      [0, 0.05].map((reading) => ({ tool: "A", reading })),
      [{ id: "A", kind: "touch probe", radius: "2", scatter: "0.002" }],
    );
    expect(optimalZero(opened.solution("s"), opened.location)).toMatchObject({
      ok: false,
      problems: [{ at: "strategies.s", what: expect.stringContaining("disagree by more than their doubts explain") }],
    });
  });

  // Faces at -400 and -200 of a machine whose scale may be off by 0.02 over 300: 0.02/300/√3 per mm. Zero lies at the left one, and the width is
  // known; the right face, 200 mm away, brings what the scale is off over 200 mm. By hand: weights of inverse variances.
  it("counts what the scale is off between the touches and part zero", () => {
    const opened = open(
      documentFrom({
        part: {
          elements: [
            { id: "left", kind: "face", outward: "-X", datum: "C" },
            { id: "right", kind: "face", outward: "+X" },
          ],
          dimensions: [{ id: "width", from: "left", to: "right", nominal: "200", tolerance: "" }],
        },
        machine: { positioning: "0.02", positioningOver: "300" },
        tools: [{ id: "A", kind: "touch probe", radius: "2", scatter: "0.004" }],
        touches: [
          { id: "l", element: "left", travelling: "+X", tool: "A", readings: "-402", y: "0" },
          { id: "r", element: "right", travelling: "-X", tool: "A", readings: "-197.994", y: "0" },
        ],
        strategies: [{ id: "s", touches: ["l", "r"] }],
      }),
    );
    const [x] = must(optimalZero(opened.solution("s"), opened.location) as NonNullable<ReturnType<typeof optimalZero>>).coordinates;
    const scale = 0.02 / 300 / Math.sqrt(3);
    // The strategy's own zero lies at the mean, 0.003 up: so little that the scale there is the same.
    const [left, right] = [0.004 ** 2, 0.004 ** 2 + (200 * scale) ** 2];
    expect(x?.optimal.standardUncertainty).toBeCloseTo(Math.sqrt(1 / (1 / left + 1 / right)), 6);
    expect(x?.optimal.value).toBeCloseTo((-400 / left - 399.994 / right) / (1 / left + 1 / right), 5);
    expect(x?.conventional.standardUncertainty).toBeCloseTo(Math.hypot(0.004 / Math.SQRT2, 100 * scale), 6);
    const own = budgetsOf([opened.solution("s").fromReadings.zero[0]])[0];
    expect(own?.standardUncertainty).toBeCloseTo(0.004 / Math.SQRT2, 9);
  });
});
