import { CellGraph, graphOf, isReserved, requireDistinct, requireFreeName, type reservedNames } from "./cellGraph.ts";
import type { Define, Definition, ModuleLike, ObserverFactory, RuntimeLike } from "./hosting.ts";

/**
 * Describes a notebook: `describe` names its cells in dataflow order, each with the cells above it that
 * it is computed from. `S` is the interface that lists every cell with the type of its value; it reads
 * as the notebook's table of contents.
 *
 *     interface PocketCells {
 *       left: number;
 *       right: number;
 *       middle: number;
 *     }
 *
 *     export default defineNotebook<PocketCells>((cells) => {
 *       cells.entry("left", 0);
 *       cells.entry("right", 30);
 *       cells.define("middle", ["left", "right"], (left, right) => (left + right) / 2);
 *     });
 *
 * @returns the classic `define(runtime, observer)`, which any copy of the runtime can host
 * @throws RangeError if a name is reserved or defined twice, if an input is named twice or is not
 *   defined above the cell that uses it
 */
export function defineNotebook<S extends object>(describe: (cells: Cells<S>) => void): NotebookDefine<S> {
  const steps = new Map<string, Step>();
  const add = (name: string, step: Step) => {
    requireFreeName(name, steps.has(name));
    steps.set(name, step);
  };
  describe({
    entry: (name, value) => add(name, { inputs: [], body: () => value }),
    define: (name, inputs, body) => {
      requireDistinct(name, inputs);
      requireAbove(name, inputs, steps);
      add(name, { inputs, body });
    },
    import: (from, names) => {
      for (const name of names) add(name, { from });
    },
  });
  return (runtime, observer) => build(runtime, observer, steps);
}

/** A notebook as a plain `define` function that remembers, for the type checker alone, what its cells hold. */
export interface NotebookDefine<S extends object> {
  (runtime: RuntimeLike, observer: ObserverFactory): ModuleLike;
  readonly [cellTypes]?: S;
}
declare const cellTypes: unique symbol;

/** What a notebook is described with: its cells, in dataflow order. */
export interface Cells<S extends object> {
  /** A cell that a person, a file or a host fills; it holds `value` until somebody does. */
  entry<K extends CellName<S>>(name: K, value: S[K]): void;

  /** A cell computed from cells above it. The body calls one function of lib; a formula belongs there. */
  define<K extends CellName<S>, const I extends readonly InputName<S>[]>(
    name: K,
    inputs: I & EachOnce<I>,
    body: (...values: ValuesOf<S & BuiltinCells, I>) => Computed<S[K]>,
  ): void;

  /** Cells of another notebook in the same runtime, under the same names. */
  import<K extends CellName<S>>(from: NotebookDefine<Pick<S, K>>, names: readonly K[]): void;
}

/** What the runtime itself offers as an input: a promise that is kept when the cell is about to be computed again. */
export interface BuiltinCells {
  readonly invalidation: Promise<void>;
}

/** What a body may return: the value, a promise of it, or a generator of better and better ones. */
export type Computed<T> = T | Promise<T> | Generator<T, void, unknown> | AsyncGenerator<T, void, unknown>;

export type CellName<S extends object> = Exclude<keyof S & string, (typeof reservedNames)[number]>;
export type InputName<S extends object> = CellName<S> | keyof BuiltinCells;

/** The values of the named cells, in order. */
export type ValuesOf<S, I extends readonly PropertyKey[]> = { -readonly [P in keyof I]: S[I[P] & keyof S] };

/** No further demand on distinct names; one that no list meets, and that says why, on a name given twice. */
export type EachOnce<I extends readonly unknown[]> = I extends readonly [infer First, ...infer Rest]
  ? First extends Rest[number]
    ? { readonly twice: First }
    : EachOnce<Rest>
  : unknown;

type Step = { readonly inputs: readonly string[]; readonly body: Definition } | { readonly from: Define };

function requireAbove(name: string, inputs: readonly string[], above: ReadonlyMap<string, Step>): void {
  const missing = inputs.find((input) => !above.has(input) && !isReserved(input));
  if (missing !== undefined) throw new RangeError(`cell "${name}": expected inputs that are defined above it, got "${missing}"`);
}

function build(runtime: RuntimeLike, observer: ObserverFactory, steps: ReadonlyMap<string, Step>): ModuleLike {
  // First of all: the runtime hands the module made for this notebook to the first who asks.
  const graph = new CellGraph(runtime.module());
  for (const [name, step] of steps) {
    if ("from" in step) graph.import(name, homeOf(name, runtime.module(step.from)), observer(name));
    else graph.add(name, step.inputs, step.body, observer(name));
  }
  return graph.module;
}

function homeOf(name: string, module: ModuleLike): CellGraph {
  const home = graphOf(module);
  if (!home?.has(name)) throw new RangeError(`cell "${name}": expected a cell of the notebook that it is imported from`);
  return home;
}
