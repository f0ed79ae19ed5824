import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { type DocumentEvaluation, evaluateSetup } from "../../lib/evaluateSetup.ts";

const folder = fileURLToPath(new URL("../../notebooks/demo/", import.meta.url));

/** The jobs of the demo, by the names of their files. */
export const demoNames: readonly string[] = readdirSync(folder)
  .filter((name) => name.endsWith(".json"))
  .map((name) => name.replace(".json", ""));

export function demoFile(name: string): string {
  return `${folder}${name}.json`;
}

export function demoOf(name: string): SetupDocument {
  return documentOf(JSON.parse(readFileSync(demoFile(name), "utf8")));
}

export function demoEvaluation(name: string): DocumentEvaluation {
  return evaluateSetup(demoOf(name));
}

/** @throws Error where the data is no setup */
export function documentOf(data: object): SetupDocument {
  const read = parseDocument(JSON.stringify(data));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/**
 * Two faces, one by a tool with few repeats and limits of its own, so that degrees of freedom are few and not whole, and two touches share one estimate of
 * the scatter.
 */
export const fewRepeats = documentOf({
  format: "datumbook",
  version: 2,
  title: "=1+1 few repeats & <little>",
  unit: "mm",
  part: {
    elements: [
      { id: "end", kind: "face", outward: "-X", datum: "A" },
      { id: "=far end", kind: "face", outward: "+X" },
    ],
    dimensions: [{ id: "length", from: "end", to: "=far end", axis: "X", nominal: "120", tolerance: "±0.03" }],
    characteristics: [{ id: "|long|", kind: "distance", of: "=far end", from: "end", axis: "X", tolerance: "±0.05" }],
  },
  tools: [
    { id: "pin", kind: "tool or pin", radius: "3", radiusUncertainty: "0.001", scatterFrom: "pooled repeats", eccentricity: "0.002" },
  ],
  touches: [
    { id: "one", element: "end", travelling: "+X", tool: "pin", readings: "10.003 10.001 10.006" },
    { id: "two", element: "=far end", travelling: "-X", tool: "pin", readings: "136.02 136.024" },
  ],
  strategies: [
    { id: "left", touches: ["one"] },
    { id: "both", touches: ["one", "two"] },
  ],
  chosen: "left",
});
