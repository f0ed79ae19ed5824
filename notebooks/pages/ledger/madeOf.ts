import { describeProblem, type Outcome } from "../../../lib/base/outcome.ts";
import type { CellBlock } from "../../../lib/document/ledgerBlocks.ts";
import { formulaWithNumbers } from "../../../lib/formula/formatStatement.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import { cellSourceId } from "../../../lib/ledger/cellSource.ts";
import type { CellValue, Quantity } from "../../../lib/ledger/cellValue.ts";
import { correlationText } from "../../../lib/record/correlationText.ts";
import { expandedUncertainty } from "../../../lib/record/expandedUncertainty.ts";
import { budgetDistribution } from "../../../lib/tolerance/budgetDistribution.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { budgetBars } from "../../figures/budgetBars.ts";
import { budgetTable } from "../../figures/budgetTable.ts";
import { distribution } from "../../figures/distribution.ts";
import { distributionTable } from "../../figures/distributionTable.ts";
import type { DistributionView } from "../../figures/distributionView.ts";
import { densityCurve } from "../../figures/stack/densityCurve.ts";
import { traceOf } from "../../figures/trace/traceOf.ts";
import { trace } from "../../figures/trace.ts";
import { traceTable } from "../../figures/traceTable.ts";
import { html, setText } from "../../inputs/html.ts";
import { drawnRange } from "../../worker/drawnRange.ts";
import { FigureSlot } from "../figureSlot.ts";
import type { SheetResults } from "../sheetResults.ts";
import type { LedgerGraph } from "./graph.ts";
import { showQuantity } from "./shownQuantity.ts";
import { valueText } from "./valueText.ts";

/** What a person looks at when standing on a cell of their own. */
export interface Stood {
  readonly block: CellBlock;
  readonly graph: LedgerGraph;
  readonly results: SheetResults;
}

/** Beside the cell that one stands on: its formula with numbers put in, what it is made from and what depends on it, its budget, its distribution. */
export class MadeOf {
  readonly element: HTMLElement;
  private readonly name = html("span", { class: "name" });
  private readonly typed = html("p", { class: "formula" });
  private readonly numbers = html("p", { class: "formula" });
  private readonly links = html("p", { class: "links" });
  private readonly trace = new FigureSlot({ title: "Its trace" });
  private readonly budget = new FigureSlot({ title: "Where its doubt comes from" });
  private readonly spread = new FigureSlot({ title: "Its distribution, to first order" });
  private readonly onGo: (name: string) => void;
  private linksShown = "";
  private stood: Stood | undefined;
  private drawings = 0;

  /** @param onGo a person wants to go to what is called so */
  constructor(onGo: (name: string) => void) {
    this.onGo = onGo;
    this.element = html(
      "section",
      { class: "made-of", "aria-label": "What this is made of" },
      html("h3", {}, "What this is made of: ", this.name),
      this.typed,
      this.numbers,
      this.links,
      this.trace.element,
      this.budget.element,
      this.spread.element,
    );
    this.element.hidden = true;
  }

  /** Undefined while nobody stands on a cell; results that wait or failed show nothing old. */
  show(stood: Stood | undefined): void {
    if (stood !== undefined && stood.block === this.stood?.block && stood.results === this.stood.results) return;
    this.stood = stood;
    this.element.hidden = stood === undefined;
    if (stood === undefined) return;
    this.drawings += 1;
    const { block, graph, results } = stood;
    const text = block.instead.trim() === "" ? block.entry : block.instead;
    setText(this.name, block.id);
    setText(this.typed, text.trim() === "" ? "Nothing is typed yet." : `= ${text}`);
    const withNumbers = this.withNumbers(text, results);
    setText(this.numbers, withNumbers === undefined ? "" : `= ${withNumbers}`);
    this.numbers.hidden = withNumbers === undefined;
    this.showLinks(block.id, graph.needsOf(block.id), graph.usersOf(block.id), results);
    this.drawTrace(stood);
    this.drawBudget(stood);
  }

  private withNumbers(text: string, results: SheetResults): string | undefined {
    const statement = parseStatement(text);
    if (!statement.ok) return undefined;
    let hasNumbers = false;
    const numbers = formulaWithNumbers(statement.value, (name) => {
      const value = valueText(name, results);
      hasNumbers ||= value !== undefined;
      return value ?? name;
    });
    return hasNumbers ? numbers : undefined;
  }

  private showLinks(cell: string, needs: readonly string[], users: readonly string[], { own, quantities, related }: SheetResults): void {
    const partners = partnersOf(cell, related);
    const key = JSON.stringify([needs, users, partners]);
    if (key === this.linksShown) return;
    this.linksShown = key;
    const link = (name: string) => {
      const described = quantities.about(name)?.describes;
      const canGo = own.has(name) || described !== undefined || name.includes(".");
      if (!canGo) return html("span", {}, name);
      const button = html("button", { type: "button", class: "act", title: described }, name);
      button.addEventListener("click", () => this.onGo(name));
      return button;
    };
    const listed = (names: readonly string[]) => names.flatMap((name, i) => (i === 0 ? [link(name)] : [", ", link(name)]));
    this.links.replaceChildren(
      ...(needs.length === 0 ? ["Made from nothing else that has a name. "] : ["Made from ", ...listed(needs), ". "]),
      ...(users.length === 0 ? ["Nothing depends on it."] : ["On it depend ", ...listed(users), "."]),
      ...partners.map(({ name, coefficient }) => ` Its doubt errs together with that of ${name} (${coefficient}).`),
    );
  }

  private drawTrace({ block, graph, results }: Stood): void {
    const of = traceOf(block.id, graph);
    const options = {
      title: block.id,
      textOf: (name: string) => valueText(name, results),
      isOwn: (name: string) => graph.isOwn(name),
    };
    this.trace.show({
      key: `${this.drawings}`,
      draw: (width, environment) => trace(of, { ...options, width, id: "trace" }, environment),
      table: () => traceTable(of, options),
    });
  }

  private drawBudget({ block, results }: Stood): void {
    const known = knownQuantity(results.own.get(block.id));
    if (typeof known === "string") {
      this.budget.say(known);
      this.spread.say(known);
      return;
    }
    const { quantity, budget } = known;
    const { unit } = showQuantity(budget, quantity.dimension, block, results.evaluation.setup.unit);
    const title = block.id;
    this.budget.show({
      key: `${this.drawings}`,
      draw: (width, environment) => budgetBars(budget, { title, unit, width, id: "own-budget" }, environment),
      table: () => budgetTable(budget, { title, unit }),
    });
    if (budget.standardUncertainty === 0) {
      this.spread.say("No source of doubt enters: it has one value.");
      return;
    }
    const view = distributionOf(budget);
    this.spread.show({
      key: `${this.drawings}`,
      draw: (width, environment) => distribution(view, { title, unit, width, id: "own-distribution" }, environment),
      table: () => distributionTable(view, { title, unit }),
    });
  }
}

/** Cells with whose doubts the cell's own goes together, and how far. */
function partnersOf(cell: string, related: SheetResults["related"]): { readonly name: string; readonly coefficient: string }[] {
  const source = cellSourceId(cell);
  return related.flatMap(({ one, other, coefficient }) => {
    if (one !== source && other !== source) return [];
    const name = (one === source ? other : one).slice(cellSourceId("").length);
    return [{ name, coefficient: correlationText(coefficient).replace("-", "−") }];
  });
}

function knownQuantity(outcome: Outcome<CellValue> | undefined): { readonly quantity: Quantity; readonly budget: Budget } | string {
  if (outcome === undefined) return "It has no value.";
  if (!outcome.ok) return outcome.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" ") || "Nothing is typed yet.";
  if (outcome.value.kind === "column") return "A column has a value in every row.";
  const budget = soundBudget(outcome.value.value);
  return budget.ok
    ? { quantity: outcome.value, budget: budget.value }
    : budget.problems.map((problem) => describeProblem(problem)).join(" ");
}

function distributionOf(budget: Budget): DistributionView {
  const linear = budgetDistribution(budget);
  return {
    firstOrder: {
      value: budget.value,
      standardUncertainty: budget.standardUncertainty,
      expanded: expandedUncertainty(budget),
      limits: undefined,
      within: undefined,
      curve: densityCurve(linear, ...drawnRange(linear)),
    },
    wholeModel: undefined,
    corrected: [],
    tally: undefined,
  };
}
