import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Improvement } from "../lib/decision/improvement.ts";
import type { SetupDocument } from "../lib/document/setupDocument.ts";
import { evaluateSetup } from "../lib/evaluateSetup.ts";
import { improveSetup } from "../lib/improveSetup.ts";
import { improvementText } from "../lib/record/improvementText.ts";
import { documentFrom, must } from "./properties/setups.ts";

const demo: SetupDocument = JSON.parse(readFileSync(new URL("../notebooks/demo/bearingCover.json", import.meta.url), "utf8"));

function improved(document: SetupDocument, request: Parameters<typeof improveSetup>[1]): Improvement {
  const steps = improveSetup(document, request);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return must(step.value);
}

function withStrategy(document: SetupDocument, strategy: Improvement["search"]["best"][number]["strategy"], zero: object): SetupDocument {
  const { id, touches, hold, orient, rotation, sizes } = strategy;
  return {
    ...document,
    strategies: [...document.strategies, { id, touches, hold, orient, rotation, sizes, fixtureFrame: "", zero, note: "" }],
  } as SetupDocument;
}

const ofDemo = { thisPart: improved(demo, { view: "thisPart", wanted: 0.9973 }), batch: improved(demo, { view: "batch", wanted: 0.9973 }) };

/**
 * A plate with one hole whose X alone is toleranced, zero by one touch of its left face with an edge finder of scatter 0.006 mm, read `readings`
 * times; nothing else is in doubt.
 */
function plate(readings: number): SetupDocument {
  return documentFrom({
    part: {
      name: "plate",
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "A", x: "0" },
        { id: "hole", kind: "bore", made: "here", diameter: "8", x: "40", y: "0" },
      ],
      characteristics: [{ id: "hole X", kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.01" }],
    },
    tools: [{ id: "finder", kind: "turning edge finder", radius: "3", radiusUncertainty: "0", scatter: "0.006" }],
    touches: [{ id: "touch", element: "left", travelling: "+X", tool: "finder", readings: Array(readings).fill("-103.000").join(" ") }],
    strategies: [{ id: "left face", touches: ["touch"], zero: { x: "0", y: "0", z: "0" } }],
    chosen: "left face",
  });
}

/** Chance of |N(0, σ)| ≤ 0.01 from the error function (0.01/σ/√2), by scipy.special.erf. */
const chanceOf = { single: 0.90442, meanOfTwo: 0.98158 } as const;

describe("improveSetup(document, request)", () => {
  it("gives one more reading of a face read once the chance of a mean of two", () => {
    const { moves } = improved(plate(1), { view: "thisPart", wanted: 0.99 });
    expect(moves.now.chance).toBeCloseTo(chanceOf.single, 4);
    const again = moves.moves.find(({ kind }) => kind === "touch again");
    expect(again?.of).toEqual(["touch"]);
    expect(again?.chanceOfAll.chance).toBeCloseTo(chanceOf.meanOfTwo, 4);
    // What is foreseen is what comes when the reading is taken.
    expect(improved(plate(2), { view: "thisPart", wanted: 0.99 }).moves.now.chance).toBeCloseTo(chanceOf.meanOfTwo, 4);
  });

  it("tells how small the scatter must be, and that nothing is left without it", () => {
    const { allowances, moves } = improved(plate(1), { view: "thisPart", wanted: 0.9973 });
    const [scatter] = allowances;
    expect(scatter?.doubt.sources.map(({ id }) => id)).toEqual(["touch touch, scatter"]);
    // Half the tolerance over the normal quantile of 0.99865.
    expect(scatter?.standardUncertainty).toBeCloseTo(0.01 / 2.99998, 5);
    expect(moves.withoutMeasuring.chance).toBe(1);
  });

  it("finds no worse strategy than the best that a person has written, and the chances that evaluateSetup has for it", () => {
    const written = evaluateSetup(demo).strategies;
    for (const view of ["thisPart", "batch"] as const) {
      const { search } = ofDemo[view];
      expect(search.tried).toBe(search.candidates);
      const chances = written.map(({ evaluation }) => must(must(evaluation)[view].chanceOfAll).chance);
      const best = search.best.at(-1);
      expect(best?.[view].chance).toBeGreaterThanOrEqual(Math.max(...chances) - 1e-5);
      for (const found of search.best) {
        const zero = demo.strategies.find(({ id }) => id === demo.chosen)?.zero ?? {};
        const { strategies } = evaluateSetup(withStrategy(demo, found.strategy, zero));
        const evaluation = must(strategies.at(-1)?.evaluation as (typeof strategies)[number]["evaluation"]);
        expect(must(evaluation[view].chanceOfAll).chance).toBeCloseTo(found[view].chance, 10);
      }
    }
  });

  it("lists more touches only where they gain, fewest first", () => {
    const { best } = ofDemo.batch.search;
    expect(best.length).toBeGreaterThan(1);
    for (const [i, { strategy, batch }] of best.entries()) {
      const before = best[i - 1];
      if (before === undefined) continue;
      expect(strategy.touches.length).toBeGreaterThan(before.strategy.touches.length);
      expect(batch.chance).toBeGreaterThan(before.batch.chance);
    }
  });

  it("tells what it all rests on while something is only supposed", () => {
    const document = { ...plate(1), whatIf: [{ source: "touch touch, scatter", shift: "", doubt: "0.5" }] };
    const improvement = improved(document, { view: "thisPart", wanted: 0.9973 });
    expect(improvement.supposed).toHaveLength(1);
    expect(improvementText(improvement)).toMatch(/^SUPPOSED FOR THE MOMENT/);
  });

  it("says which strategy there is when another is asked for", () => {
    const step = improveSetup(plate(1), { strategy: "right face", view: "batch", wanted: 0.9 }).next();
    expect(step.done && !step.value.ok && step.value.problems[0]).toMatchObject({ got: "right face", expected: '"left face"' });
  });
});

it("improvementText(improvement) is a sheet of at most 100 columns with the moves, the room of each doubt and the strategies", () => {
  const text = improvementText(improved(demo, { strategy: "bore", view: "thisPart", wanted: 0.9973 }));
  expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThanOrEqual(100);
  expect(text).toContain('What would help "bore" for this part');
  expect(text).toMatch(/One more reading of each of .*"top": \d\d\.\d\d %\./s);
  expect(text).toMatch(/cutting oil hole, Y +\d\.\d\d × as now +oil hole, Y/);
  expect(text).toMatch(/\d+ strategies were tried, of which \d+ fix all that is wanted/);
});
