import { entriesNaming } from "../../../lib/document/entriesNaming.ts";
import type { ReadLedger } from "../../../lib/document/readLedger.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { usersOf } from "../../../lib/ledger/dependencyOrder.ts";
import type { TraceGraph } from "../../figures/trace/traceOf.ts";

/** Who names whom: cells and columns of a person's own, results of the setup by their names, its entries by their places. */
export class LedgerGraph implements TraceGraph {
  private readonly document: SetupDocument;
  private readonly needs: ReadonlyMap<string, readonly string[]>;
  private readonly direct = new Map<string, string[]>();
  private readonly entries = new Map<string, readonly string[]>();

  constructor(document: SetupDocument, { ledger: { cells } }: ReadLedger) {
    this.document = document;
    this.needs = new Map([...cells.values()].map(({ name, uses }) => [name, uses]));
    for (const [user, names] of this.needs) for (const name of names) this.direct.set(name, [...(this.direct.get(name) ?? []), user]);
  }

  needsOf(name: string): readonly string[] {
    return this.needs.get(name) ?? this.namedBy(name);
  }

  usersOf(name: string): readonly string[] {
    return [...(this.direct.get(name) ?? []), ...this.setupEntries(name)];
  }

  isOwn(name: string): boolean {
    return this.needs.has(name);
  }

  /** Everything that would miss it, directly or by way of others. */
  missing(name: string): readonly string[] {
    const users = usersOf(name, this.needs);
    return [...users, ...[name, ...users].flatMap((each) => this.setupEntries(each))];
  }

  /** Entries of the setup in which a cell of a person's own stands; the ledger's are known by its cells. */
  private setupEntries(name: string): readonly string[] {
    if (!this.needs.has(name)) return [];
    const known = this.entries.get(name);
    if (known !== undefined) return known;
    const found = entriesNaming(this.document, name).filter((place) => !place.startsWith("ledger."));
    this.entries.set(name, found);
    return found;
  }

  /** Of an entry of the setup that has been asked for as a user. */
  private namedBy(place: string): readonly string[] {
    return [...this.entries].flatMap(([name, places]) => (places.includes(place) ? [name] : []));
  }
}
