/** Runs steps to their end, telling of every one but the last, which is returned. */
export function runToEnd<T>(steps: Generator<T, T>, tell: (step: T) => void): T {
  for (;;) {
    const { value, done } = steps.next();
    if (done) return value;
    tell(value);
  }
}
