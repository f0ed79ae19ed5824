import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { keyOf } from "../../../notebooks/inputs/rows.ts";
import { type Place, renameRow, rowsAt, withRows } from "../../../notebooks/pages/documentRows.ts";
import { demoDocument } from "../../../notebooks/pages/firstJob.ts";

const demo = demoDocument();
const indexOf = (document: SetupDocument, place: Place, id: string) =>
  (rowsAt(document, place) as { id: string }[]).findIndex((row) => row.id === id);
const rename = (place: Place, from: string, to: string, document = demo) => renameRow(document, place, indexOf(document, place, from), to);

it("withRows(document, place, rows) changes one table and shares all others", () => {
  const changed = withRows(demo, "part.dimensions", []);
  expect(changed.part.dimensions).toEqual([]);
  expect(changed.part.elements).toBe(demo.part.elements);
  expect(changed.touches).toBe(demo.touches);
  expect(withRows(demo, "touches", demo.touches)).toBe(demo);
});

describe("renameRow(document, place, index, name)", () => {
  it("renames an element wherever it is named", () => {
    const { part, touches, strategies } = rename("part.elements", "left", "west");
    expect(touches.find(({ id }) => id === "left")?.element).toBe("west");
    expect(part.dimensions.find(({ id }) => id === "length")?.from).toBe("west");
    expect(part.characteristics.find(({ id }) => id === "wall")?.from).toBe("west");
    expect(part.elements.find(({ id }) => id === "middle")?.of).toEqual(["west", "right"]);
    expect(strategies.find(({ id }) => id === "corner")?.zero.x).toBe("west");
    expect(JSON.stringify(rename("part.elements", "middle", "centre").strategies)).toContain('"hold":["centre"]');
    expect(JSON.stringify(rename("part.elements", "front", "south").strategies)).toContain('"orient":["south"]');
  });

  it.each<[Place, string, (document: SetupDocument) => unknown]>([
    ["tools", "probe", ({ touches }) => touches[0]?.tool],
    ["spacers", "block 50", ({ touches }) => touches.at(-1)?.spacer],
    ["touches", "b1", ({ strategies }) => strategies[0]?.touches[0]],
    ["strategies", "bore, turned to front", ({ chosen }) => chosen],
  ])("renames one of %s wherever it is named", (place, id, namedAt) => {
    expect(namedAt(demo)).toBe(id);
    expect(namedAt(rename(place, id, "another"))).toBe("another");
  });

  it("and back gives the same document", () => {
    expect(rename("part.elements", "west", "left", rename("part.elements", "left", "west"))).toEqual(demo);
  });

  it("changes the row alone while another one has the same name", () => {
    const twice = rename("touches", "b2", "b1");
    // What names the row goes on naming it by its old name, so that a slip is mended by typing that again.
    expect(twice.strategies[0]?.touches).toEqual(["b1", "b2", "b3", "b4", "top"]);
    const parted = renameRow(twice, "touches", 1, "b2");
    expect(parted.touches.map(({ id }) => id)).toEqual(demo.touches.map(({ id }) => id));
    expect(parted.strategies[0]?.touches).toEqual(["b1", "b2", "b3", "b4", "top"]);
  });

  it("keeps the key of the row", () => {
    expect(keyOf(rename("touches", "b1", "east").touches[0] as object)).toBe(keyOf(demo.touches[0] as object));
  });
});
