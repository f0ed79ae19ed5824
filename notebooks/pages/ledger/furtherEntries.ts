import type { CellBlock } from "../../../lib/document/ledgerBlocks.ts";
import { families } from "../../../lib/uncertainty/source.ts";
import type { EntryOptions } from "./blockView.ts";

const evidences = ["stated", "certificate", "published", "shop default"] as const satisfies readonly CellBlock["evidence"][];

/** What is stated of a cell, or of a column, behind the disclosure. */
export const furtherEntries = {
  decimals: { kind: "text", label: "decimals", width: 4 },
  evidence: { kind: "choice", label: "doubt rests on", width: 12, choices: evidences },
  family: { kind: "choice", label: "family of its doubt", width: 12, choices: families },
} as const satisfies Partial<Record<keyof CellBlock, Omit<EntryOptions, "onEdit" | "formula">>>;
