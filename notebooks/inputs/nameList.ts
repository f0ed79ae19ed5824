/** Names with commas between them; a name that holds a comma or a quote stands in quotes, with "" for a quote inside (RFC 4180). */
export function joinNames(names: readonly string[]): string {
  return names.map((name) => (/[",;]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name)).join(", ");
}

/** The names in a text, parted by commas, semicolons or new lines. */
export function splitNames(text: string): string[] {
  return [...text.matchAll(/"((?:[^"]|"")*)"?|[^,;\n"]+/g)].flatMap(([plain, quoted]) => {
    const name = quoted === undefined ? plain.trim() : quoted.replaceAll('""', '"');
    return name === "" ? [] : [name];
  });
}
