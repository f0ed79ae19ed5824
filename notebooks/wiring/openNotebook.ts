import { CellGraph, type Failure, graphOf } from "./cellGraph.ts";
import type { CellName, NotebookDefine, ValuesOf } from "./cells.ts";
import { createRuntime } from "./createRuntime.ts";
import type { Definition, RuntimeLike } from "./hosting.ts";

/**
 * Runs a notebook. Nothing is computed until it is watched or waited for. Several notebooks opened in
 * one runtime share the cells that they import from each other.
 */
export function openNotebook<S extends object>(notebook: NotebookDefine<S>, runtime: RuntimeLike = createRuntime()): OpenNotebook<S> {
  const module = runtime.module(notebook);
  const graph = graphOf(module) ?? new CellGraph(module);
  const settled = (names: readonly string[]) => Promise.all(names.map((name) => settle(graph, name)));
  const watch = (name: string, watcher: CellWatcher<never>) => watchCell(graph, name, watcher);
  return {
    runtime,
    set: (name, value) => graph.replace(name, [], () => value),
    settled: (names) => settled(names) as Promise<ValuesOf<S, typeof names>>,
    watch,
    explain: (name) => graph.explain(name),
    free: {
      has: (name) => graph.has(name),
      add: (name, inputs, body) => graph.add(name, inputs, body),
      replace: (name, inputs, body) => graph.replace(name, inputs, body),
      remove: (name) => graph.remove(name),
      settled,
      watch,
    },
  };
}

/** A notebook that runs. */
export interface OpenNotebook<S extends object> {
  /** Disposing of it stops every notebook in it. */
  readonly runtime: RuntimeLike;

  /** Gives a cell a fixed value: fills an entry, or overrides a computed cell. */
  set<K extends CellName<S>>(name: K, value: S[K]): void;

  /** Resolves with the values of the named cells once every edit so far has been computed; rejects with what the failing cell threw. */
  settled<const N extends readonly CellName<S>[]>(names: N): Promise<ValuesOf<S, N>>;

  /** Keeps a cell computed and tells of every change, until the returned function is called. */
  watch<K extends CellName<S>>(name: K, watcher: CellWatcher<S[K]>): () => void;

  /** Why a cell has no value, with the error's identity and the way to it; undefined if it has one. */
  explain(name: string): Failure | undefined;

  /** The same notebook for cells that only a document or a person knows, so that their names and types cannot be checked beforehand. */
  readonly free: FreeCells;
}

export interface FreeCells {
  has(name: string): boolean;
  /** A cell beside the notebook's own. An input may be missing: the cell fails until it appears. @throws RangeError as `CellGraph.add` */
  add(name: string, inputs: readonly string[], body: Definition): void;
  /** Gives any cell another body. @throws RangeError as `CellGraph.replace` */
  replace(name: string, inputs: readonly string[], body: Definition): void;
  /** Cells that depend on it fail until the name is added again. @throws RangeError if there is no such cell */
  remove(name: string): void;
  settled(names: readonly string[]): Promise<unknown[]>;
  watch(name: string, watcher: CellWatcher<unknown>): () => void;
}

/** Who watches a cell that may come and go. */
export interface CellWatcher<T> {
  /** The value shown so far is out of date. */
  readonly pending?: () => void;
  readonly fulfilled?: (value: T) => void;
  readonly failed?: (failure: Failure) => void;
}

async function settle(graph: CellGraph, name: string): Promise<unknown> {
  try {
    return await graph.module.value(name);
  } catch (error) {
    throw graph.explain(name)?.error ?? error;
  }
}

/** By a nameless cell that depends on the watched one: it can come and go while the cell itself stays. */
function watchCell(graph: CellGraph, name: string, watcher: CellWatcher<never>): () => void {
  let open = true;
  const variable = graph.module.variable({
    pending: () => open && watcher.pending?.(),
    fulfilled: (value) => open && watcher.fulfilled?.(value as never),
    rejected: (error) => open && watcher.failed?.(graph.explain(name) ?? { path: [name], error }),
  });
  variable.define(null, [name], (value) => value);
  return () => {
    // First, because the runtime computes a deleted cell once more, to nothing.
    open = false;
    variable.delete();
  };
}
