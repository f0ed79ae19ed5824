/** An input of a setup as plain data (see `setupInputs`). */
export type InputValue = string | number | boolean | readonly InputValue[] | { readonly [key: string]: InputValue };

/** Inputs as they are listed in a record: a place in the saved file, and rows of entries by key. */
export interface InputSection {
  /** `part.elements`, `machine`. */
  readonly place: string;
  /** `name = "mill 2"; register = "G54"`; of a list `- id = "top"; kind = "face"`, one for each of its rows. */
  readonly rows: readonly string[];
}

/**
 * All inputs as lines that a person can type again and a program can read: by the keys of the saved file, values written as in JSON, those of a group
 * with a dot. A backslash is written `\u005c` and every second blank `\u0020`, so that a line can be broken at a blank, or within a long word by a
 * backslash at its end, and put together again without loss.
 */
export function listInputs(inputs: { readonly [section: string]: InputValue }): InputSection[] {
  const alone = Object.entries(inputs).filter(([, value]) => !isGroup(value) && !isRows(value));
  const first = alone.length === 0 ? [] : [{ place: "document", rows: [rowOf(Object.fromEntries(alone))] }];
  return [...first, ...Object.entries(inputs).flatMap(([key, value]) => sectionsAt(key, value))];
}

function sectionsAt(place: string, value: InputValue): InputSection[] {
  if (isRows(value)) return [{ place, rows: value.map((row) => `- ${rowOf(row)}`) }];
  if (!isGroup(value)) return [];
  const own = Object.entries(value).filter(([, held]) => !isRows(held));
  const lists = Object.entries(value).filter(([, held]) => isRows(held));
  return [
    ...(own.length === 0 ? [] : [{ place, rows: [rowOf(Object.fromEntries(own))] }]),
    ...lists.flatMap(([key, held]) => sectionsAt(`${place}.${key}`, held)),
  ];
}

type Group = { readonly [key: string]: InputValue };

function isGroup(value: InputValue): value is Group {
  return typeof value === "object" && !Array.isArray(value);
}

/** A list of rows; lists of names and of cells of a table are entries of a row. */
function isRows(value: InputValue): value is readonly Group[] {
  return Array.isArray(value) && value.length > 0 && value.every((item) => isGroup(item));
}

function rowOf(row: Group): string {
  return flat(row, "")
    .map(([key, value]) => `${key} = ${written(value)}`)
    .join("; ");
}

function flat(group: Group, prefix: string): [key: string, value: InputValue][] {
  return Object.entries(group).flatMap(([key, value]): [string, InputValue][] =>
    isGroup(value) ? flat(value, `${prefix}${key}.`) : [[`${prefix}${key}`, value]],
  );
}

function written(value: InputValue): string {
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return `[${value.map(written).join(", ")}]`;
  if (isGroup(value))
    return `{${Object.entries(value)
      .map(([key, held]) => `${quoted(key)}: ${written(held)}`)
      .join(", ")}}`;
  return String(value);
}

/** A text as JSON writes it, in characters that survive being printed, copied and wrapped. */
function quoted(text: string): string {
  const safe = Array.from(text, (character) =>
    character === '"' ? '\\"' : unprintable.test(character) ? escaped(character) : character,
  ).join("");
  return `"${safe.replace(/^ | (?= )| $/g, escaped(" "))}"`;
}

/** A backslash, controls, what turns the direction of writing, blanks that are not the plain one, halves of characters, and what no font has. */
const unprintable = /[\\\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u;

function escaped(character: string): string {
  return Array.from({ length: character.length }, (_, i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, "0")}`).join("");
}
