import { expect, it } from "vitest";
import { candidateStrategies } from "../../lib/datum/candidateStrategies.ts";
import { solveStrategy } from "../../lib/datum/solveStrategy.ts";
import { documentFrom, must, open } from "../properties/setups.ts";

function bores(letters: readonly string[]) {
  const places = [
    [0, 0],
    [100, 10],
    [90, 70],
  ] as const;
  return open(
    documentFrom({
      part: {
        elements: letters.map((datum, i) => ({
          id: `bore ${i + 1}`,
          kind: "bore",
          datum,
          x: String(places[i]?.[0]),
          y: String(places[i]?.[1]),
          diameter: "20",
        })),
      },
      tools: [{ id: "indicator", kind: "swept indicator", scatter: "0.002" }],
      touches: letters.map((_, i) => ({
        id: `t${i + 1}`,
        element: `bore ${i + 1}`,
        travelling: "sweep",
        tool: "indicator",
        readings: `X${(places[i]?.[0] ?? 0) - 200} Y${(places[i]?.[1] ?? 0) - 150}`,
      })),
      strategies: [{ id: "s", touches: ["t1"], zero: { x: "bore 1", y: "bore 1" } }],
    }),
  );
}

function candidatesOf(letters: readonly string[]) {
  const { location } = bores(letters);
  const [like] = location.setup.strategies;
  if (like === undefined) throw new Error("no strategy");
  return { location, strategies: candidateStrategies(location, like).strategies };
}

it("candidateStrategies(location, like) takes bores of one datum letter together too, and turns the part by them", () => {
  const { location, strategies } = candidatesOf(["A", "A", "B"]);
  const together = strategies.filter(({ id }) => id.startsWith("all of datum A"));
  expect(together.map(({ rotation }) => rotation)).toEqual(["ignored", "measured", "applied"]);
  for (const strategy of together) {
    expect(strategy.touches).toEqual(["t1", "t2"]);
    const { determined } = must(solveStrategy(strategy, location));
    expect(determined.slice(0, 2)).toEqual([true, true]);
    if (strategy.rotation !== "ignored") expect(determined[3]).toBe(true);
  }
  expect(strategies.some(({ id }) => id.includes("datum B"))).toBe(false);
});

it("candidateStrategies(location, like) makes no pattern of a single bore", () => {
  expect(candidatesOf(["A"]).strategies.map(({ id }) => id)).toEqual(["bore 1"]);
});
