import { once } from "../../../lib/base/once.ts";
import { describeProblem, type Outcome } from "../../../lib/base/outcome.ts";
import { formulaWithNumbers } from "../../../lib/formula/formatStatement.ts";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { Quantity } from "../../../lib/ledger/cellValue.ts";
import { expandedUncertainty } from "../../../lib/record/expandedUncertainty.ts";
import { beyondFirstOrderOfOwn } from "../../../lib/record/ownBends.ts";
import { ownRelativeUncertainty } from "../../../lib/record/ownRelativeUncertainty.ts";
import { budgetDistribution } from "../../../lib/tolerance/budgetDistribution.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import type { Uncertain } from "../../../lib/uncertainty/uncertain.ts";
import type { DistributionView } from "../../figures/distributionView.ts";
import { densityCurve } from "../../figures/stack/densityCurve.ts";
import { html, setText } from "../../inputs/html.ts";
import { drawnRange } from "../../worker/drawnRange.ts";
import { FigureSlot } from "../figureSlot.ts";
import { showQuantity } from "./shownQuantity.ts";
import type { Stood } from "./stood.ts";

interface MadeOfActs {
  /** A person wants to go to what is called so. */
  go(name: string): void;
  /** A person wants to look at another entry of the row that they stand on. */
  look(column: number): void;
}

/** Beside the cell or the entry that one stands on: its formula with numbers put in, what it is made from and what depends on it, its budget, its distribution. */
export class MadeOf {
  readonly element: HTMLElement;
  private readonly name = html("span", { class: "name" });
  private readonly typed = html("p", { class: "formula" });
  private readonly numbers = html("p", { class: "formula" });
  private readonly links = html("p", { class: "links" });
  private readonly trace = new FigureSlot({ title: "Its trace" });
  private readonly budget = new FigureSlot({ title: "Where its doubt comes from" });
  private readonly spread = new FigureSlot({ title: "Its distribution" });
  private readonly beside = html("p", { class: "links" });
  private readonly acts: MadeOfActs;
  private linksShown = "";
  private stood: Stood | undefined;
  private drawings = 0;

  constructor(acts: MadeOfActs) {
    this.acts = acts;
    this.element = html(
      "section",
      { class: "made-of", "aria-label": "What this is made of" },
      html("h3", {}, "What this is made of: ", this.name),
      this.typed,
      this.numbers,
      this.links,
      this.beside,
      this.trace.element,
      this.budget.element,
      this.spread.element,
    );
    this.element.hidden = true;
  }

  /** Undefined while nobody stands on anything that has a value; results that wait or failed show nothing old. */
  show(stood: Stood | undefined): void {
    if (stood !== undefined && isSame(stood, this.stood)) return;
    this.stood = stood;
    this.element.hidden = stood === undefined;
    if (stood === undefined) return;
    this.drawings += 1;
    const { name, title, text, graph } = stood;
    setText(this.name, title);
    setText(this.typed, text.trim() === "" ? "Nothing is typed yet." : `= ${text}`);
    const withNumbers = this.withNumbers(stood);
    setText(this.numbers, withNumbers === undefined ? "" : `= ${withNumbers}`);
    this.numbers.hidden = withNumbers === undefined;
    this.showLinks(graph.needsOf(name), graph.usersOf(name), stood);
    this.showBeside(stood);
    this.drawTrace(stood);
    this.drawBudget(stood);
  }

  private withNumbers({ text, numberOf }: Stood): string | undefined {
    const statement = parseStatement(text);
    if (!statement.ok) return undefined;
    let hasNumbers = false;
    const numbers = formulaWithNumbers(statement.value, (name) => {
      const value = numberOf(name);
      hasNumbers ||= value !== undefined;
      return value ?? name;
    });
    return hasNumbers ? numbers : undefined;
  }

  private showLinks(needs: readonly string[], users: readonly string[], { isOwn, describes, partners }: Stood): void {
    const key = JSON.stringify([needs, users, partners]);
    if (key === this.linksShown) return;
    this.linksShown = key;
    const link = (name: string) => {
      const described = describes(name);
      const canGo = isOwn(name) || described !== undefined || name.includes(".");
      if (!canGo) return html("span", {}, name);
      const button = html("button", { type: "button", class: "act", title: described }, name);
      button.addEventListener("click", () => this.acts.go(name));
      return button;
    };
    const listed = (names: readonly string[]) => names.flatMap((name, i) => (i === 0 ? [link(name)] : [", ", link(name)]));
    this.links.replaceChildren(
      ...(needs.length === 0 ? ["Made from nothing else that has a name. "] : ["Made from ", ...listed(needs), ". "]),
      ...(users.length === 0 ? ["Nothing depends on it."] : ["On it depend ", ...listed(users), "."]),
      ...partners.map(({ name, coefficient }) => ` Its doubt errs together with that of ${name} (${coefficient}).`),
    );
  }

  private showBeside({ beside }: Stood): void {
    this.beside.hidden = beside.length === 0;
    const links = beside.map(({ label, column }) => {
      const button = html("button", { type: "button", class: "act" }, label);
      button.addEventListener("click", () => {
        this.acts.look(column);
        this.beside.querySelector("button")?.focus();
      });
      return button;
    });
    this.beside.replaceChildren("In the same row: ", ...links.flatMap((link, i) => (i === 0 ? [link] : [", ", link])), ".");
  }

  private drawTrace({ name, title, graph, textOf, isOwn }: Stood): void {
    const options = { title, textOf, isOwn };
    this.trace.show({
      key: `${this.drawings}`,
      draw: (width, environment, { trace, traceOf }) => trace(traceOf(name, graph), { ...options, width, id: "trace" }, environment),
      table: ({ traceOf, traceTable }) => traceTable(traceOf(name, graph), options),
    });
  }

  private drawBudget({ title, value, wish, unit: shownUnit, seed }: Stood): void {
    const known = knownQuantity(value);
    if (typeof known === "string") {
      this.budget.say(known);
      this.spread.say(known);
      return;
    }
    const { quantity, budget } = known;
    const { unit } = showQuantity(budget, quantity.dimension, wish, shownUnit);
    const isSize = ownRelativeUncertainty(budget, quantity.dimension) !== undefined;
    this.budget.show({
      key: `${this.drawings}`,
      draw: (width, environment, { budgetBars }) => budgetBars(budget, { title, unit, isSize, width, id: "own-budget" }, environment),
      table: ({ budgetTable }) => budgetTable(budget, { title, unit, isSize }),
    });
    if (budget.standardUncertainty === 0) {
      this.spread.say("No source of doubt enters: it has one value.");
      return;
    }
    const view = once(() => distributionOf(quantity.value, budget, seed));
    this.spread.show({
      key: `${this.drawings}`,
      draw: (width, environment, { distribution }) => distribution(view(), { title, unit, width, id: "own-distribution" }, environment),
      table: ({ distributionTable }) => distributionTable(view(), { title, unit }),
    });
  }
}

function isSame(stood: Stood, before: Stood | undefined): boolean {
  return stood.from.length === before?.from.length && stood.from.every((each, i) => each === before.from[i]);
}

function knownQuantity(outcome: Outcome<Quantity> | undefined): { readonly quantity: Quantity; readonly budget: Budget } | string {
  if (outcome === undefined) return "It has no value.";
  if (!outcome.ok) return outcome.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" ") || "Nothing is typed yet.";
  const budget = soundBudget(outcome.value.value);
  return budget.ok
    ? { quantity: outcome.value, budget: budget.value }
    : budget.problems.map((problem) => describeProblem(problem)).join(" ");
}

/** With the bend of the formula taken in, where it bends. */
function distributionOf(value: Uncertain, budget: Budget, seed: number): DistributionView {
  const linear = budgetDistribution(budget);
  const beyond = beyondFirstOrderOfOwn([value], seed).get(value);
  const curve = beyond === undefined || beyond.isTooCurved ? [] : densityCurve(beyond.distribution, ...drawnRange(linear));
  return {
    firstOrder: {
      value: budget.value,
      standardUncertainty: budget.standardUncertainty,
      expanded: expandedUncertainty(budget),
      limits: undefined,
      within: undefined,
      curve: densityCurve(linear, ...drawnRange(linear)),
    },
    wholeModel: beyond && { ...beyond, curve },
    corrected: curve,
    tally: undefined,
  };
}
