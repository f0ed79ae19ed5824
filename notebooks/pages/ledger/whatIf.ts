import type { Outcome } from "../../../lib/base/outcome.ts";
import { axes } from "../../../lib/base/vector.ts";
import type { StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { strategyNamed } from "../../../lib/decision/strategyNamed.ts";
import type { WhatIfEntry } from "../../../lib/document/ledgerBlocks.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { type DocumentEvaluation, evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { lengthDimension } from "../../../lib/formula/dimension.ts";
import { resultUnit } from "../../../lib/formula/resultUnit.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { CellValue, Quantity } from "../../../lib/ledger/cellValue.ts";
import type { View } from "../../../lib/tolerance/deviations.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { Draws } from "../../../lib/uncertainty/draws.ts";
import { explainDifference } from "../../../lib/uncertainty/explainDifference.ts";
import type { Source } from "../../../lib/uncertainty/source.ts";
import type { Uncertain } from "../../../lib/uncertainty/uncertain.ts";
import { type UnitWriter, writerOf } from "../../figures/displayUnit.ts";
import { formatMet } from "../../figures/formatChance.ts";
import { html, setAttribute, setChildren, setText } from "../../inputs/html.ts";
import { InSight } from "../../inputs/inSight.ts";
import { PlainTable } from "../../inputs/plainTable.ts";
import type { SheetResults } from "../sheetResults.ts";
import { displayUnitOf, showQuantity } from "./shownQuantity.ts";
import { asStated, suppositionsInWords } from "./suppositions.ts";

export interface WhatIfEdits {
  edit(change: (before: SetupDocument) => SetupDocument, what: string, session?: object): void;
}

type Slide = "shift" | "doubt";

const slides = {
  shift: { from: -3, to: 3, usual: "0", label: "shifted by, in standard uncertainties" },
  doubt: { from: 0, to: 3, usual: "1", label: "times as doubtful" },
} as const;

/** Supposed sources, each with its sliders, and beside them what that does to part zero, the chances, and cells of a person's own. */
export class WhatIf {
  readonly element: HTMLElement;
  private readonly edits: WhatIfEdits;
  private readonly choice = html("select", { "aria-label": "Source to suppose otherwise" });
  private readonly add = html("button", { type: "button", class: "act" }, "lay a slider over it");
  private readonly list = html("div", { class: "supposed" });
  private readonly lines = new Map<string, SupposedLine>();
  private readonly comparison = new PlainTable({
    caption: "Results as stated and as supposed",
    columns: [
      { label: "result" },
      { label: "as stated", number: true },
      { label: "as supposed", number: true },
      { label: "difference", number: true },
    ],
  });
  private readonly reasons = html("ul", { class: "reasons" });
  private readonly chooser: HTMLElement;
  private readonly compared: HTMLElement;
  private readonly inSight: InSight;
  private readonly choiceInSight: InSight;
  private stated: { readonly document: SetupDocument; readonly evaluation: Stated } | undefined;
  private draws: Draws | undefined;
  private offered = "";

  constructor(edits: WhatIfEdits) {
    this.edits = edits;
    this.add.addEventListener("click", () => this.suppose(this.choice.value));
    this.compared = html("div", { class: "compared" }, this.comparison.element, this.reasons);
    this.compared.hidden = true;
    const choice = html("label", {}, "a source lay elsewhere, or were better or worse known: ", this.choice);
    this.chooser = html("p", { class: "what-if-choice" }, choice, this.add);
    this.chooser.hidden = true;
    this.element = html("div", { class: "what-if" }, html("h3", {}, "What if"), this.chooser, this.list, this.compared);
    this.inSight = new InSight(this.compared);
    this.choiceInSight = new InSight(this.element);
  }

  /** @param results undefined while they wait or have failed */
  show(results: SheetResults | undefined, document: SetupDocument, stood: string | undefined): void {
    this.showLines(document.whatIf);
    if (results !== undefined) this.choiceInSight.run(() => this.offer(results, document, stood));
    const isSupposed = suppositionsInWords(document).length > 0;
    this.compared.hidden = !isSupposed;
    setAttribute(this.element, "data-supposed", isSupposed ? "" : undefined);
    // What is shown while nothing is supposed is what is stated: the first move of a slider has not to work it out.
    if (!isSupposed && results !== undefined)
      this.stated = { document, evaluation: { strategies: results.evaluation.strategies, own: results.own } };
    if (!isSupposed || results === undefined) {
      this.inSight.now(() => {
        this.comparison.show([]);
        setChildren(this.reasons, []);
      });
      return;
    }
    const compare = () => this.compare(results, document);
    if (this.isStated(document)) this.inSight.run(compare);
    else this.inSight.runLong(compare, this.found(results, document));
  }

  private showLines(entries: readonly WhatIfEntry[]): void {
    const elements = entries.map((entry) => {
      const line =
        this.lines.get(entry.source) ??
        new SupposedLine(entry.source, {
          slide: (slide, value, session) => this.slide(entry.source, slide, value, session),
          takeBack: () => this.takeBack(entry.source),
        });
      this.lines.set(entry.source, line);
      line.show(entry);
      return line.element;
    });
    const sources = new Set(entries.map(({ source }) => source));
    for (const source of this.lines.keys()) if (!sources.has(source)) this.lines.delete(source);
    setChildren(this.list, elements);
  }

  /** Sources of the cell that one stands on come first, then those of part zero, those of cells and of rows of tables, then all others. */
  private offer({ chosen, own, evaluation }: SheetResults, { whatIf }: SetupDocument, stood: string | undefined): void {
    const groups = new Map<string, Map<string, string>>();
    const seen = new Set(whatIf.map(({ source }) => source));
    const put = (group: string, of: readonly { readonly source: Source }[]) => {
      for (const { source } of of) {
        if (seen.has(source.id)) continue;
        seen.add(source.id);
        groups.set(group, (groups.get(group) ?? new Map()).set(source.id, source.label));
      }
    };
    const ofCell = (group: string, outcome: Outcome<CellValue> | undefined) => {
      const budget = outcome?.ok && outcome.value.kind === "quantity" ? soundBudget(outcome.value.value) : undefined;
      if (budget?.ok) put(group, budget.value.contributions);
    };
    if (stood !== undefined) ofCell(`in ${stood}`, own.get(stood));
    if (chosen.ok) {
      const { zero, thisPart, batch } = chosen.value;
      for (const coordinate of zero) if (coordinate.ok) put("in part zero", coordinate.value.contributions);
      for (const { stacks } of [thisPart, batch]) for (const stack of stacks) if (stack.ok) put("in characteristics", stack.value.effects);
    }
    if (own.size <= mostCells) for (const outcome of own.values()) ofCell("in other cells", outcome);
    for (const outcome of own.values()) {
      const rows = outcome.ok && outcome.value.kind === "column" ? outcome.value.rows : [];
      put(
        "in rows of tables",
        rows.slice(0, mostCells).flatMap((row) => (row?.ok ? sourceItself(row.value) : [])),
      );
    }
    put("elsewhere in the setup", [...evaluation.location.nameable.values()].flatMap(sourceItself));
    const key = JSON.stringify([...groups].map(([group, sources]) => [group, ...sources]));
    if (key === this.offered) return;
    this.offered = key;
    const before = this.choice.value;
    this.choice.replaceChildren(
      ...[...groups].map(([group, sources]) =>
        html("optgroup", { label: group }, ...[...sources].map(([id, label]) => new Option(label, id))),
      ),
    );
    if ([...groups.values()].some((sources) => sources.has(before))) this.choice.value = before;
    this.chooser.hidden = groups.size === 0;
  }

  private suppose(source: string): void {
    if (source === "") return;
    this.edits.edit((before) => ({ ...before, whatIf: [...before.whatIf, { source, shift: "", doubt: "" }] }), `slider over ${source}`);
    this.lines.get(source)?.focus();
  }

  private slide(source: string, slide: Slide, value: string, session: object): void {
    const entered = value === slides[slide].usual ? "" : value;
    this.edits.edit(
      (before) => ({ ...before, whatIf: before.whatIf.map((entry) => (entry.source === source ? { ...entry, [slide]: entered } : entry)) }),
      `supposition about ${source}`,
      session,
    );
  }

  private takeBack(source: string): void {
    this.edits.edit(
      (before) => ({ ...before, whatIf: before.whatIf.filter((entry) => entry.source !== source) }),
      `taking back what was supposed of ${source}`,
    );
    this.choice.focus();
  }

  private compare({ evaluation, chosen, own }: SheetResults, document: SetupDocument): void {
    const before = this.evaluationAsStated(document);
    const was = strategyNamed(before.strategies, document.chosen);
    const { unit } = evaluation.setup;
    const pairs = [...zeroPairs(was, chosen), ...cellPairs(before.own, own)];
    this.comparison.show([
      ...pairs.map(({ name, before: first, after }) => differenceRow(name, first, after, unit)),
      ...chanceRows(was, chosen),
    ]);
    const sentences = pairs.flatMap(({ name, before: first, after }) => reasonOf(name, first, after, unit));
    setChildren(
      this.reasons,
      sentences.map((sentence) => html("li", {}, sentence)),
    );
  }

  /** What a comparison takes, piece by piece. */
  private *found({ chosen, own }: SheetResults, document: SetupDocument): Generator<unknown> {
    const before = this.evaluationAsStated(document);
    yield;
    const was = strategyNamed(before.strategies, document.chosen);
    for (const view of views)
      for (const evaluation of [was, chosen]) {
        if (!evaluation.ok) continue;
        const judgement = evaluation.value[view];
        for (const stack of judgement.stacks) yield stack.ok && stack.value.chance;
        yield judgement.chanceOfAll;
      }
    yield* cellsCompared(before.own, own);
  }

  /** While a slider moves, what is stated stays: it is worked out once, and only where it has not been shown. */
  private evaluationAsStated(document: SetupDocument): Stated {
    if (this.stated !== undefined && this.isStated(document)) return this.stated.evaluation;
    const stated = asStated(document);
    const { seed, trials } = stated.sampling;
    if (this.draws?.seed !== seed || this.draws.trials !== trials) this.draws = new Draws(seed, trials);
    const evaluation = evaluateSetup(stated, this.draws);
    this.stated = { document: stated, evaluation };
    return evaluation;
  }

  private isStated(document: SetupDocument): boolean {
    return this.stated !== undefined && sameButSupposed(this.stated.document, asStated(document));
  }
}

const views = ["thisPart", "batch"] as const satisfies readonly View[];

type Stated = Pick<DocumentEvaluation, "strategies" | "own">;

/** Cells whose sources are offered, and cells that are compared: beyond that a list is of no use. */
const mostCells = 200;
const mostCompared = 12;

function sameButSupposed(a: SetupDocument, b: SetupDocument): boolean {
  const sameLedger = a.ledger.length === b.ledger.length && a.ledger.every((block, i) => sameBlock(block, b.ledger[i] as typeof block));
  const rest = (Object.keys(a) as (keyof SetupDocument)[]).filter((key) => key !== "ledger" && key !== "whatIf");
  return sameLedger && rest.every((key) => a[key] === b[key]);
}

/** Cells that were overridden are other objects each time. */
function sameBlock<B extends SetupDocument["ledger"][number]>(a: B, b: B): boolean {
  return a === b || (a.kind === "cell" && JSON.stringify(a) === JSON.stringify(b));
}

interface Known extends Pick<Quantity, "dimension"> {
  readonly budget: Budget;
}

interface Pair {
  readonly name: string;
  readonly before: Known | undefined;
  readonly after: Known | undefined;
}

function zeroPairs(before: Outcome<StrategyEvaluation>, after: Outcome<StrategyEvaluation>): Pair[] {
  const known = (evaluation: Outcome<StrategyEvaluation>, i: number): Known | undefined => {
    const zero = evaluation.ok ? evaluation.value.zero[i] : undefined;
    return zero?.ok ? { budget: zero.value, dimension: lengthDimension } : undefined;
  };
  return axes.map((axis, i) => ({ name: `zero ${axis}`, before: known(before, i), after: known(after, i) }));
}

/** The source that a value is; none where it is worked out of others. */
function sourceItself({ operation }: Uncertain): { readonly source: Source }[] {
  return operation.kind === "source" ? [{ source: operation.source }] : [];
}

/** Cells that come out differently. */
function cellPairs(before: DocumentEvaluation["own"], after: SheetResults["own"]): Pair[] {
  return [...cellsCompared(before, after)].filter((pair) => pair !== undefined);
}

/** One by one; undefined for a cell that comes out as it did. */
function* cellsCompared(before: DocumentEvaluation["own"], after: SheetResults["own"]): Generator<Pair | undefined> {
  let left = mostCompared;
  for (const [name, outcome] of after) {
    const pair = { name, before: knownOf(before.get(name)), after: knownOf(outcome) };
    const [a, b] = [pair.before?.budget, pair.after?.budget];
    const isOther = a?.value !== b?.value || a?.standardUncertainty !== b?.standardUncertainty;
    yield isOther ? pair : undefined;
    if (isOther) left -= 1;
    if (left === 0) return;
  }
}

function knownOf(outcome: Outcome<CellValue> | undefined): Known | undefined {
  if (!outcome?.ok || outcome.value.kind !== "quantity") return undefined;
  const earlier = knownBefore.get(outcome);
  if (earlier !== undefined) return earlier;
  const budget = soundBudget(outcome.value.value);
  if (!budget.ok) return undefined;
  const known = { budget: budget.value, dimension: outcome.value.dimension };
  knownBefore.set(outcome, known);
  return known;
}

/** What is stated stays while a slider moves, and so do cells that rest on nothing supposed: their budgets are made once. */
const knownBefore = new WeakMap<object, Known>();

function differenceRow(name: string, before: Known | undefined, after: Known | undefined, unit: "mm" | "inch"): string[] {
  const shown = (known: Known | undefined) => {
    if (known === undefined) return "–";
    const { text, suffix, uncertainty } = showQuantity(known.budget, known.dimension, { unit: "", decimals: "" }, unit);
    return uncertainty === undefined ? `${text}${suffix}` : `${text} u ${uncertainty}${suffix}`;
  };
  return [name, shown(before), shown(after), differenceText(before, after, unit)];
}

function differenceText(before: Known | undefined, after: Known | undefined, unit: "mm" | "inch"): string {
  if (before === undefined || after === undefined) return "–";
  const writer = writerOf(displayUnitOf(resultUnit(after.dimension, unit)));
  return `${amount(after.budget.value - before.budget.value, after.budget, writer)}${writer.suffix}`;
}

/** A part of a difference, to one digit more than the doubt is told with. */
function amount(value: number, { standardUncertainty }: Budget, writer: UnitWriter): string {
  if (standardUncertainty === 0) return writer.statedSigned(value);
  return writer.signed(value, Math.min(15, Math.max(0, writer.withUncertainty(0, standardUncertainty).decimals) + 1));
}

function chanceRows(before: Outcome<StrategyEvaluation>, after: Outcome<StrategyEvaluation>): string[][] {
  return views.map((view) => {
    const [was, is] = [before, after].map((evaluation) => {
      const chance = evaluation.ok ? evaluation.value[view].chanceOfAll : undefined;
      return chance?.ok ? chance.value.chance : undefined;
    });
    const difference = was === undefined || is === undefined ? "–" : `${writerOf({ symbol: "%", factor: 100 }).signed(is - was, 2)} %`;
    const shown = (chance: number | undefined) => (chance === undefined ? "–" : formatMet(chance));
    return [view === "thisPart" ? "all met, this part" : "all met, the batch", shown(was), shown(is), difference];
  });
}

/** Why a result came out differently, source by source; nothing where it did not. */
function reasonOf(name: string, before: Known | undefined, after: Known | undefined, unit: "mm" | "inch"): string[] {
  if (before === undefined || after === undefined) return [];
  const { difference, moved, remainder, varianceDifference, variances } = explainDifference(before.budget, after.budget);
  const writer = writerOf(displayUnitOf(resultUnit(after.dimension, unit)));
  const part = (value: number) => `${amount(value, after.budget, writer)}${writer.suffix}`;
  const isVisible = (value: number) => /[1-9]/.test(amount(value, after.budget, writer));
  const sentences: string[] = [];
  if (isVisible(difference)) {
    const causes = [
      ...moved.filter(({ effect }) => isVisible(effect)).map(({ source, effect }) => `${part(effect)} because “${source.label}” moved`),
      ...(isVisible(remainder) ? [`${part(remainder)} by entries that count for the moment, and the bend of the model`] : []),
    ];
    sentences.push(`${name} moves by ${part(difference)}: ${causes.join(", ")}.`);
  }
  const [largest] = variances;
  const [u1, u2] = [before.budget, after.budget].map(
    ({ standardUncertainty }) => writer.withUncertainty(0, standardUncertainty).uncertainty,
  );
  if (largest !== undefined && varianceDifference !== 0 && u1 !== u2)
    sentences.push(
      `The standard uncertainty of ${name} goes from ${u1} to ${u2}${writer.suffix}, most of all by “${largest.source.label}”.`,
    );
  return sentences;
}

interface SupposedActs {
  slide(slide: Slide, value: string, session: object): void;
  takeBack(): void;
}

/** One supposed source: how far it is shifted, and how doubtful it is. */
class SupposedLine {
  readonly element: HTMLElement;
  private readonly ranges: { readonly [S in Slide]: HTMLInputElement };
  private readonly told: { readonly [S in Slide]: HTMLElement };

  constructor(source: string, acts: SupposedActs) {
    const make = (slide: Slide) => {
      const { from, to, label, usual } = slides[slide];
      const range = html("input", { type: "range", min: from, max: to, step: 0.1, value: usual, "aria-label": `${source}, ${label}` });
      // All that is slid between taking hold and letting go, or while the keys stay with it, is one step of the history.
      let session = {};
      range.addEventListener("input", () => acts.slide(slide, range.value, session));
      for (const begins of ["pointerdown", "blur"])
        range.addEventListener(begins, () => {
          session = {};
        });
      return range;
    };
    this.ranges = { shift: make("shift"), doubt: make("doubt") };
    this.told = { shift: html("output"), doubt: html("output") };
    const takeBack = html("button", { type: "button", class: "act", "aria-label": `take back: ${source}` }, "take back");
    takeBack.addEventListener("click", () => acts.takeBack());
    this.element = html(
      "div",
      { class: "supposed-source", role: "group", "aria-label": source },
      html("span", { class: "name" }, source),
      html("span", { class: "slide" }, this.ranges.shift, this.told.shift),
      html("span", { class: "slide" }, this.ranges.doubt, this.told.doubt),
      takeBack,
    );
  }

  show({ shift, doubt }: WhatIfEntry): void {
    const texts = { shift: shift.trim() === "" ? slides.shift.usual : shift, doubt: doubt.trim() === "" ? slides.doubt.usual : doubt };
    for (const slide of ["shift", "doubt"] as const) if (this.ranges[slide].value !== texts[slide]) this.ranges[slide].value = texts[slide];
    setText(this.told.shift, `${texts.shift.startsWith("-") ? texts.shift.replace("-", "−") : `+${texts.shift}`} u`);
    setText(this.told.doubt, `u × ${texts.doubt}`);
    setAttribute(this.ranges.shift, "aria-valuetext", `${texts.shift} standard uncertainties`);
    setAttribute(this.ranges.doubt, "aria-valuetext", `${texts.doubt} times`);
  }

  focus(): void {
    this.ranges.shift.focus();
  }
}
