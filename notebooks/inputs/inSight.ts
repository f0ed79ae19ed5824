import { setAttribute } from "./html.ts";
import { whenPrinted } from "./printing.ts";

/** Room at the foot of the window that the title block covers, pixels. */
const covered = 56;
/** Work out of sight begins when nothing new has come for this many ms: a person who types is not kept waiting by what is not looked at. */
const pauseOfTyping = 150;
/** And is then done at last after this many ms, however busy the page is. */
const latest = 300;

/**
 * Puts what can be seen first: work on a part of the page that is in sight is done at once, other work when the page is idle, or before the
 * part comes into sight or goes on paper. Until then the part says that it is busy.
 */
export class InSight {
  private readonly element: HTMLElement;
  private isSeen = true;
  private pause: ReturnType<typeof setTimeout> | undefined;
  private waiting: (() => void) | undefined;

  constructor(element: HTMLElement) {
    this.element = element;
    if (typeof IntersectionObserver !== "function" || typeof requestIdleCallback !== "function") return;
    const look = ([entry]: readonly IntersectionObserverEntry[]) => {
      this.isSeen = entry?.isIntersecting !== false;
      if (this.isSeen) this.finish();
    };
    new IntersectionObserver(look, { rootMargin: `0px 0px -${covered}px 0px` }).observe(element);
    whenPrinted(element, () => this.finish());
  }

  /** Of several works that wait, the last counts. */
  run(work: () => void): void {
    this.waiting = work;
    if (this.isSeen) {
      this.finish();
      return;
    }
    setAttribute(this.element, "aria-busy", "true");
    clearTimeout(this.pause);
    this.pause = setTimeout(() => requestIdleCallback(() => this.finish(), { timeout: latest }), pauseOfTyping);
  }

  /** At once, in sight or not, and in the place of what waits. */
  now(work: () => void): void {
    this.waiting = work;
    this.finish();
  }

  private finish(): void {
    const { waiting } = this;
    this.waiting = undefined;
    setAttribute(this.element, "aria-busy", undefined);
    waiting?.();
  }
}
