import { describe, expect, it } from "vitest";
import { judgeRun } from "../../lib/decision/judgeRun.ts";
import { judgeWarmUp } from "../../lib/decision/judgeWarmUp.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { evaluationChanges } from "../../lib/record/evaluationChanges.ts";
import { runSentences } from "../../lib/record/runSentences.ts";
import { lookForSlips } from "../../lib/slips/lookForSlips.ts";
import { documentFrom } from "../properties/setups.ts";

/** Bores at 0, 0 and 100, 40, touched from inside; the first is 300 to the left and 200 in front of the machine's zero, and the part lies turned. */
function plate(degrees: number, { rotation = "applied", hx = "±0.06", hy = "±0.4", ...more }: Readonly<Record<string, unknown>> = {}) {
  const angle = (degrees * Math.PI) / 180;
  const touches = (["b1", "b2"] as const).flatMap((bore) => {
    const [x, y] = bore === "b1" ? [0, 0] : [100, 40];
    const centre = [-300 + x * Math.cos(angle) - y * Math.sin(angle), -200 + x * Math.sin(angle) + y * Math.cos(angle)] as const;
    return (["+X", "-X", "+Y", "-Y"] as const).map((travelling) => {
      const along = travelling[1] === "X" ? 0 : 1;
      // A stylus of radius 3 in a bore of radius 10.
      const reading = centre[along] + (travelling[0] === "+" ? 7 : -7);
      const across = along === 0 ? { y: `${centre[1]}` } : { x: `${centre[0]}` };
      return { id: `${bore} ${travelling}`, element: bore, travelling, tool: "probe", readings: reading.toFixed(9), ...across };
    });
  });
  return documentFrom({
    part: {
      elements: [
        { id: "b1", kind: "bore", datum: "A", x: "0", y: "0", diameter: "20" },
        { id: "b2", kind: "bore", datum: "A", x: "100", y: "40", diameter: "20" },
        { id: "h", kind: "bore", made: "here", x: "60", y: "-30", diameter: "6", process: "0.01" },
        { id: "g", kind: "bore", made: "here", x: "-60", y: "80", diameter: "6", process: "0.01" },
      ],
      characteristics: [
        { id: "hx", kind: "coordinate", of: "h", axis: "X", tolerance: hx },
        { id: "hy", kind: "coordinate", of: "h", axis: "Y", tolerance: hy },
      ],
    },
    tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002" }],
    touches,
    strategies: [{ id: "bores", touches: touches.map(({ id }) => id), rotation, zero: { x: "0", y: "0" } }],
    chosen: "bores",
    ...more,
  });
}

const evaluated = (...args: Parameters<typeof plate>) => {
  const evaluation = evaluateSetup(plate(...args));
  const strategy = strategyNamed(evaluation.strategies, "bores");
  if (!strategy.ok) throw new Error(JSON.stringify(strategy.problems));
  return { evaluation, strategy: strategy.value };
};

// By hand: a point of a part that lies turned by 90 degrees goes along the drawing's Y where the machine goes along X, and along X where it goes along -Y.
describe("what errs along an axis of the machine, on a part whose programme is turned with it", () => {
  // 0.05 (1 - exp(-t / 20 min)), read away from -100.
  const readings = [0, 5, 10, 20, 30, 45, 60, 90].map((minutes, i) => ({
    id: `w${i}`,
    minutes: `${minutes}`,
    reading: (-100 - 0.05 * (1 - Math.exp(-minutes / 20)) + 0.0002 * (-1) ** i).toFixed(5),
  }));
  const life = (degrees: number, axis: string, more = {}) => {
    const { evaluation, strategy } = evaluated(degrees, { warmUp: { axis, readings }, ...more });
    const warmUp = judgeWarmUp(evaluation.setup, strategy);
    if (!warmUp?.ok || !warmUp.value.life.ok) throw new Error(JSON.stringify(warmUp));
    return warmUp.value.life.value;
  };

  it("drifts against the characteristic that it moves", () => {
    expect(life(0, "X").tightest).toBe("hx");
    expect(life(0, "Y").tightest).toBe("hy");
    expect(life(90, "Y").tightest).toBe("hx");
    expect(life(90, "X").tightest).toBe("hy");
    expect(life(90, "Y").allowed).toBeCloseTo(life(0, "X").allowed, 4);
    expect(life(-90, "Y").allowed).toBeCloseTo(life(0, "X").allowed, 4);
    // Half of the drift at 60 degrees goes along the drawing's X.
    expect(life(60, "X", { hy: "±4" }).allowed).toBeCloseTo(2 * life(0, "X").allowed, 3);
    // Where the programme is not turned, the machine's X is the drawing's.
    expect(life(0, "X", { rotation: "ignored" }).tightest).toBe("hx");
  });

  it("has lost motion that harms the characteristic that it moves", () => {
    const evidence = (degrees: number, lostMotion: object) => {
      const { evaluation, strategy } = evaluated(degrees, { machine: { lostMotion } });
      const answer = lookForSlips(evaluation, strategy).answers.find(({ rule }) => rule.name === "opposite approaches mixed")?.answer;
      return answer?.kind === "found" ? answer.findings.map((finding) => finding.evidence) : answer?.kind;
    };
    // (0.05 / 2) of a zone of 0.12, to both sides: 41.7 %; of 0.8 it is 6 %.
    expect(evidence(0, { x: "0.05" })).toEqual([expect.stringContaining('along X may move the zero by 0.025 mm, 41.7 % of "hx"')]);
    expect(evidence(90, { y: "0.05" })).toEqual([expect.stringContaining('along Y may move the zero by 0.025 mm, 41.7 % of "hx"')]);
    expect(evidence(90, { x: "0.05" })).toBe("nothing");
  });

  it("is what is known of the zero before a part was made", () => {
    const measured = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((i) =>
      ["h", "g"].map((element) => ({
        id: `${i}${element}`,
        part: `${i}`,
        element,
        tool: "T",
        x: `${0.03 + 0.002 * i}`,
        y: `${0.04 - 0.003 * i}`,
      })),
    );
    const priors = (degrees: number) => {
      const { evaluation, strategy } = evaluated(degrees, {
        machine: { lostMotion: { y: "0.1" } },
        madeParts: { partScatter: "0.01", measured },
      });
      const run = judgeRun(evaluation.setup, strategy);
      if (!run?.ok) throw new Error(JSON.stringify(run));
      const u = strategy.zero.map((axis) => (axis.ok ? axis.value.standardUncertainty : Number.NaN));
      const prior = (axis: string) =>
        run.value.verdicts.find(({ found: { cause } }) => cause.kind === "shift" && cause.axis === axis)?.prior;
      return { u, x: prior("X"), y: prior("Y") };
    };
    const [straight, turned] = [priors(0), priors(90)];
    // Half of the lost motion, rectangular: 0.05 / √3.
    expect(straight.u[1]).toBeCloseTo(0.05 / Math.sqrt(3), 3);
    expect([straight.x, straight.y]).toEqual([expect.closeTo(straight.u[0] as number, 9), expect.closeTo(straight.u[1] as number, 9)]);
    expect([turned.x, turned.y]).toEqual([expect.closeTo(turned.u[1] as number, 9), expect.closeTo(turned.u[0] as number, 9)]);
  });
});

it("features that came out alike are said to, and rounding is no scatter", () => {
  const measured = [1, 2, 3].flatMap((i) =>
    ["h", "g"].map((element) => ({ id: `${i}${element}`, part: `${i}`, element, tool: "T", x: "0.03", y: "0.04" })),
  );
  const { evaluation, strategy } = evaluated(0, { madeParts: { partScatter: "0.01", measured } });
  const run = judgeRun(evaluation.setup, strategy);
  if (!run?.ok) throw new Error(JSON.stringify(run));
  const words = runSentences(run.value, { unit: "mm" }).join(" ");
  expect(words).toContain("single features came out alike");
  expect(words).not.toMatch(/0\.0{6}/);
});

it("a turn that goes on beyond half a turn has changed by what it went on", () => {
  const [before, after] = [evaluated(179.9999), evaluated(180.0001)];
  expect(JSON.stringify(evaluationChanges(before.evaluation, after.evaluation))).toContain("the turn about Z changed by +0.0002");
});

it("a radius that went to the wrong side of one face of a pocket is told of that face, whichever face was checked", () => {
  const shifts = (checked: string) => {
    const at = { y: "-100", z: "-50" };
    const evaluation = evaluateSetup(
      documentFrom({
        part: {
          elements: [
            { id: "low", kind: "face", outward: "+X", datum: "A", x: "0" },
            { id: "high", kind: "face", outward: "-X" },
          ],
          dimensions: [{ id: "w", from: "low", to: "high", axis: "X", nominal: "50", tolerance: "±0.05" }],
        },
        tools: [{ id: "probe", kind: "touch probe", radius: "3", radiusUncertainty: "0.001", scatter: "0.002" }],
        // The faces are at -400 and -350; of the first the reading is two radii too far along its travel.
        touches: [
          { id: "low", element: "low", travelling: "-X", tool: "probe", readings: "-403", ...at },
          { id: "high", element: "high", travelling: "+X", tool: "probe", readings: "-353", ...at },
        ],
        strategies: [{ id: "s", touches: ["low"] }],
        chosen: "s",
        checks: [
          {
            id: "check",
            element: checked,
            travelling: checked === "low" ? "-X" : "+X",
            tool: "probe",
            readings: checked === "low" ? "-397" : "-353",
            ...at,
          },
        ],
      }),
    );
    const strategy = strategyNamed(evaluation.strategies, "s");
    const found = lookForSlips(evaluation, strategy.ok ? strategy.value : undefined).answers.find(
      ({ rule }) => rule.name === "sign wrong on one side",
    )?.answer;
    return found?.kind === "found" ? found.findings.map(({ at: place, evidence }) => `${place}: ${evidence}`) : found?.kind;
  };
  const told = ['touches.low.travelling: "low" lies -2.00 radii outwards of where a third touch has it, the opposite face +0.00'];
  expect(shifts("low")).toEqual(told);
  expect(shifts("high")).toEqual(told);
});

describe("a flat face that the tool would have come to out of the metal", () => {
  /** The plate with a face 50 to the left of the first bore, touched as it is drawn; `reading` where the axis of the stylus stopped. */
  const withFace = (degrees: number, reading: string) => {
    const { machine, ...tables } = plate(degrees);
    const left = { id: "left", kind: "face", outward: "-X", datum: "A", x: "-50" };
    const touch = { id: "l", element: "left", travelling: "+X", tool: "probe", y: "-200", readings: reading };
    const [bores] = tables.strategies;
    return evaluateSetup(
      documentFrom({
        ...tables,
        machine,
        part: { ...tables.part, elements: [...tables.part.elements, left] },
        touches: [...tables.touches, touch],
        strategies: [bores, { ...bores, id: "all", touches: [...(bores?.touches ?? []), "l"] }],
      }),
    );
  };
  const told = (evaluation: ReturnType<typeof withFace>) => [
    ...evaluation.problems.map(({ at }) => at),
    ...evaluation.strategies.flatMap(({ id, evaluation: { ok } }) => (ok ? [] : [id])),
  ];

  // The bores have the face to the right of them, 50 / cos 10° from the first; the axis of the stylus a radius before it, within the metal.
  const within = (-300 + 47 / Math.cos(Math.PI / 18)).toFixed(9);

  it("is refused at its touch, where bores turn the part half round", () => {
    expect(told(withFace(0, "-353"))).toEqual([]);
    const impossible = withFace(170, within);
    expect(impossible.location.thisPart.ok).toBe(false);
    expect(told(impossible)).toEqual(expect.arrayContaining(["touches.l.travelling", "all"]));
    // The radius on the wrong side pulls at the bores, too.
    expect(JSON.stringify(impossible.problems)).toMatch(/lie turned by 17\d degrees/);
  });

  it("keeps nothing from a strategy that does not use it", () => {
    const [bores] = withFace(170, within).strategies;
    const zero = bores?.evaluation.ok ? bores.evaluation.value.solution.fromReadings.zero.map(({ value }) => value) : [];
    expect(zero.slice(0, 2)).toEqual([expect.closeTo(-300, 6), expect.closeTo(-200, 6)]);
  });

  it("is possible up to a right angle", () => {
    // At 80 degrees the face goes through -300 - 50 cos 80°, -200 - 50 sin 80°, and the axis stops 3 / cos 80° before it where it crosses y = -200.
    const c = Math.cos((80 * Math.PI) / 180);
    expect(told(withFace(80, `${-300 - 53 / c}`))).toEqual([]);
  });
});

it("a touch of a bore whose place across is not noted is asked for it, and accuses no other touch", () => {
  const { machine, ...tables } = plate(0);
  const open = { id: "more", element: "b1", travelling: "+Y", tool: "probe", readings: "-193" };
  const evaluation = evaluateSetup(documentFrom({ ...tables, machine, touches: [...tables.touches, open] }));
  expect(evaluation.problems.map(({ at }) => at)).toEqual(["touches.more.x"]);
  const [bores] = evaluation.strategies;
  expect(bores?.evaluation.ok && bores.evaluation.value.zero.map((axis) => axis.ok && axis.value.value).slice(0, 2)).toEqual([
    expect.closeTo(-300, 6),
    expect.closeTo(-200, 6),
  ]);
});

it("an edge that was touched twice tells no Y of a part that it turns as long as nothing tells X, however alike the two read", () => {
  const zero = (second: string, touches: readonly string[]) => {
    const tool = "probe";
    const evaluation = evaluateSetup(
      documentFrom({
        part: {
          elements: [
            { id: "front", kind: "face", outward: "-Y", datum: "A" },
            { id: "left", kind: "face", outward: "-X", datum: "B" },
          ],
        },
        tools: [{ id: tool, kind: "touch probe", radius: "3", scatter: "0.002" }],
        touches: [
          { id: "f1", element: "front", travelling: "+Y", tool, readings: "-203", x: "-290" },
          { id: "f2", element: "front", travelling: "+Y", tool, readings: second, x: "-190" },
          { id: "l", element: "left", travelling: "+X", tool, readings: "-303", y: "-160" },
        ].filter(({ id }) => touches.includes(id)),
        strategies: [{ id: "s", touches, rotation: "applied" }],
        chosen: "s",
      }),
    );
    const strategy = strategyNamed(evaluation.strategies, "s");
    return strategy.ok ? strategy.value.zero.map((axis) => axis.ok) : [];
  };
  for (const second of ["-203", "-203.0002", "-203.4"]) {
    expect(zero(second, ["f1", "f2"])).toEqual([false, false, false]);
    expect(zero(second, ["f1", "f2", "l"])).toEqual([true, true, false]);
  }
});
