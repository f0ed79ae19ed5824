import { describeProblem, type Outcome, type Problem } from "../../../lib/base/outcome.ts";
import type { CellBlock } from "../../../lib/document/ledgerBlocks.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { CellValue } from "../../../lib/ledger/cellValue.ts";
import type { Uncertain } from "../../../lib/uncertainty/uncertain.ts";
import { writerOf } from "../../figures/displayUnit.ts";
import { describeInText } from "../../inputs/describeInText.ts";
import { describeEntries } from "../../inputs/entryAbout.ts";
import type { FormulaPlace } from "../../inputs/formulaPlace.ts";
import { html, setAttribute, setText } from "../../inputs/html.ts";
import type { SheetResults } from "../sheetResults.ts";
import { changeBlock } from "./blocks.ts";
import { BlockEntry, type BlockHost, type BlockView, type EntryOptions } from "./blockView.ts";
import { furtherEntries } from "./furtherEntries.ts";
import { shortBend } from "./shortBend.ts";
import { type ShownQuantity, showQuantity } from "./shownQuantity.ts";

type Key = "id" | "entry" | "instead" | "note" | "unit" | "decimals" | "evidence" | "family";

const labels: Readonly<Record<Key, string>> = {
  id: "name",
  entry: "entry",
  instead: "for the moment",
  note: "note",
  unit: "unit",
  decimals: furtherEntries.decimals.label,
  evidence: furtherEntries.evidence.label,
  family: furtherEntries.family.label,
};
const hints: Readonly<Record<Key, string>> = {
  id: "By which formulas know it: letters, digits and _, a letter first",
  entry: "A quantity or a formula with units over anything that has a name, and in one place a doubt of its own",
  instead: "What counts in the place of the entry for the moment: no offset is given out meanwhile",
  note: "For whoever reads it; it changes no number",
  unit: "In which the result is shown, and which bare numbers alone are in",
  decimals: "With how many the result is shown",
  evidence: "What the doubt that it states rests on",
  family: "In which the doubt that it states is counted",
};
const furtherKeys = ["unit", "decimals", "evidence", "family"] as const satisfies readonly Key[];
type FurtherKey = (typeof furtherKeys)[number];

const entryKinds: Readonly<Record<Key, Pick<EntryOptions, "kind" | "width" | "choices">>> = {
  id: { kind: "text", width: 14 },
  entry: { kind: "long", width: 26 },
  instead: { kind: "long", width: 26 },
  note: { kind: "long", width: 20 },
  unit: { kind: "text", width: 7 },
  ...furtherEntries,
};

/** One quantity of a person's own: its name, what was typed, what that comes to, and a note. */
export class CellView implements BlockView<CellBlock> {
  readonly element: HTMLElement;
  /** Those that are on the page: what is behind the disclosure, and the entry for the moment, are made when they are first wanted. */
  private readonly entries = new Map<Key, BlockEntry>();
  private readonly key: string;
  private readonly host: BlockHost;
  private readonly insteadBox: HTMLElement;
  private readonly moreLine: HTMLElement;
  private readonly value = html("span", { class: "value" });
  private readonly below = html("small");
  private readonly result: HTMLElement;
  private readonly wordsLine: HTMLElement;
  private block: CellBlock | undefined;
  private problems: readonly Problem[] = [];
  private shown: { readonly outcome: Outcome<CellValue> | undefined; readonly key: string } | undefined;
  private refusal: string | undefined;
  /** To be looked at when the page is idle. */
  private bend: (() => void) | undefined;
  private supposes = false;

  constructor(key: string, host: BlockHost) {
    this.key = key;
    this.host = host;
    this.insteadBox = html("div", { class: "instead", "data-column": "instead", hidden: true }, html("span", {}, labels.instead));
    this.result = html("div", { class: "slot result number", "data-label": "result" }, this.value, this.below);
    const line = html(
      "div",
      { class: "line-of-cell", "data-row": key },
      html("div", { class: "slot name", "data-column": "id" }, this.entry("id").control),
      html("div", { class: "slot typed" }, html("div", { "data-column": "entry" }, this.entry("entry").control), this.insteadBox),
      this.result,
      html("div", { class: "slot note-of-cell", "data-column": "note" }, this.entry("note").control),
    );
    this.moreLine = html("div", { class: "line", "data-row": `${key}-more`, hidden: true });
    this.wordsLine = html("p", { class: "words-of-block", id: `own-${key}-words`, hidden: true });
    this.element = html("div", { class: "block cell", role: "group" }, line, this.moreLine, this.wordsLine);
    this.element.addEventListener("focusin", () => host.stand(key));
    describeEntries(this.element, (control) => {
      const column = [...this.entries].find(([, entry]) => entry.control === control)?.[0];
      // What counts for the moment is typed as the entry is.
      return (
        column && { place: `ledger.cell.${column === "instead" ? "entry.instead" : column}`, label: labels[column], hint: hints[column] }
      );
    });
  }

  get more() {
    return {
      isOpen: !this.moreLine.hidden,
      toggle: (open: boolean) => {
        if (open && this.moreLine.childElementCount === 0) this.moreLine.append(...furtherKeys.map((key) => this.field(key)));
        this.moreLine.hidden = !open;
      },
    };
  }

  get words(): string {
    const typing = [...this.entries.values()].flatMap(({ refusal }) => (refusal === undefined ? [] : [refusal]));
    return typing.length > 0 ? typing.join(" ") : this.wordsOfProblems();
  }

  show(block: CellBlock): void {
    if (block === this.block) return;
    this.block = block;
    setAttribute(this.element, "aria-label", block.id);
    for (const key of this.entries.keys()) this.showEntry(key);
    this.showInstead();
    setAttribute(this.element, "data-hidden", block.hidden ? "" : undefined);
    this.shown = undefined;
  }

  /** Opens the entry that counts for the moment, for a person to type into. */
  suppose(): void {
    this.supposes = true;
    this.showInstead();
    this.entry("instead").control.focus();
  }

  showResults(results: SheetResults | undefined): void {
    const { block } = this;
    if (block === undefined) return;
    const outcome = results?.own.get(block.id);
    const key = results?.evaluation.setup.unit ?? "";
    if (this.shown !== undefined && this.shown.outcome === outcome && this.shown.key === key) return;
    this.shown = { outcome, key };
    this.refusal = undefined;
    this.bend = undefined;
    const value = outcome?.ok && outcome.value.kind === "quantity" ? outcome.value : undefined;
    const budget = value === undefined ? undefined : soundBudget(value.value);
    if (value === undefined || !budget?.ok) {
      setText(this.value, "–");
      setText(this.below, budget?.ok === false ? "no uncertainty" : "\u00a0");
      if (budget?.ok === false) this.refusal = budget.problems.map((problem) => describeProblem(problem)).join(" ");
      setAttribute(this.result, "data-tone", "nothing");
    } else {
      const shown = showQuantity(budget.value, value.dimension, block, results?.evaluation.setup.unit ?? "mm");
      setText(this.value, `${shown.text}${shown.suffix}`);
      setText(this.below, shown.uncertainty === undefined ? "no doubt" : `u ${shown.uncertainty}`);
      setAttribute(this.result, "data-tone", undefined);
      this.refusal = shown.refusal;
      this.bend = shown.uncertainty === undefined ? undefined : () => this.showBend(value.value, shown);
    }
    setAttribute(this.below, "title", undefined);
    this.showWords();
  }

  /** Says so where u to first order is not all there is; undefined where it is, or has been looked at. It takes longer than typing may. */
  takeBend(): (() => void) | undefined {
    const { bend } = this;
    this.bend = undefined;
    return bend;
  }

  private showBend(value: Uncertain, { uncertainty, unit }: ShownQuantity): void {
    const bend = shortBend(value, writerOf(unit));
    if (bend === undefined) return;
    setText(this.below, `u ${uncertainty}; ${bend.text}`);
    setAttribute(this.below, "title", bend.words);
  }

  showProblems(problems: readonly Problem[]): void {
    if (problems.length === 0 && this.problems.length === 0) return;
    this.problems = problems;
    this.showWords();
  }

  controlAt(path: string): HTMLElement {
    const wanted = (Object.keys(labels) as Key[]).find((key) => path === key) ?? (path === "" ? "id" : "entry");
    if ((furtherKeys as readonly Key[]).includes(wanted)) this.more.toggle(true);
    return this.entry(wanted).control;
  }

  private entry(key: Key): BlockEntry {
    const known = this.entries.get(key);
    if (known !== undefined) return known;
    const made = new BlockEntry(
      { ...entryKinds[key], label: labels[key], formula: this.formulaOf(key), onEdit: this.editOf(key) },
      this.host,
      () => this.left(),
    );
    this.entries.set(key, made);
    if (key === "instead") this.insteadBox.append(made.control);
    this.showEntry(key);
    return made;
  }

  private formulaOf(key: Key): FormulaPlace | undefined {
    return key === "entry" || key === "instead" ? { uses: "everything", self: () => this.block?.id ?? "" } : undefined;
  }

  private editOf(entry: Key): EntryOptions["onEdit"] {
    const { host, key } = this;
    if (entry === "id") return (text, session) => host.rename(key, text, session);
    return (text, session) => {
      host.edit((blocks) => changeBlock<CellBlock>(blocks, key, { [entry]: text }), `${labels[entry]} of ${this.block?.id}`, session);
      return undefined;
    };
  }

  /** An entry behind the disclosure, with its name above it. */
  private field(key: FurtherKey): HTMLElement {
    const { control } = this.entry(key);
    control.id = `own-${this.key}-${key}`;
    return html("div", { class: "field", "data-column": key }, html("label", { for: control.id }, labels[key]), control);
  }

  private showEntry(key: Key): void {
    const { block } = this;
    const entry = this.entries.get(key);
    if (block === undefined || entry === undefined) return;
    // Where the visible name is the name there is no other beside it.
    if ((furtherKeys as readonly Key[]).includes(key)) entry.control.removeAttribute("aria-label");
    else entry.cell.setLabel(`${block.id}, ${labels[key]}`);
    entry.cell.show(block[key]);
  }

  private left(): void {
    this.supposes = false;
    this.showInstead();
    this.showWords();
  }

  private showInstead(): void {
    const isOverridden = (this.block?.instead ?? "").trim() !== "";
    const isShown = isOverridden || this.supposes;
    if (isShown) this.entry("instead");
    this.insteadBox.hidden = !isShown;
    setAttribute(this.element, "data-supposed", isOverridden ? "" : undefined);
  }

  private wordsOfProblems(): string {
    const [id, inUse] = [this.block?.id, this.entryInUse()];
    const isOfEntry = ({ at }: Problem) => at === `ledger.${id}` || at === `ledger.${id}.${inUse}`;
    const told = this.problems.map((problem) => describeInText(problem, isOfEntry(problem) ? (this.block?.[inUse] ?? "") : ""));
    return [...told, ...(this.refusal === undefined ? [] : [this.refusal])].join(" ");
  }

  /** Words appear beneath a cell when it is left, not while somebody types in it, so that nothing jumps; until then they stand in the note. */
  private showWords(): void {
    const isEdited = [...this.entries.values()].some(({ cell }) => cell.isEdited);
    const words = this.wordsOfProblems();
    if (!isEdited || words === "") {
      setText(this.wordsLine, words);
      this.wordsLine.hidden = words === "";
    }
    setAttribute(this.element, "data-problem", words === "" ? undefined : "");
    for (const [key, entry] of this.entries) {
      const isWrong = this.problems.some(({ at }) => at === `ledger.${this.block?.id}.${key}`);
      const isWhole = key === this.entryInUse() && this.problems.some(({ at }) => at === `ledger.${this.block?.id}`);
      if (entry.refusal === undefined) entry.cell.setProblem(isWrong || isWhole ? this.wordsLine.id : undefined);
    }
  }

  private entryInUse(): Key {
    return (this.block?.instead ?? "").trim() === "" ? "entry" : "instead";
  }
}
