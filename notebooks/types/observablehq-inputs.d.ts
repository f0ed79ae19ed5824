// @observablehq/inputs 0.12.0 ships no types; only what is used here.
declare module "@observablehq/inputs" {
  export interface ChoiceOptions<T> {
    readonly value?: T;
    readonly label?: string;
  }
  /** One choice of several; emits `input` when a person chooses. */
  export function radio<T>(choices: ReadonlyMap<string, T>, options?: ChoiceOptions<T>): HTMLFormElement & { value: T };
}
