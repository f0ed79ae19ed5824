import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import text from "../demo/bearingCover.json?raw";

/** The job on which the page opens: a bearing cover, second side. It comes with the page; the other examples are loaded when they are asked for. */
export function demoDocument(): SetupDocument {
  return jobFrom(text, "bearingCover");
}

/** A job of our own, as text: the same file that a person could open. */
export function jobFrom(written: string, name: string): SetupDocument {
  const parsed = parseDocument(written);
  if (!parsed.ok) throw new Error(`demo/${name}.json: ${parsed.problems[0]?.what}`);
  return parsed.value;
}
