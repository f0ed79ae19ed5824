import { expect, it } from "vitest";
import { turnAboutZ } from "../../lib/base/vector.ts";

// ISO 841:2001: C turns about Z by the right-hand screw, so that +90° takes +X to +Y (value from memory, recomputed).
it("iso841-right-hand: turnAboutZ([1, 0, 0], +90°) is +Y", () => {
  const [x, y, z] = turnAboutZ([1, 0, 0], Math.PI / 2);
  expect(x).toBeCloseTo(0, 12);
  expect(y).toBeCloseTo(1, 12);
  expect(z).toBe(0);
});
