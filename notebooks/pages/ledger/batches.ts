import { html, setChildren } from "../../inputs/html.ts";

/** A block on the page. */
export interface PlacedBlock {
  /** By which it is known as long as it is there: a number at its end, given in the order in which blocks come to be. */
  readonly key: string;
  readonly element: HTMLElement;
  /** How high it is taken to be before it has been in sight, px. */
  readonly height: number;
}

/** So many blocks are laid out and drawn together where they have come one after the other. */
const usualSize = 16;
/** However their keys fall. */
const largestSize = 3 * usualSize;

/**
 * Thousands of blocks in batches, of which the browser lays out and draws those near the window: it would have to watch every block by itself
 * with every frame.
 *
 * Where a batch ends is told by the keys of the blocks, so that one that comes, goes or moves leaves all other batches as they are.
 */
export class Batches {
  readonly element = html("div");
  private readonly boxes = new Map<string, HTMLElement>();
  private shown: readonly PlacedBlock[] = [];

  /** Moves as few as possible: what has the focus stays where it is. */
  show(blocks: readonly PlacedBlock[]): void {
    if (blocks.length === this.shown.length && blocks.every(({ element }, i) => element === this.shown[i]?.element)) return;
    this.shown = blocks;
    const batches = batchesOf(blocks);
    for (const name of [...this.boxes.keys()]) if (!batches.has(name)) this.boxes.delete(name);
    setChildren(
      this.element,
      [...batches].map(([name, batch]) => this.filled(name, batch)),
    );
  }

  private filled(name: string, batch: readonly PlacedBlock[]): HTMLElement {
    const box = this.boxes.get(name) ?? html("div", { class: "batch" });
    this.boxes.set(name, box);
    box.style.setProperty("--height", `${batch.reduce((sum, { height }) => sum + height, 0)}px`);
    setChildren(
      box,
      batch.map(({ element }) => element),
    );
    return box;
  }
}

/** By the key of the last block of each; what is left over behind the last of them goes by no key, because more may come. */
function batchesOf(blocks: readonly PlacedBlock[]): ReadonlyMap<string, readonly PlacedBlock[]> {
  const batches = new Map<string, PlacedBlock[]>();
  let batch: PlacedBlock[] = [];
  for (const block of blocks) {
    batch.push(block);
    if (!endsBatch(block.key) && batch.length < largestSize) continue;
    batches.set(block.key, batch);
    batch = [];
  }
  if (batch.length > 0) batches.set("", batch);
  return batches;
}

function endsBatch(key: string): boolean {
  return Number(/\d+$/.exec(key)?.[0]) % usualSize === 0;
}
