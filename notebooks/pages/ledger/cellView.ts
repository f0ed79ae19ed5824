import { describeProblem, type Outcome, type Problem } from "../../../lib/base/outcome.ts";
import type { CellBlock } from "../../../lib/document/ledgerBlocks.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import type { CellValue } from "../../../lib/ledger/cellValue.ts";
import { families } from "../../../lib/uncertainty/source.ts";
import { html, setAttribute, setText } from "../../inputs/html.ts";
import type { SheetResults } from "../sheetResults.ts";
import { changeBlock } from "./blocks.ts";
import { BlockEntry, type BlockHost, type BlockView } from "./blockView.ts";
import { showQuantity } from "./shownQuantity.ts";

type Key = "id" | "entry" | "instead" | "note" | "unit" | "decimals" | "evidence" | "family";

const labels: Readonly<Record<Key, string>> = {
  id: "name",
  entry: "entry",
  instead: "for the moment",
  note: "note",
  unit: "unit",
  decimals: "decimals",
  evidence: "doubt rests on",
  family: "family of its doubt",
};
const evidences = ["stated", "certificate", "published", "shop default"] as const satisfies readonly CellBlock["evidence"][];

/** One quantity of a person's own: its name, what was typed, what that comes to, and a note. */
export class CellView implements BlockView<CellBlock> {
  readonly element: HTMLElement;
  private readonly entries: { readonly [K in Key]: BlockEntry };
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
  private supposes = false;

  constructor(key: string, host: BlockHost) {
    const id = `own-${key}`;
    const write = (entry: Exclude<Key, "id">) => (text: string, session: object) => {
      host.edit((blocks) => changeBlock<CellBlock>(blocks, key, { [entry]: text }), `${labels[entry]} of ${this.block?.id}`, session);
      return undefined;
    };
    const make = (entry: Key, kind: "text" | "choice" | "long", width: number, choices?: readonly string[]) =>
      new BlockEntry(
        {
          kind,
          width,
          label: labels[entry],
          ...(choices && { choices }),
          onEdit: entry === "id" ? (text, session) => host.rename(key, text, session) : write(entry),
        },
        host,
        () => this.left(),
      );
    this.entries = {
      id: make("id", "text", 14),
      entry: make("entry", "long", 26),
      instead: make("instead", "long", 26),
      note: make("note", "long", 20),
      unit: make("unit", "text", 7),
      decimals: make("decimals", "text", 4),
      evidence: make("evidence", "choice", 12, evidences),
      family: make("family", "choice", 12, families),
    };
    const { entries } = this;
    this.insteadBox = html(
      "div",
      { class: "instead", "data-column": "instead" },
      html("span", {}, labels.instead),
      entries.instead.control,
    );
    this.result = html("div", { class: "slot result number", "data-label": "result" }, this.value, this.below);
    const line = html(
      "div",
      { class: "line-of-cell", "data-row": key },
      html("div", { class: "slot name", "data-column": "id" }, entries.id.control),
      html("div", { class: "slot typed" }, html("div", { "data-column": "entry" }, entries.entry.control), this.insteadBox),
      this.result,
      html("div", { class: "slot note-of-cell", "data-column": "note" }, entries.note.control),
    );
    const field = (entry: "unit" | "decimals" | "evidence" | "family") => {
      const { control } = entries[entry];
      control.removeAttribute("aria-label");
      control.id = `${id}-${entry}`;
      return html("div", { class: "field", "data-column": entry }, html("label", { for: control.id }, labels[entry]), control);
    };
    this.moreLine = html(
      "div",
      { class: "line", "data-row": `${key}-more`, hidden: true },
      field("unit"),
      field("decimals"),
      field("evidence"),
      field("family"),
    );
    this.wordsLine = html("p", { class: "words-of-block", id: `${id}-words`, hidden: true });
    this.element = html("div", { class: "block cell", role: "group" }, line, this.moreLine, this.wordsLine);
    this.element.addEventListener("focusin", () => host.stand(key));
  }

  get more() {
    return {
      isOpen: !this.moreLine.hidden,
      toggle: (open: boolean) => {
        this.moreLine.hidden = !open;
      },
    };
  }

  get words(): string {
    const typing = Object.values(this.entries).flatMap(({ refusal }) => (refusal === undefined ? [] : [refusal]));
    return typing.length > 0 ? typing.join(" ") : this.wordsOfProblems();
  }

  show(block: CellBlock): void {
    if (block === this.block) return;
    this.block = block;
    setAttribute(this.element, "aria-label", block.id);
    for (const key of ["id", "entry", "instead", "note"] as const) this.entries[key].cell.setLabel(`${block.id}, ${labels[key]}`);
    for (const key of Object.keys(this.entries) as Key[]) this.entries[key].cell.show(block[key]);
    this.showInstead();
    setAttribute(this.element, "data-hidden", block.hidden ? "" : undefined);
    this.shown = undefined;
  }

  /** Opens the entry that counts for the moment, for a person to type into. */
  suppose(): void {
    this.supposes = true;
    this.showInstead();
    this.entries.instead.control.focus();
  }

  showResults(results: SheetResults | undefined): void {
    const { block } = this;
    if (block === undefined) return;
    const outcome = results?.own.get(block.id);
    const key = results?.evaluation.setup.unit ?? "";
    if (this.shown !== undefined && this.shown.outcome === outcome && this.shown.key === key) return;
    this.shown = { outcome, key };
    this.refusal = undefined;
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
    }
    this.showWords();
  }

  showProblems(problems: readonly Problem[]): void {
    if (problems.length === 0 && this.problems.length === 0) return;
    this.problems = problems;
    this.showWords();
  }

  controlAt(path: string): HTMLElement {
    const wanted = (Object.keys(this.entries) as Key[]).find((key) => path === key) ?? (path === "" ? "id" : "entry");
    if (["unit", "decimals", "evidence", "family"].includes(wanted)) this.more.toggle(true);
    return this.entries[wanted].control;
  }

  private left(): void {
    this.supposes = false;
    this.showInstead();
    this.showWords();
  }

  private showInstead(): void {
    const isOverridden = (this.block?.instead ?? "").trim() !== "";
    this.insteadBox.hidden = !isOverridden && !this.supposes;
    setAttribute(this.element, "data-supposed", isOverridden ? "" : undefined);
  }

  private wordsOfProblems(): string {
    const told = this.problems.map((problem) => describeProblem({ ...problem, at: "" }));
    return [...told, ...(this.refusal === undefined ? [] : [this.refusal])].join(" ");
  }

  /** Words appear beneath a cell when it is left, not while somebody types in it, so that nothing jumps; until then they stand in the note. */
  private showWords(): void {
    const isEdited = Object.values(this.entries).some(({ cell }) => cell.isEdited);
    const words = this.wordsOfProblems();
    if (!isEdited || words === "") {
      setText(this.wordsLine, words);
      this.wordsLine.hidden = words === "";
    }
    setAttribute(this.element, "data-problem", words === "" ? undefined : "");
    for (const key of Object.keys(this.entries) as Key[]) {
      const isWrong = this.problems.some(({ at }) => at === `ledger.${this.block?.id}.${key}`);
      const isWhole = key === this.entryInUse() && this.problems.some(({ at }) => at === `ledger.${this.block?.id}`);
      if (this.entries[key].refusal === undefined) this.entries[key].cell.setProblem(isWrong || isWhole ? this.wordsLine.id : undefined);
    }
  }

  private entryInUse(): Key {
    return (this.block?.instead ?? "").trim() === "" ? "entry" : "instead";
  }
}
