import type { SetupDocument } from "./setupDocument.ts";

/** The document with every source that an entry names under another name; what stays the same stays the same object. */
export function mapSources(document: SetupDocument, change: (source: string) => string): SetupDocument {
  const whatIf = sameOr(document.whatIf, (entry) => {
    const source = change(entry.source);
    return source === entry.source ? entry : { ...entry, source };
  });
  const correlations = sameOr(document.correlations, (entry) => {
    const [one, other] = [change(entry.one), change(entry.other)];
    return one === entry.one && other === entry.other ? entry : { ...entry, one, other };
  });
  return whatIf === document.whatIf && correlations === document.correlations ? document : { ...document, whatIf, correlations };
}

function sameOr<T>(list: T[], change: (item: T) => T): T[] {
  const changed = list.map(change);
  return changed.every((item, i) => item === list[i]) ? list : changed;
}
