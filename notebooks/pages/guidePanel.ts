import { act } from "../inputs/act.ts";
import { html, setAttribute } from "../inputs/html.ts";
import { markdown } from "../inputs/markdown.ts";
import { entrySlipText } from "./entrySlip.ts";
import type { SectionName } from "./layout.ts";
import { loadPart } from "./loadPart.ts";

export interface GuideActs {
  goTo(section: SectionName): void;
  /** Jobs of ours, each with its note. */
  readonly examples: () => Promise<readonly Example[]>;
}

interface Example {
  readonly title: string;
  readonly note: string;
  readonly open: () => void;
}

/** Where it is noted in this browser that the walk has been offered. */
const offeredKey = "datumbook-walk-offered";

/**
 * The guide, in a place of its own at the head of the sheet: the walk through the example, texts by person, the words, the mathematics, the keys, the examples;
 * and a word looked up in all of them. What it says is loaded when it is asked for.
 */
export class GuidePanel {
  readonly element = html("div", { class: "guide", role: "complementary", id: "guide", "aria-label": "Guide", hidden: true });
  private readonly acts: GuideActs;
  private readonly body = html("div", { class: "guide-text", tabindex: 0, role: "region", "aria-label": "Text of the guide" });
  private readonly topics = html("ul", { class: "topics" });
  private readonly word = html("input", { type: "search", "aria-label": "Look up a word in the guide", placeholder: "look up a word" });
  private from: HTMLElement | undefined;

  constructor(acts: GuideActs) {
    this.acts = acts;
    this.word.addEventListener("input", () => void this.lookUp());
    this.element.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.stopPropagation();
      this.close();
    });
  }

  /** On a first visit, in a line: it goes away for good when it was taken or put away. */
  offerWalk(): void {
    if (remembered()) return;
    const begin = act("take the walk", () => void this.walk());
    this.show(
      html(
        "p",
        { class: "offer" },
        "First time here? A short walk through an example shows how a sheet is read. ",
        begin,
        " ",
        this.putAway("put away"),
      ),
    );
  }

  async toggle(from: HTMLElement | undefined): Promise<void> {
    if (!this.element.hidden && this.element.contains(this.topics)) {
      this.close();
      return;
    }
    this.from = from;
    const topics = await this.loaded(() => this.allTopics());
    if (topics === undefined) return;
    this.topics.replaceChildren(...topics.map(({ title, open }) => html("li", {}, this.topic(title, open))));
    this.show(html("div", { class: "guide-head" }, this.word, this.putAway("close the guide")), this.topics, this.body);
    (this.topics.querySelector("button") as HTMLElement).click();
    this.word.focus();
  }

  private async allTopics(): Promise<{ readonly title: string; readonly open: () => readonly Node[] | undefined }[]> {
    const [{ guideTexts }, { default: checks }, { entryHelp, helpedPlaces }, examples] = await Promise.all([
      import("../guide/texts.ts"),
      import("virtual:published-checks"),
      import("../guide/entryHelp.ts"),
      this.acts.examples(),
    ]);
    return [
      { title: "Examples", open: () => this.gallery(examples) },
      ...guideTexts.map(({ title, text }) => ({ title, open: () => markdown(text) })),
      {
        title: "Entries, usual values",
        open: () => helpedPlaces.flatMap((place) => entrySlipText({ label: inWords(place), hint: "" }, entryHelp(place))),
      },
      { title: "Published checks", open: () => markdown(checks) },
    ];
  }

  private gallery(examples: readonly Example[]): Node[] {
    const jobs = examples.map(({ title, note, open }) => {
      const button = act(title, () => {
        this.close();
        open();
      });
      return html("li", {}, button, html("p", {}, note));
    });
    const again = act("take the walk through the first example", () => void this.walk());
    return [html("h2", {}, "Examples"), html("p", {}, again), html("ul", { class: "gallery" }, ...jobs)];
  }

  private topic(title: string, open: () => readonly Node[] | undefined): HTMLButtonElement {
    const button = html("button", { type: "button", class: "act topic", "aria-pressed": "false" }, title);
    button.addEventListener("click", () => {
      for (const other of this.topics.querySelectorAll("button")) setAttribute(other, "aria-pressed", String(other === button));
      this.body.replaceChildren(...(open() ?? []));
      this.body.scrollTop = 0;
    });
    return button;
  }

  private async lookUp(): Promise<void> {
    const { lookUp } = await import("../guide/texts.ts");
    const found = lookUp(this.word.value);
    for (const other of this.topics.querySelectorAll("button")) setAttribute(other, "aria-pressed", "false");
    const lines = found
      .slice(0, mostFound)
      .map(({ title, under, line }) =>
        html("li", {}, html("small", {}, under === "" ? title : `${title}: ${under}`), html("span", {}, line)),
      );
    const count =
      this.word.value.trim() === ""
        ? "Type a word."
        : found.length === 0
          ? "No text has it."
          : `${found.length} ${found.length === 1 ? "place" : "places"}.`;
    this.body.replaceChildren(html("p", { class: "hint", role: "status" }, count), html("ul", { class: "found" }, ...lines));
  }

  private async walk(): Promise<void> {
    remember();
    const part = await this.loaded(() => import("../guide/walk.ts"));
    if (part === undefined) return;
    const { walk } = part;
    const words = html("p", { class: "walk-words", role: "status" });
    const back = act("back", () => go(-1));
    const on = act("on", () => go(1));
    let at = 0;
    const go = (by: number) => {
      at += by;
      const step = walk[at];
      if (step === undefined) {
        this.close();
        return;
      }
      words.replaceChildren(html("b", {}, `${at + 1} of ${walk.length} · `), step.words);
      back.disabled = at === 0;
      on.textContent = at === walk.length - 1 ? "done" : "on";
      this.acts.goTo(step.section);
      on.focus({ preventScroll: true });
    };
    this.show(html("div", { class: "walk" }, words, html("p", { class: "acts" }, back, on, this.putAway("end the walk"))));
    go(0);
  }

  /** What does not come is told in the place of the guide. */
  private loaded<T>(load: () => Promise<T>): Promise<T | undefined> {
    return loadPart(load, (words) => this.show(html("p", { class: "wrong", role: "alert" }, words), this.putAway("close the guide")));
  }

  private putAway(name: string): HTMLButtonElement {
    return act(name, () => this.close());
  }

  private show(...content: readonly Node[]): void {
    this.element.replaceChildren(...content);
    this.element.toggleAttribute("data-walking", this.element.querySelector(".walk") !== null);
    this.element.hidden = false;
  }

  private close(): void {
    remember();
    this.element.hidden = true;
    this.element.replaceChildren();
    this.from?.focus();
    this.from = undefined;
  }
}

/** Lines that are shown of what was found. */
const mostFound = 40;

/** `machine.lostMotion` as `machine, lost motion`. */
function inWords(place: string): string {
  return place.replace(/\./g, ", ").replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** A browser that keeps nothing is asked each time. */
function remembered(): boolean {
  try {
    return localStorage.getItem(offeredKey) !== null;
  } catch {
    return false;
  }
}

function remember(): void {
  try {
    localStorage.setItem(offeredKey, "yes");
  } catch {
    // Then it is offered again.
  }
}
