import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Matrix, matrixOf } from "../../lib/base/matrix.ts";
import { ellipticalRegion, rectangularRegion } from "../../lib/uncertainty/coverageRegion.ts";
import { ellipseCoverage } from "../../lib/uncertainty/ellipseCoverage.ts";

interface References {
  readonly zeroOfLeftFace: { readonly probability: number; readonly chance: number; readonly standardError: number };
  readonly squares: readonly { readonly probability: number; readonly correlation: number; readonly factor: number }[];
  readonly estimated: readonly {
    readonly probability: number;
    readonly dimension: number;
    readonly degreesOfFreedom: number;
    readonly factor: number;
  }[];
  readonly ellipses: readonly {
    readonly covariance: number[][];
    readonly probability: number;
    readonly factor: number;
    readonly halfAxes: number[];
    readonly longest: number[];
  }[];
}

// scipy (tests/reference/coverageRegions.py)
const { squares, ellipses, estimated, zeroOfLeftFace }: References = JSON.parse(
  readFileSync(new URL("../reference/coverageRegions.json", import.meta.url), "utf8"),
);

function symmetric(rows: readonly (readonly number[])[]): Matrix {
  return matrixOf(rows.length, rows.length, (i, j) => rows[i]?.[j] as number);
}

const pair = (r: number) =>
  symmetric([
    [1, r],
    [r, 1],
  ]);

describe("ellipticalRegion(covariance, probability)", () => {
  it("has the factor, half axes and longest direction of scipy", () => {
    for (const { covariance, probability, factor, halfAxes, longest } of ellipses) {
      const region = ellipticalRegion(symmetric(covariance), probability);
      expect(Math.abs(region.factor / factor - 1)).toBeLessThanOrEqual(1e-12);
      region.halfAxes.forEach((half, i) => {
        expect(Math.abs(half / (halfAxes[i] as number) - 1)).toBeLessThanOrEqual(1e-10);
      });
      const cosine = (region.directions[0] as number[]).reduce((sum, x, i) => sum + x * (longest[i] as number), 0);
      expect(Math.abs(cosine)).toBeCloseTo(1, 12);
    }
  });

  // Area πab of an ellipse, volume 4πabc/3 of an ellipsoid (geometry).
  it("has the content of an ellipse and of an ellipsoid", () => {
    const plane = ellipticalRegion(pair(0.5), 0.95);
    expect(plane.content).toBeCloseTo(Math.PI * plane.factor ** 2 * Math.sqrt(0.75), 12);
    const space = ellipticalRegion(
      symmetric([
        [4, 0, 0],
        [0, 1, 0],
        [0, 0, 9],
      ]),
      0.9,
    );
    expect(space.content).toBeCloseTo((4 / 3) * Math.PI * space.factor ** 3 * 6, 9);
  });

  it("tells the angle of the long axis, above -90° to 90°", () => {
    expect(ellipticalRegion(pair(0.5), 0.95).angle).toBeCloseTo(Math.PI / 4, 12);
    expect(ellipticalRegion(pair(-0.5), 0.95).angle).toBeCloseTo(-Math.PI / 4, 12);
    expect(ellipticalRegion(pair(0), 0.95).angle).toBe(0);
    expect(
      ellipticalRegion(
        symmetric([
          [1, 0],
          [0, 4],
        ]),
        0.95,
      ).angle,
    ).toBeCloseTo(Math.PI / 2, 12);
    expect(ellipticalRegion(symmetric([[1]]), 0.95).angle).toBeUndefined();
  });

  // One direction in doubt: the normal's own 1.96 (JCGM 100:2008, Table G.1), not the 2.45 of a plane.
  it("is flat where a result is exact or follows from the other, with the factor of the directions that are left", () => {
    for (const covariance of [
      pair(1),
      pair(-1),
      symmetric([
        [4, 0],
        [0, 0],
      ]),
    ]) {
      const { dimension, factor, halfAxes, content } = ellipticalRegion(covariance, 0.95);
      expect([dimension, halfAxes[1], content]).toEqual([1, 0, 0]);
      expect(factor).toBeCloseTo(1.959964, 6);
    }
    expect(
      ellipticalRegion(
        symmetric([
          [0, 0],
          [0, 0],
        ]),
        0.95,
      ),
    ).toMatchObject({ dimension: 0, factor: 0, halfAxes: [0, 0], angle: 0 });
  });

  it("does not let units decide what is flat: a length in mm and an angle in µrad", () => {
    expect(
      ellipticalRegion(
        symmetric([
          [1, 0],
          [0, 1e-20],
        ]),
        0.95,
      ).dimension,
    ).toBe(2);
  });

  // Table of F at 95 %: F(2, 10) = 4.10, F(2, 3) = 9.55, F(1, 4) = 7.71 = 2.776² (value from memory, recomputed).
  it("has k² = m F(m, ν) where all results rest on one estimate", () => {
    expect(ellipticalRegion(pair(0.3), 0.95, 10).factor ** 2 / 2).toBeCloseTo(4.103, 3);
    expect(ellipticalRegion(pair(0.3), 0.95, 3).factor ** 2 / 2).toBeCloseTo(9.552, 3);
    expect(ellipticalRegion(symmetric([[1]]), 0.95, 4).factor).toBeCloseTo(2.7764, 4);
    for (const { probability, dimension, degreesOfFreedom, factor } of estimated) {
      const found = ellipticalRegion(
        matrixOf(dimension, dimension, (i, j) => (i === j ? 1 : 0.2)),
        probability,
        degreesOfFreedom,
      );
      expect(Math.abs(found.factor / factor - 1)).toBeLessThanOrEqual(1e-11);
    }
  });

  it("refuses what is no covariance matrix, and says why", () => {
    expect(() => ellipticalRegion(pair(1.1), 0.95)).toThrow(
      "covariance: expected at most the product of both standard uncertainties, 1, got 1.1",
    );
    expect(() =>
      ellipticalRegion(
        symmetric([
          [1, 0.2],
          [0.3, 1],
        ]),
        0.95,
      ),
    ).toThrow("covariance: expected symmetric, got 0.2 and 0.3");
    expect(() => ellipticalRegion(symmetric([[-1]]), 0.95)).toThrow("covariance: expected variances >= 0, got -1");
    expect(() => ellipticalRegion(symmetric([[Number.NaN]]), 0.95)).toThrow("covariance: expected finite entries, got NaN");
    expect(() =>
      ellipticalRegion(
        matrixOf(1, 2, () => 1),
        0.95,
      ),
    ).toThrow("covariance: expected as many rows as columns, got 1 x 2");
    expect(() =>
      ellipticalRegion(
        symmetric([
          [1, 0.9, -0.9],
          [0.9, 1, 0.9],
          [-0.9, 0.9, 1],
        ]),
        0.95,
      ),
    ).toThrow("covariance: expected positive semidefinite");
    expect(() => ellipticalRegion(pair(0), 1)).toThrow("probability: expected above 0 and below 1, got 1");
    expect(() => ellipticalRegion(pair(0), 0.95, 0)).toThrow("degreesOfFreedom: expected > 0, got 0");
  });
});

describe("rectangularRegion(covariance, probability)", () => {
  it("has the exact factor for two normal results, as scipy's quadrature has it", () => {
    for (const { probability, correlation, factor } of squares) {
      const region = rectangularRegion(pair(correlation), probability);
      expect(Math.abs(region.factor - factor), `p ${probability}, r ${correlation}`).toBeLessThanOrEqual(1e-9);
      expect(region.method).toBe("exact");
      expect(region.factor).toBeLessThanOrEqual(region.boundFactor * (1 + 1e-12));
    }
  });

  it("is a bound for more results, and for Student's t", () => {
    const three = rectangularRegion(
      symmetric([
        [4, 0, 0],
        [0, 1, 0],
        [0, 0, 9],
      ]),
      0.95,
    );
    expect(three.method).toBe("bound");
    expect(three.halfWidths).toEqual([2, 1, 3].map((u) => expect.closeTo(u * three.factor, 12)));
    expect(three.content).toBeCloseTo(8 * 6 * three.factor ** 3, 9);
    // Student's t of 5 degrees of freedom at 97.5 %: 3.163 two-sided (tables; value from memory, recomputed).
    const few = rectangularRegion(pair(0.4), 0.95, 5);
    expect([few.method, few.factor]).toEqual(["bound", expect.closeTo(3.1634, 4)]);
  });

  it("gives no share of the chance to exact results", () => {
    const { factor, halfWidths, content } = rectangularRegion(
      symmetric([
        [4, 0],
        [0, 0],
      ]),
      0.95,
    );
    expect(factor).toBeCloseTo(1.959964, 6);
    expect([halfWidths[1], content]).toEqual([0, 0]);
    expect(rectangularRegion(symmetric([[0]]), 0.95)).toMatchObject({ factor: 0, halfWidths: [0] });
  });
});

describe("ellipseCoverage(region, terms)", () => {
  const normal = (standardDeviation: number) => ({ shape: "normal", standardDeviation }) as const;

  it("is the probability itself for normal sources, whatever they share", () => {
    const terms = [
      { coefficient: [1, 0.4], distribution: normal(2) },
      { coefficient: [-0.3, 1], distribution: normal(1) },
      { coefficient: [0.5, 0.5], distribution: normal(0.5) },
    ] as const;
    const entry = (i: 0 | 1, j: 0 | 1) =>
      terms.reduce((sum, { coefficient, distribution }) => sum + coefficient[i] * coefficient[j] * distribution.standardDeviation ** 2, 0);
    const region = ellipticalRegion(
      matrixOf(2, 2, (i, j) => entry(i as 0 | 1, j as 0 | 1)),
      0.9,
    );
    expect(ellipseCoverage(region, terms).chance).toBeCloseTo(0.9, 9);
  });

  // Uniform on the square ±√3: the disc of radius k = √(-2 ln 0.5) = 1.177 lies within, so its chance is πk²/12.
  it("is the share of the area for two rectangular sources", () => {
    const flat = { shape: "rectangular", halfWidth: Math.sqrt(3) } as const;
    const { chance, error } = ellipseCoverage(ellipticalRegion(pair(0), 0.5), [
      { coefficient: [1, 0], distribution: flat },
      { coefficient: [0, 1], distribution: flat },
    ]);
    expect(Math.abs(chance - (Math.PI * 2 * Math.LN2) / 12)).toBeLessThanOrEqual(error + 1e-9);
  });

  // Trials by numpy: scatter of 3 and 2 degrees of freedom has the heavy tails that the normal ellipse does not know of.
  it("tells how much less the ellipse holds where few repeats make heavy tails", () => {
    const flat = { shape: "rectangular", halfWidth: 2 } as const;
    const [along, across] = [
      [1, 0],
      [0, 1],
    ] as const;
    const both = [1, 1] as const;
    const { chance } = ellipseCoverage(
      ellipticalRegion(
        symmetric([
          [10 / 12 + 5, 7 / 3],
          [7 / 3, 1 / 3 + 5],
        ]),
        zeroOfLeftFace.probability,
      ),
      [
        { coefficient: both, distribution: normal(1) },
        { coefficient: both, distribution: flat },
        ...[along, along, across, across].map((coefficient) => ({ coefficient, distribution: flat })),
        { coefficient: along, distribution: { shape: "scaledT", scale: Math.sqrt(10 / 12), degreesOfFreedom: 3 } },
        { coefficient: across, distribution: { shape: "scaledT", scale: Math.sqrt(1 / 3), degreesOfFreedom: 2 } },
      ],
    );
    expect(Math.abs(chance - zeroOfLeftFace.chance)).toBeLessThanOrEqual(4 * zeroOfLeftFace.standardError);
  });

  // Along a line, ±1.96 u of a rectangle of half-width √3 u holds all of it.
  it("looks along the line of a flat region, and is certain where nothing is in doubt", () => {
    const flat = { shape: "rectangular", halfWidth: Math.sqrt(3) } as const;
    expect(ellipseCoverage(ellipticalRegion(pair(1), 0.95), [{ coefficient: [1, 1], distribution: flat }]).chance).toBeCloseTo(1, 9);
    expect(ellipseCoverage(ellipticalRegion(pair(1), 0.5), [{ coefficient: [1, 1], distribution: flat }]).chance).toBeCloseTo(
      0.6744897502 / Math.sqrt(3),
      8,
    );
    expect(
      ellipseCoverage(
        ellipticalRegion(
          symmetric([
            [0, 0],
            [0, 0],
          ]),
          0.95,
        ),
        [],
      ),
    ).toEqual({ chance: 1, error: 0 });
    expect(() => ellipseCoverage(ellipticalRegion(symmetric([[1]]), 0.95), [])).toThrow("region: expected one of 2 results, got 1");
  });
});
