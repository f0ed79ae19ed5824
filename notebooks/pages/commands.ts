import { capitalise } from "../../lib/base/capitalise.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { sameShop } from "../../lib/document/sameShop.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute } from "../inputs/html.ts";
import { command } from "./command.ts";
import type { KeptSetup } from "./keeper.ts";
import { loadPart } from "./loadPart.ts";

/** What the commands at the head of the sheet do. */
export interface CommandActs {
  document(): SetupDocument;
  open(document: SetupDocument, what: string): void;
  openFile(): void;
  save(): void;
  saveAs(): void;
  undo(): void;
  redo(): void;
  kept(): Promise<readonly KeptEntry[]>;
  goTo(id: string): void;
  forget(id: string): Promise<void>;
  /** The list of what leaves to other programs, and the form for what comes from them. */
  takeOutList(leave: () => void): Promise<readonly HTMLElement[]>;
  bringInForm(leave: () => void): Promise<readonly HTMLElement[]>;
  guide(from: HTMLElement): void;
  /** What the entry is that a person stands on. */
  aboutEntry(): void;
}

/** A setup that the browser keeps, for the list. */
export interface KeptEntry {
  readonly setup: KeptSetup;
  readonly where: "here" | "in another tab" | "put away";
}

const templates: readonly (readonly [name: string, what: string, make: (present: SetupDocument) => SetupDocument])[] = [
  ["blank", "new setup", ({ unit }) => newDocument(unit)],
  ["same shop: its tools, spacers and machine", "new setup of the same shop", sameShop],
];

/** The commands; what they ask opens in a line beneath them. */
export function createCommands(acts: CommandActs): HTMLElement {
  const panel = html("div", { class: "asked", id: "asked", hidden: true });
  const openers: HTMLElement[] = [];
  const close = () => {
    panel.hidden = true;
    for (const opener of openers) setAttribute(opener, "aria-expanded", "false");
  };
  const opener = (name: string, fill: () => Promise<readonly HTMLElement[]> | readonly HTMLElement[]) => {
    let isFilling = false;
    const button = command(name, async () => {
      // Pressed again before it is open, it opens once.
      if (isFilling) return;
      const isOpen = button.getAttribute("aria-expanded") === "true";
      close();
      if (isOpen) return;
      isFilling = true;
      const cannot: HTMLElement[] = [];
      const filled = await loadPart(
        async () => fill(),
        (words) => cannot.push(html("p", { class: "wrong", role: "alert" }, words), act("close", leave)),
      );
      isFilling = false;
      panel.replaceChildren(...(filled ?? cannot));
      panel.hidden = false;
      setAttribute(button, "aria-expanded", "true");
      panel.querySelector<HTMLElement>("textarea, button")?.focus();
    });
    setAttribute(button, "aria-expanded", "false");
    setAttribute(button, "aria-controls", panel.id);
    openers.push(button);
    return button;
  };
  /** Closed, and the focus back on what has opened it. */
  const leave = () => {
    const from = openers.find((each) => each.getAttribute("aria-expanded") === "true");
    close();
    from?.focus();
  };
  panel.addEventListener("keydown", (event) => {
    if (event.key === "Escape") leave();
  });
  const opening = (name: string, what: string, make: () => SetupDocument) =>
    act(name, () => {
      leave();
      acts.open(make(), what);
    });
  const begin = () => {
    const examples = html("ul", { class: "examples" });
    void showExamples(examples);
    return [
      ...templates.map(([name, what, make]) => opening(name, what, () => make(acts.document()))),
      html("p", { class: "hint" }, "Or a job of ours that shows one thing:"),
      examples,
    ];
  };
  /** They come after the templates, which somebody who knows the keys has taken by then. */
  const showExamples = async (list: HTMLElement) => {
    const part = await loadPart(
      () => import("./demo.ts"),
      (words) => list.replaceChildren(html("li", { class: "wrong", role: "alert" }, words)),
    );
    if (part === undefined) return;
    const { exampleDocument, exampleNames } = part;
    list.replaceChildren(
      ...exampleNames.map((name) => {
        const { title, note } = exampleDocument(name);
        return html(
          "li",
          {},
          opening(title, `example “${title}”`, () => exampleDocument(name)),
          " ",
          html("span", { class: "hint" }, lessonOf(note)),
        );
      }),
    );
  };
  const guide: HTMLButtonElement = command("guide", () => acts.guide(guide));
  return html(
    "nav",
    { class: "commands", "aria-label": "Setup" },
    opener("new", begin),
    command("open", acts.openFile),
    command("save", acts.save, "Control+S"),
    command("save as", acts.saveAs),
    opener("kept", () => keptList(acts, close)),
    opener("bring in", () => acts.bringInForm(leave)),
    opener("take out", () => acts.takeOutList(leave)),
    command("undo", acts.undo, "Control+Z"),
    command("redo", acts.redo, "Control+Y"),
    command("print", () => window.print()),
    guide,
    command("about an entry", acts.aboutEntry, "F1"),
    panel,
  );
}

/** The first sentence of what an example teaches. */
function lessonOf(note: string): string {
  const [lesson = ""] = note.replace(/^What it teaches: /, "").split(/(?<=\.)\s/);
  return capitalise(lesson);
}

/** Every setup that this browser keeps: when it was last changed, and the way back to it. */
async function keptList(acts: CommandActs, close: () => void): Promise<HTMLElement[]> {
  const entries = await acts.kept();
  const lines = entries.map(({ setup: { id, title, changed }, where }) => {
    const name = title.trim() === "" ? "without a title" : title;
    const open = act(where === "in another tab" ? `copy of “${name}”` : `“${name}”`, () => acts.goTo(id));
    const forget = act("let go", async () => {
      await acts.forget(id);
      line.remove();
    });
    setAttribute(forget, "aria-label", `let go of “${name}”`);
    const when = html("span", { class: "hint" }, new Date(changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" }));
    const line =
      where === "here"
        ? html("li", {}, html("span", {}, `“${name}”`), " ", when, " ", html("span", { class: "hint" }, "open here"))
        : html(
            "li",
            {},
            open,
            " ",
            when,
            " ",
            ...(where === "put away" ? [forget] : [html("span", { class: "hint" }, "open in another tab")]),
          );
    return line;
  });
  const words =
    entries.length === 0
      ? "This browser keeps no setup yet: the first change makes it keep one."
      : "Kept in this browser, with the way to each state. What is opened takes the place of this one, which stays kept.";
  return [html("p", { class: "hint" }, words), html("ul", {}, ...lines), act("close", close)];
}
