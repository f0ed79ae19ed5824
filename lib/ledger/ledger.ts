import { failure, type Outcome, type Problem } from "../base/outcome.ts";
import { type CellLookup, type CellValue, lookupIn } from "./cellValue.ts";
import { type DependencyOrder, dependencyOrder } from "./dependencyOrder.ts";

/** A cell of a person's own, or a column of a free table: a name, and how its value follows from what it names. */
export interface LedgerCell {
  readonly name: string;
  /** Its entry in the document. */
  readonly place: string;
  /** Every name in its formula, each once. */
  readonly uses: readonly string[];
  /** In which its value is shown, as typed; empty for the usual ones. */
  readonly shown: { readonly unit: string; readonly decimals: string };
  /** Equal for cells that work alike. */
  readonly signature: string;
  evaluate(lookup: CellLookup): Outcome<CellValue>;
}

/** Cells that may use each other, and names from elsewhere. */
export interface Ledger extends Needs {
  /** By name, in the order in which they stand in the document. */
  readonly cells: ReadonlyMap<string, LedgerCell>;
}

/** Who needs whom. It is the same object as long as every cell names what it named before: most edits leave it as it is. */
interface Needs {
  /** What each cell names, as it is typed: also where that goes in a circle. */
  readonly needs: ReadonlyMap<string, readonly string[]>;
  /** Names, each after those that it needs. */
  readonly order: readonly string[];
  /** Cells that need nothing but each other: entries of the setup may use these. */
  readonly free: ReadonlySet<string>;
}

/** What stands in a circle is told the way round, and has no value. */
export function ledgerOf(cells: readonly LedgerCell[]): Ledger {
  const { needs, order, circles, free } = orderOf(cells);
  const known = new Map(
    cells.map((cell) => {
      const circle = circles.get(cell.name);
      return [
        cell.name,
        circle === undefined
          ? cell
          : { ...cell, uses: [], signature: `circle ${circle.join(" ")}`, evaluate: () => failure(circular(cell, circle)) },
      ];
    }),
  );
  return { cells: known, needs, order, free };
}

/** As it was worked out last. */
let lastOrder: (Needs & Pick<DependencyOrder, "circles">) | undefined;

function orderOf(cells: readonly LedgerCell[]): NonNullable<typeof lastOrder> {
  if (lastOrder !== undefined && areNeedsOf(cells, lastOrder.needs)) return lastOrder;
  const needs = new Map(cells.map(({ name, uses }) => [name, uses]));
  const { order, circles } = dependencyOrder(needs);
  const free = new Set(circles.keys());
  for (const name of order) if (needs.get(name)?.every((needed) => free.has(needed))) free.add(name);
  lastOrder = { needs, order: [...circles.keys(), ...order], circles, free };
  return lastOrder;
}

/** In the same order. */
function areNeedsOf(cells: readonly LedgerCell[], needs: Needs["needs"]): boolean {
  if (cells.length !== needs.size) return false;
  let i = 0;
  for (const [name, uses] of needs) {
    const cell = cells[i++] as LedgerCell;
    if (cell.name !== name) return false;
    if (cell.uses !== uses && (cell.uses.length !== uses.length || cell.uses.some((used, j) => used !== uses[j]))) return false;
  }
  return true;
}

function circular({ place }: LedgerCell, way: readonly string[]): Problem {
  return { at: place, what: `this needs itself: ${way.join(" needs ")}`, remedy: "take one of these names out of its formula" };
}

/** The values of the cells that need nothing but each other. */
export function evaluateFree({ cells, order, free }: Ledger): ReadonlyMap<string, Outcome<CellValue>> {
  const values = new Map<string, Outcome<CellValue>>();
  for (const name of order) if (free.has(name)) values.set(name, (cells.get(name) as LedgerCell).evaluate(values));
  return values;
}

/**
 * The values of all cells, each from those before it.
 *
 * @param elsewhere names that are no cells: the quantities of the setup
 * @param free the values of free cells: a source is made only once, so they are taken from here
 */
export function evaluateLedger(
  ledger: Ledger,
  elsewhere: CellLookup,
  free: ReadonlyMap<string, Outcome<CellValue>> = evaluateFree(ledger),
): ReadonlyMap<string, Outcome<CellValue>> {
  const values = new Map(free);
  const lookup = lookupIn(values, elsewhere);
  for (const name of ledger.order) if (!values.has(name)) values.set(name, (ledger.cells.get(name) as LedgerCell).evaluate(lookup));
  return values;
}
