import { describe, expect, it, vi } from "vitest";
import { describeProblem, success } from "../../lib/base/outcome.ts";
import { candidateStrategies } from "../../lib/datum/candidateStrategies.ts";
import { strategyDeterminacy } from "../../lib/datum/strategyDeterminacy.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { improveSetup } from "../../lib/improveSetup.ts";
import { rationaleOf } from "../../lib/rationaleOf.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { demoNames, demoOf } from "../exchange/demoEvaluations.ts";
import { cell } from "../ledger/blocks.ts";
import { evaluateDocument, must, openDocument } from "./openDocument.ts";

vi.setConfig({ testTimeout: 120_000 });

/** The document before these touches were taken; before any where none are named. */
function untouched(document: SetupDocument, ...ids: readonly string[]): SetupDocument {
  const touches = document.touches.map((touch) => (ids.length === 0 || ids.includes(touch.id) ? { ...touch, readings: "" } : touch));
  return { ...document, touches };
}

const plate = openDocument("plateWithSawnEnd");

describe("a plate before it is touched", () => {
  const planned = evaluateDocument(untouched(plate));

  it("says of every strategy what has not been touched, at its readings, and gives no zero and no line to type", () => {
    for (const id of ["corner on C", "sawn face", "middle"]) {
      const { zero, offset, thisPart } = planned.strategy(id);
      for (const outcome of [...zero, offset, ...thisPart.stacks]) {
        expect(outcome.ok).toBe(false);
        expect(outcome.ok ? "" : outcome.problems[0]?.what).toMatch(/not been touched yet/);
        expect(outcome.ok ? "" : outcome.problems[0]?.at).toMatch(/^touches\.(left|right)\.readings$/);
      }
    }
    expect(summaryText(planned)).not.toMatch(/G10 L2/);
    expect(judgementSentences(planned)[0]?.text).toMatch(/^"corner on C" is ranked first for the batch: .* not known for this part and /);
    expect(planned.location.thisPart).toMatchObject({ ok: false, problems: [{ what: "nothing has been touched yet" }] });
  });

  // The scenario's rows of the budget, with one reading in the place of the mean of four: 0.005 for 0.0025. Positioning ±0.008 over 300 from the touched
  // face, 105 away along X and 65 along Y; the hole 0.006. The sawn end brings its size along, ±0.2 at three standard deviations.
  it("foresees the holes of the batch by the sources of one reading each", () => {
    const own = [0.005, 0.0015, 0.003464, 0.001732, 0.001732, 0.001732];
    const cut = (way: number) => [(way * 0.008) / 300 / Math.sqrt(3), 0.006];
    const at = (strategy: string) =>
      planned.stack(strategy, "H3 position", "batch").components.map(({ standardUncertainty }) => standardUncertainty);
    const [x, y] = at("corner on C");
    expect(x).toBeCloseTo(Math.hypot(...own, ...cut(105)), 6);
    expect(y).toBeCloseTo(Math.hypot(...own, ...cut(65)), 6);
    const sawn = [0.005, 0.0015, 0.003464, 0.006928, 0.001732, 0.001732];
    expect(at("sawn face")[0]).toBeCloseTo(Math.hypot(...sawn, ...cut(15), 0.2 / 3), 6);
  });

  it("ranks the strategies by the drawing as it will when they are taken", () => {
    expect(planned.ranking.order).toEqual(evaluateDocument(plate).ranking.order);
  });

  it("has the batch of the same touches taken once", () => {
    const once = { ...plate, touches: plate.touches.map((touch) => ({ ...touch, readings: touch.readings.split(" ")[0] as string })) };
    const taken = evaluateDocument(once);
    for (const id of ["corner on C", "sawn face", "middle"])
      for (const hole of ["H1", "H2", "H3", "H4"]) {
        const of = (evaluation: typeof taken) => evaluation.stack(id, `${hole} position`, "batch").components;
        for (const [i, component] of of(taken).entries()) {
          expect(of(planned)[i]?.value).toBeCloseTo(component.value, 9);
          // The part that was touched is 0.128 shorter than drawn, and positioning grows over so much less.
          expect(of(planned)[i]?.standardUncertainty).toBeCloseTo(component.standardUncertainty, 6);
        }
      }
  });

  it("is told the same usual strategies and finds the same ones as when it is touched", () => {
    const taken = evaluateDocument(plate);
    for (const id of ["corner on C", "sawn face", "middle"]) {
      const of = ({ location, strategy }: typeof taken) => must(strategyDeterminacy(success(strategy(id).solution), location));
      expect(of(planned).words).toBe(of(taken).words);
      expect(of(planned).touches).toEqual(of(taken).touches);
    }
    const [like] = taken.setup.strategies;
    const found = (evaluation: typeof taken) =>
      candidateStrategies(evaluation.location, like as NonNullable<typeof like>).strategies.map(({ id }) => id);
    expect(found(planned)).toEqual(found(taken));
  });

  it("keeps what rests on touches that were taken", () => {
    const partly = evaluateDocument(untouched(plate, "right"));
    const x = must(partly.strategy("corner on C").zero[0]);
    expect([x.value, x.standardUncertainty]).toEqual([expect.closeTo(-409.61325, 6), expect.closeTo(0.005431, 6)]);
    expect(partly.strategy("middle").zero[0]).toMatchObject({ ok: false, problems: [{ at: "touches.right.readings" }] });
    expect(partly.stack("middle", "H3 position", "batch").components[0]?.value).toBeCloseTo(0, 9);
    expect(partly.size("length")).toBeUndefined();
  });
});

it.each(demoNames)("%s before it is touched, or with one touch open, is told without a zero that rests on it", (name) => {
  const demo = demoOf(name);
  const variants = [untouched(demo), ...demo.touches.slice(0, 3).map(({ id }) => untouched(demo, id))];
  for (const document of variants) {
    const open = new Set(document.touches.filter(({ readings }) => readings === "").map(({ id }) => id));
    const evaluation = evaluateDocument(document);
    for (const { evaluation: outcome } of evaluation.strategies) {
      if (!outcome.ok || !outcome.value.solution.strategy.touches.some((touch) => open.has(touch))) continue;
      for (const axis of outcome.value.zero) expect(axis.ok).toBe(false);
      expect(outcome.value.offset.ok).toBe(false);
    }
    expect(() => JSON.stringify(plainResults(evaluation))).not.toThrow();
    summaryText(evaluation);
    recordOf(document, evaluation);
    rationaleOf(document, evaluation);
  }
});

it("what would help is told of the batch before anything is touched", () => {
  const document = untouched(plate);
  const steps = improveSetup(document, { strategy: "middle", view: "batch", wanted: 0.99 });
  let step = steps.next();
  while (!step.done) step = steps.next();
  expect(step.value.ok && step.value.value.allowances.length).toBeGreaterThan(0);
});

describe("a strategy that is not in use and waits for a touch", () => {
  const job: SetupDocument = { ...plate, chosen: "corner on C" };
  const onlyMiddle = plate.strategies
    .find(({ id }) => id === "middle")
    ?.touches.find((id) => !plate.strategies.find((each) => each.id === "corner on C")?.touches.includes(id));

  it("is no obstacle: what is in use is told, and of the other one the batch", () => {
    expect(onlyMiddle).toBeDefined();
    const waiting = evaluateDocument(untouched(job, onlyMiddle as string));
    expect(obstacles(waiting)).toEqual([]);
    expect(waiting.strategy("corner on C").offset.ok).toBe(true);
    expect(waiting.strategy("middle").offset.ok).toBe(false);
    expect(waiting.strategy("middle").batch.chanceOfAll.ok).toBe(true);
    // The one in use is one: nothing can be typed before its touches are taken.
    expect(obstacles(evaluateDocument({ ...untouched(job, onlyMiddle as string), chosen: "middle" })).length).toBeGreaterThan(0);
  });

  it("has a face that formulas know by name, and why it has no value", () => {
    const wallCell = cell("wall", `${onlyMiddle}_face + 1 mm`);
    const { own } = evaluateSetup({ ...untouched(job, onlyMiddle as string), ledger: [wallCell] });
    const wall = own.get("wall");
    expect(wall?.ok === false ? wall.problems.map(describeProblem).join(" ") : "").toContain("has not been touched yet");
  });
});
