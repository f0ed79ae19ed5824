import fc from "fast-check";
import { expect, it } from "vitest";
import { joinSpans, RowHeights } from "../../../../notebooks/inputs/table/rowWindow.ts";

it("joinSpans(spans, count) holds each row of the spans once, in order, and none beyond the table", () => {
  const span = fc
    .tuple(fc.integer({ min: -5, max: 60 }), fc.integer({ min: 0, max: 20 }))
    .map(([from, length]) => ({ from, to: from + length }));
  fc.assert(
    fc.property(fc.array(span, { maxLength: 6 }), fc.nat(50), (spans, count) => {
      const wanted = new Set(spans.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i)));
      const expected = [...wanted].filter((index) => index >= 0 && index < count).sort((a, b) => a - b);
      const joined = joinSpans(spans, count);
      expect(joined.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i))).toEqual(expected);
      // Between two spans there is a gap.
      for (const [i, { from }] of joined.entries()) if (i > 0) expect(from).toBeGreaterThan(joined[i - 1]?.to ?? Number.POSITIVE_INFINITY);
    }),
  );
});

it("RowHeights finds every row where its measured height puts it", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 10, max: 90 }), { minLength: 1, maxLength: 40 }), (measured) => {
      const heights = new RowHeights();
      const keys = measured.map((_, i) => `row ${i}`);
      heights.setRows(keys);
      for (const [i, height] of measured.entries()) heights.measure(keys[i] as string, height);
      let start = 0;
      for (const [i, height] of measured.entries()) {
        expect(heights.startOf(i)).toBe(start);
        expect(heights.indexAt(start)).toBe(i);
        expect(heights.indexAt(start + height - 1)).toBe(i);
        start += height;
      }
      expect(heights.heightOf({ from: 0, to: measured.length })).toBe(start);
    }),
  );
});

it("RowHeights takes rows not measured to be as high as the mean of the others", () => {
  const heights = new RowHeights();
  heights.setRows(["a", "b", "c", "d"]);
  heights.measure("a", 20);
  heights.measure("c", 40);
  expect(heights.heightOf({ from: 0, to: 4 })).toBe(20 + 30 + 40 + 30);
  heights.measure("a", 30);
  expect(heights.startOf(2)).toBe(30 + 35);
});
