const prefix = "cell ";

/** The source of the doubt that a cell states, or a row of a column: `cell ring`, `cell pins_size 3`. */
export function cellSourceId(name: string): string {
  return `${prefix}${name}`;
}

/** What the two sources of the line through two columns begin with: `cell gauge_error over gauge_size`. */
export function lineSourceId(places: string, values: string): string {
  return `${cellSourceId(values)} over ${places}`;
}

/** The columns that a source is of a line through, places and values; undefined for another source. */
export function columnsOfLine(id: string): { readonly places: string; readonly values: string; readonly rest: string } | undefined {
  const [, values, places, rest] = /^cell (\S+) over ([^\s,]+)(, (?:height|slope))$/u.exec(id) ?? [];
  return values === undefined || places === undefined || rest === undefined ? undefined : { places, values, rest };
}

export function isCellSource(id: string): boolean {
  return id.startsWith(prefix);
}
