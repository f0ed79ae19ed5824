import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { formatMet } from "../figures/formatChance.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import type { Help, HelpAnswer, HelpWork, OfferedStrategy, StudyOf } from "../worker/studyMessages.ts";
import { sameStudy } from "./certaintySection.ts";
import type { SheetResults } from "./sheetResults.ts";
import { withStrategy } from "./strategyEntries.ts";
import { StudyClient } from "./studyClient.ts";

export interface HelpSectionOptions {
  /** One step of the history. */
  readonly edit: (change: (before: SetupDocument) => SetupDocument, what: string) => void;
  readonly say: (words: string) => void;
}

/**
 * The question turned round: what would help most, how large each doubt may be, which strategies from the same touches are best. Worked out in a
 * worker when it is asked for; an edit takes the answer back.
 */
export class HelpSection {
  readonly element: HTMLElement;
  private readonly options: HelpSectionOptions;
  private readonly client = new StudyClient<HelpWork, HelpAnswer>("help", (answer) => this.answered(answer));
  private readonly chance = html("input", {
    type: "text",
    inputmode: "decimal",
    value: "99.73 %",
    class: "chance-wanted",
    id: "chance-wanted",
    autocomplete: "off",
  });
  private readonly ask = act("work it out", () => this.start());
  private readonly stop = act("stop", () => this.stopped());
  private readonly progress = html("progress", { "aria-label": "Strategies tried" });
  private readonly told = html("p", { class: "hint", role: "status" });
  private readonly sentences = html("ul", { class: "what-helps" });
  private readonly allowances = new PlainTable({
    caption: "How large each doubt may be",
    columns: [{ label: "source" }, { label: "may be", number: true }, { label: "bound by" }],
  });
  private readonly allowanceWords = html("div");
  private readonly strategies = html("tbody");
  private readonly searchWords = html("p", { class: "hint" });
  private readonly answer: HTMLElement;
  private of: StudyOf | undefined;
  private isWorking = false;
  private isAnswered = false;

  constructor(options: HelpSectionOptions) {
    this.options = options;
    this.chance.addEventListener("input", () => {
      if (this.isWorking || this.isAnswered) this.takeBack("The chance has changed: ask again.");
    });
    this.chance.addEventListener("keydown", (event) => {
      if (event.key === "Enter") this.start();
    });
    const heads = ["touches", "this part", "the batch"].map((label) => html("th", { scope: "col", class: "number" }, label));
    this.answer = html(
      "div",
      { class: "answers" },
      html("h3", {}, "What would help most"),
      this.sentences,
      html("h3", {}, "How large each doubt may be, one at a time"),
      this.allowances.element,
      this.allowanceWords,
      html("h3", {}, "The best strategies for their number of touches"),
      html(
        "div",
        { class: "frame plain" },
        html(
          "table",
          {},
          html("caption", { class: "unseen" }, "Strategies from the same touches for the same part zero"),
          html(
            "thead",
            {},
            html("tr", {}, html("th", { scope: "col" }, "strategy"), ...heads, html("th", { scope: "col" }, "to the list")),
          ),
          this.strategies,
        ),
      ),
      this.searchWords,
    );
    this.element = html(
      "div",
      { class: "help-wanted" },
      html(
        "p",
        { class: "hint" },
        "The question turned round, for the strategy in use: what would raise its chance most, how much room each doubt has, and what else the same touches could do for the same part zero.",
      ),
      html(
        "div",
        { class: "trials" },
        html("label", { for: "chance-wanted" }, "each characteristic is to have a chance of"),
        this.chance,
        this.ask,
        this.stop,
        this.progress,
      ),
      this.told,
      this.answer,
    );
    this.showState();
  }

  /** @param results undefined while they wait or have failed */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    const of = results?.chosen.ok === true ? { document, strategy: results.chosen.value.id, view: results.view } : undefined;
    if (sameStudy(of, this.of)) return;
    this.of = of;
    const changed = this.isWorking || this.isAnswered ? "An entry has changed: ask again." : "";
    this.takeBack(of === undefined ? "Not known: the chosen strategy has no results." : changed);
  }

  dispose(): void {
    this.client.dispose();
  }

  /** An answer, or the work on one, to what is not asked any more. */
  private takeBack(why: string): void {
    this.client.stop();
    setText(this.told, why);
    this.isWorking = this.isAnswered = false;
    this.showState();
  }

  private start(): void {
    if (this.of === undefined) return;
    const wanted = wantedChance(this.chance.value);
    setAttribute(this.chance, "aria-invalid", wanted === undefined ? "true" : undefined);
    if (wanted === undefined) {
      setText(this.told, `Chance: expected per cent above 50 and below 100, such as 99.73 %, got “${this.chance.value}”.`);
      return;
    }
    this.isWorking = true;
    this.isAnswered = false;
    this.progress.removeAttribute("value");
    setText(this.told, "Being worked out.");
    this.showState();
    this.client.ask(this.of, { kind: "help", wanted });
  }

  private stopped(): void {
    this.client.stop();
    this.isWorking = false;
    setText(this.told, "Stopped.");
    this.showState();
    this.ask.focus();
  }

  private answered(answer: HelpAnswer): void {
    if (answer.kind === "progress") {
      this.progress.max = answer.candidates;
      this.progress.value = answer.tried;
      return;
    }
    this.isWorking = false;
    this.isAnswered = answer.kind === "help";
    setText(this.told, answer.kind === "help" ? "" : `Not worked out: ${answer.why}`);
    if (answer.kind === "help") this.fill(answer.help);
    this.showState();
  }

  private fill({ sentences, allowances, allowanceSentences, strategies, searchSentence }: Help): void {
    setChildren(
      this.sentences,
      sentences.map((sentence) => html("li", {}, sentence)),
    );
    this.allowances.element.hidden = allowances.length === 0;
    this.allowances.show(allowances);
    setChildren(
      this.allowanceWords,
      allowanceSentences.map((sentence) => html("p", { class: "hint" }, sentence)),
    );
    setChildren(
      this.strategies,
      strategies.map((offered) => this.rowOf(offered)),
    );
    setText(this.searchWords, searchSentence);
  }

  private rowOf(offered: OfferedStrategy): HTMLElement {
    const { words, entry, thisPart, batch } = offered;
    const take = act("take over", () => this.take(offered));
    setAttribute(take, "aria-label", `take over ${words}`);
    const number = (label: string, text: string) => html("td", { class: "number", "data-label": label }, text);
    return html(
      "tr",
      {},
      html("th", { scope: "row", "data-label": "strategy" }, words),
      number("touches", String(entry.touches.length)),
      number("this part", formatMet(thisPart)),
      number("the batch", formatMet(batch)),
      html("td", { "data-label": "to the list" }, take),
    );
  }

  /** Into the list of strategies, for the same part zero; the strategy in use stays in use. */
  private take({ entry, words }: OfferedStrategy): void {
    let taken = words;
    this.options.edit((before) => {
      const { document, id } = withStrategy(before, entry, words, this.of?.strategy ?? "");
      taken = id;
      // One more strategy changes nothing of the answer, and another may be wanted.
      if (this.of !== undefined) this.of = { ...this.of, document };
      return document;
    }, `strategy ${words}`);
    this.options.say(`“${taken}” is among the strategies.`);
  }

  private showState(): void {
    this.ask.disabled = this.of === undefined || this.isWorking;
    this.stop.hidden = this.progress.hidden = !this.isWorking;
    this.answer.hidden = !this.isAnswered;
    setAttribute(this.element, "aria-busy", this.isWorking ? "true" : undefined);
  }
}

/** A chance above 50 % and below 100 %, as a number; undefined for anything else. */
function wantedChance(text: string): number | undefined {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*%?\s*$/.exec(text);
  const chance = Number(match?.[1]?.replace(",", ".")) / 100;
  return chance > 0.5 && chance < 1 ? chance : undefined;
}
