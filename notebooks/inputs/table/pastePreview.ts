import { focusedNear } from "../focusedNear.ts";
import { html, setText } from "../html.ts";
import { openPreview } from "../previewDialog.ts";
import type { BlockChoices, BlockQuestion, FirstRow, ReadBlock, ReadToken, TokenDoubt } from "./readBlock.ts";

export interface PastePreviewOptions<Row extends object> {
  /** The block as it is read with these choices. */
  readonly read: (choices: BlockChoices) => ReadBlock<Row>;
  readonly onTake: (read: ReadBlock<Row>) => void;
  readonly onRefuse: () => void;
  /** What the block was pasted into: the dialog opens beside the same sheet. */
  readonly near: Element;
}

/** Rows that are shown; of a longer block those with a doubt come before the rest. */
const mostShown = 200;
/** Doubtful texts that can be decided one by one. */
const mostDecided = 60;

/**
 * Shows how a pasted block was understood, in a dialog of the page, and changes nothing until it is taken: Enter takes it,
 * Escape refuses it. What the block leaves open is asked, and every answer shows at once what becomes of the cells.
 */
export function previewPaste<Row extends object>({ read, onTake, onRefuse, near }: PastePreviewOptions<Row>): HTMLDialogElement {
  let choices: BlockChoices = {};
  let block = read(choices);
  const summary = html("p", { class: "hint", role: "status" });
  const questions = html("div", { class: "questions" });
  const doubts = html("div", { class: "doubts" });
  const table = html("div", { class: "frame", tabindex: 0, role: "group", "aria-label": "The block, cell by cell" });
  const refused = html("div", { class: "refused" });

  const choose = (more: BlockChoices) => {
    choices = { ...choices, ...more };
    block = read(choices);
    preview.ask("");
    show();
  };
  const show = () => {
    setText(summary, summaryOf(block));
    showQuestions(questions, block.questions, (about, value) => choose({ [about]: value as FirstRow }));
    showDoubts(doubts, block.doubts, (key, value) => choose({ tokens: new Map([...(choices.tokens ?? []), [key, value]]) }));
    table.replaceChildren(blockTable(block));
    showRefused(refused, block.refused);
  };
  const preview = openPreview({
    heading: "How the block was understood",
    content: [summary, questions, doubts, table, refused],
    onRefuse,
    near,
    onTake: () => {
      if (block.isDecided) {
        preview.end();
        onTake(block);
        return;
      }
      const asked = block.questions.find(({ chosen }) => chosen === undefined);
      preview.ask(asked === undefined ? "" : `First say what this means: ${asked.words.toLowerCase()} …`);
      questions.querySelector<HTMLInputElement>(`input[name="paste-${asked?.about}"]`)?.focus();
    },
  });
  show();
  (questions.querySelector<HTMLElement>("input:checked, input") ?? doubts.querySelector<HTMLElement>("select") ?? preview.take).focus();
  return preview.dialog;
}

function summaryOf<Row extends object>({ tokens, filled, added, refused }: ReadBlock<Row>): string {
  const cells = `${filled} ${filled === 1 ? "cell" : "cells"} in ${tokens.length} ${tokens.length === 1 ? "row" : "rows"} would be filled`;
  const more = added > 0 ? `, ${added} ${added === 1 ? "row" : "rows"} added` : "";
  return `${cells}${more}${refused.length > 0 ? `, ${refused.length} left out` : ""}. Nothing is changed yet.`;
}

/** The same questions keep their controls, so that the focus stays where it is. */
function showQuestions(
  parent: HTMLElement,
  questions: readonly BlockQuestion[],
  onChoose: (about: BlockQuestion["about"], value: string) => void,
): void {
  const shown = questions.map(({ about, answers }) => `${about}: ${answers.map(({ value }) => value).join(", ")}`).join("; ");
  if (parent.dataset["shown"] !== shown) {
    const active = focusedNear(parent) as HTMLInputElement | null;
    const focused = parent.contains(active) ? active : undefined;
    parent.dataset["shown"] = shown;
    parent.replaceChildren(...questions.map((question) => createQuestion(question, onChoose)));
    if (focused) [...parent.querySelectorAll("input")].find(({ name, value }) => name === focused.name && value === focused.value)?.focus();
  }
  for (const { about, chosen } of questions) {
    for (const input of parent.querySelectorAll<HTMLInputElement>(`input[name="paste-${about}"]`)) input.checked = input.value === chosen;
  }
}

function createQuestion(
  { about, words, answers }: BlockQuestion,
  onChoose: (about: BlockQuestion["about"], value: string) => void,
): HTMLElement {
  return html(
    "fieldset",
    {},
    html("legend", {}, words),
    ...answers.map(({ value, words: answer }) => {
      const input = html("input", { type: "radio", name: `paste-${about}`, value });
      input.addEventListener("change", () => onChoose(about, value));
      return html("label", {}, input, answer);
    }),
  );
}

function showDoubts(parent: HTMLElement, doubts: readonly TokenDoubt[], onChoose: (key: string, value: string) => void): void {
  const listed = doubts.slice(0, mostDecided);
  const shown = listed.map(({ key, count }) => `${key} ${count}`).join("\n");
  if (parent.dataset["shown"] === shown) return;
  parent.dataset["shown"] = shown;
  const items = listed.map(({ key, typed, column, why, count, answers, chosen }) => {
    const select = html(
      "select",
      { "aria-label": `“${typed}” in ${column}` },
      ...answers.map(({ value, words }) => html("option", { value, selected: value === chosen }, words)),
    );
    select.addEventListener("change", () => onChoose(key, select.value));
    const times = count === 1 ? "" : `, ${count} times`;
    return html("li", {}, html("b", {}, `“${typed}”`), ` in ${column}${times}: ${why}. `, select);
  });
  const rest = doubts.length - listed.length;
  if (rest > 0) items.push(html("li", {}, `and ${rest} more, marked below`));
  parent.replaceChildren(...(items.length === 0 ? [] : [html("ul", {}, ...items)]));
}

/** What is left out that nobody can decide otherwise. */
function showRefused(parent: HTMLElement, refused: readonly string[]): void {
  const items = refused.slice(0, mostDecided).map((words) => html("li", {}, words));
  if (refused.length > mostDecided) items.push(html("li", {}, `and ${refused.length - mostDecided} more`));
  parent.replaceChildren(...(items.length === 0 ? [] : [html("h3", {}, "Left out"), html("ul", {}, ...items)]));
}

function blockTable<Row extends object>({ columns, tokens, index }: ReadBlock<Row>): HTMLElement {
  const heads = columns.map((label) => html("th", { scope: "col" }, label ?? "beyond the table"));
  const rows = rowsToShow(tokens).map((at) =>
    html("tr", {}, html("th", { scope: "row" }, String(index + at + 1)), ...columns.map((_, right) => tokenBox(tokens[at]?.[right]))),
  );
  const left = tokens.length - rows.length;
  const more = left > 0 ? [html("caption", {}, `${rows.length} of ${tokens.length} rows are shown, doubtful ones first.`)] : [];
  return html(
    "table",
    {},
    ...more,
    html("thead", {}, html("tr", {}, html("th", { scope: "col" }, "row"), ...heads)),
    html("tbody", {}, ...rows),
  );
}

function rowsToShow(tokens: ReadBlock<object>["tokens"]): readonly number[] {
  const all = tokens.map((_, i) => i);
  if (all.length <= mostShown) return all;
  const isDoubtful = (i: number) => (tokens[i] ?? []).some(({ doubt }) => doubt !== undefined);
  return [...all.filter(isDoubtful), ...all.filter((i) => !isDoubtful(i))].slice(0, mostShown).sort((a, b) => a - b);
}

function tokenBox(token: ReadToken | undefined): HTMLElement {
  if (token === undefined) return html("td");
  const { typed, taken, doubt, understood } = token;
  const isOther = taken !== undefined && taken !== typed;
  const shown = taken === undefined ? html("s", {}, typed) : html("span", {}, taken);
  const was = isOther ? [html("s", {}, typed), " "] : [];
  const words = doubt ?? (isOther ? understood : undefined);
  return html("td", { "data-doubt": doubt !== undefined }, ...was, shown, ...(words === undefined ? [] : [html("small", {}, words)]));
}
