import { describe, expect, it } from "vitest";
import { arctangent2, cosine, sine } from "../../../lib/uncertainty/internals/smallAngles.ts";

/** One unit in the last place. */
const last = 2 ** -52;
const close = (found: number, expected: number) => expect(Math.abs(found - expected)).toBeLessThanOrEqual(last * Math.abs(expected));

// mpmath with 30 digits: sin(x), cos(x), atan(x / 1.75), of the double x.
it.each([
  [0.0001, 9.999999983333334e-5, 0.999999995, 5.714285708066084e-5],
  [-0.0123, -0.01229968985784608, 0.9999243559536896, -0.0070284556929464765],
  [0.2, 0.19866933079506122, 0.9800665778412416, 0.11379200714370807],
  [0.7, 0.644217687237691, 0.7648421872844885, 0.38050637711236485],
  [-0.78, -0.7032794192004101, 0.7109135380122773, -0.4192842125951796],
])("sine, cosine and arctangent2 of %d", (x, sin, cos, atan) => {
  close(sine(x), sin);
  close(cosine(x), cos);
  close(arctangent2(x, 1.75), atan);
});

describe("within and beyond their own ranges they are the engine's functions to the last place", () => {
  it("from -3 to 3, all round", () => {
    for (let k = -3000; k <= 3000; k++) {
      const x = k / 1000 + 1e-5 * Math.sqrt(2);
      close(sine(x), Math.sin(x));
      close(cosine(x), Math.cos(x));
      for (const side of [1, -1, 4, -4]) close(arctangent2(x, side), Math.atan2(x, side));
    }
  });

  it("at zeros, on the axes, and where there is no value", () => {
    for (const x of [0, -0, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(sine(x)).toBe(Math.sin(x));
      expect(cosine(x)).toBe(Math.cos(x));
      for (const y of [0, -0, 2, -2, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
        // Of zeros there is one: -0 lies to neither side of the cut.
        expect(arctangent2(x, y) + 0).toBe(Math.atan2(x + 0, y) + 0);
        expect(arctangent2(y, x) + 0).toBe(Math.atan2(y + 0, x) + 0);
      }
    }
  });
});
