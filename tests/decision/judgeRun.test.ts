import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { judgeRun } from "../../lib/decision/judgeRun.ts";
import { judgeWarmUp } from "../../lib/decision/judgeWarmUp.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { runSentences } from "../../lib/record/runSentences.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { warmUpSentences } from "../../lib/record/warmUpSentences.ts";
import { documentFrom } from "../properties/setups.ts";

interface Stated {
  readonly madeParts?: object;
  readonly warmUp?: object;
  readonly more?: object;
}

/** A plate of 200 × 100 whose lower left corner is datum and zero, four holes cut here. */
function plate({ madeParts = {}, warmUp = {}, more = {} }: Stated) {
  const hole = (id: string, x: number, y: number) => ({ id, kind: "bore", made: "here", x: String(x), y: String(y), diameter: "8" });
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "left", kind: "face", outward: "-X", datum: "B" },
          { id: "front", kind: "face", outward: "-Y", datum: "C" },
          { id: "top", kind: "face", outward: "+Z", datum: "A" },
          hole("h1", 20, 20),
          hole("h2", 180, 20),
          hole("h3", 180, 80),
          hole("h4", 20, 80),
          { id: "floor", kind: "face", outward: "+Z", made: "here", z: "-6" },
        ],
        characteristics: [
          { id: "h1", kind: "position", of: "h1", tolerance: "0.2" },
          { id: "h3", kind: "position", of: "h3", tolerance: "0.1" },
          { id: "h1 to h2", kind: "distance", of: "h2", from: "h1", axis: "X", tolerance: "±0.02" },
          { id: "depth", kind: "depth", of: "floor", from: "top", axis: "Z", tolerance: "±0.05" },
        ],
      },
      tools: [{ id: "finder", kind: "turning edge finder", radius: "5", scatterFrom: "stated", scatter: "0.008", length: "100" }],
      touches: [
        { id: "l", element: "left", travelling: "+X", tool: "finder", readings: "-305" },
        { id: "f", element: "front", travelling: "+Y", tool: "finder", readings: "-155" },
        { id: "t", element: "top", travelling: "-Z", tool: "finder", readings: "-200" },
      ],
      strategies: [{ id: "corner", touches: ["l", "f", "t"] }],
      chosen: "corner",
      madeParts,
      warmUp,
      ...more,
    }),
  );
}

/** Of two sources that are normal and independent (Bayes' theorem): the information of both adds. */
const together = (one: number, other: number) => 1 / Math.sqrt(1 / one ** 2 + 1 / other ** 2);

const row = (part: number, element: string, x: number, y: number, more: object = {}) => ({
  id: `${part} ${element}`,
  part: String(part),
  element,
  x: x.toFixed(5),
  y: y.toFixed(5),
  ...more,
});

/** Shifted by 0.020 and -0.010, turned by 1e-4, as every part of the run is, give or take its own shift. */
function parts(shifts: readonly number[]) {
  const places = { h1: [20, 20], h2: [180, 20], h3: [180, 80], h4: [20, 80] } as const;
  return shifts.flatMap((shift, i) =>
    Object.entries(places).map(([id, [x, y]]) => row(i + 1, id, 0.02 + shift - 1e-4 * y, -0.01 + shift + 1e-4 * x)),
  );
}

function judged(stated: Stated) {
  const evaluation = plate(stated);
  const run = judgeRun(evaluation.setup, strategyInUse(evaluation)?.evaluation);
  if (run === undefined || !run.ok) throw new Error(JSON.stringify(run));
  return { evaluation, run: run.value };
}

describe("judgeRun(setup, strategy)", () => {
  it("says nothing where nothing was measured", () => {
    const { setup } = plate({});
    expect(judgeRun(setup, undefined)).toBeUndefined();
  });

  // By hand: shifts of 0 and ±0.003 about 0.020: s = 0.003, u = 0.003/√3; the corner's own u is 0.008, so K = 0.008² / (0.008² + 0.003²/3).
  it("corrects a shift by the share that the zero's own doubt and the scatter of the parts leave", () => {
    const { run } = judged({ madeParts: { measured: parts([0, 0.003, -0.003]) } });
    const shift = run.verdicts.find(({ found }) => found.cause.kind === "shift" && found.cause.axis === "X");
    expect(shift?.found.estimate).toBeCloseTo(0.02, 9);
    expect(shift?.standardUncertainty).toBeCloseTo(0.003 / Math.sqrt(3), 9);
    const share = 0.008 ** 2 / (0.008 ** 2 + 0.003 ** 2 / 3);
    if (shift?.correction.verdict !== "correct") throw new Error("left alone");
    expect(shift.correction.share).toBeCloseTo(share, 9);
    expect(run.offsetChange.find(({ axis }) => axis === "X")?.change).toBeCloseTo(-share * 0.02, 9);
    const turn = run.verdicts.find(({ found }) => found.cause.kind === "turn");
    expect(turn?.found.estimate).toBeCloseTo(1e-4, 12);
  });

  it("leaves one part alone unless its scatter is stated", () => {
    const one = judged({ madeParts: { measured: parts([0]) } });
    expect(one.run.verdicts.every(({ correction }) => correction.verdict === "leave alone")).toBe(true);
    expect(one.run.offsetChange).toEqual([]);
    expect(runSentences(one.run, { unit: "mm" })[0]).toContain("Leave it alone: how parts scatter is not known");
    const stated = judged({ madeParts: { measured: parts([0]), partScatter: "0.003" } });
    expect(stated.run.verdicts.find(({ found }) => found.cause.kind === "shift")?.correction.verdict).toBe("correct");
    expect(stated.run.verdicts.find(({ found }) => found.cause.kind === "turn")?.correction.verdict).toBe("leave alone");
  });

  // By hand, of two holes at x = 180 and y = 20 and 80: the turn is (X of h2 - X of h3)/60, and the shift along Y the mean of Y less 180 times it: of features
  // that scatter by s it has 1/2 + 180² · 2/60² = 18.5 s². The Y of each part differ by 0.008, so s² = 0.008²/2 with one to spare on each.
  it("counts what features scatter beside a stated scatter of the part, by as much as they reach to the zero", () => {
    const part = (number: number) => [row(number, "h2", 0, 0.024), row(number, "h3", 0, 0.016)];
    const alongY = (measured: object[]) =>
      judged({ madeParts: { measured, partScatter: "0.003" } }).run.verdicts.find(
        ({ found: { cause } }) => cause.kind === "shift" && cause.axis === "Y",
      );
    const variance = 0.003 ** 2 + (18.5 * 0.008 ** 2) / 2;
    expect(alongY(part(1))?.standardUncertainty).toBeCloseTo(Math.sqrt(variance), 9);
    const two = alongY([...part(1), ...part(2)]);
    expect(two?.standardUncertainty).toBeCloseTo(Math.sqrt(variance / 2), 9);
    expect(two?.correction.verdict).toBe("leave alone");
    // With nothing to spare a feature is taken to scatter as the part does: the one Y and 180 times the turn, 1 + 18.
    const bare = alongY([row(1, "h2", 0, 0.02), { ...row(1, "h3", 0, 0), y: "" }]);
    expect(bare?.standardUncertainty).toBeCloseTo(0.003 * Math.sqrt(19), 9);
  });

  // JCGM 100:2008, F.2.2.1: readings that are all alike tell that they are too coarse, and not that there is no doubt.
  it("takes parts that came out all alike for no proof that they do not scatter", () => {
    const { run } = judged({ madeParts: { measured: parts([0, 0]) } });
    for (const { standardUncertainty, left, correction } of run.verdicts) {
      expect([standardUncertainty, left]).toEqual([undefined, undefined]);
      expect(correction.verdict).toBe("leave alone");
    }
    expect(runSentences(run, { unit: "mm" }).join(" ")).not.toContain("leaves a doubt of 0");
    expect(runSentences(run, { unit: "mm" }).join(" ")).toContain(
      "what was measured came out alike on 2 parts, which tells nothing of how they scatter",
    );
  });

  // By hand: 0.020 on the first two parts, and 0.005 on the next two after a correction of -0.015: as the setup stands now all of them are off by 0.005.
  it("counts parts before a correction as they would have come out after it", () => {
    const measured = parts([0.001, -0.001, -0.014, -0.016]);
    const corrections = [{ id: "c1", after: "2", x: "-0.015", y: "-0.015" }];
    const along = (run: ReturnType<typeof judged>["run"], axis: string) =>
      run.verdicts.find(({ found: { cause } }) => cause.kind === "shift" && cause.axis === axis);
    const { run, evaluation } = judged({ madeParts: { measured, corrections } });
    expect(along(run, "X")?.found.estimate).toBeCloseTo(0.005, 9);
    expect(along(run, "Y")?.found.estimate).toBeCloseTo(-0.025, 9);
    expect(along(run, "X")?.prior).toBe(Number.POSITIVE_INFINITY);
    const shift = along(run, "X")?.correction;
    expect(shift?.verdict === "correct" && shift.change).toBeCloseTo(-0.005, 9);
    expect(runSentences(run, { unit: "mm" })[0]).toContain(
      'Parts made before "c1" count as they would have come out after it, if it went in as typed.',
    );
    expect(summaryText(evaluation)).toContain('Parts made before "c1"');
    expect(plainResults(evaluation).madeParts).toMatchObject({
      corrections: [{ id: "c1", after: "2", tool: "", x: -0.015, y: -0.015, z: null }],
    });
    // Without any along Y the touches' own doubt still counts there.
    expect(along(judged({ madeParts: { measured, corrections: [{ ...corrections[0], y: "" }] } }).run, "Y")?.prior).toBeCloseTo(0.008, 9);
  });

  it("moves what one tool cuts by a correction of that tool alone", () => {
    const measured = [0, 1].flatMap((i) => [row(i + 1, "h1", 0.01, 0, { tool: "drill" }), row(i + 1, "h2", 0.05, 0, { tool: "reamer" })]);
    const corrections = [{ id: "c1", after: "2", tool: "reamer", x: "-0.04" }];
    const { run } = judged({ madeParts: { measured, corrections } });
    const pulls = run.verdicts.filter(({ found: { cause } }) => cause.kind === "pull" && cause.axis === "X");
    for (const { found } of pulls) expect(found.estimate).toBeCloseTo(0, 9);
  });

  it("tells nothing where a correction cannot be read", () => {
    const evaluation = plate({ madeParts: { measured: parts([0, 0.003]), corrections: [{ id: "c1", after: "5", x: "-0.02" }] } });
    expect(evaluation.problems.map(describeProblem).join()).toContain("nothing was measured on a part by this name");
    const run = judgeRun(evaluation.setup, strategyInUse(evaluation)?.evaluation);
    expect(run?.ok).toBe(false);
    expect(run?.ok === false && run.problems[0]?.at).toBe("madeParts.corrections.c1");
  });

  it("tells the shares of the mean part, and the zero that serves it best", () => {
    const { run } = judged({ madeParts: { measured: parts([0, 0.003, -0.003]) } });
    const { characteristics, leftOut, asMade, smallestLargestShare } = run.zeros;
    expect(characteristics).toEqual(["h1", "h3", "h1 to h2"]);
    expect(leftOut).toEqual(["depth"]);
    // h3 at (180, 80): 0.020 - 0.008, -0.010 + 0.018; its zone is 0.1. The distance is changed by the turn of its two holes not at all.
    expect(asMade.shares[1]).toBeCloseTo((2 * Math.hypot(0.012, 0.008)) / 0.1, 9);
    expect(asMade.shares[2]).toBeCloseTo(0, 9);
    expect(smallestLargestShare.largestShare).toBeLessThan(1e-6);
    expect(smallestLargestShare.change.turn).toBeCloseTo(-1e-4, 9);
  });

  it("draws a chart of what was measured on five parts, and finds the one beyond its limits", () => {
    const shifts = [0, 0.001, -0.001, 0.001, 0, -0.001, 0, 0.03, 0.001, 0];
    const { run } = judged({ madeParts: { measured: parts(shifts) } });
    const chart = run.charts.find(({ element, axis }) => element === "h2" && axis === "X");
    expect(chart?.values).toHaveLength(10);
    expect(chart?.run.beyond).toEqual([7]);
    expect(runSentences(run, { unit: "mm" }).join(" ")).toContain("part 8 of the run is beyond the limits");
  });

  // A scatter of 0 is told by no number of readings: what is finer than their last digit is not in them (JCGM 100:2008, F.2.2.1).
  it("draws no chart of what came out alike on all parts, nor of what differs by rounding alone, and says so", () => {
    const { run } = judged({ madeParts: { measured: parts([0.03, 0.1 - 0.07, 0.03, 0.1 - 0.07, 0.03]) } });
    expect(run.charts).toEqual([]);
    expect(run.alike).toContainEqual({ element: "h2", axis: "X", count: 5 });
    const told = runSentences(run, { unit: "mm" }).join(" ");
    expect(told).toContain('"h2" along X came out alike on all 5 parts');
    expect(told).not.toMatch(/σ\/√n = 0/);
  });

  // By hand: six depths about 0.01 with squares 1 + 4 + 1 + 4 + 9 + 9 = 28 µm² of 5 degrees of freedom, and limits of ±0.05.
  it("tells how much room the limits of a depth leave for the parts", () => {
    const depths = [0.009, 0.008, 0.011, 0.012, 0.013, 0.007];
    const measured = depths.map((z, i) => ({ id: `p${i}`, part: String(i), element: "floor", z: String(z) }));
    const { run, evaluation } = judged({ madeParts: { measured } });
    const [told] = run.charts.find(({ element }) => element === "floor")?.capabilities ?? [];
    const s = Math.sqrt(28 / 5) / 1000;
    expect(told?.characteristic).toBe("depth");
    expect(told?.capability.potential).toBeCloseTo(0.1 / (6 * s), 9);
    expect(told?.capability.index).toBeCloseTo(0.04 / (3 * s), 9);
    expect(told?.capability.aboutTarget).toBeCloseTo(0.1 / (6 * Math.hypot(s, 0.01)), 9);
    expect(runSentences(run, { unit: "mm" }).join(" ")).toContain('"depth": of 6 parts the capability index Cpk is 5.63');
    expect(JSON.stringify(plainResults(evaluation))).toContain('"capabilities":[{"characteristic":"depth"');
  });

  // By hand: the zero was known to 0.008 by its touch, the mean of three parts to 0.003/√3.
  it("tells what is left of the setup's error with what the touches knew before", () => {
    const { run, evaluation } = judged({ madeParts: { measured: parts([0, 0.003, -0.003]) } });
    const shift = run.verdicts.find(({ found }) => found.cause.kind === "shift" && found.cause.axis === "X");
    expect(shift?.prior).toBeCloseTo(0.008, 9);
    expect(shift?.left).toBeCloseTo(together(0.008, 0.003 / Math.sqrt(3)), 9);
    const text = summaryText(evaluation).replace(/\s+/g, " ");
    expect(text).toContain("which leaves a doubt of 0.0017, where the touches had left 0.0080 before any part");
  });

  it("tells it of every run that is long enough for a chart, alone and with what was known before", () => {
    const { run, evaluation } = judged({ madeParts: { measured: parts([0, 0.001, -0.001, 0.001, 0, -0.001]) } });
    const chart = run.charts.find(({ element, axis }) => element === "h2" && axis === "X");
    // Moving range: 1, 2, 2, 1, 1 micrometres, mean 1.4, over d₂ = 2/√π; the mean of six parts has a √6th of that.
    const alone = (0.0014 * Math.sqrt(Math.PI)) / 2 / Math.sqrt(6);
    expect(chart?.run.setupErrorLeft).toBeCloseTo(alone, 9);
    expect(chart?.left).toBeCloseTo(together(0.008, alone), 9);
    expect(runSentences(run, { unit: "mm" }).join(" ")).toContain(
      "Its mean of 6 parts leaves σ/√n = 0.00051 mm of the setup's error; together with what the touches knew before (u 0.0080), 0.00051 mm.",
    );
    const plain = JSON.parse(JSON.stringify(plainResults(evaluation))) as ReturnType<typeof plainResults>;
    expect(plain.madeParts).toMatchObject({
      charts: expect.arrayContaining([expect.objectContaining({ prior: expect.closeTo(0.008, 9) })]),
    });
  });

  // A line through dx against y, whose slope is the turn: corr(intercept, slope) = -ȳ/√(Σy²/n), and dx = s - θ y turns the sign. y = 20, 20, 80, 80: 50/√3400.
  it("tells that a shift and a turn err together where features lie to one side of zero, with their covariance", () => {
    const measured = Object.entries({ h1: 0.0101, h2: 0.0099, h3: 0.0102, h4: 0.0098 }).map(([id, x]) => ({ ...row(1, id, x, 0), y: "" }));
    const { run, evaluation } = judged({ madeParts: { measured } });
    const correlation = 50 / Math.sqrt(3400);
    expect(runSentences(run, { unit: "mm" }).join(" ")).toContain(
      `what one part says of a shift along X and of a turn errs together: correlation +${correlation.toFixed(2)}.`,
    );
    const made = (JSON.parse(JSON.stringify(plainResults(evaluation))) as { madeParts: { covariance: { of: object[]; rows: number[][] } } })
      .madeParts.covariance;
    expect(made.of).toMatchObject([{ kind: "shift", axis: "X" }, { kind: "turn" }]);
    const [[a = 0, b = 0] = [], [, d = 0] = []] = made.rows;
    expect(b / Math.sqrt(a * d)).toBeCloseTo(correlation, 9);
  });

  it("says what cannot be told apart, and what would tell", () => {
    const measured = [row(1, "h1", 0.01, 0, { tool: "drill" }), row(1, "h2", 0.02, 0.01, { tool: "mill" })];
    const { run } = judged({ madeParts: { measured } });
    expect(run.separation.confounded.length).toBeGreaterThan(0);
    const told = runSentences(run, { unit: "mm" }).join(" ");
    expect(told).toContain("cannot tell apart");
    expect(told).toMatch(/Most would tell: "h[1-4]" along [XY], cut by "(?:drill|mill)"\./);
  });

  it("turns the change of the offset with the coordinates", () => {
    const skewed = {
      touches: [
        { id: "l", element: "left", travelling: "+X", tool: "finder", readings: "-305", y: "-100" },
        { id: "f", element: "front", travelling: "+Y", tool: "finder", readings: "-155", x: "-290" },
        { id: "f2", element: "front", travelling: "+Y", tool: "finder", readings: "-145", x: "-190" },
        { id: "t", element: "top", travelling: "-Z", tool: "finder", readings: "-200" },
      ],
      strategies: [{ id: "corner", touches: ["l", "f", "f2", "t"], rotation: "applied" }],
    };
    const { run } = judged({ madeParts: { measured: parts([0, 0.0003, -0.0003]) }, more: skewed });
    const [x, y] = ["X", "Y"].map(
      (axis) => run.verdicts.find(({ found }) => found.cause.kind === "shift" && found.cause.axis === axis)?.correction,
    );
    if (x?.verdict !== "correct" || y?.verdict !== "correct") throw new Error("left alone");
    const angle = Math.atan2(10, 100);
    const along = (axis: string) => run.offsetChange.find((each) => each.axis === axis)?.change;
    expect(along("X")).toBeCloseTo(Math.cos(angle) * x.change - Math.sin(angle) * y.change, 9);
    expect(along("Y")).toBeCloseTo(Math.sin(angle) * x.change + Math.cos(angle) * y.change, 9);
  });

  it.each([
    ["an element that is not there", row(1, "h9", 0, 0), "there is no readable element by this name"],
    ["no element", row(1, "", 0, 0), "which element was measured is not stated"],
    ["nothing measured", { id: "1 h1", part: "1", element: "h1" }, "nothing is measured here"],
    ["a place that a hole has not", { ...row(1, "h1", 0, 0), z: "0.01" }, "has no place along Z"],
    ["no number", { ...row(1, "h1", 0, 0), x: "abc" }, "madeParts.measured.1 h1.x"],
  ])("refuses %s at its row", (_, measured, told) => {
    const { problems } = plate({ madeParts: { measured: [measured] } });
    expect(problems.map(describeProblem).join("\n")).toContain(told);
  });

  it("refuses one element of one part twice", () => {
    const { problems } = plate({ madeParts: { measured: [row(1, "h1", 0, 0), { ...row(1, "h1", 0, 0), id: "again" }] } });
    expect(problems.map(describeProblem).join("\n")).toContain("is measured twice");
  });
});

const readings = [0, 10, 20, 35, 50, 75, 110, 150, 200].map((minutes, i) => ({
  id: `r${i}`,
  minutes: String(minutes),
  reading: String([-241.5054, -241.4989, -241.4912, -241.486, -241.4804, -241.4776, -241.4735, -241.4721, -241.4728][i]),
}));

describe("judgeWarmUp(setup, strategy)", () => {
  it("takes what the tightest characteristic leaves where no drift is stated", () => {
    const evaluation = plate({ warmUp: { readings, start: "-241.506", cycle: "9 min", setAt: "0" } });
    const inUse = strategyInUse(evaluation)?.evaluation;
    const warmUp = judgeWarmUp(evaluation.setup, inUse);
    if (!warmUp?.ok || !warmUp.value.life.ok) throw new Error("not known");
    const { life } = warmUp.value;
    const depth = inUse?.batch.stacks[3];
    if (!depth?.ok) throw new Error("no stack");
    expect(life.value.tightest).toBe("depth");
    expect(life.value.allowed).toBeCloseTo(0.05 * (1 - depth.value.shares.rootSumSquare), 12);
    expect(life.value.assuredBefore).toBeLessThanOrEqual(life.value.bestBefore);
    expect(warmUpSentences(warmUp.value, { unit: "mm" }).join(" ")).toContain('which is what "depth" leaves along Z');
    expect(plainResults(evaluation).warmUp).toMatchObject({ axis: "Z", degreesOfFreedom: 7 });
  });

  it("says why no life is told where nothing is demanded along the axis", () => {
    const evaluation = plate({ warmUp: { readings, axis: "Z" }, more: { chosen: "" } });
    const warmUp = judgeWarmUp(evaluation.setup, undefined);
    expect(warmUp?.ok && warmUp.value.life.ok).toBe(false);
  });

  it.each([
    [{ readings: [{ id: "r", minutes: "", reading: "1" }] }, "when this was read is missing"],
    [{ readings: [{ id: "r", minutes: "-1", reading: "1" }] }, "this time is out of reason"],
    [{ readings, allowed: "0" }, "a zero that may not drift at all"],
    [{ readings, cycle: "0" }, "this time is out of reason"],
  ])("refuses %j at its place", (warmUp, told) => {
    expect(plate({ warmUp }).problems.map(describeProblem).join("\n")).toContain(told);
  });
});
