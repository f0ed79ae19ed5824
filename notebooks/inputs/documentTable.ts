import type { Problem } from "../../lib/base/outcome.ts";
import { alignDecimals } from "./alignDecimals.ts";
import type { CellContext, Column, EntryColumn, ResultColumn, ShownResult } from "./column.ts";
import { describeEntries } from "./entryAbout.ts";
import { cellOf, type EntryCell } from "./entryCell.ts";
import { focusedNear } from "./focusedNear.ts";
import { html, setAttribute, setText } from "./html.ts";
import { InSight } from "./inSight.ts";
import { keyOf } from "./rows.ts";
import { type CellPlace, columnsOf, rowsOf } from "./table/cellRange.ts";
import { RangeActs } from "./table/rangeActs.ts";
import { watchMouse } from "./table/rangeMouse.ts";
import { RangeSelection } from "./table/rangeSelection.ts";
import { RowNote } from "./table/rowNote.ts";
import { classOf, RowView } from "./table/rowView.ts";
import type { TableAtHand } from "./table/tableAtHand.ts";
import { mostPrinted, TableBody } from "./table/tableBody.ts";
import { TableClipboard } from "./table/tableClipboard.ts";
import { actOf, type TableAct } from "./table/tableKeys.ts";
import { TableRows } from "./table/tableRows.ts";

export interface DocumentTableOptions<Row extends object, Results> {
  /** Where its rows stand in the document, as problems name it: `touches`, `part.elements`. */
  readonly place: string;
  readonly caption: string;
  /** One row, as in `add a touch`. */
  readonly noun: string;
  readonly columns: readonly Column<Row, Results>[];
  /** What a row is called, in words and in the paths of problems. */
  readonly nameOf: (row: Row, index: number) => string;
  /** A new row with a name that is still free. */
  readonly blank: (rows: readonly Row[]) => Row;
  /** What a row is good for, in words, while a person stands on it. */
  readonly about?: (row: Row, results: Results | undefined) => string;
  /** The one row that is in use. */
  readonly mark?: { readonly label: string; readonly isMarked: (row: Row) => boolean; readonly onMark: (row: Row) => void };
  readonly edits: TableEdits<Row>;
}

/** A row, an entry of it, or a result beside it. */
export interface TablePart {
  /** Where the focus is put for it (see `focus`). */
  readonly path: string;
  /** What the row is called. */
  readonly row: string;
  /** Of the column; empty for the row itself. */
  readonly label: string;
  /** As it is shown; the name of what it is a row of. */
  readonly text: () => string;
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
  /** Formulas that would have no value without these rows; none where they are not known. */
  missing?(rows: readonly Row[]): readonly string[];
}

/**
 * A table of the document: entries that a person edits in place, and beside them the results that belong to each row.
 *
 * Of a long table only the rows near the window are in the page. Everything that a person can do is one edit of the whole
 * list of rows, so that one undo takes it back.
 */
export class DocumentTable<Row extends object, Results> {
  readonly element: HTMLElement;
  private readonly options: DocumentTableOptions<Row, Results>;
  private readonly entryColumns: readonly EntryColumn<Row>[];
  private readonly resultColumns: readonly ResultColumn<Row, Results>[];
  private readonly heads = new Map<string, HTMLElement>();
  private readonly headLine: HTMLElement;
  private readonly table: HTMLElement;
  private readonly unprinted = html("p", { class: "unprinted" });
  private readonly note: RowNote;
  private readonly rows: TableRows<Row>;
  private readonly body: TableBody<RowView<Row, Results>>;
  private readonly selection: RangeSelection;
  private readonly acts: RangeActs<Row, Results>;
  private readonly clipboard: TableClipboard<Row, Results>;
  private readonly inSight: InSight;
  private context: CellContext = { unit: "mm", names: {} };
  private results: Results | undefined;
  private showsAll = false;
  /** Columns that are shown just now, and where each stands among them. */
  private shown: readonly Column<Row, Results>[] = [];
  private shownPlaces = new Map<string, number>();
  /** Key of the row that a person stands on or last stood on. */
  private standing: string | undefined;

  constructor(options: DocumentTableOptions<Row, Results>) {
    this.options = options;
    this.entryColumns = options.columns.filter((column): column is EntryColumn<Row> => column.kind !== "result");
    this.resultColumns = options.columns.filter((column): column is ResultColumn<Row, Results> => column.kind === "result");
    this.rows = new TableRows(options.place, options.nameOf, this.entryColumns);
    this.note = new RowNote({
      id: this.noteId,
      noun: options.noun,
      hint: options.caption,
      canShowAll: this.entryColumns.some(({ usual }) => usual !== undefined),
      onAdd: () => this.acts.insert(1),
      onMove: (by) => this.acts.move(by),
      onRemove: () => this.acts.remove(),
      onSort: () => this.acts.sort(),
      onFillDown: () => this.acts.fillDown(),
      onShowAll: (all) => this.showAll(all),
      asText: () => this.clipboard.asText(),
    });
    const corner = html("button", { type: "button", tabindex: -1, "aria-label": "select all rows" });
    this.headLine = html(
      "tr",
      {},
      html("th", { scope: "col", class: "head" }, corner),
      ...(options.mark ? [html("th", { scope: "col", class: "mark" }, options.mark.label)] : []),
      ...options.columns.map((column) => this.createHead(column)),
    );
    const frame = html("div", { class: "frame" });
    this.body = new TableBody({
      frame,
      createView: (index) => this.createView(index),
      kept: () => [this.rows.indexOf(this.standing), this.selection.headPlace?.row ?? -1],
      onScrolled: () => this.dressAll(),
    });
    this.selection = new RangeSelection(
      {
        rowIndex: (key) => this.rows.indexOf(key),
        rowKey: (index) => this.keyAt(index),
        columnIndex: (key) => this.shownPlaces.get(key) ?? -1,
        columnKey: (index) => this.shown[index]?.key,
      },
      () => this.showSelection(),
    );
    const atHand = this.atHand();
    this.acts = new RangeActs(atHand);
    this.clipboard = new TableClipboard(atHand);
    this.table = html(
      "table",
      {},
      html("caption", { class: "unseen" }, options.caption),
      html("thead", {}, this.headLine),
      this.body.element,
    );
    frame.append(this.table, this.unprinted);
    // A frame that scrolls must be reachable by those who scroll with keys: its cells are.
    this.element = html("div", { class: "ledger", "data-table": options.place }, frame, this.note.element);
    this.inSight = new InSight(this.element, this.body.element);
    describeEntries(this.element, (control) => {
      const key = control.closest<HTMLElement>("[data-column]")?.dataset["column"];
      const column = options.columns.find((each) => each.key === key);
      return column && { place: `${options.place}.${column.key}`, label: column.label, hint: column.hint ?? options.caption };
    });
    this.element.addEventListener("keydown", (event) => this.pressed(event), { capture: true });
    this.element.addEventListener("focusin", (event) => this.entered(event.target as Element));
    this.element.addEventListener("copy", (event) => this.clipboard.copied(event));
    this.element.addEventListener("cut", (event) => this.clipboard.copied(event) && this.acts.clear());
    this.element.addEventListener("paste", (event) => this.clipboard.pasted(event));
    watchMouse(this.element, frame, {
      rowIndex: (key) => this.rows.indexOf(key),
      columnIndex: (key) => this.shownPlaces.get(key) ?? -1,
      onRows: (row, extend) => this.selectRows(row, extend),
      onColumn: (column, extend) => this.selectColumns(column, extend),
      onAll: () => this.selectAll(),
      onCell: (from, to) => this.selectCells(from, to),
    });
  }

  /** What has the focus within the table. */
  private focused(): HTMLElement | undefined {
    const focused = focusedNear(this.element);
    return focused !== null && this.element.contains(focused) ? focused : undefined;
  }

  /** What the button beneath the table does: a new row, with the focus on its first entry. */
  add(): void {
    this.acts.insert(1);
  }

  showRows(rows: Row[], context: CellContext): void {
    const focused = this.focused();
    const stood = { row: this.rows.indexOf(this.standing), column: this.selection.anchorPlace?.column ?? 0 };
    this.context = context;
    if (this.rows.become(rows)) {
      this.body.setRows(rows);
      this.showLength();
    }
    this.showColumns();
    for (const [index, view] of this.body.inPage()) this.dressRow(view, index);
    this.layOutRows();
    // A row that was moved in the page has lost the focus on its way.
    if (focused?.isConnected && focusedNear(this.element) !== focused) focused.focus({ preventScroll: true });
    // Where the row itself is gone, the one in its place takes it: the keys go on working here.
    if (focused !== undefined && !focused.isConnected && rows.length > 0)
      this.focusCell({ row: Math.min(Math.max(0, stood.row), rows.length - 1), column: stood.column }, true);
    this.showSelection();
  }

  /** Undefined while results wait or have failed: nothing old stays on the page. */
  showResults(results: Results | undefined): void {
    this.results = results;
    setAttribute(this.element, "data-waiting", results === undefined ? "" : undefined);
    if (results === undefined) this.inSight.now(() => this.fillResults(undefined));
    else this.inSight.run(() => this.fillOrBlank(results), this.foundOf(results));
    this.showNote();
  }

  showProblems(problems: readonly Problem[]): void {
    if (!this.rows.setProblems(problems)) return;
    for (const [index, view] of this.body.inPage()) view.showProblems(this.rows.problemsAt(index));
    this.showColumns();
    this.layOut();
  }

  /** Puts the focus on the entry with this path, or on the row that it stands in; false if it is not of this table. */
  focus(path: string): boolean {
    const index = this.rows.indexAtPath(path);
    if (index < 0) {
      if (path === this.options.place) this.note.focus();
      return path === this.options.place;
    }
    const control = this.body.reveal(index)?.controlAt(path.slice(this.rows.pathAt(index).length + 1));
    if (control?.closest("[hidden]")) this.showAll(true);
    control?.focus();
    control?.scrollIntoView?.({ block: "center" });
    return true;
  }

  /** All that stands in its rows, whether it is in the page just now or not. */
  *parts(): Iterable<TablePart> {
    for (const [index, row] of this.rows.all.entries()) {
      const [path, name] = [this.rows.pathAt(index), this.rows.nameAt(index)];
      yield { path, row: name, label: "", text: () => this.options.noun };
      for (const column of this.entryColumns)
        if (column.key !== "id") yield { path: `${path}.${column.key}`, row: name, label: column.label, text: () => column.read(row) };
      const { results } = this;
      if (results === undefined) continue;
      for (const column of this.resultColumns)
        yield { path, row: name, label: column.label, text: () => shownText(column.show(row, results)) };
    }
  }

  private get noteId(): string {
    return `${this.options.place.replaceAll(".", "-")}-note`;
  }

  /** What acts upon the table see of it, as it is at the moment they ask. */
  private atHand(): TableAtHand<Row, Results> {
    const { edits, noun, blank } = this.options;
    const table = this;
    return {
      rows: this.rows,
      selection: this.selection,
      edits,
      noun,
      blank,
      get shown() {
        return table.shown;
      },
      get context() {
        return table.context;
      },
      get results() {
        return table.results;
      },
      placeOf: (column) => this.shownPlaces.get(column) ?? -1,
      selectedRows: () => this.selectedRows(),
      focusRow: (index) => this.focusRow(index),
      showHead: () => {
        const head = this.selection.headPlace;
        if (head !== undefined) this.boxAt(head)?.scrollIntoView?.({ block: "nearest" });
      },
    };
  }

  private keyAt(index: number): string | undefined {
    const row = this.rows.all[index];
    return row === undefined ? undefined : keyOf(row);
  }

  // What is on the page.

  private createView(index: number): RowView<Row, Results> {
    const { columns, mark, place, edits } = this.options;
    const key = this.keyAt(index) as string;
    const view = new RowView<Row, Results>({
      key,
      columns,
      mark: mark && { label: mark.label, group: `${place}-mark` },
      noteId: this.noteId,
      onEdit: (column, text, session) => this.enter(key, column, text, session),
      onAbandon: (session) => edits.abandon(session),
      onMark: () => {
        const row = this.rows.at(key);
        if (row !== undefined) mark?.onMark(row);
      },
      onRefusal: () => this.showNote(),
      onLeave: () => this.layOut(),
    });
    this.dressRow(view, index);
    view.showProblems(this.rows.problemsAt(index));
    this.hideColumns(view);
    return view;
  }

  private dressRow(view: RowView<Row, Results>, index: number): void {
    const row = this.rows.all[index] as Row;
    view.show(row, this.rows.nameAt(index), this.rows.pathAt(index), this.context);
    view.showMark(this.options.mark?.isMarked(row) ?? false);
    // The heads are the first row.
    view.showPlace(this.body.isLong ? index + 2 : undefined);
    view.showStanding(keyOf(row) === this.standing);
  }

  /** Other rows are in the page than before: they get what the others have. */
  private dressAll(): void {
    for (const [index, view] of this.body.inPage()) {
      this.dressRow(view, index);
      view.markCells();
    }
    this.showSelection();
    if (this.results !== undefined) this.fillOrBlank(this.results);
  }

  private layOut(): void {
    this.layOutRows();
    this.showNote();
  }

  private layOutRows(): void {
    this.body.layOut();
    for (const [, view] of this.body.inPage()) view.markCells();
  }

  private showLength(): void {
    const { isLong } = this.body;
    const { length } = this.rows.all;
    // A grid has rows; without any it is an empty table.
    setAttribute(this.table, "role", length > 0 ? "grid" : undefined);
    setAttribute(this.table, "aria-multiselectable", length > 0 ? "true" : undefined);
    setAttribute(this.element, "data-long", isLong ? "" : undefined);
    setAttribute(this.table, "aria-rowcount", isLong ? String(length + 1) : undefined);
    setAttribute(this.headLine, "aria-rowindex", isLong ? "1" : undefined);
    const rest = length - mostPrinted;
    setText(this.unprinted, rest > 0 ? `${rest} more rows are not printed: copy the table, or save the file, to have all ${length}.` : "");
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

  /** Has what its cells show worked out, one after the other; results are kept where they come from. Down the columns: a rank needs all chances. */
  private *foundOf(results: Results): Generator<unknown> {
    for (const column of this.resultColumns)
      for (const [index] of [...this.body.inPage()]) {
        const row = this.rows.all[index];
        yield row === undefined ? undefined : column.show(row, results);
      }
  }

  private fillResults(results: Results | undefined): void {
    const inPage = [...this.body.inPage()];
    for (const column of this.resultColumns) {
      const shown = inPage.map(([index]) => (results === undefined ? undefined : column.show(this.rows.all[index] as Row, results)));
      const pads = column.isAligned === false ? [] : alignDecimals(shown.map((each) => each?.text ?? ""));
      for (const [i, [, view]] of inPage.entries()) view.showResult(column, shown[i], pads[i] ?? "");
    }
  }

  private createHead(column: Column<Row, Results>): HTMLElement {
    const head = html("th", { scope: "col", class: classOf(column), title: column.hint, "data-head": column.key }, column.label);
    head.style.setProperty("--ch", String(column.width));
    this.heads.set(column.key, head);
    return head;
  }

  private isShown(column: EntryColumn<Row>): boolean {
    if (column.usual === undefined || this.showsAll) return true;
    return (column.isWanted?.(this.context) ?? false) || this.rows.isUsed(column) || this.rows.hasProblemIn(column);
  }

  private showColumns(): void {
    const shown = this.options.columns.filter((column) => column.kind === "result" || this.isShown(column));
    if (shown.length === this.shown.length && shown.every((column, i) => column === this.shown[i])) return;
    this.shown = shown;
    this.shownPlaces = new Map(shown.map(({ key }, i) => [key, i]));
    for (const { key } of this.entryColumns) {
      const head = this.heads.get(key) as HTMLElement;
      if (head.hidden === this.shownPlaces.has(key)) head.hidden = !this.shownPlaces.has(key);
    }
    for (const [, view] of this.body.inPage()) this.hideColumns(view);
    this.showSelection();
  }

  private hideColumns(view: RowView<Row, Results>): void {
    for (const { key } of this.entryColumns) view.hide(key, !this.shownPlaces.has(key));
    view.setSpan(this.shown.length);
  }

  private showAll(all: boolean): void {
    this.showsAll = all;
    this.note.setShowsAll(all);
    this.showColumns();
  }

  private showNote(): void {
    const index = this.rows.indexOf(this.standing);
    const row = this.rows.all[index];
    if (row === undefined) {
      this.note.show(undefined);
      return;
    }
    const about = [this.understood(row), this.options.about?.(row, this.results) ?? ""].filter((sentence) => sentence !== "").join(" ");
    const { top, bottom } = this.selectedRows();
    this.note.show({
      name: this.rows.nameAt(index),
      isFirst: top === 0,
      isLast: bottom === this.rows.all.length - 1,
      wrong: this.body.viewOf(this.standing)?.currentWords() ?? "",
      about,
      column: this.standingColumn()?.label ?? "",
      selected: this.selectedInWords(),
      canFillDown: bottom > 0,
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

  // Standing and selecting.

  private entered(target: Element): void {
    const row = target.closest<HTMLElement>("[data-row]")?.dataset["row"];
    if (row === undefined || this.rows.indexOf(row) < 0) return;
    const column = target.closest<HTMLElement>("[data-column]")?.dataset["column"];
    if (row !== this.standing) {
      this.body.viewOf(this.standing)?.showStanding(false);
      this.body.viewOf(row)?.showStanding(true);
      this.standing = row;
      this.options.edits.stand(this.rows.at(row) as Row);
      // The rows beside it must be there for the arrow keys.
      if (this.body.isLong) {
        this.body.layOut();
        this.dressAll();
      }
    }
    if (column !== undefined) this.selection.stand(row, column);
    this.showNote();
  }

  private standingColumn(): Column<Row, Results> | undefined {
    return this.shown[this.selection.headPlace?.column ?? -1];
  }

  /** Rows of the range, or the one that is stood on. */
  private selectedRows(): { readonly top: number; readonly bottom: number } {
    const index = this.rows.indexOf(this.standing);
    return this.selection.range ?? { top: index, bottom: index };
  }

  private showSelection(): void {
    const range = this.selection.isWide ? this.selection.range : undefined;
    const columns = range === undefined ? [] : this.shown.slice(range.left, range.right + 1).map(({ key }) => key);
    for (const [index, view] of this.body.inPage()) {
      const isIn = range !== undefined && index >= range.top && index <= range.bottom;
      view.showSelected(isIn ? { columns, isTop: index === range.top, isBottom: index === range.bottom } : undefined);
    }
    setAttribute(this.element, "data-range", range === undefined ? undefined : "");
    this.showNote();
  }

  private selectedInWords(): string {
    const { range, isWide } = this.selection;
    if (!isWide || range === undefined) return "";
    const [rows, columns] = [rowsOf(range), columnsOf(range)];
    const corner = (row: number, column: number) => `${this.rows.nameAt(row)}, ${this.shown[column]?.label}`;
    const size = `${rows} ${rows === 1 ? "row" : "rows"} by ${columns} ${columns === 1 ? "column" : "columns"} selected`;
    return `${size}: ${corner(range.top, range.left)} to ${corner(range.bottom, range.right)}.`;
  }

  private selectRows(row: number, extend: boolean): void {
    const anchor = extend ? this.selection.anchorPlace : undefined;
    if (anchor === undefined) this.focusCell({ row, column: 0 }, true);
    this.selection.select({ row: anchor?.row ?? row, column: 0 }, { row, column: this.shown.length - 1 });
  }

  private selectColumns(column: number, extend: boolean): void {
    const anchor = extend ? this.selection.anchorPlace : undefined;
    if (anchor === undefined) this.focusCell({ row: 0, column }, true);
    this.selection.select({ row: 0, column: anchor?.column ?? column }, { row: this.rows.all.length - 1, column });
  }

  private selectAll(): void {
    if (this.focused() === undefined) this.focusCell({ row: 0, column: 0 }, true);
    this.selection.select({ row: 0, column: 0 }, { row: this.rows.all.length - 1, column: this.shown.length - 1 });
  }

  private selectCells(from: CellPlace | undefined, to: CellPlace): void {
    if (from !== undefined && this.controlIn(from) === undefined) this.focusCell(from, true);
    this.selection.select(from, to);
  }

  private controlIn({ row, column }: CellPlace): HTMLElement | undefined {
    const { key, kind } = this.shown[column] ?? {};
    return key === undefined || kind === "result" ? undefined : this.body.viewOf(this.keyAt(row))?.controlAt(key);
  }

  /** On the entry at a place, or where a result stands there on the first of its row. */
  private focusCell({ row, column }: CellPlace, isQuiet = false): void {
    const view = this.body.reveal(row);
    const control = this.controlIn({ row, column }) ?? view?.controlAt("id");
    control?.focus({ preventScroll: isQuiet });
    if (!isQuiet) control?.scrollIntoView?.({ block: "nearest", inline: "nearest" });
  }

  /** The range is drawn out to a place, or the person goes there. */
  private go({ row, column }: CellPlace, extend: boolean): void {
    const to = {
      row: Math.max(0, Math.min(this.rows.all.length - 1, row)),
      column: Math.max(0, Math.min(this.shown.length - 1, column)),
    };
    if (!extend) {
      this.focusCell(to);
      return;
    }
    this.selection.select(undefined, to);
    if (this.body.isLong) {
      this.body.reveal(to.row);
      this.body.layOut();
      this.dressAll();
    }
    this.boxAt(to)?.scrollIntoView?.({ block: "nearest", inline: "nearest" });
  }

  private boxAt({ row, column }: CellPlace): Element | undefined {
    return this.body.viewOf(this.keyAt(row))?.boxOf(this.shown[column]?.key ?? "");
  }

  // Keys.

  private pressed(event: KeyboardEvent): void {
    const cell = cellOf(event.target as Element);
    if (cell === undefined || event.isComposing) return;
    const act = actOf(event, { isEdited: cell.isEdited, isWide: this.selection.isWide });
    if (act === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    this.perform(act, cell);
  }

  private perform(act: TableAct, cell: EntryCell): void {
    const head = this.selection.headPlace ?? { row: 0, column: 0 };
    const last = { row: this.rows.all.length - 1, column: this.shown.length - 1 };
    const acts: Readonly<Record<TableAct["name"], () => void>> = {
      "move up": () => this.acts.move(-1),
      "move down": () => this.acts.move(1),
      "insert below": () => this.acts.insert(1),
      "insert above": () => this.acts.insert(0),
      remove: () => this.acts.remove(),
      clear: () => this.acts.clear(),
      collapse: () => this.selection.collapse(),
      fill: () => this.acts.fill(cell),
      "fill down": () => this.acts.fillDown(),
      "select all": () => this.selectAll(),
      "select rows": () => this.selectWhole("rows"),
      "select columns": () => this.selectWhole("columns"),
      up: () => this.go({ ...head, row: head.row - 1 }, true),
      down: () => this.go({ ...head, row: head.row + 1 }, true),
      left: () => this.go({ ...head, column: head.column - 1 }, true),
      right: () => this.go({ ...head, column: head.column + 1 }, true),
      "row start": () => this.go({ ...head, column: 0 }, true),
      "row end": () => this.go({ ...head, column: last.column }, true),
      start: () => this.go({ row: 0, column: 0 }, act.extend),
      end: () => this.go(last, act.extend),
      "page up": () => this.go({ ...head, row: head.row - this.body.rowsInSight }, act.extend),
      "page down": () => this.go({ ...head, row: head.row + this.body.rowsInSight }, act.extend),
    };
    acts[act.name]();
  }

  /** The rows or columns of the range as far as the table goes. */
  private selectWhole(what: "rows" | "columns"): void {
    const { range } = this.selection;
    if (range === undefined) return;
    if (what === "rows") this.selection.select({ row: range.top, column: 0 }, { row: range.bottom, column: this.shown.length - 1 });
    else this.selection.select({ row: 0, column: range.left }, { row: this.rows.all.length - 1, column: range.right });
  }

  // Edits.

  private enter(key: string, column: EntryColumn<Row>, text: string, session: object): string | undefined {
    const { edits } = this.options;
    const index = this.rows.indexOf(key);
    const row = this.rows.all[index];
    if (row === undefined) return undefined;
    if (column.write(row, text) === undefined) return column.closed?.(row) ?? refusalOf(column, text);
    if (column.key === "id") edits.rename(index, text.trim(), session);
    else
      edits.edit(
        (rows) => replaceAt(rows, index, (before) => column.write(before, text) ?? before),
        `${column.label} of ${this.rows.nameAt(index)}`,
        session,
      );
    return undefined;
  }

  /** The first cell of the row there, or of the last row. */
  private focusRow(index: number): void {
    const row = Math.min(index, this.rows.all.length - 1);
    if (row < 0) this.note.focus();
    else this.focusCell({ row, column: this.shownPlaces.get("id") ?? 0 });
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

function shownText(shown: ShownResult | undefined): string {
  return shown === undefined ? "" : [shown.text, shown.below ?? ""].filter((text) => text !== "").join(", ");
}
