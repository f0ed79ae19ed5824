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

/** The same with cells of a person's own: a length, an area, a ratio, an expansion, one that cannot be read, and a column. */
export const ownCells = documentOf({
  ...fewRepeats,
  ledger: [
    { kind: "cell", id: "shim", entry: "12.5 mm ± 0.004 mm" },
    { kind: "cell", id: "area", entry: "shim^2" },
    { kind: "cell", id: "ratio", entry: "shim / (25 mm)" },
    { kind: "cell", id: "rate", entry: "shim / (5 K)" },
    { kind: "cell", id: "gap", entry: "one_face - shim" },
    { kind: "cell", id: "wrong", entry: "shim + 1 K" },
    { kind: "table", id: "gauge", columns: [{ id: "length" }], rows: [["5 mm ± 0.001 mm"]] },
  ],
});

/** The same with a shim that is only supposed. */
export const supposing = documentOf({
  ...ownCells,
  ledger: ownCells.ledger.map((block) =>
    block.kind === "cell" && block.id === "shim" ? { ...block, instead: "13 mm ± 0.004 mm" } : block,
  ),
});

/** The same setup with one free table called `gauge`. */
export function withTable(
  columns: readonly { readonly id: string; readonly formula?: string }[],
  rows: readonly (readonly string[])[],
): SetupDocument {
  return documentOf({ ...fewRepeats, ledger: [{ kind: "table", id: "gauge", columns, rows }] });
}
