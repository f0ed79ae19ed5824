const prefix = "cell ";

/** The source of the doubt that a cell states, or a row of a column: `cell ring`, `cell pins_size 3`. */
export function cellSourceId(name: string): string {
  return `${prefix}${name}`;
}

export function isCellSource(id: string): boolean {
  return id.startsWith(prefix);
}
