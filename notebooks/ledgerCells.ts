import type { Outcome } from "../lib/base/outcome.ts";
import { nameClashes } from "../lib/decision/nameClashes.ts";
import type { QuantityLookup } from "../lib/decision/setupQuantities.ts";
import { boundCells, type FreeCells, type ReadLedger } from "../lib/document/readLedger.ts";
import { type CellLookup, type CellValue, lookupIn } from "../lib/ledger/cellValue.ts";
import type { Ledger, LedgerCell } from "../lib/ledger/ledger.ts";
import type { SetupCells } from "./setup.ts";
import type { OpenNotebook } from "./wiring/openNotebook.ts";

/** The cell of the notebook that holds a person's own cell of this name. */
function keyOf(name: string): string {
  return `cell ${name}`;
}

interface DefinedCell {
  /** As it was read last. */
  readonly cell: LedgerCell;
  /** Equal for cells that work alike among the same others. */
  readonly signature: string;
}

/**
 * A person's own cells in the runtime: each is a cell of the notebook, computed anew when something that it names has changed. `names` gathers
 * those that entries of the setup may use, `own` gathers all.
 */
export class LedgerCells {
  private readonly notebook: Pick<OpenNotebook<SetupCells>, "free">;
  private readonly known = new Map<string, DefinedCell>();
  private needs: Ledger["needs"] | undefined;
  /** Of all cells, and of those that are free. */
  private names = "";
  private gathered = "";
  private doubts: ReadLedger["doubts"] | undefined;
  private latest: ReadLedger | undefined;

  constructor(notebook: Pick<OpenNotebook<SetupCells>, "free">) {
    this.notebook = notebook;
  }

  /** What they were filled with last. */
  get read(): ReadLedger | undefined {
    return this.latest;
  }

  /** @param named cells that entries of the setup name: a change of any other leaves the setup as it is */
  fill(read: ReadLedger, named: ReadonlySet<string>): void {
    this.latest = read;
    const { ledger, problems, overridden, doubts } = read;
    const { cells, free } = ledger;
    for (const name of [...this.known.keys()]) if (!cells.has(name)) this.remove(name);
    // Whether what a cell names is a cell can only change where the names change.
    const isAsBefore = ledger.needs === this.needs;
    this.needs = ledger.needs;
    for (const cell of cells.values()) if (!isAsBefore || this.known.get(cell.name)?.cell !== cell) this.define(cell, cells);
    if (!isAsBefore) this.names = JSON.stringify([[...cells.keys()], [...free]]);
    const gathered = `${this.names} ${JSON.stringify([[...overridden], [...named], problems])}`;
    if (gathered === this.gathered && doubts === this.doubts) return;
    this.gathered = gathered;
    this.doubts = doubts;
    const names = [...cells.keys()];
    const bound = boundCells(ledger);
    const known = names.filter((name) => free.has(name));
    const usable = known.filter((name) => named.has(name));
    this.gather("names", usable, (values): FreeCells => ({ values, known, bound, overridden, doubts }));
    this.gather("own", names, (values) => values);
    this.notebook.free.replace("unnamed", ["quantities"], (quantities) => [
      ...problems,
      ...nameClashes({ cells }, quantities as QuantityLookup),
    ]);
  }

  private define(cell: LedgerCell, cells: Ledger["cells"]): void {
    const { name, uses } = cell;
    const own = uses.filter((used) => cells.has(used));
    const signature = `${cell.signature} ${own.join(" ")}`;
    if (this.known.get(name)?.signature === signature) {
      this.known.set(name, { cell, signature });
      return;
    }
    const inputs = [...own.map(keyOf), ...(own.length < uses.length ? ["quantities"] : [])];
    const body = (...values: unknown[]) => {
      const found: CellLookup = new Map(own.map((used, i) => [used, values[i] as Outcome<CellValue>]));
      return cell.evaluate(own.length < uses.length ? lookupIn(found, values[own.length] as CellLookup) : found);
    };
    const { free } = this.notebook;
    if (this.known.has(name)) free.replace(keyOf(name), inputs, body);
    else free.add(keyOf(name), inputs, body);
    this.known.set(name, { cell, signature });
  }

  private remove(name: string): void {
    this.notebook.free.remove(keyOf(name));
    this.known.delete(name);
  }

  private gather(into: "names" | "own", names: readonly string[], of: (values: FreeCells["values"]) => unknown): void {
    const body = (...values: unknown[]) => of(new Map(names.map((name, i) => [name, values[i] as Outcome<CellValue>])));
    this.notebook.free.replace(into, names.map(keyOf), body);
  }
}
