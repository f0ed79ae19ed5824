import { describe, expect, it } from "vitest";
import { gallery } from "../../gallery/gallery.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

describe.each(Object.entries(gallery))("%s", (_name, show) => {
  it.each([340, 520, 900])("is whole at %i pixels, and the same in Node's small document and in jsdom", (width) => {
    expect(faultsOf(drawn((environment) => show({ width }, environment).figure))).toEqual([]);
  });

  it("has a table behind it with an entry for every column", () => {
    const { document } = drawn((environment) => show({ width: 520 }, environment).figure).root.ownerDocument.defaultView as Window;
    const { table } = show({ width: 520 }, { document });
    expect(table.caption).not.toBe("");
    expect(table.rows.length).toBeGreaterThan(0);
    expect(table.rows.filter((row) => row.length !== table.columns.length)).toEqual([]);
    expect(table.rows.flat().filter((entry) => /NaN|Infinity|undefined/.test(entry))).toEqual([]);
  });
});

it("no id of a figure stands in another one of the same page", () => {
  const ids = Object.values(gallery).flatMap((show) => {
    const { root } = drawn((environment) => show({ width: 520 }, environment).figure);
    return Array.from(root.querySelectorAll("[id]"), ({ id }) => id);
  });
  expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
});
