import { parseCellName } from "../../formula/cellName.ts";
import { renameInText } from "../../formula/renameInText.ts";
import type { LedgerBlock, TableBlock } from "../ledgerBlocks.ts";
import { renameBlock, renameColumn } from "../renameBlock.ts";
import type { SetupDocument } from "../setupDocument.ts";

/** A cell, a free table or a column that has another name in the other document. */
export interface OwnRename {
  /** `ledger.wall`, by the new name. */
  readonly at: string;
  /** `cell "wall"`, by the new name. */
  readonly subject: string;
  readonly sentence: string;
}

/** The former document with the names that the other has, in every formula too. */
export interface FollowedNames {
  readonly document: SetupDocument;
  readonly renames: readonly OwnRename[];
}

/**
 * What a person's own cells, tables and columns are called now: one that is gone and a new one with the same entries are one and the same, and so
 * are two cells where a formula names the new one and is otherwise what it was with the old one. A formula that names a renamed cell is another text until that name is followed, so names are followed until none is left to follow.
 */
export function followOwnNames(before: SetupDocument, after: SetupDocument): FollowedNames {
  let document = before;
  const renames: OwnRename[] = [];
  for (;;) {
    const same = [...blockRenames(document, after), ...columnRenames(document, after)];
    const found = same.length > 0 ? same : followedByUsers(document, after);
    let followed = 0;
    for (const { rename, apply } of found) {
      const renamed = apply(document);
      if (!renamed.ok || renamed.value === document) continue;
      document = renamed.value;
      renames.push(rename);
      followed += 1;
    }
    if (followed === 0) return { document, renames };
  }
}

interface Found {
  readonly rename: OwnRename;
  readonly apply: (document: SetupDocument) => ReturnType<typeof renameBlock>;
}

type Named = Extract<LedgerBlock, { readonly id: string }>;

function blockRenames(before: SetupDocument, after: SetupDocument): Found[] {
  const [olds, news] = [before.ledger.filter(isNamed), after.ledger.filter(isNamed)];
  return pairAlike(olds, news, contentOf).map(([old, block]) => ({
    rename: renamed(`ledger.${block.id}`, `${block.kind} "${old.id}"`, `${block.kind} "${block.id}"`, block.id),
    apply: (document) => renameBlock(document, old.id, block.id, new Map()),
  }));
}

/** Cells that are gone, times cells that are new, of which formulas are searched. */
const mostPairs = 400;

/** At most one: the next may be seen only when its name is followed. */
function followedByUsers(before: SetupDocument, after: SetupDocument): Found[] {
  const [olds, news] = [cellsOf(before), cellsOf(after)];
  const [gone, fresh] = [[...olds.keys()].filter((id) => !news.has(id)), [...news.keys()].filter((id) => !olds.has(id))];
  if (gone.length * fresh.length > mostPairs) return [];
  const changed = [...olds].flatMap(([id, was]) => {
    const is = news.get(id);
    return is === undefined || is === was ? [] : [{ was, is }];
  });
  for (const from of gone)
    for (const to of fresh)
      if (isCellName(to) && changed.some(({ was, is }) => was.includes(from) && renameInText(was, from, to) === is))
        return [
          {
            rename: renamed(`ledger.${to}`, `cell "${from}"`, `cell "${to}"`, to),
            apply: (document) => renameBlock(document, from, to, new Map()),
          },
        ];
  return [];
}

function cellsOf({ ledger }: SetupDocument): ReadonlyMap<string, string> {
  return new Map(ledger.flatMap((block) => (block.kind === "cell" ? [[block.id, block.entry] as const] : [])));
}

function isCellName(text: string): boolean {
  const name = parseCellName(text);
  return name.ok && name.value === text;
}

function columnRenames(before: SetupDocument, after: SetupDocument): Found[] {
  const tables = new Map(after.ledger.flatMap((block) => (block.kind === "table" ? [[block.id, block] as const] : [])));
  return before.ledger.flatMap((old): Found[] => {
    const table = old.kind === "table" ? tables.get(old.id) : undefined;
    if (old.kind !== "table" || table === undefined || old === table) return [];
    return pairAlike(columnsOf(old), columnsOf(table), ({ content }) => content).map(([{ id: from }, { id }]) => ({
      rename: renamed(`ledger.${table.id}.${id}`, `column "${from}" of table "${table.id}"`, `column "${id}" of table "${table.id}"`, id),
      apply: (document) => renameColumn(document, table.id, from, id, new Map()),
    }));
  });
}

function renamed(at: string, before: string, subject: string, name: string): OwnRename {
  return { at, subject, sentence: `${before} is now called "${name}"` };
}

/** Of those that only one side has by name, each with one of the other side that holds the same. */
function pairAlike<T extends { readonly id: string }>(
  olds: readonly T[],
  news: readonly T[],
  contentOf: (each: T) => string | undefined,
): (readonly [T, T])[] {
  const [before, after] = [new Set(olds.map(({ id }) => id)), new Set(news.map(({ id }) => id))];
  const fresh = new Map<string, T[]>();
  for (const each of news) {
    const content = before.has(each.id) ? undefined : contentOf(each);
    if (content !== undefined) fresh.set(content, [...(fresh.get(content) ?? []), each]);
  }
  return olds.flatMap((old) => {
    const content = after.has(old.id) ? undefined : contentOf(old);
    const like = content === undefined ? undefined : fresh.get(content)?.shift();
    return like === undefined ? [] : [[old, like] as const];
  });
}

function isNamed(block: LedgerBlock): block is Named {
  return "id" in block;
}

/** By what a block is known under another name; undefined where there is nothing to know it by. */
function contentOf(block: Named): string | undefined {
  if (block.kind === "cell") return block.entry.trim() === "" ? undefined : `cell ${block.entry}`;
  return block.rows.every((row) => row.every((text) => text === "")) ? undefined : JSON.stringify([block.columns, block.rows]);
}

function columnsOf({ columns, rows }: TableBlock): { readonly id: string; readonly content: string | undefined }[] {
  return columns.map(({ id, unit, formula }, i) => {
    const entries = formula.trim() === "" ? rows.map((row) => row[i] ?? "") : [];
    const isBlank = formula.trim() === "" && entries.every((text) => text === "");
    return { id, content: isBlank ? undefined : JSON.stringify([unit, formula, entries]) };
  });
}
