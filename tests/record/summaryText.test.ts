import { expect, it } from "vitest";
import { cautions } from "../../lib/record/cautions.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { evaluateJob, openJob, rowOf } from "../documents/openJob.ts";

const block = evaluateJob(openJob("pinBlock"));
const rail = evaluateJob(openJob("skewedRail"));

/** The text without its line ends, so that a sentence is found wherever it was broken. */
function flowing(text: string): string {
  return text.replace(/\s+/g, " ");
}

it.each([
  ["pin block", block],
  ["skewed rail", rail],
])("summaryText(evaluation) of the %s fits into 100 columns", (_, evaluation) => {
  const tooWide = summaryText(evaluation)
    .split("\n")
    .filter((line) => line.length > 100);
  expect(tooWide).toEqual([]);
});

it.each([
  ["pin block", block],
  ["skewed rail", rail],
])("summaryText(evaluation) of the %s holds every judgement and every caution that applies, and calls nothing safe", (_, evaluation) => {
  const text = flowing(summaryText(evaluation));
  for (const { text: sentence } of [...judgementSentences(evaluation), ...cautions(evaluation)]) expect(text).toContain(sentence);
  expect(text.toLowerCase()).not.toContain("safe to run");
  expect(text).toMatch(/just enough for it|consistent with each other/);
});

it("summaryText(evaluation) shows the cautions before the offset that is typed", () => {
  const text = summaryText(block);
  expect(text.indexOf("Cautions")).toBeGreaterThan(0);
  expect(text.indexOf("Cautions")).toBeLessThan(text.indexOf("Offset to type"));
});

it("summaryText(evaluation) rounds the uncertainty to two digits and the value to match (JCGM 100:2008, 7.2.6)", () => {
  // u(X) = √(10/12 + 1 + 4) = 2.415 µm with 147 degrees of freedom: k = 2.02, U = 4.87 µm.
  expect(summaryText(block)).toMatch(/^ {2}X +-309\.4490 +0\.0024 +0\.0049 +2\.02$/m);
});

it("summaryText(evaluation) gives the values to type and the block text, and asks to read the register back", () => {
  const text = summaryText(block);
  expect(text).toMatch(/^ {2}X +-309\.449$/m);
  expect(text).toContain("      G21 G90\n      G10 L2 P2 X-309.449 Y-185.128 Z-325.754\n");
  expect(flowing(text)).toContain(
    "Dialects differ: compare with the machine builder's manual, and read the register back before anything runs.",
  );
});

it("summaryText(evaluation) says that the block text carries no turn where a strategy applies one", () => {
  expect(flowing(summaryText(rail))).toContain('"turned" turns the coordinates by 0.0286 degrees. RS274/NGC has no word for that in G10');
  expect(flowing(summaryText(rail, { strategy: "as it lies" }))).not.toContain("RS274/NGC has no word");
});

it("summaryText(evaluation) gives no work coordinates of check readings where the coordinates are turned", () => {
  expect(summaryText(rail)).toMatch(/^ {2}near +long edge +tip +Y +-7\.00000 +- +±/m);
  expect(summaryText(block)).toMatch(/^ {2}left +left +stylus +X +-312\.4420 +-2\.9930 +±/m);
});

it("summaryText(evaluation, { strategy }) tells the offset of that strategy, and that it is not the one in use", () => {
  const text = summaryText(block, { strategy: "middle" });
  // Mid-plane (-309.449 - 219.399)/2 = -264.424, less the nominal 45: F4.
  expect(text).toContain("X-309.424");
  expect(flowing(text)).toContain('by "middle" (asked for; not the strategy in use)');
});

it("summaryText(evaluation) never puts another strategy's offset in the place of a chosen one that cannot be solved", () => {
  const job = { ...openJob("pinBlock"), chosen: "middle" };
  rowOf(job["strategies" as never], "middle")["touches"] = ["left", "nowhere"];
  const text = summaryText(evaluateJob(job));
  expect(text).not.toContain("G10 L2");
  expect(text).toContain('None: "middle" could not be solved.');
  expect(flowing(text)).toContain('strategies.middle.touches: there is no such touch; got "nowhere".');
});

it("summaryText(evaluation) says which axes are not known", () => {
  expect(flowing(summaryText(rail))).toContain("Not set: strategies.turned: no touch of this strategy fixes Z.");
});

it("summaryText(evaluation) keeps names that hold line ends on their line", () => {
  const job = openJob("pinBlock");
  job["title"] = "first\nsecond\u001b[31m";
  expect(summaryText(evaluateJob(job)).split("\n")[0]).toBe("first second [31m");
});
