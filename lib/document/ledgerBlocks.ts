import * as v from "valibot";

const text = v.optional(v.string(), "");
const name = v.pipe(v.string(), v.trim(), v.nonEmpty("a name is needed"), v.maxLength(80, "a name has at most 80 characters"));

/** What a doubt rests on that stands beside what was typed; readings rest on themselves. */
const evidence = v.optional(v.picklist(["stated", "certificate", "published", "shop default"]), "stated");
/** Under which family a doubt appears in budgets. */
const family = v.optional(v.picklist(["contact tool", "machine", "part", "fixture", "heat", "process"]), "process");

/** A quantity of a person's own: a formula, a reading with its doubt, a list of repeats. */
const cellBlock = v.object({
  kind: v.literal("cell"),
  id: name,
  entry: text,
  /** Counts for the moment in the place of `entry`; empty for nothing. */
  instead: text,
  evidence,
  family,
  /** In which the result is shown; empty for the usual one of the notebook. */
  unit: text,
  /** With which the result is shown; empty for as many as its doubt gives reason for. */
  decimals: text,
  note: text,
  hidden: v.optional(v.boolean(), false),
});

/** Begins a group: all blocks up to the next heading. */
const headingBlock = v.object({ kind: v.literal("heading"), text, folded: v.optional(v.boolean(), false) });

const paragraphBlock = v.object({ kind: v.literal("paragraph"), text });

/** A free table: every column is a list of quantities that formulas can use as `<table>_<column>`. */
export const tableBlock = v.object({
  kind: v.literal("table"),
  id: name,
  columns: v.array(
    v.object({
      id: name,
      /** Which bare numbers of the column take; empty for the notebook's unit of length, `1` for plain numbers. */
      unit: text,
      /** Computes the column from others of the same row, by their bare names; empty where the rows hold what was typed. */
      formula: text,
      /** With which the rows are shown; empty for as many as their doubt gives reason for. */
      decimals: text,
      evidence,
      family,
    }),
  ),
  /** Entries as typed, in the order of the columns. */
  rows: v.array(v.array(v.string())),
  note: text,
  hidden: v.optional(v.boolean(), false),
});

/** What a person writes into the notebook, in the order in which it stands there. */
export const ledgerSchema = v.array(v.variant("kind", [cellBlock, headingBlock, paragraphBlock, tableBlock]));

export type LedgerBlock = v.InferOutput<typeof ledgerSchema>[number];
export type CellBlock = v.InferOutput<typeof cellBlock>;
export type TableBlock = v.InferOutput<typeof tableBlock>;

/** A question put for the moment: a source taken to lie elsewhere, or to be better or worse known, than stated. */
export const whatIfSchema = v.array(
  v.object({
    /** Name of the source, as a budget lists it. */
    source: name,
    /** By how many of its stated standard uncertainties its estimate is shifted: a number from -100 to 100; empty for 0. */
    shift: text,
    /** Its standard uncertainty as a multiple of the stated one; empty for 1. */
    doubt: text,
  }),
);

export type WhatIfEntry = v.InferOutput<typeof whatIfSchema>[number];
