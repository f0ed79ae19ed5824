import { describe, expect, it } from "vitest";
import { abandonSession, type DocumentHistory, recordEdit, redo, startHistory, undo } from "../../../notebooks/pages/documentHistory.ts";

const type = (history: DocumentHistory<string>, letters: string, session: object) =>
  [...letters].reduce((each, _, i) => recordEdit(each, (before) => before + letters.slice(0, i + 1), "typed", session), history);
const back = <D>(history: DocumentHistory<D>) => undo(history) ?? history;
const forth = <D>(history: DocumentHistory<D>) => redo(history) ?? history;

describe("recordEdit(history, change, what, session)", () => {
  it("makes one step of all edits of a session, each built on what was before it", () => {
    const typed = type(startHistory("x"), "abc", {});
    expect(typed.present).toBe("xabc");
    expect(back(typed).present).toBe("x");
    expect(undo(back(typed))).toBeUndefined();
  });

  it("makes a step of each edit without a session, and of each session", () => {
    const twice = recordEdit(
      recordEdit(startHistory(1), (n) => n + 1, "one"),
      (n) => n + 1,
      "two",
    );
    expect(twice.past.map(({ what }) => what)).toEqual(["one", "two"]);
    expect(type(type(startHistory("x"), "a", {}), "b", {}).past).toHaveLength(2);
  });

  it("leaves no step where nothing differs, and none where a session came back to its start", () => {
    const start = startHistory("x");
    expect(recordEdit(start, (before) => before, "nothing")).toBe(start);
    const session = {};
    expect(recordEdit(type(start, "ab", session), () => "x", "typed", session).past).toEqual([]);
  });

  it("forgets what was undone", () => {
    const edited = recordEdit(back(recordEdit(startHistory(1), () => 2, "two")), () => 3, "three");
    expect(redo(edited)).toBeUndefined();
  });

  it("keeps a thousand steps", () => {
    let history = startHistory(0);
    for (let i = 1; i <= 1005; i++) history = recordEdit(history, () => i, `${i}`);
    expect(history.past).toHaveLength(1000);
    expect(history.past[0]?.document).toBe(5);
  });
});

it("undo(history) and redo(history) go there and back", () => {
  const edited = recordEdit(
    recordEdit(startHistory(1), () => 2, "two"),
    () => 3,
    "three",
  );
  expect(
    [back(edited), back(back(edited)), forth(back(back(edited))), forth(forth(back(back(edited))))].map(({ present }) => present),
  ).toEqual([2, 1, 2, 3]);
  expect(redo(edited)).toBeUndefined();
});

it("abandonSession(history, session) takes back its own edits and no others", () => {
  const session = {};
  const typed = type(startHistory("x"), "abc", session);
  expect(abandonSession(typed, session)).toMatchObject({ present: "x", past: [] });
  expect(abandonSession(typed, {})).toBe(typed);
});
