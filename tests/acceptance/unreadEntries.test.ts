import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateDocument, must, openDocument } from "./openDocument.ts";

// What must not happen: a number that looks whole while something it rests on could not be read.
const document = openDocument("plateWithSawnEnd");
const corner = "corner on C";

function strategyOf(changed: SetupDocument) {
  return evaluateDocument(changed).strategies.find(({ id }) => id === corner)?.evaluation;
}

describe("an entry that cannot be read", () => {
  it("of the machine leaves no result that would miss its doubt", () => {
    const changed = { ...document, machine: { ...document.machine, lostMotion: { ...document.machine.lostMotion, x: "abc" } } };
    const evaluation = evaluateDocument(changed);
    expect(evaluation.problems.map(({ at }) => at)).toEqual(["machine.lostMotion.x"]);
    expect(evaluation.faces).toEqual([]);
    expect(evaluation.strategies.every(({ evaluation: each }) => !each.ok)).toBe(true);
  });

  it("of a characteristic leaves the chance of all unknown, and the others judged", () => {
    const [first, ...rest] = document.part.characteristics;
    if (first === undefined) throw new Error("expected characteristics");
    const changed = { ...document, part: { ...document.part, characteristics: [{ ...first, tolerance: "abc" }, ...rest] } };
    const { thisPart } = evaluateDocument(changed).strategy(corner);
    expect(thisPart.stacks).toHaveLength(rest.length);
    expect(thisPart.stacks.every(({ ok }) => ok)).toBe(true);
    expect(thisPart.chanceOfAll.ok).toBe(false);
    expect(must(evaluateDocument(document).strategy(corner).thisPart.chanceOfAll).chance).toBeGreaterThan(0.99);
  });

  it("of a tool is told as one that cannot be read, not as one that is not there", () => {
    const tools = document.tools.map((tool) => (tool.id === "edge finder" ? { ...tool, scatter: "abc" } : tool));
    const { problems } = evaluateDocument({ ...document, tools });
    expect(problems.find(({ at }) => at === "touches.left.tool")?.what).toBe("this tool cannot be read");
  });

  it("of a touch leaves the strategies that use it without a zero", () => {
    const touches = document.touches.map((touch) => (touch.id === "left" ? { ...touch, readings: "-412.6 abc" } : touch));
    const evaluation = strategyOf({ ...document, touches });
    expect(evaluation?.ok).toBe(false);
    expect(evaluation?.ok === false && evaluation.problems[0]?.what).toBe('the touch "left" cannot be used; see what is said there');
  });
});
