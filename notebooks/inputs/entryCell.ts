import { focusedNear } from "./focusedNear.ts";
import { type FormulaPlace, markFormula } from "./formulaPlace.ts";
import { html, setAttribute } from "./html.ts";
import { type Direction, moveFrom } from "./moveBetweenCells.ts";

export interface EntryCellOptions {
  readonly kind: "text" | "choice" | "long";
  /** What a screen reader says: `left, readings`. */
  readonly label: string;
  /** Widest text that is usual, in characters. */
  readonly width: number;
  /** What names can be completed in it; nothing for an entry that takes no formulas. */
  readonly formula?: FormulaPlace | undefined;
  /** Called with every letter. All edits of one session are one step of the document's history. */
  readonly onEdit: (text: string, session: object) => void;
  /** The person leaves the entry as it was before the session. */
  readonly onAbandon: (session: object) => void;
  /** The session is over, or there was none. */
  readonly onLeave?: () => void;
}

export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/**
 * One entry on the page, for the keyboard first. A person *stands* on a cell (arrows move on, Enter or F2
 * begins to edit, a typed letter replaces the text) or *edits* it (arrows move in the text, Enter keeps it
 * and goes on as far as its table, Escape leaves it as it was, Tab keeps it and goes to the next cell).
 *
 * Every letter is handed on as it is typed; the cell itself holds nothing but the text on the screen.
 */
export class EntryCell {
  readonly control: Control;
  private readonly options: EntryCellOptions;
  private session: object | undefined;
  /** The text that the document holds, to be shown as soon as nobody edits. */
  private text = "";
  private choices: readonly string[] = [];
  private editing = false;
  private describedBy: string | undefined;

  constructor(options: EntryCellOptions) {
    this.options = options;
    this.control = createControl(options);
    this.control.dataset["cell"] = "";
    if (options.formula && !(this.control instanceof HTMLSelectElement)) markFormula(this.control, options.formula);
    cells.set(this.control, this);
    this.control.addEventListener("input", () => this.typed());
    this.control.addEventListener("keydown", (event) => this.pressed(event as KeyboardEvent));
    this.control.addEventListener("mousedown", (event) => this.pressedDown(event as MouseEvent));
    this.control.addEventListener("focus", () => this.stand());
    this.control.addEventListener("blur", () => this.endEditing());
  }

  /** Of the edits that were made since the person began. */
  get currentSession(): object | undefined {
    return this.session;
  }

  get isEdited(): boolean {
    return this.editing;
  }

  setLabel(label: string): void {
    setAttribute(this.control, "aria-label", label);
  }

  /** Shows what the document holds; while a person edits, what is being typed stays. */
  show(text: string): void {
    this.text = text;
    if (this.isEdited && this.control.value !== text && !(this.control instanceof HTMLSelectElement)) return;
    if (this.control instanceof HTMLSelectElement) this.offer(this.control);
    if (this.control.value !== text) this.control.value = text;
    if (this.control === focusedNear(this.control) && !this.isEdited) this.selectAll();
    fitHeight(this.control);
  }

  /** What can be chosen, and what nothing is called. */
  setChoices(choices: readonly string[]): void {
    if (choices.length === this.choices.length && choices.every((choice, i) => choice === this.choices[i])) return;
    this.choices = choices;
    if (this.control instanceof HTMLSelectElement) this.offer(this.control);
  }

  /** Marks the entry as one that could not be used; `describedBy` is the id of the element that says why. */
  setProblem(describedBy: string | undefined): void {
    if (describedBy === this.describedBy) return;
    this.describedBy = describedBy;
    setAttribute(this.control, "aria-invalid", describedBy === undefined ? undefined : "true");
    setAttribute(this.control, "aria-describedby", describedBy);
  }

  /** What was typed so far is kept. */
  endEditing(): void {
    this.standAgain();
    this.show(this.text);
    this.options.onLeave?.();
  }

  private startEditing(): void {
    // What is typed may be shorter than what was there: the rows beneath stay where they are.
    if (!this.isEdited && this.control.offsetHeight > 0) this.control.style.minHeight = `${this.control.offsetHeight}px`;
    this.editing = true;
    this.control.dataset["editing"] = "";
    this.session ??= {};
  }

  private standAgain(): void {
    this.editing = false;
    delete this.control.dataset["editing"];
    this.control.style.removeProperty("min-height");
    this.session = undefined;
  }

  private typed(): void {
    this.startEditing();
    fitHeight(this.control);
    this.options.onEdit(this.control.value, this.session as object);
  }

  private abandon(): void {
    const { session } = this;
    this.standAgain();
    if (session !== undefined) this.options.onAbandon(session);
    this.show(this.text);
    this.selectAll();
    this.options.onLeave?.();
  }

  private stand(): void {
    if (!this.isEdited) this.selectAll();
  }

  /** The first click stands on the cell, the second puts the caret where it points; a drag out of it does neither. */
  private pressedDown(event: MouseEvent): void {
    if (this.control instanceof HTMLSelectElement || event.shiftKey) return;
    const stood = this.control === focusedNear(this.control);
    const released = (up: MouseEvent) => {
      if (up.composedPath()[0] !== this.control) return;
      if (stood) this.startEditing();
      else up.preventDefault();
    };
    document.addEventListener("mouseup", released, { once: true, capture: true });
  }

  private pressed(event: KeyboardEvent): void {
    if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
    const move = this.isEdited ? this.moveWhileEditing(event) : moves[event.key];
    if (event.key === "Escape" && this.isEdited) {
      event.preventDefault();
      this.abandon();
    } else if (move !== undefined) {
      event.preventDefault();
      this.endEditing();
      moveFrom(this.control, move, event.key === "Enter");
    } else if (!this.isEdited && (event.key === "Enter" || event.key === "F2")) {
      event.preventDefault();
      this.beginByKey();
    }
  }

  private moveWhileEditing({ key, shiftKey }: KeyboardEvent): Direction | undefined {
    const isLong = this.control instanceof HTMLTextAreaElement;
    if (key === "Enter" && !(isLong && shiftKey)) return shiftKey ? "up" : "down";
    return !isLong && (key === "ArrowUp" || key === "ArrowDown") ? moves[key] : undefined;
  }

  private beginByKey(): void {
    if (this.control instanceof HTMLSelectElement) {
      // Not everywhere; without it the arrow keys with Alt open the list.
      if ("showPicker" in this.control) this.control.showPicker();
      return;
    }
    this.startEditing();
    const end = this.control.value.length;
    this.control.setSelectionRange(end, end);
  }

  private selectAll(): void {
    if (!(this.control instanceof HTMLSelectElement)) this.control.select();
  }

  private offer(select: HTMLSelectElement): void {
    const all = this.choices.includes(this.text) ? this.choices : [...this.choices, this.text];
    const options = [...select.options];
    if (all.length === options.length && all.every((choice, i) => choice === options[i]?.value)) return;
    select.replaceChildren(...all.map((choice) => new Option(choice, choice)));
    select.value = this.text;
  }
}

/** The cell that this element belongs to. */
export function cellOf(element: Element | null): EntryCell | undefined {
  return element === null ? undefined : cells.get(element);
}

const cells = new WeakMap<Element, EntryCell>();

const moves: Readonly<Record<string, Direction>> = {
  ArrowUp: "up",
  ArrowDown: "down",
  ArrowLeft: "left",
  ArrowRight: "right",
  Home: "first",
  End: "last",
};

function createControl({ kind, label, width }: EntryCellOptions): Control {
  const common = { "aria-label": label, style: `--ch: ${width}` };
  if (kind === "choice") return html("select", common);
  const typed = { ...common, spellcheck: "false", autocomplete: "off", autocapitalize: "off" };
  return kind === "long" ? html("textarea", { ...typed, rows: 1 }) : html("input", { ...typed, type: "text" });
}

const fitsByItself = typeof CSS !== "undefined" && CSS.supports?.("field-sizing", "content");

/** Browsers without `field-sizing` get as many lines as the text needs at its usual width. */
function fitHeight(control: Control): void {
  if (fitsByItself || !(control instanceof HTMLTextAreaElement)) return;
  const width = Number(control.style.getPropertyValue("--ch")) || 20;
  const lines = control.value.split("\n").reduce((total, line) => total + Math.max(1, Math.ceil(line.length / width)), 0);
  if (control.rows !== lines) control.rows = lines;
}
