import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { pauseOfTyping } from "../inputs/inSight.ts";
import type { DocumentHistory } from "./documentHistory.ts";
import { type Timeline, timelineOf, writeOf } from "./historyRecord.ts";
import { claimSetup, type Keeper, releaseSetup, type Writing } from "./keeper.ts";

export interface AutosaveEvents {
  /** This tab's setup has another id from now on. */
  readonly onId: (id: string) => void;
  /** Something that a person must know. */
  readonly onTrouble: (words: string) => void;
}

/** Where a tab begins: at a setup that is kept already, with the timeline that it was kept with; or at a new one. */
export interface AutosaveStart {
  readonly id: string;
  readonly kept?: { readonly timeline: Timeline; readonly stamp: string };
}

/** Who types without a pause is written down so long after the first letter that is not, ms, or after twice that time where the page is never idle. */
const latest = 500;

/** Keeps every letter of this tab's setup, and the way to it. Of several edits in a row the last is written, in a pause. */
export class Autosave {
  private readonly keeper: Keeper;
  private readonly events: AutosaveEvents;
  private id: string;
  private timeline: Timeline | undefined;
  private written: { readonly timeline: Timeline; readonly stamp: string } | undefined;
  private last: { readonly history: DocumentHistory<SetupDocument>; readonly changed: number } | undefined;
  private work: Promise<void> | undefined;
  private pause: ReturnType<typeof setTimeout> | undefined;
  /** By when the pause ends at the latest, ms of the page's clock. */
  private due: number | undefined;
  private toldFailure = "";

  constructor(keeper: Keeper, { id, kept }: AutosaveStart, events: AutosaveEvents) {
    this.keeper = keeper;
    this.events = events;
    this.id = id;
    this.written = kept;
    this.timeline = kept?.timeline;
  }

  get setup(): string {
    return this.id;
  }

  /** Number of the state that this history shows. */
  positionOf(history: DocumentHistory<SetupDocument>): number {
    return timelineOf(history, this.timeline).position;
  }

  /** Between keys, and when the page is idle: a long notebook takes a while to be written down. */
  changed(history: DocumentHistory<SetupDocument>): void {
    this.last = { history, changed: Date.now() };
    this.writeInPause();
  }

  private writeInPause(): void {
    const now = performance.now();
    this.due ??= now + latest;
    clearTimeout(this.pause);
    const write = () => void this.write();
    this.pause = setTimeout(
      () => (typeof requestIdleCallback === "function" ? requestIdleCallback(write, { timeout: latest }) : write()),
      Math.min(pauseOfTyping, this.due - now),
    );
  }

  /** Everything so far, written. */
  flush(): Promise<void> {
    return this.work === undefined ? this.write() : this.work.then(() => this.write());
  }

  private write(): Promise<void> {
    this.due = undefined;
    this.work ??= this.writeAll().finally(() => {
      this.work = undefined;
    });
    return this.work;
  }

  /** What a database would be too late for while the page is left: undefined when all is written. */
  unwritten(): Writing | undefined {
    return this.last && this.writingOf(this.last);
  }

  /** From here on another document is worked on: it gets a place of its own, and what was kept stays as it is. */
  async branch(): Promise<void> {
    await this.flush();
    this.moveTo(crypto.randomUUID());
  }

  private moveTo(id: string): void {
    releaseSetup(this.id);
    this.id = id;
    this.written = undefined;
    void claimSetup(id);
    this.events.onId(id);
  }

  private writingOf({ history, changed }: NonNullable<typeof this.last>): Writing {
    this.timeline = timelineOf(history, this.timeline);
    const { present } = history;
    return {
      setup: {
        id: this.id,
        title: present.title === "" ? present.part.name : present.title,
        text: JSON.stringify(present),
        changed,
        position: this.timeline.position,
        stamp: crypto.randomUUID(),
      },
      after: this.written?.stamp,
      ...writeOf(this.timeline, this.written?.timeline),
    };
  }

  private async writeAll(): Promise<void> {
    while (this.last !== undefined) {
      const { last } = this;
      const writing = this.writingOf(last);
      const timeline = this.timeline as Timeline;
      const outcome = await this.keeper.write(writing);
      if (outcome.kind === "conflict") {
        this.events.onTrouble(
          "This setup was changed by another tab as well. Both are kept: here you go on with yours, and “kept” lists the other one.",
        );
        this.moveTo(crypto.randomUUID());
        continue;
      }
      if (outcome.kind === "failed") {
        // Told once; the next edit tries again.
        if (this.toldFailure !== outcome.why)
          this.events.onTrouble(
            `This browser does not keep the last changes (${outcome.why}); what it kept before is still there. Save the setup to a file before you leave.`,
          );
        this.toldFailure = outcome.why;
        return;
      }
      if (this.toldFailure !== "") this.events.onTrouble("This browser keeps the changes again.");
      else if (outcome.madeRoom > 0)
        this.events.onTrouble(`This browser's storage is full: ${oldest(outcome.madeRoom)} let go. The setup itself is kept.`);
      this.toldFailure = "";
      this.written = { timeline, stamp: writing.setup.stamp };
      if (this.last === last) this.last = undefined;
      // What came meanwhile came from somebody who types: it waits for a pause of its own.
      else return this.writeInPause();
    }
  }
}

function oldest(count: number): string {
  return count === 1 ? "the oldest state that it kept was" : `the ${count} oldest states that it kept were`;
}
