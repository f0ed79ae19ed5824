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

/** A column of a free table with nothing stated besides. */
export function column(id: string, more: Partial<TableBlock["columns"][number]> = {}): TableBlock["columns"][number] {
  return { id, unit: "", formula: "", decimals: "", evidence: "stated", family: "process", ...more };
}

/** A free table with nothing stated besides its entries. */
export function table(id: string, columns: readonly string[], rows: readonly (readonly string[])[]): TableBlock {
  return {
    kind: "table",
    id,
    columns: columns.map((id) => column(id)),
    rows: rows.map((row) => [...row]),
    note: "",
    hidden: false,
  };
}
