import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { HelpSection } from "../../../notebooks/pages/helpSection.ts";
import type { HelpAnswer, HelpRequest } from "../../../notebooks/worker/studyMessages.ts";
import { pocketBlock } from "../../gallery/documents.ts";
import { sheetResultsOf } from "../../support/sheetResults.ts";
import { SlowWorker } from "./slowWorker.ts";

const made: SlowWorker<HelpRequest, HelpAnswer>[] = [];
const workerMade = class extends SlowWorker<HelpRequest, HelpAnswer> {
  constructor() {
    super();
    made.push(this);
  }
};

const document1: SetupDocument = { ...pocketBlock, chosen: "corner, turned" };
const results = sheetResultsOf(document1, "batch");
const help: HelpAnswer = {
  id: 1,
  kind: "help",
  help: {
    sentences: ["One sentence."],
    allowances: [["a doubt", "2.00 × as now", "hole"]],
    allowanceSentences: [],
    strategies: [
      {
        entry: { touches: ["left"], hold: [], orient: [], rotation: "ignored", sizes: "nominal" },
        words: "left alone",
        thisPart: 0.9,
        batch: 0.8,
      },
    ],
    searchSentence: "Two were tried.",
  },
};

let section: HelpSection;
let kept: SetupDocument;
const worker = () => made.at(-1) as SlowWorker<HelpRequest, HelpAnswer>;
const answers = () => section.element.querySelector<HTMLElement>(".answers") as HTMLElement;
const said = () => section.element.querySelector("[role=status]")?.textContent;
const button = (name: string) =>
  [...section.element.querySelectorAll("button")].find(({ textContent }) => textContent === name) as HTMLButtonElement;
const chance = () => section.element.querySelector("input") as HTMLInputElement;

beforeEach(() => {
  made.length = 0;
  vi.stubGlobal("Worker", workerMade);
  kept = document1;
  section = new HelpSection({
    edit: (change) => {
      kept = change(kept);
    },
    say: () => {},
  });
  document.body.replaceChildren(section.element);
  section.show(results, document1);
});
afterEach(() => vi.unstubAllGlobals());

it("works out nothing before it is asked, then shows the answer", () => {
  expect([made.length, answers().hidden]).toEqual([0, true]);
  button("work it out").click();
  expect(worker().asked).toEqual([
    { id: 1, document: document1, strategy: "corner, turned", view: "batch", work: { kind: "help", wanted: expect.closeTo(0.9973, 12) } },
  ]);
  expect(button("stop").hidden).toBe(false);
  worker().answer({ id: 1, kind: "progress", tried: 5, candidates: 20 });
  expect(section.element.querySelector("progress")?.value).toBe(5);
  worker().answer(help);
  expect(answers().hidden).toBe(false);
  expect(answers().textContent).toContain("One sentence.");
  expect([...answers().querySelectorAll("tbody tr")].map((row) => row.textContent)).toEqual([
    "a doubt2.00 × as nowhole",
    "left alone190 %80 %take over",
  ]);
});

it("takes a strategy over into the list, for the zero of the strategy in use, under a name that is free", () => {
  button("work it out").click();
  worker().answer(help);
  button("take over").click();
  button("take over").click();
  const { zero } = document1.strategies.find(({ id }) => id === "corner, turned") as SetupDocument["strategies"][number];
  const added = kept.strategies.slice(document1.strategies.length);
  expect(added[0]).toEqual({
    id: "left alone",
    touches: ["left"],
    hold: [],
    orient: [],
    rotation: "ignored",
    sizes: "nominal",
    fixtureFrame: "",
    zero,
    note: "",
  });
  expect(new Set(kept.strategies.map(({ id }) => id)).size).toBe(kept.strategies.length);
});

it("takes its answer back at an edit, and says so; a late answer counts no more", () => {
  button("work it out").click();
  const first = worker();
  section.show(results, { ...document1, touches: [...document1.touches] });
  expect(first.isEnded).toBe(true);
  first.answer(help);
  expect([answers().hidden, said()]).toEqual([true, "An entry has changed: ask again."]);
});

it("takes its answer back when another chance is typed, and keeps it while strategies are taken over", () => {
  button("work it out").click();
  worker().answer(help);
  button("take over").click();
  section.show(results, kept);
  expect(answers().hidden).toBe(false);
  chance().value = "95 %";
  chance().dispatchEvent(new InputEvent("input"));
  expect([answers().hidden, said()]).toEqual([true, "The chance has changed: ask again."]);
});

it("stops at once, and says why there is no answer", () => {
  button("work it out").click();
  button("stop").click();
  expect([worker().isEnded, said(), button("stop").hidden]).toEqual([true, "Stopped.", true]);
  button("work it out").click();
  worker().answer({ id: 2, kind: "failed", why: "no touch." });
  expect([answers().hidden, said()]).toEqual([true, "Not worked out: no touch."]);
});

it("asks for a chance that can be asked for", () => {
  for (const text of ["50", "100 %", "-3", "", "much"]) {
    chance().value = text;
    button("work it out").click();
    expect([chance().getAttribute("aria-invalid"), made.length]).toEqual(["true", 0]);
    expect(said()).toContain(text);
  }
  chance().value = "95,45 %";
  chance().dispatchEvent(new KeyboardEvent("keydown", { key: "Enter" }));
  expect(worker().asked[0]?.work.wanted).toBeCloseTo(0.9545, 12);
});
