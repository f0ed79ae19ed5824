import { messageOf } from "../../lib/base/messageOf.ts";
import { openStudyWorker } from "../worker/openStudyWorker.ts";
import type { StudyOf } from "../worker/studyMessages.ts";

/** What a worker says to a question; the last answer is of a kind of its own, or `failed`. */
interface Answer {
  readonly id: number;
  readonly kind: string;
}

interface Failed extends Answer {
  readonly kind: "failed";
  readonly why: string;
}

/**
 * Has questions answered in a worker, one at a time. A new question takes the place of one that is still worked on: the worker is ended, so
 * that it takes nothing from the page any more, and no late answer comes.
 */
export class StudyClient<Work, A extends Answer> {
  private readonly last: A["kind"];
  private readonly onAnswer: (answer: A | Failed) => void;
  private worker: Worker | undefined;
  private id = 0;
  private isBusy = false;

  /** @param last the kind of the answer after which none comes */
  constructor(last: A["kind"], onAnswer: (answer: A | Failed) => void) {
    this.last = last;
    this.onAnswer = onAnswer;
  }

  ask(of: StudyOf, work: Work): void {
    this.stop();
    this.id += 1;
    this.isBusy = true;
    try {
      this.worker ??= this.openWorker();
      this.worker.postMessage({ id: this.id, ...of, work });
    } catch (error) {
      this.fail(`this browser runs no worker for the page (${messageOf(error)})`);
    }
  }

  /** At once, whatever the worker does. */
  stop(): void {
    if (!this.isBusy) return;
    this.worker?.terminate();
    this.worker = undefined;
    this.isBusy = false;
  }

  /** For good, whether it works or waits. */
  dispose(): void {
    this.stop();
    this.worker?.terminate();
    this.worker = undefined;
  }

  private openWorker(): Worker {
    const worker = openStudyWorker();
    worker.addEventListener("message", ({ data }: MessageEvent<A>) => {
      if (worker !== this.worker || data.id !== this.id) return;
      if (data.kind === this.last || data.kind === "failed") this.isBusy = false;
      this.onAnswer(data);
    });
    worker.addEventListener("error", (event) => {
      if (worker === this.worker) this.fail(event.message || "the worker could not be loaded");
    });
    return worker;
  }

  private fail(why: string): void {
    this.stop();
    this.isBusy = false;
    this.onAnswer({ id: this.id, kind: "failed", why });
  }
}
