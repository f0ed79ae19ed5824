import { describe, expect, it, vi } from "vitest";
import { differenceOfDocuments } from "../lib/differenceOfDocuments.ts";
import { parseDocument } from "../lib/document/parseDocument.ts";
import type { SetupDocument, ToolEntry, TouchEntry } from "../lib/document/setupDocument.ts";
import { demoDocument } from "../notebooks/pages/demo.ts";
import { mutatedText } from "./document/mutants.ts";

vi.setConfig({ testTimeout: 60_000 });

const demo = demoDocument();
const sentences = (list: readonly { sentence: string }[]) => list.map(({ sentence }) => sentence);
const difference = (after: SetupDocument, before = demo) => {
  const { entries, results } = differenceOfDocuments(before, after);
  return { entries: sentences(entries), results: sentences(results) };
};
const touch = (document: SetupDocument, id: string, change: Partial<TouchEntry>): SetupDocument => ({
  ...document,
  touches: document.touches.map((row) => (row.id === id ? { ...row, ...change } : row)),
});
const tool = (document: SetupDocument, id: string, change: Partial<ToolEntry>): SetupDocument => ({
  ...document,
  tools: document.tools.map((row) => (row.id === id ? { ...row, ...change } : row)),
});

it("a document differs in nothing from itself", () => {
  expect(difference(structuredClone(demo))).toEqual({ entries: [], results: [] });
});

describe("the zero moves as the hand formulas of touching say", () => {
  // F = R + a · r: a face found by a probe travelling +X lies one radius beyond the reading.
  it("by the whole change of the radius on a face", () => {
    const corner: SetupDocument = { ...demo, chosen: "corner", strategies: demo.strategies.filter(({ id }) => id === "corner") };
    const { entries, results } = difference(tool(corner, "probe", { radius: "2.9995 mm" }), corner);
    expect(entries).toEqual(['radius of tool "probe" from "5.993 mm / 2" to "2.9995 mm" (+0.003 mm)']);
    expect(results.filter((each) => each.startsWith("zero X moved"))[0]).toContain("moved +0.0030 mm");
  });

  // (F1 + F2) / 2: what is the same on both sides cancels, and one side counts half.
  it("by nothing where the radius cancels, and by half of one of two opposite readings", () => {
    expect(difference(tool(demo, "probe", { radius: "2.9995 mm" })).results.filter((each) => each.startsWith("zero X moved"))).toEqual([]);
    const { entries, results } = difference(touch(demo, "b1", { readings: "-290.378" }));
    expect(entries).toEqual(['readings of touch "b1" from "-290.388" to "-290.378" (mean +0.010 mm)']);
    expect(results[0]).toContain("zero X moved +0.0050 mm");
  });

  it("and each of several changes is told by what it does alone", () => {
    const after = tool(touch(touch(demo, "b1", { readings: "-290.378" }), "b2", { readings: "-346.391" }), "probe", {
      radius: "2.9995 mm",
    });
    const [move = ""] = difference(after).results.filter((each) => each.startsWith("zero X moved"));
    const moved = Number(/moved (\S+) mm/.exec(move)?.[1]);
    const alone = [...move.matchAll(/([+-][\d.]+) mm from touch "(b\d)"/g)].map(([, by, which]) => [which, Number(by)] as const);
    expect(new Map(alone).get("b1")).toBeCloseTo(0.005, 4);
    expect(alone.reduce((sum, [, by]) => sum + by, 0)).toBeCloseTo(moved, 3);
  });
});

it("chances, the bottleneck and what is typed follow the choice of the strategy (the table of the README)", () => {
  const { entries, results } = difference({ ...demo, chosen: "corner" });
  expect(entries).toEqual(['strategy in use from "bore, turned to front" to "corner"']);
  expect(results[0]).toBe('the zero is now taken from "corner"; it was "bore, turned to front"');
  const fell = results.find((each) => each.startsWith("the chance that all are met, this part,")) ?? "";
  expect(fell).toMatch(/fell from above 99\.99 % to 35\.\d\d %$/);
  expect(results.some((each) => /became the bottleneck of this part/.test(each))).toBe(true);
});

it("a renamed tool is one sentence, and changes no result", () => {
  const renamed = {
    ...tool(demo, "probe", { id: "stylus" }),
    touches: demo.touches.map((row) => ({ ...row, tool: row.tool === "probe" ? "stylus" : row.tool })),
  };
  expect(difference(renamed)).toEqual({ entries: ['tool "probe" is now called "stylus"'], results: [] });
});

it("rows that are added, removed and moved are told as such", () => {
  const [first, second, ...others] = demo.touches as [TouchEntry, TouchEntry, ...TouchEntry[]];
  expect(difference({ ...demo, touches: [second, first, ...others] }).entries).toEqual(["the order of touches is another one"]);
  expect(difference({ ...demo, touches: [...demo.touches, { ...first, id: "b5" }] }).entries).toEqual([
    'touch "b5" was added: element "bore", readings "-290.388"',
  ]);
  const { entries, results } = difference({ ...demo, touches: demo.touches.filter(({ id }) => id !== "top") });
  expect(entries).toEqual(['touch "top" was removed']);
  expect(results.some((each) => each.startsWith("a new problem: strategies."))).toBe(true);
});

it("what is typed otherwise and means the same says so, and changes no result", () => {
  const { entries, results } = difference(tool(demo, "probe", { radius: "2.9965 mm" }));
  expect(entries).toEqual(['radius of tool "probe" from "5.993 mm / 2" to "2.9965 mm" (the same length, written otherwise)']);
  expect(results).toEqual([]);
});

it("another unit of bare numbers is told with what it means", () => {
  const { entries, results } = difference({ ...demo, unit: "inch" });
  expect(entries).toEqual(["bare numbers are inches now and were millimetres: every length without a unit of its own is another one"]);
  expect(results.some((each) => each.startsWith("a new problem: "))).toBe(true);
});

it("a result that is lost and one that is found again are told with the reason", () => {
  const broken = touch(demo, "top", { readings: "about 12" });
  expect(difference(broken).results.some((each) => each.startsWith("a new problem: touches.top.readings: "))).toBe(true);
  expect(difference(demo, broken).results.some((each) => each.startsWith("no problem any more: touches.top.readings: "))).toBe(true);
});

it("whatever is mutated, the difference of two documents that can be read is told, with an entry for each difference", () => {
  // Without positions, whose exact distributions take most of the time.
  const characteristics = demo.part.characteristics.filter(({ kind }) => kind !== "position");
  const small: SetupDocument = { ...demo, part: { ...demo.part, characteristics }, sampling: { trials: 16, seed: 1 } };
  let compared = 0;
  for (let seed = 0; compared < 40; seed++) {
    const mutant = parseDocument(mutatedText(small, seed));
    if (!mutant.ok || JSON.stringify(mutant.value) === JSON.stringify(small)) continue;
    compared += 1;
    const { entries } = differenceOfDocuments(small, mutant.value);
    const withoutRevisions = ({ revisions: _, ...others }: SetupDocument) => JSON.stringify(others);
    expect(entries.length > 0 || withoutRevisions(mutant.value) === withoutRevisions(small)).toBe(true);
  }
});
