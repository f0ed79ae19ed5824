import type { CellContext, EntryColumn } from "../../inputs/column.ts";
import { joinNames, splitNames } from "../../inputs/nameList.ts";
import { changeRow } from "../../inputs/rows.ts";

/** Longest name that a document holds. */
const longestName = 80;

/** Makers of the columns of one kind of row. */
export function columnsOf<Row extends { readonly id: string }>(): ColumnMakers<Row> {
  const change = (row: Row, key: keyof Row, value: unknown) =>
    row[key] === value ? row : changeRow(row, { [key]: value } as Partial<Row>);
  return {
    name: (width, more = {}) => ({
      kind: "text",
      key: "id",
      label: "name",
      width,
      read: ({ id }) => id,
      write: (row, text) => {
        const id = text.trim();
        return id === "" || id.length > longestName ? undefined : change(row, "id", id);
      },
      ...more,
    }),
    text: (key, label, width, more = {}) => ({
      kind: "text",
      key,
      label,
      width,
      read: (row) => String(row[key] ?? ""),
      write: (row, text) => change(row, key, text),
      ...more,
    }),
    choice: (key, label, width, choices, { only, ...more } = {}) => ({
      kind: "choice",
      key,
      label,
      width,
      choices,
      read: (row) => String(row[key] ?? ""),
      // A choice that may be none is left out of the document when it is.
      write: (row, text) =>
        only !== undefined && !only.includes(text) ? undefined : change(row, key, text === "" && only !== undefined ? undefined : text),
      ...more,
    }),
    names: (key, label, width, more = {}) => ({
      kind: "long",
      key,
      label,
      width,
      read: (row) => joinNames(row[key] as readonly string[]),
      write: (row, text) => {
        const names = splitNames(text);
        return joinNames(names) === joinNames(row[key] as readonly string[]) ? row : change(row, key, names);
      },
      ...more,
    }),
    nested: (key, axis, label, width, more = {}) => ({
      kind: "text",
      key: `${key}.${axis}`,
      label,
      width,
      read: (row) => String(row[key][axis]),
      write: (row, text) => (row[key][axis] === text ? row : change(row, key, { ...row[key], [axis]: text })),
      ...more,
    }),
  };
}

export interface ColumnMakers<Row extends object> {
  /** The name of a row. */
  name(width: number, more?: Partial<EntryColumn<Row>>): EntryColumn<Row>;
  /** An entry that is itself a text. */
  text(key: keyof Row & string, label: string, width: number, more?: Partial<EntryColumn<Row>>): EntryColumn<Row>;
  /** A choice, or a name that something else in the document has; `only`: what the document can hold and nothing else. */
  choice(
    key: keyof Row & string,
    label: string,
    width: number,
    choices: (context: CellContext) => readonly string[],
    more?: Partial<EntryColumn<Row>> & { readonly only?: readonly string[] },
  ): EntryColumn<Row>;
  /** A list of names, with commas between them. */
  names(key: keyof Row & string, label: string, width: number, more?: Partial<EntryColumn<Row>>): EntryColumn<Row>;
  /** An entry within an entry: the x of a strategy's zero. */
  nested<K extends keyof Row & string>(
    key: K,
    axis: keyof Row[K] & string,
    label: string,
    width: number,
    more?: Partial<EntryColumn<Row>>,
  ): EntryColumn<Row>;
}
