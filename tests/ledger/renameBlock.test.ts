import { describe, expect, it } from "vitest";
import { type QuantityPlace, quantityEndings, quantityNamesOf } from "../../lib/decision/quantityNames.ts";
import { setupQuantities } from "../../lib/decision/setupQuantities.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import { renameBlock } from "../../lib/document/renameBlock.ts";
import { renameQuantities } from "../../lib/document/renameQuantities.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { demoDocument } from "../../notebooks/pages/demo.ts";
import { cell } from "./blocks.ts";

const demo = {
  ...demoDocument(),
  ledger: [cell("wall", "2 * bore + 0.5 in"), cell("bore", "12 mm"), cell("sum", "bore + in_bore + bore_x")],
  tools: demoDocument().tools.map((tool, i) => (i === 0 ? { ...tool, radius: "bore / 4", note: "bore it" } : tool)),
};

describe("renameBlock(document, from, to, elsewhere)", () => {
  it("rewrites every formula that names the cell, and nothing else", () => {
    const renamed = renameBlock(demo, "bore", "hole", new Set());
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
      const renamed = renameBlock(named, from, to, new Set());
      return renamed.ok ? renamed.value.part.characteristics[0]?.tolerance : renamed.problems;
    };
    expect(toleranceAfter("bore", "hole")).toBe("at least hole");
    expect(toleranceAfter("at", "other")).toBe("at least bore");
    expect(toleranceAfter("least", "other")).toBe("at least bore");
  });

  it("refuses names that are units, cannot be spelt, or are taken", () => {
    for (const name of ["mm", "2 walls", "sum", "zero_X", ""])
      expect(renameBlock(demo, "bore", name, new Set(["zero_X"]))).toMatchObject({ ok: false, problems: [{ got: name }] });
  });

  it("leaves the document as it was there and back", () => {
    const there = renameBlock(demo, "bore", "hole", new Set());
    const back = there.ok ? renameBlock(there.value, "hole", "bore", new Set()) : there;
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
