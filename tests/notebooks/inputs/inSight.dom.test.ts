import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { InSight } from "../../../notebooks/inputs/inSight.ts";

/** Stands for the browser's own, which the DOM of these tests has not; everything begins out of sight. */
class Observer {
  static last: Observer;
  watched: Element | undefined;
  private readonly told: (entries: readonly { isIntersecting: boolean }[]) => void;

  constructor(told: Observer["told"]) {
    this.told = told;
    Observer.last = this;
  }

  observe(element: Element): void {
    this.watched = element;
    this.tell(false);
  }

  tell(isIntersecting: boolean): void {
    this.told([{ isIntersecting }]);
  }
}

let clock = 0;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  vi.spyOn(performance, "now").mockImplementation(() => clock);
  vi.stubGlobal("IntersectionObserver", Observer);
  vi.stubGlobal("requestIdleCallback", (work: () => void) => setTimeout(work, 1));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

function partOfPage(): { element: HTMLElement; inSight: InSight } {
  const element = document.createElement("div");
  return { element, inSight: new InSight(element) };
}

/** Pieces that take `ms` of the clock each. */
function* pieces(count: number, ms: number, done: string[], name = "piece"): Generator<unknown> {
  for (let i = 0; i < count; i++) {
    clock += ms;
    done.push(`${name} ${i}`);
    yield;
  }
}

it("finds out of sight piece by piece, lets others in between, and does the work last", () => {
  const { element, inSight } = partOfPage();
  const done: string[] = [];
  inSight.run(() => done.push("work"), pieces(3, 30, done));
  expect(element.getAttribute("aria-busy")).toBe("true");
  vi.advanceTimersByTime(151);
  expect(done).toEqual(["piece 0"]);
  done.push("a key");
  vi.runAllTimers();
  expect(done).toEqual(["piece 0", "a key", "piece 1", "piece 2", "work"]);
  expect(element.hasAttribute("aria-busy")).toBe(false);
});

it("leaves pieces of older work where newer has come, and finds them at once when the part comes into sight", () => {
  const { element, inSight } = partOfPage();
  const observer = Observer.last;
  const done: string[] = [];
  inSight.run(() => done.push("old work"), pieces(5, 30, done, "old"));
  vi.advanceTimersByTime(151);
  inSight.run(() => done.push("new work"), pieces(5, 30, done, "new"));
  observer.tell(true);
  expect(done).toEqual(["old 0", "new work"]);
  expect(element.hasAttribute("aria-busy")).toBe(false);
  vi.runAllTimers();
  expect(done).toEqual(["old 0", "new work"]);
});

it("watches what the work fills, where that is a part of what says that it is busy", () => {
  const element = document.createElement("div");
  const body = element.appendChild(document.createElement("p"));
  new InSight(element, body).run(() => undefined);
  expect(Observer.last.watched).toBe(body);
  expect(element.getAttribute("aria-busy")).toBe("true");
});

it("goes on with the others where one fails, and has what cannot be found told by the work itself", () => {
  const failing = partOfPage();
  const other = partOfPage();
  const done: string[] = [];
  failing.inSight.run(
    () => {
      throw new Error("cannot be drawn");
    },
    (function* () {
      yield;
      throw new Error("cannot be found");
    })(),
  );
  other.inSight.run(() => done.push("work of the other"));
  expect(() => vi.runAllTimers()).toThrow("cannot be drawn");
  vi.runAllTimers();
  expect(done).toEqual(["work of the other"]);
});

it("does long work in pieces though it is looked at", () => {
  const { element, inSight } = partOfPage();
  Observer.last.tell(true);
  const done: string[] = [];
  inSight.runLong(() => done.push("work"), pieces(2, 30, done));
  expect([done, element.getAttribute("aria-busy")]).toEqual([[], "true"]);
  // Scrolled away and back it has not become shorter.
  Observer.last.tell(false);
  Observer.last.tell(true);
  expect(done).toEqual([]);
  vi.advanceTimersByTime(151);
  expect(done).toEqual(["piece 0"]);
  vi.runAllTimers();
  expect([done, element.hasAttribute("aria-busy")]).toEqual([["piece 0", "piece 1", "work"], false]);
});
