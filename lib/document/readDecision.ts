import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import type { Mm } from "../base/quantity.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { type DecisionRule, usualProbability } from "../part/decisionRule.ts";
import type { Reading } from "./reading.ts";
import { RowReader } from "./rowReader.ts";
import type { SetupDocument } from "./setupDocument.ts";

/**
 * The decision rule that a document states. Its probability may be typed as `95 %` or as 0.95; without one, and without the width of a guard band, it
 * is the usual 95 %.
 *
 * @param problems gains what cannot be read; no rule stands in for one that is stated and not readable
 */
export function readDecision({ decision }: SetupDocument, problems: Problem[]): Outcome<DecisionRule> {
  const { rule, conformanceProbability, guardBand } = decision;
  const probability = readProbability(conformanceProbability);
  const multiple = guardBand.trim() === "" ? undefined : readMultiple(guardBand, conformanceProbability);
  for (const read of [probability, multiple]) if (read !== undefined && !read.ok) problems.push(...read.problems);
  if (rule === "simple acceptance") return success({ name: rule });
  if (!probability.ok) return probability;
  if (multiple === undefined) return success({ name: rule, guard: { by: "probability", probability: probability.value } });
  return multiple.ok ? success({ name: rule, guard: { by: "expanded uncertainty", multiple: multiple.value } }) : multiple;
}

/** The standard uncertainty of measuring made parts, mm; undefined where none is stated, or it cannot be read. */
export function readInspection({ decision: { inspection } }: SetupDocument, reading: Reading, problems: Problem[]): Mm | undefined {
  const row = new RowReader("decision", reading);
  const value = row.magnitude("inspection", inspection);
  if (value === 0)
    row.refuse("inspection", { what: "nothing is measured without any doubt", expected: "a length above 0", got: inspection });
  problems.push(...row.problems);
  return value === 0 ? undefined : value;
}

/** A wider guard band than this many expanded uncertainties is a slip. */
const widest = 10;

function readMultiple(text: string, conformanceProbability: string): Outcome<number> {
  const at = "decision.guardBand";
  if (conformanceProbability.trim() !== "")
    return failure({
      at,
      what: "a guard band is stated twice, by its width here and by a conformance probability",
      got: text,
      remedy: "empty one of the two",
    });
  const parsed = parseNumber(text);
  if (!parsed.ok) return failure(...parsed.problems.map((problem) => ({ ...problem, at, got: text })));
  const multiple = parsed.value.value;
  if (multiple >= 0 && multiple <= widest) return success(multiple);
  return failure({ at, what: "no guard band is so wide", expected: `a multiple of U from 0 to ${widest}`, got: text });
}

function readProbability(text: string): Outcome<number> {
  if (text.trim() === "") return success(usualProbability);
  const [, digits = text, percent] = /^(.*?)\s*(%)?\s*$/s.exec(text) ?? [];
  const parsed = parseNumber(digits);
  const at = "decision.conformanceProbability";
  if (!parsed.ok) return failure(...parsed.problems.map((problem) => ({ ...problem, at, got: text })));
  const probability = percent === undefined ? parsed.value.value : parsed.value.value / 100;
  if (probability >= 0.5 && probability < 1) return success(probability);
  return failure({
    at,
    what: "no guard band can be made for this probability",
    expected: "from 50 % to below 100 %, such as 95 %",
    got: text,
  });
}
