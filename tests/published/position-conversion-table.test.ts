import { expect, it } from "vitest";
import { combination, positionStack } from "../properties/stacks.ts";

// Conversion of coordinate offsets to a diametral position, as in training texts to ASME Y14.5 and in Machinery's Handbook; offsets in
// thousandths of an inch, positions in inches (value from memory, recomputed).
it.each([
  [1, 1, 0.0028],
  [1, 2, 0.0045],
  [2, 2, 0.0057],
  [3, 4, 0.01],
  [5, 5, 0.0141],
  [6, 8, 0.02],
  [7, 3, 0.0152],
  [10, 10, 0.0283],
])("position-table: stackOf(offsets %d and %d thousandths) uses the diameter %d", (x, y, printed) => {
  const { deviation } = positionStack(combination(x / 1000, []), combination(-y / 1000, []), 0.05);
  expect(Math.abs(deviation - printed)).toBeLessThanOrEqual(5.1e-5);
});
