import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { locatePart } from "../../lib/datum/locatePart.ts";
import { type StrategySolution, solveStrategy } from "../../lib/datum/solveStrategy.ts";
import type { Strategy } from "../../lib/datum/strategy.ts";
import { type StrategyDeterminacy, strategyDeterminacy } from "../../lib/datum/strategyDeterminacy.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { determinacySentences, touchRoleInWords } from "../../lib/record/determinacySentences.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import { cover, crowded, pocketBlock } from "../gallery/documents.ts";
import { must } from "../properties/setups.ts";

const locationOf = (document: SetupDocument) => locatePart(readSetup(document).setup);
const ofCover = locationOf(cover);

/** A strategy of the cover by its touches, like one that is there. */
function strategyOf(touches: readonly string[], more: Partial<Strategy> = {}): Strategy {
  const like = ofCover.setup.strategies.find(({ id }) => id === "bore") as Strategy;
  return { ...like, id: "tried", touches, ...more };
}
const told = (strategy: Strategy): StrategyDeterminacy => must(strategyDeterminacy(solveStrategy(strategy, ofCover), ofCover));
const roleOf = ({ touches }: StrategyDeterminacy, name: string) => touches.find(({ touch }) => touch === name);

// Plain geometry: a face takes one motion from the part, two places on one face a turn as well (the locating rule of three, two and one).
describe("strategyDeterminacy(solution, location)", () => {
  it("finds nothing to spare in one touch on each of three square faces, and what each of them holds", () => {
    const corner = told(strategyOf(["left", "front 1", "top"]));
    expect(corner.words).toBe('corner of "left" and "front", height from "top"');
    expect(corner.motions.map(({ state }) => state)).toEqual(["found", "found", "found", "not looked at"]);
    expect(corner).toMatchObject({ free: [], spare: 0, sizes: [], findings: [] });
    expect(corner.touches.map(({ frees }) => frees.map(({ words }) => words))).toEqual([
      ["a shift along X"],
      ["a shift along Y"],
      ["a shift along Z"],
    ]);
  });

  it("says that normals are parallel, what is free, and which touches would help", () => {
    const parallel = told(strategyOf(["left", "right"], { hold: ["middle"] }));
    expect(parallel.free.map(({ words }) => words).sort()).toEqual(["a shift along Y", "a shift along Z"]);
    expect(parallel.findings.map(({ what }) => what)).toEqual([
      "all touches push along X: their normals are parallel, so nothing fixes Y",
      "all touches push along X: their normals are parallel, so nothing fixes Z",
    ]);
    expect(parallel.findings[0]?.remedy).toBe(
      'add a touch that meets the part along Y; of those that there are "b3", "b4", "front 1" and "front 2" would',
    );
    expect(parallel.findings.every(({ at }) => at === "strategies.tried.touches")).toBe(true);
  });

  it("tells two touches of one face apart by whether the skew is looked at", () => {
    const flat = told(strategyOf(["left", "front 1", "front 2", "top"]));
    expect(flat.spare).toBe(1);
    expect(roleOf(flat, "front 1")).toMatchObject({ frees: [], checkedBy: ["front 2"] });
    const turned = told(strategyOf(["left", "front 1", "front 2", "top"], { rotation: "measured" }));
    expect(turned.spare).toBe(0);
    expect(roleOf(turned, "front 1")?.frees[0]?.words).toMatch(/^a turn about Z at X -\d+\.\d, Y -\d+\.\d$/);
  });

  it("asks for two places on one face where the turn is to be measured and is not", () => {
    const { findings, motions } = told(strategyOf(["left", "front 1", "top"], { rotation: "applied" }));
    expect(motions[3]).toEqual({ of: "turn", state: "free" });
    expect(findings.at(-1)?.what).toContain("no upright face is touched at two places");
    expect(findings.at(-1)?.remedy).toContain('"front 2" would');
  });

  it("calls touches on both ends over-determined while the length is held, and not where the middle is", () => {
    const both = told(strategyOf(["left", "right", "front 1", "top"]));
    expect(both.sizes).toEqual([{ id: "length", contradicted: true }]);
    expect(both.findings.map(({ what }) => what)).toEqual([
      'over-determined: the touches tell "length", and the strategy takes it as drawn; what it is really off is shared out among them',
    ]);
    const held = told(strategyOf(["left", "right", "front 1", "top"], { hold: ["middle"] }));
    expect(held.sizes).toEqual([{ id: "length", contradicted: false }]);
    expect(held.findings).toEqual([]);
    expect(held.words).toBe('X from the middle "middle", Y from the face "front", height from "top"');
  });

  it("has one of four touches of a bore to spare: three fix a circle", () => {
    const bore = told(strategyOf(["b1", "b2", "b3", "b4", "top"]));
    expect(bore).toMatchObject({ spare: 1, sizes: [{ id: "bore, diameter", contradicted: false }] });
    expect(bore.touches.slice(0, 4).map(({ checkedBy }) => checkedBy.length)).toEqual([3, 3, 3, 3]);
    expect(touchRoleInWords(roleOf(bore, "b1") as never)).toBe("checked by b2, b3 and b4");
    const three = told(strategyOf(["b1", "b2", "b3", "top"]));
    expect(three.spare).toBe(0);
    expect(roleOf(three, "b1")?.measures).toEqual(["bore, diameter"]);
  });

  it("has the solver's reasons for what cannot be solved", () => {
    const lost = strategyDeterminacy(solveStrategy(strategyOf(["nowhere"]), ofCover), ofCover);
    expect(lost).toMatchObject({
      ok: false,
      problems: [{ at: "strategies.tried.touches", what: "there is no such touch", got: "nowhere" }],
    });
  });

  it("determinacySentences(…) says it in words, with the sizes as measured", () => {
    const sentences = determinacySentences(told(strategyOf(["b1", "b2", "b3", "b4"])), { setup: ofCover.setup, sizes: [] });
    expect(sentences).toEqual([
      'Centre of the bore "bore".',
      "Found: X and Y; not found: Z; the turn is not looked at.",
      "Free: a shift along Z.",
      'Redundant: one reading is more than needed; "b1", "b2", "b3" and "b4" check each other. They agree within their doubts.',
      'Its touches tell the size "bore, diameter".',
    ]);
  });
});

/** The largest standard uncertainty of a found origin, or of the turn at 100 mm, mm. */
function doubtOf({ frame: { origin, rotation, determined } }: StrategySolution): number {
  const found = [...origin, rotation.times(100)].filter((_, i) => determined[i as 0 | 1 | 2 | 3]);
  return Math.max(0, ...budgetsOf(found).map(({ standardUncertainty }) => standardUncertainty));
}

// Against the solver itself: a touch is needed exactly if the strategy without it leaves more motions free, and has somebody who checks it exactly if
// without it there is less to spare.
describe.each([
  ["cover", cover],
  ["block", pocketBlock],
  ["crowded plate", crowded],
])("roles of touches, %s", (_name, document) => {
  const location = locationOf(document);
  // A round wall's normal depends on where its middle was found, which another touch may tell.
  const usable = [...new Set(location.contacts.flatMap(({ touch, surface }) => (surface.kind === "plane" ? [touch] : [])))];
  it("are what leaving the touch out does", () => {
    const like = location.setup.strategies[0] as Strategy;
    const subsets = fc.record({
      touches: fc.subarray(usable, { minLength: 2 }),
      rotation: fc.constantFrom("ignored" as const, "measured" as const),
    });
    fc.assert(
      fc.property(subsets, ({ touches, rotation }) => {
        const strategy: Strategy = { ...like, hold: [], orient: [], touches, rotation, fixtureFrame: undefined };
        const solved = solveStrategy(strategy, location);
        fc.pre(solved.ok);
        const all = must(strategyDeterminacy(solved, location));
        for (const { touch, frees, checkedBy } of all.touches) {
          const without = solveStrategy({ ...strategy, touches: touches.filter((each) => each !== touch) }, location);
          if (!without.ok) continue;
          const rest = must(strategyDeterminacy(without, location));
          const freed = without.value.frame.freeMotions.length - all.free.length;
          if (freed > 0) expect(frees.length).toBeGreaterThan(0);
          // What the solver still finds although the touch is called needed is found with a doubt that nobody can use.
          if (frees.length > freed) expect(doubtOf(without.value)).toBeGreaterThan(5 * doubtOf(solved.value));
          expect(checkedBy.length > 0).toBe(rest.spare < all.spare);
          for (const other of checkedBy) expect(roleOf(all, other)?.checkedBy).toContain(touch);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe("a zero at an element that has no place there", () => {
  it.each([
    ["top", '"top" has no place along X', undefined],
    ["tpo", "there is no element with a place along X by this name", 'perhaps "top" was meant'],
  ])("%s is refused at its place", (element, what, remedy) => {
    const zero: Strategy["zero"] = [
      { kind: "element", element },
      { kind: "coordinate", value: 0 },
      { kind: "coordinate", value: 0 },
    ] as unknown as Strategy["zero"];
    const solved = solveStrategy(strategyOf(["left", "front 1", "top"], { zero }), ofCover);
    expect(solved.ok ? [] : solved.problems).toMatchObject([
      { at: "strategies.tried.zero.x", what, got: element, ...(remedy && { remedy }) },
    ]);
  });
});
