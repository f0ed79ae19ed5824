import { readFileSync } from "node:fs";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { must } from "../properties/setups.ts";

interface Row {
  id: string;
  [entry: string]: string;
}

/** The plate with a sawn end, with room for checks and events. */
export interface Plate {
  tools: Row[];
  touches: Row[];
  checks: Row[];
  checkMoves: Row[];
  events: Row[];
  slipChances: Row[];
}

const text = readFileSync(new URL("../acceptance/plateWithSawnEnd.json", import.meta.url), "utf8");

export function plateDocument(change: (plate: Plate) => void): SetupDocument {
  const plate: Plate = { checks: [], checkMoves: [], events: [], slipChances: [], ...JSON.parse(text) };
  change(plate);
  return must(checkDocument(plate));
}

const travels: Readonly<Record<string, string>> = { left: "+X", right: "-X", front: "+Y", back: "-Y" };

/** A check of a face of the plate with the edge finder. */
export function typedCheck(element: string, readings: string): Row {
  return { id: element, element, travelling: travels[element] ?? "-Z", tool: "edge finder", readings };
}
