import { afterEach, expect, it, vi } from "vitest";
import { Sheet } from "../../../notebooks/pages/sheet.ts";
import type { StudyAnswer, StudyRequest } from "../../../notebooks/worker/studyMessages.ts";
import { edge } from "../../record/shortEdge.ts";
import { answersTo } from "../worker/studied.ts";
import { SlowWorker } from "./slowWorker.ts";

class StudyWorker extends SlowWorker<StudyRequest, StudyAnswer> {
  static made: StudyWorker[] = [];
  constructor() {
    super();
    StudyWorker.made.push(this);
  }
}

const asked = () => StudyWorker.made.filter((worker) => worker.asked.some(({ work }) => work.kind === "correction"));
const answerLast = () => {
  const worker = asked().at(-1) as StudyWorker;
  const { id, work, ...of } = worker.asked.at(-1) as StudyRequest;
  for (const answer of answersTo(of, work)) worker.answer({ ...answer, id });
};
const marks = () => [...document.querySelectorAll('[data-column="first order"]')].map(({ textContent }) => textContent);
const sentences = () => [...document.querySelectorAll(".sentences p[data-kind='first order']")].map(({ textContent }) => textContent);

const notYet = ["not yet", "not yet", "not yet"];

afterEach(() => vi.unstubAllGlobals());

it("a sheet marks the strategies for which first order does not hold when that is known, and takes the marks back with an edit", async () => {
  vi.stubGlobal("Worker", StudyWorker);
  const sheet = new Sheet(edge(4, 0.5), { onDocument: () => undefined, commands: document.createElement("nav") });
  const settled = () => new Promise((resolve) => sheet.element.addEventListener("settled", resolve, { once: true }));
  document.body.replaceChildren(sheet.element);
  await settled();
  expect(marks()).toEqual(notYet);
  expect(sentences()).toEqual([]);
  await expect.poll(() => asked().length, { timeout: 5000 }).toBeGreaterThan(0);
  answerLast();
  // The turn of the short edge bends (see tests/record/strategyBend); a strategy without a turn does not.
  expect(marks().map((text) => text?.replace(/^does not hold.*$/, "does not hold"))).toEqual(["does not hold", "holds", "holds"]);
  expect(sentences()).toEqual([expect.stringMatching(/^First order does not hold for “?"?turned/)]);
  const readings = document.querySelector<HTMLInputElement>('[aria-label="3, readings"]') as HTMLInputElement;
  readings.focus();
  readings.value = "-3.1";
  const done = settled();
  readings.dispatchEvent(new InputEvent("input", { bubbles: true }));
  await done;
  expect(marks()).toEqual(notYet);
  expect(sentences()).toEqual([]);
});
