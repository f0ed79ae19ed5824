import { once } from "../base/once.ts";
import type { Solver } from "./uncertain.ts";

/**
 * A solver that is made when it is first asked: for rules that take some work to set up and are rarely tried.
 *
 * @param outputCount of what is made
 */
export function lateSolver(outputCount: number, make: () => Solver): Solver {
  const made = once(make);
  return {
    outputCount,
    solve: (inputs, outputs) => made().solve(inputs, outputs),
    sensitivities: (inputs, outputs) => made().sensitivities(inputs, outputs),
  };
}
