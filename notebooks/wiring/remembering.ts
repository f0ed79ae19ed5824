import type { Definition } from "./hosting.ts";

/** Where a body's last error is kept; empty once the body has been started again. */
export interface ThrownError {
  thrown?: { readonly error: unknown };
}

/** The same body, which leaves what it throws in `memory`: at once, when its promise fails, or when its generator does. */
export function remembering(memory: ThrownError, body: Definition): Definition {
  const remember = (error: unknown) => {
    memory.thrown = { error };
  };
  return (...values) => {
    delete memory.thrown;
    const result = watchingFor(remember, () => body(...values));
    return isGenerator(result) ? rememberingGenerator(remember, result) : result;
  };
}

/** Runs `work` and tells of what it throws, now or when its promise is settled; hands everything on as it is. */
function watchingFor(remember: (error: unknown) => void, work: () => unknown): unknown {
  try {
    const result = work();
    if (result instanceof Promise) result.then(undefined, remember);
    return result;
  } catch (error) {
    remember(error);
    throw error;
  }
}

type AnyGenerator = Generator<unknown, unknown, unknown> | AsyncGenerator<unknown, unknown, unknown>;

/** The runtime's own test for one. */
function isGenerator(value: unknown): value is AnyGenerator {
  const { next, return: end } = (value ?? {}) as Partial<AnyGenerator>;
  return typeof next === "function" && typeof end === "function";
}

/** Only the two members that the runtime calls. */
function rememberingGenerator(remember: (error: unknown) => void, generator: AnyGenerator) {
  return {
    next: (value: unknown) => watchingFor(remember, () => generator.next(value)),
    return: (value: unknown) => generator.return(value),
  };
}
