import { focusedNear } from "../inputs/focusedNear.ts";
import { html, setAttribute, setText } from "../inputs/html.ts";
import { type Findable, findIn } from "./findIn.ts";
import type { SectionName } from "./layout.ts";

/** The key that leads here from everywhere: no browser has a use of its own for it. */
const finderKey = "F8";

export function isFinderKey({ key, ctrlKey, altKey, metaKey, shiftKey }: KeyboardEvent): boolean {
  return key === finderKey && !ctrlKey && !altKey && !metaKey && !shiftKey;
}

/** Places that are listed at a time. */
const mostListed = 12;

export interface FinderOptions {
  /** Everything that can be found, as it is now. */
  readonly all: () => Iterable<Findable>;
  /** The number of a section on the sheet. */
  readonly numberOf: (section: SectionName) => number;
}

/**
 * One line of the sheet in which a name, a label or a value is typed; what has it is listed beneath with the number of its section, and gone to.
 * The first of them is taken by Enter, others by the arrow keys; Escape leads back to where one was.
 */
export class Finder {
  readonly field = html("input", {
    type: "text",
    role: "combobox",
    class: "finder",
    placeholder: `find (${finderKey})`,
    "aria-label": "Find in the notebook",
    "aria-keyshortcuts": finderKey,
    "aria-autocomplete": "list",
    "aria-expanded": "false",
    "aria-controls": "found-places",
    spellcheck: "false",
    autocomplete: "off",
  });
  /** Beneath the line of the field. */
  readonly found: HTMLElement;
  private readonly list = html("ul", { id: "found-places", role: "listbox", "aria-label": "Places found" });
  private readonly told = html("p", { class: "hint", role: "status" });
  private readonly options: FinderOptions;
  private places: readonly Findable[] = [];
  private active = 0;
  private from: HTMLElement | undefined;

  constructor(options: FinderOptions) {
    this.options = options;
    this.found = html("div", { class: "found-places", hidden: true }, this.list, this.told);
    this.field.addEventListener("input", () => this.look());
    this.field.addEventListener("keydown", (event) => this.pressed(event));
    this.field.addEventListener("blur", () => this.close());
    // Only one who means a place presses a key of the mouse on it; the field keeps the focus until then.
    this.found.addEventListener("mousedown", (event) => event.preventDefault());
    this.list.addEventListener("click", ({ target }) => {
      const index = [...this.list.children].findIndex((item) => item.contains(target as Node));
      if (index >= 0) this.take(index);
    });
  }

  /** Puts the focus into the field; Escape leads back. */
  open(): void {
    const focused = focusedNear(this.field);
    if (focused === this.field) return;
    this.from = focused ?? undefined;
    this.field.focus();
    this.field.select();
    this.look();
  }

  /** What is listed follows what the sheet shows: no old number stays. */
  refresh(): void {
    if (!this.found.hidden) this.look();
  }

  private pressed(event: KeyboardEvent): void {
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    const count = this.list.childElementCount;
    switch (event.key) {
      case "ArrowDown":
      case "ArrowUp":
        if (count > 0) this.choose((this.active + (event.key === "ArrowDown" ? 1 : -1) + count) % count);
        break;
      case "Enter":
        this.take(this.active);
        break;
      case "Escape":
        this.field.value = "";
        this.close();
        (this.from?.isConnected ? this.from : undefined)?.focus();
        break;
      default:
        return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  private look(): void {
    const { value } = this.field;
    this.places = findIn(value, this.options.all());
    const isAsked = value.trim() !== "";
    this.found.hidden = !isAsked;
    setAttribute(this.field, "aria-expanded", String(isAsked && this.places.length > 0));
    this.list.replaceChildren(...this.places.slice(0, mostListed).map((place, i) => this.itemOf(place, i)));
    const count = this.places.length;
    const more = count > mostListed ? `, the first ${mostListed} of them here` : "";
    setText(
      this.told,
      count === 0
        ? `Nothing here has “${value.trim()}” in its name, its label or what it shows.`
        : `${count} ${count === 1 ? "place" : "places"}${more}: Enter goes there, the arrows choose, Escape leads back.`,
    );
    this.choose(0);
  }

  private itemOf({ section, name, label, text }: Findable, index: number): HTMLElement {
    const number = String(this.options.numberOf(section));
    return html(
      "li",
      { id: `found-place-${index}`, role: "option" },
      html("span", { class: "balloon" }, number),
      html("b", {}, name),
      html("span", {}, label),
      html("span", { class: "shows" }, text()),
    );
  }

  private choose(index: number): void {
    this.active = index;
    [...this.list.children].forEach((item, i) => {
      setAttribute(item, "aria-selected", String(i === index));
    });
    const chosen = this.list.children[index];
    setAttribute(this.field, "aria-activedescendant", chosen?.id);
    chosen?.scrollIntoView?.({ block: "nearest" });
  }

  private take(index: number): void {
    const place = this.places[index];
    if (place === undefined) return;
    this.field.value = "";
    this.from = undefined;
    this.close();
    place.goTo();
  }

  private close(): void {
    this.places = [];
    this.found.hidden = true;
    this.list.replaceChildren();
    setAttribute(this.field, "aria-expanded", "false");
    setAttribute(this.field, "aria-activedescendant", undefined);
  }
}
