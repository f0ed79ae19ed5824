import { failure, type Outcome, success } from "../base/outcome.ts";
import { parseCellName } from "../formula/cellName.ts";
import { renameInText } from "../formula/renameInText.ts";
import { nameOf } from "../ledger/cellNames.ts";
import { mapFormulas } from "./mapFormulas.ts";
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
  if (clash !== undefined)
    return failure({
      at: "",
      what: `something else is called "${clash}"`,
      expected: "a name of its own",
      got: to,
      remedy: "choose another name",
    });
  const renamed = {
    ...document,
    ledger: document.ledger.map((each) => (each === block ? { ...block, id: name.value } : each)),
  };
  return success(mapFormulas(renamed, (text) => renames.reduce((changed, [old, next]) => renameInText(changed, old, next), text)));
}

/** Every name that the blocks give: of cells, of tables and of their columns. */
export function namesOfBlocks(blocks: SetupDocument["ledger"]): string[] {
  return blocks.flatMap((block) => {
    if (block.kind === "cell") return [block.id];
    return block.kind === "table" ? [block.id, ...block.columns.map(({ id }) => nameOf(block.id, id))] : [];
  });
}
