import { describe, expect, it } from "vitest";
import { type TraceGraph, traceOf } from "../../../notebooks/figures/trace/traceOf.ts";
import { type TraceOptions, trace } from "../../../notebooks/figures/trace.ts";
import { traceTable } from "../../../notebooks/figures/traceTable.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

function graphOf(needs: Readonly<Record<string, readonly string[]>>): TraceGraph {
  return {
    needsOf: (name) => needs[name] ?? [],
    usersOf: (name) => Object.keys(needs).filter((user) => needs[user]?.includes(name)),
  };
}

const chain = graphOf({ b: ["a"], c: ["b"], d: ["c"], e: ["d"], f: ["e"], g: ["f"], h: ["g"], i: ["h"] });
const options: Omit<TraceOptions, "title"> = { textOf: () => "12.500 mm", isOwn: () => true, width: 470 };

// The expected neighbourhoods are read off the graphs by hand.
describe("traceOf(name, graph)", () => {
  it("goes three steps either way and counts what lies beyond", () => {
    const { columns, beyond, edges } = traceOf("e", chain);
    expect(columns.map(({ depth, names }) => `${depth}: ${names}`)).toEqual(["-3: b", "-2: c", "-1: d", "0: e", "1: f", "2: g", "3: h"]);
    expect(beyond).toEqual({ madeFrom: 1, users: 1 });
    expect(edges).toHaveLength(6);
  });

  it("puts a name with two ways as far away as the longer of them, so that every line goes to the right", () => {
    const { columns } = traceOf("sum", graphOf({ sum: ["a", "half"], half: ["a"] }));
    expect(columns.map(({ names }) => names)).toEqual([["a"], ["half"], ["sum"]]);
  });

  it("has room for so many names and counts the others", () => {
    const names = Array.from({ length: 9 }, (_, i) => `part_${i}`);
    const [column] = traceOf("sum", graphOf({ sum: names })).columns;
    expect([column?.names.length, column?.more]).toEqual([6, 3]);
  });
});

describe("trace(of, options)", () => {
  it.each([320, 470, 760])("is a sound figure at a width of %i, with a sentence for every side", (width) => {
    const figure = drawn((environment) => trace(traceOf("e", chain), { ...options, title: "e", width }, environment));
    expect(faultsOf(figure)).toEqual([]);
    expect(figure.root.querySelectorAll("rect")).toHaveLength(7);
    expect(figure.root.querySelector("desc")?.textContent).toBe(
      "e is made from b, c, d. On it depend f, g, h. Beyond three steps: 1 more to the left, 1 more to the right.",
    );
  });

  it("breaks long names and keeps every text in its box", () => {
    const long = graphOf({ difference_of_both_lengths: ["length_by_three_touches_of_the_probe", "length_by_outside_micrometer"] });
    const of = traceOf("difference_of_both_lengths", long);
    const figure = drawn((environment) => trace(of, { ...options, title: "difference_of_both_lengths", width: 320 }, environment));
    expect(faultsOf(figure)).toEqual([]);
  });

  it("has a table of every name with what it is made from directly", () => {
    const { rows } = traceTable(traceOf("sum", graphOf({ sum: ["a", "half"], half: ["a"] })), {
      title: "sum",
      textOf: (name) => `${name}!`,
    });
    expect(rows).toEqual([
      ["a", "2 before", "a!", "–"],
      ["half", "1 before", "half!", "a"],
      ["sum", "itself", "sum!", "a, half"],
    ]);
  });
});
