import type { Definition, ModuleLike, ObserverLike, VariableLike } from "./hosting.ts";
import { remembering, type ThrownError } from "./remembering.ts";

/** Why a cell has no value. */
export interface Failure {
  /** From the cell that was asked about to the one where the trouble is; the second, if any, is the input that the first waits for. */
  readonly path: readonly string[];
  /** What the last cell of the path threw, the very object. */
  readonly error: unknown;
}

/** Names that mean something to the runtime itself and so cannot be cells. */
export const reservedNames = ["invalidation", "visibility", "@variable"] as const;

interface Cell extends ThrownError {
  readonly variable: VariableLike;
  inputs: readonly string[];
  /** The graph that an imported cell really lives in. */
  readonly home?: CellGraph;
}

/**
 * The named cells of one module, and the only place that defines any.
 *
 * The runtime hands a cell's error on as a new error with the message alone, so that one cell further
 * down its class is gone. The graph therefore remembers what each body threw, and finds it again from
 * any cell that depends on it.
 */
export class CellGraph {
  readonly module: ModuleLike;
  private readonly cells = new Map<string, Cell>();

  constructor(module: ModuleLike) {
    this.module = module;
    graphs.set(module, this);
  }

  has(name: string): boolean {
    return this.cells.has(name);
  }

  /** @throws RangeError if the name is reserved or taken, or an input is named twice */
  add(name: string, inputs: readonly string[], body: Definition, observer?: ObserverLike | true | null): void {
    requireFreeName(name, this.has(name));
    requireDistinct(name, inputs);
    const cell: Cell = { variable: this.module.variable(observer), inputs };
    this.cells.set(name, cell);
    cell.variable.define(name, inputs, remembering(cell, body));
  }

  /** @throws RangeError if the name is taken */
  import(name: string, home: CellGraph, observer?: ObserverLike | true | null): void {
    requireFreeName(name, this.has(name));
    const variable = this.module.variable(observer);
    this.cells.set(name, { variable, inputs: [], home });
    variable.import(name, home.module);
  }

  /** Gives a cell another body; whatever depends on it is computed again. @throws RangeError if there is no such cell */
  replace(name: string, inputs: readonly string[], body: Definition): void {
    const cell = this.cell(name);
    if (cell.home) throw new RangeError(`cell "${name}": expected a cell of this notebook, got an imported one; replace it at its home`);
    requireDistinct(name, inputs);
    cell.inputs = inputs;
    delete cell.thrown;
    cell.variable.define(name, inputs, remembering(cell, body));
  }

  /** Cells that depend on it fail until the name is defined again. @throws RangeError if there is no such cell */
  remove(name: string): void {
    this.cell(name).variable.delete();
    this.cells.delete(name);
  }

  /**
   * Why a cell has no value, read off the cells above it; undefined if nothing above it failed.
   * Sure once the cell has settled: until then the answer is that of the last computation.
   */
  explain(name: string): Failure | undefined {
    return this.search([name], new Map());
  }

  private search(path: readonly string[], seen: Map<Cell, "entered" | "sound">): Failure | undefined {
    const name = path[path.length - 1] as string;
    const cell = this.cells.get(name);
    if (!cell) return { path, error: new RangeError(`${name} is not a cell of this notebook`) };
    if (seen.get(cell) === "sound") return undefined;
    if (seen.get(cell) === "entered") return { path, error: new RangeError(`circular definition: ${path.join(" needs ")}`) };
    if (cell.home) return cell.home.search(path, seen);
    seen.set(cell, "entered");
    for (const input of cell.inputs) {
      const failure = isReserved(input) ? undefined : this.search([...path, input], seen);
      if (failure) return failure;
    }
    // Only now: while an input fails the body is not run, and what it threw before is out of date.
    if (cell.thrown) return { path, error: cell.thrown.error };
    seen.set(cell, "sound");
    return undefined;
  }

  private cell(name: string): Cell {
    const cell = this.cells.get(name);
    if (!cell) throw new RangeError(`name: expected a cell of this notebook, got "${name}"`);
    return cell;
  }
}

/** The graph behind a module; undefined for a module that this project did not define. */
export function graphOf(module: ModuleLike): CellGraph | undefined {
  return graphs.get(module);
}

const graphs = new WeakMap<ModuleLike, CellGraph>();

export function isReserved(name: string): boolean {
  return (reservedNames as readonly string[]).includes(name);
}

export function requireFreeName(name: string, taken: boolean): void {
  if (isReserved(name)) throw new RangeError(`name: expected none of ${reservedNames.join(", ")}, got "${name}"`);
  if (name === "") throw new RangeError("name: expected at least one character, got none");
  if (taken) throw new RangeError(`name: expected one that no cell has yet, got "${name}"`);
}

/** The runtime mends only the first of two references when a missing input appears, so the second would fail for ever. */
export function requireDistinct(name: string, inputs: readonly string[]): void {
  const twice = inputs.find((input, index) => inputs.indexOf(input) !== index);
  if (twice !== undefined) throw new RangeError(`cell "${name}": expected each input once, got "${twice}" twice`);
}
