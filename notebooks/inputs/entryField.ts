import type { Outcome, Problem } from "../../lib/base/outcome.ts";
import { describeInText } from "./describeInText.ts";
import { describeEntries } from "./entryAbout.ts";
import { EntryCell } from "./entryCell.ts";
import type { FormulaPlace } from "./formulaPlace.ts";
import { html, setAttribute, setText } from "./html.ts";

export interface EntryFieldOptions {
  /** Path of the entry in the document: `machine.lostMotion.x`. */
  readonly place: string;
  readonly label: string;
  readonly hint?: string;
  readonly kind?: "text" | "choice" | "long";
  readonly choices?: readonly string[];
  /** Widest text that is usual, in characters. */
  readonly width: number;
  readonly formula?: FormulaPlace;
  /** How a text was understood. Nothing for an entry that is only a name or a note. */
  readonly understand?: (text: string) => Outcome<string>;
  /** @returns why the document cannot hold the text, if it cannot */
  readonly onEdit: (text: string, session: object) => string | undefined;
  readonly onAbandon: (session: object) => void;
}

/** One entry by itself: its name, what was typed, and beneath it how that was understood, or what is wrong with it. */
export class EntryField {
  readonly element: HTMLElement;
  readonly place: string;
  readonly label: string;
  private readonly cell: EntryCell;
  private readonly words: HTMLElement;
  private readonly understand: ((text: string) => Outcome<string>) | undefined;
  private text = "";
  private problems: readonly Problem[] = [];
  private refusal: string | undefined;

  constructor({ place, label, hint, kind = "text", choices, width, formula, understand, onEdit, onAbandon }: EntryFieldOptions) {
    this.place = place;
    this.label = label;
    this.understand = understand;
    const id = place.replaceAll(".", "-");
    this.words = html("small", { id: `${id}-words` });
    this.cell = new EntryCell({
      kind,
      label,
      width,
      formula,
      onEdit: (text, session) => {
        this.refusal = onEdit(text, session);
        this.showWords();
      },
      onAbandon,
      onLeave: () => {
        this.refusal = undefined;
        this.showWords();
      },
    });
    if (choices) this.cell.setChoices(choices);
    // The visible name is the name: no aria-label beside it.
    this.cell.control.removeAttribute("aria-label");
    this.cell.control.id = id;
    this.element = html("div", { class: "field", title: hint }, html("label", { for: id }, label), this.cell.control, this.words);
    describeEntries(this.element, () => ({ place, label, hint: hint ?? "" }));
  }

  show(text: string): void {
    this.text = text;
    this.cell.show(text);
    this.showWords();
  }

  /** What the document holds, as it is shown. */
  get shown(): string {
    return this.text;
  }

  showProblems(problems: readonly Problem[]): void {
    this.problems = problems.filter(({ at }) => at === this.place);
    this.showWords();
  }

  focus(): void {
    this.cell.control.focus();
  }

  private showWords(): void {
    const wrong = this.refusal ?? this.problems.map((problem) => describeInText(problem, this.text)).join(" ");
    setAttribute(this.element, "data-problem", wrong === "" ? undefined : "");
    this.cell.setProblem(wrong === "" ? undefined : this.words.id);
    const understood = this.text.trim() === "" ? undefined : this.understand?.(this.text);
    setText(this.words, wrong !== "" ? wrong : understood?.ok && understood.value !== this.text ? understood.value : "");
  }
}
