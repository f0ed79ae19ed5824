import { lookedAt } from "../../lib/document/operationDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { act } from "../inputs/act.ts";
import { html, setChildren, setText } from "../inputs/html.ts";

/** What a zero cannot do without, in the order in which it is easiest to state. */
const steps = [
  { words: "add a tool", place: "tools", isOpen: ({ tools }) => tools.length === 0 },
  { words: "add an element of the part", place: "part.elements", isOpen: ({ part }) => part.elements.length === 0 },
  { words: "add a touch", place: "touches", isOpen: ({ touches }) => touches.length === 0 },
  { words: "make a strategy of the touches", place: "strategies", isOpen: ({ strategies }) => strategies.length === 0 },
  { words: "put a strategy to use", place: "chosen", isOpen: (document) => lookedAt(document).chosen === "" },
] as const satisfies readonly {
  readonly words: string;
  readonly place: string;
  readonly isOpen: (document: SetupDocument) => boolean;
}[];

export type FirstStep = (typeof steps)[number]["place"];

/** What is still to be stated before there can be a zero, with the way there; away as soon as there is one of each. */
export class FirstSteps {
  readonly element = html("p", { class: "first-steps", hidden: true });
  private readonly words = html("span");
  private readonly buttons: ReadonlyMap<FirstStep, HTMLElement>;

  private isAllOpen = false;

  constructor(go: (to: FirstStep) => void) {
    this.buttons = new Map(steps.map(({ words, place }) => [place, act(words, () => go(place))]));
  }

  show(document: SetupDocument): void {
    const open = steps.filter(({ isOpen }) => isOpen(document));
    this.element.hidden = open.length === 0;
    this.isAllOpen = open.length === steps.length;
    if (open.length === 0) return;
    setText(
      this.words,
      this.isAllOpen
        ? "Nothing of the setup is stated yet. For a zero it takes, in the order that is easiest:"
        : "Before there can be a zero it still takes:",
    );
    setChildren(this.element, [this.words, ...open.map(({ place }) => this.buttons.get(place) as HTMLElement)]);
  }

  /** To the first of them, for a person who has just begun: nothing where something is stated already. */
  focus(): void {
    if (this.isAllOpen) this.element.querySelector("button")?.focus();
  }
}
