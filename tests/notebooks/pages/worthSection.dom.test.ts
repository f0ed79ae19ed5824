import { expect, it } from "vitest";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { WorthSection } from "../../../notebooks/pages/worthSection.ts";
import { documentFrom } from "../../properties/setups.ts";
import { sheetResultsOf } from "../../support/sheetResults.ts";

/** A left face touched three times by one tool and, `off` mm away, once by another that scatters more and is better calibrated. */
function twoTools(off: number): SetupDocument {
  const touch = (id: string, tool: string, reading: number) => ({
    id,
    element: "left",
    travelling: "+X",
    tool,
    readings: String(reading),
    y: "0",
  });
  return documentFrom({
    part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "C" }] },
    tools: [
      { id: "A", kind: "touch probe", radius: "2", radiusUncertainty: "0.008", scatter: "0.002", touchMinutes: "0.5" },
      { id: "B", kind: "touch probe", radius: "2", radiusUncertainty: "0.001", scatter: "0.006" },
    ],
    touches: [touch("a1", "A", -2), touch("a2", "A", -2.001), touch("a3", "A", -1.999), touch("b", "B", -2 + off)],
    strategies: [
      { id: "both", touches: ["a1", "a2", "a3", "b"] },
      { id: "one", touches: ["a1"] },
    ],
    chosen: "both",
  });
}

function shown(document: SetupDocument): { rows: string[][]; legend: string | null | undefined } {
  const section = new WorthSection();
  section.show(sheetResultsOf(document, "batch"));
  const rows = [...section.element.querySelectorAll("tbody tr")].map((row) =>
    [...row.children].map(({ textContent }) => textContent ?? ""),
  );
  return { rows, legend: section.element.querySelector(".hint")?.textContent };
}

// By hand: the mean of four weighs the first tool's radius with 3/4, so u = √(3·0.002² + 0.006² + (3·0.008)² + 0.001²)/4 = 0.0063;
// at best inverse variances: 0.008² + 0.002²/3 against 0.001² + 0.006² give 0.0049.
it("a strategy stands with its touches, its time, and what the same touches could give at best", () => {
  const { rows, legend } = shown(twoTools(0.004));
  const both = rows.find(([name]) => name === "both");
  expect(both?.slice(0, 5)).toEqual(["both", "4", "1.8 *", "0.0063 → 0.0049", "–"]);
  expect(rows.find(([name]) => name === "one")?.slice(0, 4)).toEqual(["one", "1", "0.5", "0.0082"]);
  expect(legend).toContain("generalised least squares");
  expect(legend).toContain("* minutes by shop defaults");
});

it("touches that disagree are marked and not combined", () => {
  const { rows, legend } = shown(twoTools(0.2));
  expect(rows.find(([name]) => name === "both")?.[3]).toMatch(/^0\.006\d †$/);
  expect(legend).toContain("† its touches disagree");
});

it("nothing old stays where there are no results", () => {
  const section = new WorthSection();
  section.show(undefined);
  expect(section.element.hidden).toBe(true);
  expect(section.element.querySelectorAll("tbody tr")).toHaveLength(0);
});
