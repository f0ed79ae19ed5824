import type { SelfTimed } from "./benchmark.ts";

/**
 * Work in this process, timed by what it takes of the processors (its compiler and garbage collector included) and not by the clock on the wall,
 * which other programs hold up.
 */
export function processorTime(run: () => unknown, note?: () => string): SelfTimed {
  return {
    measure() {
      const before = process.cpuUsage();
      run();
      const { user, system } = process.cpuUsage(before);
      return (user + system) / 1000;
    },
    ...(note ? { note } : {}),
  };
}
