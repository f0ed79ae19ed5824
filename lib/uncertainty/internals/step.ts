import type { Binary, Solution, Unary } from "../uncertain.ts";

/** One step of a computation laid out flat; operands are the positions of earlier steps. */
export type Step =
  | { readonly kind: "constant"; readonly value: number }
  | { readonly kind: "source"; readonly value: number; readonly source: number }
  | { readonly kind: "unary"; readonly value: number; readonly name: Unary; readonly operand: number }
  | { readonly kind: "binary"; readonly value: number; readonly name: Binary; readonly left: number; readonly right: number }
  | { readonly kind: "solved"; readonly value: number; readonly work: SolvedWork; readonly index: number };

/** What the unknowns of one solution share: the steps of its inputs. */
export interface SolvedWork {
  readonly solution: Solution;
  readonly inputs: readonly number[];
}

const none: readonly never[] = [];

/** Positions of the steps that a step needs. */
export function operandsOfStep(step: Step): readonly number[] {
  switch (step.kind) {
    case "unary":
      return [step.operand];
    case "binary":
      return [step.left, step.right];
    case "solved":
      return step.work.inputs;
    default:
      return none;
  }
}
