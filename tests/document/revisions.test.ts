import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentText } from "../../lib/document/documentText.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { differsFromLastRevision, documentAtRevision, noteRevision } from "../../lib/document/revisions.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { changeBetween, changed } from "../../lib/document/stateChange.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";

const note = { who: "A. Setter", when: "2026-01-05T08:00:00Z", why: "first setup" };

function noted(document: SetupDocument, why = ""): SetupDocument {
  const outcome = noteRevision(document, { ...note, why });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

const stated = ({ revisions: _, ...others }: SetupDocument) => others;

describe("changeBetween(before, after) and changed(before, change)", () => {
  const row = fc.record({ id: fc.constantFrom("a", "b", "c"), x: fc.constantFrom("1", "2") });
  const block = fc.oneof(
    row,
    fc.record({ id: fc.constantFrom("t", "u"), rows: fc.array(fc.array(fc.constantFrom("1", "2"), { maxLength: 2 })) }),
  );
  const state = fc.record({
    title: fc.constantFrom("", "x"),
    group: fc.record({ x: fc.string(), rows: fc.array(row) }),
    rows: fc.array(row, { maxLength: 12 }),
    blocks: fc.array(block, { maxLength: 6 }),
  });

  it.each([false, true])("lead from any state to any other, through text; nested: %s", (isNested) => {
    fc.assert(
      fc.property(state, state, (before, after) => {
        const change = changeBetween(before, after, isNested);
        const written = change === undefined ? undefined : JSON.parse(JSON.stringify(change));
        expect(changed(before, written)).toEqual({ ok: true, value: after });
      }),
      { numRuns: 2000 },
    );
  });

  it("say nothing where nothing differs", () => {
    fc.assert(fc.property(state, (each) => changeBetween(each, structuredClone(each)) === undefined));
  });

  it("keep of a list of ten thousand rows what one changed row, one moved row and one removed row leave", () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => ({ id: `${i + 1}`, x: "" }));
    const after = [
      ...rows.slice(0, 99),
      { id: "100", x: "new" },
      ...rows.slice(100, 5000),
      ...rows.slice(5001, 9000),
      rows[5000],
      ...rows.slice(9001),
    ];
    expect(changeBetween({ rows }, { rows: after })).toEqual({
      rows: { order: "1-99, 1 new, 101-5000, 5002-9000, 5001, 9002-10000", rows: [{ id: "100", x: "new" }] },
    });
  });

  it("tell of one entry in a table of ten thousand rows within a list, where it was asked for, that entry alone", () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => [`${i + 1}`, ""]);
    const table = { kind: "table", id: "bolt", rows };
    const edited = { ...table, rows: [...rows.slice(0, 99), ["100", "new"], ...rows.slice(100)] };
    const before = { ledger: [{ kind: "cell", id: "a" }, table, { kind: "cell", id: "b" }] };
    const after = { ledger: [before.ledger[0], edited, before.ledger[2]] };
    const change = changeBetween<object>(before, after, true);
    expect(change).toEqual({
      ledger: {
        order: "1, 2 changed, 3",
        rows: [],
        changes: [{ rows: { order: "1-99, 1 new, 101-10000", rows: [["100", "new"]] } }],
      },
    });
    expect(changed<object>(before, change)).toEqual({ ok: true, value: after });
    // A file is read by people: there the row stands whole.
    expect(changeBetween<object>(before, after)).toEqual({ ledger: { order: "1, 1 new, 3", rows: [edited] } });
  });

  it.each([
    ["a change of a row that is not there", { order: "3 changed", rows: [], changes: [{}] }, "list.order"],
    ["a row kept and changed", { order: "1, 1 changed", rows: [], changes: [{}] }, "list.order"],
    ["more changed rows than there are", { order: "1 changed, 2", rows: [] }, "list.order"],
    ["fewer changed rows than there are", { order: "1, 2", rows: [], changes: [{}] }, "list.order"],
    [
      "a change that does not fit within its row",
      { order: "1 changed, 2", rows: [], changes: [{ in: { order: "7", rows: [] } }] },
      "list.changes.0.in.order",
    ],
  ])("refuse %s, at its place", (_, change, at) => {
    expect(changed<object>({ list: [{ in: [] }, { in: [] }] }, { list: change })).toMatchObject({ ok: false, problems: [{ at }] });
  });

  it.each([
    ["a row that is not there", { order: "1-3", rows: [] }],
    ["a row twice", { order: "1, 1", rows: [] }],
    ["more new rows than there are", { order: "2 new", rows: ["x"] }],
    ["fewer new rows than there are", { order: "1", rows: ["x"] }],
    ["words", { order: "all of them", rows: [] }],
  ])("refuse an order with %s, at its place", (_, change) => {
    expect(changed({ list: ["a", "b"] }, { list: change })).toMatchObject({
      ok: false,
      problems: [{ at: "list.order", got: change.order }],
    });
  });
});

describe("noteRevision(document, note)", () => {
  it("keeps a state that documentAtRevision brings back after any later change, also through a file", () => {
    const first = demoDocument();
    const later: SetupDocument = {
      ...noted(first, "as drawn"),
      unit: "inch",
      touches: first.touches.slice(2).reverse(),
      part: { ...first.part, name: "another", elements: [] },
      machine: { ...first.machine, lostMotion: { x: "0.002", y: "", z: "" } },
    };
    const both = noted(later, "in inches");
    const saved = parseDocument(documentText({ ...both, ...stated(newDocument()), title: "now" }));
    if (!saved.ok) throw new Error(JSON.stringify(saved.problems));
    for (const [revision, state] of [first, later].entries()) {
      const restored = documentAtRevision(saved.value, revision);
      expect(restored.ok && stated(restored.value)).toEqual(stated(state));
      expect(restored.ok && restored.value.revisions).toEqual(both.revisions);
    }
  });

  it("costs only what has changed", () => {
    const first = noted(demoDocument());
    const [touch, ...others] = first.touches;
    const second = noted({ ...first, touches: [{ ...touch, readings: "-290.400" } as (typeof first.touches)[number], ...others] });
    expect(second.revisions[1]?.change).toEqual({ touches: { order: `1 new, 2-${first.touches.length}`, rows: [second.touches[0]] } });
    expect(noted(second).revisions[2]?.change).toEqual({});
  });
});

it("differsFromLastRevision(document) is true until the state is noted, and after the next edit", () => {
  const document = demoDocument();
  expect(differsFromLastRevision(document)).toBe(true);
  expect(differsFromLastRevision(noted(document))).toBe(false);
  expect(differsFromLastRevision({ ...noted(document), title: "x" })).toBe(true);
  expect(differsFromLastRevision(newDocument())).toBe(false);
});

it("a revision that a hand has spoilt is refused at its place, and the others are restored", () => {
  const good = noted(noted(demoDocument()));
  const bad = { ...good, revisions: [...good.revisions, { ...note, change: { touches: { order: "99", rows: [] } } }] };
  expect(documentAtRevision(bad, 2)).toMatchObject({ ok: false, problems: [{ at: "revisions.2.change.touches.order" }] });
  expect(documentAtRevision(bad, 1).ok).toBe(true);
  expect(noteRevision(bad, note)).toMatchObject({ ok: false });
});
