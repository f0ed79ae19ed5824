import { failure, type Outcome, success } from "../base/outcome.ts";
import { parseCellName } from "../formula/cellName.ts";
import { renameInText } from "../formula/renameInText.ts";
import { nameOf } from "../ledger/cellNames.ts";
import { cellSourceId, columnsOfLine, lineSourceId } from "../ledger/cellSource.ts";
import { isClassEntry } from "./internals/isClassEntry.ts";
import { mapFormulas } from "./mapFormulas.ts";
import { mapSources } from "./mapSources.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * The document with a cell or a free table of a person's own under another name, in its block and in every formula that names it. Refused: a name that
 * formulas cannot spell or that means something else there, and one that another cell, column or quantity has.
 *
 * @param elsewhere names of what is no block: the quantities of the setup
 */
export function renameBlock(document: SetupDocument, from: string, to: string, elsewhere: ReadonlySet<string>): Outcome<SetupDocument> {
  const name = parseCellName(to);
  if (!name.ok) return name;
  const block = document.ledger.find((each) => (each.kind === "cell" || each.kind === "table") && each.id === from);
  if (block === undefined || name.value === from) return success(document);
  const ids = block.kind === "table" ? block.columns.map(({ id }) => id) : [];
  const renames: readonly (readonly [string, string])[] =
    block.kind === "table" ? ids.map((id) => [nameOf(from, id), nameOf(name.value, id)] as const) : [[from, name.value]];
  const taken = new Set([...namesOfBlocks(document.ledger.filter((each) => each !== block)), ...elsewhere]);
  const clash = [name.value, ...renames.map(([, next]) => next)].find((next) => taken.has(next));
  if (clash !== undefined) return refuseTaken(clash, to);
  const renamed = {
    ...document,
    ledger: document.ledger.map((each) => (each === block ? { ...block, id: name.value } : each)),
  };
  return success(renames.reduce((changed, [old, next]) => renameUses(changed, old, next), renamed));
}

/** The same for one column of a free table; formulas of the table's own rows name it by its short name. */
export function renameColumn(
  document: SetupDocument,
  table: string,
  from: string,
  to: string,
  elsewhere: ReadonlySet<string>,
): Outcome<SetupDocument> {
  const name = parseCellName(to);
  if (!name.ok) return name;
  const block = document.ledger.find((each) => each.kind === "table" && each.id === table);
  if (block?.kind !== "table" || name.value === from || !block.columns.some(({ id }) => id === from)) return success(document);
  const [old, next] = [nameOf(table, from), nameOf(table, name.value)];
  const isTaken = namesOfBlocks(document.ledger).includes(next) || elsewhere.has(next);
  if (isTaken || block.columns.some(({ id }) => id === name.value)) return refuseTaken(next, to);
  const columns = block.columns.map((column) => ({
    ...column,
    id: column.id === from ? name.value : column.id,
    formula: renameInText(column.formula, from, name.value),
  }));
  const renamed = { ...document, ledger: document.ledger.map((each) => (each === block ? { ...block, columns } : each)) };
  return success(renameUses(renamed, old, next));
}

function refuseTaken(name: string, got: string): Outcome<never> {
  const what = `something else is called "${name}"`;
  return failure({ at: "", what, expected: "a name of its own", got, remedy: "choose another name" });
}

/** Every formula, and every entry that names its doubt. */
function renameUses(document: SetupDocument, from: string, to: string): SetupDocument {
  const renamed = mapFormulas(document, (text, place) =>
    text.includes(from) && !isClassEntry(text, place) ? renameInText(text, from, to) : text,
  );
  const own = cellSourceId(from);
  // The doubt of a cell goes by the cell's name, that of a row of a column by the column's and its number.
  const isOwn = (source: string) => source === own || (source.startsWith(`${own} `) && /^\d+$/.test(source.slice(own.length + 1)));
  const other = (name: string) => (name === from ? to : name);
  return mapSources(renamed, (source) => {
    if (isOwn(source)) return `${cellSourceId(to)}${source.slice(own.length)}`;
    const line = columnsOfLine(source);
    return line ? `${lineSourceId(other(line.places), other(line.values))}${line.rest}` : source;
  });
}

/** Every name that the blocks give: of cells, of tables and of their columns. */
export function namesOfBlocks(blocks: SetupDocument["ledger"]): string[] {
  return blocks.flatMap((block) => {
    if (block.kind === "cell") return [block.id];
    return block.kind === "table" ? [block.id, ...block.columns.map(({ id }) => nameOf(block.id, id))] : [];
  });
}
