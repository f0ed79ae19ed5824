import { expect, it } from "vitest";
import type { Vector } from "../../lib/base/vector.ts";
import { type FrameContact, solveFrame } from "../../lib/frame/solveFrame.ts";
import { certain } from "../../lib/uncertainty/uncertain.ts";

// S. Umeyama, IEEE Trans. Pattern Analysis and Machine Intelligence 13 (1991) 376, example of section III: three points and their mirror image, a proper
// rotation wanted (seen in part). The best rotation does not depend on whether a scale is found too; a frame has none, so that scale and shift are not compared.
it("registration-umeyama: solveFrame(three swept bores) turns by -33.6901 degrees, R = [[0.832, 0.555], [-0.555, 0.832]]", () => {
  const from: readonly Vector[] = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 2, 0],
  ];
  const to: readonly Vector[] = [
    [0, 0, 0],
    [-1, 0, 0],
    [0, 2, 0],
  ];
  const contacts = from.flatMap((axis, i) =>
    (
      [
        [1, 0, 0],
        [0, 1, 0],
      ] as const
    ).map(
      (along): FrameContact => ({
        surface: { kind: "axis", axis, along },
        centre: to[i] as Vector,
        travel: along,
        movements: [],
        weight: 1,
        advance: certain(0),
        reach: certain(0),
      }),
    ),
  );
  const outcome = solveFrame(contacts, [], true);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ what }) => what).join());
  const angle = outcome.value.rotation.value;
  expect(Math.abs((angle * 180) / Math.PI - -33.6901)).toBeLessThanOrEqual(5e-5);
  expect(Math.abs(Math.cos(angle) - 0.832)).toBeLessThanOrEqual(0.0005);
  expect(Math.abs(-Math.sin(angle) - 0.555)).toBeLessThanOrEqual(0.0005);
});
