import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { cell, table } from "./blocks.ts";

const document = {
  ...newDocument(),
  ledger: [
    // Two walls of a slot touched from inside by a pin: the middle is their mean, its doubt u/√2 (JCGM 100:2008, 5.1.2).
    cell("left", "10.000 mm ± 0.003 mm"),
    cell("right", "30.000 mm ± 0.003 mm"),
    cell("middle", "(left + right) / 2", { unit: "um" }),
    table("pins", ["size"], [["6.001"], ["6.003"], ["6.002"]]),
    cell("spread", "max(pins_size) - min(pins_size)"),
    cell("slope", "(right - left) / 100 mm"),
  ],
};

describe("what a person has added", () => {
  it("is told in the summary, each in its unit", () => {
    const lines = summaryText(evaluateSetup(document)).split("\n");
    const rowOf = (name: string) =>
      lines
        .find((line) => line.startsWith(`  ${name} `))
        ?.trim()
        .split(/\s+/);
    // 0.003/√2 of 20 mm, and 0.003 √2 of 20 mm, are relatively 1.06e-4 and 2.12e-4 (JCGM 100:2008, 5.1.6).
    expect(rowOf("middle")).toEqual(["middle", "20000.0", "2.1", "1.1e-4", "4.2", "2.00", "um"]);
    expect(rowOf("spread")).toEqual(["spread", "0.002000", "0", "-", "0", "-", "mm"]);
    expect(rowOf("slope")?.slice(0, 4)).toEqual(["slope", "0.200000", "0.000042", "2.1e-4"]);
  });

  it("is plain data in base units, with where the doubt comes from", () => {
    const own = plainResults(evaluateSetup(document)).own as readonly { name: string; value?: number; unit?: string }[];
    expect(own.map(({ name, value, unit }) => [name, value, unit])).toEqual([
      ["left", 10, "mm"],
      ["right", 30, "mm"],
      ["middle", 20, "mm"],
      ["pins_size", undefined, "mm"],
      ["spread", expect.closeTo(0.002, 12), "mm"],
      ["slope", 0.2, "1"],
    ]);
  });
});
