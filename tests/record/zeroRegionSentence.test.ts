import { expect, it } from "vitest";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { zeroRegionSentence } from "../../lib/record/zeroRegionSentence.ts";
import { evaluateJob, type Job } from "../documents/openJob.ts";

/** Two faces at a corner, each touched along its axis. */
function corner(tool: Job, readings: readonly [x: string, y: string] = ["10", "20"]): Job {
  return {
    format: "datumbook",
    version: 1,
    unit: "mm",
    part: {
      elements: [
        { id: "left", kind: "face", outward: "-X", datum: "A" },
        { id: "front", kind: "face", outward: "-Y", datum: "B" },
      ],
    },
    tools: [{ id: "pin", kind: "tool or pin", radius: "3", ...tool }],
    touches: [
      { id: "left", element: "left", travelling: "+X", tool: "pin", readings: readings[0] },
      { id: "front", element: "front", travelling: "+Y", tool: "pin", readings: readings[1] },
    ],
    strategies: [{ id: "corner", touches: ["left", "front"] }],
    chosen: "corner",
  };
}

function told(job: Job, unit: "mm" | "inch" = "mm") {
  const evaluation = evaluateJob(job);
  const found = evaluation.strategies[0]?.evaluation;
  if (!found?.ok) throw new Error("expected a strategy");
  return { words: zeroRegionSentence(found.value, unit), evaluation };
}

// k = √(-2 ln(1 - p)) = 2.486 for the circle, 2.273 for the square, from 2Φ(k) - 1 = √p with p = 95.45 % (scipy.stats.norm).
it("zeroRegionSentence(two normal readings alike) has the circle, the square, and that they hold as much as they say", () => {
  expect(told(corner({ radiusUncertainty: "0", scatter: "0.01" })).words).toBe(
    "Correlation of X and Y 0.00. Were all sources normal, zero would lie with 95.45 % in a circle of radius 0.025 mm, and with as much in the rectangle X ±0.023, Y ±0.023 mm. By the sources' own distributions the circle holds as much.",
  );
});

// The one radius moves both axes alike: 2 · 0.01 · √2 along 45°.
it("zeroRegionSentence(one shared source) has a line", () => {
  expect(told(corner({ radiusUncertainty: "0.01", scatter: "0" })).words).toBe(
    "Correlation of X and Y 1.00. Were all sources normal, zero would lie with 95.45 % on a line 45° from X towards +Y, within ±0.028 mm. By the sources' own distributions the line holds as much.",
  );
});

// Two t of 2 degrees of freedom within 2.486 of their scale: 0.7240304 (scipy.integrate.quad over scipy.stats.t).
it("zeroRegionSentence(few repeats) says that the circle holds less than a normal one, and plainResults has the number", () => {
  const { words, evaluation } = told(
    corner({ radiusUncertainty: "0", scatterFrom: "own repeats" }, ["10 10.001 10.002", "20 20.001 20.002"]),
  );
  expect(words).toContain("By the sources' own distributions the circle holds 72.40 %.");
  const [strategy] = JSON.parse(JSON.stringify(plainResults(evaluation))).strategies;
  expect(strategy.regions.ellipse.coverage.chance).toBeCloseTo(0.7240304, 6);
  expect(summaryText(evaluation).replaceAll(/\s+/g, " ")).toContain(words);
});
