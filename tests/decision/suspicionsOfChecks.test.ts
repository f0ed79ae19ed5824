import { expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { suspicions } from "../../lib/decision/suspicions.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { plateDocument, typedCheck } from "../slips/plate.ts";

// The back face shows -168.276 by hand (R = F - a · r); with the radius of 2.998 mm in it -171.274.
const slipped = evaluateSetup(
  plateDocument(({ checks, events }) => {
    checks.push(typedCheck("back", "-171.274"), typedCheck("left", "-412.611"));
    events.push({ id: "bump", kind: "crash", when: "2026-03-14 10:00" });
  }),
);

it("suspicions(evaluation) names a check that disagrees, and a zero that is unverified since an event", () => {
  const told = suspicions(slipped).map(describeProblem);
  expect(told).toHaveLength(2);
  expect(told[0]).toContain("checks.back.readings: the check lies 3 mm off what the display must show");
  expect(told[1]).toContain('events.bump: the zero is unverified since "crash, 2026-03-14 10:00"');
});

it("plainResults(evaluation) holds checks, events, findings and the likeliest explanation, as JSON can", () => {
  const { checks, events, slips } = JSON.parse(JSON.stringify(plainResults(slipped))) as ReturnType<typeof plainResults>;
  expect(checks.map(({ id, usedForZero }) => [id, usedForZero])).toEqual([
    ["back", false],
    ["left", true],
  ]);
  expect(events).toEqual([expect.objectContaining({ event: "crash, 2026-03-14 10:00", verifiedSince: false })]);
  expect(slips.disagreement?.explanations[0]?.slips).toEqual([
    expect.objectContaining({ kind: "radius counted in already", at: "checks.back" }),
  ]);
  expect(slips.notApplicable.map(({ rule }) => rule)).toContain("shift left on");
});

it("summaryText(evaluation) tells the verdicts, what may have happened, and that nothing is corrected", () => {
  const text = summaryText(slipped);
  expect(text).toMatch(/back \* +Y +-168\.275[78] +±0\.011 +-171\.2740 +-2\.998[23] +disagrees/);
  expect(text).toContain('check "back" already carries the radius of "edge finder"');
  expect(text).toContain("nothing is corrected");
});
