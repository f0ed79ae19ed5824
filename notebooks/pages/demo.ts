import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { jobFrom } from "./firstJob.ts";

/** Setups of our own, as text. */
const texts = import.meta.glob<string>("../demo/*.json", { query: "?raw", import: "default", eager: true });

/** A job that shows one thing; its note says what. */
export function exampleDocument(name: ExampleName): SetupDocument {
  return jobFrom(texts[`../demo/${name}.json`] ?? "", name);
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
