import { beforeEach, describe, expect, it } from "vitest";
import type { Problem } from "../../../lib/base/outcome.ts";
import { failure, success } from "../../../lib/base/outcome.ts";
import type { Column } from "../../../notebooks/inputs/column.ts";
import { DocumentTable } from "../../../notebooks/inputs/documentTable.ts";
import { changeRow } from "../../../notebooks/inputs/rows.ts";
import { abandonSession, type DocumentHistory, recordEdit, startHistory } from "../../../notebooks/pages/documentHistory.ts";

interface Row {
  id: string;
  side: string;
  reading: string;
  note: string;
}

const text = (key: keyof Row, more: object = {}): Column<Row, number> => ({
  kind: "text",
  key,
  label: key === "id" ? "name" : key,
  width: 8,
  read: (row) => row[key],
  write: (row, typed) => changeRow(row, { [key]: typed }),
  ...more,
});
const columns: readonly Column<Row, number>[] = [
  text("id", { write: (row: Row, typed: string) => (typed.trim() === "" ? undefined : changeRow(row, { id: typed.trim() })) }),
  text("side", { kind: "choice", choices: () => ["+X", "-X"] }),
  text("reading", {
    understand: (typed: string) => (Number.isNaN(Number(typed)) ? failure({ at: "", what: "not a number" }) : success(`${typed} mm`)),
  }),
  text("note", { usual: "" }),
  {
    kind: "result",
    key: "doubled",
    label: "doubled",
    width: 6,
    show: ({ reading }, factor) => (Number.isNaN(Number(reading)) ? undefined : { text: String(Number(reading) * factor), below: "u 1" }),
  },
];

let table: DocumentTable<Row, number>;
let history: DocumentHistory<Row[]>;
let said: string[];

beforeEach(() => {
  said = [];
  history = startHistory<Row[]>([
    { id: "left", side: "+X", reading: "10", note: "" },
    { id: "right", side: "-X", reading: "30", note: "" },
  ]);
  const become = (next: DocumentHistory<Row[]>) => {
    history = next;
    table.showRows(history.present, context);
    table.showResults(2);
  };
  table = new DocumentTable({
    place: "touches",
    caption: "Readings",
    noun: "touch",
    columns,
    nameOf: ({ id }) => id,
    blank: (rows) => ({ id: `touch ${rows.length + 1}`, side: "+X", reading: "", note: "" }),
    edits: {
      edit: (change, what, session) => become(recordEdit(history, change, what, session)),
      rename: (index, name, session) =>
        become(recordEdit(history, (rows) => rows.map((row, i) => (i === index ? changeRow(row, { id: name }) : row)), "name", session)),
      abandon: (session) => become(abandonSession(history, session)),
      say: (words) => said.push(words),
      stand: () => {},
    },
  });
  document.body.replaceChildren(table.element);
  become(history);
  table.showProblems([]);
});
const context = { unit: "mm", names: {} } as const;

const cell = (label: string) => document.querySelector<HTMLInputElement>(`[aria-label="${label}"]`) as HTMLInputElement;
const type = (control: HTMLInputElement, value: string) => {
  control.value = value;
  control.dispatchEvent(new InputEvent("input", { bubbles: true }));
};
const press = (key: string, more: KeyboardEventInit = {}) =>
  document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
const here = () => document.activeElement?.getAttribute("aria-label");
const readings = () => history.present.map(({ reading }) => reading);
const note = () => document.querySelector("#touches-note")?.textContent;
const resultsShown = () => [...document.querySelectorAll(".result .value")].map(({ textContent }) => textContent);
const problemAt = (at: string): Problem => ({ at, what: "it is not a number", expected: "a number", remedy: "correct it" });

describe("a document table, by the keyboard alone", () => {
  it("is walked with the arrow keys, from cell to cell and from row to row", () => {
    cell("left, name").focus();
    press("ArrowRight");
    expect(here()).toBe("left, side");
    press("ArrowRight");
    press("ArrowDown");
    expect(here()).toBe("right, reading");
    press("ArrowDown");
    expect(here()).toBe("right, reading");
    press("Home");
    expect(here()).toBe("right, name");
    press("ArrowUp");
    press("ArrowLeft");
    expect(here()).toBe("left, name");
  });

  it("enters every letter at once, as one step, and Enter goes on to the row below", () => {
    cell("left, reading").focus();
    type(cell("left, reading"), "1");
    type(cell("left, reading"), "12");
    expect(readings()).toEqual(["12", "30"]);
    expect(history.past).toHaveLength(1);
    press("Enter");
    expect(here()).toBe("right, reading");
    type(cell("right, reading"), "31");
    expect(history.past).toHaveLength(2);
    press("Enter", { shiftKey: true });
    expect(here()).toBe("left, reading");
  });

  it("leaves an entry as it was on Escape", () => {
    cell("left, reading").focus();
    type(cell("left, reading"), "99");
    press("Escape");
    expect(readings()).toEqual(["10", "30"]);
    expect(cell("left, reading").value).toBe("10");
    expect(history.past).toEqual([]);
    expect(here()).toBe("left, reading");
  });

  it("edits within the text after Enter or F2: the arrows then move the caret", () => {
    cell("left, reading").focus();
    press("F2");
    press("ArrowLeft");
    expect(here()).toBe("left, reading");
    press("Escape");
    press("ArrowLeft");
    expect(here()).toBe("left, side");
  });

  it("keeps what was typed when one leaves in another way", () => {
    cell("left, reading").focus();
    type(cell("left, reading"), "12");
    cell("right, name").focus();
    expect(readings()).toEqual(["12", "30"]);
  });

  it("adds, moves and removes rows, and the focus goes along", () => {
    cell("left, reading").focus();
    press("ArrowDown", { altKey: true });
    expect(history.present.map(({ id }) => id)).toEqual(["right", "left"]);
    expect(here()).toBe("left, reading");
    press("Enter", { altKey: true });
    expect(history.present.map(({ id }) => id)).toEqual(["right", "left", "touch 3"]);
    expect(here()).toBe("touch 3, name");
    press("Delete", { altKey: true });
    expect(history.present.map(({ id }) => id)).toEqual(["right", "left"]);
    expect(here()).toBe("left, name");
    expect(said.at(-1)).toBe("touch 3 is removed; undo brings it back.");
  });

  it("passes over columns that no row uses, until they are asked for", () => {
    cell("left, reading").focus();
    press("ArrowRight");
    expect(here()).toBe("left, reading");
    [...document.querySelectorAll("button")].find(({ textContent }) => textContent === "all columns")?.click();
    cell("left, reading").focus();
    press("ArrowRight");
    expect(here()).toBe("left, note");
  });
});

describe("a document table", () => {
  it("keeps the very controls of a row through an edit, a new order and a new row", () => {
    const control = cell("right, reading");
    control.focus();
    press("ArrowUp", { altKey: true });
    type(control, "5");
    expect(cell("right, reading")).toBe(control);
    expect(document.activeElement).toBe(control);
  });

  it("does not touch what is being typed when the document changes meanwhile", () => {
    cell("left, reading").focus();
    type(cell("left, reading"), "12");
    table.showRows(
      history.present.map((row) => changeRow(row, { reading: "7" })),
      context,
    );
    expect(cell("left, reading").value).toBe("12");
    expect(cell("right, reading").value).toBe("7");
  });

  it("shows results beside the entries, and none while they wait", () => {
    expect(resultsShown()).toEqual(["20", "60"]);
    table.showResults(undefined);
    expect(resultsShown()).toEqual(["–", "–"]);
  });

  it("says beneath the table how the row was understood that one stands on", () => {
    cell("left, side").focus();
    expect(note()).toBe("left: Understood: reading 10 mm.");
  });

  it("says what is wrong at its cell, in words, once the cell is left", () => {
    cell("left, reading").focus();
    type(cell("left, reading"), "10 abc");
    table.showProblems([problemAt("touches.left.reading")]);
    expect(cell("left, reading").getAttribute("aria-invalid")).toBe("true");
    expect(document.getElementById(cell("left, reading").getAttribute("aria-describedby") ?? "")?.textContent).toContain(
      "it is not a number; expected a number. Correct it.",
    );
    expect(document.querySelector("tr.words")).toBeNull();
    press("Enter");
    const words = document.querySelector("tr.words td");
    expect(words?.textContent).toBe("reading: it is not a number; expected a number. Correct it.");
    expect(cell("left, reading").getAttribute("aria-describedby")).toBe(words?.id);
    table.showProblems([]);
    expect(document.querySelector("tr.words")).toBeNull();
    expect(cell("left, reading").hasAttribute("aria-invalid")).toBe(false);
  });

  it("gives a problem to the row with the longest name that its path begins with", () => {
    cell("right, name").focus();
    type(cell("right, name"), "left.reading");
    press("Enter");
    table.showProblems([problemAt("touches.left.reading.note")]);
    expect(document.querySelector("tr.words")?.previousElementSibling?.querySelector("input")?.value).toBe("left.reading");
  });

  it("refuses a row without a name, and says so while it lasts", () => {
    cell("left, name").focus();
    type(cell("left, name"), "");
    expect(history.present[0]?.id).toBe("left");
    expect(cell("left, name").getAttribute("aria-invalid")).toBe("true");
    expect(note()).toContain("a name is needed");
    press("Enter");
    expect(cell("left, name").value).toBe("left");
  });

  it("offers choices, and shows one that is not among them as well", () => {
    const select = document.querySelector<HTMLSelectElement>('select[aria-label="left, side"]') as HTMLSelectElement;
    expect([...select.options].map(({ value }) => value)).toEqual(["+X", "-X"]);
    table.showRows([changeRow(history.present[0] as Row, { side: "up" })], context);
    expect([...select.options].map(({ value }) => value)).toEqual(["+X", "-X", "up"]);
    expect(select.value).toBe("up");
  });

  it("takes a block from a spreadsheet into its cells", () => {
    const control = cell("left, side");
    control.focus();
    const paste = new Event("paste", { bubbles: true, cancelable: true });
    Object.assign(paste, { clipboardData: { getData: () => "-X\t11\n+X\t12\n+X\t13\n" } });
    control.dispatchEvent(paste);
    expect(history.present.map(({ side, reading }) => `${side} ${reading}`)).toEqual(["-X 11", "+X 12", "+X 13"]);
    expect(said.at(-1)).toBe("6 cells filled, 1 row added; undo takes it back.");
    expect(history.past).toHaveLength(1);
  });

  it("puts the focus where a path points, and shows the column that it lies in", () => {
    expect(table.focus("touches.right.note")).toBe(true);
    expect(here()).toBe("right, note");
    expect(table.focus("tools.right.note")).toBe(false);
  });
});
