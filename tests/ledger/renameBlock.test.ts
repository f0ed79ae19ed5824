import { describe, expect, it } from "vitest";
import { type QuantityPlace, quantityEndings, quantityNamesOf } from "../../lib/decision/quantityNames.ts";
import { setupQuantities } from "../../lib/decision/setupQuantities.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import { namesOfSetup } from "../../lib/document/namesOfSetup.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { renameBlock, renameColumn } from "../../lib/document/renameBlock.ts";
import { renameQuantities } from "../../lib/document/renameQuantities.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { cell, column, table } from "./blocks.ts";

const demo = {
  ...demoDocument(),
  ledger: [cell("wall", "2 * bore + 0.5 in"), cell("bore", "12 mm"), cell("sum", "bore + in_bore + bore_x")],
  tools: demoDocument().tools.map((tool, i) => (i === 0 ? { ...tool, radius: "bore / 4", note: "bore it" } : tool)),
};

describe("renameBlock(document, from, to, elsewhere)", () => {
  it("rewrites every formula that names the cell, and nothing else", () => {
    const renamed = renameBlock(demo, "bore", "hole", new Map());
    if (!renamed.ok) throw new Error(JSON.stringify(renamed.problems));
    expect(renamed.value.ledger.map((block) => (block.kind === "cell" ? [block.id, block.entry] : []))).toEqual([
      ["wall", "2 * hole + 0.5 in"],
      ["hole", "12 mm"],
      ["sum", "hole + in_bore + bore_x"],
    ]);
    expect(renamed.value.tools[0]).toMatchObject({ radius: "hole / 4", note: "bore it" });
    expect(renamed.value.part).toBe(demo.part);
  });

  it("follows a name behind `at least`, whose words are no names", () => {
    const wall = {
      ...(demo.part.characteristics[0] as (typeof demo.part.characteristics)[number]),
      kind: "wall thickness",
      tolerance: "at least bore",
    } as const;
    const named = {
      ...demo,
      part: { ...demo.part, characteristics: [wall] },
      ledger: [...demo.ledger, cell("at", "1 mm"), cell("least", "2 mm")],
    };
    const toleranceAfter = (from: string, to: string) => {
      const renamed = renameBlock(named, from, to, new Map());
      return renamed.ok ? renamed.value.part.characteristics[0]?.tolerance : renamed.problems;
    };
    expect(toleranceAfter("bore", "hole")).toBe("at least hole");
    expect(toleranceAfter("at", "other")).toBe("at least bore");
    expect(toleranceAfter("least", "other")).toBe("at least bore");
  });

  it("refuses names that are units, cannot be spelt, or are taken", () => {
    for (const name of ["mm", "2 walls", "sum", "zero_X", ""])
      expect(renameBlock(demo, "bore", name, new Map([["zero_X", "the X of part zero"]]))).toMatchObject({
        ok: false,
        problems: [{ got: name }],
      });
  });

  it("says what has a name already, and offers one that is free", () => {
    const refused = (name: string) => {
      const outcome = renameBlock(demo, "bore", name, namesOfSetup(demo));
      return outcome.ok ? "not refused" : `${outcome.problems[0]?.what}; ${outcome.problems[0]?.remedy}`;
    };
    expect(refused("wall")).toBe('"wall" is the name of something else: another cell; choose another name, such as wall_2');
    expect(refused("probe_radius")).toBe(
      '"probe_radius" is the name of something else: a quantity of the tool "probe"; choose another name, such as probe_radius_2',
    );
    expect(refused("zero_X")).toContain("a quantity of the chosen strategy");
    expect(refused("mm")).toBe('"mm" means something else in formulas; choose another name, such as mm_1');
    // A row that is there gives its names, also those of entries that are still to be typed.
    expect(refused("probe_length")).toContain('a quantity of the tool "probe"');
  });

  it("refuses a name of a table or column that would make one of something else", () => {
    const document = { ...demo, ledger: [...demo.ledger, table("pins", ["radius", "size"], [["1", "2"]]), cell("pins_2", "1")] };
    expect(renameBlock(document, "pins", "probe", namesOfSetup(document))).toMatchObject({
      ok: false,
      problems: [
        {
          what: 'a column of it would be called "probe_radius", which is a quantity of the tool "probe"',
          remedy: "choose another name, such as probe_2",
        },
      ],
    });
    expect(renameColumn(document, "pins", "size", "2", new Map())).toMatchObject({ ok: false });
    expect(renameColumn(document, "pins", "size", "radius", new Map())).toMatchObject({
      ok: false,
      problems: [{ what: '"pins_radius" is the name of something else: another column of "pins"' }],
    });
  });

  // Within the formulas of rows a column goes by its short name, which something of elsewhere may have as well.
  it("leaves the short names of columns to the formulas of their rows, and refuses a name that these would take for another", () => {
    const pins = {
      ...table("pins", ["size", "play"], [["1", ""]]),
      columns: [column("size"), column("play", { formula: "size + gap" }), column("off", { formula: "gap - 1 mm" })],
    };
    const document = { ...newDocument(), ledger: [cell("size", "5 mm"), cell("gap", "2 mm"), cell("sum", "size + gap"), pins] };
    const formulas = (renamed: ReturnType<typeof renameBlock>) => {
      if (!renamed.ok) return renamed.problems[0]?.what;
      return renamed.value.ledger.flatMap((block) =>
        block.kind === "table" ? block.columns.map(({ formula }) => formula) : "entry" in block ? [block.entry] : [],
      );
    };
    expect(formulas(renameBlock(document, "size", "length", new Map()))).toEqual([
      "5 mm",
      "2 mm",
      "length + gap",
      "",
      "size + gap",
      "gap - 1 mm",
    ]);
    expect(formulas(renameBlock(document, "gap", "play", new Map()))).toBe(
      'formulas of the rows of "pins" name this cell, and call a column of theirs "play"',
    );
    expect(formulas(renameColumn(document, "pins", "size", "gap", new Map()))).toBe(
      'the formula of the column "play" means something else by "gap", and would take this column for it',
    );
    expect(formulas(renameColumn(document, "pins", "size", "width", new Map()))).toContain("width + gap");
  });

  it("leaves the document as it was there and back", () => {
    const there = renameBlock(demo, "bore", "hole", new Map());
    const back = there.ok ? renameBlock(there.value, "hole", "bore", new Map()) : there;
    expect(back).toEqual({ ok: true, value: demo });
  });
});

describe("renameQuantities(document, place, from, to)", () => {
  it("keeps formulas over a touch's face and suppositions about its scatter when the touch gets another name", () => {
    const document = {
      ...demoDocument(),
      ledger: [cell("wall", "b2_face - left_face + left_faces")],
      whatIf: [{ source: "touch left, scatter", shift: "1", doubt: "" }],
    };
    const renamed = renameQuantities(document, "touches", "left", "left side");
    expect(renamed.ledger[0]).toMatchObject({ entry: "b2_face - left_side_face + left_faces" });
    expect(renamed.whatIf[0]?.source).toBe("touch left side, scatter");
  });

  // What a formula read before it must read afterwards, or say that it reads nothing.
  it("never lets a formula read a cell in the place of a quantity, or a quantity in the place of a cell", () => {
    const demo = demoDocument();
    const document = {
      ...demo,
      tools: demo.tools.map((tool) => (tool.id === "probe" ? { ...tool, diameter: "", radius: "2.5 mm" } : tool)),
      ledger: [cell("gauge_radius", "7 mm"), cell("own", "2 * gauge_radius"), cell("tools", "2 * probe_radius")],
    };
    const results = (state: SetupDocument) => {
      const { own, problems } = evaluateSetup(state);
      const told = ["own", "tools"].map((name) => {
        const outcome = own.get(name);
        return outcome?.ok && outcome.value.kind === "quantity"
          ? outcome.value.value.value
          : outcome?.ok === false && outcome.problems[0]?.what;
      });
      return [...told, problems.some(({ at }) => at === "ledger.gauge_radius.id")];
    };
    const named = (state: SetupDocument, from: string, to: string) =>
      renameQuantities({ ...state, tools: state.tools.map((tool) => (tool.id === from ? { ...tool, id: to } : tool)) }, "tools", from, to);
    expect(results(document)).toEqual([14, 5, false]);
    // The tool takes the name that the cell has: the cell is read where it was, and nothing in the place of the tool.
    const clashing = named(document, "probe", "gauge");
    expect(results(clashing)).toEqual([14, 'unknown name "probe_radius"', true]);
    // Another name for the tool takes none of the cell's with it; its own one brings back what named it.
    expect(results(named(clashing, "gauge", "finder"))).toEqual([14, 'unknown name "probe_radius"', false]);
    expect(results(named(clashing, "gauge", "probe"))).toEqual([14, 5, false]);
  });

  it("leaves names that another row gives as well", () => {
    const document = { ...demoDocument(), ledger: [cell("gap", "front_1_face - left_face")] };
    const [left] = document.touches.filter(({ id }) => id === "left");
    if (left === undefined) throw new Error("the demo job has a touch called left");
    const both = { ...document, touches: [...document.touches, { ...left, id: "front_1" }, { ...left, id: "front 2" }] };
    const renamed = renameQuantities(both, "touches", "front 1", "back");
    expect(renamed.ledger[0]).toMatchObject({ entry: "front_1_face - left_face" });
    expect(renameQuantities(both, "touches", "left", "front_2").ledger[0]).toMatchObject({ entry: "front_1_face - left_face" });
  });

  it("knows every name of the demo job's results", () => {
    // Names of rows that are not renamed with the endings would leave formulas behind.
    const document = demoDocument();
    const evaluation = evaluateSetup(document);
    const names = [...setupQuantities(evaluation, strategyNamed(evaluation.strategies, document.chosen)).values()];
    for (const { name, of } of names.filter(({ of }) => of !== "chosen")) {
      const place = (Object.keys(quantityEndings) as QuantityPlace[]).find((each) => of.startsWith(`${each}.`)) as QuantityPlace;
      const known = [
        ...quantityNamesOf(place, of.slice(place.length + 1)),
        ...document.part.elements.flatMap(({ id }) => quantityNamesOf("part.elements", id)),
      ];
      expect(known).toContain(name);
    }
  });
});
