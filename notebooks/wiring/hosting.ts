/**
 * What a notebook needs of the runtime that hosts it, described by shape: a notebook uses only the
 * runtime that it is handed, so any copy of the runtime can host it, and these types may stand in
 * published declarations, where the ambient ones of the package would be lost.
 */
export interface RuntimeLike {
  module(): ModuleLike;
  /** The module of a notebook; the same notebook gives the same module each time. */
  module(define: Define, observer?: ObserverFactory): ModuleLike;
  dispose(): void;
}

/** Puts a notebook's cells into a new module of `runtime`. */
export type Define = (runtime: RuntimeLike, observer: ObserverFactory) => ModuleLike;

/** The cells of one notebook in a runtime. */
export interface ModuleLike {
  variable(observer?: ObserverLike | true | null): VariableLike;
  /** Replaces a cell; how a host without this project's own handle overrides one. */
  redefine(name: string, inputs: readonly string[], definition: Definition): VariableLike;
  /** The cell's value once everything that was edited has been computed. */
  value(name: string): Promise<unknown>;
}

/** One cell. */
export interface VariableLike {
  define(name: string | null, inputs: readonly string[], definition: Definition): VariableLike;
  import(name: string, module: ModuleLike): VariableLike;
  delete(): VariableLike;
}

/** Called with the values of the named inputs, in order. */
export type Definition = (...values: never[]) => unknown;

/** Who is told of a cell. */
export interface ObserverLike {
  pending?(): void;
  fulfilled?(value: unknown, name: string | null): void;
  rejected?(error: unknown, name: string | null): void;
}

/** `true` computes the cell and tells nobody; a missing observer leaves it uncomputed until something needs it. */
export type ObserverFactory = (name: string) => ObserverLike | true | null | undefined;
