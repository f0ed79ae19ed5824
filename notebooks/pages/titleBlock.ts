import type { Outcome } from "../../lib/base/outcome.ts";
import { axes } from "../../lib/base/vector.ts";
import type { StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { lookedAt } from "../../lib/document/operationDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import type { SampledChance } from "../../lib/tolerance/chanceOfAll.ts";
import { writerOf } from "../figures/displayUnit.ts";
import { formatMet } from "../figures/formatChance.ts";
import { html, setAttribute, setText } from "../inputs/html.ts";
import type { SheetResults } from "./sheetResults.ts";
import { unlikely } from "./tables/part.ts";

export interface TitleBlockOptions {
  readonly onChoose: (strategy: string) => void;
  /** A person wants to see what is open. */
  readonly onProblems: () => void;
}

/** Along the bottom, as drawings have one: what must be known at every moment. */
export class TitleBlock {
  readonly element: HTMLElement;
  private readonly job = field("job", "named");
  private readonly revision = field("revision", "named");
  private readonly strategy = html("select", { id: "strategy-in-use" });
  private readonly strategyLabel = html("label", { for: "strategy-in-use" }, "strategy");
  /** The one that is looked at, of several; empty where there is one. */
  private operation = "";
  private readonly zeros = axes.map((axis) => field(`${axis} zero`, "zero"));
  private readonly chances = { thisPart: field("all met, this part", "chance first"), batch: field("all met, the batch", "chance") };
  private readonly problems = html("button", { type: "button", class: "problems" });
  private unit: SetupDocument["unit"] = "mm";

  constructor({ onChoose, onProblems }: TitleBlockOptions) {
    this.strategy.addEventListener("change", () => onChoose(this.strategy.value));
    this.problems.addEventListener("click", onProblems);
    const more = html("button", { type: "button", class: "more", "aria-expanded": "false" }, "more");
    more.addEventListener("click", () => {
      const open = more.getAttribute("aria-expanded") !== "true";
      more.setAttribute("aria-expanded", String(open));
      setText(more, open ? "less" : "more");
    });
    this.element = html(
      "footer",
      { class: "title-block", "aria-label": "Title block" },
      more,
      html(
        "div",
        { class: "fields" },
        this.job.element,
        this.revision.element,
        html("div", { class: "box strategy" }, this.strategyLabel, this.strategy),
        ...this.zeros.map(({ element }) => element),
        this.chances.thisPart.element,
        this.chances.batch.element,
        html("div", { class: "box open" }, html("span", { class: "label" }, "open problems"), this.problems),
      ),
    );
  }

  showDocument(document: SetupDocument): void {
    const { title, revision } = document;
    const { operation, strategies, chosen } = lookedAt(document);
    this.job.show(title === "" ? "without a title" : title);
    this.revision.show(revision === "" ? "–" : revision);
    this.operation = operation;
    setText(this.strategyLabel, operation === "" ? "strategy" : `strategy, operation ${operation}`);
    const names = [...new Set(["", ...strategies.map(({ id }) => id), chosen])];
    const options = [...this.strategy.options].map(({ value }) => value);
    if (names.length !== options.length || names.some((name, i) => name !== options[i])) {
      this.strategy.replaceChildren(...names.map((name) => new Option(name === "" ? "none chosen" : name, name)));
    }
    this.strategy.value = chosen;
  }

  /** Undefined while results wait or have failed. */
  showResults(results: SheetResults | undefined): void {
    const chosen = results?.chosen;
    if (results !== undefined) this.unit = results.evaluation.setup.unit;
    this.nameResults((results?.evaluation.setup.supposed.length ?? 0) > 0);
    for (const [i, zero] of this.zeros.entries()) zero.show(...zeroText(chosen, i as 0 | 1 | 2, this.unit));
    for (const view of ["thisPart", "batch"] as const) {
      const chance = chosen?.ok ? chosen.value[view].chanceOfAll : undefined;
      this.chances[view].show(chanceText(chance), "", chance?.ok && chance.value.chance < unlikely ? "bad" : undefined);
    }
    const count = results?.problems.length;
    setText(this.problems, count === undefined ? "not computed" : count === 0 ? "none" : `${count} to mend`);
    setAttribute(this.problems, "data-tone", count === 0 ? undefined : "bad");
  }

  /** What rests on a supposition must not be taken for the setup's own, wherever the page is scrolled to. */
  private nameResults(areSupposed: boolean): void {
    const mark = areSupposed ? "supposed: " : "";
    for (const [i, axis] of axes.entries()) this.zeros[i]?.name(`${mark}${axis} zero, ${this.unit === "inch" ? "in" : "mm"}`);
    // What other operations cut is judged there; the finished part has a place of its own.
    const all = this.operation === "" ? "all met" : `all of ${this.operation} met`;
    this.chances.thisPart.name(`${mark}${all}, this part`);
    this.chances.batch.name(`${mark}${all}, the batch`);
  }
}

function zeroText(chosen: Outcome<StrategyEvaluation> | undefined, axis: 0 | 1 | 2, unit: SetupDocument["unit"]): [string, string] {
  const zero = chosen?.ok ? chosen.value.zero[axis] : undefined;
  if (!zero?.ok) return ["–", chosen === undefined ? "waits" : "not known"];
  const written = writerOf(unit).withUncertainty(zero.value.value, expandedUncertainty(zero.value).expandedUncertainty);
  return [written.value, `± ${written.uncertainty}`];
}

function chanceText(chance: Outcome<SampledChance> | undefined): string {
  return chance?.ok ? formatMet(chance.value.chance) : "–";
}

interface Field {
  readonly element: HTMLElement;
  name(label: string): void;
  show(text: string, after?: string, tone?: string): void;
}

function field(label: string, kind: string): Field {
  const name = html("span", { class: "label" }, label);
  const value = html("b");
  const after = html("small");
  return {
    element: html("div", { class: `box ${kind}` }, name, html("span", { class: "text" }, value, " ", after)),
    name: (text) => setText(name, text),
    show: (text, behind = "", tone) => {
      setText(value, text);
      setText(after, behind);
      setAttribute(value, "data-tone", text === "–" ? "nothing" : tone);
    },
  };
}
