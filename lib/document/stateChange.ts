import * as v from "valibot";
import { failure, type Outcome, success, within } from "../base/outcome.ts";

/**
 * What makes one state into another, with as few words as a person can still read: of an object the entries that differ, of a list which rows
 * stay and which are new, of everything else the new value.
 */
export type Change<T> = T extends readonly (infer Row)[]
  ? ListChange<Row>
  : T extends object
    ? { readonly [K in keyof T]?: Change<T[K]> | undefined }
    : T;

export interface ListChange<Row> {
  /**
   * The new list in terms of the former one, counted from 1: `1-12, 2 new, 14-40, 41 changed` keeps rows 1 to 12, then has the first two of
   * `rows`, then keeps 14 to 40, then has row 41 with the first of `changes`. No row is kept twice.
   */
  readonly order: string;
  readonly rows: readonly Row[];
  /** Only where it was asked for. */
  readonly changes?: readonly Change<Row>[];
}

/**
 * What changes `before` into `after`; undefined when nothing does. Both have the same entries.
 *
 * @param isNested rows that are another in some of their entries alone are told by those: brief where a row holds a list of its own, such as a
 *   table of thousands, and harder to read. Without it such a row is a new one.
 */
export function changeBetween<T>(before: T, after: T, isNested = false): Change<T> | undefined {
  if (before === after) return undefined;
  if (Array.isArray(before) && Array.isArray(after)) return listChange(before, after, isNested) as Change<T> | undefined;
  if (!isObject(before) || !isObject(after)) return after as Change<T>;
  const entries = Object.keys(after).flatMap((key) => {
    const change = changeBetween(before[key], after[key], isNested);
    return change === undefined ? [] : [[key, change] as const];
  });
  return entries.length === 0 ? undefined : (Object.fromEntries(entries) as Change<T>);
}

/** The state after a change. Refused, with its place: an order that does not fit the list, as only a hand in the file can make one. */
export function changed<T>(before: T, change: Change<T> | undefined): Outcome<T> {
  if (change === undefined) return success(before);
  if (Array.isArray(before)) return changedList(before, change as ListChange<unknown>) as Outcome<T>;
  if (!isObject(before) || !isObject(change)) return success(change as T);
  const after: Record<string, unknown> = { ...before };
  for (const [key, part] of Object.entries(change)) {
    const outcome = changed(after[key], part);
    if (!outcome.ok) return failure(...outcome.problems.map((problem) => within(key, problem)));
    after[key] = outcome.value;
  }
  return success(after as T);
}

/** The schema of changes of what a schema describes. */
export function changeSchemaOf(schema: v.GenericSchema): v.GenericSchema {
  const known = schema as v.GenericSchema & { wrapped?: v.GenericSchema; entries?: v.ObjectEntries; item?: v.GenericSchema };
  if (known.type === "optional" && known.wrapped) return changeSchemaOf(known.wrapped);
  if (known.type === "array" && known.item) return v.object({ order: v.string(), rows: v.array(known.item) });
  if (known.type !== "object" || !known.entries) return schema;
  const entries = Object.entries(known.entries).map(([key, entry]) => [key, v.optional(changeSchemaOf(entry as v.GenericSchema))] as const);
  return v.object(Object.fromEntries(entries));
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function listChange(before: readonly unknown[], after: readonly unknown[], isNested: boolean): ListChange<unknown> | undefined {
  const places = placesOf(before, after);
  if (before.length === after.length && places.every((place, i) => place === i)) return undefined;
  const kept = new Set(places);
  const rows: unknown[] = [];
  const changes: unknown[] = [];
  const pieces: string[] = [];
  for (let i = 0; i < after.length; ) {
    const place = places[i];
    // A row in the place of one that is gone.
    const former = i === 0 ? 0 : (places[i - 1] ?? Number.NaN) + 1;
    if (isNested && place === undefined && !kept.has(former) && haveSameEntries(before[former], after[i])) {
      changes.push(changeBetween(before[former], after[i], isNested));
      pieces.push(`${former + 1} changed`);
      places[i] = former;
      i += 1;
      continue;
    }
    let end = i + 1;
    if (place === undefined) while (end < after.length && places[end] === undefined) end++;
    else while (end < after.length && places[end] === place + end - i) end++;
    if (place === undefined) {
      for (let row = i; row < end; row++) rows.push(after[row]);
      pieces.push(`${end - i} new`);
    } else pieces.push(end - i === 1 ? `${place + 1}` : `${place + 1}-${place + end - i}`);
    i = end;
  }
  return { order: pieces.join(", "), rows, ...(changes.length > 0 && { changes }) };
}

function haveSameEntries(before: unknown, after: unknown): boolean {
  if (!isObject(before) || !isObject(after)) return false;
  const [keys, others] = [Object.keys(before), Object.keys(after)];
  return keys.length === others.length && keys.every((key, i) => key === others[i] && after[key] !== undefined);
}

/** Where each row of a list stood before; undefined for a row that is new. Rows that were not touched are the same objects. */
function placesOf(before: readonly unknown[], after: readonly unknown[]): (number | undefined)[] {
  // Of a long list mostly one row is another: what is the same at both ends needs no search.
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  let end = 0;
  while (end < shorter - start && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  const between = placesBetween(before.slice(start, before.length - end), after.slice(start, after.length - end));
  return after.map((_, i) => {
    if (i < start) return i;
    if (i >= after.length - end) return i + before.length - after.length;
    const place = between[i - start];
    return place === undefined ? undefined : start + place;
  });
}

function placesBetween(before: readonly unknown[], after: readonly unknown[]): (number | undefined)[] {
  const free = new Map<unknown, number[]>();
  const offer = (key: unknown, place: number) => {
    const places = free.get(key);
    if (places === undefined) free.set(key, [place]);
    else places.push(place);
  };
  const taken = new Set<number>();
  const take = (key: unknown): number | undefined => {
    const place = free.get(key)?.shift();
    if (place !== undefined) taken.add(place);
    return place;
  };
  before.forEach(offer);
  const places = after.map(take);
  if (places.every((place) => place !== undefined)) return places;
  free.clear();
  before.forEach((row, place) => {
    if (!taken.has(place)) offer(JSON.stringify(row), place);
  });
  return places.map((place, i) => place ?? take(JSON.stringify(after[i])));
}

function changedList(before: readonly unknown[], { order, rows, changes = [] }: ListChange<unknown>): Outcome<readonly unknown[]> {
  const after: unknown[] = [];
  const kept = new Set<number>();
  let used = 0;
  let usedChanges = 0;
  for (const piece of order.trim() === "" ? [] : order.split(",")) {
    const [, fresh, first, isChanged, last = first] = /^\s*(?:(\d{1,9}) new|(\d{1,9})(?: (changed)|-(\d{1,9}))?)\s*$/.exec(piece) ?? [];
    if (fresh !== undefined) {
      const end = used + Number(fresh);
      if (end > rows.length) return unfit(order, `${rows.length} new rows`);
      while (used < end) after.push(rows[used++]);
      continue;
    }
    const [from, to] = [Number(first), Number(last)];
    if (!(from >= 1 && from <= to && to <= before.length))
      return unfit(order, `rows from 1 to ${before.length}, such as 1-${before.length}`);
    for (let row = from; row <= to; row++) {
      if (kept.has(row)) return unfit(order, "each row once");
      kept.add(row);
      if (isChanged === undefined) {
        after.push(before[row - 1]);
        continue;
      }
      if (usedChanges === changes.length) return unfit(order, `${changes.length} changed rows`);
      const outcome = changed(before[row - 1], changes[usedChanges] as Change<unknown> | undefined);
      if (!outcome.ok) return failure(...outcome.problems.map((problem) => within(`changes.${usedChanges}`, problem)));
      after.push(outcome.value);
      usedChanges += 1;
    }
  }
  if (usedChanges < changes.length) return unfit(order, `${changes.length} changed rows`);
  return used === rows.length ? success(after) : unfit(order, `${rows.length} new rows`);
}

function unfit(order: string, expected: string): Outcome<never> {
  return failure({ at: "order", what: "this order does not fit the list that it changes", expected, got: order });
}
