import type { SelfTimed } from "./benchmark.ts";

/**
 * Work in this process, timed by what it takes of the processors (its compiler and garbage collector included) and not by the clock on the wall,
 * which other programs hold up.
 *
 * @param repeats how often the work is done for one measure, which is of one
 */
export function processorTime(run: () => unknown, note?: () => string, repeats = 1): SelfTimed {
  return {
    measure() {
      const before = process.cpuUsage();
      for (let k = 0; k < repeats; k++) run();
      const { user, system } = process.cpuUsage(before);
      return (user + system) / 1000 / repeats;
    },
    ...(note ? { note } : {}),
  };
}
