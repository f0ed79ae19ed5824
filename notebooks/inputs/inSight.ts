import { setAttribute } from "./html.ts";
import { whenPrinted } from "./printing.ts";

/** Room at the foot of the window that the title block covers, pixels. */
const covered = 56;
/** Work that nobody looks at begins when nothing new has come for this many ms: a person who types is not kept waiting by it. */
export const pauseOfTyping = 150;
/** It begins at last after this many ms more, however busy the page is. */
const latest = 300;
/** And pauses after this many ms for what a person does meanwhile. */
const slice = 20;

/** The last work that was handed over, and what is worked out before it, piece by piece. */
interface Waiting {
  readonly work: () => void;
  readonly ready: Iterator<unknown> | undefined;
  /** It takes longer than a person should wait for it: it is done in pieces, in sight or not. */
  readonly isLong: boolean;
}

/**
 * Puts what can be seen first: work on a part of the page that is in sight is done at once, other work when the page is idle, or before the
 * part comes into sight or goes on paper; work that would keep a person waiting even there, when the page is idle. Until then the part says that it
 * is busy.
 */
export class InSight {
  private readonly element: HTMLElement;
  private isSeen = true;
  private pause: ReturnType<typeof setTimeout> | undefined;
  private waiting: Waiting | undefined;

  /**
   * @param element says that it is busy
   * @param seen what of it the work fills, where that is not all: the body of a table below its head
   */
  constructor(element: HTMLElement, seen: Element = element) {
    this.element = element;
    if (typeof IntersectionObserver !== "function" || typeof requestIdleCallback !== "function") return;
    const look = ([entry]: readonly IntersectionObserverEntry[]) => {
      this.isSeen = entry?.isIntersecting !== false;
      if (this.isSeen && this.waiting?.isLong !== true) this.finish();
    };
    new IntersectionObserver(look, { rootMargin: `0px 0px -${covered}px 0px` }).observe(seen);
    whenPrinted(element, () => this.finish());
  }

  /**
   * Of several works that wait, the last counts.
   *
   * @param ready pieces of what the work needs, found out of sight a few at a time, so that a person who goes on typing waits for one at most
   */
  run(work: () => void, ready?: Iterator<unknown>): void {
    this.waiting = { work, ready, isLong: false };
    if (this.isSeen) this.finish();
    else this.wait();
  }

  /** As `run`, of work that takes so long that it is done in pieces also while it is looked at; what is shown meanwhile says that it is busy. */
  runLong(work: () => void, ready: Iterator<unknown>): void {
    this.waiting = { work, ready, isLong: true };
    if (typeof requestIdleCallback === "function") this.wait();
    else this.finish();
  }

  private wait(): void {
    setAttribute(this.element, "aria-busy", "true");
    clearTimeout(this.pause);
    this.pause = setTimeout(() => whenIdle(this.steps(this.waiting), this.isSeen), pauseOfTyping);
  }

  /** At once, in sight or not, and in the place of what waits. */
  now(work: () => void): void {
    this.waiting = { work, ready: undefined, isLong: false };
    this.finish();
  }

  /** Up to the end of this work, or of its time: when other work has come, or this one is done. */
  private *steps(own: Waiting | undefined): Generator<unknown> {
    while (this.waiting === own && own !== undefined && isMoreToFind(own)) yield;
    if (this.waiting === own) this.finish();
  }

  private finish(): void {
    const { waiting } = this;
    this.waiting = undefined;
    setAttribute(this.element, "aria-busy", undefined);
    waiting?.work();
  }
}

/** What is found and done out of sight, one after the other: what comes later often needs what comes first. */
const line: Iterator<unknown>[] = [];

function whenIdle(steps: Iterator<unknown>, isSeen: boolean): void {
  // What a person looks at comes before what they do not, and behind what has begun.
  if (isSeen) line.splice(1, 0, steps);
  else line.push(steps);
  if (line.length === 1) requestIdleCallback(goOn, { timeout: latest });
}

function goOn(): void {
  const start = performance.now();
  try {
    do if (line[0]?.next().done) line.shift();
    while (line.length > 0 && performance.now() - start < slice);
  } finally {
    // One that fails does not keep the others waiting.
    if (line.length > 0) setTimeout(goOn);
  }
}

/** Finds the next piece. What cannot be found, the work itself tells of. */
function isMoreToFind({ ready }: Waiting): boolean {
  try {
    return ready !== undefined && ready.next().done !== true;
  } catch {
    return false;
  }
}
