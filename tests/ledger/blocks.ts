import type { CellBlock, TableBlock } from "../../lib/document/ledgerBlocks.ts";

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

/** A free table with nothing stated besides its entries. */
export function table(id: string, columns: readonly string[], rows: readonly (readonly string[])[]): TableBlock {
  return {
    kind: "table",
    id,
    columns: columns.map((column) => ({ id: column, unit: "", formula: "" })),
    rows: rows.map((row) => [...row]),
    note: "",
    hidden: false,
  };
}
