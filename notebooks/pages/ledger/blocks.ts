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

/** Of lists of blocks, which never change: every edit asks several times. */
const places = new WeakMap<Blocks, ReadonlyMap<string, number>>();

export function indexOfBlock(blocks: Blocks, key: string | undefined): number {
  if (key === undefined) return -1;
  let known = places.get(blocks);
  if (known === undefined) {
    known = new Map(blocks.map((block, i) => [keyOf(block), i]));
    places.set(blocks, known);
  }
  return known.get(key) ?? -1;
}

/** The list with a block behind the one with this key, or at the end. */
export function insertAfter(blocks: Blocks, key: string | undefined, block: LedgerBlock): Blocks {
  const index = indexOfBlock(blocks, key);
  return blocks.toSpliced(index < 0 ? blocks.length : index + 1, 0, block);
}

/**
 * The list with a block moved up or down to the next place where that is seen and nothing is folded away or brought out by it; with a heading that is
 * folded up goes its whole group. The list itself where there is no such place.
 *
 * @param isShown whether a block that is not folded away is on the page
 */
export function moveBlock(blocks: Blocks, key: string, direction: -1 | 1, isShown: (block: LedgerBlock) => boolean): Blocks {
  const index = indexOfBlock(blocks, key);
  if (index < 0) return blocks;
  const moved = blocks.slice(index, index + lengthOfMoved(blocks, index));
  const rest = blocks.toSpliced(index, moved.length);
  const away = foldedAway(blocks);
  const seen = (list: Blocks) => list.filter((block) => !away.has(keyOf(block)) && isShown(block));
  const before = seen(blocks);
  for (let at = index + direction; at >= 0 && at <= rest.length; at += direction) {
    const after = rest.toSpliced(at, 0, ...moved);
    const awayAfter = foldedAway(after);
    const isFoldedAlike = awayAfter.size === away.size && [...away].every((each) => awayAfter.has(each));
    if (isFoldedAlike && seen(after).some((block, i) => block !== before[i])) return after;
  }
  return blocks;
}

function lengthOfMoved(blocks: Blocks, index: number): number {
  const block = blocks[index];
  if (block?.kind !== "heading" || !block.folded) return 1;
  const next = blocks.findIndex(({ kind }, i) => i > index && kind === "heading");
  return (next < 0 ? blocks.length : next) - index;
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
