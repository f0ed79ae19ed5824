import type { SectionName } from "./layout.ts";

/** A section, a row, an entry or a result that can be found and gone to. */
export interface Findable {
  readonly section: SectionName;
  /** Of the row, the cell or the result that it belongs to. */
  readonly name: string;
  /** Which entry or result of a row it is, or what is known of it in words; may be empty. */
  readonly label: string;
  /** Whether the name is that of its row, which is found by it itself. */
  readonly isPart: boolean;
  /** What it holds or shows; told, and sought only where `isSought`. */
  readonly text: () => string;
  /** Whether what it shows is sought too: not where that would have to be worked out first. */
  readonly isSought: boolean;
  readonly goTo: () => void;
}

/**
 * What has all the words, best first: the name itself, or that of a row with its label, then names that begin with what is sought, names with all the words, names and labels, and what
 * only shows some of them; each in the order given. What is found by the name of its row alone is left to the row. Minus signs and blanks are alike, however typed.
 */
export function findIn(sought: string, all: Iterable<Findable>): readonly Findable[] {
  const wanted = plain(sought).trim();
  const words = wanted.split(" ");
  if (wanted === "") return [];
  const ranked: [Findable[], Findable[], Findable[], Findable[], Findable[]] = [[], [], [], [], []];
  for (const each of all) {
    const rank = rankOf(each, wanted, words);
    if (rank !== undefined) ranked[rank].push(each);
  }
  return ranked.flat();
}

function rankOf(each: Findable, wanted: string, words: readonly string[]): 0 | 1 | 2 | 3 | 4 | undefined {
  const [name, label] = [plain(each.name), plain(each.label)];
  const left = words.filter((word) => !name.includes(word));
  if (left.length === 0) {
    if (each.isPart && !label.includes(wanted)) return undefined;
    return name === wanted ? 0 : name.startsWith(wanted) ? 1 : 2;
  }
  if (each.isPart && wanted.startsWith(`${name} `) && `${name} ${label}`.startsWith(wanted)) return wanted.endsWith(label) ? 0 : 1;
  const unlabelled = left.filter((word) => !label.includes(word));
  if (unlabelled.length === 0) return 3;
  if (!each.isSought) return undefined;
  const text = plain(each.text());
  return unlabelled.every((word) => text.includes(word)) ? 4 : undefined;
}

function plain(text: string): string {
  return text.toLowerCase().replaceAll("−", "-").replace(/\s+/g, " ");
}
