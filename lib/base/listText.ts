/** Names in quotes, as a sentence lists them: `"a", "b" and "c"`. */
export function quotedList(names: readonly string[]): string {
  return listText(names.map((name) => `"${name}"`));
}

/** `a, b and c` */
export function listText(items: readonly string[]): string {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}
