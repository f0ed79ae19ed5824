import { type AxisDirection, axisOf } from "../base/vector.ts";
import { sourcesOfRow } from "../datum/sourcesOfRow.ts";
import { type QuantityPlace, quantityEndings } from "../decision/quantityNames.ts";
import { parseLength } from "../formula/parseQuantity.ts";
import { parseReadings } from "../readings/parseReadings.ts";
import { type EntryWords, entryWords, type ListPlace, rowPlurals, rowWords } from "./internals/entryWords.ts";
import { ledgerChanges, whatIfChanges } from "./internals/ledgerChanges.ts";
import { followOwnNames } from "./internals/ownRenames.ts";
import { fromTo, quoted } from "./internals/quoted.ts";
import { renameQuantities } from "./renameQuantities.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** What differs in one row of a list, or in one entry that stands by itself. */
export interface DocumentChange {
  /** `tools.probe`, or `chosen`. */
  readonly at: string;
  /** One for each entry, without a full stop. */
  readonly sentences: readonly string[];
  /** What the change is about, as in "because of …". */
  readonly subject: string;
  /** The former document with this change alone. */
  readonly applied: SetupDocument;
}

/** How one document differs from another. */
export interface DocumentChanges {
  readonly changes: readonly DocumentChange[];
  /** The former document with the names that the other has: the same setup, in the other's words. */
  readonly followed: SetupDocument;
}

/**
 * How one document differs from another, entry by entry, in words: rows, cells and tables are matched by their names, and an entry that only names
 * what is called otherwise is not told. Whatever a later section of the document holds is told by its key.
 */
export function documentChanges(before: SetupDocument, after: SetupDocument): DocumentChanges {
  const renamed = renamedRows(before, after);
  const own = followOwnNames(followed(before, renamed), after);
  const context: Context = { before: own.document, after };
  return {
    followed: own.document,
    changes: [
      ...entriesAlone(context),
      ...places.flatMap((place) => [...renames(place, renamed, context), ...listChanges(place, context)]),
      ...own.renames.map(({ at, subject, sentence }) => ({
        at,
        subject: `the new name of ${subject}`,
        sentences: [sentence],
        applied: own.document,
      })),
      ...ledgerChanges(own.document, after),
      ...whatIfChanges(own.document, after),
    ],
  };
}

function renames(place: ListPlace, renamed: Renamed, { before }: Context): DocumentChange[] {
  return [...(renamed.get(place) ?? [])].map(([old, name]) => ({
    at: `${place}.${name}`,
    subject: `the new name of ${rowWords[place]} "${name}"`,
    sentences: [`${rowWords[place]} "${old}" is now called "${name}"`],
    applied: before,
  }));
}

const places = Object.keys(rowWords) as ListPlace[];

type Row = Readonly<Record<string, unknown>> & { readonly id: string };
type Unit = SetupDocument["unit"];

interface Context {
  /** With the names that the other document has. */
  readonly before: SetupDocument;
  readonly after: SetupDocument;
}

function rowsAt(document: SetupDocument, place: ListPlace): readonly Row[] {
  const [section, list] = place.split(".") as [keyof SetupDocument, string?];
  const held = document[section] as unknown;
  return (list === undefined ? held : (held as Record<string, unknown>)[list]) as readonly Row[];
}

function withRows(document: SetupDocument, place: ListPlace, rows: readonly Row[]): SetupDocument {
  const [section, list] = place.split(".") as [keyof SetupDocument, string?];
  return { ...document, [section]: list === undefined ? rows : { ...(document[section] as object), [list]: rows } };
}

/** Old and new name of a row, by list. */
type Renamed = ReadonlyMap<ListPlace, ReadonlyMap<string, string>>;

/** A row that is gone, and one that is new and has more entries in common with it than not, are one row with another name. */
function renamedRows(before: SetupDocument, after: SetupDocument): Renamed {
  return new Map(
    places.map((place) => {
      const [olds, news] = [rowsAt(before, place), rowsAt(after, place)];
      const fresh = new Set(news.filter(({ id }) => !olds.some((old) => old.id === id)));
      const names = new Map<string, string>();
      for (const old of olds.filter(({ id }) => !news.some((row) => row.id === id))) {
        const likest = [...fresh].map((row) => ({ row, share: shareInCommon(old, row) })).sort((a, b) => b.share - a.share)[0];
        if (likest === undefined || likest.share <= 0.5) continue;
        names.set(old.id, likest.row.id);
        fresh.delete(likest.row);
      }
      return [place, names];
    }),
  );
}

/** Of the entries that either row has filled in. */
function shareInCommon(a: Row, b: Row): number {
  const [one, other] = [flatEntries(a), flatEntries(b)];
  const keys = [...new Set([...one.keys(), ...other.keys()])].filter((key) => key !== "id" && (one.get(key) || other.get(key)));
  return keys.filter((key) => one.get(key) === other.get(key)).length / keys.length;
}

/** The document with these rows renamed, and every entry that names one of them. */
function followed(document: SetupDocument, renamed: Renamed): SetupDocument {
  const nameOf = (place: ListPlace | undefined, name: string) => (place && renamed.get(place)?.get(name)) ?? name;
  const follow = (value: unknown, key: string): unknown => {
    const kind = entryWords[key]?.kind;
    const place = kind === "length" || kind === "readings" || kind === "source" ? undefined : kind;
    if (typeof value === "string") return kind === "source" ? sourceAfter(value, renamed) : nameOf(place, value);
    if (Array.isArray(value)) return value.map((item) => follow(item, key));
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([inner, item]) => [inner, follow(item, `${key}.${inner}`)]));
  };
  return places.reduce(
    (each, place) =>
      withRows(
        each,
        place,
        rowsAt(each, place).map((row) => {
          const entries = Object.entries(row).map(([key, value]) => [key, key === "id" ? nameOf(place, row.id) : follow(value, key)]);
          return Object.fromEntries(entries) as Row;
        }),
      ),
    followQuantities(
      { ...document, chosen: nameOf("strategies", document.chosen), operation: nameOf("operations", document.operation) },
      renamed,
    ),
  );
}

/** The names by which formulas know what belongs to a renamed row. */
function followQuantities(document: SetupDocument, renamed: Renamed): SetupDocument {
  return (Object.keys(quantityEndings) as QuantityPlace[]).reduce(
    (each, place) => [...(renamed.get(place) ?? [])].reduce((changed, [from, to]) => renameQuantities(changed, place, from, to), each),
    document,
  );
}

/** The name of a source after rows have got other names. */
function sourceAfter(source: string, renamed: Renamed): string {
  for (const [place, names] of renamed)
    for (const [old, name] of names) {
      const [before, after] = [sourcesOfRow(place, old), sourcesOfRow(place, name)];
      if (before !== undefined && source.startsWith(before)) return `${after}${source.slice(before.length)}`;
    }
  return source;
}

function listChanges(place: ListPlace, context: Context): DocumentChange[] {
  const { before, after } = context;
  const [olds, news] = [rowsAt(before, place), rowsAt(after, place)];
  const word = rowWords[place];
  const pairs = pairRows(olds, news);
  const told = (id: string, sentences: readonly string[], rows: readonly Row[]): DocumentChange[] =>
    sentences.length === 0 ? [] : [{ at: `${place}.${id}`, subject: `${word} "${id}"`, sentences, applied: withRows(before, place, rows) }];
  const kept = pairs.flatMap(([old, row]) => {
    const owner = `${word} "${row.id}"`;
    const changes = rowSentences(old, row, owner, context);
    return told(
      row.id,
      changes,
      olds.map((each) => (each === old ? row : each)),
    );
  });
  const [pairedOld, pairedNew] = [new Set(pairs.map(([old]) => old)), new Set(pairs.map(([, row]) => row))];
  const removed = olds.filter((row) => !pairedOld.has(row));
  const added = news.filter((row) => !pairedNew.has(row));
  return [
    ...kept,
    ...removed.flatMap((row) =>
      told(
        row.id,
        [`${word} "${row.id}" was removed`],
        olds.filter((each) => each !== row),
      ),
    ),
    ...added.flatMap((row) => told(row.id, [`${word} "${row.id}" was added${inBrief(row)}`], [...olds, row])),
    ...orderChange(place, pairs, news, before),
  ];
}

/** Rows of the same name; where a name is used twice, in their order. */
function pairRows(olds: readonly Row[], news: readonly Row[]): (readonly [Row, Row])[] {
  const free = new Set(news);
  return olds.flatMap((old) => {
    const row = news.find((each) => each.id === old.id && free.has(each));
    if (row === undefined) return [];
    free.delete(row);
    return [[old, row] as const];
  });
}

function orderChange(
  place: ListPlace,
  pairs: readonly (readonly [Row, Row])[],
  news: readonly Row[],
  before: SetupDocument,
): DocumentChange[] {
  const places = pairs.map(([, row]) => news.indexOf(row));
  if (places.every((at, i) => i === 0 || at > (places[i - 1] as number))) return [];
  const sorted = [...pairs].sort(([, a], [, b]) => news.indexOf(a) - news.indexOf(b)).map(([old]) => old);
  const olds = rowsAt(before, place);
  const others = olds.filter((row) => !sorted.includes(row));
  const subject = `the order of ${rowPlurals[place]}`;
  return [{ at: place, subject, sentences: [`${subject} is another one`], applied: withRows(before, place, [...sorted, ...others]) }];
}

function rowSentences(old: Row, row: Row, owner: string, context: Context): string[] {
  const [was, is] = [flatEntries(old), flatEntries(row)];
  const kind = typeof row["travelling"] === "string" ? row["travelling"] : "";
  return [...new Set([...was.keys(), ...is.keys()])]
    .filter((key) => key !== "id")
    .flatMap((key) => {
      const words = entryWords[key] ?? { words: key };
      return entrySentence(words, ` of ${owner}`, was.get(key) ?? "", is.get(key) ?? "", context, kind);
    });
}

/** Entries that stand by themselves: everything but the lists of rows. */
function entriesAlone(context: Context): DocumentChange[] {
  const { before, after } = context;
  const lists = new Set<string>(Object.keys(rowWords));
  const passed = new Set(["format", "version", "revisions", "part", "ledger", "whatIf"]);
  const keys = (Object.keys(after) as (keyof SetupDocument)[]).filter((key) => !passed.has(key) && !lists.has(key));
  const change = (at: string, sentences: readonly string[], subject: string, applied: SetupDocument): DocumentChange[] =>
    sentences.length === 0 ? [] : [{ at, sentences, subject, applied }];
  const sections = keys.flatMap((key) => {
    if (key === "unit")
      return change(key, unitSentence(before.unit, after.unit), "the unit of bare numbers", { ...before, unit: after.unit });
    const applied = { ...before, [key]: withListsOf(before[key], after[key], key) };
    const [was, is] = [flatEntries({ [key]: before[key] }), flatEntries({ [key]: applied[key] })];
    const all = [...new Set([...was.keys(), ...is.keys()])];
    const sentences = all.flatMap((each) =>
      entrySentence(entryWords[each] ?? { words: each }, "", was.get(each) ?? "", is.get(each) ?? "", context, ""),
    );
    return change(key, sentences, `the ${entryWords[key]?.words ?? key}`, applied);
  });
  const ofPart = (["name", "generalTolerance"] as const).flatMap((key) => {
    const { words } = entryWords[`part.${key}`] as EntryWords;
    const sentences = entrySentence({ words }, "", before.part[key], after.part[key], context, "");
    return change(`part.${key}`, sentences, `the ${words}`, { ...before, part: { ...before.part, [key]: after.part[key] } });
  });
  return [...sections, ...ofPart];
}

/** A section as it is after, with the lists in it as they were: those are told row by row. */
function withListsOf(before: unknown, after: unknown, key: string): unknown {
  const lists = places.flatMap((place) => (place.startsWith(`${key}.`) ? [place.slice(key.length + 1)] : []));
  if (lists.length === 0) return after;
  return { ...(after as object), ...Object.fromEntries(lists.map((list) => [list, (before as Record<string, unknown>)[list]])) };
}

function unitSentence(before: Unit, after: Unit): string[] {
  if (before === after) return [];
  const words = { mm: "millimetres", inch: "inches" } as const;
  return [`bare numbers are ${words[after]} now and were ${words[before]}: every length without a unit of its own is another one`];
}

/** Texts by key, those of groups with a dot, lists joined; what is no text, list or group is written as JSON. */
function flatEntries(held: object): Map<string, string> {
  return new Map(
    Object.entries(held).flatMap(([key, value]): [string, string][] => {
      if (typeof value === "string") return [[key, value]];
      if (value === undefined) return [];
      if (Array.isArray(value)) return [[key, value.every((item) => typeof item === "string") ? value.join("\n") : JSON.stringify(value)]];
      if (typeof value === "object" && value !== null)
        return [...flatEntries(value)].map(([inner, text]): [string, string] => [`${key}.${inner}`, text]);
      return [[key, String(value)]];
    }),
  );
}

function entrySentence(
  { words, kind }: EntryWords,
  owner: string,
  was: string,
  is: string,
  { before, after }: Context,
  travelling: string,
): string[] {
  if (was === is) return [];
  if (kind === "length")
    return [
      `${words}${owner} from ${lengthIn(was, before.unit)} to ${lengthIn(is, after.unit)}${lengthMoved(was, is, before.unit, after.unit)}`,
    ];
  if (kind === "readings") return [`${words}${owner} ${fromTo(was, is)}${meanMoved(was, is, before.unit, after.unit, travelling)}`];
  const [olds, news] = [was, is].map((text) => (text === "" ? [] : text.split("\n"))) as [string[], string[]];
  if (kind === undefined || (olds.length < 2 && news.length < 2)) return [`${words}${owner} ${fromTo(was, is)}`];
  const gone = olds.filter((each) => !news.includes(each));
  const fresh = news.filter((each) => !olds.includes(each));
  if (gone.length === 0 && fresh.length === 0) return [`${words}${owner} in another order`];
  const list = (names: readonly string[]) => names.map((each) => `"${each}"`).join(", ");
  return [
    `${words}${owner}: ${[gone.length > 0 ? `${list(gone)} left out` : "", fresh.length > 0 ? `${list(fresh)} added` : ""].filter(Boolean).join(", ")}`,
  ];
}

/** As typed, with the unit that a bare number has. */
function lengthIn(text: string, unit: Unit): string {
  if (text.trim() === "") return "nothing";
  return /^\s*[-+]?[\d.,]+\s*$/.test(text) ? `${text.trim()} ${unit === "inch" ? "in" : "mm"}` : quoted(text);
}

/** Where the unit of bare numbers changed as well, that is told by itself. */
function lengthMoved(was: string, is: string, before: Unit, after: Unit): string {
  if (before !== after) return "";
  const [old, now] = [parseLength(was, { unit: before }), parseLength(is, { unit: after })];
  return old.ok && now.ok ? ` (${moved(now.value.value - old.value.value)})` : "";
}

function meanMoved(was: string, is: string, before: Unit, after: Unit, travelling: string): string {
  if (!/^[+-][XYZ]$/.test(travelling) || before !== after) return "";
  const axis = axisOf(travelling as AxisDirection);
  const [old, now] = [parseReadings(was, { unit: before, axis }), parseReadings(is, { unit: after, axis })];
  if (!old.ok || !now.ok) return "";
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return ` (mean ${moved(mean(now.value.values) - mean(old.value.values))})`;
}

/** To a tenth of a micrometre: finer than anything that is typed for a machine. */
function moved(difference: number): string {
  const text = difference.toFixed(4).replace(/0$/, "");
  if (!/[1-9]/.test(text)) return Math.abs(difference) > 1e-12 ? "by less than 0.0001 mm" : "the same length, written otherwise";
  return `${difference > 0 ? "+" : ""}${text} mm`;
}

/** What a new row says first: enough to know it by. */
function inBrief(row: Row): string {
  const told = ["kind", "element", "of", "readings", "radius", "thickness", "nominal", "tolerance", "one", "other", "coefficient"].flatMap(
    (key) => {
      const value = row[key];
      return typeof value === "string" && value.trim() !== "" ? [`${entryWords[key]?.words ?? key} ${quoted(value)}`] : [];
    },
  );
  return told.length === 0 ? "" : `: ${told.slice(0, 3).join(", ")}`;
}
