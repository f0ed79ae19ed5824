import type { Judgement } from "../../tolerance/judgeStrategy.ts";
import type { Stack } from "../../tolerance/stack.ts";

/** The stack of a characteristic; undefined when it is not known. */
export function stackNamed({ stacks }: Judgement, characteristic: string | undefined): Stack | undefined {
  return stacks.flatMap((stack) => (stack.ok ? [stack.value] : [])).find((stack) => stack.characteristic === characteristic);
}

/** The stack of the bottleneck. */
export function bottleneckStack(judgement: Judgement): Stack | undefined {
  return stackNamed(judgement, judgement.bottleneck);
}
