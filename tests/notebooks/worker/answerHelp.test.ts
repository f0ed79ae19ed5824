import { expect, it } from "vitest";
import { answerHelp } from "../../../notebooks/worker/answerHelp.ts";
import type { HelpAnswer } from "../../../notebooks/worker/studyMessages.ts";
import { pocketBlock } from "../../gallery/documents.ts";

function answersTo(strategy: string): HelpAnswer[] {
  const answers: HelpAnswer[] = [];
  // A clock that goes on by a second whenever it is looked at: progress is told at every step.
  let seconds = 0;
  answerHelp(
    { id: 3, document: pocketBlock, strategy, view: "batch", work: { kind: "help", wanted: 0.9973 } },
    (answer) => answers.push(answer),
    () => 1000 * seconds++,
  );
  return answers;
}

it("answerHelp ends with what would help, in words and in rows that can be sent to the page", () => {
  const answers = answersTo("corner, turned");
  const last = answers.at(-1);
  if (last?.kind !== "help") throw new Error(JSON.stringify(last));
  expect(answers.every(({ id }) => id === 3)).toBe(true);
  expect(structuredClone(last.help)).toEqual(last.help);
  expect(last.help.sentences[0]).toMatch(/^The chance that all characteristics are met is /);
  expect(last.help.strategies.length).toBeGreaterThan(0);
  const touches = new Set(pocketBlock.touches.map(({ id }) => id));
  for (const { entry } of last.help.strategies) expect(entry.touches.every((id) => touches.has(id))).toBe(true);
});

it("answerHelp says why there is no answer", () => {
  expect(answersTo("no such strategy")).toEqual([
    { id: 3, kind: "failed", why: expect.stringContaining("there is no strategy by this name") },
  ]);
});
