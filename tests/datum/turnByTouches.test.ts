import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { documentFrom } from "../properties/setups.ts";

/** The left face touched by a thin and by a thick tool, which disagree by 0.002, at the places stated along it. */
function touched(first: string, second: string) {
  const { location } = evaluateSetup(
    documentFrom({
      part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "A" }] },
      tools: [
        { id: "thin", kind: "tool or pin", radius: "1", scatter: "0.002" },
        { id: "thick", kind: "tool or pin", radius: "4", scatter: "0.002" },
      ],
      touches: [
        { id: "a", element: "left", travelling: "+X", tool: "thin", readings: "-101.002", y: first },
        { id: "b", element: "left", travelling: "+X", tool: "thick", readings: "-104.000", y: second },
      ],
      strategies: [{ id: "corner", touches: ["a"] }],
    }),
  );
  if (!location.thisPart.ok) throw new Error("not located");
  return location.thisPart.value;
}

describe("the turn of a part", () => {
  // At one place there is nothing to turn by: a turn of 0.036 rad would bring the two tools together, and be made up.
  it("is not made of what two tools at one place disagree by", () => {
    for (const second of ["20", "20.1"]) {
      const part = touched("20", second);
      expect(part.turnsByTouches).toBe(false);
      expect(part.rotation.value).toBe(0);
      expect(part.origin[0].value).toBeCloseTo(-100.001, 9);
    }
  });

  // The face's points are -100.002 at 20 and -100 at 60: atan(0.002 / 40), against the clock where it lies farther right at the far end.
  it("is told by two places of a face", () => {
    const part = touched("20", "60");
    expect(part.turnsByTouches).toBe(true);
    expect(part.rotation.value).toBeCloseTo(-0.002 / 40, 8);
  });
});
