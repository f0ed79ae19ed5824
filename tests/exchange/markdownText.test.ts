import { expect, it } from "vitest";
import { markdownText } from "../../lib/exchange/markdownText.ts";

// GitHub Flavored Markdown, 4.10 (tables): a row of names, a row of hyphens (a colon at the right for right-aligned), rows of the same number of cells.
it("markdownText writes a heading and a table of pipes, numbers to the right and as they should be read", () => {
  const text = markdownText([{ title: "Results", columns: ["name", "value"], rows: [["left", { number: 1 / 3, shown: "0.33" }]] }]);
  expect(text).toBe("## Results\n\n| name | value |\n| --- | ---: |\n| left | 0.33 |\n");
});

// CommonMark, 2.4: any ASCII punctuation may be escaped by a backslash. 6.6: raw HTML begins with `<`.
it.each([
  ["a|b", "a\\|b"],
  ["<img src=x onerror=alert(1)>", "\\<img src=x onerror=alert(1)\\>"],
  ["*bold* `code` [link](x)", "\\*bold\\* \\`code\\` \\[link\\](x)"],
  ["two\nlines", "two lines"],
  ["back\\slash", "back\\\\slash"],
])("markdownText keeps %j one cell that means nothing else", (typed, written) => {
  expect(markdownText([{ title: "t", columns: ["a"], rows: [[typed]] }])).toContain(`| ${written} |`);
});
