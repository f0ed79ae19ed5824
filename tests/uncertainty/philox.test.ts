import { describe, expect, it } from "vitest";
import { philox } from "../../lib/uncertainty/philox.ts";

function words(counter: readonly [number, number, number, number], key: readonly [number, number]): string[] {
  const result = new Uint32Array(4);
  philox(counter, key, result);
  return [...result].map((word) => word.toString(16).padStart(8, "0"));
}

const all = 0xffffffff;

describe("philox", () => {
  // Known answers of the Random123 distribution (kat_vectors, philox 4x32 10): values from memory, recomputed by tests/reference/philox.py.
  it.each([
    [
      [0, 0, 0, 0],
      [0, 0],
      ["6627e8d5", "e169c58d", "bc57ac4c", "9b00dbd8"],
    ],
    [
      [all, all, all, all],
      [all, all],
      ["408f276d", "41c83b0e", "a20bc7c6", "6d5451fd"],
    ],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      [0xa4093822, 0x299f31d0],
      ["d16cfe09", "94fdcceb", "5001e420", "24126ea1"],
    ],
  ] as const)("philox(%j, %j) gives the published words", (counter, key, expected) => {
    expect(words(counter, key)).toEqual(expected);
  });

  it("philox(...) gives other words for any one bit of counter or key", () => {
    const seen = new Set([words([0, 0, 0, 0], [0, 0]).join()]);
    for (let bit = 0; bit < 192; bit++) {
      const input = [0, 0, 0, 0, 0, 0];
      input[bit >> 5] = (1 << (bit & 31)) >>> 0;
      const [a, b, c, d, k, l] = input as [number, number, number, number, number, number];
      seen.add(words([a, b, c, d], [k, l]).join());
    }
    expect(seen.size).toBe(193);
  });
});
