import { chai, TestRunner } from "vitest";

/** What a test of a published document compared; in its `meta`, so that the reporter can write the list. */
export interface PublishedChecks {
  /** Numbers that had to come out within a bound of the published ones, by that bound. */
  readonly bounds: number[];
  /** How many had to come out as they are. */
  exact: number;
}

declare module "vitest" {
  interface TaskMeta {
    published?: PublishedChecks;
  }
}

/** By how much what is asserted may differ: of a difference the bound, of a value its decimals. */
const within: Readonly<Record<string, (bound: number) => number>> = {
  toBeLessThanOrEqual: (bound) => bound,
  toBeLessThan: (bound) => bound,
  toBeCloseTo: (decimals) => 0.5 * 10 ** -decimals,
};

const marked = chai.Assertion.prototype as { recordsChecks?: true };

// Files share what is loaded: once is enough.
if (marked.recordsChecks === undefined) {
  marked.recordsChecks = true;
  for (const [name, boundOf] of Object.entries(within)) {
    watch(name, (checks, args) => checks.bounds.push(boundOf(Number(args[name === "toBeCloseTo" ? 1 : 0] ?? 2))));
  }
  for (const name of ["toBe", "toEqual"]) {
    watch(name, (checks) => {
      checks.exact += 1;
    });
  }
}

function watch(name: string, record: (checks: PublishedChecks, args: readonly unknown[]) => void): void {
  chai.util.overwriteMethod(chai.Assertion.prototype, name, (original: (...args: unknown[]) => unknown) => {
    return function (this: unknown, ...args: unknown[]) {
      const test = TestRunner.getCurrentTest();
      if (test?.file.filepath.includes("/tests/published/")) {
        test.meta.published ??= { bounds: [], exact: 0 };
        record(test.meta.published, args);
      }
      return original.apply(this, args);
    };
  });
}
