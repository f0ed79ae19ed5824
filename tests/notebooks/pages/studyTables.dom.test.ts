import { expect, it } from "vitest";
import { failure, success } from "../../../lib/base/outcome.ts";
import type { SecondOrder } from "../../../lib/uncertainty/secondOrder.ts";
import { StudyTables } from "../../../notebooks/pages/studyTables.ts";
import type { FirstOrderResult, WholeModelResult } from "../../../notebooks/worker/studyMessages.ts";
import { sourceOf } from "../../properties/expressions.ts";

const first = (name: string): FirstOrderResult => ({
  name,
  unit: "mm",
  value: 1,
  standardUncertainty: 0.0036,
  expanded: undefined,
  limits: undefined,
  within: undefined,
  curve: [],
});
const whole = (name: string, secondOrder: WholeModelResult["secondOrder"]): WholeModelResult => ({
  name,
  unit: "mm",
  symmetric: [0.99, 1.01],
  shortest: [0.99, 1.01],
  isTooCurved: false,
  within: undefined,
  check: undefined,
  secondOrder,
  nonlinearity: { size: 0, doubt: 0 },
  trials: undefined,
  failedShare: 0,
  curve: [],
});
const terms = (standardUncertainty: number): SecondOrder => ({
  firstOrder: 0.0036,
  standardUncertainty,
  doubt: 0,
  variance: standardUncertainty ** 2 - 0.0036 ** 2,
  shift: 0,
  terms: [{ sources: [sourceOf("turn", 0), sourceOf("length", 0)], variance: 1e-6 }],
});
const sentences = ({ secondOrder }: StudyTables) => [...secondOrder.children].map(({ textContent }) => textContent);

it("StudyTables says once that the terms of second order change nothing, and else of each result what they change", () => {
  const tables = new StudyTables();
  const results = [first("zero X"), first("hole 1")];
  tables.show(results, undefined, () => "mm");
  expect(sentences(tables)).toEqual([]);
  const quiet = success(terms(0.0036));
  tables.show(results, [whole("zero X", [quiet]), whole("hole 1", [quiet, quiet])], () => "mm");
  expect(sentences(tables)).toHaveLength(1);
  const unknown = failure({ at: "", what: "the terms of second order are not known: no value" });
  tables.show(results, [whole("zero X", [success(terms(0.0041))]), whole("hole 1", [quiet, unknown])], () => "mm");
  expect(sentences(tables)).toEqual([
    "Zero X: the terms of second order matter: u with them is 0.0041 mm in place of 0.0036 mm, most by turn together with length.",
    "Hole 1: along Y the terms of second order are not known: no value.",
  ]);
});
