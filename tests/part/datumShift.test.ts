import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { documentFrom } from "../properties/setups.ts";

// A datum feature of size at maximum material: the gauge is a pin of the bore's smallest diameter (a sleeve of the boss's largest), and the feature may lie about it
// within its departure from that size (ISO 2692:2014 and ASME Y14.5-2009, 4.11.9, from memory). The numbers are the geometry of a pin in a hole, worked out here.

const bottom = { id: "bottom", kind: "face", outward: "-Z", datum: "A" };
const bore = { id: "bore", kind: "bore", diameter: "30", diameterTolerance: "+0.1 0", datum: "B", x: "0", y: "0" };
const boss = { id: "boss", kind: "boss", diameter: "12", diameterTolerance: "0 -0.04", datum: "C", x: "80", y: "60" };
const holes = [1, 2].map((i) => ({ id: `hole ${i}`, kind: "bore", made: "here", diameter: "6", x: String(20 * i), y: "30" }));
const positions = holes.map(({ id }, i) => ({ id: `position ${i + 1}`, kind: "position", of: id, tolerance: "0.2", datums: "A|B|C" }));
const tool = { id: "probe", kind: "touch probe", radius: "3", length: "100", scatterFrom: "stated", scatter: "0" };

/** Four touches of the bore, made 30.06. */
const touches = [
  ["east", "+X", "12.03", "0", "0"],
  ["west", "-X", "-12.03", "0", "0"],
  ["north", "+Y", "12.03", "0", "0"],
  ["south", "-Y", "-12.03", "0", "0"],
].map(([id, travelling, readings, across]) => ({
  id,
  element: "bore",
  tool: "probe",
  travelling,
  readings,
  ...(travelling?.[1] === "X" ? { y: across } : { x: across }),
}));

function job(
  atMaximumMaterial: string | undefined,
  more: { readonly elements?: readonly object[]; readonly touches?: readonly object[] } = {},
) {
  return documentFrom({
    part: {
      elements: more.elements ?? [bottom, bore, boss, ...holes],
      datumSystems: [{ id: "A|B|C", primary: "A", secondary: "B", tertiary: "C", ...(atMaximumMaterial && { atMaximumMaterial }) }],
      characteristics: positions,
    },
    tools: [tool],
    touches: more.touches ?? touches,
    strategies: [{ id: "s", touches: (more.touches ?? touches).map((touch) => (touch as { id: string }).id) }],
  });
}

const shiftsOf = (document: ReturnType<typeof job>) => plainResults(evaluateSetup(document)).datumShifts;

/** How far the centre of a pin gets in a hole, looked for by trying: the largest circle of places at which it does not cut into the wall. */
function reachOfPin(pin: number, hole: number): number {
  let farthest = 0;
  for (let off = 0; off <= hole; off += 1e-5) if (off + pin / 2 <= hole / 2 + 1e-12) farthest = off;
  return farthest;
}

describe("the shift that the size of a datum leaves", () => {
  it("is a circle about the gauge, of the departure at least material: a pin of 30 in a bore of up to 30.1", () => {
    const [shift] = shiftsOf(job("secondary"));
    expect(shift).toMatchObject({
      system: "A|B|C",
      datum: "bore",
      letter: "B",
      maximumMaterialSize: 30,
      axes: ["X", "Y"],
      moves: ["position 1", "position 2"],
    });
    expect(shift?.largest).toBeCloseTo(0.1, 12);
    expect((shift?.largest ?? 0) / 2).toBeCloseTo(reachOfPin(30, 30.1), 4);
  });

  // 3-4-5: the axes stand 100 apart. The boss of 11.96 to 12 in a sleeve of 12 turns the part by ±(0.04/2)/100 about the bore.
  it("of a second axis only turns, by half of it over the distance of the axes", () => {
    const [, second] = shiftsOf(job("secondary and tertiary"));
    expect(second).toMatchObject({ datum: "boss", maximumMaterialSize: 12, axes: [] });
    expect(second?.turns).toEqual({ about: "bore", distance: 100 });
    expect(second?.largest).toBeCloseTo(0.04, 12);
  });

  it("is told with what it moves, apart from bonus and chance, and what this part's touches leave of it", () => {
    const text = judgementSentences(evaluateSetup(job("all", { elements: [bore, boss, bottom, ...holes].map((each) => each) })), {})
      .map((sentence) => sentence.text)
      .join(" ");
    // "all" names the primary plane too, which has no size: refused, so nothing is told of this system.
    expect(text).not.toContain("leaves a shift");
    const told = judgementSentences(evaluateSetup(job("secondary and tertiary"))).filter(({ kind }) => kind === "datum shift");
    expect(told.map(({ at }) => at)).toEqual(["part.datumSystems.A|B|C", "part.datumSystems.A|B|C"]);
    expect(told[0]?.text).toContain(
      'the size of "bore" (B, M) leaves a shift: its axis may lie off the gauge at diameter 30 anywhere within a circle of diameter 0 at maximum to 0.1 mm at least material.',
    );
    expect(told[0]?.text).toContain("On this part, by its touches, that diameter is 0.0600 mm");
    expect(told[0]?.text).toContain(
      'It moves "position 1" and "position 2" together, widens no zone, and is counted in no chance: it is a shift and no bonus.',
    );
    expect(told[1]?.text).toContain('With "bore", 100 mm away, it leaves a turn of up to ±0.0200 over a length of 100 mm.');
  });

  it("changes no deviation, stack or chance", () => {
    const withShift = plainResults(evaluateSetup(job("secondary and tertiary")));
    const without = plainResults(evaluateSetup(job(undefined)));
    expect(withShift.strategies).toEqual(without.strategies);
    expect(without.datumShifts).toEqual([]);
  });

  it.each([
    ["primary", [bottom, bore, boss, ...holes], 'only a datum with a size can shift, and "bottom" is a face'],
    [
      "secondary",
      [bottom, { ...bore, diameterTolerance: "" }, boss, ...holes],
      'the drawing limits the diameter of "bore" by nothing, so its maximum material is not known',
    ],
  ])("refuses %s where nothing follows from it", (which, elements, what) => {
    const { problems } = evaluateSetup(job(which, { elements }));
    expect(problems.filter(({ at }) => at === "part.datumSystems.A|B|C.atMaximumMaterial").map((problem) => problem.what)).toEqual([what]);
  });
});
