import type { Distribution } from "../../lib/uncertainty/distribution.ts";

/** Chance beyond either end of what is drawn of a distribution. */
const beyond = 0.0005;

/** What is drawn of the axis: the same for the linear distribution and all that is laid over it. */
export function drawnRange(linear: Distribution): readonly [from: number, to: number] {
  return [linear.quantile(beyond), linear.quantile(1 - beyond)];
}
