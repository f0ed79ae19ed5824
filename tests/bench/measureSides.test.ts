import { describe, expect, it } from "vitest";
import type { Benchmark, Prepared } from "./benchmark.ts";
import { measureSides } from "./measureSides.ts";
import { reportSides } from "./reportSides.ts";

/** A clock that only moves when a side takes its time, and the order in which they took it. */
function staged() {
  let time = 0;
  const order: string[] = [];
  const side = (name: string, times: readonly number[]) => {
    let round = 0;
    const run = () => {
      order.push(name);
      time += times[round++] as number;
    };
    return { name, prepare: () => ({ run }) };
  };
  return { side, order, now: () => time };
}

const benchmark = (sides: Benchmark["sides"], rounds: number): Benchmark => ({ name: "Sides", work: "one run", sides, rounds });
const always = (prepared: Prepared) => ({ name: "side", prepare: () => prepared });

describe("measureSides(benchmark, now)", () => {
  it("interleaves the sides and leaves the first round out", async () => {
    const { side, order, now } = staged();
    // The first of each is the warm-up. Ratios by round: 40/10, 20/20, 90/30.
    const results = await measureSides(benchmark([side("A", [999, 10, 20, 30]), side("B", [777, 40, 20, 90])], 3), now);
    expect(order.join("")).toBe("ABABABAB");
    expect(results).toEqual([
      { side: "A", time: { median: 20, minimum: 10, maximum: 30 }, ratio: { median: 1, minimum: 1, maximum: 1 } },
      { side: "B", time: { median: 40, minimum: 20, maximum: 90 }, ratio: { median: 3, minimum: 1, maximum: 4 } },
    ]);
  });

  it("takes the mean of the middle two as the median of an even number of rounds", async () => {
    const { side, now } = staged();
    const [result] = await measureSides(benchmark([side("A", [0, 1, 2, 4, 100])], 4), now);
    expect(result).toHaveProperty("time.median", 3);
  });

  it("waits for work that is a promise", async () => {
    let time = 0;
    const late = async () => {
      await new Promise(setImmediate);
      time += 5;
    };
    const [result] = await measureSides(benchmark([always({ run: late })], 1), () => time);
    expect(result).toHaveProperty("time.median", 5);
  });

  it("believes a side that times itself, and passes over one that cannot be run", async () => {
    const results = await measureSides(benchmark([always({ measure: async () => 2 }), always({ notRun: "no such program" })], 1));
    expect(results[0]).toHaveProperty("time.median", 2);
    expect(results[1]).toEqual({ side: "side", notRun: "no such program" });
  });

  it("keeps what a side has to tell after its rounds, unless it is empty", async () => {
    const results = await measureSides(
      benchmark([always({ measure: () => 2, note: () => "off by 3" }), always({ run: () => {}, note: () => "" })], 1),
    );
    expect(results[0]).toHaveProperty("note", "off by 3");
    expect(results[1]).not.toHaveProperty("note");
  });

  it("closes every side, even when one breaks", async () => {
    const closed: string[] = [];
    const broken = benchmark(
      [
        always({ measure: () => 1, close: () => void closed.push("first") }),
        always({
          run: () => {
            throw new Error("broken");
          },
          close: async () => void closed.push("second"),
        }),
      ],
      1,
    );
    await expect(measureSides(broken)).rejects.toThrow("broken");
    expect(closed).toEqual(["first", "second"]);
  });

  it("waits for no side for ever, and says which and what it was at", async () => {
    const never = { name: "the slow one", prepare: () => ({ measure: () => new Promise<number>(() => {}) }) };
    const ready = always({ measure: () => 1 });
    await expect(measureSides(benchmark([ready, never], 1), undefined, 20)).rejects.toThrow(
      'waited 0.02 s in vain for round 0 of "the slow one"',
    );
    const late = { name: "the late one", prepare: () => new Promise<Prepared>(() => {}) };
    await expect(measureSides(benchmark([ready, late], 1), undefined, 20)).rejects.toThrow('in vain for "the late one" to be ready');
  });

  it("refuses a benchmark without a side, without a round, or whose first side cannot be run", async () => {
    await expect(measureSides(benchmark([], 1))).rejects.toThrow("sides: expected at least one, got none");
    await expect(measureSides(benchmark([always({ run: () => {} })], 0))).rejects.toThrow("rounds: expected a whole number from 1, got 0");
    await expect(measureSides(benchmark([always({ notRun: "" })], 1))).rejects.toThrow("sides: expected the first to run");
  });
});

it("reportSides(benchmark, results) gives a line for each side, to three digits", () => {
  const spread = (median: number, minimum: number, maximum: number) => ({ median, minimum, maximum });
  const report = reportSides(benchmark([], 3), [
    { side: "plain", time: spread(12.3456, 10, 20), ratio: spread(1, 1, 1), note: "off by 3" },
    { side: "clever", time: spread(1.5, 1, 2.25), ratio: spread(0.12345, 0.1, 0.2) },
    { side: "foreign", notRun: "no such program" },
  ]);
  expect(report.split("\n")).toEqual([
    "Sides (one run)",
    "  plain    12.3 (10 to 20) ms",
    "             off by 3",
    "  clever   1.5 (1 to 2.25) ms              x 0.123 (0.1 to 0.2)",
    "  foreign  not run: no such program",
  ]);
});
