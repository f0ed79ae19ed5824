import type { Proposal, ProposedLine } from "../../lib/exchange/proposal.ts";
import { html } from "../inputs/html.ts";
import { openPreview } from "../inputs/previewDialog.ts";

/** Lines that are shown; the rest follows its doubts. */
const mostShown = 300;
const mostLeftOut = 100;

export interface BringInPreviewOptions {
  readonly onTake: (lines: readonly ProposedLine[]) => void;
  /** How it is understood with these layers of a drawing alone; undefined where that cannot be. */
  readonly withLayers: (names: readonly string[]) => Proposal | undefined;
}

/** How a text from outside was understood, line by line: nothing is changed until it is taken, and each line can be left. */
export function previewProposal(proposal: Proposal, { onTake, withLayers }: BringInPreviewOptions): HTMLDialogElement {
  const understood = html("div", { class: "understood" });
  let lines: readonly ProposedLine[] = [];
  let choices: ReadonlyMap<ProposedLine, HTMLInputElement> = new Map();
  const show = (shown: Proposal) => {
    lines = shown.lines;
    choices = new Map(lines.slice(0, mostShown).map((line) => [line, choiceOf(line)]));
    understood.replaceChildren(summaryOf(shown), ...(lines.length === 0 ? [] : [lineTable(lines, choices)]), leftOutList(shown));
  };
  show(proposal);
  const preview = openPreview({
    heading: "How the text was understood",
    content: [
      ...layerChoice(proposal, (names) => {
        const again = withLayers(names);
        if (again !== undefined) show(again);
        preview.take.disabled = lines.length === 0;
        preview.ask("");
      }),
      understood,
    ],
    onRefuse: () => {},
    onTake: () => {
      const taken = lines.filter((line) => choices.get(line)?.checked ?? line.doubt === undefined);
      if (taken.length === 0) {
        preview.ask("Nothing is chosen: leave it, or mark a line.");
        return;
      }
      preview.end();
      onTake(taken);
    },
  });
  preview.take.disabled = lines.length === 0;
  return preview.dialog;
}

function summaryOf({ is, lines, leftOut, notes }: Proposal): HTMLElement {
  const words = [
    `Read as ${is}. ${countWords(lines.length, "thing has a place", "things have a place")} in the setup, ${leftOut.length} left out. Nothing is changed yet.`,
    ...notes,
  ];
  return html("p", { class: "hint", role: "status" }, words.join(" "));
}

/** Of a drawing with several layers: which of them are of the part. */
function layerChoice({ layers = [] }: Proposal, onChoose: (names: readonly string[]) => void): HTMLElement[] {
  if (layers.length < 2) return [];
  const boxes = layers.map(({ name, isTaken }) => {
    const box = html("input", { type: "checkbox" });
    box.checked = isTaken;
    box.addEventListener("change", () => onChoose(boxes.flatMap((each) => (each.box.checked ? [each.name] : []))));
    return { name, box };
  });
  return [
    html(
      "fieldset",
      { class: "layers" },
      html("legend", {}, "Layers of the part: only what is on them is taken"),
      ...boxes.map(({ name, box }, i) =>
        html("label", {}, box, html("span", {}, name === "" ? "without a name" : name, html("small", {}, ` ${layers[i]?.has}`))),
      ),
    ),
  ];
}

function countWords(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

function choiceOf({ at, becomes, doubt }: ProposedLine): HTMLInputElement {
  const choice = html("input", { type: "checkbox", "aria-label": `${at}: ${becomes}` });
  choice.checked = doubt === undefined;
  return choice;
}

function lineTable(lines: readonly ProposedLine[], choices: ReadonlyMap<ProposedLine, HTMLInputElement>): HTMLElement {
  const rows = [...choices].map(([{ at, read, becomes, doubt }, choice]) =>
    html(
      "tr",
      {},
      html("td", { class: "choice" }, choice),
      html("th", { scope: "row" }, at),
      html("td", {}, read),
      html(
        "td",
        { class: "becomes", "data-doubt": doubt !== undefined },
        becomes,
        ...(doubt === undefined ? [] : [html("small", {}, doubt)]),
      ),
    ),
  );
  const more = lines.length - rows.length;
  const caption =
    more > 0
      ? [html("caption", {}, `${rows.length} of ${lines.length} are shown; the others are taken where nothing speaks against it.`)]
      : [];
  const heads = ["take", "where", "read as", "becomes"].map((name) => html("th", { scope: "col" }, name));
  return html(
    "div",
    { class: "frame", tabindex: 0, role: "group", "aria-label": "What was understood, line by line" },
    html("table", {}, ...caption, html("thead", {}, html("tr", {}, ...heads)), html("tbody", {}, ...rows)),
  );
}

function leftOutList({ leftOut }: Proposal): HTMLElement {
  const items = leftOut.slice(0, mostLeftOut).map(({ at, what }) => html("li", {}, at === "" ? what : `${at}: ${what}`));
  if (leftOut.length > mostLeftOut) items.push(html("li", {}, `and ${leftOut.length - mostLeftOut} more`));
  return html(
    "div",
    { class: "refused", ...(items.length > 0 && { tabindex: 0, role: "group", "aria-label": "Left out" }) },
    ...(items.length === 0 ? [] : [html("h3", {}, "Left out"), html("ul", {}, ...items)]),
  );
}
