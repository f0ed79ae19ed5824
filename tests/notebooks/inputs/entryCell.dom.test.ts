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
