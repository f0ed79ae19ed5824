import { describe, expect, it } from "vitest";
import { axisOnlyErrors } from "../../lib/datum/axisOnlyErrors.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { documentFrom } from "../properties/setups.ts";

/** A corner on a part that is turned by so many degrees, touched by a ball of radius 3: the centres stand 3 off its edges, which meet at 0, 0. */
function skewed(degrees: number, more: { readonly second?: boolean } = {}) {
  const t = (degrees * Math.PI) / 180;
  const at = (x: number, y: number) =>
    [x * Math.cos(t) - y * Math.sin(t), x * Math.sin(t) + y * Math.cos(t)].map((each) => each.toFixed(9));
  const front = (id: string, along: number) => {
    const [x, y] = at(along, -3);
    return { id, element: "front", travelling: "+Y", tool: "ball", x, readings: y };
  };
  const [x, y] = at(-3, 20);
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "front", kind: "face", outward: "-Y", datum: "B" },
          { id: "left", kind: "face", outward: "-X", datum: "C" },
        ],
      },
      tools: [{ id: "ball", kind: "touch probe", radius: "3", scatter: "0.002" }],
      touches: [
        front("f1", 10),
        ...(more.second === false ? [] : [front("f2", 90)]),
        { id: "l", element: "left", travelling: "+X", tool: "ball", y, readings: x },
      ],
      strategies: [{ id: "s", touches: ["f1", "f2", "l"].filter((id) => more.second !== false || id !== "f2"), rotation: "applied" }],
      chosen: "s",
    }),
  );
}

describe("axisOnlyErrors(location)", () => {
  // Radius compensation along the axis on a face skewed by θ puts the face wrong by r (1/cos θ - 1), r = 3 (closed form).
  it.each([
    [0, 0],
    [1, 0.000457],
    [5, 0.01146],
    [-5, 0.01146],
    [10, 0.04628],
  ])("at %d degrees tells %d of every face that was touched from the side", (degrees, expected) => {
    const errors = axisOnlyErrors(skewed(degrees).location);
    expect(errors.map(({ touch, axis }) => `${touch} ${axis}`).sort()).toEqual(["f1 Y", "f2 Y", "l X"]);
    for (const { error } of errors) expect(Math.abs(error.value - expected)).toBeLessThanOrEqual(1e-6);
  });

  it("is what a face as one touch tells it lacks to where the located part has it in the line of the travel", () => {
    const evaluation = skewed(5);
    const { origin, rotation } = evaluation.location.thisPart.ok ? evaluation.location.thisPart.value : { origin: [], rotation: undefined };
    const turn = rotation?.value ?? 0;
    for (const { touch, error } of axisOnlyErrors(evaluation.location)) {
      const [x, y] = evaluation.location.contacts.find((contact) => contact.touch === touch)?.centre ?? [0, 0];
      const face = evaluation.faces.find(({ id }) => id === touch);
      const along =
        face?.axis === "Y"
          ? (origin[1]?.value ?? 0) + (x - (origin[0]?.value ?? 0)) * Math.tan(turn)
          : (origin[0]?.value ?? 0) - (y - (origin[1]?.value ?? 0)) * Math.tan(turn);
      expect(along - (face?.budget.value ?? 0)).toBeCloseTo(error.value, 9);
    }
  });

  it("tells nothing where the touches do not tell the turn", () => {
    const evaluation = skewed(5, { second: false });
    expect(axisOnlyErrors(evaluation.location)).toEqual([]);
    expect(plainResults(evaluation).faces.map(({ axisOnlyError }) => axisOnlyError)).toEqual([null, null]);
  });
});

describe("the sentence on a skewed part", () => {
  const told = (degrees: number) => judgementSentences(skewed(degrees)).filter(({ kind }) => kind === "skew");

  // u of a face is the scatter of 0.002: 0.000457 at one degree stays below it, 0.01146 at five does not.
  it("is told where a face would be off by more than its doubt, and not before", () => {
    expect(told(0)).toEqual([]);
    expect(told(1)).toEqual([]);
    const [sentence, ...more] = told(5);
    expect(more).toEqual([]);
    expect(sentence?.text).toContain("The part lies turned by 5.000");
    expect(sentence?.text).toContain("0.0115 mm short");
  });
});
