import { expect, it } from "vitest";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { evaluateJob, openJob, rowOf } from "../documents/openJob.ts";

const summaryOf = (edit: (job: ReturnType<typeof openJob>) => void = () => {}) => {
  const job = openJob("locatedPlate");
  edit(job);
  return summaryText(evaluateJob(job)).replace(/\s+/g, " ");
};

it("the summary tells what the fixture holds, its clamps, its seat, and what locating alone does", () => {
  const summary = summaryOf();
  expect(summary).toContain("The locators hold all six motions of the part.");
  // By the lever: the clamp presses over the middle of the three pads.
  expect(summary).toContain("presses with these shares of its force: pad 1 0.33, pad 2 0.33 and pad 3 0.33.");
  // 1 - 19 + 18 - 2 µm, and √8 · 2 µm.
  expect(summary).toContain("Twist of the four touches -0.0020 mm (u 0.0057)");
  expect(summary).toContain("by locating alone");
});

it("a redundant locator is looked at again and withholds nothing", () => {
  const job = openJob("locatedPlate");
  job["fixture"].locators.push({ id: "pad 4", kind: "pad", element: "bottom", x: "80", y: "20" });
  const evaluation = evaluateJob(job);
  expect(evaluation.problems).toEqual([]);
  expect(summaryText(evaluation).replace(/\s+/g, " ")).toContain(
    'Look again: fixture.locators.pad 4: "pad 4" holds nothing that "pad 1" and "pad 2" do not hold already',
  );
});

it("a characteristic that a free motion moves is not known, and the reason stands at the locators", () => {
  const summary = summaryOf((job) => {
    job["fixture"].locators = job["fixture"].locators.filter(({ id }: { id: string }) => id !== "end stop");
  });
  expect(summary).toContain("fixture.locators: the locators hold 5 of the part's six motions, and leave free: a shift along X");
  expect(summary).toContain('"hole 1" by locating alone is not known');
});

it("a locator that cannot be read leaves nothing to be said of the fixture", () => {
  const evaluation = evaluateJob(
    (() => {
      const job = openJob("locatedPlate");
      rowOf(job["fixture"].locators, "jaw")["span"] = "wide";
      return job;
    })(),
  );
  expect(evaluation.fixture?.located.ok).toBe(false);
  expect(evaluation.problems.some(({ at }) => at === "fixture.locators.jaw.span")).toBe(true);
});

it("the plain data recompute the budget of a characteristic from its sources", () => {
  const { fixture, sources } = plainResults(evaluateJob(openJob("locatedPlate")));
  const located = fixture?.located;
  if (!located || "problems" in located) throw new Error("the fixture locates the plate");
  const [hole] = located.judgement.characteristics;
  if (!hole || !("components" in hole)) throw new Error("the hole is judged");
  for (const component of hole.components as { standardUncertainty: number; contributions: { source: string; sensitivity: number }[] }[]) {
    const variance = component.contributions.reduce((total, { source, sensitivity }) => {
      const found = sources.find(({ id }) => id === source);
      return total + (sensitivity * (found?.standardUncertainty ?? Number.NaN)) ** 2;
    }, 0);
    expect(Math.sqrt(variance)).toBeCloseTo(component.standardUncertainty, 12);
  }
});
