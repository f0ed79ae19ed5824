import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { candidateStrategies } from "../lib/datum/candidateStrategies.ts";
import type { PartLocation } from "../lib/datum/locatePart.ts";
import { solveStrategy, zeroFound } from "../lib/datum/solveStrategy.ts";
import type { Strategy } from "../lib/datum/strategy.ts";
import { parseDocument } from "../lib/document/parseDocument.ts";
import { readSetup } from "../lib/document/readSetup.ts";
import { drawsFor } from "../lib/evaluateSetup.ts";
import { locateSetup } from "../lib/fixture/locateSetup.ts";
import type { Characteristic } from "../lib/part/part.ts";
import { searchStrategies } from "../lib/searchStrategies.ts";
import { deviations, type View } from "../lib/tolerance/deviations.ts";
import { stackOf } from "../lib/tolerance/stack.ts";
import { budgetsOf } from "../lib/uncertainty/budget.ts";

function demo(name: string) {
  const parsed = parseDocument(readFileSync(new URL(`../notebooks/demo/${name}.json`, import.meta.url), "utf8"));
  if (!parsed.ok) throw new Error(name);
  return readSetup(parsed.value).setup;
}

/** 1 - Σ(1 - p), every strategy solved by its readings and in the batch, every chance worked out by itself; undefined where it is not determined. */
function leastChance(strategy: Strategy, location: PartLocation, view: View): number | undefined {
  const solved = solveStrategy(strategy, location);
  if (!solved.ok || !zeroFound(solved.value).every(Boolean)) return undefined;
  let least = 1;
  for (const [i, deviation] of deviations(solved.value, location, view).entries()) {
    if (!deviation.ok) return undefined;
    least -= 1 - stackOf(location.setup.part.characteristics[i] as Characteristic, budgetsOf(deviation.value)).chance;
  }
  return least;
}

describe("searchStrategies(location, like, view, draws)", () => {
  it.each([
    ["bearingCover", "batch"],
    ["bearingCover", "thisPart"],
    ["sawnPlate", "batch"],
    ["jawAndStop", "batch"],
    ["jawAndStop", "thisPart"],
    ["plateOnPins", "batch"],
  ] as const)("finds in %s, %s, what is best for its number of touches when each candidate is worked out by itself", (name, view) => {
    const setup = demo(name);
    const location = locateSetup(setup);
    const like = setup.strategies.find(({ id }) => id === setup.chosen) as Strategy;
    const steps = searchStrategies(location, like, view, drawsFor(setup));
    let step = steps.next();
    while (!step.done) step = steps.next();
    const { best, determined, tried } = step.value;

    const { strategies } = candidateStrategies(location, like);
    const alone = strategies.map((strategy) => ({ count: strategy.touches.length, least: leastChance(strategy, location, view) }));
    expect(tried).toBe(strategies.length);
    expect(determined).toBe(alone.filter(({ least }) => least !== undefined).length);
    expect(best.length).toBeGreaterThan(0);
    for (const { strategy } of best) {
      const most = Math.max(
        ...alone.flatMap(({ count, least }) => (count === strategy.touches.length && least !== undefined ? [least] : [])),
      );
      // What is less than 1e-5 better is no gain.
      expect(leastChance(strategy, location, view)).toBeGreaterThan(most - 1.1e-5);
    }
  });
});
