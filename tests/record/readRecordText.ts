/**
 * What another person makes of a record's text: the entries that it lists, as a document to be read. Written from what the record says of itself and from
 * nothing else; it shares no code with what writes records.
 */
export function readRecordText(text: string): Record<string, unknown> {
  const lines = text.split("\n");
  const from = lines.indexOf("Entries, as typed");
  if (from < 0) throw new Error("the record lists no entries");
  const document: Record<string, unknown> = { format: "datumbook", version: 2 };
  let place = "";
  let row = "";
  const take = () => {
    if (row !== "") enter(document, place, row);
    row = "";
  };
  for (const line of lines.slice(from + 2)) {
    if (/^ {6}\S/.test(line)) {
      row = row.endsWith("\\") ? row.slice(0, -1) + line.slice(6) : `${row} ${line.slice(6)}`;
      continue;
    }
    take();
    if (/^ {4}\S/.test(line)) row = line.slice(4);
    else if (/^ {2}[a-zA-Z]+(\.[a-zA-Z]+)*$/.test(line)) place = line.trim();
  }
  take();
  return withEmptyLists(document);
}

function enter(document: Record<string, unknown>, place: string, row: string): void {
  const isOfList = row.startsWith("- ");
  const entries = readRow(isOfList ? row.slice(2) : row);
  const path = place === "document" ? [] : place.split(".");
  let held = document;
  for (const key of isOfList ? path.slice(0, -1) : path) {
    held[key] ??= {};
    held = held[key] as Record<string, unknown>;
  }
  if (!isOfList) Object.assign(held, entries);
  else {
    const key = path.at(-1) as string;
    held[key] ??= [];
    (held[key] as unknown[]).push(entries);
  }
}

/** `a = "1"; b.x = 2` as an object. */
function readRow(row: string): Record<string, unknown> {
  const entries: Record<string, unknown> = {};
  for (let rest = row; rest !== ""; ) {
    const [whole, key] = /^([\w.]+) = /.exec(rest) ?? [];
    if (whole === undefined || key === undefined) throw new Error(`no entry: ${rest}`);
    const end = endOfValue(rest, whole.length);
    const value: unknown = JSON.parse(rest.slice(whole.length, end));
    const path = key.split(".");
    let held = entries;
    for (const part of path.slice(0, -1)) {
      held[part] ??= {};
      held = held[part] as Record<string, unknown>;
    }
    held[path.at(-1) as string] = value;
    rest = rest.slice(end).replace(/^; /, "");
  }
  return entries;
}

function endOfValue(text: string, from: number): number {
  let isQuoted = false;
  let depth = 0;
  for (let i = from; i < text.length; i++) {
    const character = text[i];
    if (isQuoted && character === "\\") i += 1;
    else if (character === '"') isQuoted = !isQuoted;
    else if (!isQuoted && (character === "[" || character === "{")) depth += 1;
    else if (!isQuoted && (character === "]" || character === "}")) depth -= 1;
    else if (!isQuoted && depth === 0 && character === ";") return i;
  }
  return text.length;
}

/** Lists that every document has, where the record lists nothing in them. */
function withEmptyLists(document: Record<string, unknown>): Record<string, unknown> {
  const part = (document["part"] ?? {}) as Record<string, unknown>;
  return { tools: [], touches: [], strategies: [], ...document, part: { elements: [], ...part } };
}
