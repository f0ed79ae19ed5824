import { expect, it } from "vitest";
import { EntryCell } from "../../../notebooks/inputs/entryCell.ts";

it("a choice made by key is taken back by Escape, as letters are", () => {
  const told: string[] = [];
  const cell = new EntryCell({
    kind: "choice",
    label: "left, with",
    width: 8,
    onEdit: (text) => told.push(text),
    onAbandon: () => told.push("abandoned"),
  });
  cell.setChoices(["probe", "tool 7"]);
  cell.show("probe");
  document.body.append(cell.control);
  cell.control.focus();
  cell.control.value = "tool 7";
  cell.control.dispatchEvent(new Event("input"));
  expect(told).toEqual(["tool 7"]);
  cell.control.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape" }));
  expect(told).toEqual(["tool 7", "abandoned"]);
  expect(cell.control.value).toBe("probe");
});

it("Enter goes down as far as the table goes, arrows from table to table", () => {
  const cells = ["a1", "a2", "b1"].map((label) => {
    const cell = new EntryCell({ kind: "text", label, width: 8, onEdit: () => {}, onAbandon: () => {} });
    cell.show(label);
    return cell;
  });
  const tables = ["a", "b"].map((name) => {
    const table = document.createElement("div");
    table.dataset["table"] = name;
    for (const { control } of cells.filter((cell) => cell.control.getAttribute("aria-label")?.startsWith(name))) {
      const row = document.createElement("div");
      row.dataset["row"] = "";
      const column = document.createElement("div");
      column.dataset["column"] = "only";
      control.dataset["cell"] = "";
      column.append(control);
      row.append(column);
      table.append(row);
    }
    return table;
  });
  document.body.replaceChildren(...tables);
  const [first] = cells as [EntryCell];
  const at = () => document.activeElement?.getAttribute("aria-label");
  const press = (key: string) =>
    document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
  first.control.focus();
  // Begins to edit, keeps it and goes down.
  press("Enter");
  press("Enter");
  expect(at()).toBe("a2");
  press("Enter");
  press("Enter");
  expect(at()).toBe("a2");
  expect(cells[1]?.control.dataset["editing"]).toBeUndefined();
  press("ArrowDown");
  expect(at()).toBe("b1");
});
