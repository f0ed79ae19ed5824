/** Longest list or group that stands on one line, in characters. */
const longestLine = 100;
/** A group of more entries than this has a line for each. */
const largestGroup = 3;

/** JSON text with one entry on a line; lists of names and small groups of entries stand together on one. */
export function compactJson(value: unknown): string {
  return `${write(value, "")}\n`;
}

function write(value: unknown, indent: string): string {
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const isList = Array.isArray(value);
  const deeper = `${indent}  `;
  const parts = isList
    ? value.map((item) => write(item, deeper))
    : Object.entries(value).map(([key, entry]) => `${JSON.stringify(key)}: ${write(entry, deeper)}`);
  const [open, close] = isList ? "[]" : "{}";
  const isFlat = Object.values(value).every((entry) => typeof entry !== "object") && (isList || parts.length <= largestGroup);
  const blank = isList || parts.length === 0 ? "" : " ";
  const line = isFlat ? `${open}${blank}${parts.join(", ")}${blank}${close}` : "";
  if (isFlat && line.length <= longestLine) return line;
  return `${open}\n${parts.map((part) => `${deeper}${part}`).join(",\n")}\n${indent}${close}`;
}
