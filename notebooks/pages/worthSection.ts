import type { Outcome } from "../../lib/base/outcome.ts";
import type { ComparedCoordinate } from "../../lib/datum/optimalZero.ts";
import type { StrategyEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { minutesText } from "../../lib/record/optimalInWords.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { type DisplayUnit, writerOf } from "../figures/displayUnit.ts";
import { html, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import type { SheetResults } from "./sheetResults.ts";

const coordinates = ["X", "Y", "Z", "rotation"] as const satisfies readonly ComparedCoordinate["name"][];

/** What each strategy takes in touches and time, and how well the same touches could know its zero if each counted for what it is worth. */
export class WorthSection {
  readonly element: HTMLElement;
  private readonly table = new PlainTable({
    caption: "Touches and time of every strategy, and the standard uncertainty of its zero beside the least that the same touches allow",
    columns: [
      { label: "strategy" },
      { label: "touches", number: true, hint: "places touched; in brackets the readings taken there" },
      { label: "min", number: true, hint: "rough time for all readings" },
      ...(["X", "Y", "Z"] as const).map((axis) => ({
        label: `u(${axis}0)`,
        number: true,
        hint: "by the strategy → at best by the same touches",
      })),
      { label: "u(turn), °", number: true, hint: "by the strategy → at best by the same touches" },
    ],
  });
  private readonly legend = html("p", { class: "hint" });
  private readonly inSight: InSight;

  constructor() {
    this.element = html("div", { class: "worth" }, html("h3", {}, "What the touches are worth"), this.table.element, this.legend);
    this.inSight = new InSight(this.element);
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined): void {
    if (results === undefined) this.inSight.now(() => this.fill([], "mm"));
    else this.inSight.run(() => this.fill(inOrder(results), results.evaluation.setup.unit));
  }

  private fill(strategies: readonly StrategyEvaluation[], unit: "mm" | "inch"): void {
    this.element.hidden = strategies.length === 0;
    this.table.show(
      strategies.map((strategy) => [strategy.id, ...effortTexts(strategy), ...coordinates.map((name) => worthText(strategy, name, unit))]),
    );
    setText(this.legend, legendOf(strategies));
  }
}

function inOrder({ evaluation: { strategies, ranking } }: SheetResults): StrategyEvaluation[] {
  const solved = new Map(strategies.flatMap(({ id, evaluation }) => (evaluation.ok ? [[id, evaluation.value] as const] : [])));
  return ranking.order.flatMap((id) => solved.get(id) ?? []);
}

function effortTexts({ effort: { touches, readings, minutes, isStated } }: StrategyEvaluation): [string, string] {
  if (touches === 0) return ["–", "–"];
  return [readings === touches ? String(touches) : `${touches} (${readings})`, `${minutesText(minutes)}${isStated ? "" : " *"}`];
}

/** Shares from here on look the same in two digits. */
const sameFrom = 0.99;

function worthText(strategy: StrategyEvaluation, name: ComparedCoordinate["name"], unit: "mm" | "inch"): string {
  const { optimal } = strategy;
  const writer = writerIn(name, unit);
  if (optimal?.ok) {
    const compared = optimal.value.coordinates.find((each) => each.name === name);
    if (compared === undefined) return "–";
    const own = writer(compared.conventional);
    return compared.ratio < sameFrom ? `${own} → ${writer(compared.optimal)}` : own;
  }
  const own = ownOf(strategy, name);
  return own.ok ? `${writer(own.value)}${optimal === undefined ? "" : " †"}` : "–";
}

function ownOf({ zero, rotation }: StrategyEvaluation, name: ComparedCoordinate["name"]): Outcome<Budget> {
  return name === "rotation" ? rotation : zero[coordinates.indexOf(name) as 0 | 1 | 2];
}

function writerIn(name: ComparedCoordinate["name"], unit: "mm" | "inch"): (budget: Budget) => string {
  const shown: DisplayUnit = name === "rotation" ? "degree" : unit;
  return ({ standardUncertainty }) => writerOf(shown).withUncertainty(0, standardUncertainty).uncertainty;
}

/** What the signs in the table mean, those that are there. */
function legendOf(strategies: readonly StrategyEvaluation[]): string {
  const isBetter = strategies.some(({ optimal }) => optimal?.ok && optimal.value.coordinates.some(({ ratio }) => ratio < sameFrom));
  return [
    isBetter
      ? "→ what the same touches could give at best, weighed by all that is known of them together (generalised least squares), with what the scale is off between touches and zero. Zero itself goes on counting touches alike, as the setter’s formula does."
      : "No other weights of the same touches would make any zero clearly better known.",
    ...(strategies.some(({ effort }) => effort.touches > 0 && !effort.isStated)
      ? [
          "* minutes by shop defaults (common practice, no source): state the time of a touch with its tool, among all columns of that table.",
        ]
      : []),
    ...(strategies.some(({ optimal }) => optimal?.ok === false)
      ? ["† its touches disagree by more than their doubts explain, and are not combined."]
      : []),
  ].join(" ");
}
