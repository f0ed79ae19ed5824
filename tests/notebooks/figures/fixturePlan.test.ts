import { describe, expect, it } from "vitest";
import { evaluateSetup } from "../../../lib/evaluateSetup.ts";
import { fixturePlan } from "../../../notebooks/figures/fixturePlan.ts";
import { fixturePlanTable } from "../../../notebooks/figures/fixturePlanTable.ts";
import { held, located, pinned } from "../../gallery/documents.ts";
import { drawn } from "./drawnFigure.ts";

function planOf(document: typeof located, contact: string) {
  const evaluation = evaluateSetup(document);
  const { root } = drawn((environment) =>
    fixturePlan(evaluation, { unit: evaluation.setup.unit, width: 520, id: "plan", contact }, environment),
  );
  const texts = Array.from(root.querySelectorAll("text"), ({ textContent }) => textContent ?? "");
  return { root, texts, all: texts.join(" "), description: root.querySelector("desc")?.textContent ?? "" };
}

describe("fixturePlan", () => {
  it("names every locator once, and says what is drawn and how much larger", () => {
    const { texts, all, root } = planOf(located, "jaw, one end");
    for (const name of ["pad 1", "pad 2", "pad 3", "jaw", "end stop"]) expect(texts.filter((text) => text === name)).toHaveLength(1);
    // A rectangle of ± 0.01 and a seat of 0.002: √(0.01²/3 + 0.002²) = 0.0061.
    expect(all).toMatch(/moved by one standard uncertainty of jaw, one end, 0\.0061 mm, at Z 25, drawn × [125]\s?000\./);
    expect(root.querySelectorAll(".fig-moved")).toHaveLength(1);
  });

  it("tells how far the corners rise by a pad: the plane through one lift", () => {
    // Pad 2 at (140, 20), the others at (20, 20) and (80, 80): at (160, 0) the plane of a unit lift is (160 - 20)/120 - (0 - 20)/120 = 4/3,
    // at (0, 100) it is -20/120 - 80/120 = -5/6; the lift is √(0.005²/3 + 0.001² + 0.01²/12) = 0.00420.
    const { texts } = planOf(located, "pad 2");
    expect(texts).toContain("Z +0.0056");
    expect(texts).toContain("Z −0.0035");
  });

  it("draws no motion where a free one moves the part, and says so", () => {
    const { all, root, description } = planOf(held, "vee, one face");
    expect(all).toContain("No motion is drawn in X and Y: a motion that nothing holds moves the part there.");
    expect(root.querySelectorAll(".fig-moved")).toHaveLength(0);
    expect(description).toContain("Free: a turn about Z at X 0.0, Y 0.0.");
  });

  it("shows a contact that is taken not to touch as such, in the figure, its words and its table", () => {
    const { root, all, description } = planOf(pinned, "pad 4");
    expect(root.querySelectorAll(".fig-touch-lit")).toHaveLength(1);
    expect(all).toContain("pad 4 is taken not to touch: its error moves nothing.");
    expect(description).toContain("pad 4 at X −0.5, Y 3 holds along +Z and is taken not to touch");
    const { columns, rows } = fixturePlanTable(evaluateSetup(pinned), { unit: "inch" });
    const column = columns.indexOf("window X, per unit");
    expect(rows.find(([name]) => name === "pad 4")?.[column]).toBe("0");
  });
});
