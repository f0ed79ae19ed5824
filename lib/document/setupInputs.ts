import type * as v from "valibot";
import { nameOf } from "../ledger/cellNames.ts";
import { type ListPlace, rowPlurals, rowWords } from "./internals/entryWords.ts";
import { type SetupDocument, setupDocumentSchema } from "./setupDocument.ts";

/** An input as plain data: a text as typed, a number, a list, a group by key. */
export type Input = string | number | boolean | readonly Input[] | { readonly [key: string]: Input };
export type Inputs = { readonly [section: string]: Input };

/** Sections from which no number follows: what the job is called, its past, who answers for it and what its author thinks. */
const notInput = new Set<string>(["format", "version", "title", "note", "revision", "revisions", "record"]);

/**
 * Sections that a zero goes on without: what is written down once it stands (where it was logged, checks and what happened since, made parts), what is only
 * looked at, and what is judged by itself (nests, warming up, how often slips happen). Neither the zero nor its doubt, the offset to type or what a check
 * must show follows from any of them.
 */
const besideZero = new Set<string>([
  "operation",
  "offsets",
  "nests",
  "checks",
  "checkMoves",
  "events",
  "slipChances",
  "madeParts",
  "warmUp",
] satisfies (keyof SetupDocument)[]);

/** Entries of tools and spacers that are printed, and from which no number follows: what a calibration found are entries of their own. */
const ofCalibration = new Set<string>(["certificate", "calibrated", "due"]);

/** The same within the fixture: the seat is a check, and a wanted error is a question. */
const besideZeroOfFixture = new Set<string>(["seatTouches", "seatScatter", "wantedError"]);

/** Entries of a row from which no number follows: notes, who did something and why, and how it is looked at. */
const notInputOfRow = new Set<string>(["note", "who", "by", "why", "hidden"]);

/**
 * Everything in a document that a number can follow from, and what tools and spacers say of their calibration: entries as typed without blanks round them, in the
 * order of their rows. What is empty, or as it is where a file leaves it out (`usualEntries`), is left out. Names of part, machine and rows are inputs too: they say what the numbers are of. Titles,
 * notes, prose, revisions, names, dates and reasons are none.
 */
export function setupInputs(document: SetupDocument): Inputs {
  const ledger = document.ledger.filter(({ kind }) => kind === "cell" || kind === "table");
  const entries = entriesOf(setupDocumentSchema, document);
  const sections = Object.entries({ ...document, ledger }).flatMap(([name, value]) => {
    const input = notInput.has(name) ? undefined : inputOf(entries[name], value);
    return input === undefined ? [] : [[name, input] as const];
  });
  return Object.fromEntries(sections);
}

/**
 * The inputs that the zero stands on: the zero with its doubt, the offset to type, and what the display must show at any face follow from these alone; so do the
 * chances by which the strategy was chosen.
 */
export function zeroInputs(document: SetupDocument): Inputs {
  const { ledger = [], ...sections } = withoutCalibrations(setupInputs(document));
  const carrying = Object.entries(sections).flatMap(([name, input]) => {
    if (besideZero.has(name)) return [];
    if (name !== "fixture") return [[name, input] as const];
    const held = Object.entries(input).filter(([key]) => !besideZeroOfFixture.has(key));
    return held.length === 0 ? [] : [[name, Object.fromEntries(held) as Input] as const];
  });
  const cells = blocksNamed(
    ledger as readonly Input[],
    carrying.map(([, input]) => input),
  );
  return Object.fromEntries(cells.length === 0 ? carrying : [...carrying, ["ledger", cells] as const]);
}

/** The inputs without what tools and spacers say of their calibration. */
export function withoutCalibrations(inputs: Inputs): Inputs {
  const entries = Object.entries(inputs).map(([name, input]) => {
    if (name !== "tools" && name !== "spacers") return [name, input] as const;
    const rows = (input as readonly Input[]).map((row) =>
      Object.fromEntries(Object.entries(row).filter(([key]) => !ofCalibration.has(key))),
    );
    return [name, rows] as const;
  });
  return Object.fromEntries(entries);
}

/**
 * Cells and tables of a person's own that any of these inputs may name, and those that they name in turn: a word that is spelt like one counts, whatever it
 * stands for there.
 */
function blocksNamed(ledger: readonly Input[], inputs: readonly Input[]): readonly Input[] {
  const words = new Set(inputs.flatMap(wordsIn));
  const named = new Set<Input>();
  const isNamed = (block: Input) => {
    const id = nameOf(String((block as { readonly id?: Input }).id ?? ""));
    return words.has(id) || [...words].some((word) => word.startsWith(`${id}_`));
  };
  for (let found = ledger.filter(isNamed); found.length > 0; found = ledger.filter((block) => !named.has(block) && isNamed(block)))
    for (const block of found) {
      named.add(block);
      for (const word of wordsIn(block)) words.add(word);
    }
  return ledger.filter((block) => named.has(block));
}

/** Every word of every text, as formulas spell names. */
function wordsIn(input: Input): string[] {
  if (typeof input === "string") return input.normalize("NFKC").match(/[\p{L}_][\p{L}\p{M}\d_]*/gu) ?? [];
  return typeof input === "object" ? Object.values(input).flatMap(wordsIn) : [];
}

/** What a setup holds beside the inputs of its zero, counted: `2 checks`. */
export function heldBesideZero(document: SetupDocument): string[] {
  const { offsets, nests, checks, checkMoves, events, slipChances, madeParts, warmUp, fixture } = document;
  const lists: Readonly<Partial<Record<ListPlace, readonly unknown[]>>> = {
    offsets,
    nests,
    checks,
    checkMoves,
    events,
    slipChances,
    "madeParts.measured": madeParts.measured,
    "madeParts.corrections": madeParts.corrections,
    "warmUp.readings": warmUp.readings,
    "fixture.seatTouches": fixture.seatTouches,
  };
  const told = (Object.entries(lists) as [ListPlace, readonly unknown[]][]).flatMap(([place, { length }]) =>
    length === 0 ? [] : [`${length} ${length === 1 ? rowWords[place] : rowPlurals[place]}`],
  );
  const calibrated = [...document.tools, ...document.spacers].filter((row) =>
    [row.certificate, row.calibrated, row.due].some((text) => text !== undefined && text.trim() !== ""),
  ).length;
  if (calibrated > 0) told.push(`${calibrated} ${calibrated === 1 ? "calibration" : "calibrations"}`);
  const blocks =
    ((setupInputs(document)["ledger"] ?? []) as readonly Input[]).length -
    ((zeroInputs(document)["ledger"] ?? []) as readonly Input[]).length;
  return blocks === 0 ? told : [...told, `${blocks} ${blocks === 1 ? "cell or table" : "cells or tables"} of the ledger`];
}

/** What a file means that leaves an entry out, where that is not empty: `made` is `before`. By place, in the order of a saved file. */
export function usualEntries(): { readonly place: string; readonly value: string | number }[] {
  return usualIn(setupDocumentSchema, "");
}

function usualIn(schema: v.GenericSchema | undefined, place: string): { place: string; value: string | number }[] {
  const { entries, item, options, wrapped } = schema as Known;
  if (wrapped !== undefined) return usualIn(wrapped, place);
  const inner = item === undefined ? (options ?? []).filter((each) => typeof each === "object") : [item];
  if (entries === undefined) return inner.flatMap((each) => usualIn(each, place));
  return Object.entries(entries).flatMap(([key, held]) => {
    if (place === "" && notInput.has(key)) return [];
    if (notInputOfRow.has(key) || key === "folded") return [];
    const own = place === "" ? key : `${place}.${key}`;
    const { default: usual } = held as Known;
    const isTold = (typeof usual === "string" && usual !== "") || typeof usual === "number";
    return isTold ? [{ place: own, value: usual as string | number }] : usualIn(held, own);
  });
}

/** What is looked at of a schema. */
interface Known {
  readonly default?: unknown;
  readonly wrapped?: v.GenericSchema;
  readonly entries?: Readonly<Record<string, v.GenericSchema>>;
  readonly item?: v.GenericSchema;
  readonly key?: string;
  readonly options?: readonly v.GenericSchema[];
}

/** The schemas of an object's entries; of several kinds of objects, those of the kind that this is. */
function entriesOf(schema: v.GenericSchema | undefined, value: object): Readonly<Record<string, v.GenericSchema>> {
  const { entries, wrapped, options, key } = (schema ?? {}) as Known;
  if (wrapped !== undefined) return entriesOf(wrapped, value);
  if (entries !== undefined) return entries;
  const kind = key === undefined ? undefined : (value as Record<string, unknown>)[key];
  const own = options?.find(
    (option) => ((option as Known).entries?.[key as string] as { literal?: unknown } | undefined)?.literal === kind,
  );
  return own === undefined ? {} : entriesOf(own, value);
}

function itemOf(schema: v.GenericSchema | undefined): v.GenericSchema | undefined {
  const { item, wrapped } = (schema ?? {}) as Known;
  return wrapped === undefined ? item : itemOf(wrapped);
}

/** Undefined for what is empty or usual. Within a list what is empty keeps its place: the columns of a table follow from it. */
function inputOf(schema: v.GenericSchema | undefined, value: unknown): Input | undefined {
  const text = typeof value === "string" ? value.trim() : value;
  if (text === "" || text === (schema as Known | undefined)?.default) return undefined;
  if (typeof text === "string" || typeof text === "number" || typeof text === "boolean") return text;
  if (Array.isArray(value)) return value.length === 0 ? undefined : value.map((each) => inputOf(itemOf(schema), each) ?? emptyOf(each));
  if (typeof value !== "object" || value === null) return undefined;
  const known = entriesOf(schema, value);
  const entries = Object.entries(value).flatMap(([key, held]) => {
    const input = notInputOfRow.has(key) ? undefined : inputOf(known[key], held);
    return input === undefined ? [] : [[key, input] as const];
  });
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

function emptyOf(value: unknown): Input {
  return Array.isArray(value) ? [] : typeof value === "object" ? {} : "";
}
