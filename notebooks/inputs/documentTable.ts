import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { alignDecimals } from "./alignDecimals.ts";
import type { CellContext, Column, EntryColumn, ResultColumn } from "./column.ts";
import { fillBlock } from "./fillBlock.ts";
import { html, setAttribute, setChildren } from "./html.ts";
import { InSight } from "./inSight.ts";
import { RowNote } from "./rowNote.ts";
import { insertRow, keyOf, moveRow, removeRow } from "./rows.ts";
import { classOf, RowView } from "./rowView.ts";
import { tableAsText } from "./tableAsText.ts";

export interface DocumentTableOptions<Row extends object, Results> {
  /** Where its rows stand in the document, as problems name it: `touches`, `part.elements`. */
  readonly place: string;
  readonly caption: string;
  /** One row, as in `add a touch`. */
  readonly noun: string;
  readonly columns: readonly Column<Row, Results>[];
  readonly nameOf: (row: Row) => string;
  /** A new row with a name that is still free. */
  readonly blank: (rows: readonly Row[]) => Row;
  /** What a row is good for, in words, while a person stands on it. */
  readonly about?: (row: Row, results: Results | undefined) => string;
  /** The one row that is in use. */
  readonly mark?: { readonly label: string; readonly isMarked: (row: Row) => boolean; readonly onMark: (row: Row) => void };
  readonly edits: TableEdits<Row>;
}

/** What a table asks of the document. All edits of one session are one step of its history. */
export interface TableEdits<Row extends object> {
  edit(change: (rows: Row[]) => Row[], what: string, session?: object): void;
  /** Gives a row another name, wherever it is named. */
  rename(index: number, name: string, session: object): void;
  abandon(session: object): void;
  /** Tells a person something in passing. */
  say(words: string): void;
  /** A person stands on this row. */
  stand(row: Row): void;
}

/** A table of the document: entries that a person edits in place, and beside them the results that belong to each row. */
export class DocumentTable<Row extends object, Results> {
  readonly element: HTMLElement;
  private readonly options: DocumentTableOptions<Row, Results>;
  private readonly entryColumns: readonly EntryColumn<Row>[];
  private readonly resultColumns: readonly ResultColumn<Row, Results>[];
  private readonly heads = new Map<string, HTMLElement>();
  private readonly body = html("tbody");
  private readonly note: RowNote;
  private readonly views = new Map<string, RowView<Row, Results>>();
  private rows: Row[] = [];
  private context: CellContext = { unit: "mm", names: {} };
  private results: Results | undefined;
  private readonly inSight: InSight;
  private problems: readonly Problem[] = [];
  private showsAll = false;
  /** Key of the row that a person stands on or last stood on. */
  private standing: string | undefined;
  private isLayingOut = false;

  constructor(options: DocumentTableOptions<Row, Results>) {
    this.options = options;
    this.entryColumns = options.columns.filter((column): column is EntryColumn<Row> => column.kind !== "result");
    this.resultColumns = options.columns.filter((column): column is ResultColumn<Row, Results> => column.kind === "result");
    this.note = new RowNote({
      id: this.noteId,
      noun: options.noun,
      hint: options.caption,
      canShowAll: this.entryColumns.some(({ usual }) => usual !== undefined),
      onAdd: () => this.add(),
      onMove: (by) => this.move(by),
      onRemove: () => this.remove(),
      onShowAll: (all) => this.showAll(all),
      asText: () => tableAsText(this.rows, this.shownColumns(), this.results),
    });
    const heads = [
      ...(options.mark ? [html("th", { scope: "col", class: "mark" }, options.mark.label)] : []),
      ...options.columns.map((column) => this.createHead(column)),
    ];
    const table = html(
      "table",
      {},
      html("caption", { class: "unseen" }, options.caption),
      html("thead", {}, html("tr", {}, ...heads)),
      this.body,
    );
    // A frame that scrolls must be reachable by those who scroll with keys: its cells are.
    this.element = html("div", { class: "ledger", "data-table": options.place }, html("div", { class: "frame" }, table), this.note.element);
    this.inSight = new InSight(this.element);
    this.element.addEventListener("keydown", (event) => this.pressed(event));
  }

  showRows(rows: Row[], context: CellContext): void {
    const focused = this.element.contains(document.activeElement) ? (document.activeElement as HTMLElement) : undefined;
    this.rows = rows;
    this.context = context;
    const keys = new Set(rows.map(keyOf));
    for (const key of this.views.keys()) if (!keys.has(key)) this.views.delete(key);
    for (const row of rows) {
      const view = this.viewOf(row);
      view.show(row, this.options.nameOf(row), this.placeOf(row), context);
      view.showMark(this.options.mark?.isMarked(row) ?? false);
    }
    this.layOut();
    // A row that was moved in the page has lost the focus on its way.
    if (focused?.isConnected && document.activeElement !== focused) focused.focus({ preventScroll: true });
  }

  /** Undefined while results wait or have failed: nothing old stays on the page. */
  showResults(results: Results | undefined): void {
    this.results = results;
    setAttribute(this.element, "data-waiting", results === undefined ? "" : undefined);
    if (results === undefined) this.inSight.now(() => this.fillResults(undefined));
    else this.inSight.run(() => this.fillOrBlank(results));
    this.showNote();
  }

  /** Where that fails, half of what is shown may be old: none of it stays. */
  private fillOrBlank(results: Results): void {
    try {
      this.fillResults(results);
    } catch (error) {
      this.fillResults(undefined);
      throw error;
    }
  }

  private fillResults(results: Results | undefined): void {
    for (const column of this.resultColumns) {
      const shown = this.rows.map((row) => (results === undefined ? undefined : column.show(row, results)));
      const pads = column.isAligned === false ? [] : alignDecimals(shown.map((each) => each?.text ?? ""));
      for (const [i, row] of this.rows.entries()) this.viewOf(row).showResult(column, shown[i], pads[i] ?? "");
    }
  }

  showProblems(problems: readonly Problem[]): void {
    const own = problems.filter(({ at }) => at === this.options.place || at.startsWith(`${this.options.place}.`));
    const nothingChanged = own.length === 0 && this.problems.length === 0;
    this.problems = own;
    if (nothingChanged) return;
    for (const row of this.rows) this.viewOf(row).showProblems(this.problemsOf(row));
    this.layOut();
  }

  /** Puts the focus on the entry with this path, or on the row that it stands in; false if it is not of this table. */
  focus(path: string): boolean {
    const row = this.rowAt(path);
    if (row === undefined) {
      if (path === this.options.place) this.note.focus();
      return path === this.options.place;
    }
    const control = this.viewOf(row).controlAt(path.slice(this.placeOf(row).length + 1));
    if (control?.closest("[hidden]")) this.showAll(true);
    control?.focus();
    control?.scrollIntoView?.({ block: "center" });
    return true;
  }

  private get noteId(): string {
    return `${this.options.place.replaceAll(".", "-")}-note`;
  }

  private placeOf(row: Row): string {
    return `${this.options.place}.${this.options.nameOf(row)}`;
  }

  /** Names may hold points, so that of several rows the one with the longest name is meant. */
  private rowAt(path: string): Row | undefined {
    return this.rows
      .filter((row) => path === this.placeOf(row) || path.startsWith(`${this.placeOf(row)}.`))
      .sort((a, b) => this.options.nameOf(b).length - this.options.nameOf(a).length)[0];
  }

  private problemsOf(row: Row): readonly Problem[] {
    const name = this.options.nameOf(row);
    return this.problems.filter(({ at }) => {
      const owner = this.rowAt(at);
      return owner !== undefined && this.options.nameOf(owner) === name;
    });
  }

  private viewOf(row: Row): RowView<Row, Results> {
    const key = keyOf(row);
    const known = this.views.get(key);
    if (known !== undefined) return known;
    const { columns, mark, place } = this.options;
    const view = new RowView<Row, Results>({
      key,
      columns,
      mark: mark && { label: mark.label, group: `${place}-mark` },
      noteId: this.noteId,
      onEdit: (column, text, session) => this.enter(key, column, text, session),
      onAbandon: (session) => this.options.edits.abandon(session),
      onMark: () => this.withRow(key, (marked) => mark?.onMark(marked)),
      onStand: () => this.standOn(key),
      onRefusal: () => this.showNote(),
      onLeave: () => this.layOut(),
      onPasteBlock: (column, text) => this.paste(key, column, text),
    });
    this.views.set(key, view);
    return view;
  }

  private indexOf(key: string | undefined): number {
    return this.rows.findIndex((row) => keyOf(row) === key);
  }

  private withRow(key: string | undefined, act: (row: Row, index: number) => void): void {
    const index = this.indexOf(key);
    const row = this.rows[index];
    if (row !== undefined) act(row, index);
  }

  private standOn(key: string): void {
    if (this.standing !== undefined) this.views.get(this.standing)?.showStanding(false);
    this.views.get(key)?.showStanding(true);
    this.standing = key;
    this.withRow(key, (row) => this.options.edits.stand(row));
    this.showNote();
  }

  private enter(key: string, column: EntryColumn<Row>, text: string, session: object): string | undefined {
    const index = this.indexOf(key);
    const row = this.rows[index];
    if (row === undefined) return undefined;
    const { edits, nameOf } = this.options;
    if (column.write(row, text) === undefined) return refusalOf(column, text);
    if (column.key === "id") edits.rename(index, text.trim(), session);
    else
      edits.edit(
        (rows) => replaceAt(rows, index, (before) => column.write(before, text) ?? before),
        `${column.label} of ${nameOf(row)}`,
        session,
      );
    return undefined;
  }

  private paste(key: string, column: EntryColumn<Row>, text: string): void {
    const { edits, blank } = this.options;
    const columns = this.entryColumns.filter((each) => this.isShown(each));
    const filled = fillBlock(text, { rows: this.rows, index: this.indexOf(key), column: columns.indexOf(column), columns, blank });
    if (!filled.ok) {
      edits.say(`Nothing was pasted: ${filled.problems.map((problem) => describeProblem(problem)).join(" ")}`);
      return;
    }
    const { rows, filled: cells, added, refused } = filled.value;
    edits.edit(() => rows, "pasted block");
    const more = added > 0 ? `, ${added} ${added === 1 ? "row" : "rows"} added` : "";
    edits.say(`${cells} ${cells === 1 ? "cell" : "cells"} filled${more}.${refused.length > 0 ? ` Left out: ${refused.join("; ")}.` : ""}`);
  }

  private add(): void {
    const { edits, blank, noun } = this.options;
    const at = this.indexOf(this.standing);
    const index = at < 0 ? this.rows.length : at + 1;
    const row = blank(this.rows);
    edits.edit((rows) => insertRow(rows, index, row), `new ${noun}`);
    this.focusRow(index);
  }

  private move(by: number): void {
    this.withRow(this.standing, (row, index) =>
      this.options.edits.edit((rows) => moveRow(rows, index, by), `place of ${this.options.nameOf(row)}`),
    );
  }

  private remove(): void {
    const { edits, nameOf } = this.options;
    this.withRow(this.standing, (row, index) => {
      edits.edit((rows) => removeRow(rows, index), `removal of ${nameOf(row)}`);
      edits.say(`${nameOf(row)} is removed; undo brings it back.`);
      this.focusRow(index);
    });
  }

  /** The first cell of the row there, or of the last row. */
  private focusRow(index: number): void {
    const row = this.rows[Math.min(index, this.rows.length - 1)];
    if (row === undefined) this.note.focus();
    else this.viewOf(row).controlAt("id")?.focus();
  }

  private pressed(event: KeyboardEvent): void {
    if (!event.altKey || event.ctrlKey || event.metaKey || !(event.target as Element).matches("[data-cell]")) return;
    const acts: Readonly<Record<string, () => void>> = {
      ArrowUp: () => this.move(-1),
      ArrowDown: () => this.move(1),
      Enter: () => this.add(),
      Backspace: () => this.remove(),
      Delete: () => this.remove(),
    };
    const act = acts[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  }

  private layOut(): void {
    // A row that is taken away while it has the focus is left, and leaving asks for the layout again.
    if (this.isLayingOut) return;
    this.isLayingOut = true;
    try {
      setChildren(
        this.body,
        this.rows.flatMap((row) => this.viewOf(row).elements()),
      );
    } finally {
      this.isLayingOut = false;
    }
    for (const view of this.views.values()) view.markCells();
    this.showColumns();
    this.showNote();
  }

  private createHead(column: Column<Row, Results>): HTMLElement {
    const head = html("th", { scope: "col", class: classOf(column), title: column.hint }, column.label);
    head.style.setProperty("--ch", String(column.width));
    this.heads.set(column.key, head);
    return head;
  }

  private isShown(column: EntryColumn<Row>): boolean {
    if (column.usual === undefined || this.showsAll) return true;
    if (column.isWanted?.(this.context)) return true;
    return this.rows.some(
      (row) =>
        !["", column.usual].includes(column.read(row)) || this.problems.some(({ at }) => at === `${this.placeOf(row)}.${column.key}`),
    );
  }

  private shownColumns(): readonly Column<Row, Results>[] {
    return this.options.columns.filter((column) => column.kind === "result" || this.isShown(column));
  }

  private showColumns(): void {
    const shown = new Set(this.shownColumns().map(({ key }) => key));
    for (const { key } of this.entryColumns) {
      const head = this.heads.get(key) as HTMLElement;
      if (head.hidden === shown.has(key)) head.hidden = !shown.has(key);
      for (const view of this.views.values()) view.hide(key, !shown.has(key));
    }
    for (const view of this.views.values()) view.setSpan(shown.size);
  }

  private showAll(all: boolean): void {
    this.showsAll = all;
    this.note.setShowsAll(all);
    this.showColumns();
  }

  private showNote(): void {
    const index = this.indexOf(this.standing);
    const row = this.rows[index];
    if (row === undefined) {
      this.note.show(undefined);
      return;
    }
    const about = [this.understood(row), this.options.about?.(row, this.results) ?? ""].filter((sentence) => sentence !== "").join(" ");
    this.note.show({
      name: this.options.nameOf(row),
      isFirst: index === 0,
      isLast: index === this.rows.length - 1,
      wrong: this.viewOf(row).currentWords(),
      about,
    });
  }

  /** How the entries of a row were understood, in words. */
  private understood(row: Row): string {
    const parts = this.entryColumns.flatMap((column) => {
      const text = column.read(row);
      const outcome = text.trim() === "" ? undefined : column.understand?.(text, row, this.context);
      return outcome?.ok ? [`${column.label} ${outcome.value}`] : [];
    });
    return parts.length === 0 ? "" : `Understood: ${parts.join("; ")}.`;
  }
}

function refusalOf<Row extends object>(column: EntryColumn<Row>, text: string): string {
  const what = text.trim() === "" ? "a name is needed" : `“${text}” cannot be entered as ${column.label}`;
  return `${what}; until then the entry stays as it was.`;
}

function replaceAt<Row>(rows: Row[], index: number, change: (row: Row) => Row): Row[] {
  const row = rows[index];
  const changed = row === undefined ? undefined : change(row);
  return changed === undefined || changed === row ? rows : rows.map((each, i) => (i === index ? changed : each));
}
