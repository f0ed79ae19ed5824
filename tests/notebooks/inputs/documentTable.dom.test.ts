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

describe("a range of a document table", () => {
  /** As browsers do it: an event with what is on the clipboard. */
  const clip = (type: "copy" | "cut" | "paste", data: Record<string, string> = {}) => {
    const event = new Event(type, { bubbles: true, cancelable: true });
    const held = new Map(Object.entries(data));
    Object.assign(event, {
      clipboardData: { getData: (kind: string) => held.get(kind) ?? "", setData: (kind: string, text: string) => held.set(kind, text) },
    });
    document.activeElement?.dispatchEvent(event);
    return held;
  };
  const selectedCells = () =>
    [...document.querySelectorAll('[aria-selected="true"]')].map(
      (box) => `${box.closest("tr")?.querySelector("input")?.value} ${(box as HTMLElement).dataset["column"]}`,
    );
  const more = (count: number) => {
    const rows = Array.from({ length: count }, (_, i) => ({ id: `touch ${i + 1}`, side: "+X", reading: String(i), note: "" }));
    history = startHistory(rows);
    table.showRows(rows, context);
    table.showResults(2);
  };

  it("is drawn out with Shift and the arrows from the cell that is stood on, and given up by going on or by Escape", () => {
    cell("left, side").focus();
    press("ArrowDown", { shiftKey: true });
    press("ArrowRight", { shiftKey: true });
    expect(selectedCells()).toEqual(["left side", "left reading", "right side", "right reading"]);
    expect(here()).toBe("left, side");
    press("ArrowUp", { shiftKey: true });
    expect(selectedCells()).toEqual(["left side", "left reading"]);
    press("Escape");
    expect(selectedCells()).toEqual([]);
    press("a", { ctrlKey: true });
    expect(selectedCells()).toHaveLength(8);
    press("ArrowRight");
    expect(selectedCells()).toEqual([]);
  });

  it("is emptied as one step, and says what cannot be empty", () => {
    cell("left, name").focus();
    press(" ", { shiftKey: true });
    press("ArrowDown", { shiftKey: true });
    press("Delete");
    expect(history.present.map(({ id, reading }) => [id, reading])).toEqual([
      ["left", ""],
      ["right", ""],
    ]);
    expect(history.past).toHaveLength(1);
    expect(said.at(-1)).toBe("4 cells emptied; undo takes it back. As before, since they cannot be empty: 2 cells of name.");
  });

  it("is filled down from its first row, names left as they are", () => {
    cell("left, name").focus();
    press("End", { shiftKey: true });
    press("ArrowDown", { shiftKey: true });
    press("d", { ctrlKey: true });
    expect(history.present.map(({ id, side, reading }) => [id, side, reading])).toEqual([
      ["left", "+X", "10"],
      ["right", "+X", "10"],
    ]);
    expect(said.at(-1)).toContain("Names stay as they are");
    expect(history.past).toHaveLength(1);
  });

  it("is filled with what is just being typed, in the same step", () => {
    cell("left, reading").focus();
    press("ArrowDown", { shiftKey: true });
    type(cell("left, reading"), "7");
    press("Enter", { ctrlKey: true });
    expect(readings()).toEqual(["7", "7"]);
    expect(history.past).toHaveLength(1);
    expect(history.past[0]?.document.map(({ reading }) => reading)).toEqual(["10", "30"]);
  });

  it("is copied as text and as a table, results and all, and pasted without them", () => {
    cell("left, side").focus();
    press("ArrowDown", { shiftKey: true });
    press("End", { shiftKey: true });
    const held = clip("copy");
    expect(held.get("text/plain")).toBe("+X\t10\t20\n-X\t30\t60");
    expect(held.get("text/html")).toContain("<td>30</td><td>60</td>");
    cell("left, side").focus();
    press("ArrowDown");
    clip("paste", Object.fromEntries(held));
    expect(readings()).toEqual(["10", "10", "30"]);
    expect(document.querySelector("dialog")).toBeNull();
  });

  it("is cut: what was there is on the clipboard and gone from the cells", () => {
    cell("left, reading").focus();
    press("ArrowDown", { shiftKey: true });
    expect(clip("cut").get("text/plain")).toBe("10\n30");
    expect(readings()).toEqual(["", ""]);
  });

  it("follows its rows when they are moved together, and is gone with them", () => {
    more(4);
    cell("touch 2, reading").focus();
    press("ArrowDown", { shiftKey: true });
    press("ArrowDown", { altKey: true });
    expect(history.present.map(({ id }) => id)).toEqual(["touch 1", "touch 4", "touch 2", "touch 3"]);
    expect(selectedCells()).toEqual(["touch 2 reading", "touch 3 reading"]);
    press("ArrowDown", { altKey: true });
    expect(history.past).toHaveLength(1);
    press("Delete", { altKey: true });
    expect(history.present.map(({ id }) => id)).toEqual(["touch 1", "touch 4"]);
    expect(selectedCells()).toEqual([]);
    expect(here()).toBe("touch 4, name");
  });

  it("keeps the keys in the table when undo takes the very row away that is stood on", () => {
    cell("right, reading").focus();
    press("Enter", { altKey: true });
    expect(here()).toBe("touch 3, name");
    table.showRows(history.past[0]?.document ?? [], context);
    expect(here()).toBe("right, name");
  });

  it("of a long table lies in rows that are not all in the page", () => {
    more(2000);
    const inPage = document.querySelectorAll("tr[data-row]").length;
    expect(inPage).toBeLessThan(100);
    expect(document.querySelector("table")?.getAttribute("aria-rowcount")).toBe("2001");
    expect(table.focus("touches.touch 1500.reading")).toBe(true);
    expect(here()).toBe("touch 1500, reading");
    expect(document.activeElement?.closest("tr")?.getAttribute("aria-rowindex")).toBe("1501");
    press("End", { ctrlKey: true, shiftKey: true });
    press("Delete");
    expect(history.present.filter(({ reading }) => reading === "")).toHaveLength(501);
    expect(history.past).toHaveLength(1);
    expect(document.querySelectorAll("tr[data-row]").length).toBeLessThan(150);
    // The row that is stood on has those beside it for the arrow keys.
    press("Escape");
    press("ArrowUp");
    press("ArrowUp");
    expect(here()).toBe("touch 1498, reading");
  });
});

it("a table is sorted by the column that is stood in, then the other way round, as one step each", () => {
  const ids = () => history.present.map(({ id }) => id);
  const sort = [...document.querySelectorAll("button")].find(({ textContent }) => textContent === "sort");
  cell("left, reading").focus();
  type(cell("left, reading"), "b10");
  press("Enter");
  type(cell("right, reading"), "b9");
  press("Enter", { shiftKey: true });
  sort?.click();
  expect(ids()).toEqual(["right", "left"]);
  sort?.click();
  expect(ids()).toEqual(["left", "right"]);
  expect(history.past).toHaveLength(4);
  expect(said.at(-1)).toBe("In the order of reading, descending; undo brings the former order back.");
});
