import { describeProblem, type Problem } from "../../../lib/base/outcome.ts";
import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import { soundBudget } from "../../../lib/formula/soundBudget.ts";
import { nameOf } from "../../../lib/ledger/cellNames.ts";
import type { Column, ShownResult } from "../../inputs/column.ts";
import { DocumentTable } from "../../inputs/documentTable.ts";
import { focusedNear } from "../../inputs/focusedNear.ts";
import type { FormulaPlace } from "../../inputs/formulaPlace.ts";
import { html, setAttribute, setChildren, setText } from "../../inputs/html.ts";
import { keepKey } from "../../inputs/rows.ts";
import { shortList, withoutItInWords } from "../../inputs/withoutItInWords.ts";
import type { SheetResults } from "../sheetResults.ts";
import { changeBlock, freeColumnName, indexOfBlock } from "./blocks.ts";
import { BlockEntry, type BlockHost, type BlockView } from "./blockView.ts";
import { furtherEntries } from "./furtherEntries.ts";
import { showQuantity } from "./shownQuantity.ts";
import { namesOf, type TableEntry } from "./stood.ts";

type Row = string[];
type ColumnEntry = TableBlock["columns"][number];

/** A table whose columns a person has chosen; formulas name each of them as a list of quantities. */
export class FreeTableView implements BlockView<TableBlock> {
  readonly element: HTMLElement;
  private readonly key: string;
  private readonly host: BlockHost;
  private readonly name: BlockEntry;
  private readonly note: BlockEntry;
  private readonly strip = html("div", { class: "columns-of-table", hidden: true });
  private readonly lines: ColumnLine[] = [];
  private readonly addColumn: HTMLButtonElement;
  private readonly rowsBox = html("div");
  private readonly wordsLine: HTMLElement;
  private table: DocumentTable<Row, SheetResults> | undefined;
  private columnsShown = "";
  private block: TableBlock | undefined;
  private readonly places = new WeakMap<Row, number>();
  private results: SheetResults | undefined;
  private problems: readonly Problem[] = [];

  constructor(key: string, host: BlockHost) {
    this.key = key;
    this.host = host;
    this.name = new BlockEntry(
      { kind: "text", label: "name", width: 14, onEdit: (text, session) => host.rename(key, text, session) },
      host,
      () => this.showWords(),
    );
    this.note = new BlockEntry(
      {
        kind: "long",
        label: "note",
        width: 40,
        onEdit: (text, session) => {
          host.edit((blocks) => changeBlock<TableBlock>(blocks, key, { note: text }), `note of ${this.block?.id}`, session);
          return undefined;
        },
      },
      host,
    );
    this.addColumn = html("button", { type: "button", class: "act" }, "add a column");
    this.addColumn.addEventListener("click", () => this.insertColumn());
    this.wordsLine = html("p", { class: "words-of-block", id: `own-${key}-words`, hidden: true });
    this.element = html(
      "div",
      { class: "block table", role: "group" },
      html(
        "div",
        { class: "line-of-table", "data-row": key },
        html("div", { class: "slot name", "data-column": "id" }, this.name.control),
        html("div", { class: "slot note-of-cell", "data-column": "note" }, this.note.control),
      ),
      this.strip,
      this.rowsBox,
      this.wordsLine,
    );
    this.element.addEventListener("focusin", ({ target }) => host.stand(key, this.entryOf(target as Element)));
    // A result takes no focus; a click on it asks what it is made of.
    this.element.addEventListener("click", ({ target }) => {
      const entry = this.entryOf(target as Element);
      if (entry !== undefined) host.stand(key, entry);
    });
    this.strip.addEventListener("keydown", (event) => this.pressedInStrip(event));
  }

  get more() {
    return {
      isOpen: !this.strip.hidden,
      toggle: (open: boolean) => {
        this.strip.hidden = !open;
      },
    };
  }

  get words(): string {
    const typing = [this.name, ...this.lines.map(({ name }) => name)].flatMap(({ refusal }) => (refusal === undefined ? [] : [refusal]));
    return typing.length > 0 ? typing.join(" ") : this.wordsOfProblems();
  }

  show(block: TableBlock): void {
    if (block === this.block) return;
    const before = this.block;
    this.block = block;
    for (const [i, row] of block.rows.entries()) if (row !== before?.rows[i]) this.places.set(row, i);
    setAttribute(this.element, "aria-label", block.id);
    setAttribute(this.element, "data-hidden", block.hidden ? "" : undefined);
    this.name.cell.setLabel(`${block.id}, name`);
    this.name.cell.show(block.id);
    this.note.cell.setLabel(`${block.id}, note`);
    this.note.cell.show(block.note);
    if (block.columns !== before?.columns || block.id !== before.id) this.showColumns(block);
    this.table?.showRows(block.rows, { unit: "mm", names: {} });
  }

  showResults(results: SheetResults | undefined): void {
    this.results = results;
    this.table?.showResults(results);
  }

  showProblems(problems: readonly Problem[]): void {
    if (problems.length === 0 && this.problems.length === 0) return;
    this.problems = problems;
    this.table?.showProblems(problems.map((problem) => ({ ...problem, at: this.inTable(problem.at) })));
    this.showWords();
  }

  controlAt(path: string): HTMLElement | undefined {
    if (path === "id" || path === "") return this.name.control;
    const at = this.inTable(`ledger.${this.block?.id}.${path}`);
    if (this.table?.focus(at)) return focusedNear(this.element) ?? undefined;
    this.more.toggle(true);
    return this.lines.find(({ id }) => path === id || path.startsWith(`${id}.`))?.name.control ?? this.name.control;
  }

  private entryOf(target: Element): TableEntry | undefined {
    const row = target.closest<HTMLElement>("tr[data-row]")?.dataset["row"];
    const column = /^c(\d+)$/.exec(target.closest<HTMLElement>("[data-column]")?.dataset["column"] ?? "")?.[1];
    return row === undefined || column === undefined ? undefined : { row, column: Number(column) };
  }

  /** Rows of the page are told before their columns, problems the other way round: `ledger.bolts.length.3` is `ledger.bolts.3.c0`. */
  private inTable(at: string): string {
    const { id, columns } = this.block as TableBlock;
    const index = columns.findIndex((column) => at.startsWith(`ledger.${id}.${column.id}.`));
    const row = at.slice(`ledger.${id}.${columns[index]?.id}.`.length);
    return index >= 0 && /^\d+$/.test(row) ? `ledger.${id}.${row}.c${index}` : at;
  }

  private wordsOfProblems(): string {
    const own = this.problems.filter(({ at }) => this.inTable(at) === at);
    return own.map((problem) => describeProblem({ ...problem, at: "" })).join(" ");
  }

  private showWords(): void {
    const words = this.wordsOfProblems();
    setText(this.wordsLine, words);
    this.wordsLine.hidden = words === "";
    setAttribute(this.element, "data-problem", words === "" ? undefined : "");
    if (this.name.refusal === undefined)
      this.name.cell.setProblem(this.problems.some(({ at }) => at.endsWith(".id")) ? this.wordsLine.id : undefined);
  }

  private showColumns({ id, columns, rows }: TableBlock): void {
    while (this.lines.length < columns.length) this.lines.push(this.createLine(this.lines.length));
    columns.forEach((column, i) => {
      this.lines[i]?.show(column, id);
    });
    setChildren(this.strip, [...this.lines.slice(0, columns.length).map(({ element }) => element), this.addColumn]);
    const key = JSON.stringify([id, columns]);
    if (key === this.columnsShown) return;
    this.columnsShown = key;
    this.table = this.createTable(id, columns);
    this.rowsBox.replaceChildren(this.table.element);
    this.table.showRows(rows, { unit: "mm", names: {} });
    this.table.showResults(this.results);
  }

  private createTable(id: string, columns: readonly ColumnEntry[]): DocumentTable<Row, SheetResults> {
    const { host, key } = this;
    const names = columns.map((column) => nameOf(id, column.id));
    return new DocumentTable<Row, SheetResults>({
      place: `ledger.${id}`,
      caption: names.length === 0 ? "It has no columns yet." : `Formulas name its columns ${names.join(", ")}.`,
      noun: "row",
      columns: columns.map((column, i) => this.columnOf(column, i, names[i] as string)),
      nameOf: (row) => String((this.places.get(row) ?? 0) + 1),
      blank: () => columns.map(() => ""),
      edits: {
        edit: (change, what, session) =>
          host.edit(
            (blocks) => {
              const block = blocks[indexOfBlock(blocks, key)];
              return block?.kind === "table" ? changeBlock<TableBlock>(blocks, key, { rows: change(block.rows) }) : blocks;
            },
            `${what} of ${id}`,
            session,
          ),
        rename: () => {},
        abandon: (session) => host.abandon(session),
        say: (words) => host.say(words),
        stand: () => {},
      },
    });
  }

  private columnOf({ id, unit, formula, decimals }: ColumnEntry, index: number, name: string): Column<Row, SheetResults> {
    const label = unit.trim() === "" ? id : `${id}, ${unit.trim()}`;
    if (formula.trim() !== "") {
      return {
        kind: "result",
        key: `c${index}`,
        label: `= ${label}`,
        hint: formula,
        width: 10,
        show: (row, results) => this.shownRow(name, { unit, decimals }, row, results),
        rank: (row) => this.valueIn(name, row),
      };
    }
    return {
      kind: "long",
      key: `c${index}`,
      label,
      width: 12,
      figures: true,
      rank: (row) => this.valueIn(name, row),
      names:
        unit.trim() === "" ? [id, name] : [id, name, ...[`${id} (${unit.trim()})`, `${id} [${unit.trim()}]`, `${id} / ${unit.trim()}`]],
      formula: { uses: "everything", self: () => name },
      read: (row) => row[index] ?? "",
      write: (row, text) => {
        if ((row[index] ?? "") === text) return row;
        const count = Math.max(row.length, index + 1);
        const changed = Array.from({ length: count }, (_, i) => (i === index ? text : (row[i] ?? "")));
        keepKey(row, changed);
        return changed;
      },
    };
  }

  /** In base units. */
  private valueIn(name: string, row: Row): number | undefined {
    const column = this.results?.own.get(name);
    const value = column?.ok && column.value.kind === "column" ? column.value.rows[this.places.get(row) ?? -1] : undefined;
    return value?.ok ? value.value.value : undefined;
  }

  private shownRow(
    name: string,
    shownAs: Pick<ColumnEntry, "unit" | "decimals">,
    row: Row,
    { own, evaluation }: SheetResults,
  ): ShownResult | undefined {
    const column = own.get(name);
    if (!column?.ok || column.value.kind !== "column") return undefined;
    const value = column.value.rows[this.places.get(row) ?? -1];
    const budget = value?.ok ? soundBudget(value.value) : undefined;
    if (!budget?.ok) return undefined;
    const shown = showQuantity(budget.value, column.value.dimension, shownAs, evaluation.setup.unit);
    return {
      text: `${shown.text}${shownAs.unit.trim() === "" ? shown.suffix : ""}`,
      below: shown.uncertainty === undefined ? "no doubt" : `u ${shown.uncertainty}`,
    };
  }

  private createLine(index: number): ColumnLine {
    return new ColumnLine(`${this.key}-column-${index}`, this.host, {
      rename: (name, session) => this.host.renameColumn(this.key, index, name, session),
      change: (changes, what, session) =>
        this.changeColumns((columns) => columns.map((each, i) => (i === index ? { ...each, ...changes } : each)), what, session),
      remove: () => this.removeColumn(index),
      columns: () => this.block?.columns.map(({ id }) => id) ?? [],
    });
  }

  private changeColumns(change: (columns: TableBlock["columns"]) => TableBlock["columns"], what: string, session?: object): void {
    this.host.edit(
      (blocks) => {
        const block = blocks[indexOfBlock(blocks, this.key)];
        return block?.kind === "table" ? changeBlock<TableBlock>(blocks, this.key, { columns: change(block.columns) }) : blocks;
      },
      `${what} of ${this.block?.id}`,
      session,
    );
  }

  /** The same keys as in a row, for the column that one stands on. */
  private pressedInStrip(event: KeyboardEvent): void {
    const index = this.lines.findIndex(({ element }) => element.contains(event.target as Node));
    if (index < 0 || !event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const acts: Readonly<Record<string, () => void>> = {
      ArrowUp: () => this.moveColumn(index, -1),
      ArrowDown: () => this.moveColumn(index, 1),
      Enter: () => this.insertColumn(),
      Backspace: () => this.removeColumn(index),
      Delete: () => this.removeColumn(index),
    };
    const act = acts[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  }

  private moveColumn(index: number, by: number): void {
    const { block } = this;
    const column = block?.columns[index];
    if (block === undefined || column === undefined || block.columns[index + by] === undefined) return;
    this.host.edit(
      (blocks) =>
        changeBlock<TableBlock>(blocks, this.key, {
          columns: moved(block.columns, index, by),
          rows: block.rows.map((row) => {
            const full = block.columns.map((_, i) => row[i] ?? "");
            const changed = moved(full, index, by);
            keepKey(row, changed);
            return changed;
          }),
        }),
      `place of ${column.id} in ${block.id}`,
    );
    this.lines[index + by]?.name.control.focus();
  }

  private insertColumn(): void {
    const { block } = this;
    if (block === undefined) return;
    this.changeColumns((columns) => [...columns, blankEntries.column(freeColumnName(block))], "new column");
    this.lines[block.columns.length]?.name.control.focus();
  }

  private removeColumn(index: number): void {
    const { block } = this;
    const column = block?.columns[index];
    if (block === undefined || column === undefined) return;
    const missing = this.host.missing([nameOf(block.id, column.id)]);
    this.host.edit(
      (blocks) =>
        changeBlock<TableBlock>(blocks, this.key, {
          columns: block.columns.toSpliced(index, 1),
          rows: block.rows.map((row) => {
            const without = row.toSpliced(index, 1);
            keepKey(row, without);
            return without;
          }),
        }),
      `removal of ${column.id} from ${block.id}`,
    );
    this.addColumn.focus();
    this.host.say(
      `The column ${column.id} is removed; undo brings it back.${withoutItInWords(missing)}${this.meansOther(block, column.id)}`,
    );
  }

  /** What formulas of the rows, which went by this column, mean by its name without it. */
  private meansOther({ columns }: TableBlock, name: string): string {
    const other = this.host.meaningOf(name);
    const users = columns.filter(({ id, formula }) => id !== name && namesOf(formula).includes(name));
    if (other === undefined || users.length === 0) return "";
    return ` By "${name}" the formulas of ${shortList(users.map(({ id }) => id))} now mean ${other}.`;
  }
}

function moved<T>(list: readonly T[], index: number, by: number): T[] {
  return list.toSpliced(index, 1).toSpliced(index + by, 0, list[index] as T);
}

interface ColumnActs {
  rename(name: string, session: object): string | undefined;
  change(changes: Partial<ColumnEntry>, what: string, session: object): void;
  remove(): void;
  /** Names of all columns, by which formulas of rows know each other's. */
  columns(): readonly string[];
}

/** What is stated about one column: its name, its unit, the formula of its rows, and what their doubts rest on. */
class ColumnLine {
  readonly element: HTMLElement;
  readonly name: BlockEntry;
  id = "";
  private readonly unit: BlockEntry;
  private readonly formula: BlockEntry;
  private readonly decimals: BlockEntry;
  private readonly evidence: BlockEntry;
  private readonly family: BlockEntry;
  private readonly remove: HTMLButtonElement;

  constructor(key: string, host: BlockHost, acts: ColumnActs) {
    const write = (entry: Exclude<keyof ColumnEntry, "id">, label: string) => (text: string, session: object) => {
      acts.change({ [entry]: text }, label, session);
      return undefined;
    };
    this.name = new BlockEntry({ kind: "text", label: "column", width: 12, onEdit: (text, session) => acts.rename(text, session) }, host);
    this.unit = new BlockEntry({ kind: "text", label: "unit", width: 6, onEdit: write("unit", "unit") }, host);
    const formula: FormulaPlace = { uses: "everything", locals: () => acts.columns(), self: () => this.id };
    this.formula = new BlockEntry({ kind: "text", label: "formula", width: 24, formula, onEdit: write("formula", "formula") }, host);
    const further = (entry: keyof typeof furtherEntries) =>
      new BlockEntry({ ...furtherEntries[entry], onEdit: write(entry, furtherEntries[entry].label) }, host);
    this.decimals = further("decimals");
    this.evidence = further("evidence");
    this.family = further("family");
    this.remove = html("button", { type: "button", class: "act" }, "remove");
    this.remove.addEventListener("click", () => acts.remove());
    const field = (entry: BlockEntry, column: string, label: string) => {
      entry.control.removeAttribute("aria-label");
      entry.control.id = `own-${key}-${column}`;
      return html("div", { class: "field", "data-column": column }, html("label", { for: entry.control.id }, label), entry.control);
    };
    this.element = html(
      "div",
      { class: "line", "data-row": key, role: "group" },
      field(this.name, "id", "column"),
      field(this.unit, "unit", "unit"),
      field(this.formula, "formula", "formula of every row; empty for typed rows"),
      field(this.decimals, "decimals", furtherEntries.decimals.label),
      field(this.evidence, "evidence", furtherEntries.evidence.label),
      field(this.family, "family", furtherEntries.family.label),
      this.remove,
    );
  }

  show({ id, unit, formula, decimals, evidence, family }: ColumnEntry, table: string): void {
    this.id = id;
    setAttribute(this.element, "aria-label", `column ${id} of ${table}`);
    setAttribute(this.remove, "aria-label", `remove: the column ${id}`);
    this.name.cell.show(id);
    this.unit.cell.show(unit);
    this.formula.cell.show(formula);
    this.decimals.cell.show(decimals);
    this.evidence.cell.show(evidence);
    this.family.cell.show(family);
  }
}
