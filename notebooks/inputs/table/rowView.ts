import type { Problem } from "../../../lib/base/outcome.ts";
import type { CellContext, Column, EntryColumn, ResultColumn, ShownResult } from "../column.ts";
import { describeInText } from "../describeInText.ts";
import { EntryCell } from "../entryCell.ts";
import { html, setAttribute, setText } from "../html.ts";
import { ResultBox } from "./resultBox.ts";

export interface RowViewOptions<Row extends object, Results> {
  readonly key: string;
  readonly columns: readonly Column<Row, Results>[];
  /** A column of marks before all others: the one row of the table that is in use. */
  readonly mark: { readonly label: string; readonly group: string } | undefined;
  /** Id of the element that says what is wrong while the words do not stand beneath the row. */
  readonly noteId: string;
  /** @returns why the document cannot hold the text, if it cannot */
  readonly onEdit: (column: EntryColumn<Row>, text: string, session: object) => string | undefined;
  readonly onAbandon: (session: object) => void;
  readonly onMark: () => void;
  /** What is said about the row has changed without the document. */
  readonly onRefusal: () => void;
  readonly onLeave: () => void;
}

/** The part of a row that lies in the range that a person selected. */
export interface SelectedPart {
  /** Keys of its columns, in the order shown. */
  readonly columns: readonly string[];
  readonly isTop: boolean;
  readonly isBottom: boolean;
}

/** What is on the page for one row: its entries, its results, and beneath it, in words, what is wrong with it. */
export class RowView<Row extends object, Results> {
  private readonly options: RowViewOptions<Row, Results>;
  private readonly cells = new Map<string, EntryCell>();
  private readonly boxes = new Map<string, HTMLTableCellElement>();
  private readonly resultBoxes = new Map<string, ResultBox>();
  private readonly line: HTMLTableRowElement;
  private readonly wordsBox: HTMLTableCellElement;
  private readonly wordsLine: HTMLTableRowElement;
  private readonly marker: HTMLInputElement | undefined;
  private problems: readonly Problem[] = [];
  /** By column: why the text that is just being typed cannot be held. */
  private readonly refusals = new Map<string, string>();
  private hasWordsBeneath = false;
  private hasMarks = false;
  private readonly headButton: HTMLButtonElement;
  /** Selected boxes, by column. */
  private selected: ReadonlyMap<string, string> = new Map();
  private place = "";
  private row: Row | undefined;
  private context: CellContext | undefined;

  constructor(options: RowViewOptions<Row, Results>) {
    this.options = options;
    this.line = html("tr", { "data-row": options.key });
    this.wordsBox = html("td", { id: `${options.noteId}-${options.key}` });
    this.wordsBox.setAttribute("role", "presentation");
    // Words between the rows, and no row of their own.
    this.wordsLine = html("tr", { class: "words", role: "presentation" }, this.wordsBox);
    this.headButton = html("button", { type: "button", tabindex: -1 });
    this.line.append(html("td", { class: "head" }, this.headButton));
    if (options.mark) {
      this.marker = html("input", { type: "radio", name: options.mark.group });
      this.marker.addEventListener("change", () => options.onMark());
      this.line.append(html("td", { class: "mark", "data-label": options.mark.label }, this.marker));
    }
    for (const column of options.columns) this.line.append(this.createBox(column));
  }

  /**
   * Words appear beneath a row when it is left, not while somebody types in it, so that nothing jumps;
   * until then they stand in the table's note.
   */
  elements(): HTMLElement[] {
    if (!this.isEdited) this.hasWordsBeneath = this.problems.length > 0;
    return this.hasWordsBeneath && this.problems.length > 0 ? [this.line, this.wordsLine] : [this.line];
  }

  /** @param place path of the row in the document */
  show(row: Row, name: string, place: string, context: CellContext): void {
    if (row === this.row && context === this.context) return;
    this.row = row;
    this.context = context;
    this.place = place;
    for (const column of this.entryColumns()) {
      const cell = this.cells.get(column.key) as EntryCell;
      if (column.choices) cell.setChoices(column.choices(context));
      cell.setLabel(`${name}, ${column.label}`);
      cell.show(column.read(row));
    }
    if (this.marker) setAttribute(this.marker, "aria-label", `${this.options.mark?.label} ${name}`);
    setAttribute(this.headButton, "aria-label", `select row ${name}`);
  }

  /** Its place in a table of which not all rows are in the page, from 1; undefined where all are. */
  showPlace(place: number | undefined): void {
    setAttribute(this.line, "aria-rowindex", place === undefined ? undefined : String(place));
  }

  showSelected(part: SelectedPart | undefined): void {
    if (part === undefined && this.selected.size === 0) return;
    const edges = new Map((part?.columns ?? []).map((key, i, { length }) => [key, edgesOf(part as SelectedPart, i, length)]));
    for (const key of this.selected.keys()) if (!edges.has(key)) this.markSelected(key, undefined);
    for (const [key, edge] of edges) if (this.selected.get(key) !== edge) this.markSelected(key, edge);
    setAttribute(this.line, "data-selected", part === undefined ? undefined : "");
    this.selected = edges;
  }

  private markSelected(key: string, edges: string | undefined): void {
    const box = this.boxes.get(key);
    if (box === undefined) return;
    setAttribute(box, "data-selected", edges);
    setAttribute(box, "aria-selected", edges === undefined ? undefined : "true");
  }

  /** What of it has a height of its own on the page. */
  get lines(): readonly [row: HTMLElement, words: HTMLElement] {
    return [this.line, this.wordsLine];
  }

  showMark(isMarked: boolean): void {
    if (this.marker) this.marker.checked = isMarked;
    setAttribute(this.line, "data-marked", isMarked ? "" : undefined);
  }

  showStanding(isStoodOn: boolean): void {
    setAttribute(this.line, "data-standing", isStoodOn ? "" : undefined);
  }

  showResult({ key }: ResultColumn<Row, Results>, shown: ShownResult | undefined, pad: string): void {
    this.resultBoxes.get(key)?.show(shown, pad);
  }

  showProblems(problems: readonly Problem[]): void {
    this.problems = problems;
    setText(this.wordsBox, this.wordsOf(problems));
    setAttribute(this.line, "data-problem", problems.length > 0 ? "" : undefined);
  }

  /** Marks the cells that something is wrong with; after the words have found their place. */
  markCells(): void {
    const hasMarks = this.problems.length > 0 || this.refusals.size > 0;
    if (!hasMarks && !this.hasMarks) return;
    this.hasMarks = hasMarks;
    for (const [key, cell] of this.cells) {
      const isWrong = this.problems.some(({ at }) => at === `${this.place}.${key}` || (key === "id" && at === this.place));
      const describedBy = this.refusals.has(key) || !this.wordsLine.isConnected ? this.options.noteId : this.wordsBox.id;
      cell.setProblem(isWrong || this.refusals.has(key) ? describedBy : undefined);
    }
  }

  /** Whether a person types in it just now. */
  get isEdited(): boolean {
    return [...this.cells.values()].some((cell) => cell.isEdited);
  }

  /** What is wrong with the text that is being typed, or else with the row. */
  currentWords(): string {
    return this.refusals.size > 0 ? [...this.refusals.values()].join(" ") : this.wordsOf(this.problems);
  }

  /** How many columns the words go across. */
  setSpan(columns: number): void {
    const span = columns + 1 + (this.marker ? 1 : 0);
    if (this.wordsBox.colSpan !== span) this.wordsBox.colSpan = span;
  }

  hide(key: string, hidden: boolean): void {
    const box = this.boxes.get(key);
    if (box !== undefined && box.hidden !== hidden) box.hidden = hidden;
  }

  /** The control of the entry with this key, or of the one that it lies in, or of the first. */
  controlAt(key: string): HTMLElement | undefined {
    const cell =
      this.cells.get(key) ?? [...this.cells].find(([column]) => key.startsWith(`${column}.`))?.[1] ?? this.cells.values().next().value;
    return cell?.control;
  }

  boxOf(key: string): HTMLElement | undefined {
    return this.boxes.get(key);
  }

  private entryColumns(): readonly EntryColumn<Row>[] {
    return this.options.columns.filter((column): column is EntryColumn<Row> => column.kind !== "result");
  }

  private createBox(column: Column<Row, Results>): HTMLTableCellElement {
    // The name heads its row, so that a screen reader can say it with every cell.
    const isName = column.key === "id";
    const box = html(isName ? "th" : "td", {
      class: classOf(column),
      scope: isName ? "row" : undefined,
      "data-column": column.key,
      "data-label": column.label,
    });
    if (column.kind !== "result") box.append(this.createCell(column).control);
    this.boxes.set(column.key, box);
    if (column.kind === "result") this.resultBoxes.set(column.key, new ResultBox(box));
    return box;
  }

  private createCell(column: EntryColumn<Row>): EntryCell {
    const { onEdit, onAbandon, onLeave, onRefusal } = this.options;
    const cell = new EntryCell({
      kind: column.kind,
      label: column.label,
      width: column.width,
      formula: column.formula,
      onEdit: (text, session) => {
        const refusal = onEdit(column, text, session);
        const wasRefused = this.refusals.delete(column.key);
        if (refusal !== undefined) this.refusals.set(column.key, refusal);
        if (refusal === undefined && !wasRefused) return;
        this.markCells();
        onRefusal();
      },
      onAbandon,
      onLeave: () => {
        this.refusals.delete(column.key);
        onLeave();
      },
    });
    this.cells.set(column.key, cell);
    return cell;
  }

  private wordsOf(problems: readonly Problem[]): string {
    return problems
      .map((problem) => {
        const column = this.entryColumns().find(({ key }) => problem.at === `${this.place}.${key}`);
        const text = column === undefined || this.row === undefined ? "" : column.read(this.row);
        return `${column === undefined ? "" : `${column.label}: `}${describeInText(problem, text)}`;
      })
      .join(" ");
  }
}

/** The sides of a selected box at which the range ends. */
function edgesOf({ isTop, isBottom }: SelectedPart, index: number, length: number): string {
  return [isTop && "top", isBottom && "bottom", index === 0 && "left", index === length - 1 && "right"].filter(Boolean).join(" ");
}

export function classOf<Row extends object, Results>(column: Column<Row, Results>): string {
  if (column.kind === "result") return "result number";
  return `entry ${column.kind}${column.figures ? " figures" : ""}${column.width > halfCard ? " wide" : ""}`;
}

/** Characters of an entry that needs a line of its own where a row is a card on a narrow screen. */
const halfCard = 19;
