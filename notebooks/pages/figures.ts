import { capitalise } from "../../lib/base/capitalise.ts";
import { once } from "../../lib/base/once.ts";
import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { correlationsOfResult } from "../../lib/decision/correlationsOfResult.ts";
import type { NamedResult } from "../../lib/decision/namedResults.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { DisplayUnit } from "../figures/displayUnit.ts";
import { html } from "../inputs/html.ts";
import { FigureSlot } from "./figureSlot.ts";
import type { SheetResults } from "./sheetResults.ts";

/** What a person looks at; it is nobody's reading and part of no document. */
export interface Looking {
  /** The result whose budget is drawn. */
  readonly result: string;
  /** The characteristic whose stack is drawn; empty for the bottleneck of the chosen strategy. */
  readonly characteristic: string;
  /** The touch that a person stands on. */
  readonly touch: string;
  /** The contact of a locator whose error is drawn; empty for the first that bears. */
  readonly contact: string;
}

/** What figures are drawn from: cells of a person's own, on which nothing of the setup rests, leave them as they are. */
const basis = ["evaluation", "chosen", "results", "view"] as const satisfies readonly (keyof SheetResults)[];
type Drawn = Pick<SheetResults, (typeof basis)[number]>;

/** The figures beside the ledger, with the entries that choose what they show. */
export class Figures {
  readonly sketch = new FigureSlot({ title: "The setup, from above" });
  readonly comparison = new FigureSlot({ title: "Strategies side by side" });
  readonly budget: FigureSlot;
  /** Of the result whose budget is drawn. */
  readonly correlation = new FigureSlot({ title: "What errs together with it" });
  readonly stack: FigureSlot;
  /** Where all features come to lie. */
  readonly map = new FigureSlot({ title: "Where the features come to lie" });
  /** Of the characteristic whose stack is drawn. */
  readonly chain = new FigureSlot({ title: "Sizes of the part behind it" });
  readonly fixture: FigureSlot;
  readonly sensitivity = new FigureSlot({ title: "How far each characteristic follows each locator" });
  private readonly resultChoice: HTMLSelectElement;
  private readonly characteristicChoice: HTMLSelectElement;
  private readonly contactChoice: HTMLSelectElement;
  private results: SheetResults | undefined;
  private failure = "";
  /** What was drawn last, and how often there was something else: figures of the same differ only by what a person looks at. */
  private drawn: Drawn | undefined;
  private computations = 0;
  private looking: Looking = { result: "zero X", characteristic: "", touch: "", contact: "" };

  constructor(onLook: (looking: Looking) => void) {
    this.resultChoice = html("select", { "aria-label": "Result whose budget is shown" });
    this.characteristicChoice = html("select", { "aria-label": "Characteristic whose stack is shown" });
    this.contactChoice = html("select", { "aria-label": "Locator whose error is drawn" });
    this.contactChoice.addEventListener("change", () => onLook({ ...this.looking, contact: this.contactChoice.value }));
    this.resultChoice.addEventListener("change", () => onLook({ ...this.looking, result: this.resultChoice.value }));
    this.characteristicChoice.addEventListener("change", () =>
      onLook({ ...this.looking, characteristic: this.characteristicChoice.value }),
    );
    this.budget = new FigureSlot({ title: "Where the doubt comes from in", controls: [this.resultChoice] });
    this.fixture = new FigureSlot({ title: "The part on its locators, moved by", controls: [this.contactChoice] });
    this.stack = new FigureSlot({ title: "How the tolerance is used:", controls: [this.characteristicChoice] });
  }

  look(looking: Looking): void {
    this.looking = looking;
    this.draw();
  }

  /** Undefined while results wait, or with the reason why there are none. */
  show(results: SheetResults | undefined, failure = ""): void {
    this.results = results;
    this.failure = failure;
    this.draw();
  }

  private get all(): readonly FigureSlot[] {
    const { sketch, comparison, budget, correlation, stack, map, chain, fixture, sensitivity } = this;
    return [sketch, comparison, budget, correlation, stack, map, chain, fixture, sensitivity];
  }

  private draw(): void {
    const { results } = this;
    if (results === undefined) {
      for (const slot of this.all) slot.say(this.failure === "" ? "Being worked out." : `Not drawn: ${this.failure}`);
      return;
    }
    if (!basis.every((part) => this.drawn?.[part] === results[part])) this.computations += 1;
    this.drawn = results;
    this.drawSketch(results);
    this.drawComparison(results);
    this.drawBudget(results);
    this.drawStack(results);
    this.drawMap(results);
    this.drawFixture(results);
  }

  private drawSketch({ evaluation, chosen }: Drawn): void {
    const { setup } = evaluation;
    const strategy = chosen.ok ? chosen.value.id : "";
    const highlight = setup.touches.some(({ id }) => id === this.looking.touch) ? { highlight: this.looking.touch } : {};
    this.sketch.show({
      key: JSON.stringify([this.computations, strategy, highlight]),
      draw: (width, environment, { setupSketch }) =>
        setupSketch(evaluation, strategy, { unit: setup.unit, width, id: "sketch", ...highlight }, environment),
      table: ({ setupSketchTable }) => setupSketchTable(evaluation, strategy, { unit: setup.unit }),
    });
  }

  private drawComparison({ evaluation, view }: Drawn): void {
    this.comparison.show({
      key: `${view} ${this.computations}`,
      draw: (width, environment, { strategyComparison }) =>
        strategyComparison(evaluation, { view, unit: evaluation.setup.unit, width, id: "comparison" }, environment),
      table: ({ comparisonTable }) => comparisonTable(evaluation, { view, unit: evaluation.setup.unit }),
      pieces: (paper, environment, { comparisonPieces }) =>
        comparisonPieces(evaluation, { view, unit: evaluation.setup.unit, id: "comparison" }, paper, environment),
    });
  }

  private drawBudget({ results, evaluation, chosen }: Drawn): void {
    offer(
      this.resultChoice,
      results.map(({ id, group }) => ({ value: id, text: resultText(id, group), group: groupNames[group] })),
      this.looking.result,
    );
    const result = results.find(({ id }) => id === this.looking.result);
    if (result === undefined || !result.budget.ok) {
      const reason =
        result?.budget.ok === false ? reasonOf(result.budget.problems) : `There is no result called “${this.looking.result}” now.`;
      this.budget.say(reason);
      this.correlation.say(reason);
      return;
    }
    const budget = result.budget.value;
    const unit: DisplayUnit = result.unit === "rad" ? "degree" : evaluation.setup.unit;
    const isSize = result.group === "sizes";
    const strategy = result.group === "zero" && chosen.ok ? `, ${chosen.value.id}` : "";
    const title = `${resultText(result.id, result.group)}${strategy}`;
    this.budget.show({
      key: JSON.stringify([this.computations, title]),
      draw: (width, environment, { budgetBars }) => budgetBars(budget, { title, unit, isSize, width, id: "budget" }, environment),
      table: ({ budgetTable }) => budgetTable(budget, { title, unit, isSize }),
    });
    if (budget.standardUncertainty === 0) {
      this.correlation.say("It is exact, and errs together with nothing.");
      return;
    }
    // Worked out when the figure is drawn: what is out of sight costs nothing.
    const correlations = once(() => correlationsOfResult(results, result.id));
    this.correlation.show({
      key: JSON.stringify([this.computations, title]),
      draw: (width, environment, { correlationBars }) => correlationBars(correlations(), { title, width, id: "correlation" }, environment),
      table: ({ correlationTable }) => correlationTable(correlations(), { title }),
    });
  }

  private drawFixture({ evaluation }: Drawn): void {
    const located = evaluation.fixture?.located;
    const labels = located?.ok ? located.value.location.contacts.map(({ label }) => label) : [];
    const choices = labels.map((label) => ({ value: label, text: label, group: "" }));
    const first = located?.ok ? located.value.location.layout.bearing[0] : undefined;
    offer(
      this.contactChoice,
      [{ value: "", text: first === undefined ? "nothing" : `the first: ${labels[first]}`, group: "" }, ...choices],
      this.looking.contact,
    );
    if (located?.ok !== true) {
      const why = located === undefined ? "Nothing is stated of the fixture." : reasonOf(located.problems);
      this.fixture.say(why);
      this.sensitivity.say(why);
      return;
    }
    const { contact } = this.looking;
    const { unit } = evaluation.setup;
    this.fixture.show({
      key: JSON.stringify([this.computations, contact]),
      draw: (width, environment, { fixturePlan }) => fixturePlan(evaluation, { unit, width, id: "fixture-plan", contact }, environment),
      table: ({ fixturePlanTable }) => fixturePlanTable(evaluation, { unit }),
    });
    this.sensitivity.show({
      key: String(this.computations),
      draw: (width, environment, { locatorSensitivity }) => locatorSensitivity(evaluation, { unit, width, id: "sensitivity" }, environment),
      table: ({ fixturePlanTable }) => fixturePlanTable(evaluation, { unit }),
      pieces: (paper, environment, { sensitivityPieces }) => sensitivityPieces(evaluation, { unit, id: "sensitivity" }, paper, environment),
    });
  }

  private drawMap({ evaluation, chosen }: Drawn): void {
    if (!chosen.ok) {
      this.map.say(reasonOf(chosen.problems));
      return;
    }
    const { id } = chosen.value;
    const { unit } = evaluation.setup;
    this.map.show({
      key: JSON.stringify([this.computations, id]),
      draw: (width, environment, { partMap }) => partMap(evaluation, id, { unit, width, id: "part-map" }, environment),
      table: ({ partMapTable }) => partMapTable(evaluation, id, { unit }),
    });
  }

  private drawStack({ evaluation, chosen, view }: Drawn): void {
    const { characteristics } = evaluation.setup.part;
    const bottleneck = chosen.ok ? chosen.value[view].bottleneck : undefined;
    const choices = characteristics.map(({ id }) => ({ value: id, text: id, group: "" }));
    offer(
      this.characteristicChoice,
      [{ value: "", text: bottleneck === undefined ? "the bottleneck" : `the bottleneck: ${bottleneck}`, group: "" }, ...choices],
      this.looking.characteristic,
    );
    if (!chosen.ok) {
      const why = reasonOf(chosen.problems);
      this.stack.say(why);
      this.chain.say(why);
      return;
    }
    // Who stands on a pattern looks at its worst member.
    const pattern = chosen.value[view].rows.find(({ row }) => row === this.looking.characteristic);
    const wanted = pattern?.worst ?? (this.looking.characteristic || bottleneck);
    const index = characteristics.findIndex(({ id }) => id === wanted);
    const { stacks } = chosen.value[view];
    // Without a bottleneck none of them is known, and all for one reason.
    const stack = wanted === undefined ? stacks[0] : stacks[index];
    if (stack === undefined || !stack.ok) {
      const nothing =
        characteristics.length === 0
          ? "The drawing demands nothing yet."
          : `There is no characteristic called “${wanted}” that can be read.`;
      const why = stack === undefined ? nothing : reasonOf(stack.problems);
      this.stack.say(why);
      this.chain.say(why);
      return;
    }
    const title = `${wanted}, ${chosen.value.id}, ${viewName(view)}`;
    const { unit } = evaluation.setup;
    this.stack.show({
      key: JSON.stringify([this.computations, title]),
      draw: (width, environment, { toleranceStack }) => toleranceStack(stack.value, { title, unit, width, id: "stack" }, environment),
      table: ({ stackTable }) => stackTable(stack.value, { title, unit }),
    });
    const [strategy, characteristic] = [chosen.value.id, wanted as string];
    this.chain.show({
      key: JSON.stringify([this.computations, title]),
      draw: (width, environment, { dimensionChain }) =>
        dimensionChain(evaluation, strategy, characteristic, { view, unit, width, id: "chain" }, environment),
      table: ({ dimensionChainTable }) => dimensionChainTable(evaluation, strategy, characteristic, { view, unit }),
    });
  }
}

function viewName(view: View): string {
  return view === "thisPart" ? "this part" : "the batch";
}

const groupNames = {
  zero: "part zero",
  faces: "touched faces",
  sizes: "sizes of this part",
  characteristics: "deviations of characteristics",
} as const;

function resultText(id: string, group: NamedResult["group"]): string {
  return group === "characteristics" ? `deviation of ${id}` : id === "rotation" ? "turn of the part" : id;
}

function reasonOf(problems: readonly Problem[]): string {
  return problems.map((problem) => capitalise(describeProblem({ ...problem, at: "" }))).join(" ") || "This is not known.";
}

interface Choice {
  readonly value: string;
  readonly text: string;
  readonly group: string;
}

/** Fills a select; what is chosen and gone stays to be seen. */
function offer(select: HTMLSelectElement, choices: readonly Choice[], chosen: string): void {
  const all = choices.some(({ value }) => value === chosen)
    ? choices
    : [...choices, { value: chosen, text: `${chosen} (gone)`, group: "" }];
  const key = JSON.stringify(all);
  if (select.dataset["offered"] !== key) {
    select.dataset["offered"] = key;
    const groups = [...new Set(all.map(({ group }) => group))];
    select.replaceChildren(
      ...groups.flatMap((group) => {
        const options = all.filter((choice) => choice.group === group).map(({ value, text }) => new Option(text, value));
        return group === "" ? options : [html("optgroup", { label: group }, ...options)];
      }),
    );
  }
  if (select.value !== chosen) select.value = chosen;
}
