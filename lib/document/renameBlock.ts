import { failure, type Outcome, success } from "../base/outcome.ts";
import { parseCellName } from "../formula/cellName.ts";
import { renameInText } from "../formula/renameInText.ts";
import { nameOf } from "../ledger/cellNames.ts";
import { cellSourceId, columnsOfLine, lineSourceId } from "../ledger/cellSource.ts";
import { namesInText, renameNames } from "./internals/renameNames.ts";
import type { LedgerBlock } from "./ledgerBlocks.ts";
import { mapSources } from "./mapSources.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** Names of what is no block, the quantities of the setup, each with what it is. */
export type NamesElsewhere = Pick<ReadonlyMap<string, string>, "has" | "get">;

type NamedBlock = Extract<LedgerBlock, { readonly id: string }>;

/**
 * The document with a cell or a free table of a person's own under another name, in its block and in every formula that names it. Refused: what
 * `checkBlockName` refuses, and a name that formulas of rows would take for a column beside them.
 */
export function renameBlock(document: SetupDocument, from: string, to: string, elsewhere: NamesElsewhere): Outcome<SetupDocument> {
  const block = document.ledger.find((each): each is NamedBlock => isNamed(each) && each.id === from);
  if (block === undefined) {
    const name = parseCellName(to);
    return name.ok ? success(document) : name;
  }
  const name = checkBlockName(document, block, to, elsewhere);
  if (!name.ok) return name;
  if (name.value === from) return success(document);
  const table = block.kind === "cell" ? tableWithColumn(document, from, name.value) : undefined;
  if (table !== undefined)
    return failure({
      at: "",
      what: `formulas of the rows of "${table}" name this cell, and call a column of theirs "${name.value}"`,
      expected: "a name that those formulas do not take for another",
      got: to,
      remedy: "choose another name, or give the column one",
    });
  const renamed = {
    ...document,
    ledger: document.ledger.map((each) => (each === block ? { ...block, id: name.value } : each)),
  };
  const olds = namesGivenBy(block);
  const news = namesGivenBy({ ...block, id: name.value });
  return success(olds.reduce((changed, old, i) => renameUses(changed, old, news[i] as string), renamed));
}

/**
 * The name as formulas spell it. Refused: a name that they cannot spell or that means something else there, and one that another cell, column or quantity
 * has, or that would give a column of the table such a name.
 */
export function checkBlockName(document: SetupDocument, block: NamedBlock, to: string, elsewhere: NamesElsewhere): Outcome<string> {
  const name = parseCellName(to);
  if (!name.ok || name.value === block.id) return name;
  const taken = takenNames(document, block, elsewhere);
  const own = taken(name.value);
  const next = { ...block, id: name.value };
  const clash = own === undefined ? namesGivenBy(next).find((each) => taken(each) !== undefined) : undefined;
  if (own === undefined && clash === undefined) return name;
  const isFree = (id: string) => [id, ...namesGivenBy({ ...block, id })].every((each) => taken(each) === undefined);
  return failure({
    at: "",
    what:
      own === undefined
        ? `a column of it would be called "${clash}", which is ${taken(clash as string)}`
        : `"${name.value}" is the name of something else: ${own}`,
    expected: "a name of its own",
    got: to,
    remedy: `choose another name, such as ${firstFree(name.value, isFree)}`,
  });
}

/** The same for one column of a free table; formulas of the table's own rows name it by its short name. */
export function renameColumn(
  document: SetupDocument,
  table: string,
  from: string,
  to: string,
  elsewhere: NamesElsewhere,
): Outcome<SetupDocument> {
  const name = parseCellName(to);
  if (!name.ok) return name;
  const block = document.ledger.find((each) => each.kind === "table" && each.id === table);
  if (block?.kind !== "table" || name.value === from || !block.columns.some(({ id }) => id === from)) return success(document);
  const [old, next] = [nameOf(table, from), nameOf(table, name.value)];
  const taken = takenNames(document, undefined, elsewhere);
  const describe = (id: string) =>
    block.columns.some((column) => column.id === id) ? `another column of "${table}"` : taken(nameOf(table, id));
  const other = describe(name.value);
  if (other !== undefined)
    return failure({
      at: "",
      what: `"${next}" is the name of something else: ${other}`,
      expected: "a name of its own",
      got: to,
      remedy: `choose another name, such as ${firstFree(name.value, (id) => describe(id) === undefined)}`,
    });
  const captured = block.columns.find(({ formula }) => namesInText(formula, name.value));
  if (captured !== undefined)
    return failure({
      at: "",
      what: `the formula of the column "${captured.id}" means something else by "${name.value}", and would take this column for it`,
      expected: "a name that the formulas of these rows do not use",
      got: to,
      remedy: `choose another name, such as ${firstFree(name.value, (id) => describe(id) === undefined)}`,
    });
  const columns = block.columns.map((column) => ({
    ...column,
    id: column.id === from ? name.value : column.id,
    formula: renameInText(column.formula, from, name.value),
  }));
  const renamed = { ...document, ledger: document.ledger.map((each) => (each === block ? { ...block, columns } : each)) };
  return success(renameUses(renamed, old, next));
}

/** What has a name already, in words; of blocks all but this one. */
function takenNames(
  document: SetupDocument,
  block: NamedBlock | undefined,
  elsewhere: NamesElsewhere,
): (name: string) => string | undefined {
  const others = new Map(
    document.ledger.flatMap((each): (readonly [string, string])[] => {
      if (!isNamed(each) || each === block) return [];
      const own = [each.id, each.kind === "cell" ? "another cell" : "a free table"] as const;
      return [own, ...(each.kind === "table" ? namesGivenBy(each).map((name) => [name, `a column of "${each.id}"`] as const) : [])];
    }),
  );
  return (name) => others.get(name) ?? (elsewhere.has(name) ? (elsewhere.get(name) ?? "a quantity of the setup") : undefined);
}

function firstFree(name: string, isFree: (name: string) => boolean): string {
  const stem = name.replace(/_\d+$/, "");
  for (let number = 2; ; number++) if (isFree(`${stem}_${number}`)) return `${stem}_${number}`;
}

/** A table of which a formula of the rows names `name` as something of elsewhere, and which has a column called `column`. */
function tableWithColumn({ ledger }: SetupDocument, name: string, column: string): string | undefined {
  for (const block of ledger) {
    if (block.kind !== "table") continue;
    const ids = new Set(block.columns.map(({ id }) => id));
    if (ids.has(column) && !ids.has(name) && block.columns.some(({ formula }) => namesInText(formula, name))) return block.id;
  }
  return undefined;
}

/** Every formula, and every entry that names its doubt. */
function renameUses(document: SetupDocument, from: string, to: string): SetupDocument {
  const renamed = renameNames(document, [[from, to]]);
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

function isNamed(block: LedgerBlock): block is NamedBlock {
  return block.kind === "cell" || block.kind === "table";
}

/** The names by which formulas know what a block holds. */
function namesGivenBy(block: NamedBlock): string[] {
  return block.kind === "cell" ? [block.id] : block.columns.map(({ id }) => nameOf(block.id, id));
}

/** Every name that the blocks give: of cells, of tables and of their columns. */
export function namesOfBlocks(blocks: SetupDocument["ledger"]): string[] {
  return blocks.flatMap((block) => {
    if (!isNamed(block)) return [];
    return block.kind === "cell" ? [block.id] : [block.id, ...namesGivenBy(block)];
  });
}
