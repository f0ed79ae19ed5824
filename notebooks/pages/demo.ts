import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";

/** Setups of our own, as text: the same files that a person could open. */
const texts = import.meta.glob<string>("../demo/*.json", { query: "?raw", import: "default", eager: true });

/** The job on which the page opens: a bearing cover, second side. */
export function demoDocument(): SetupDocument {
  return exampleDocument("bearingCover");
}

/** A job that shows one thing; its note says what. */
export function exampleDocument(name: ExampleName): SetupDocument {
  const parsed = parseDocument(texts[`../demo/${name}.json`] ?? "");
  if (!parsed.ok) throw new Error(`demo/${name}.json: ${parsed.problems[0]?.what}`);
  return parsed.value;
}

export const exampleNames = [
  "bearingCover",
  "sawnPlate",
  "skewedBlank",
  "turnedCasting",
  "nestOfFour",
  "bothSides",
  "plateOnPins",
  "jawAndStop",
] as const;
export type ExampleName = (typeof exampleNames)[number];
