import { describe, expect, it } from "vitest";
import { type Effort, effortOf, usualMinutes } from "../../lib/datum/effort.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { documentFrom, must } from "../properties/setups.ts";

/** An edge by two tools: three touches of one, two of the other, which scatters more and whose radius is known better. */
function twoTools(more: { readonly touchMinutes?: string; readonly readings?: string } = {}) {
  const { touchMinutes, readings = "-2.0057" } = more;
  const touch = (id: string, tool: string, text: string) => ({ id, element: "left", travelling: "+X", tool, readings: text, y: "0" });
  return documentFrom({
    part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "C" }] },
    tools: [
      { id: "A", kind: "touch probe", radius: "2", radiusUncertainty: "0.008", scatter: "0.002", ...(touchMinutes && { touchMinutes }) },
      {
        id: "B",
        kind: "turning edge finder",
        radius: "2",
        radiusUncertainty: "0.001",
        scatter: "0.006",
        ...(touchMinutes && { touchMinutes: "2" }),
      },
    ],
    touches: [
      touch("a1", "A", "-1.9969"),
      touch("a2", "A", "-2.0012"),
      touch("a3", "A", "-1.9976 -1.9976"),
      touch("b1", "B", "-1.9898"),
      touch("b2", "B", readings),
    ],
    strategies: [
      { id: "all", touches: ["a1", "a2", "a3", "b1", "b2"] },
      { id: "one", touches: ["a1"] },
    ],
    chosen: "all",
  });
}

function effortIn(document: ReturnType<typeof twoTools>): Effort {
  const evaluation = evaluateSetup(document);
  expect(evaluation.problems).toEqual([]);
  return must(evaluation.strategies[0]?.evaluation as NonNullable<(typeof evaluation.strategies)[number]["evaluation"]>).effort;
}

describe("what a strategy takes", () => {
  it("counts touches and readings, and minutes by shop defaults that say so", () => {
    expect(effortIn(twoTools())).toEqual({
      touches: 5,
      readings: 6,
      minutes: 4 * usualMinutes["touch probe"] + 2 * usualMinutes["turning edge finder"],
      isStated: false,
    });
  });

  it("takes the minutes that are stated with the tools", () => {
    expect(effortIn(twoTools({ touchMinutes: "0.5" }))).toEqual({ touches: 5, readings: 6, minutes: 4 * 0.5 + 2 * 2, isStated: true });
  });

  it("of a strategy without touches is nothing", () => {
    const { setup } = evaluateSetup(twoTools());
    const none = { ...(setup.strategies[0] as (typeof setup.strategies)[number]), touches: [] };
    expect(effortOf(none, setup)).toEqual({ touches: 0, readings: 0, minutes: 0, isStated: true });
  });

  it.each(["0", "-1", "500", "soon"])("a time of %s is told at its place", (touchMinutes) => {
    const { problems } = evaluateSetup(twoTools({ touchMinutes }));
    expect(problems.map(({ at }) => at)).toContain("tools.A.touchMinutes");
  });
});

describe("the best that the touches could give", () => {
  const evaluation = evaluateSetup(twoTools());
  const strategies = plainResults(evaluation).strategies as unknown as readonly { id: string; optimal: never; effort: Effort }[];

  it("stands beside the strategy's own in plain data, as a share", () => {
    const { optimal } = strategies.find(({ id }) => id === "all") as { optimal: { coordinates: readonly { ratio: number }[] } };
    const [x] = optimal.coordinates as readonly {
      name: string;
      ratio: number;
      conventional: { standardUncertainty: number };
      optimal: { standardUncertainty: number };
    }[];
    expect(x?.name).toBe("X");
    expect(x?.ratio).toBeCloseTo((x?.optimal.standardUncertainty as number) / (x?.conventional.standardUncertainty as number), 12);
    expect(x?.ratio).toBeLessThan(0.9);
    expect(strategies.find(({ id }) => id === "one")?.optimal).toBeNull();
  });

  it("is told in the text, with effort", () => {
    const text = summaryText(evaluation, { strategy: "all" });
    expect(text).toContain("It takes 5 touches, 6 readings, about 3.0 min (shop default).");
    expect(text).toMatch(/by this strategy +u +at best +u +share/);
    expect(summaryText(evaluation, { strategy: "one" })).toContain("It takes 1 touch, about 0.3 min (shop default).");
  });

  it("is withheld in text and plain data where the touches disagree", () => {
    const disagreeing = evaluateSetup(twoTools({ readings: "-1.9" }));
    expect(summaryText(disagreeing, { strategy: "all" }).replace(/\s+/g, " ")).toContain(
      "No best use of the touches: the touches disagree",
    );
    const { optimal } = plainResults(disagreeing).strategies.find(({ id }) => id === "all") as unknown as { optimal: object };
    expect(Object.keys(optimal)).toEqual(["problems"]);
  });
});

describe("sentences about form", () => {
  function bore(lobes: string, touches: number) {
    return evaluateSetup(
      documentFrom({
        part: { elements: [{ id: "bore", kind: "bore", datum: "A", diameter: "30", lobes, lobeAmplitude: "0.004" }] },
        tools: [{ id: "probe", kind: "touch probe", radius: "3", scatter: "0.001" }],
        touches: Array.from({ length: touches }, (_, i) => {
          const angle = (2 * Math.PI * i) / touches;
          const [x, y] = [Math.cos(angle), Math.sin(angle)].map((each) => (12 * each).toFixed(9));
          return { id: `t${i}`, element: "bore", travelling: "radial", tool: "probe", readings: `X${x} Y${y}` };
        }),
        strategies: [{ id: "s", touches: Array.from({ length: touches }, (_, i) => `t${i}`), zero: { x: "bore", y: "bore" } }],
        chosen: "s",
      }),
    );
  }

  // What each number of touches takes three lobes for: see tests/contacts/lobing.test.ts.
  it.each([
    [
      "3",
      4,
      "are taken for a shift of its centre by as much, in a direction that 4 touches cannot tell. 5 evenly spaced touches would see neither.",
    ],
    ["3", 3, "are taken for its size: 3 touches find a diameter that is off by up to 0.0080 mm, and the right centre. 5 evenly"],
    ["3", 8, "show in neither centre nor diameter by 8 evenly spaced touches."],
  ])("say what %s lobes are taken for by %i touches", (lobes, touches, words) => {
    const told = judgementSentences(bore(lobes, touches)).filter(({ kind }) => kind === "form error");
    expect(told).toHaveLength(1);
    expect(told[0]?.text).toContain(words);
    expect(told[0]?.at).toBe("part.elements.bore");
  });
});
