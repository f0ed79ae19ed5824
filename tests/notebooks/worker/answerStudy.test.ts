import { expect, it } from "vitest";
import { studyTargets } from "../../../lib/decision/studyTargets.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { studyModel } from "../../../lib/record/studyResults.ts";
import { runBlocks } from "../../../lib/uncertainty/trials/runTrials.ts";
import { writeTally } from "../../../lib/uncertainty/trials/tallyText.ts";
import { pocketBlock } from "../../gallery/documents.ts";
import { answersTo } from "./studied.ts";

const of = { document: pocketBlock, strategy: "corner, turned", view: "batch" } as const;

/** The same trials without the worker's ways. */
function trialsOf(blocks: number): string {
  const evaluation = evaluateSetup(of.document);
  const targets = studyTargets(evaluation, of.strategy, of.view);
  if (!targets.ok) throw new Error(JSON.stringify(targets.problems));
  const steps = [...runBlocks(studyModel(targets.value, evaluation.setup.sampling.seed), 0, blocks)];
  return writeTally(steps[steps.length - 1] as (typeof steps)[number]);
}

it("answerStudy of a correction tells first order before the whole model, every answer with the number of its question", () => {
  const answers = answersTo(of, { kind: "correction" });
  expect(answers.map(({ id, kind }) => [id, kind])).toEqual([
    [7, "firstOrder"],
    [7, "wholeModel"],
  ]);
  const [first, last] = answers;
  if (first?.kind !== "firstOrder" || last?.kind !== "wholeModel") throw new Error("unexpected");
  expect(first.results.map(({ name }) => name)).toEqual(expect.arrayContaining(["zero X", "zero Y", "rotation"]));
  expect(last.results.every(({ trials }) => trials === undefined)).toBe(true);
  expect(last.tally).toBeUndefined();
});

it("answerStudy of trials ends with the tally of so many whole blocks, the same as without a worker", () => {
  const answers = answersTo(of, { kind: "trials", trials: 2000 });
  expect(answers.map(({ kind }) => kind)).toEqual(["progress", "progress", "wholeModel"]);
  const last = answers[2];
  expect(last?.kind === "wholeModel" && last.tally).toBe(trialsOf(2));
  expect(last?.kind === "wholeModel" && last.results.map(({ trials }) => (trials?.count ?? 0) + (trials?.failed ?? 0))).toEqual(
    last?.kind === "wholeModel" ? last.results.map(() => 2048) : [],
  );
});

it("answerStudy tells the first block at once, and no more than every 100 ms after that", () => {
  const kinds = (step: number) =>
    answersTo(of, { kind: "trials", trials: 8 * 1024 }, step).filter(({ kind }) => kind === "progress").length;
  expect(kinds(1)).toBe(1);
  expect(kinds(200)).toBe(8);
});

it("answerStudy of stopped trials gives the results of just those, and refuses those of another study", () => {
  const tally = trialsOf(1);
  const [last] = answersTo(of, { kind: "stopped", tally });
  expect(last?.kind === "wholeModel" && last.tally).toBe(tally);
  expect(last?.kind === "wholeModel" && last.results[0]?.trials?.count).toBe(1024);
  expect(() => answersTo({ ...of, view: "thisPart" }, { kind: "stopped", tally })).toThrow("same computation");
});

it("answerStudy until steady tells blocks of a batch one by one, and says when the most trials were not enough", () => {
  const answers = answersTo(of, { kind: "steady", mostTrials: 10_240 });
  expect(answers.filter(({ kind }) => kind === "progress")).toHaveLength(10);
  const last = answers.at(-1);
  // A single batch has no scatter to judge by (JCGM 101:2008, 7.9.4).
  expect(last?.kind === "wholeModel" && last.steadiness?.isEnough).toBe(false);
  expect(last?.kind === "wholeModel" && last.tally).toBe(trialsOf(10));
});

it("answerStudy of a strategy that is not there says so", () => {
  expect(answersTo({ ...of, strategy: "none such" }, { kind: "correction" })).toEqual([
    { id: 7, kind: "failed", why: expect.stringContaining("strategy") },
  ]);
});
