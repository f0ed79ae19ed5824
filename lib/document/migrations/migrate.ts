import { from1 } from "./from1.ts";

/**
 * One step from a version to the next, on data that nobody has checked yet: entries that are missing or of the wrong kind are passed on as they
 * are, for the check that follows to tell.
 */
export type Migration = (data: Readonly<Record<string, unknown>>) => Record<string, unknown>;

/** The first takes version 1 to version 2, and so on. What they have done once they do for ever: a step is never changed. */
const steps: readonly Migration[] = [from1];

/** The data of a document of this version as the newest version has it. */
export function migrate(data: Readonly<Record<string, unknown>>, version: number): Readonly<Record<string, unknown>> {
  return steps.slice(version - 1).reduce((each, step) => step(each), data);
}
