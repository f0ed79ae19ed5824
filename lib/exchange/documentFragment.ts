/** Plain data that a document consists of. */
type Data = string | number | boolean | null | undefined | readonly Data[] | { readonly [key: string]: Data };

/** What is in a document and was not in the one that it was made from: sections with their new and changed rows, in the layout of a document. */
export function documentFragment(before: object, after: object): object {
  return (changedIn(before as Data, after as Data) ?? {}) as object;
}

/** Undefined where nothing has changed; rows that were kept are the same objects. */
function changedIn(before: Data, after: Data): Data {
  if (before === after) return undefined;
  if (Array.isArray(after)) {
    const kept = new Set(Array.isArray(before) ? before : []);
    const rows = after.filter((row: Data) => !kept.has(row));
    return rows.length === 0 ? undefined : rows;
  }
  if (typeof after !== "object" || after === null) return after;
  const held = (typeof before === "object" && before !== null ? before : {}) as { readonly [key: string]: Data };
  const entries = Object.entries(after as { readonly [key: string]: Data }).flatMap(([key, value]): [string, Data][] => {
    const changed = changedIn(held[key], value);
    return changed === undefined ? [] : [[key, changed]];
  });
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}
