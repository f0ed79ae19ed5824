import { beforeEach, describe, expect, it } from "vitest";
import { Batches } from "../../../../notebooks/pages/ledger/batches.ts";

/** Numbered as blocks of a notebook are that has just been opened. */
const blocksUpTo = (count: number) => Array.from({ length: count }, (_, i) => block(i + 1));
const block = (number: number, height = 34) => ({
  key: `row-${number}`,
  element: Object.assign(document.createElement("input"), { name: String(number) }),
  height,
});

let batches = new Batches();
beforeEach(() => {
  batches = new Batches();
  document.body.replaceChildren(batches.element);
});
const boxes = () => [...batches.element.children] as HTMLElement[];
const shown = () => [...document.querySelectorAll("input")].map(({ name }) => Number(name));

describe("Batches", () => {
  it("holds thousands of blocks in their order, in a small share of that many boxes, each as high as what it is to hold", () => {
    const blocks = blocksUpTo(2000);
    batches.show(blocks);
    expect(shown()).toEqual(Array.from({ length: 2000 }, (_, i) => i + 1));
    expect(boxes().length).toBeLessThan(200);
    const heights = boxes().map(({ style, childElementCount }) => [style.getPropertyValue("--height"), `${34 * childElementCount}px`]);
    for (const [told, held] of heights) expect(told).toBe(held);
  });

  it("leaves all batches but one as they are where a block comes, goes, or moves within its own", () => {
    const blocks = blocksUpTo(320);
    batches.show(blocks);
    const before = boxes().map((box) => ({ box, children: [...box.children] }));
    const touched = (next: ReturnType<typeof blocksUpTo>) => {
      batches.show(next);
      expect(shown()).toEqual(next.map(({ element }) => Number(element.name)));
      return before.filter(({ box, children }) => !box.isConnected || children.some((child, i) => box.children[i] !== child)).length;
    };
    expect(touched(blocks.toSpliced(100, 0, block(10_001)))).toBeLessThanOrEqual(1);
    expect(touched(blocks.toSpliced(100, 1))).toBeLessThanOrEqual(1);
    const [one, other] = [blocks[100], blocks[101]];
    expect(touched(blocks.toSpliced(100, 2, other as (typeof blocks)[0], one as (typeof blocks)[0]))).toBeLessThanOrEqual(1);
    expect(touched(blocks)).toBe(0);
  });

  it("keeps the focus where a block comes before the one that has it", () => {
    const blocks = blocksUpTo(100);
    batches.show(blocks);
    blocks[50]?.element.focus();
    batches.show(blocks.toSpliced(10, 0, block(10_001)));
    expect(document.activeElement).toBe(blocks[50]?.element);
  });

  it("ends a batch somewhere, however the numbers of the blocks fall", () => {
    batches.show(Array.from({ length: 500 }, (_, i) => block(16 * i + 1)));
    expect(Math.max(...boxes().map(({ childElementCount }) => childElementCount))).toBeLessThan(100);
    expect(shown().length).toBe(500);
  });

  it("leaves nothing behind of blocks that are gone", () => {
    batches.show(blocksUpTo(40));
    batches.show([]);
    expect(boxes()).toEqual([]);
  });
});
