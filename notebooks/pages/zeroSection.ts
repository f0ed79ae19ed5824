import type { Outcome } from "../../lib/base/outcome.ts";
import { describeProblem } from "../../lib/base/outcome.ts";
import { axes } from "../../lib/base/vector.ts";
import type { StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { cautions } from "../../lib/record/cautions.ts";
import { checkReadings } from "../../lib/record/checkReadings.ts";
import { expandedUncertainty } from "../../lib/record/expandedUncertainty.ts";
import { zeroRegionSentence } from "../../lib/record/zeroRegionSentence.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { type DisplayUnit, writerOf } from "../figures/displayUnit.ts";
import { html, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import type { SheetResults } from "./sheetResults.ts";

/** The zero by the chosen strategy, the cautions before anything is typed, what is typed, and what the display must then show. */
export class ZeroSection {
  readonly element: HTMLElement;
  private readonly zero = new PlainTable({
    caption: "Part zero by the chosen strategy, machine coordinates",
    columns: [
      { label: "axis" },
      { label: "value", number: true },
      { label: "u", number: true, hint: "standard uncertainty" },
      { label: "U", number: true, hint: "expanded uncertainty, 95.45 % coverage" },
      { label: "k", number: true, hint: "coverage factor" },
      { label: "to type", number: true, hint: "in the controller's unit and decimals" },
    ],
  });
  private readonly region = html("p", { class: "hint" });
  private readonly regionBox = html("div", {}, this.region);
  private readonly regionInSight = new InSight(this.regionBox);
  private readonly cautions = html("ol", { class: "cautions" });
  private readonly lines = html("pre", { class: "lines", tabindex: 0, "aria-label": "Offset as block text" });
  private readonly copy = html("button", { type: "button", class: "act" }, "copy the lines");
  private readonly reason = html("p", { class: "reason" });
  private readonly checks = new PlainTable({
    caption: "What the display must show when a face is touched again",
    columns: [
      { label: "touch again" },
      { label: "with" },
      { label: "along" },
      { label: "machine", number: true },
      { label: "±U", number: true },
      { label: "work", number: true, hint: "with the offset as typed active, and no length or shift besides" },
    ],
  });

  constructor() {
    this.copy.addEventListener("click", () => void navigator.clipboard?.writeText(this.lines.textContent ?? ""));
    this.element = html(
      "div",
      { class: "zero" },
      this.zero.element,
      this.regionBox,
      html("h3", {}, "Before anything is typed"),
      this.cautions,
      html("h3", {}, "Offset to type"),
      this.reason,
      html("div", { class: "block-text" }, this.lines, this.copy),
      html("h3", {}, "Check readings"),
      html("p", { class: "hint" }, "Touch again with the same tool: outside these limits the reading disagrees with this sheet."),
      this.checks.element,
    );
  }

  /** Undefined while results wait or have failed. */
  show(results: SheetResults | undefined): void {
    const chosen = results?.chosen;
    const unit = results?.evaluation.setup.unit ?? "mm";
    this.showZero(chosen, unit);
    this.showOffset(chosen);
    // Its coverage takes some milliseconds; the numbers above do not wait for it.
    if (results === undefined) this.regionInSight.now(() => this.showRegion(chosen, unit));
    else this.regionInSight.run(() => this.showRegion(chosen, unit));
    if (results === undefined) {
      this.checks.show([]);
      return;
    }
    setChildren(this.cautions, this.cautionItems(results));
    this.showChecks(results, chosen?.ok ? chosen.value : undefined);
  }

  private showZero(chosen: Outcome<StrategyEvaluation> | undefined, unit: "mm" | "inch"): void {
    const typed = chosen?.ok && chosen.value.offset.ok ? chosen.value.offset.value.digits : [];
    const linear = axes.map((axis, i) => {
      const zero = chosen?.ok ? chosen.value.zero[i] : undefined;
      return [axis, ...budgetTexts(zero?.ok ? zero.value : undefined, unit), typed.find((digits) => digits.axis === axis)?.text ?? "–"];
    });
    const rotation = chosen?.ok && chosen.value.rotation.ok ? chosen.value.rotation.value : undefined;
    this.zero.show([...linear, ["turn, °", ...budgetTexts(rotation, "degree"), "–"]]);
  }

  private showRegion(chosen: Outcome<StrategyEvaluation> | undefined, unit: "mm" | "inch"): void {
    const region = chosen?.ok ? zeroRegionSentence(chosen.value, unit) : "";
    setText(this.region, region);
    this.region.hidden = region === "";
  }

  private showOffset(chosen: Outcome<StrategyEvaluation> | undefined): void {
    const offset = chosen?.ok ? chosen.value.offset : chosen;
    const turned = chosen?.ok && chosen.value.solution.appliesRotation;
    const why =
      offset === undefined
        ? "Waits for the results above."
        : offset.ok
          ? ""
          : offset.problems.map((problem) => describeProblem(problem)).join(" ");
    setText(this.reason, why || (turned ? "The turn has no word in these lines: it is entered as the machine builder's manual says." : ""));
    setText(this.lines, offset?.ok ? offset.value.lines.join("\n") : "");
    this.lines.hidden = !offset?.ok;
    this.copy.hidden = !offset?.ok;
  }

  private cautionItems({ evaluation }: SheetResults): Node[] {
    const wanted = cautions(evaluation);
    const items = [...this.cautions.children];
    while (items.length < wanted.length) items.push(html("li"));
    return wanted.map(({ text }, i) => {
      const item = items[i] as Element;
      setText(item, text);
      return item;
    });
  }

  private showChecks({ evaluation }: SheetResults, strategy: StrategyEvaluation | undefined): void {
    const writer = writerOf(evaluation.setup.unit);
    this.checks.show(
      checkReadings(evaluation, strategy).map(({ prediction, machine, work }) => {
        const written = writer.withUncertainty(machine.value, machine.upper - machine.value);
        return [
          prediction.id,
          prediction.tool,
          prediction.axis,
          written.value,
          written.uncertainty,
          work.ok ? writer.fixed(work.value.value, Math.max(0, written.decimals)) : "–",
        ];
      }),
    );
  }
}

function budgetTexts(budget: Budget | undefined, unit: DisplayUnit): [string, string, string, string] {
  if (budget === undefined) return ["–", "–", "–", "–"];
  const writer = writerOf(unit);
  const { value, uncertainty } = writer.withUncertainty(budget.value, budget.standardUncertainty);
  const expanded = expandedUncertainty(budget);
  return [value, uncertainty, writer.withUncertainty(0, expanded.expandedUncertainty).uncertainty, expanded.coverageFactor.toFixed(2)];
}
