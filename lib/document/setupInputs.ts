import type { SetupDocument } from "./setupDocument.ts";

/** An input as plain data: a text as typed, a number, a list, a group by key. */
export type Input = string | number | boolean | readonly Input[] | { readonly [key: string]: Input };
export type Inputs = { readonly [section: string]: Input };

/** Sections from which no number follows: what the job is called, its past, who answers for it and what its author thinks. */
const notInput = new Set<string>(["format", "version", "title", "note", "revision", "revisions", "record"]);

/** Entries of a row from which no number follows: notes, who did something and why, and how it is looked at. */
const notInputOfRow = new Set<string>(["note", "who", "by", "why", "hidden"]);

/**
 * Everything in a document that a number can follow from: entries as typed without blanks round them, in the order of their rows, and nothing that is
 * empty. Names of part, machine and rows are inputs too: they say what the numbers are of. Titles, notes, prose, revisions, names, dates and reasons
 * are none.
 */
export function setupInputs(document: SetupDocument): Inputs {
  const ledger = document.ledger.filter(({ kind }) => kind === "cell" || kind === "table");
  const sections = Object.entries({ ...document, ledger }).flatMap(([name, value]) => {
    const input = notInput.has(name) ? undefined : inputOf(value);
    return input === undefined ? [] : [[name, input] as const];
  });
  return Object.fromEntries(sections);
}

/** Undefined for what is empty. Within a list what is empty keeps its place: the columns of a table follow from it. */
function inputOf(value: unknown): Input | undefined {
  if (typeof value === "string") return value.trim() === "" ? undefined : value.trim();
  if (typeof value === "number" || typeof value === "boolean") return value;
  if (Array.isArray(value)) return value.length === 0 ? undefined : value.map((item) => inputOf(item) ?? emptyOf(item));
  if (typeof value !== "object" || value === null) return undefined;
  const entries = Object.entries(value).flatMap(([key, held]) => {
    const input = notInputOfRow.has(key) ? undefined : inputOf(held);
    return input === undefined ? [] : [[key, input] as const];
  });
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

function emptyOf(value: unknown): Input {
  return Array.isArray(value) ? [] : typeof value === "object" ? {} : "";
}
