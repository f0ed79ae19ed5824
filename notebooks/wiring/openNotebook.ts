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

  const settle = async (name: string) => {
    try {
      return await module.value(name);
    } catch (error) {
      throw graph.explain(name)?.error ?? error;
    }
  };

  return {
    runtime,
    set: (name, value) => graph.replace(name, [], () => value),
    add: (name, inputs, body) => graph.add(name, inputs, body),
    replace: (name, inputs, body) => graph.replace(name, inputs, body),
    remove: (name) => graph.remove(name),
    has: (name) => graph.has(name),
    explain: (name) => graph.explain(name),
    settled: async (names) => (await Promise.all(names.map(settle))) as ValuesOf<S, typeof names>,
    watch(name: string, watcher: CellWatcher<never>) {
      let open = true;
      const variable = module.variable({
        pending: () => open && watcher.pending?.(),
        fulfilled: (value) => open && watcher.fulfilled?.(value as never),
        rejected: (error) => open && watcher.failed?.(graph.explain(name) ?? { path: [name], error }),
      });
      variable.define(null, [name], (value) => value);
      return () => {
        // The runtime computes a deleted variable once more, to nothing.
        open = false;
        variable.delete();
      };
    },
  };
}

export interface OpenNotebook<S extends object> {
  /** Stops all its notebooks when it is disposed. */
  readonly runtime: RuntimeLike;

  /** Gives a cell a fixed value: fills an entry, or overrides a computed cell. */
  set<K extends CellName<S>>(name: K, value: S[K]): void;

  /** Resolves with the values of the named cells once every edit so far has been computed; rejects with what the failing cell threw. */
  settled<const N extends readonly CellName<S>[]>(names: N): Promise<ValuesOf<S, N>>;

  /** Keeps a cell computed and tells of every change, until the returned function is called. */
  watch<K extends CellName<S>>(name: K, watcher: CellWatcher<S[K]>): () => void;
  watch(name: string, watcher: CellWatcher<unknown>): () => void;

  /** Why a cell has no value, with the error's identity and the way to it; undefined if it has one. */
  explain(name: string): Failure | undefined;

  has(name: string): boolean;

  /** A cell of the person's own, whose names and types only its formula knows. Inputs may be missing: it fails until they appear. */
  add(name: string, inputs: readonly string[], body: (...values: never[]) => unknown): void;
  replace(name: string, inputs: readonly string[], body: Definition): void;
  remove(name: string): void;
}

export interface CellWatcher<T> {
  /** The value shown so far is out of date. */
  pending?(): void;
  fulfilled?(value: T): void;
  failed?(failure: Failure): void;
}
