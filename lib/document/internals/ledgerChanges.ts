import { parseStatement } from "../../formula/parseStatement.ts";
import { namesOfStatement } from "../../formula/statement.ts";
import type { DocumentChange } from "../documentChanges.ts";
import type { CellBlock, LedgerBlock, TableBlock, WhatIfEntry } from "../ledgerBlocks.ts";
import type { SetupDocument } from "../setupDocument.ts";
import { fromTo, quoted } from "./quoted.ts";

/** What differs in a person's own cells, tables and words. Both documents call what is the same by the same name. */
export function ledgerChanges(before: SetupDocument, after: SetupDocument): DocumentChange[] {
  const [olds, news] = [before.ledger, after.ledger];
  const pairs = pairBlocks(olds, news);
  const change = (block: LedgerBlock, sentences: readonly string[], ledger: SetupDocument["ledger"]): DocumentChange[] =>
    sentences.length === 0 ? [] : [{ at: placeOf(block), subject: nameOf(block), sentences, applied: { ...before, ledger } }];
  const [kept, found] = [new Set(pairs.map(([old]) => old)), new Set(pairs.map(([, block]) => block))];
  const changes = [
    ...pairs.flatMap(([old, block]) =>
      old === block
        ? []
        : change(
            block,
            blockSentences(old, block),
            olds.map((each) => (each === old ? block : each)),
          ),
    ),
    ...olds.flatMap((old) =>
      kept.has(old)
        ? []
        : change(
            old,
            [`${nameOf(old)} was removed`],
            olds.filter((each) => each !== old),
          ),
    ),
    ...news.flatMap((block) => (found.has(block) ? [] : change(block, [`${nameOf(block)} was added${inBrief(block)}`], [...olds, block]))),
  ];
  const places = pairs.map(([, block]) => news.indexOf(block));
  const isReordered = places.some((place, i) => i > 0 && place < (places[i - 1] as number));
  const otherwise = isReordered
    ? "the cells, tables and words of the notebook's own stand in another order"
    : changes.length === 0 && JSON.stringify(olds) !== JSON.stringify(news)
      ? "the cells, tables and words of the notebook's own are written down otherwise"
      : undefined;
  if (otherwise === undefined) return changes;
  const order = { at: "ledger", subject: "the order of cells", sentences: [otherwise], applied: { ...before, ledger: news } };
  return changes.length === 0 ? [order] : [...changes, { ...order, applied: before }];
}

/** What is supposed of sources otherwise than before. */
export function whatIfChanges(before: SetupDocument, after: SetupDocument): DocumentChange[] {
  const [olds, news] = [before.whatIf, after.whatIf];
  if (JSON.stringify(olds) === JSON.stringify(news)) return [];
  const sources = [...new Set([...olds, ...news].map(({ source }) => source))];
  const changes = sources.flatMap((source): DocumentChange[] => {
    const [was, is] = [olds, news].map((entries) => entries.find((entry) => entry.source === source));
    const [old, now] = [supposed(was), supposed(is)];
    if (old === now) return [];
    const sentence = is === undefined ? `"${source}" is no longer supposed to be ${old}` : `"${source}" is supposed to be ${now}`;
    const others = olds.filter((entry) => entry.source !== source);
    const whatIf = is === undefined ? others : was === undefined ? [...olds, is] : olds.map((entry) => (entry === was ? is : entry));
    return [{ at: `whatIf.${source}`, subject: `what is supposed of "${source}"`, sentences: [sentence], applied: { ...before, whatIf } }];
  });
  if (changes.length > 0) return changes;
  const sentences = ["what is supposed of sources is written down otherwise"];
  return [{ at: "whatIf", subject: "what is supposed", sentences, applied: { ...before, whatIf: news } }];
}

function supposed(entry: WhatIfEntry | undefined): string {
  if (entry === undefined) return "";
  const parts = [
    ...(entry.shift.trim() === "" ? [] : [`shifted by ${entry.shift.trim()} standard uncertainties`]),
    ...(entry.doubt.trim() === "" ? [] : [`${entry.doubt.trim()} times as doubtful`]),
  ];
  return parts.length === 0 ? "as it is stated" : parts.join(" and ");
}

/** Named blocks by their names, words by what they say; words that are left are paired by kind, in their order. */
function pairBlocks(olds: readonly LedgerBlock[], news: readonly LedgerBlock[]): (readonly [LedgerBlock, LedgerBlock])[] {
  const free = new Set(news);
  const found = new Map<LedgerBlock, LedgerBlock>();
  const pair = (keyOf: (block: LedgerBlock) => string | undefined) => {
    const byKey = new Map<string, LedgerBlock[]>();
    for (const block of free) {
      const key = keyOf(block);
      if (key !== undefined) byKey.set(key, [...(byKey.get(key) ?? []), block]);
    }
    for (const old of olds) {
      const key = found.has(old) ? undefined : keyOf(old);
      const block = key === undefined ? undefined : byKey.get(key)?.shift();
      if (block === undefined) continue;
      free.delete(block);
      found.set(old, block);
    }
  };
  pair((block) => `${block.kind} ${"id" in block ? block.id : block.text}`);
  pair((block) => ("id" in block ? undefined : block.kind));
  return olds.flatMap((old) => {
    const block = found.get(old);
    return block === undefined ? [] : [[old, block] as const];
  });
}

function placeOf(block: LedgerBlock): string {
  return "id" in block ? `ledger.${block.id}` : "ledger";
}

function nameOf(block: LedgerBlock): string {
  return `${block.kind} ${"id" in block ? `"${block.id}"` : quoted(block.text)}`;
}

function inBrief(block: LedgerBlock): string {
  if (block.kind === "cell") return block.entry.trim() === "" ? "" : `: ${quoted(block.entry)}`;
  if (block.kind !== "table") return "";
  return `: ${block.rows.length} ${block.rows.length === 1 ? "row" : "rows"} of ${block.columns.map(({ id }) => `"${id}"`).join(", ")}`;
}

function blockSentences(old: LedgerBlock, block: LedgerBlock): string[] {
  if (old.kind === "cell" && block.kind === "cell") return cellSentences(old, block);
  if (old.kind === "table" && block.kind === "table") return tableSentences(old, block);
  if (!("text" in old && "text" in block)) return [];
  return [
    ...(old.text === block.text ? [] : [`${block.kind} ${fromTo(old.text, block.text)}`]),
    ...("folded" in old && "folded" in block && old.folded !== block.folded
      ? [`the group of ${nameOf(block)} is ${block.folded ? "folded up" : "unfolded"}`]
      : []),
  ];
}

const cellEntries = {
  unit: "unit",
  decimals: "decimals",
  evidence: "what the doubt rests on",
  family: "family of the doubt",
  note: "note",
} as const satisfies Partial<Record<keyof CellBlock, string>>;

function cellSentences(old: CellBlock, cell: CellBlock): string[] {
  const owner = nameOf(cell);
  const entries = (Object.keys(cellEntries) as (keyof typeof cellEntries)[]).flatMap((key) =>
    old[key] === cell[key] ? [] : [`${cellEntries[key]} of ${owner} ${fromTo(old[key], cell[key])}`],
  );
  return [
    ...(old.entry === cell.entry
      ? []
      : [`${[old.entry, cell.entry].some(isFormula) ? "formula" : "entry"} of ${owner} ${fromTo(old.entry, cell.entry)}`]),
    ...insteadSentence(old.instead, cell.instead, owner),
    ...entries,
    ...hiddenSentence(old.hidden, cell.hidden, owner),
  ];
}

function isFormula(text: string): boolean {
  const statement = parseStatement(text);
  return statement.ok && namesOfStatement(statement.value).length > 0;
}

function insteadSentence(was: string, is: string, owner: string): string[] {
  if (was === is) return [];
  return [is.trim() === "" ? `${owner} counts as it is stated again` : `${owner} counts as ${quoted(is)} for the moment`];
}

function hiddenSentence(was: boolean, is: boolean, owner: string): string[] {
  return was === is ? [] : [`${owner} is ${is ? "hidden" : "no longer hidden"}`];
}

const columnKeys = ["unit", "decimals", "evidence", "family"] as const satisfies (keyof typeof cellEntries)[];

function tableSentences(old: TableBlock, table: TableBlock): string[] {
  const owner = nameOf(table);
  const common = table.columns.flatMap((column, i) => {
    const index = old.columns.findIndex(({ id }) => id === column.id);
    return index < 0 ? [] : [{ id: column.id, was: index, is: i }];
  });
  const has = (columns: TableBlock["columns"], name: string) => columns.some(({ id }) => id === name);
  const columns = common.flatMap(({ id, was, is }) => {
    const [before, after] = [old.columns[was], table.columns[is]] as [TableBlock["columns"][number], TableBlock["columns"][number]];
    const of = `column "${id}" of ${owner}`;
    return [
      ...(before.formula === after.formula ? [] : [`formula of ${of} ${fromTo(before.formula, after.formula)}`]),
      ...columnKeys.flatMap((key) =>
        before[key] === after[key] ? [] : [`${cellEntries[key]} of ${of} ${fromTo(before[key], after[key])}`],
      ),
    ];
  });
  const inOrder = common.every(({ was }, i) => i === 0 || was > (common[i - 1]?.was as number));
  return [
    ...old.columns.flatMap(({ id }) => (has(table.columns, id) ? [] : [`column "${id}" of ${owner} was removed`])),
    ...table.columns.flatMap(({ id, formula }) =>
      has(old.columns, id) ? [] : [`column "${id}" of ${owner} was added${formula.trim() === "" ? "" : `: ${quoted(formula)}`}`],
    ),
    ...columns,
    ...(inOrder ? [] : [`the columns of ${owner} stand in another order`]),
    ...rowSentences(old, table, common),
    ...(old.note === table.note ? [] : [`note of ${owner} ${fromTo(old.note, table.note)}`]),
    ...hiddenSentence(old.hidden, table.hidden, owner),
  ];
}

/** Entries of a table that are told one by one. */
const mostEntries = 6;

/** Rows that are alike at the top and at the end stay; what lies between is compared row by row, or told as other rows. */
function rowSentences(
  old: TableBlock,
  table: TableBlock,
  common: readonly { readonly id: string; readonly was: number; readonly is: number }[],
): string[] {
  const owner = nameOf(table);
  const isSame = (a: readonly string[] | undefined, b: readonly string[] | undefined) =>
    common.every(({ was, is }) => (a?.[was] ?? "") === (b?.[is] ?? ""));
  const shorter = Math.min(old.rows.length, table.rows.length);
  let top = 0;
  while (top < shorter && isSame(old.rows[top], table.rows[top])) top++;
  let end = 0;
  while (end < shorter - top && isSame(old.rows.at(-1 - end), table.rows.at(-1 - end))) end++;
  const [gone, fresh] = [old.rows.length - top - end, table.rows.length - top - end];
  if (gone !== fresh) {
    const from = `from row ${top + 1} on`;
    if (gone === 0) return [`${rowsText(fresh)} added to ${owner}, ${from}`];
    if (fresh === 0) return [`${rowsText(gone)} removed from ${owner}, ${from}`];
    return [`${rowsText(gone)} replaced by ${fresh} in ${owner}, ${from}`];
  }
  const entries = table.rows.slice(top, top + fresh).flatMap((row, i) =>
    common.flatMap(({ id, was, is }) => {
      const [before, after] = [old.rows[top + i]?.[was] ?? "", row[is] ?? ""];
      return before === after ? [] : [`"${id}" in row ${top + i + 1} of ${owner} ${fromTo(before, after)}`];
    }),
  );
  const left = entries.length - mostEntries;
  return left > 1 ? [...entries.slice(0, mostEntries), `${left} more entries of ${owner} differ`] : entries;
}

function rowsText(count: number): string {
  return count === 1 ? "1 row was" : `${count} rows were`;
}
