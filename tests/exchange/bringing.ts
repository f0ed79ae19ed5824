import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { documentText } from "../../lib/document/documentText.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { bringIn, type ExchangeKind } from "../../lib/exchange/bringIn.ts";
import { type Proposal, takeLines } from "../../lib/exchange/proposal.ts";
import { documentOf } from "./demoEvaluations.ts";

/** A stored file of our own. */
export const sample = (name: string) => readFileSync(fileURLToPath(new URL(`samples/${name}`, import.meta.url)), "utf8");

/** A setup with something of everything that a text can name. */
export const touching = documentOf({
  format: "datumbook",
  version: 2,
  unit: "mm",
  part: {
    elements: [
      { id: "end", kind: "face", outward: "-X", datum: "A" },
      { id: "slot", kind: "face", outward: "+X", made: "here", x: "30" },
      { id: "bore", kind: "bore", diameter: "20", datum: "B" },
    ],
    characteristics: [{ id: "slot x", kind: "coordinate", of: "slot", axis: "X", tolerance: "±0.05" }],
  },
  tools: [{ id: "probe", kind: "touch probe" }],
  spacers: [{ id: "block 10" }],
  touches: [
    { id: "left", element: "end", travelling: "+X", tool: "probe" },
    { id: "round", element: "bore", travelling: "radial", tool: "probe" },
    { id: "known", element: "end", travelling: "+X", tool: "probe", readings: "-401.4" },
  ],
  strategies: [],
});

/** How the text was understood; a mistake of the test where it was refused. */
export function understood(text: string, document: SetupDocument = touching, kind?: ExchangeKind): Proposal {
  const proposal = bringIn(text, document, kind);
  if (!proposal.ok) throw new Error(JSON.stringify(proposal.problems));
  return proposal.value;
}

/** What was left out, and why. */
export const whys = ({ leftOut }: Proposal) => leftOut.map(({ at, what }) => `${at}: ${what}`);
/** Everything taken; what comes of it must be a setup that the reader of setups takes. */
export function taken(proposal: Proposal, document: SetupDocument = touching): SetupDocument {
  const changed = takeLines(document, proposal.lines);
  expect(parseDocument(documentText(changed))).toMatchObject({ ok: true });
  return changed;
}
