import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { partMap } from "../../../notebooks/figures/partMap.ts";
import { partMapTable } from "../../../notebooks/figures/partMapTable.ts";
import { smallSize, textWidth } from "../../../notebooks/figures/textWidth.ts";
import { cover, openPlate } from "../../gallery/documents.ts";
import { drawn, faultsOf } from "./drawnFigure.ts";

const ofCover = evaluateSetup(cover);
const figure = (evaluation: typeof ofCover, strategy: string, width = 520) =>
  drawn((environment) => partMap(evaluation, strategy, { unit: "mm", width }, environment));
const number = (element: Element | null | undefined, name: string) => Number(element?.getAttribute(name));

describe("partMap(evaluation, strategy, options)", () => {
  it("draws zone and 95 % ellipses of a hole to one scale, which is stated", () => {
    const { root, words } = figure(ofCover, "middle of the length", 900);
    const factor = Number(/drawn × ([\d\s]+)/.exec(words.join(" "))?.[1]?.replace(/\s/g, ""));
    expect([1, 2, 5].map((leading) => factor / leading)).toContain(10 ** Math.floor(Math.log10(factor)));
    const hole = Array.from(root.querySelectorAll("g")).find((group) => group.querySelector("title")?.textContent?.startsWith("hole 3:"));
    const zone = number(hole?.querySelector("circle.fig-zone"), "r");
    const [batch, thisPart] = Array.from(hole?.querySelectorAll("ellipse") ?? []);
    // The zone is ⌀ 0.15; two normal components: k = 2.4477 for 95 % (JCGM 102:2011, Table 1: 2.45 for two quantities).
    const stack = ofCover.strategies.find(({ id }) => id === "middle of the length")?.evaluation;
    if (!stack?.ok) throw new Error("expected a result");
    for (const [ellipse, view] of [
      [batch, "batch"],
      [thisPart, "thisPart"],
    ] as const) {
      const found = stack.value[view].stacks[2];
      if (!found?.ok) throw new Error("expected a stack");
      const [x, y] = found.value.components.map(({ standardUncertainty }) => standardUncertainty) as [number, number];
      // Of an ellipse of which the covariance has the trace u²(X) + u²(Y), the squares of the half axes add up to k² times that.
      const sum = number(ellipse, "rx") ** 2 + number(ellipse, "ry") ** 2;
      expect(Math.sqrt(sum) / zone).toBeCloseTo((2.4477 * Math.hypot(x, y)) / 0.075, 1);
    }
    expect(batch?.getAttribute("class")).toContain("fig-region-wide");
  });

  it("says which regions reach out of their zones, and what has no place in the plan", () => {
    const { words } = figure(ofCover, "corner");
    const all = words.join(" ");
    expect(all).toContain("In the batch the region reaches out of the zone: hole 1, hole 2, hole 3");
    expect(all).toContain("Not in the plan: slot depth (along Z).");
    expect(figure(ofCover, "bore, turned to front").words.join(" ")).toContain("All regions lie within their zones.");
  });

  it("says why nothing is drawn", () => {
    expect(figure(ofCover, "").words).toEqual(["No strategy is chosen."]);
    const nothing = evaluateSetup({ ...cover, part: { ...cover.part, characteristics: [] } });
    expect(figure(nothing, "bore").words).toEqual(["The drawing demands nothing yet: add a characteristic."]);
  });

  it("partMapTable(…) has a row for each feature and view", () => {
    const { rows, columns } = partMapTable(ofCover, "corner", { unit: "mm" });
    expect(rows.filter(([name]) => name === "hole 1").map((row) => row[columns.indexOf("of")])).toEqual(["this part", "the batch"]);
    expect(rows.find(([name]) => name === "hole 1")?.[columns.indexOf("zone")]).toBe("⌀ 0.15");
  });

  it("keeps every label inside and off every other, wherever the holes are", () => {
    const hole = openPlate.part.elements.find(({ id }) => id === "H1") as SetupDocument["part"]["elements"][number];
    const demand = openPlate.part.characteristics[0] as SetupDocument["part"]["characteristics"][number];
    const places = fc.array(fc.record({ x: fc.integer({ min: 5, max: 190 }), y: fc.integer({ min: 5, max: 95 }) }), {
      minLength: 1,
      maxLength: 30,
    });
    fc.assert(
      fc.property(places, fc.integer({ min: 320, max: 1000 }), fc.constantFrom("0.01", "0.05", "0.4"), (spots, width, tolerance) => {
        const document: SetupDocument = {
          ...openPlate,
          sampling: { trials: 16, seed: 1 },
          part: {
            ...openPlate.part,
            elements: [
              ...openPlate.part.elements.filter(({ kind }) => kind === "face"),
              ...spots.map(({ x, y }, i) => ({ ...hole, id: `hole ${i}`, x: String(x), y: String(y) })),
            ],
            characteristics: spots.map((_, i) => ({ ...demand, id: `position of hole ${i}`, of: `hole ${i}`, tolerance })),
          },
        };
        const map = figure(evaluateSetup(document), "corner", width);
        expect(faultsOf(map)).toEqual([]);
        const labels = Array.from(map.root.querySelectorAll("text.fig-halo")).map((text) => ({
          x: number(text, "x"),
          y: number(text, "y") - 11,
          width: textWidth(text.firstChild?.textContent ?? "", smallSize),
        }));
        for (const [i, a] of labels.entries())
          for (const b of labels.slice(0, i)) {
            const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
            const down = Math.min(a.y, b.y) + 14 - Math.max(a.y, b.y);
            const shared = across > 0 && down > 0 ? across * down : 0;
            // A sliver of their lines may meet.
            expect(shared / (Math.min(a.width, b.width) * 14)).toBeLessThan(0.09);
          }
      }),
      { numRuns: 25 },
    );
  });
});
