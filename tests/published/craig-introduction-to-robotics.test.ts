import { expect, it } from "vitest";
import { addScaled, turnAboutZ } from "../../lib/base/vector.ts";
import { turnBy, turned } from "../../lib/datum/turn.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";

const thirtyDegrees = Math.PI / 6;

// Craig, Introduction to Robotics, 2nd and 3rd edition (values from memory, recomputed).
it("frame-craig-2-1: turnAboutZ([0, 2, 0], 30°) is [-1, 1.732, 0] (example 2.1)", () => {
  const [x, y, z] = turnAboutZ([0, 2, 0], thirtyDegrees);
  expect(Math.abs(x - -1.0)).toBeLessThanOrEqual(0.0005);
  expect(Math.abs(y - 1.732)).toBeLessThanOrEqual(0.0005);
  expect(z).toBe(0);
});

it("frame-craig-2-2: a frame at [10, 5, 0] turned by 30° carries [3, 7, 0] to [9.098, 12.562, 0] (example 2.2)", () => {
  const moved = addScaled([10, 5, 0], 1, turnAboutZ([3, 7, 0], thirtyDegrees));
  const uncertain = turned([certain(3), certain(7), certain(0)], turnBy(certain(thirtyDegrees))).map(
    ({ value }, axis) => value + ([10, 5, 0][axis] as number),
  );
  for (const [x, y, z] of [moved, uncertain] as [number, number, number][]) {
    expect(Math.abs(x - 9.098)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(y - 12.562)).toBeLessThanOrEqual(0.0005);
    expect(z).toBe(0);
  }
});
