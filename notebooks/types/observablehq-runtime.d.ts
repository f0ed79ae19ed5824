/**
 * The public members of @observablehq/runtime 6.0.1, which ships no types.
 *
 * Ambient declarations do not travel with published types, so no exported signature may mention them:
 * `wiring/hosting.ts` holds the structural types that may be exported.
 */
declare module "@observablehq/runtime" {
  /** Called with the values of the named inputs, in order. */
  export type Definition = (...inputs: never[]) => unknown;

  export interface Observer {
    pending?(): void;
    fulfilled?(value: unknown, name: string | null): void;
    rejected?(error: unknown, name: string | null): void;
  }

  /** `true` computes the cell and tells nobody; a missing observer leaves it uncomputed until something needs it. */
  export type ObserverFactory = (name: string) => Observer | true | null | undefined;

  export class Variable {
    private constructor();
    define(name: string | null, inputs: readonly string[], definition: Definition): this;
    import(name: string, module: Module): this;
    import(name: string, alias: string, module: Module): this;
    delete(): this;
  }

  export class Module {
    private constructor();
    define(name: string | null, inputs: readonly string[], definition: Definition): Variable;
    redefine(name: string, inputs: readonly string[], definition: Definition): Variable;
    import(name: string, module: Module): Variable;
    import(name: string, alias: string, module: Module): Variable;
    derive(injections: readonly (string | { readonly name: string; readonly alias?: string })[], module: Module): Module;
    variable(observer?: Observer | true | null): Variable;
    value(name: string): Promise<unknown>;
  }

  export class Runtime {
    /** `global` answers the names that no cell defines; without it they are read from globalThis. */
    constructor(builtins?: Readonly<Record<string, unknown>> | null, global?: (name: string) => unknown);
    module(): Module;
    module(define: (runtime: Runtime, observer: ObserverFactory) => unknown, observer?: ObserverFactory): Module;
    dispose(): void;
  }

  export class RuntimeError extends Error {
    constructor(message: string, input?: string);
    /** The input that failed, where one did. */
    readonly input: string | undefined;
  }
}
