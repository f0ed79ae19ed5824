import { expect, it } from "vitest";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { evaluateJob, type Job, openJob, rowOf } from "../documents/openJob.ts";
import { boreOfFour } from "./boreOfFour.ts";

function sentences(edit: (job: Job) => void = () => {}, unit?: "mm" | "inch") {
  const job = openJob("pinBlock");
  edit(job);
  return judgementSentences(evaluateJob(job), unit ? { unit } : {});
}

function sentence(kind: string, edit?: (job: Job) => void, unit?: "mm" | "inch"): string {
  return sentences(edit, unit)
    .filter((each) => each.kind === kind)
    .map(({ text }) => text)
    .join("\n");
}

const coarseMicrometer = (job: Job) => {
  rowOf(job["part"].dimensions, "width")["measuredUncertainty"] = "0.01";
};
const tightWidth = (job: Job) => {
  Object.assign(rowOf(job["part"].dimensions, "width"), { tolerance: "±0.001", measured: "" });
  rowOf(job["touches"], "right")["readings"] = "-216.454 -216.458 -216.455 -216.457";
};

it("judgementSentences(evaluation) says which strategy is first for this part and for the batch, and what it rests on", () => {
  expect(sentence("ranking")).toMatch(
    /^"left face" is ranked first for this part and for the batch: the chance to meet all 3 characteristics is \d/,
  );
  expect(sentence("evidence")).toContain(
    '"left face" rests on the touches "left", "front" and "top" with "stylus" and "gauge pin", and on sizes as drawn.',
  );
});

it("judgementSentences(evaluation) tells how much of the bottleneck's variance rests on what kind of evidence", () => {
  // Depth, µm²: length 2², scatter 3²/3, block 0.4² (certificate), cut 4², offset step 0.5²/3: 0.16 of 23.24 is 1 %.
  expect(sentence("evidence")).toContain(
    'The variance of "recess depth", its bottleneck, comes 99 % from figures stated without evidence and 1 % from certificates.',
  );
});

it("judgementSentences(evaluation) names the bottleneck with its largest source", () => {
  expect(sentence("bottleneck")).toMatch(
    /^The bottleneck of "left face" for this part and in the batch is "recess depth": .* Its largest source is cutting recess, Z \(0\.0040 mm\)\.$/,
  );
});

it("judgementSentences(evaluation) says why the zero that is known better is not the better zero", () => {
  const text = sentence("smaller uncertainty");
  // √(0.8333 · 2/4 + 1.3333 · 2/4 + 1.3333) = 1.55 µm against √(0.8333 + 1 + 4) = 2.42 µm.
  expect(text).toContain(
    '"middle" knows its zero better than "left face" (standard uncertainty X 0.0016 against 0.0024 mm) and is not the better strategy',
  );
  // Half of the width's 0.05, twice over for a diameter, of a zone of 0.06: 83 %.
  expect(text).toContain(
    'leaves "dowel 1 position" with a diameter used of 0.0500 mm, 83 % of the tolerance (0.0000 mm under "left face")',
  );
  expect(text).toContain('In the batch size variation of width puts 0.025 mm into "dowel 1 position" (nothing under "left face")');
});

it("judgementSentences(evaluation) says nothing of the sort where both rankings agree", () => {
  // A width without variation makes the mid-plane the better zero as well.
  expect(sentences(tightWidth).find(({ kind }) => kind === "ranking")?.at).toBe("strategies.middle");
  expect(sentence("smaller uncertainty", tightWidth)).toBe("");
});

it("judgementSentences(evaluation) tells a touched size that is more than two standard uncertainties off its other measurement", () => {
  // 11 µm; u² = 13.667 + 3² µm², so 2.3 times u = 4.76 µm.
  expect(sentence("size disagrees")).toContain(
    'The touches find "width" at 90.0500 mm, 0.0110 mm less than it was measured otherwise: 2.3 times the standard uncertainty',
  );
  expect(sentence("size disagrees", coarseMicrometer)).toBe("");
});

it("judgementSentences(evaluation, { unit }) tells lengths in that unit", () => {
  // 0.0110 mm / 25.4 = 0.00043 in.
  expect(sentence("size disagrees", undefined, "inch")).toContain("0.00043 in less");
});

it("judgementSentences(evaluation) says so where the strategy in use is not the one ranked first", () => {
  expect(sentence("choice")).toBe("");
  const chosen = sentence("choice", (job) => {
    job["chosen"] = "middle";
  });
  expect(chosen).toContain('The strategy in use, "middle", is not the one ranked first');
});

it("judgementSentences(evaluation) gives the expanded uncertainty of the zero in use, and says that touches which are just enough show no mistake", () => {
  const text = sentence("consistency");
  expect(text).toContain('The expanded uncertainty of the zero of "left face" is X 0.0049, Y 0.0046 and Z 0.0054 mm');
  expect(text).toContain("just enough");
  expect(sentence("touches disagree")).toBe("");
});

it("judgementSentences(evaluation) names the touch that others contradict, and withholds that they are consistent", () => {
  const kinds = judgementSentences(boreOfFour(-0.2)).map(({ kind }) => kind);
  expect(kinds).toContain("touches disagree");
  expect(kinds).not.toContain("consistency");
  const told = judgementSentences(boreOfFour(-0.2)).find(({ kind }) => kind === "touches disagree")?.text ?? "";
  expect(told).toContain("disagree by more than their doubts explain (chance of so much: less than one in ten thousand)");
  expect(judgementSentences(boreOfFour(0.001)).find(({ kind }) => kind === "consistency")?.text).toContain("consistent with each other");
});

it("judgementSentences(evaluation) says why there is no ranking where the drawing demands nothing", () => {
  const text = sentence("ranking", (job) => {
    job["part"].characteristics = [];
  });
  expect(text).toBe(
    "The strategies are not ranked, because the chance of meeting the drawing is not known: the drawing demands nothing yet.",
  );
});

it("judgementSentences(evaluation) has nothing to say of strategies that cannot be solved", () => {
  const kinds = sentences((job) => {
    job["strategies"] = [{ id: "none", touches: ["nowhere"] }];
  }).map(({ kind }) => kind);
  expect(kinds).toEqual(["size disagrees"]);
});
