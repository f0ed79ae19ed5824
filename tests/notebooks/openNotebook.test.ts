import { describe, expect, it } from "vitest";
import type { Failure } from "../../notebooks/wiring/cellGraph.ts";
import { defineNotebook } from "../../notebooks/wiring/cells.ts";
import { openNotebook } from "../../notebooks/wiring/openNotebook.ts";

interface SlotCells {
  reading: string;
  spare: number;
  left: number;
  width: number;
}

class UnreadableText extends Error {
  override readonly name = "UnreadableText";
  readonly text: string;
  constructor(text: string) {
    super(`"${text}" is not a number`);
    this.text = text;
  }
}

function toNumber(text: string): number {
  const value = Number(text);
  if (Number.isNaN(value)) throw new UnreadableText(text);
  return value;
}

const openSlot = () =>
  openNotebook(
    defineNotebook<SlotCells>((cells) => {
      cells.entry("reading", "10");
      cells.entry("spare", 1);
      cells.define("left", ["reading"], (reading) => toNumber(reading));
      cells.define("width", ["left", "spare"], (left, spare) => 30 - left - spare);
    }),
  );

describe("openNotebook(notebook).settled(names)", () => {
  it("waits for the edits made so far, and for the last of several", async () => {
    const slot = openSlot();
    slot.set("reading", "20");
    slot.set("reading", "25");
    expect(await slot.settled(["width", "left"])).toEqual([4, 25]);
  });

  it("waits for a slow cell on the way", async () => {
    const slow = openNotebook(
      defineNotebook<{ start: number; slow: number; end: number }>((cells) => {
        cells.entry("start", 1);
        cells.define("slow", ["start"], (start) => new Promise<number>((resolve) => setTimeout(resolve, 5, start)));
        cells.define("end", ["slow"], (value) => value * 10);
      }),
    );
    expect(await slow.settled(["end"])).toEqual([10]);
    slow.set("start", 2);
    expect(await slow.settled(["end"])).toEqual([20]);
  });

  it("rejects with the very object that a cell further up threw", async () => {
    const slot = openSlot();
    slot.set("reading", "ten");
    const error = await slot.settled(["width"]).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(UnreadableText);
    expect(error).toHaveProperty("text", "ten");
  });

  it("gives values again once the trouble is mended", async () => {
    const slot = openSlot();
    slot.set("reading", "ten");
    await expect(slot.settled(["width"])).rejects.toThrow(UnreadableText);
    slot.set("reading", "10");
    expect(await slot.settled(["width"])).toEqual([19]);
    expect(slot.explain("width")).toBeUndefined();
  });
});

describe("openNotebook(notebook).explain(name)", () => {
  it("shows the way from a cell to the one that failed, and its error", async () => {
    const slot = openSlot();
    slot.set("reading", "ten");
    await expect(slot.settled(["width"])).rejects.toThrow();
    expect(slot.explain("width")).toEqual({ path: ["width", "left"], error: new UnreadableText("ten") });
    expect(slot.explain("left")).toEqual({ path: ["left"], error: new UnreadableText("ten") });
    expect(slot.explain("reading")).toBeUndefined();
  });

  it("forgets what a cell threw before when its input fails now", async () => {
    const slot = openSlot();
    slot.set("reading", "ten");
    await expect(slot.settled(["left"])).rejects.toThrow();
    slot.free.replace("reading", [], () => {
      throw new RangeError("no reading");
    });
    await expect(slot.settled(["left"])).rejects.toThrow("no reading");
    expect(slot.explain("left")).toEqual({ path: ["left", "reading"], error: new RangeError("no reading") });
  });

  it("finds what a promise and a generator threw", async () => {
    const late = openNotebook(
      defineNotebook<{ promise: number; generator: number }>((cells) => {
        cells.define("promise", [], async () => {
          throw new UnreadableText("promised");
        });
        // biome-ignore lint/correctness/useYield: a generator that fails before its first value
        cells.define("generator", [], async function* () {
          throw new UnreadableText("generated");
        });
      }),
    );
    await expect(late.settled(["promise"])).rejects.toThrow(UnreadableText);
    await expect(late.settled(["generator"])).rejects.toThrow(UnreadableText);
    expect(late.explain("promise")?.error).toHaveProperty("text", "promised");
    expect(late.explain("generator")?.error).toHaveProperty("text", "generated");
  });

  it("looks through a cell that is imported from another notebook", async () => {
    const failing = defineNotebook<{ zero: number }>((cells) => cells.define("zero", [], () => toNumber("?")));
    const importing = openNotebook(
      defineNotebook<{ zero: number; shifted: number }>((cells) => {
        cells.import(failing, ["zero"]);
        cells.define("shifted", ["zero"], (zero) => zero + 1);
      }),
    );
    await expect(importing.settled(["shifted"])).rejects.toThrow(UnreadableText);
    expect(importing.explain("shifted")).toEqual({ path: ["shifted", "zero"], error: new UnreadableText("?") });
  });

  it("visits each cell once, where every cell has two ways to the one above it", async () => {
    const ladder = openNotebook(defineNotebook<Record<string, number>>((cells) => cells.entry("a0", 1)));
    // With a visit for every way there would be 2 to the 200th of them.
    for (let step = 1; step <= 200; step++) {
      ladder.free.add(`b${step}`, [`a${step - 1}`], (value: number) => value);
      ladder.free.add(`a${step}`, [`a${step - 1}`, `b${step}`], (a: number, b: number) => (a + b) / 2);
    }
    expect(await ladder.settled(["a200"])).toEqual([1]);
    expect(ladder.explain("a200")).toBeUndefined();
  });
});

describe("openNotebook(notebook).watch(name, watcher)", () => {
  it("tells of pending, value and failure in turn, and of nothing after it is ended", async () => {
    const slot = openSlot();
    const told: unknown[] = [];
    const unwatch = slot.watch("width", {
      pending: () => told.push("pending"),
      fulfilled: (width) => told.push(width),
      failed: ({ path, error }: Failure) => told.push(path, error),
    });
    await slot.settled(["width"]);
    slot.set("reading", "ten");
    await slot.settled(["width"]).catch(() => {});
    expect(told).toEqual(["pending", 19, "pending", ["width", "left"], new UnreadableText("ten")]);
    unwatch();
    slot.set("reading", "12");
    expect(await slot.settled(["width"])).toEqual([17]);
    expect(told).toHaveLength(5);
  });

  it("alone makes a cell computed, and only as long as it lasts", async () => {
    let runs = 0;
    const counting = openNotebook(
      defineNotebook<{ start: number; counted: number; other: number }>((cells) => {
        cells.entry("start", 1);
        cells.define("counted", ["start"], (start) => {
          runs += 1;
          return start;
        });
        cells.define("other", ["start"], (start) => start);
      }),
    );
    await counting.settled(["other"]);
    expect(runs).toBe(0);
    const unwatch = counting.watch("counted", {});
    await counting.settled(["other"]);
    expect(runs).toBe(1);
    unwatch();
    counting.set("start", 2);
    await counting.settled(["other"]);
    expect(runs).toBe(1);
  });
});

describe("openNotebook(notebook).free.add(name, inputs, body)", () => {
  it("adds a cell that may depend on any other", async () => {
    const slot = openSlot();
    slot.free.add("half", ["width"], (width: number) => width / 2);
    const seen: unknown[] = [];
    slot.free.watch("half", { fulfilled: (value) => seen.push(value) });
    expect(await slot.free.settled(["half"])).toEqual([9.5]);
    slot.set("spare", 3);
    expect(await slot.free.settled(["half"])).toEqual([8.5]);
    expect(seen).toEqual([9.5, 8.5]);
  });

  it("may name an input that does not exist yet: the cell fails until it does, and never reads the page's or Node's own names", async () => {
    const slot = openNotebook(defineNotebook<Record<string, number>>((cells) => cells.entry("left", 1)));
    slot.free.add("sum", ["left", "performance"], (left: number, other: number) => left + other);
    await expect(slot.settled(["sum"])).rejects.toThrow("performance is not a cell of this notebook");
    expect(slot.explain("sum")?.path).toEqual(["sum", "performance"]);
    slot.free.add("performance", [], () => 2);
    expect(await slot.settled(["sum"])).toEqual([3]);
    slot.free.remove("performance");
    await expect(slot.settled(["sum"])).rejects.toThrow("performance is not a cell of this notebook");
    slot.free.add("performance", [], () => 5);
    expect(await slot.settled(["sum"])).toEqual([6]);
  });

  it("explains a circle by its members, and a replaced member heals it", async () => {
    const ring = openNotebook(defineNotebook<Record<string, number>>(() => {}));
    ring.free.add("a", ["b"], (b: number) => b + 1);
    ring.free.add("b", ["a"], (a: number) => a + 1);
    await expect(ring.settled(["a"])).rejects.toThrow("circular definition: a needs b needs a");
    ring.free.replace("b", [], () => 1);
    expect(await ring.settled(["a"])).toEqual([2]);
  });

  it("refuses a taken name, a reserved name and an input given twice", () => {
    const slot = openSlot();
    expect(() => slot.free.add("left", [], () => 1)).toThrow('name: expected one that no cell has yet, got "left"');
    expect(() => slot.free.add("visibility", [], () => 1)).toThrow('got "visibility"');
    expect(() => slot.free.add("twice", ["left", "left"], () => 1)).toThrow('cell "twice": expected each input once, got "left" twice');
    expect(() => slot.free.replace("width", ["left", "left"], () => 1)).toThrow('cell "width": expected each input once, got "left" twice');
    expect(slot.free.has("twice")).toBe(false);
  });

  it("replace(name, ...), set(name, value) and remove(name) refuse a name that no cell has", () => {
    const slot = openNotebook(defineNotebook<Record<string, number>>(() => {}));
    const refusal = new RangeError('name: expected a cell of this notebook, got "width"');
    expect(() => slot.free.replace("width", [], () => 1)).toThrow(refusal);
    expect(() => slot.set("width", 1)).toThrow(refusal);
    expect(() => slot.free.remove("width")).toThrow(refusal);
  });
});
