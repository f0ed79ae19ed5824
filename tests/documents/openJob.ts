import { readFileSync } from "node:fs";
import { describeProblem } from "../../lib/base/outcome.ts";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup, type SetupEvaluation } from "../../lib/evaluateSetup.ts";

/** A document as JSON data, to be edited freely before it is used. */
// biome-ignore lint/suspicious/noExplicitAny: bad documents are made from it, which no type describes
export type Job = Record<string, any>;

/** A fresh copy of a document beside this file. */
export function openJob(name: "pinBlock" | "skewedRail" | "locatedPlate" | "viceZero"): Job {
  return JSON.parse(readFileSync(new URL(`./${name}.json`, import.meta.url), "utf8")) as Job;
}

/** The row of a table with this name. */
export function rowOf(table: readonly Job[], id: string): Job {
  const row = table.find((each) => each["id"] === id);
  if (row === undefined) throw new Error(`there is no row "${id}"`);
  return row;
}

export function evaluateJob(job: Job): SetupEvaluation {
  const document = checkDocument(job);
  if (!document.ok) throw new Error(document.problems.map(describeProblem).join("\n"));
  return evaluateSetup(document.value);
}
