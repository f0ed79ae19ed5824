import { describeProblem } from "../../lib/base/outcome.ts";
import type { FinishedCharacteristic } from "../../lib/decision/finishedPart.ts";
import { unitOfStack, writerOf } from "../figures/displayUnit.ts";
import { formatMet, formatShare } from "../figures/formatChance.ts";
import { html, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { plainDecimals } from "./format.ts";
import type { SheetResults } from "./sheetResults.ts";

/** The part that leaves the last of several operations, by the strategies in use. Nothing for a part with one. */
export class FinishedSection {
  readonly element: HTMLElement;
  private readonly sentence = html("p", { class: "finished-sentence" });
  private readonly table = new PlainTable({
    caption: "The finished part, by the strategies in use",
    columns: [
      { label: "characteristic" },
      { label: "judged in", hint: "the operation that cuts the last of its elements" },
      { label: "most of it from" },
      { label: "expected", number: true, hint: "of a round zone the diameter used" },
      { label: "RSS", number: true, hint: "share of the tolerance that the root sum square uses" },
      { label: "worst", number: true, hint: "share of the tolerance that the worst case uses" },
      { label: "chance", number: true, hint: "of being met" },
    ],
  });
  private readonly inSight: InSight;

  constructor() {
    this.element = html("div", { class: "finished" }, html("h3", {}, "The finished part"), this.sentence, this.table.element);
    this.element.hidden = true;
    this.inSight = new InSight(this.element);
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined): void {
    const operated = results?.operated;
    this.element.hidden = operated === undefined;
    if (results === undefined || operated === undefined) this.inSight.now(() => this.fill(undefined));
    else this.inSight.run(() => this.fill(results));
  }

  private fill(results: SheetResults | undefined): void {
    if (results?.operated === undefined) {
      setText(this.sentence, "");
      this.table.show([]);
      return;
    }
    const { evaluation, operated, view } = results;
    const { characteristics, chanceOfAll } = operated.finished[view];
    const { unit } = evaluation.setup;
    const which = view === "thisPart" ? "This part" : "A part of the batch";
    setText(
      this.sentence,
      chanceOfAll.ok
        ? `${which} meets all that the drawing demands with a chance of ${formatMet(chanceOfAll.value.chance)}, after operations ${operated.operations.map(({ setup }) => setup.operation?.id).join(", ")}.`
        : `Whether ${which.toLowerCase()} meets all that the drawing demands is not known: ${chanceOfAll.problems.map(describeProblem).join("; ")}.`,
    );
    this.table.show(characteristics.map((characteristic) => rowOf(characteristic, unit)));
  }
}

function rowOf({ id, operation = "–", stack }: FinishedCharacteristic, unit: "mm" | "inch"): string[] {
  if (!stack.ok) return [id, operation, stack.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" "), "", "", "", ""];
  const { isRound, deviation, shares, chance, rows } = stack.value;
  const writer = writerOf(unitOfStack(stack.value, unit));
  const write = isRound ? writer.fixed : writer.signed;
  return [
    id,
    operation,
    rows[0]?.source.label ?? "nothing",
    `${write(deviation, plainDecimals[unit])}${writer.suffix}`,
    formatShare(shares.rootSumSquare),
    formatShare(shares.worstCase),
    formatMet(chance),
  ];
}
