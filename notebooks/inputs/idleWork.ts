/** Of an idle moment this many ms are left to the page. */
const leftOver = 3;
/** Where the page does not tell when it is idle, this many ms of work at a time. */
const slice = 8;

/** Work of many small parts, done bit by bit while the page is idle; what begins anew takes the place of what has not been done yet. */
export class IdleWork {
  private parts: Iterator<() => void> | undefined;
  private isAsked = false;

  begin(parts: Iterable<() => void>): void {
    this.parts = parts[Symbol.iterator]();
    this.ask();
  }

  private ask(): void {
    if (this.isAsked) return;
    this.isAsked = true;
    if (typeof requestIdleCallback === "function") requestIdleCallback((deadline) => this.work(() => deadline.timeRemaining() > leftOver));
    else {
      setTimeout(() => {
        const end = performance.now() + slice;
        this.work(() => performance.now() < end);
      });
    }
  }

  private work(hasTime: () => boolean): void {
    this.isAsked = false;
    // One part at least: a page that is never idle gets there too.
    do {
      const next = this.parts?.next();
      if (next === undefined || next.done === true) return;
      next.value();
    } while (hasTime());
    this.ask();
  }
}
