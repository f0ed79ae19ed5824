/** More names than this are counted. */
const mostListed = 6;

/** The first names, and how many more there are. */
export function shortList(names: readonly string[]): string {
  return names.length > mostListed ? `${names.slice(0, mostListed).join(", ")} and ${names.length - mostListed} more` : names.join(", ");
}

/** What goes with something that is removed, behind the sentence that says so; nothing where nothing does. */
export function withoutItInWords(missing: readonly string[], it: "it" | "them" = "it"): string {
  return missing.length === 0 ? "" : ` Without ${it} there is no ${shortList(missing)}.`;
}
