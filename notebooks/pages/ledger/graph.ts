import { entriesNaming } from "../../../lib/document/entriesNaming.ts";
import type { ReadLedger } from "../../../lib/document/readLedger.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { cellSourceId } from "../../../lib/ledger/cellSource.ts";
import { usersOf } from "../../../lib/ledger/dependencyOrder.ts";
import type { TraceGraph } from "../../figures/trace/traceOf.ts";

/** Who names whom: cells and columns of a person's own, results of the setup by their names, its entries by their places. */
export class LedgerGraph implements TraceGraph {
  private readonly needs: ReadonlyMap<string, readonly string[]>;
  private readonly direct = new Map<string, string[]>();
  private readonly entries: ReadonlyMap<string, readonly string[]>;
  private readonly document: SetupDocument;
  private readonly missed = new Map<string, readonly string[]>();

  constructor(document: SetupDocument, { ledger }: ReadLedger) {
    this.document = document;
    this.needs = ledger.needs;
    for (const [user, names] of this.needs)
      for (const name of names) {
        const known = this.direct.get(name);
        if (known) known.push(user);
        else this.direct.set(name, [user]);
      }
    const entries = new Map(entriesNaming(document, this.needs));
    for (const { id, one, other } of document.correlations)
      for (const name of this.needs.keys())
        if (cellSourceId(name) === one || cellSourceId(name) === other)
          entries.set(name, [...(entries.get(name) ?? []), `correlations.${id}`]);
    this.entries = entries;
  }

  /** Whether everybody still names what was named when it was made. */
  isOf(document: SetupDocument, { ledger }: ReadLedger): boolean {
    const sections = Object.keys(document) as (keyof SetupDocument)[];
    return ledger.needs === this.needs && sections.every((each) => each === "ledger" || document[each] === this.document[each]);
  }

  needsOf(name: string): readonly string[] {
    return this.needs.get(name) ?? this.namedBy(name);
  }

  usersOf(name: string): readonly string[] {
    return [...(this.direct.get(name) ?? []), ...(this.entries.get(name) ?? [])];
  }

  isOwn(name: string): boolean {
    return this.needs.has(name);
  }

  /** Everything that would miss it, directly or by way of others. */
  missing(name: string): readonly string[] {
    const known = this.missed.get(name);
    if (known !== undefined) return known;
    const users = usersOf(name, this.needs);
    const missed = [...users, ...[name, ...users].flatMap((each) => this.entries.get(each) ?? [])];
    this.missed.set(name, missed);
    return missed;
  }

  /** What an entry of the setup names. */
  private namedBy(place: string): readonly string[] {
    return [...this.entries].flatMap(([name, places]) => (places.includes(place) ? [name] : []));
  }
}
