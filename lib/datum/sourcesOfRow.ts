/** What the sources of a row's own are called before its name, by the table that the row is in. */
const words: Readonly<Record<string, string>> = {
  touches: "touch",
  tools: "tool",
  spacers: "spacer",
  "part.elements": "element",
  "part.dimensions": "dimension",
};

/** How the names of all sources begin that belong to a row: `touch left, ` for `left` among the touches; undefined where rows have none. */
export function sourcesOfRow(table: string, row: string): string | undefined {
  const word = words[table];
  return word === undefined ? undefined : `${word} ${row}, `;
}
