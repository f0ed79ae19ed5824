import { failure, type Outcome, success } from "../../../lib/base/outcome.ts";
import type { TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import { mapFormulas } from "../../../lib/document/mapFormulas.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { parseCellName } from "../../../lib/formula/cellName.ts";
import { renameInText } from "../../../lib/formula/renameInText.ts";
import { checkName, nameOf } from "../../../lib/ledger/cellNames.ts";
import { changeRow } from "../../inputs/rows.ts";
import { type Blocks, indexOfBlock, namesOfBlock } from "./blocks.ts";

/** Names that the setup's own results have, which a cell of the same name would hide. */
export interface NamesElsewhere {
  has(name: string): boolean;
}

/**
 * The document with a cell or a free table renamed, and with it every formula that names it; refused where formulas could not spell the name, or
 * would understand something else by it.
 */
export function renameBlock(document: SetupDocument, key: string, typed: string, elsewhere: NamesElsewhere): Outcome<SetupDocument> {
  const block = document.ledger[indexOfBlock(document.ledger, key)];
  if (block?.kind !== "cell" && block?.kind !== "table") return success(document);
  if (typed.trim() === block.id) return success(document);
  const to = parseCellName(typed);
  if (!to.ok) return to;
  const renamed = changeRow(block, { id: to.value });
  return replaced(document, key, namesOfBlock(block), namesOfBlock(renamed), elsewhere, (blocks, index) => blocks.with(index, renamed));
}

/** The same for one column of a free table; the formulas of its rows go by the column's own short name. */
export function renameColumn(
  document: SetupDocument,
  key: string,
  column: number,
  typed: string,
  elsewhere: NamesElsewhere,
): Outcome<SetupDocument> {
  const block = document.ledger[indexOfBlock(document.ledger, key)];
  const from = block?.kind === "table" ? block.columns[column]?.id : undefined;
  if (block?.kind !== "table" || from === undefined || typed.trim() === from) return success(document);
  const to = parseCellName(typed);
  if (!to.ok) return to;
  if (block.columns.some(({ id }) => id === to.value)) return clash(to.value, "another column of this table");
  const columns = block.columns.map((each, i) => ({
    ...each,
    id: i === column ? to.value : each.id,
    formula: renameInText(each.formula, from, to.value),
  }));
  const renamed = changeRow<TableBlock>(block, { columns });
  return replaced(document, key, namesOfBlock(block), namesOfBlock(renamed), elsewhere, (blocks, index) => blocks.with(index, renamed));
}

function replaced(
  document: SetupDocument,
  key: string,
  before: readonly string[],
  after: readonly string[],
  elsewhere: NamesElsewhere,
  change: (blocks: Blocks, index: number) => Blocks,
): Outcome<SetupDocument> {
  const index = indexOfBlock(document.ledger, key);
  const others = document.ledger.flatMap((block, i) => (i === index ? [] : namesOfBlock(block)));
  for (const name of after) {
    if (others.includes(name)) return clash(name, "another cell of the ledger");
    if (elsewhere.has(name)) return clash(name, "a result of the setup");
    const spelled = checkName(name);
    if (!spelled.ok) return spelled;
  }
  let renamed = { ...document, ledger: change(document.ledger, index) };
  for (const [i, from] of before.entries()) {
    const to = after[i] as string;
    // A name that two have says nothing about which of them is meant.
    if (from === to || others.includes(from)) continue;
    renamed = mapFormulas(renamed, (text) => (text.includes(from) ? renameInText(text, from, to) : text));
    renamed = { ...renamed, whatIf: renameSources(renamed.whatIf, from, to) };
  }
  return success(renamed);
}

/** The doubt of a cell is a source by the cell's name, that of a row of a column by the column's and its number. */
function renameSources(whatIf: SetupDocument["whatIf"], from: string, to: string): SetupDocument["whatIf"] {
  const own = `cell ${from}`;
  const isOwn = ({ source }: { readonly source: string }) => source === own || source.startsWith(`${own} `);
  if (!whatIf.some(isOwn)) return whatIf;
  return whatIf.map((entry) => (isOwn(entry) ? { ...entry, source: `cell ${to}${entry.source.slice(own.length)}` } : entry));
}

/** A name for a column that no other has. */
export function freeColumnName(table: TableBlock): string {
  let number = table.columns.length + 1;
  while (table.columns.some(({ id }) => id === `column_${number}`)) number += 1;
  return `column_${number}`;
}

/** Whether a name is had by a block or a result. */
export function isTakenIn(blocks: Blocks, elsewhere: NamesElsewhere): (name: string) => boolean {
  const names = new Set(blocks.flatMap((block) => [...namesOfBlock(block), ...(block.kind === "table" ? [nameOf(block.id)] : [])]));
  return (name) => names.has(name) || elsewhere.has(name);
}

function clash(name: string, whose: string): Outcome<never> {
  return failure({ at: "", what: `"${name}" is the name of ${whose}`, expected: "a name that nothing else has", got: name });
}
