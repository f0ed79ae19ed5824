import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { sameShop } from "../../lib/document/sameShop.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { type ExchangeKind, exchangeKinds } from "../../lib/exchange/bringIn.ts";
import { type ExchangedTable, exchangedTables } from "../../lib/exchange/resultTables.ts";
import type { ExchangeFormat, TakeOutOptions } from "../../lib/exchange/takeOut.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setText } from "../inputs/html.ts";
import { command } from "./command.ts";
import { exampleDocument, exampleNames } from "./demo.ts";
import type { KeptSetup } from "./keeper.ts";

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
  takeOut(format: ExchangeFormat, options?: TakeOutOptions): void;
  /** Shows how a text was understood; the reason why it cannot be used at all, empty for none. */
  bringIn(text: string, kind: ExchangeKind | undefined, onTaken: () => void): string;
  readText(file: File): Promise<Outcome<string>>;
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
    const button = command(name, async () => {
      const isOpen = button.getAttribute("aria-expanded") === "true";
      close();
      if (isOpen) return;
      panel.replaceChildren(...(await fill()));
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
    const examples = exampleNames.map((name) => {
      const { title, note } = exampleDocument(name);
      return html(
        "li",
        {},
        opening(title, `example “${title}”`, () => exampleDocument(name)),
        " ",
        html("span", { class: "hint" }, lessonOf(note)),
      );
    });
    return [
      ...templates.map(([name, what, make]) => opening(name, what, () => make(acts.document()))),
      html("p", { class: "hint" }, "Or a job of ours that shows one thing:"),
      html("ul", { class: "examples" }, ...examples),
    ];
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
    opener("bring in", () => bringInForm(acts, leave)),
    opener("take out", () => takeOutList(acts, leave)),
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

/** What other programs have written: pasted, or from a file. */
function bringInForm(acts: CommandActs, leave: () => void): HTMLElement[] {
  const text = html("textarea", {
    id: "bring-in-text",
    class: "read-back",
    rows: 4,
    spellcheck: "false",
    autocomplete: "off",
    placeholder: "left X -401.460 Y -170.000",
  });
  const kinds = Object.entries(exchangeKinds).map(([value, words]) => html("option", { value }, words));
  const kind = html("select", { "aria-label": "What the text is" }, html("option", { value: "" }, "find out what it is"), ...kinds);
  const file = html("input", { type: "file", class: "unseen", tabindex: -1, "aria-label": "File to bring in" });
  const reason = html("p", { class: "wrong", role: "alert" });
  const look = (brought: string) => {
    setText(reason, acts.bringIn(brought, kind.value === "" ? undefined : (kind.value as ExchangeKind), leave));
  };
  file.addEventListener("change", async () => {
    const [chosen] = file.files ?? [];
    if (chosen === undefined) return;
    const read = await acts.readText(chosen);
    file.value = "";
    if (read.ok) look(read.value);
    else setText(reason, `“${chosen.name}”: ${read.problems.map(describeProblem).join(" ")}`);
  });
  return [
    html(
      "label",
      { class: "hint", for: text.id },
      "Paste what another program has written, or choose its file. You see how it is understood before anything is taken.",
    ),
    text,
    html("p", { class: "kind-of-text" }, kind),
    reason,
    act("see how it is understood", () => look(text.value)),
    act("choose a file", () => file.click()),
    file,
    act("close", leave),
  ];
}

/** The results as files in open formats. */
function takeOutList(acts: CommandActs, leave: () => void): HTMLElement[] {
  const comma = html("input", { type: "checkbox" });
  const line = (words: string, hint: string, format: ExchangeFormat, table?: ExchangedTable) =>
    html(
      "li",
      {},
      act(words, () => acts.takeOut(format, { decimalMark: comma.checked ? "," : ".", ...(table && { table }) })),
      " ",
      html("span", { class: "hint" }, hint),
    );
  return [
    html(
      "p",
      { class: "hint" },
      "The results of the strategy in use as files, in millimetres and radians. Each figure has SVG and PNG beneath it; “save” keeps the setup itself.",
    ),
    html(
      "ul",
      {},
      line("budgets, XLSX", "a workbook with formulas: change a source, and all results follow", "xlsx"),
      ...(Object.keys(exchangedTables) as ExchangedTable[]).map((table) => line(`${table}, CSV`, tableHints[table], "csv", table)),
      line("all tables, Markdown", "rounded, to read", "markdown"),
      line("results, D-SI", "values with expanded uncertainties for programs, XML", "dsi"),
      line("all results, JSON", "everything that was found, for programs; it has a JSON Schema", "json"),
    ),
    html("label", { class: "hint line" }, comma, " CSV with decimal commas, semicolons between cells"),
    act("close", leave),
  ];
}

const tableHints: Readonly<Record<ExchangedTable, string>> = {
  results: "zero, faces, sizes, deviations, your own cells and every row of your tables, with expanded uncertainties",
  budget: "every source of every result",
  characteristics: "limits, stacks and chances",
  comparison: "the same for every strategy",
};
