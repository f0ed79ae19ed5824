import type { CellBlock } from "../../lib/document/ledgerBlocks.ts";

/** A cell with nothing stated besides. */
export function cell(id: string, entry: string, more: Partial<CellBlock> = {}): CellBlock {
  return {
    kind: "cell",
    id,
    entry,
    instead: "",
    evidence: "stated",
    family: "process",
    unit: "",
    decimals: "",
    note: "",
    hidden: false,
    ...more,
  };
}
