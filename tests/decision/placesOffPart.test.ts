import { describe, expect, it } from "vitest";
import { placesOffPart } from "../../lib/decision/placesOffPart.ts";
import { suspicions } from "../../lib/decision/suspicions.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

/** A block 120 by 80 whose corner lies at X -400, Y -200; the front is touched at a place along it, and a pad stands under it. */
function block(x: string, padX = "20", more: readonly object[] = []) {
  return evaluateSetup(
    documentFrom({
      part: {
        elements: [
          { id: "front", kind: "face", outward: "-Y", datum: "A" },
          { id: "back", kind: "face", outward: "+Y" },
          { id: "left", kind: "face", outward: "-X", datum: "B" },
          { id: "right", kind: "face", outward: "+X" },
          { id: "bottom", kind: "face", outward: "-Z", datum: "C" },
          ...more,
        ],
        dimensions: [
          { id: "length", from: "left", to: "right", nominal: "120", tolerance: "±0.1" },
          { id: "depth", from: "front", to: "back", nominal: "80", tolerance: "±0.1" },
        ],
      },
      tools: [{ id: "ball", kind: "touch probe", radius: "3", scatter: "0.002" }],
      touches: [
        { id: "f", element: "front", travelling: "+Y", tool: "ball", readings: "-203", x },
        { id: "l", element: "left", travelling: "+X", tool: "ball", readings: "-403", y: "-160" },
      ],
      strategies: [{ id: "s", touches: ["f", "l"] }],
      fixture: { locators: [{ id: "pad", kind: "pad", element: "bottom", x: padX, y: "40" }] },
    }),
  );
}

const told = (evaluation: ReturnType<typeof block>) => placesOffPart(evaluation.location).map(({ at, what }) => `${at}: ${what}`);

describe("places where the part is not", () => {
  // By hand: X 600 is 1000 from the corner, 880 beyond the end at 120; the pad at -500 is 500 before the other end.
  it.each([
    [
      "a touch far along its face",
      block("600"),
      "touches.f.x: there the tool stood 880 mm beyond the end of the part along X, so it cannot have met",
    ],
    ["a touch before the face begins", block("-420"), "touches.f.x: there the tool stood 20 mm beyond the end"],
    [
      "a locator beside the part",
      block("-380", "-500"),
      "fixture.locators.pad.x: there it stands 500 mm beyond the end of the part along X",
    ],
  ])("%s is told at its place, and among what to look at again", (_, evaluation, expected) => {
    expect(told(evaluation)[0]).toContain(expected);
    expect(suspicions(evaluation).map(({ at }) => at)).toContain(expected.split(":")[0]);
  });

  it("at the ends and a little beside nothing is said, nor where the drawing does not say where the part ends", () => {
    for (const x of ["-400", "-280", "-276", "-405"]) expect(told(block(x))).toEqual([]);
    // A bore beyond the last face: something of the part reaches farther than its faces say.
    expect(told(block("600", "20", [{ id: "ear", kind: "bore", datum: "D", x: "150", y: "40", diameter: "8" }]))).toEqual([]);
  });
});
