import { nextFrame } from "../wiring/createRuntime.ts";

/** What takes longer than a frame of the screen, ms, is not waited for by a letter that is typed. */
const frame = 16;

/**
 * When an edit is worked out: before the browser draws again, so that a letter and its results are seen together; after it has drawn, where
 * this took longer than a frame the last time, so that whoever types sees the letters at once and their results soon after. Letters that come
 * meanwhile are worked out together.
 */
export class Pace {
  private readonly onWait: (isWaiting: boolean) => void;
  private isSlow = false;
  private isEditing = false;
  /** Ends the wait for the browser; undefined while nothing waits. */
  private goOn: (() => void) | undefined;
  /** What the latest edit took so far, ms, and since when it is worked on. */
  private took = 0;
  private since = 0;

  /** @param onWait an edit is going to be drawn before it is worked out; then, that it is going to be worked out */
  constructor(onWait: (isWaiting: boolean) => void) {
    this.onWait = onWait;
  }

  /** @param work what is done with an edit while the browser cannot draw; what it changes in the notebook asks for its turn meanwhile */
  edit(work: () => void): void {
    const start = performance.now();
    this.isEditing = true;
    try {
      work();
    } finally {
      this.isEditing = false;
      this.since = performance.now();
      this.took = this.since - start;
    }
  }

  /** When it is time to work out what has been changed. */
  async turn(): Promise<void> {
    if (this.isEditing && this.isSlow && isDrawing()) {
      this.onWait(true);
      const hurried = new Promise<void>((resolve) => {
        this.goOn = resolve;
      });
      await Promise.race([afterPainting(), hurried]);
      this.goOn = undefined;
      this.onWait(false);
    }
    this.since = performance.now();
  }

  /** What waits to be worked out is so at once, before the next task: it is needed. */
  hurry(): void {
    this.goOn?.();
  }

  /** All that was edited is worked out and shown. */
  isSettled(): void {
    this.took += performance.now() - this.since;
    this.isSlow = this.took > frame;
    this.took = 0;
  }
}

/** A hidden page is not drawn, and in Node nothing is. */
function isDrawing(): boolean {
  return typeof requestAnimationFrame === "function" && document.visibilityState !== "hidden";
}

/** After the next frame has been painted: what follows its animation callbacks as a task of its own. */
async function afterPainting(): Promise<void> {
  await nextFrame();
  const { port1, port2 } = new MessageChannel();
  await new Promise((resolve) => {
    port1.onmessage = resolve;
    port2.postMessage(undefined);
  });
  port1.close();
}
