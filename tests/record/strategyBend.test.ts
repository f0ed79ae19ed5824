import { expect, it } from "vitest";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { strategyBend } from "../../lib/record/strategyBend.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { edge } from "./shortEdge.ts";

const bendOf = (document: ReturnType<typeof edge>, id: string) => {
  const evaluation = evaluateSetup(document);
  const strategy = evaluation.strategies.find((each) => each.id === id)?.evaluation;
  if (!strategy?.ok) throw new Error(JSON.stringify(strategy?.problems));
  return strategyBend(strategy.value, evaluation, "thisPart");
};

// Closed form: a turn is atan(δ/L) of the difference δ of the readings, with u(δ) = √2 s. At 0 its third derivative is -2/L³, so that the terms of
// JCGM 100:2008, 5.1.2, note, make u² = (u(δ)/L)² - 2 (u(δ)/L)⁴.
it("strategyBend(strategy) has the turn of a short edge with its terms of second order in closed form, and nothing of a strategy that does not bend", () => {
  const ratio = (Math.SQRT2 * 0.5) / 4;
  const { results } = bendOf(edge(4, 0.5), "turned");
  const turn = results.find(({ name }) => name === "rotation")?.terms[0];
  if (!turn?.ok) throw new Error(JSON.stringify(turn));
  expect(turn.value.firstOrder).toBeCloseTo(ratio, 9);
  expect(turn.value.standardUncertainty).toBeCloseTo(Math.sqrt(ratio ** 2 - 2 * ratio ** 4), 4);
  expect(bendOf(edge(4, 0.5), "straight").results).toEqual([]);
  // A hundredth of it: the change is a ten-thousandth of u, and no digit that is shown.
  expect(bendOf(edge(100, 0.005), "turned").results).toEqual([]);
});

it("the sheet says that first order does not hold for the strategy in use, by how much, and for which it was not looked at", () => {
  const evaluation = evaluateSetup(edge(4, 0.5));
  const told = plainResults(evaluation).sentences as readonly { kind: string; at: string; text: string }[];
  const sentences = told.filter(({ kind }) => kind === "first order");
  expect(sentences[0]).toMatchObject({ at: "strategies.turned" });
  // 0.17678 rad are 10.1°, and with the terms of second order 9.8°, in two digits 10 and 9.8.
  expect(sentences[0]?.text).toMatch(
    /^First order does not hold for "turned" \(this part\).*otation: the terms of second order matter: u with them is 9\.8 degrees in place of 10/,
  );
  const text = summaryText(evaluation).replace(/\s+/g, " ");
  for (const each of sentences) expect(text).toContain(each.text);
  const others = evaluation.strategies.filter(({ id }) => id !== "turned" && id !== evaluation.ranking.order[0]);
  expect(others.length).toBeGreaterThan(0);
  expect(sentences.length).toBe(2);
  const names = others.map(({ id }) => `"${id}"`).join(" and ");
  expect(sentences.at(-1)?.text).toBe(`Whether first order holds was not looked at for ${names}.`);
});

it("nothing is said where nobody has looked, or where first order holds", () => {
  const kinds = (document: ReturnType<typeof edge>, bends: Parameters<typeof judgementSentences>[1]) =>
    judgementSentences(evaluateSetup(document), bends).map(({ kind }) => kind);
  expect(kinds(edge(4, 0.5), {})).not.toContain("first order");
  expect(summaryText(evaluateSetup(edge(100, 0.005)))).not.toContain("First order does not hold");
});
