import { html, setAttribute, setText } from "../html.ts";

export interface RowNoteOptions {
  /** Of the element that tells how an entry was understood, so that a cell can be described by it. */
  readonly id: string;
  /** One row, as in `add a touch`. */
  readonly noun: string;
  /** What the table is, as long as nobody stands in it. */
  readonly hint: string;
  readonly canShowAll: boolean;
  readonly onAdd: () => void;
  readonly onMove: (by: number) => void;
  readonly onRemove: () => void;
  readonly onSort: () => void;
  readonly onFillDown: () => void;
  readonly onShowAll: (all: boolean) => void;
  /** The table as it stands, for the clipboard. */
  readonly asText: () => string;
}

/** What is said about the row that a person stands on. */
export interface StandingRow {
  readonly name: string;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  /** What is wrong with it; empty when nothing is. */
  readonly wrong: string;
  /** How its entries were understood, and what it is good for. */
  readonly about: string;
  /** Label of the column that the rows would be put in order by. */
  readonly column: string;
  /** The range that is selected, in words; empty for a cell alone. */
  readonly selected: string;
  /** Whether the range has a row to fill down from and others below it. */
  readonly canFillDown: boolean;
}

/** Beneath a table, always as high: how the row that one stands on was understood, and what can be done with it. */
export class RowNote {
  readonly element: HTMLElement;
  private readonly hint: string;
  private readonly wrong = html("span", { class: "wrong" });
  private readonly words = html("span");
  private readonly add: HTMLButtonElement;
  private readonly up: HTMLButtonElement;
  private readonly down: HTMLButtonElement;
  private readonly remove: HTMLButtonElement;
  private readonly all: HTMLButtonElement;
  private readonly sort: HTMLButtonElement;
  private readonly fill: HTMLButtonElement;
  private readonly selected = html("span", { class: "selected", role: "status" });
  private readonly noun: string;

  constructor({ id, noun, hint, canShowAll, onAdd, onMove, onRemove, onSort, onFillDown, onShowAll, asText }: RowNoteOptions) {
    this.hint = hint;
    this.noun = noun;
    const understood = html("p", { id, class: "understood" }, this.selected, this.wrong, this.words);
    this.add = button(`add ${/^[aeiou]/.test(noun) ? "an" : "a"} ${noun}`, onAdd);
    this.up = button("up", () => onMove(-1), `move this ${noun} up`);
    this.down = button("down", () => onMove(1), `move this ${noun} down`);
    this.remove = button("remove", onRemove, `remove this ${noun}`);
    this.sort = button("sort", onSort);
    this.fill = button("fill down", onFillDown, "the first row of the range into the rows below it");
    this.all = button("all columns", () => onShowAll(this.all.getAttribute("aria-pressed") !== "true"));
    this.all.hidden = !canShowAll;
    const copy = button("copy", () => navigator.clipboard?.writeText(asText()), `copy this table`);
    this.element = html(
      "div",
      { class: "note" },
      understood,
      html("div", { class: "acts" }, this.add, this.up, this.down, this.remove, this.sort, this.fill, this.all, copy),
    );
    this.show(undefined);
  }

  show(standing: StandingRow | undefined): void {
    this.up.disabled = standing?.isFirst ?? true;
    this.down.disabled = standing?.isLast ?? true;
    this.remove.disabled = standing === undefined;
    this.sort.disabled = standing === undefined;
    this.fill.disabled = !(standing?.canFillDown ?? false);
    setAttribute(this.sort, "aria-label", standing && `sort: every ${this.noun} by ${standing.column}, or the other way round`);
    setText(this.selected, standing === undefined || standing.selected === "" ? "" : `${standing.selected} `);
    setText(this.wrong, standing === undefined || standing.wrong === "" ? "" : `${standing.name}: ${standing.wrong} `);
    setAttribute(this.words, "data-tone", standing === undefined ? "soft" : undefined);
    if (standing === undefined || (standing.wrong === "" && standing.about === "")) setText(this.words, this.hint);
    else setText(this.words, standing.wrong === "" ? `${standing.name}: ${standing.about}` : standing.about);
  }

  setShowsAll(all: boolean): void {
    setAttribute(this.all, "aria-pressed", String(all));
  }

  focus(): void {
    this.add.focus();
  }
}

/** The name that is read begins with the word that is seen. */
function button(text: string, act: () => unknown, meaning?: string): HTMLButtonElement {
  const made = html("button", { type: "button", class: "act", "aria-label": meaning && `${text}: ${meaning}` }, text);
  made.addEventListener("click", () => void act());
  return made;
}
