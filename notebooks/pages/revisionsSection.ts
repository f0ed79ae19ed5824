import { describeProblem } from "../../lib/base/outcome.ts";
import { differenceOfDocuments, type PlacedSentence } from "../../lib/differenceOfDocuments.ts";
import { differsFromLastRevision, documentAtRevision, noteRevision } from "../../lib/document/revisions.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";

export interface RevisionsOptions {
  readonly edit: (change: (before: SetupDocument) => SetupDocument, what: string) => void;
  readonly say: (words: string) => void;
  /** Date and time of ISO 8601. */
  readonly now: () => string;
}

/** States of the document that somebody noted: who, when and why; what is different between two of them; and the way back. */
export class RevisionsSection {
  readonly element: HTMLElement;
  private readonly options: RevisionsOptions;
  private readonly who = entry("revision-who", 18);
  private readonly why = entry("revision-why", 46);
  private readonly state = html("span", { class: "progress-text" });
  private readonly stateInSight = new InSight(this.state);
  private readonly body = html("tbody");
  private readonly table: HTMLElement;
  private readonly from = html("select", { "aria-label": "Compare from" });
  private readonly to = html("select", { "aria-label": "Compare to" });
  private readonly comparing: HTMLElement;
  private readonly difference = html("div", {
    class: "difference",
    role: "region",
    "aria-label": "Difference",
    tabindex: -1,
    hidden: true,
  });
  private document: SetupDocument | undefined;
  /** Whether what is compared holds the document as it is now, which the next edit makes another one. */
  private comparesNow = false;

  constructor(options: RevisionsOptions) {
    this.options = options;
    const form = html(
      "form",
      { class: "trials" },
      html("span", { class: "pair" }, html("label", { for: "revision-who" }, "who"), this.who),
      html("span", { class: "pair" }, html("label", { for: "revision-why" }, "why"), this.why),
      html("button", { class: "act" }, "note a revision"),
      this.state,
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.note();
    });
    const heads = ["no.", "when", "who", "why", "revision", ""].map((label) =>
      html("th", { scope: "col" }, label || html("span", { class: "unseen" }, "acts")),
    );
    const table = html(
      "table",
      {},
      html("caption", { class: "unseen" }, "Revisions"),
      html("thead", {}, html("tr", {}, ...heads)),
      this.body,
    );
    this.table = html("div", { class: "frame noted" }, table);
    this.comparing = html(
      "div",
      { class: "trials" },
      "difference from",
      this.from,
      "to",
      this.to,
      act("tell the difference", () => this.compare()),
    );
    for (const choice of [this.from, this.to]) choice.addEventListener("change", () => this.hideDifference());
    this.element = html("div", {}, form, this.table, this.comparing, this.difference);
  }

  show(document: SetupDocument): void {
    const before = this.document;
    this.document = document;
    if (this.comparesNow) this.hideDifference();
    if (before?.revisions !== document.revisions) this.showList(document);
    // Who notes revisions is seldom another than the time before.
    if (before === undefined) this.who.value = document.revisions.at(-1)?.who ?? "";
    // All rows are compared for it.
    this.stateInSight.run(() => setText(this.state, stateText(document)));
  }

  private showList({ revisions }: SetupDocument): void {
    this.table.hidden = revisions.length === 0;
    this.comparing.hidden = revisions.length === 0;
    let letter = "";
    const rows = revisions.map(({ who, when, why, change }, i) => {
      letter = change.revision ?? letter;
      const restore = act("restore", () => this.restore(i));
      setAttribute(restore, "aria-label", `restore revision ${i + 1}`);
      const since = act("since then", () => this.compareSince(i));
      setAttribute(since, "aria-label", `since then: difference from revision ${i + 1} to now`);
      const cells = [
        [dateText(when), "when"],
        [who || "–", "who"],
        [why || "–", "why"],
        [letter || "–", "revision"],
      ] as const;
      return html(
        "tr",
        {},
        html("th", { scope: "row" }, String(i + 1)),
        ...cells.map(([text, label]) => html("td", { "data-label": label }, text)),
        html("td", { class: "row-acts" }, since, restore),
      );
    });
    setChildren(this.body, rows.reverse());
    const names = [...revisions.map((_, i) => [String(i), `revision ${i + 1}`] as const), ["now", "now"] as const];
    for (const choice of [this.from, this.to]) choice.replaceChildren(...names.map(([value, text]) => new Option(text, value)));
    this.from.value = String(revisions.length - 1);
    this.to.value = "now";
  }

  private note(): void {
    if (this.document === undefined) return;
    const noted = noteRevision(this.document, { who: this.who.value.trim(), when: this.options.now(), why: this.why.value.trim() });
    if (!noted.ok) {
      this.options.say(`Not noted: ${noted.problems.map(describeProblem).join(" ")}`);
      return;
    }
    this.why.value = "";
    this.options.edit(() => noted.value, "noting of a revision");
    this.options.say(`Revision ${noted.value.revisions.length} is noted.`);
  }

  private restore(revision: number): void {
    const state = this.document && documentAtRevision(this.document, revision);
    if (state === undefined) return;
    if (!state.ok) {
      this.options.say(`Not restored: ${state.problems.map(describeProblem).join(" ")}`);
      return;
    }
    this.options.edit(() => state.value, `restoring of revision ${revision + 1}`);
    this.options.say(`Revision ${revision + 1} is restored; undo brings back what was there before, and no revision is lost.`);
  }

  private compareSince(revision: number): void {
    this.from.value = String(revision);
    this.to.value = "now";
    this.compare();
  }

  private compare(): void {
    const { document } = this;
    if (document === undefined) return;
    const [before, after] = [this.from, this.to].map(({ value }) =>
      value === "now" ? { ok: true as const, value: document } : documentAtRevision(document, Number(value)),
    );
    const broken = [before, after].flatMap((each) => (each?.ok === false ? each.problems : []));
    if (!before?.ok || !after?.ok) {
      this.showDifference([html("p", { class: "wrong" }, broken.map(describeProblem).join(" "))]);
      return;
    }
    const { entries, results } = differenceOfDocuments(before.value, after.value);
    this.showDifference(
      entries.length === 0
        ? [html("p", {}, "Nothing differs.")]
        : [
            html("h3", {}, "What changed"),
            sentenceList(entries),
            html("h3", {}, "What that does"),
            results.length > 0 ? sentenceList(results) : html("p", {}, "No result differs in the digits that are reported."),
          ],
    );
    this.comparesNow = this.from.value === "now" || this.to.value === "now";
  }

  private showDifference(content: readonly HTMLElement[]): void {
    setChildren(this.difference, content);
    this.difference.hidden = false;
    this.difference.focus({ preventScroll: true });
    this.difference.scrollIntoView?.({ block: "nearest" });
  }

  /** What was told of a state that is no longer the present one is not left standing. */
  private hideDifference(): void {
    this.comparesNow = false;
    this.difference.hidden = true;
    setChildren(this.difference, []);
  }
}

function stateText(document: SetupDocument): string {
  if (document.revisions.length === 0) return "nothing is noted yet";
  return differsFromLastRevision(document) ? "changed since the last one" : "as the last one";
}

function sentenceList(sentences: readonly PlacedSentence[]): HTMLElement {
  return html(
    "ul",
    { class: "told" },
    ...sentences.map(({ sentence }) => html("li", {}, `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`)),
  );
}

/** As the reader's own region writes it; what is no date stays as it is. */
function dateText(when: string): string {
  const date = new Date(when);
  return Number.isNaN(date.getTime()) ? when || "–" : date.toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

function entry(id: string, width: number): HTMLInputElement {
  return html("input", { id, type: "text", class: "written", size: width, maxlength: 500, autocomplete: "off", spellcheck: "false" });
}
