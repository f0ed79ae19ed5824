import { blankEntries } from "../../../lib/document/blankEntries.ts";
import type { CellBlock, LedgerBlock, TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { nameOf } from "../../../lib/ledger/cellNames.ts";
import { changeRow, keyOf } from "../../inputs/rows.ts";

/** What a person writes beside the setup, in the order in which it stands there. Blocks are told apart by `keyOf`. */
export type Blocks = SetupDocument["ledger"];
export type BlockKind = LedgerBlock["kind"];
export type BlockOf<K extends BlockKind> = Extract<LedgerBlock, { kind: K }>;

/** A block in which nothing is written yet; cells and tables get a name that is still free. */
export function blankBlock(kind: BlockKind, isTaken: (name: string) => boolean): LedgerBlock {
  let number = 1;
  while (isTaken(`${kind}_${number}`)) number += 1;
  return blankEntries.block(kind, `${kind}_${number}`);
}

export function indexOfBlock(blocks: Blocks, key: string | undefined): number {
  return blocks.findIndex((block) => keyOf(block) === key);
}

/** The list with a block behind the one with this key, or at the end. */
export function insertAfter(blocks: Blocks, key: string | undefined, block: LedgerBlock): Blocks {
  const index = indexOfBlock(blocks, key);
  return blocks.toSpliced(index < 0 ? blocks.length : index + 1, 0, block);
}

/** The list with a block moved by a number of places; the list itself where it cannot move so far. */
export function moveBlock(blocks: Blocks, key: string, by: number): Blocks {
  const index = indexOfBlock(blocks, key);
  const block = blocks[index];
  if (block === undefined || index + by < 0 || index + by >= blocks.length) return blocks;
  return blocks.toSpliced(index, 1).toSpliced(index + by, 0, block);
}

export function removeBlock(blocks: Blocks, key: string): Blocks {
  const index = indexOfBlock(blocks, key);
  return index < 0 ? blocks : blocks.toSpliced(index, 1);
}

/** The list with some entries of a block changed; the list itself if they are what they were. */
export function changeBlock<B extends LedgerBlock>(blocks: Blocks, key: string, changes: Partial<Omit<B, "kind">>): Blocks {
  const index = indexOfBlock(blocks, key);
  const block = blocks[index];
  if (block === undefined) return blocks;
  const changed = changeRow<LedgerBlock>(block, changes as Partial<LedgerBlock>);
  return changed === block ? blocks : blocks.with(index, changed);
}

/** What formulas call a block: its name, or those of its columns. */
export function namesOfBlock(block: LedgerBlock): readonly string[] {
  if (block.kind === "cell") return [block.id];
  return block.kind === "table" ? block.columns.map(({ id }) => nameOf(block.id, id)) : [];
}

/** Keys of the blocks that lie in a group that is folded up: those behind its heading, up to the next one. */
export function foldedAway(blocks: Blocks): ReadonlySet<string> {
  const away = new Set<string>();
  let isFolded = false;
  for (const block of blocks) {
    if (block.kind === "heading") isFolded = block.folded;
    else if (isFolded) away.add(keyOf(block));
  }
  return away;
}

export function isHidden(block: LedgerBlock): block is CellBlock | TableBlock {
  return (block.kind === "cell" || block.kind === "table") && block.hidden;
}

/** A name for a column that no other of its table has. */
export function freeColumnName({ columns }: TableBlock): string {
  let number = columns.length + 1;
  while (columns.some(({ id }) => id === `column_${number}`)) number += 1;
  return `column_${number}`;
}
