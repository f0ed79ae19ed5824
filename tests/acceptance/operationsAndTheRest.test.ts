import { describe, expect, it } from "vitest";
import { foreseeChecks } from "../../lib/decision/foreseeChecks.ts";
import { judgeRun } from "../../lib/decision/judgeRun.ts";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { readPlaces } from "../../lib/offsets/readPlaces.ts";
import { dimensionChains } from "../../lib/tolerance/dimensionChain.ts";
import { mappedFeatures } from "../../notebooks/figures/partMap/mappedFeatures.ts";
import { must } from "./openDocument.ts";
import { doubts, turnedPlate, withChosen } from "./turnedPlate.ts";

// What else is told of a setup, told of one of several operations: plain geometry of the plate.
describe.each(["turned over about X", "turned over about Y"] as const)("a plate %s", (lies) => {
  const plate = turnedPlate(lies);
  const [sx, sy] = lies === "turned over about X" ? [1, -1] : [-1, 1];

  const gainsOf = (document: SetupDocument, id: string, chosen: string) => {
    const { setup, location } = evaluateSetup(withChosen(document, "20", chosen));
    const characteristic = setup.part.characteristics.find((each) => each.id === id);
    const strategy = setup.strategies.find((each) => each.id === chosen);
    if (characteristic === undefined || strategy === undefined) throw new Error("expected both");
    const links = must(dimensionChains(characteristic, strategy, location, "batch")).flatMap((chain) => chain.links);
    return new Map(links.map(({ dimension, gain }) => [dimension.id, Math.abs(gain)]));
  };

  it("chains of dimensions: a size counts with what earlier operations make of it too", () => {
    // A hole set on the right face is off the bore by all of the width; one that is set on the left again by nothing of it.
    expect(gainsOf(plate, "hole off bore", "right").get("width")).toBeCloseTo(1, 9);
    expect(gainsOf(plate, "hole off bore", "left again").get("width") ?? 0).toBeCloseTo(0, 9);
    // The top is cut from the raw top: the thickness is between it and a pocket set on the bottom.
    expect(gainsOf(plate, "web", "bore").get("thickness") ?? 1).toBeCloseTo(1, 9);
  });

  it("the part map shows a feature where it lies in the machine, its deviation with it", () => {
    const positions = [{ ...blankEntries.characteristic("place"), of: "hole", tolerance: "0.2" }];
    const whatIf = (["X", "Y"] as const).map((axis) => ({
      source: `element hole, process ${axis}`,
      shift: String((axis === "X" ? 0.02 : 0.03) / doubts.cut),
      doubt: "",
    })) as SetupDocument["whatIf"];
    const document = { ...plate, whatIf, part: { ...plate.part, characteristics: positions } };
    const evaluation = evaluateSetup(document);
    const inUse = evaluation.strategies.find(({ id }) => id === "bore")?.evaluation;
    if (!inUse?.ok) throw new Error("expected a result");
    const [hole] = mappedFeatures(evaluation, inUse.value).features;
    expect(hole?.at).toEqual([sx * 20, sy * 15]);
    // The cut is shifted along the axes of the machine.
    expect(hole?.regions.batch?.mean[0]).toBeCloseTo(0.02, 9);
    expect(hole?.regions.batch?.mean[1]).toBeCloseTo(0.03, 9);
    const [x, y] = must(inUse.value.batch.stacks[0] ?? { ok: false, problems: [] }).components.map(({ value }) => value);
    expect([x, y]).toEqual([expect.closeTo(sx * 0.02, 9), expect.closeTo(sy * 0.03, 9)]);
  });

  it("a place that a zero is moved to is one of the drawing", () => {
    const { setup } = evaluateSetup(plate);
    const [strategy] = setup.strategies;
    if (strategy === undefined) throw new Error("expected a strategy");
    const places = must(readPlaces("X=30, Y=40", strategy.zero, "mm", setup.operation));
    expect(places.slice(0, 2)).toEqual([
      { kind: "coordinate", value: sx * 30 },
      { kind: "coordinate", value: sy * 40 },
    ]);
  });

  it("made parts tell of the operation that has cut what was measured, and not of one in which the part lies turned", () => {
    const measured = ["bore", "hole"].map((element) => ({
      ...blankEntries.measuredFeature(element),
      part: "1",
      element,
      x: "0.01",
      y: "0",
    }));
    const corrections = ["10", "20"].map((operation) => ({
      ...blankEntries.madeCorrection(`after ${operation}`),
      operation,
      after: "1",
      x: "-0.01",
    }));
    const operated = evaluateOperations({ ...plate, madeParts: { ...plate.madeParts, measured, corrections } });
    const [first, second] = operated?.operations ?? [];
    if (first === undefined || second === undefined) throw new Error("expected two operations");
    expect(operated?.problems).toEqual([]);
    expect(first.setup.madeParts.measured.map(({ element }) => element)).toEqual(["bore"]);
    expect(second.setup.madeParts.measured.map(({ element }) => element)).toEqual(["hole"]);
    expect([first, second].map(({ setup }) => setup.madeParts.corrections.map(({ id }) => id))).toEqual([["after 10"], ["after 20"]]);
    const corner = first.strategies.find(({ id }) => id === "corner")?.evaluation;
    expect(judgeRun(first.setup, corner?.ok ? corner.value : undefined)?.ok).toBe(true);
    const inUse = second.strategies.find(({ id }) => id === "bore")?.evaluation;
    const told = judgeRun(second.setup, inUse?.ok ? inUse.value : undefined);
    expect(told?.ok === false && told.problems[0]?.what).toContain("lies turned in operation 20");

    // Of an operation that is not there: nobody knows whose parts it has moved.
    const lost = corrections.map((each) => ({ ...each, operation: "30" }));
    const [unknown] = evaluateOperations({ ...plate, madeParts: { ...plate.madeParts, measured, corrections: lost } })?.operations ?? [];
    const judged = unknown && judgeRun(unknown.setup, corner?.ok ? corner.value : undefined);
    expect(judged?.ok === false && judged.problems.map(({ at }) => at)).toEqual([
      "madeParts.corrections.after 10",
      "madeParts.corrections.after 20",
    ]);
  });

  it("checks belong to their operation: each repeats a touch of its own clamping, and what is cut later is no face to check yet", () => {
    const [left10, left20] = ["left 10", "left 20"].map((id) => plate.touches.find((touch) => touch.id === id));
    if (left10 === undefined || left20 === undefined) throw new Error("expected both touches");
    const again = (touch: typeof left10) => ({
      ...blankEntries.check(`again ${touch.id}`),
      operation: touch.operation,
      element: touch.element,
      travelling: touch.travelling as "+X" | "-X",
      tool: touch.tool,
      readings: touch.readings,
      y: touch.y,
      z: "-290",
    });
    const early = { ...again(left10), id: "early", element: "pocket", travelling: "-Z" as const };
    const moves = [
      { ...blankEntries.checkMove("over the bore"), operation: "20", tool: "probe", x: "20", y: "15", z: "5", clearance: "10" },
    ];
    const operated = evaluateOperations({ ...plate, checks: [again(left10), again(left20), early], checkMoves: moves });
    const [first, second] = operated?.operations ?? [];
    if (first === undefined || second === undefined) throw new Error("expected two operations");
    for (const [operation, id] of [
      [first, "again left 10"],
      [second, "again left 20"],
    ] as const) {
      expect(operation.setup.checks.map((each) => each.id)).toEqual([id]);
      const [check] = foreseeChecks(operation.setup.checks, operation.location).map(must);
      expect(check?.difference?.value).toBeCloseTo(0, 9);
    }
    expect(operated?.problems.map(({ at }) => at)).toContain("checks.early.element");
    expect(second.setup.checkMoves[0]?.place).toEqual([sx * 20, sy * 15, -5]);
  });
});
