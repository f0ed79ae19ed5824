import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { createRuntime } from "../../notebooks/wiring/createRuntime.ts";

it("createRuntime() makes a name that no cell defines an error, even one that the page or Node defines", async () => {
  const module = createRuntime().module();
  module.variable().define("sum", ["performance"], () => 1);
  await expect(module.value("sum")).rejects.toThrow("performance is not a cell of this notebook");
});

it("createRuntime(nextTick) computes a batch of edits in one tick, and nothing before it", async () => {
  const ticks: (() => void)[] = [];
  const runtime = createRuntime(() => new Promise((resolve) => ticks.push(resolve)));
  const seen: unknown[] = [];
  const module = runtime.module();
  module.variable({ fulfilled: (value) => seen.push(value) }).define("sum", ["a", "b"], (a: number, b: number) => a + b);
  module.variable().define("a", [], () => 1);
  module.variable().define("b", [], () => 2);
  expect(ticks).toHaveLength(1);
  await new Promise(setImmediate);
  expect(seen).toEqual([]);
  ticks[0]?.();
  await new Promise(setImmediate);
  expect(seen).toEqual([3]);
});

it("createRuntime(nextTick) computes nothing more once it is disposed", async () => {
  const ticks: (() => void)[] = [];
  const runtime = createRuntime(() => new Promise((resolve) => ticks.push(resolve)));
  let runs = 0;
  const module = runtime.module();
  module.variable(true).define("counted", [], () => {
    runs += 1;
  });
  runtime.dispose();
  ticks[0]?.();
  await new Promise(setImmediate);
  expect(runs).toBe(0);
});

it("createRuntime() relies on parts of one version of the runtime, and package.json pins that version", () => {
  const { dependencies } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
  expect(dependencies["@observablehq/runtime"]).toBe("6.0.1");
});
