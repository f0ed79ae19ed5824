import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { loadFigures } from "../../../notebooks/figures/loadFigures.ts";
import { CertaintySection } from "../../../notebooks/pages/certaintySection.ts";
import type { StudyAnswer, StudyRequest } from "../../../notebooks/worker/studyMessages.ts";
import { pocketBlock } from "../../gallery/documents.ts";
import { sheetResultsOf } from "../../support/sheetResults.ts";
import { answersTo } from "../worker/studied.ts";
import { SlowWorker } from "./slowWorker.ts";

// Drawings come after what is typed and read.
await loadFigures();

class StudyWorker extends SlowWorker<StudyRequest, StudyAnswer> {
  static made: StudyWorker[] = [];
  constructor() {
    super();
    StudyWorker.made.push(this);
  }
  /** The last question, as a worker would. */
  answerAll(only: (answer: StudyAnswer) => boolean = () => true): void {
    const { id, work, ...of } = this.asked.at(-1) as StudyRequest;
    for (const answer of answersTo(of, work).filter(only)) this.answer({ ...answer, id });
  }
}

const document1 = { ...pocketBlock, chosen: "corner, turned" };
const results = sheetResultsOf(document1, "batch");
let section: CertaintySection;
const worker = () => StudyWorker.made.at(-1) as StudyWorker;
const answers = () => section.element.querySelector<HTMLElement>(".answers") as HTMLElement;
const said = () => section.element.querySelector("[role=status]")?.textContent;
const button = (name: string) =>
  [...section.element.querySelectorAll("button")].find(({ textContent }) => textContent === name) as HTMLButtonElement;

beforeEach(() => {
  vi.useFakeTimers();
  StudyWorker.made = [];
  vi.stubGlobal("Worker", StudyWorker);
  section = new CertaintySection();
  document.body.replaceChildren(section.element);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

it("a section shows nothing and asks nothing within an edit, then first order, then the whole model", () => {
  section.show(results, document1);
  expect(StudyWorker.made).toHaveLength(0);
  expect(answers().hidden).toBe(true);
  vi.advanceTimersByTime(300);
  worker().answerAll(({ kind }) => kind === "firstOrder");
  expect(answers().hidden).toBe(false);
  expect(answers().getAttribute("aria-busy")).toBe("true");
  expect(answers().textContent).toContain("zero X");
  expect(button("run trials").disabled).toBe(true);
  expect(answers().textContent).not.toContain("terms of second order");
  worker().answerAll(({ kind }) => kind === "wholeModel");
  expect(answers().getAttribute("aria-busy")).toBeNull();
  expect(answers().textContent).toMatch(/first order (holds|does not hold here)/);
  expect(answers().querySelector("svg.fig-distribution")).not.toBeNull();
  expect(answers().textContent).toContain(
    "The terms of second order (JCGM 100, 5.1.2, note) change no standard uncertainty in its two digits.",
  );
});

it("an edit takes everything back at once, ends the worker, and an answer that comes late is not shown", () => {
  section.show(results, document1);
  vi.advanceTimersByTime(300);
  const first = worker();
  section.show(results, { ...document1, tools: [...document1.tools] });
  expect(first.isEnded).toBe(true);
  first.answerAll();
  expect(answers().hidden).toBe(true);
  vi.advanceTimersByTime(300);
  expect(worker()).not.toBe(first);
  worker().answerAll();
  expect(answers().hidden).toBe(false);
});

it("an edit of the notes alone takes nothing back", () => {
  section.show(results, document1);
  vi.advanceTimersByTime(300);
  worker().answerAll();
  section.show(results, { ...document1, note: "another" });
  expect(answers().hidden).toBe(false);
});

it("trials show their histogram as they come; stopped, they end at once, and the numbers are those of the trials so far", () => {
  section.show(results, document1);
  vi.advanceTimersByTime(300);
  worker().answerAll();
  button("run trials").click();
  const running = worker();
  expect(running.asked.at(-1)?.work).toEqual({ kind: "trials", trials: 100_000 });
  const { id, work: _, ...of } = running.asked.at(-1) as StudyRequest;
  const partial = answersTo(of, { kind: "trials", trials: 1024 }).find(({ kind }) => kind === "progress") as StudyAnswer;
  running.answer({ ...partial, id });
  expect(section.element.querySelector(".progress-text")?.textContent?.replace(/\u202f/g, " ")).toBe("1 024 of 100 352 trials");
  expect(section.element.querySelector("path.fig-trials")).not.toBeNull();
  button("stop").click();
  expect(running.isEnded).toBe(true);
  expect(worker().asked.at(-1)?.work.kind).toBe("stopped");
  worker().answerAll();
  expect(said()?.replace(/\u202f/g, " ")).toMatch(/^1 024 trials, seed \d+\.$/);
  expect(button("save the trials").hidden).toBe(false);
  section.show(results, { ...document1, touches: [...document1.touches] });
  expect(said()).toContain("put away");
  expect(button("save the trials").hidden).toBe(true);
});

it("a number of trials that is none is refused with what was expected", () => {
  section.show(results, document1);
  vi.advanceTimersByTime(300);
  worker().answerAll();
  const field = section.element.querySelector<HTMLInputElement>("#trials-wanted") as HTMLInputElement;
  field.value = "many";
  button("run trials").click();
  expect(field.getAttribute("aria-invalid")).toBe("true");
  expect(said()).toContain("expected a whole number from 1 to");
  expect(worker().asked).toHaveLength(1);
});

it("a worker that fails leaves a reason and no number, and so does a browser without workers", () => {
  section.show(results, document1);
  vi.advanceTimersByTime(300);
  worker().dispatchEvent(new ErrorEvent("error", { message: "out of memory" }));
  expect(said()).toBe("Not worked out: out of memory");
  expect(answers().hidden).toBe(true);
  vi.stubGlobal("Worker", undefined);
  section.show(results, { ...document1, tools: [...document1.tools] });
  vi.advanceTimersByTime(300);
  expect(said()).toContain("this browser runs no worker");
  section.show({ ...results, chosen: { ok: false, problems: [{ at: "", what: "nothing" }] } }, document1);
  expect(said()).toContain("no results");
});
