import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { documentFrom, must, typed } from "../properties/setups.ts";

const tool = { id: "tool", kind: "touch probe", radius: "3", scatter: "0.004", length: "100" };
const machine = { positioning: "0.01", positioningOver: "300" };

interface Hole {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly process?: number;
}

/** Holes drilled from a corner that is touched once on each side; `off` is by how much the touch on the left is wrong. */
function plate(holes: readonly Hole[], characteristics: readonly object[], skewed = 0) {
  return documentFrom({
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "B" },
        { id: "front", kind: "face", outward: "-Y", datum: "C" },
        ...holes.map(({ id, x, y, process = 0.01 }) => ({
          id,
          kind: "bore",
          made: "here",
          diameter: "6",
          x: typed(x),
          y: typed(y),
          process: typed(process),
        })),
      ],
      characteristics,
    },
    tools: [tool],
    machine,
    touches: [
      {
        id: "left 1",
        element: "left",
        travelling: "+X",
        tool: "tool",
        readings: typed(-3 / Math.cos(skewed) - 10 * Math.tan(skewed)),
        y: "10",
      },
      {
        id: "left 2",
        element: "left",
        travelling: "+X",
        tool: "tool",
        readings: typed(-3 / Math.cos(skewed) - 70 * Math.tan(skewed)),
        y: "70",
      },
      {
        id: "front 1",
        element: "front",
        travelling: "+Y",
        tool: "tool",
        readings: typed(-3 / Math.cos(skewed) + 50 * Math.tan(skewed)),
        x: "50",
      },
    ],
    strategies: [{ id: "s", touches: ["left 1", "left 2", "front 1"], rotation: "ignored" }],
    sampling: { trials: 20000, seed: 7 },
  });
}

const four: readonly Hole[] = [
  { id: "h1", x: 20, y: 20 },
  { id: "h2", x: 80, y: 20 },
  { id: "h3", x: 80, y: 60 },
  { id: "h4", x: 20, y: 60 },
];
const row = (kind: string, names: readonly string[], tolerance = "0.1") => {
  const [of, ...also] = names;
  return { id: "holes", kind, of, also, tolerance };
};

function judged(holes: readonly Hole[], characteristics: readonly object[], skewed = 0) {
  const evaluation = evaluateSetup(plate(holes, characteristics, skewed));
  expect(evaluation.problems).toEqual([]);
  const [strategy] = evaluation.strategies;
  if (strategy === undefined) throw new Error("there is no strategy");
  return { evaluation, judgement: must(strategy.evaluation).thisPart };
}

describe("a pattern as one row", () => {
  it("is met when all its members are: the chance is that of as many rows of their own, which share their zero", () => {
    const one = judged(four, [row("position", ["h1", "h2", "h3", "h4"], "0.05")]).judgement;
    const apart = judged(
      four,
      four.map(({ id }) => ({ id: `position ${id}`, kind: "position", of: id, tolerance: "0.05" })),
    ).judgement;
    const [pattern] = one.rows;
    expect(pattern?.row).toBe("holes");
    expect(one.stacks.map(must).map(({ characteristic }) => characteristic)).toEqual(["holes, h1", "holes, h2", "holes, h3", "holes, h4"]);
    expect(one.stacks.map(must).map(({ chance }) => chance)).toEqual(apart.stacks.map(must).map(({ chance }) => chance));
    expect(must((pattern as NonNullable<typeof pattern>).chanceOfAll)).toEqual(must(apart.chanceOfAll));
    expect(apart.rows).toEqual([]);
    // All follow one zero: more than if they failed apart, no more than the least of them.
    const chances = one.stacks.map(must).map(({ chance }) => chance);
    const together = must((pattern as NonNullable<typeof pattern>).chanceOfAll).chance;
    expect(together).toBeGreaterThan(chances.reduce((product, chance) => product * chance, 1));
    expect(together).toBeLessThanOrEqual(Math.min(...chances));
  });

  it("names the member with the smallest chance", () => {
    const worse = four.map((hole) => (hole.id === "h3" ? { ...hole, process: 0.03 } : hole));
    expect(judged(worse, [row("position", ["h1", "h2", "h3", "h4"])]).judgement.rows[0]?.worst).toBe("holes, h3");
  });

  it("of one element is the row without a pattern", () => {
    const alone = judged(four, [row("position", ["h2"])]).judgement;
    expect(alone.rows).toEqual([]);
    expect(must(alone.stacks[0] as never as Parameters<typeof must>[0])).toMatchObject({ characteristic: "holes", row: "holes" });
  });

  it("says the same in whatever order its members stand", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(["h1", "h2", "h3", "h4"], { minLength: 4 }), (order) => {
        for (const kind of ["position", "position within the pattern"]) {
          const [sorted, shuffled] = [["h1", "h2", "h3", "h4"], order].map((names) => {
            const { judgement } = judged(four, [row(kind, names, "0.06")]);
            return new Map(judgement.stacks.map(must).map(({ characteristic, chance }) => [characteristic, chance]));
          });
          for (const [name, chance] of sorted as Map<string, number>) expect(shuffled?.get(name)).toBeCloseTo(chance, 9);
        }
      }),
      { numRuns: 10 },
    );
  });

  it("is told as a whole in the summary and in plain data", () => {
    const { evaluation, judgement } = judged(four, [row("position", ["h1", "h2", "h3", "h4"])]);
    expect(summaryText(evaluation).replace(/\s+/g, " ")).toMatch(
      /"holes" as a whole: all 4 met with a chance of .*; the worst is "holes, h\d"/,
    );
    const plain = JSON.parse(JSON.stringify(plainResults(evaluation)));
    expect(JSON.stringify(plain)).toContain('"members":["holes, h1","holes, h2","holes, h3","holes, h4"]');
    expect(judgement.bottleneck).toMatch(/^holes, /);
  });
});

// ISO 5458: zones that hang together at their basic places among each other, wherever they lie; clause from memory. What is left after a pattern is moved
// and turned to fit is plane geometry of rigid motions.
describe("a position within the pattern", () => {
  it("does not follow the zero: where each hole is cut exactly nothing is left but the positioning between them", () => {
    const exact = four.map((hole) => ({ ...hole, process: 0 }));
    const demand = row("position within the pattern", ["h1", "h2", "h3", "h4"], "0.02");
    for (const stack of judged(exact, [demand]).judgement.stacks.map(must)) {
      expect(stack.deviation).toBeCloseTo(0, 12);
      expect(stack.rows.map(({ source }) => source.id).sort()).toEqual(["machine, positioning X", "machine, positioning Y"]);
    }
    // Skewed by 0.002 a hole at (80, 60) is off by 0.2 from the datums. Among each other, at most 36.1 from their middle, second order is left: 36.1·0.002²/2.
    for (const stack of judged(exact, [demand], 0.002).judgement.stacks.map(must)) {
      expect(stack.deviation).toBeLessThan(2 * 36.1 * (0.002 ** 2 / 2) + 1e-9);
    }
  });

  it("two holes 60 apart that scatter by 0.01 along their line keep half of the difference each, and nothing across it", () => {
    const two = four.slice(0, 2);
    const { judgement } = judged(two, [row("position within the pattern", ["h1", "h2"], "0.05")]);
    const [first] = judgement.stacks.map(must);
    const amount = (id: string) => first?.rows.find(({ source }) => source.id === id)?.amounts ?? [0, 0];
    expect(Math.abs(amount("element h1, process X")[0] as number)).toBeCloseTo(0.005, 12);
    expect(Math.abs(amount("element h2, process X")[0] as number)).toBeCloseTo(0.005, 12);
    expect(amount("element h1, process Y").every((each) => Math.abs(each) < 1e-15)).toBe(true);
    // Positioning ±0.01 over 300: between two holes 60 apart ±0.002, half of it each.
    const positioning = first?.rows.find(({ source }) => source.id === "machine, positioning X");
    expect(Math.abs(positioning?.reaches[0] ?? 0)).toBeCloseTo(0.001, 12);
  });

  it("of a square of four, each keeps 5/8 of its own variance in all: 2·4 coordinates less 3 motions, shared alike", () => {
    const square: readonly Hole[] = [
      { id: "h1", x: 20, y: 20 },
      { id: "h2", x: 60, y: 20 },
      { id: "h3", x: 60, y: 60 },
      { id: "h4", x: 20, y: 60 },
    ];
    const { judgement } = judged(square, [row("position within the pattern", ["h1", "h2", "h3", "h4"], "0.1")]);
    for (const stack of judgement.stacks.map(must)) {
      const process = stack.rows.filter(({ source }) => source.family === "process");
      const variance = process.reduce((total, { amounts }) => total + amounts.reduce((sum, each) => sum + each * each, 0), 0);
      expect(variance / (2 * 0.01 ** 2)).toBeCloseTo(5 / 8, 12);
    }
  });

  it("is refused for a single element, with datums, and for what is not round", () => {
    const refused = (change: object) => {
      const { problems } = evaluateSetup(plate(four, [{ ...row("position within the pattern", ["h1", "h2"]), ...change }]));
      return problems.map(({ at, what }) => `${at}: ${what}`);
    };
    expect(refused({ also: [] })).toEqual([expect.stringMatching(/^part\.characteristics\.holes\.also: one element alone/)]);
    expect(refused({ datums: "D1" })).toEqual([
      expect.stringMatching(/^part\.characteristics\.holes\.datums: a position within the pattern goes by no/),
    ]);
    expect(refused({ also: ["left"] })).toEqual([
      expect.stringMatching(/^part\.characteristics\.holes\.also: a round zone is for an axis/),
    ]);
    expect(refused({ also: ["h1"] })).toEqual([expect.stringMatching(/^part\.characteristics\.holes\.also: an element counts once/)]);
    expect(refused({ also: ["h9"] })).toEqual([expect.stringMatching(/^part\.characteristics\.holes\.also: there is no readable element/)]);
    expect(refused({ tolerance: "0" })).toEqual([expect.stringMatching(/^part\.characteristics\.holes\.tolerance: a zone of no size/)]);
  });

  it("a row that would take the name of a member is refused", () => {
    const { problems } = evaluateSetup(
      plate(four, [row("position", ["h1", "h2"]), { id: "holes, h2", kind: "position", of: "h3", tolerance: "0.1" }]),
    );
    expect(problems.map(({ at }) => at)).toEqual(["part.characteristics.holes.id"]);
  });
});
