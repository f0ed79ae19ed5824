import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { type Axis, axes } from "../../lib/base/vector.ts";
import { readAcross } from "../../lib/document/readAcross.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { turnedFeatures } from "../../lib/offsets/turnedFeatures.ts";
import { turnedRows, turnedSentence } from "../../lib/record/turnedFeaturesText.ts";
import { html, setText } from "../inputs/html.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import type { SheetResults } from "./sheetResults.ts";

/** A question: where everything lies in the next operation, after half a turn of the part about an axis. */
export class TurnedPartQuestion {
  readonly element: HTMLElement;
  private readonly about = html(
    "select",
    { id: "turned-about" },
    new Option("not", ""),
    ...axes.map((axis) => new Option(`about ${axis}`, axis)),
  );
  private readonly across = html("input", {
    id: "turned-across",
    type: "text",
    class: "written",
    size: 26,
    maxlength: 500,
    placeholder: "Z = -30 mm ± 0.01 mm",
    autocomplete: "off",
    spellcheck: "false",
  });
  private readonly told = html("p", { class: "reason", role: "status" });
  private readonly table = new PlainTable({
    caption: "Elements in the coordinates of the next operation",
    columns: [
      { label: "element" },
      ...axes.flatMap((axis) => [
        { label: axis, number: true },
        { label: `u ${axis}`, number: true, hint: "standard uncertainty: sizes are as this part is known to have them" },
      ]),
    ],
  });
  private results: SheetResults | undefined;
  private document: SetupDocument | undefined;

  constructor() {
    for (const entry of [this.about, this.across]) entry.addEventListener("input", () => this.answer());
    this.element = html(
      "div",
      { class: "offsets turned-part" },
      html("h3", {}, "The part turned over"),
      html(
        "div",
        { class: "trials" },
        html("span", { class: "pair" }, html("label", { for: "turned-about" }, "turned by half a turn"), this.about),
        html("span", { class: "pair" }, html("label", { for: "turned-across" }, "zero to the opposite face"), this.across),
      ),
      this.told,
      this.table.element,
    );
    this.answer();
  }

  /** Undefined while results wait or have failed. */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    this.results = results;
    this.document = document;
    this.answer();
  }

  private answer(): void {
    const answer = this.answered();
    setText(this.told, typeof answer === "string" ? answer : (answer?.told ?? ""));
    this.table.element.hidden = typeof answer !== "object";
    if (typeof answer === "object") this.table.show(answer.rows);
  }

  /** The answer, or why there is none; undefined where nothing is asked or known. */
  private answered(): { readonly told: string; readonly rows: string[][] } | string | undefined {
    const about = this.about.value as Axis | "";
    const { results } = this;
    if (about === "" || results === undefined) return undefined;
    const { setup, location } = results.evaluation;
    if (!results.chosen.ok) return "No strategy is in use that could be solved, so it is not known where zero sits.";
    const across = readAcross(this.across.value, about, this.document?.unit ?? setup.unit);
    if (!across.ok) return across.problems.map(inWords).join(" ");
    const turn = { about, across: across.value };
    const features = turnedFeatures(results.chosen.value.solution.strategy.zero, turn, location);
    if (!features.ok) return features.problems.map(inWords).join(" ");
    return { told: turnedSentence(turn, setup.unit), rows: turnedRows(features.value, setup.unit, "–") };
  }
}

function inWords(problem: Problem): string {
  const words = capitalise(describeProblem({ ...problem, at: "" }));
  return words.endsWith(".") ? words : `${words}.`;
}
