import { suggestedChecks } from "../../lib/decision/suggestedChecks.ts";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import type { CheckEntry, SetupDocument } from "../../lib/document/setupDocument.ts";
import { disagreementSentences, explanationWords, findingSentence, shareText, untoldFindings } from "../../lib/record/slipSentences.ts";
import { lookForSlips, type SlipReport } from "../../lib/slips/lookForSlips.ts";
import { writerOf } from "../figures/displayUnit.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { paragraphs } from "../inputs/paragraphs.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { freeName } from "../inputs/rows.ts";
import { plainDecimals } from "./format.ts";
import type { SheetResults } from "./sheetResults.ts";

export interface ChecksSectionOptions {
  /** One step of the history. */
  readonly edit: (change: (before: SetupDocument) => SetupDocument, what: string) => void;
  readonly say: (words: string) => void;
  readonly goTo: (place: string) => void;
}

/** However busy the page is, explanations are begun after this many ms. */
const latest = 300;

/** Whether the checks agree, what may have slipped where the evidence does not fit, and beside the open problems what else looks like a slip. */
export class ChecksSection {
  readonly element: HTMLElement;
  /** What looks like a slip, for the list of open problems. */
  readonly findings: HTMLElement;
  readonly suggest: HTMLElement;
  private readonly options: ChecksSectionOptions;
  private readonly sentences = html("div", { class: "findings" });
  private readonly explanations = new PlainTable({
    caption: "What may have happened, the likeliest first",
    columns: [
      { label: "what may have happened" },
      { label: "share", number: true, hint: "among all explanations that were tried, by the budget and the chances of slips" },
      { label: "fits", number: true, hint: "chance that doubt alone leaves as much disagreement as is left then" },
      { label: "deciding touch shows", number: true, hint: "machine coordinate at the touch named above, if this is what happened" },
    ],
  });
  private readonly findingList = html("ul", { class: "open-problems" });
  private readonly sentencesInSight: InSight;
  private readonly findingsInSight: InSight;
  private results: SheetResults | undefined;
  private known: { readonly of: SheetResults["evaluation"]; readonly report: SlipReport } | undefined;

  constructor(options: ChecksSectionOptions) {
    this.options = options;
    this.suggest = html(
      "p",
      { class: "on-screen" },
      act("foresee the faces that the zero does not rest on", () => this.addSuggested(false)),
      " ",
      act("and those that it rests on", () => this.addSuggested(true)),
    );
    this.element = html("div", { class: "checks" }, this.sentences, this.explanations.element);
    this.findings = html("div", { class: "slips" }, html("h3", {}, "What looks like a slip"), this.findingList);
    this.sentencesInSight = new InSight(this.element);
    this.findingsInSight = new InSight(this.findings);
  }

  /** Undefined while results wait or have failed: nothing old stays. */
  show(results: SheetResults | undefined): void {
    this.results = results;
    if (results === undefined) {
      this.sentencesInSight.now(() => this.fill(undefined));
      this.findingsInSight.now(() => this.fillFindings(undefined));
    } else {
      for (const element of [this.element, this.findings]) setAttribute(element, "data-earlier", "true");
      this.sentencesInSight.run(() => this.whenIdle(this.element, () => this.fill(results)));
      this.findingsInSight.run(() => this.whenIdle(this.findings, () => this.fillFindings(results)));
    }
  }

  /** Explanations take longer than a frame may; the verdicts in the table do not wait for them. What is shown says meanwhile that it is busy. */
  private whenIdle(element: HTMLElement, work: () => void): void {
    const { results } = this;
    if (typeof requestIdleCallback !== "function") {
      work();
      return;
    }
    setAttribute(element, "aria-busy", "true");
    const begin = () => {
      // An edit has come since: what it brings is on its way.
      if (this.results !== results) return;
      work();
      setAttribute(element, "aria-busy", undefined);
    };
    requestIdleCallback(begin, { timeout: latest });
  }

  /** Worked out once, by whichever of its two places comes first. */
  private reportOf({ evaluation, chosen }: SheetResults): SlipReport {
    if (this.known?.of !== evaluation)
      this.known = { of: evaluation, report: lookForSlips(evaluation, chosen.ok ? chosen.value : undefined) };
    return this.known.report;
  }

  private fill(results: SheetResults | undefined): void {
    setAttribute(this.element, "data-earlier", undefined);
    const disagreement = results && this.reportOf(results).disagreement;
    this.explanations.element.hidden = disagreement === undefined;
    if (results === undefined || disagreement === undefined) {
      setChildren(this.sentences, paragraphs(results === undefined ? [] : [agreement(results)]));
      this.explanations.show([]);
      return;
    }
    const { unit } = results.evaluation.setup;
    const writer = writerOf(unit);
    setChildren(this.sentences, paragraphs([...disagreementSentences(disagreement, unit), "Nothing is corrected by any of this."]));
    this.explanations.show(
      disagreement.explanations.map((explanation) => [
        explanationWords(explanation),
        shareText(explanation.share),
        shareText(explanation.leftChance),
        explanation.reading === undefined ? "–" : `${writer.fixed(explanation.reading, plainDecimals[unit])}${writer.suffix}`,
      ]),
    );
  }

  private fillFindings(results: SheetResults | undefined): void {
    setAttribute(this.findings, "data-earlier", undefined);
    const findings = results === undefined ? [] : untoldFindings(this.reportOf(results).findings);
    this.findings.hidden = findings.length === 0;
    setChildren(
      this.findingList,
      findings.map((finding) => {
        const link = html("button", { type: "button", class: "link" }, findingSentence(finding));
        link.addEventListener("click", () => this.options.goTo(finding.at));
        return html("li", {}, link);
      }),
    );
  }

  private addSuggested(withUsed: boolean): void {
    const { results } = this;
    if (results === undefined) {
      this.options.say("Nothing is foreseen while results wait.");
      return;
    }
    const wanted = suggestedChecks(results.evaluation.setup).filter(({ usedForZero }) => withUsed || !usedForZero);
    if (wanted.length === 0) {
      this.options.say(withUsed ? "Every face has its check." : "There is no face without a check that the zero does not rest on.");
      return;
    }
    this.options.edit((before) => {
      const names = before.checks.map(({ id }) => id);
      const added = wanted.map(({ element, travelling, tool }): CheckEntry => {
        const id = names.includes(element) ? freeName(element, names) : element;
        names.push(id);
        const like =
          before.touches.find((touch) => touch.element === element) ??
          before.touches.find((touch) => touch.travelling[1] === travelling[1]);
        const place = { x: like?.x ?? "", y: like?.y ?? "", z: "" };
        const spacer = travelling === "-Z" ? (like?.spacer ?? "") : "";
        return { ...blankEntries.check(id), element, travelling, tool, spacer, ...place };
      });
      return { ...before, checks: [...before.checks, ...added] };
    }, "checks of faces");
    this.options.say(`${wanted.length === 1 ? "One check was" : `${wanted.length} checks were`} added; type what the display shows.`);
  }
}

function agreement({ evaluation: { checks } }: SheetResults): string {
  const read = checks.filter(({ evaluation }) => evaluation.ok && evaluation.value.verdict !== undefined).length;
  if (read === 0) return "No check has been read yet. What is known twice besides fits within its doubts.";
  return `All that is known twice fits within its doubts, ${read === 1 ? "the check" : `${read} checks`} among it.`;
}
