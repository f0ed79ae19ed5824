import type { TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { nameOf } from "../../../lib/ledger/cellNames.ts";
import { cellSourceId } from "../../../lib/ledger/cellSource.ts";
import { keyOf } from "../../inputs/rows.ts";

/**
 * The doubt of a row of a free table goes by the row's number. What is supposed of it follows the row where rows came, went or changed places; of a row
 * that is gone nothing is supposed any more. Nothing else names rows.
 */
export function followRowSources(before: SetupDocument, after: SetupDocument): SetupDocument {
  if (after.whatIf.length === 0 || after.ledger === before.ledger) return after;
  const tables = new Map(before.ledger.flatMap((block) => (block.kind === "table" ? [[keyOf(block), block] as const] : [])));
  const renames = new Map<string, string | undefined>();
  for (const block of after.ledger) {
    const old = block.kind === "table" ? tables.get(keyOf(block)) : undefined;
    if (block.kind === "table" && old !== undefined && old.rows !== block.rows) noteMoves(old, block, renames);
  }
  if (renames.size === 0) return after;
  const whatIf = after.whatIf.flatMap((entry) => {
    if (!renames.has(entry.source)) return [entry];
    const source = renames.get(entry.source);
    return source === undefined ? [] : [{ ...entry, source }];
  });
  return { ...after, whatIf };
}

function noteMoves(old: TableBlock, block: TableBlock, renames: Map<string, string | undefined>): void {
  const places = new Map(block.rows.map((row, i) => [keyOf(row), i + 1]));
  old.rows.forEach((row, i) => {
    const place = places.get(keyOf(row));
    if (place === i + 1) return;
    for (const { id } of old.columns) {
      const name = cellSourceId(nameOf(old.id, id));
      renames.set(`${name} ${i + 1}`, place === undefined ? undefined : `${name} ${place}`);
    }
  });
}
