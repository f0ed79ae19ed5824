import { describe, expect, it } from "vitest";
import type { TableBlock } from "../../../../lib/document/ledgerBlocks.ts";
import { newDocument } from "../../../../lib/document/newDocument.ts";
import { readLedger } from "../../../../lib/document/readLedger.ts";
import { keyOf } from "../../../../notebooks/inputs/rows.ts";
import { demoDocument } from "../../../../notebooks/pages/firstJob.ts";
import {
  type Blocks,
  blankBlock,
  changeBlock,
  foldedAway,
  insertAfter,
  moveBlock,
  removeBlock,
} from "../../../../notebooks/pages/ledger/blocks.ts";
import { followRowSources } from "../../../../notebooks/pages/ledger/followRowSources.ts";
import { LedgerGraph } from "../../../../notebooks/pages/ledger/graph.ts";
import { nameBlock, nameColumn } from "../../../../notebooks/pages/ledger/naming.ts";
import { asStated, suppositionsInWords } from "../../../../notebooks/pages/ledger/suppositions.ts";
import { cell, table } from "../../../ledger/blocks.ts";

const blocks: Blocks = [cell("a", "1"), { kind: "heading", text: "Group", folded: true }, cell("b", "2"), cell("c", "3")];
const key = (index: number) => keyOf(blocks[index] as Blocks[number]);
const names = (list: Blocks) => list.map((block) => ("id" in block ? block.id : block.kind));

describe("blocks of the ledger", () => {
  it("come behind the one that is stood on, or at the end", () => {
    const added = blankBlock("cell", (name) => name === "cell_1");
    expect(names(insertAfter(blocks, key(0), added))).toEqual(["a", "cell_2", "heading", "b", "c"]);
    expect(names(insertAfter(blocks, undefined, added))).toEqual(["a", "heading", "b", "c", "cell_2"]);
  });

  it("are removed", () => {
    expect(names(removeBlock(blocks, key(2)))).toEqual(["a", "heading", "c"]);
  });

  it("keep their key through a change, and stay the same list where nothing changes", () => {
    const changed = changeBlock(blocks, key(0), { entry: "7" });
    expect(keyOf(changed[0] as Blocks[number])).toBe(key(0));
    expect(changeBlock(blocks, key(0), { entry: "1" })).toBe(blocks);
  });

  it("are folded away behind their heading, up to the next one", () => {
    expect(foldedAway(blocks)).toEqual(new Set([key(2), key(3)]));
    expect(foldedAway([...blocks, { kind: "heading", text: "", folded: false }, cell("d", "4")]).size).toBe(2);
  });
});

describe("a block that is moved", () => {
  const heading = (text: string, folded = false) => ({ kind: "heading", text, folded }) as const;
  const list: Blocks = [
    cell("a", "1"),
    heading("A", true),
    cell("b", "2"),
    heading("B"),
    cell("c", "3"),
    cell("d", "4"),
    heading("C", true),
  ];
  const order = (blocks: Blocks) => blocks.map((block) => ("id" in block ? block.id : block.kind === "heading" ? block.text : "")).join("");
  const move = (name: string, direction: -1 | 1, from: Blocks = list, isShown: (block: Blocks[number]) => boolean = () => true) => {
    const block = from.find((each) => ("id" in each ? each.id : each.kind === "heading" ? each.text : "") === name) as Blocks[number];
    return moveBlock(from, keyOf(block), direction, isShown);
  };

  it("goes past its neighbour, also past a heading, and not beyond the ends", () => {
    expect([order(move("d", -1)), order(move("c", 1)), order(move("c", -1, move("d", -1)))]).toEqual(["aAbBdcC", "aAbBdcC", "aAbBcdC"]);
    expect([move("a", -1), move("C", 1)]).toEqual([list, list]);
  });

  it("passes over a group that is folded up, and never falls into one", () => {
    // Behind the last cell of the folded group it would be folded away as well: the first place in sight is behind the next heading.
    expect(order(move("a", 1))).toBe("AbBacdC");
    expect(order(move("c", -1))).toBe("acAbBdC");
    // Behind the last heading, which is folded up, there is no such place.
    expect(move("d", 1)).toBe(list);
  });

  it("is a whole group where its heading is folded up, which takes nothing in that was not its own", () => {
    expect(order(move("C", -1))).toBe("aAbCBcd");
    expect(order(move("A", 1))).toBe("aBcdAbC");
    // Above it stands what belongs to no group and would belong to this one.
    expect(move("A", -1)).toBe(list);
  });

  it("passes over what is hidden, so that a move is seen", () => {
    const hidden: Blocks = [cell("a", "1"), cell("b", "2", { hidden: true }), cell("c", "3")];
    expect(order(move("a", 1, hidden, (block) => !("hidden" in block) || !block.hidden))).toBe("bca");
    expect(order(move("a", 1, hidden))).toBe("bac");
  });
});

describe("names of blocks", () => {
  const document = {
    ...newDocument(),
    ledger: [
      cell("wall", "3 mm ± 0.1 mm"),
      cell("twice", "2 * wall + sum(bolts_size)"),
      table("bolts", ["size", "half"], [["8 mm", "size / 2"]]),
    ],
    whatIf: [{ source: "cell wall", shift: "1", doubt: "" }],
  };
  const keyAt = (index: number) => keyOf(document.ledger[index] as Blocks[number]);

  it("are changed wherever they stand, suppositions too, and every row keeps its key", () => {
    const { document: renamed, refusal } = nameBlock(document, keyAt(0), "rib", new Map());
    expect(refusal).toBeUndefined();
    expect(renamed.ledger[1]).toMatchObject({ entry: "2 * rib + sum(bolts_size)" });
    expect(renamed.whatIf).toEqual([{ source: "cell rib", shift: "1", doubt: "" }]);
    expect(renamed.ledger.map(keyOf)).toEqual(document.ledger.map(keyOf));
  });

  it("of a table or one of its columns change what formulas call the columns", () => {
    expect(nameBlock(document, keyAt(2), "screws", new Map()).document.ledger[1]).toMatchObject({ entry: "2 * wall + sum(screws_size)" });
    const { document: renamed } = nameColumn(document, keyAt(2), 0, "length", new Map());
    expect(renamed.ledger[1]).toMatchObject({ entry: "2 * wall + sum(bolts_length)" });
    expect(nameColumn(document, keyAt(2), 0, "half", new Map()).refusal).toContain(
      '"bolts_half" is the name of something else: another column of "bolts"',
    );
  });

  it("that two blocks have stay with the formulas of the other one", () => {
    const twice = { ...newDocument(), ledger: [cell("wall", "1"), cell("wall", "2"), cell("sum", "wall")] };
    const { document: renamed } = nameBlock(twice, keyOf(twice.ledger[1] as Blocks[number]), "rib", new Map());
    expect(names(renamed.ledger)).toEqual(["wall", "rib", "sum"]);
    expect(renamed.ledger[2]).toMatchObject({ entry: "wall" });
  });
});

it("LedgerGraph knows direct users, entries of the setup by their places, and all who would miss a cell", () => {
  const demo = demoDocument();
  const document = {
    ...demo,
    ledger: [cell("ring", "3 mm"), cell("twice", "2 * ring"), cell("more", "twice + left_face")],
    tools: demo.tools.map((tool, i) => (i === 0 ? { ...tool, radius: "ring" } : tool)),
  };
  const graph = new LedgerGraph(document, readLedger(document));
  expect(graph.needsOf("more")).toEqual(["twice", "left_face"]);
  expect(graph.usersOf("ring")).toEqual(["twice", "tools.probe.radius"]);
  expect(graph.needsOf("tools.probe.radius")).toEqual(["ring"]);
  expect(graph.missing("ring")).toEqual(["twice", "more", "tools.probe.radius"]);
  expect([graph.isOwn("ring"), graph.isOwn("left_face")]).toEqual([true, false]);
});

it("LedgerGraph knows the correlations that name the doubt of a cell", () => {
  const together = { id: "pair", one: "cell ring", other: "tool probe, radius", coefficient: "1", evidence: "stated", note: "" } as const;
  const document = { ...demoDocument(), ledger: [cell("ring", "3 mm ± 1 um")], correlations: [together] };
  expect(new LedgerGraph(document, readLedger(document)).missing("ring")).toEqual(["correlations.pair"]);
});

describe("what is supposed of a row of a free table", () => {
  const rows = [["1"], ["2"], ["3"]];
  const pins = table("pins", ["size"], rows);
  const whatIf = [2, 3].map((row) => ({ source: `cell pins_size ${row}`, shift: String(row), doubt: "" }));
  const before = { ...newDocument(), ledger: [pins], whatIf: [...whatIf, { source: "cell pins", shift: "9", doubt: "" }] };
  const after = (next: string[][]) => {
    const changed = changeBlock<TableBlock>(before.ledger, keyOf(before.ledger[0] as Blocks[number]), { rows: next });
    return followRowSources(before, { ...before, ledger: changed }).whatIf.map(({ source, shift }) => `${source}: ${shift}`);
  };
  const [first, second, third] = pins.rows as [string[], string[], string[]];

  it.each([
    ["a row comes before it", [["0"], first, second, third], ["cell pins_size 3: 2", "cell pins_size 4: 3", "cell pins: 9"]],
    ["rows change places", [third, second, first], ["cell pins_size 2: 2", "cell pins_size 1: 3", "cell pins: 9"]],
    ["its row is removed", [first, third], ["cell pins_size 2: 3", "cell pins: 9"]],
    ["nothing moves", [first, second, third, ["4"]], ["cell pins_size 2: 2", "cell pins_size 3: 3", "cell pins: 9"]],
  ])("follows the row where %s", (_, next, wanted) => {
    expect(after(next)).toEqual(wanted);
  });
});

describe("suppositions", () => {
  const supposing = {
    ...newDocument(),
    ledger: [cell("wall", "3 mm", { instead: "4 mm" })],
    whatIf: [
      { source: "tool pin, radius", shift: "-1.5", doubt: "2" },
      { source: "tool pin, length", shift: "", doubt: "" },
    ],
  };

  it("are told in words, without those that change nothing", () => {
    expect(suppositionsInWords(supposing)).toEqual(["wall is 4 mm", "“tool pin, radius” shifted by −1.5 u and 2 times as doubtful"]);
  });

  it("are all taken back, and a document without any stays the same object", () => {
    expect(asStated(supposing)).toMatchObject({ ledger: [{ instead: "" }], whatIf: [] });
    const document = newDocument();
    expect(asStated(document)).toBe(document);
  });
});
