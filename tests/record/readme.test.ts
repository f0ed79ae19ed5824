import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { must } from "../properties/setups.ts";

const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");
const readme = read("README.md");
const evaluation = evaluateSetup(must(parseDocument(read("notebooks/demo/bearingCover.json"))));

it("README's worked setup has the offset and the strategies' figures that the demo job gives", () => {
  const summary = summaryText(evaluation);
  const [offset] = /G10 L2 P1 .*/.exec(summary) as RegExpExecArray;
  expect(readme).toContain(offset);
  const percent = (chance: number) => (chance > 0.9999 ? "> 99.99 %" : `${(100 * chance).toFixed(chance > 0.9998 ? 2 : 1)} %`);
  for (const { id, evaluation: outcome } of evaluation.strategies) {
    const { zero, thisPart, batch } = must(outcome);
    const cells = [
      must(zero[0]).standardUncertainty.toFixed(4),
      ...[thisPart, batch].map((view) => percent(must(view.chanceOfAll).chance)),
    ];
    const row = readme
      .split("\n")
      .find((line) => cells.every((cell) => line.replaceAll("*", "").includes(`| ${cell} |`.replace("| ", ""))));
    expect(row, `a row of ${id} with ${cells.join(", ")}`).toBeDefined();
  }
});
