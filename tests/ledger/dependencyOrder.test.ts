import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dependencyOrder, usersOf } from "../../lib/ledger/dependencyOrder.ts";

const graphs = fc
  .array(fc.array(fc.nat(11), { maxLength: 4 }), { minLength: 1, maxLength: 12 })
  .map((rows) => new Map(rows.map((needs, i) => [String(i), needs.map(String)])));

describe("dependencyOrder(needs)", () => {
  it("puts every name after those that it needs, and each either in the order or in a circle", () => {
    fc.assert(
      fc.property(graphs, (needs) => {
        const { order, circles } = dependencyOrder(needs);
        expect([...order, ...circles.keys()].sort()).toEqual([...needs.keys()].sort());
        const place = new Map(order.map((name, i) => [name, i]));
        for (const name of order)
          for (const needed of needs.get(name) ?? [])
            if (needs.has(needed)) expect(circles.has(needed) || (place.get(needed) as number) < (place.get(name) as number)).toBe(true);
      }),
    );
  });

  it("tells a way round for exactly those that need themselves", () => {
    fc.assert(
      fc.property(graphs, (needs) => {
        const { circles } = dependencyOrder(needs);
        for (const name of needs.keys()) {
          const reached = new Set<string>();
          const queue = [...(needs.get(name) ?? [])];
          for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
            if (reached.has(at) || !needs.has(at)) continue;
            reached.add(at);
            queue.push(...(needs.get(at) ?? []));
          }
          expect(circles.has(name)).toBe(reached.has(name));
          const way = circles.get(name);
          if (way === undefined) continue;
          expect([way[0], way.at(-1)]).toEqual([name, name]);
          for (let i = 1; i < way.length; i++) expect(needs.get(way[i - 1] as string)).toContain(way[i]);
        }
      }),
    );
  });

  it("does not overflow the stack on a chain of 100 000 names", () => {
    const chain = new Map(Array.from({ length: 100_000 }, (_, i) => [String(i), [String(i + 1)]]));
    expect(dependencyOrder(chain).order.at(-1)).toBe("0");
  });
});

describe("usersOf(name, needs)", () => {
  it("finds users of users, in the order given", () => {
    const needs = new Map([
      ["c", ["b"]],
      ["b", ["a"]],
      ["a", []],
      ["d", ["x"]],
    ]);
    expect(usersOf("a", needs)).toEqual(["c", "b"]);
  });
});
