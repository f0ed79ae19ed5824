import { describe, expect, it } from "vitest";
import { addScaled, turnAboutZ } from "../../lib/base/vector.ts";
import type { Surface } from "../../lib/contacts/surface.ts";
import { solveFrame } from "../../lib/frame/solveFrame.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";
import { circleThrough, lineThrough } from "./fits.ts";

// Sanity checks in closed form: derived, not published.
describe("closed forms of touching", () => {
  // Radius compensation along the axis on a face skewed by theta puts the face wrong by r (1/cos theta - 1).
  it.each([
    [1, 0.000457],
    [5, 0.01146],
    [10, 0.04628],
    [30, 0.464102],
  ])(
    "probe-skew-face: at %d degrees and a radius of 3 the axis-wise face is %d off the one that solveFrame finds along the normal",
    (angle, expected) => {
      const theta = (angle * Math.PI) / 180;
      const front: Surface = { kind: "plane", point: [0, 0, 0], outward: [0, -1, 0] };
      const centres = [10, 90].map((along) => addScaled([20, 30, 0], 1, turnAboutZ([along, -3, 0], theta)));
      const outcome = solveFrame(
        centres.map((centre) => ({
          surface: front,
          centre,
          travel: [0, 1, 0],
          movements: [],
          weight: 1,
          advance: certain(0),
          reach: certain(3),
        })),
        [],
        true,
      );
      if (!outcome.ok) throw new Error("no solution");
      const { origin, rotation } = outcome.value;
      const [x, y] = centres[0] as readonly [number, number, number];
      const face = origin[1].value + (x - origin[0].value) * Math.tan(rotation.value);
      expect(Math.abs(face - (y + 3) - expected)).toBeLessThanOrEqual(1e-6);
    },
  );

  // Four points at 0, 90, 180, 270 degrees on R + e cos 3t: the lobe becomes a shift of the centre by e, the radius stays.
  it("probe-three-lobe-4pt: solveFrame(four touches of a three-lobed bore) shifts the centre by the lobe's amplitude 0.005", () => {
    const { x, y, radius } = circleThrough(
      [0, 90, 180, 270].map((angle) => {
        const t = (angle * Math.PI) / 180;
        const r = 10 + 0.005 * Math.cos(3 * t);
        return [r * Math.cos(t), r * Math.sin(t)];
      }),
    );
    expect(Math.abs(x - 0.005)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(y)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(radius - 10)).toBeLessThanOrEqual(1e-6);
  });

  it("eight equally spaced touches of a three-lobed bore cancel the lobe", () => {
    const { x, y } = circleThrough(
      Array.from({ length: 8 }, (_, i) => {
        const t = (Math.PI * i) / 4;
        const r = 10 + 0.005 * Math.cos(3 * t);
        return [r * Math.cos(t), r * Math.sin(t)];
      }),
    );
    expect(Math.hypot(x, y)).toBeLessThanOrEqual(5e-6);
  });

  // 0.1 over 100 is 0.0572957 degrees or 206.2647 seconds; one thousandth per inch is 3.437746 minutes.
  it("line-two-datum-angle: solveFrame(two touches of an edge) turns by atan2(dy, dx)", () => {
    const degrees =
      (lineThrough([
        [0, 0],
        [100, 0.1],
      ]).rotation *
        180) /
      Math.PI;
    expect(Math.abs(degrees - 0.0572957)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(degrees * 3600 - 206.2647)).toBeLessThanOrEqual(0.001);
    expect(
      Math.abs(
        ((lineThrough([
          [0, 0],
          [1, 0.001],
        ]).rotation *
          180) /
          Math.PI) *
          60 -
          3.437746,
      ),
    ).toBeLessThanOrEqual(1e-5);
  });
});
