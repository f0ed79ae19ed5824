import { expect, it } from "vitest";
import { fixturePlan } from "../../../notebooks/figures/fixturePlan.ts";
import { setupSketch } from "../../../notebooks/figures/setupSketch.ts";
import { evaluateJob, type Job, openJob } from "../../documents/openJob.ts";
import { drawn } from "./drawnFigure.ts";

const options = { unit: "mm", width: 520, id: "figure" } as const;

function withHole(): Job {
  const job = openJob("viceZero");
  job["fixture"].locators.push({ id: "nest hole", kind: "tooling hole", x: "-40", y: "30", diameter: "8" });
  job["touches"].push({
    id: "in the hole",
    element: "nest hole",
    travelling: "+X",
    tool: "probe",
    readings: "-438.9965",
    x: "",
    y: "-220",
  });
  return job;
}

function textsOf(root: Element): string[] {
  return Array.from(root.querySelectorAll("text"), ({ textContent }) => textContent ?? "");
}

it("setupSketch draws what of the fixture was touched, with its name, and says what it is", () => {
  const evaluation = evaluateJob(withHole());
  const { root } = drawn((environment) => setupSketch(evaluation, "jaw and stop", options, environment));
  const titles = Array.from(root.querySelectorAll(".fig-fixture title"), ({ textContent }) => textContent);
  expect(titles).toEqual(["jaw, of the fixture", "stop, of the fixture", "nest hole, of the fixture"]);
  const texts = textsOf(root);
  for (const name of ["jaw", "stop", "nest hole", "jaw a", "jaw b", "on stop"]) expect(texts).toContain(name);
  expect(texts.join(" ")).toContain("Filled: of the fixture, touched before the part is in or beside it.");
});

it("fixturePlan tells which locators are touched, and draws a tooling hole that holds nothing", () => {
  const evaluation = evaluateJob(withHole());
  const { root } = drawn((environment) => fixturePlan(evaluation, options, environment));
  const texts = textsOf(root);
  for (const name of ["jaw, touched", "stop, touched", "nest hole, touched", "parallel left"]) expect(texts).toContain(name);
  expect(root.querySelector("desc")?.textContent).toContain("nest hole at X −40, Y 30 is a tooling hole and holds nothing.");
});
