import type { Problem } from "../base/outcome.ts";
import { isCellSource } from "../ledger/cellSource.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";

/** Suppositions about sources on which nothing of the setup rests: they change nothing, which a person must know. To be asked once everything is worked out. */
export function unknownSources(book: SourceBook): Problem[] {
  return book.withoutEffect().flatMap((id) => (isCellSource(id) ? [] : [changesNothing(id)]));
}

function changesNothing(source: string): Problem {
  return {
    at: `whatIf.${source}`,
    what: "no result rests on a source of this name, so what is supposed of it changes nothing",
    got: source,
    remedy: "take it back, or name a source as a budget lists it",
  };
}
