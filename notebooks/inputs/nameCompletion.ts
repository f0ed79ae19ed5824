import { type WordAtCaret, wordAt } from "../../lib/formula/wordAt.ts";
import { focusedNear } from "./focusedNear.ts";
import { type FormulaPlace, formulaPlaceOf } from "./formulaPlace.ts";
import { html, setAttribute, setChildren, setText } from "./html.ts";
import { namesThatFit, type Offer } from "./namesThatFit.ts";
import { placeBeneath } from "./placeBeneath.ts";
import { isTyping } from "./typing.ts";

export type OffersAt = (place: FormulaPlace, kind: WordAtCaret["kind"]) => readonly Offer[];

/** Names shown at a time. */
const mostShown = 8;
/** The list comes when a person pauses for so long, ms: whoever types on never sees it. */
const pause = 250;

type Control = HTMLInputElement | HTMLTextAreaElement;

interface Open {
  readonly control: Control;
  readonly word: WordAtCaret;
  readonly offers: readonly Offer[];
}

/**
 * Names that fit the word that is being typed into a formula, in a list beneath the entry. It takes no key before a person has gone into it with the
 * arrow keys, except Escape, which puts it away for as long as that word lasts; Ctrl with the space bar asks for it.
 */
export class NameCompletion {
  private readonly root: HTMLElement;
  private readonly offersAt: OffersAt;
  private readonly box: HTMLElement;
  private readonly list = html("ul", { id: "names-that-fit", role: "listbox", "aria-label": "Names that fit" });
  private readonly more = html("p");
  private readonly told = html("p", { class: "unseen", role: "status" });
  private readonly items: HTMLLIElement[] = [];
  private open: Open | undefined;
  private active = -1;
  private frame = 0;
  private waiting: ReturnType<typeof setTimeout> | undefined;
  /** Where the word begins for which the list was put away. */
  private putAway: { readonly control: Control; readonly start: number } | undefined;

  /** @param root every entry that takes formulas lies in it (see markFormula) */
  constructor(root: HTMLElement, offersAt: OffersAt) {
    this.root = root;
    this.offersAt = offersAt;
    this.box = html("div", { class: "names-that-fit", hidden: true }, this.list, this.more);
    root.append(this.box, this.told);
    root.addEventListener("input", ({ target }) => this.typed(target));
    root.addEventListener("keydown", (event) => this.pressed(event), { capture: true });
    root.addEventListener("focusout", () => this.forget());
    root.addEventListener("mousedown", ({ target }) => !this.box.contains(target as Node) && this.close());
    // Only one who means the list presses a key of the mouse on it; the entry keeps the focus.
    this.box.addEventListener("mousedown", (event) => event.preventDefault());
    this.box.addEventListener("click", ({ target }) => {
      const index = this.items.findIndex((item) => item.contains(target as Node));
      if (index >= 0) this.take(index);
    });
  }

  private typed(target: EventTarget | null): void {
    clearTimeout(this.waiting);
    const place = formulaPlaceOf(target);
    if (place === undefined) return;
    const control = target as Control;
    const word = wordOf(control);
    if (word === undefined || word.start !== this.putAway?.start || control !== this.putAway.control) this.putAway = undefined;
    if (word === undefined || word.word === "" || this.putAway !== undefined) {
      this.close();
      return;
    }
    // What is open follows every letter; what is not yet open waits until somebody hesitates.
    if (this.open !== undefined) this.show(control, place, word);
    else this.waiting = setTimeout(() => this.show(control, place, word), pause);
  }

  private pressed(event: KeyboardEvent): void {
    if (event.isComposing) return;
    if (event.key === " " && event.ctrlKey && !event.altKey && !event.metaKey && !event.shiftKey) this.askedFor(event);
    else if (this.open !== undefined && !event.ctrlKey && !event.altKey && !event.metaKey && !event.shiftKey) this.pressedInList(event);
  }

  private askedFor(event: KeyboardEvent): void {
    const place = formulaPlaceOf(event.target);
    const control = event.target as Control;
    if (place === undefined || control.dataset["editing"] === undefined) return;
    consume(event);
    this.putAway = undefined;
    const word = wordOf(control);
    if (word !== undefined) this.show(control, place, word);
  }

  private pressedInList(event: KeyboardEvent): void {
    const { open } = this;
    if (open === undefined) return;
    const count = Math.min(open.offers.length, mostShown);
    // Nobody chooses from a list that is out of sight with its entry.
    if (this.box.style.visibility === "hidden" && !isTyping(event)) this.close();
    else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      consume(event);
      // Beyond either end stands the text itself, with nothing chosen.
      const by = event.key === "ArrowDown" ? 1 : -1;
      this.choose(((this.active + 1 + by + count + 1) % (count + 1)) - 1);
    } else if (event.key === "Enter" && this.active >= 0) {
      consume(event);
      this.take(this.active);
    } else if (event.key === "Escape") {
      consume(event);
      this.putAway = { control: open.control, start: open.word.start };
      this.close();
    } else if (!isTyping(event)) this.close();
  }

  private show(control: Control, place: FormulaPlace, word: WordAtCaret): void {
    const offers = namesThatFit(word.word, this.offersAt(place, word.kind));
    if (offers.length === 0 || focusedNear(control) !== control) {
      this.close();
      return;
    }
    this.open = { control, word, offers };
    const shown = offers.slice(0, mostShown);
    while (this.items.length < shown.length)
      this.items.push(html("li", { id: `name-that-fits-${this.items.length}`, role: "option" }, html("span"), html("small")));
    shown.forEach(({ name, about }, i) => {
      const [first, second] = (this.items[i] as HTMLLIElement).children as unknown as [HTMLElement, HTMLElement];
      setText(first, name);
      setText(second, about());
    });
    setChildren(this.list, this.items.slice(0, shown.length));
    const left = offers.length - shown.length;
    setText(this.more, `${left > 0 ? `${left} more; ` : ""}↓ goes in, Enter takes, Escape puts away`);
    setText(this.told, offers.length === 1 ? "1 name fits" : `${offers.length} names fit`);
    // Within the landmark of the entry, where readers of the page look for it.
    const section = control.closest("section") ?? this.root;
    if (this.box.parentElement !== section) section.append(this.box);
    this.box.hidden = false;
    setAttribute(control, "aria-controls", this.list.id);
    if (control instanceof HTMLInputElement) setAttribute(control, "aria-expanded", "true");
    this.choose(-1);
    this.follow(control);
  }

  /** The page may move beneath what is open: what comes into sight is filled, rows grow. */
  private follow(control: Control): void {
    cancelAnimationFrame(this.frame);
    // While the entry is out of sight, so is its list; both come back together.
    this.box.style.visibility = placeBeneath(this.box, control) ? "" : "hidden";
    this.frame = requestAnimationFrame(() => this.follow(control));
  }

  private choose(index: number): void {
    this.active = index;
    this.items.forEach((item, i) => {
      setAttribute(item, "aria-selected", String(i === index));
    });
    const control = this.open?.control;
    if (control !== undefined) setAttribute(control, "aria-activedescendant", index < 0 ? undefined : this.items[index]?.id);
  }

  private take(index: number): void {
    const offer = this.open?.offers[index];
    if (this.open === undefined || offer === undefined) return;
    const { control, word } = this.open;
    const closing = control.value.slice(word.end).trimStart().startsWith("(") ? "" : (offer.closing ?? "");
    const opening = closing.slice(0, -1);
    control.setRangeText(offer.name + closing, word.start, word.end, "end");
    const caret = word.start + offer.name.length + opening.length;
    control.setSelectionRange(caret, caret);
    this.close();
    control.dispatchEvent(new InputEvent("input", { bubbles: true, inputType: "insertReplacementText" }));
    // The word is as it should be: no list of longer ones comes up behind it.
    clearTimeout(this.waiting);
  }

  private forget(): void {
    clearTimeout(this.waiting);
    this.putAway = undefined;
    this.close();
  }

  private close(): void {
    const control = this.open?.control;
    if (control === undefined) return;
    this.choose(-1);
    cancelAnimationFrame(this.frame);
    this.open = undefined;
    this.box.hidden = true;
    setText(this.told, "");
    setAttribute(control, "aria-controls", undefined);
    if (control instanceof HTMLInputElement) setAttribute(control, "aria-expanded", "false");
  }
}

function wordOf(control: Control): WordAtCaret | undefined {
  const { selectionStart, selectionEnd, value } = control;
  return selectionStart === null || selectionStart !== selectionEnd ? undefined : wordAt(value, selectionStart);
}

function consume(event: Event): void {
  event.preventDefault();
  event.stopPropagation();
}
