import { describe, expect, it } from "vitest";
import type { Strategy } from "../../lib/datum/strategy.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import type { Characteristic } from "../../lib/part/part.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { dimensionChains } from "../../lib/tolerance/dimensionChain.ts";
import { cover, pocketBlock } from "../gallery/documents.ts";
import { must } from "../properties/setups.ts";

const ofCover = evaluateSetup(cover);

function chainsOf(evaluation: typeof ofCover, strategy: string, characteristic: string, view: View) {
  const { setup, location } = evaluation;
  return must(
    dimensionChains(
      setup.part.characteristics.find(({ id }) => id === characteristic) as Characteristic,
      setup.strategies.find(({ id }) => id === strategy) as Strategy,
      location,
      view,
    ),
  );
}
const gains = (chains: ReturnType<typeof chainsOf>) =>
  Object.fromEntries(chains.flatMap(({ links }) => links.map(({ dimension: { id }, gain }) => [id, Math.round(gain * 1000) / 1000 + 0])));

// Plain geometry. The drawing measures from the bore: a zero at a face brings the way from bore to face in whole, a zero half-way between two faces
// brings in the whole way to the one and half of the length between them.
describe("dimensionChains(characteristic, strategy, location, view)", () => {
  it("has gains 0, 1/2 and 1 in the batch, as the strategy makes them", () => {
    expect(gains(chainsOf(ofCover, "bore, turned to front", "hole 1", "batch"))).toEqual({ "bore to front": 0 });
    expect(gains(chainsOf(ofCover, "corner", "hole 1", "batch"))).toEqual({ "bore to left": 1, "bore to front": 1 });
    expect(gains(chainsOf(ofCover, "middle of the length", "hole 1", "batch"))).toEqual({
      "bore to left": 1,
      length: 0.5,
      "bore to front": 1,
    });
  });

  it("leaves nothing of sizes that the touches of this part tell, and says so", () => {
    const chains = chainsOf(ofCover, "middle of the length", "hole 1", "thisPart");
    expect(chains.flatMap(({ links }) => links.map(({ gain, amount, knownBy }) => [gain, amount, knownBy]))).toEqual([
      [0, 0, "touches"],
      [0, 0, "touches"],
      [0, 0, "touches"],
    ]);
    expect(chains.map(({ bySizes }) => bySizes)).toEqual([0, 0]);
  });

  it("marks datum, touched faces, zero and feature at their places", () => {
    const [x] = chainsOf(ofCover, "middle of the length", "hole 3", "batch");
    expect(x?.places.map(({ element, nominal, datum, touches, isZero, end }) => [element, nominal, datum, touches, isZero, end])).toEqual([
      ["left", -80, "", ["left"], false, undefined],
      ["bore", 0, "B", [], false, undefined],
      ["middle", 0, "", [], true, undefined],
      ["hole 3", 62, "", [], false, "of"],
      ["right", 80, "", ["right"], false, undefined],
    ]);
  });

  // By an independent way: the rows of the stack come from the sources as they are, the chain from sizes that are sources of their own.
  it.each([
    ["cover", ofCover],
    ["block", evaluateSetup(pocketBlock)],
  ] as const)("gives what the stacks of the %s give of the same sources", (_name, evaluation) => {
    let compared = 0;
    for (const { id: strategy, evaluation: found } of evaluation.strategies) {
      if (!found.ok) continue;
      evaluation.setup.part.characteristics.forEach((characteristic, i) => {
        const stack = found.value.batch.stacks[i];
        if (stack?.ok !== true) return;
        chainsOf(evaluation, strategy, characteristic.id, "batch").forEach((chain, c) => {
          const component = Math.min(c, stack.value.components.length - 1);
          for (const { dimension, amount } of chain.links) {
            const row = stack.value.rows.find(({ source }) => source.id === `dimension ${dimension.id}, in the batch`);
            expect(amount).toBeCloseTo(row?.amounts[component] ?? 0, 8);
            compared += 1;
          }
        });
      });
    }
    expect(compared).toBeGreaterThan(4);
  });

  it("tells the gain of a size that is without doubt for the moment, which no source shows", () => {
    const sure: SetupDocument = {
      ...cover,
      part: { ...cover.part, dimensions: cover.part.dimensions.map((row) => (row.id === "length" ? { ...row, tolerance: "0" } : row)) },
    };
    const [x] = chainsOf(evaluateSetup(sure), "middle of the length", "hole 1", "batch");
    const length = x?.links.find(({ dimension }) => dimension.id === "length");
    expect(length?.gain).toBeCloseTo(0.5, 5);
    expect(length?.amount).toBe(0);
  });
});
