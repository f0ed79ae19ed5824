import { Runtime } from "@observablehq/runtime";
import { expect, it } from "vitest";
import { type Cells, defineNotebook } from "../../notebooks/wiring/cells.ts";
import { openNotebook } from "../../notebooks/wiring/openNotebook.ts";

interface SlotCells {
  left: number;
  right: number;
  middle: number;
  label: string;
}

const slot = defineNotebook<SlotCells>((cells) => {
  cells.entry("left", 10);
  cells.entry("right", 30);
  cells.define("middle", ["left", "right"], (left, right) => (left + right) / 2);
  cells.define("label", ["middle"], (middle) => `middle at ${middle} mm`);
});

it("defineNotebook(describe) computes each cell from the cells above it", async () => {
  expect(await openNotebook(slot).settled(["middle", "label"])).toEqual([20, "middle at 20 mm"]);
});

it("define(runtime, observer) can be hosted by a runtime that this project did not make, which then overrides an entry", async () => {
  const host = new Runtime();
  const seen: unknown[] = [];
  const module = host.module(slot, (name) => (name === "label" ? { fulfilled: (value) => seen.push(value) } : null));
  expect(await module.value("label")).toBe("middle at 20 mm");
  module.redefine("left", [], () => 20);
  expect(await module.value("label")).toBe("middle at 25 mm");
  expect(seen).toEqual(["middle at 20 mm", "middle at 25 mm"]);
  host.dispose();
});

it("define(runtime, observer) gives every runtime cells of its own", async () => {
  const [one, other] = [openNotebook(slot), openNotebook(slot)];
  one.set("left", 0);
  expect(await one.settled(["middle"])).toEqual([15]);
  expect(await other.settled(["middle"])).toEqual([20]);
});

it("cells.import(notebook, names) shares cells with the other notebook in the same runtime", async () => {
  interface PocketCells extends Pick<SlotCells, "middle"> {
    depth: number;
    corner: string;
  }
  const pocket = defineNotebook<PocketCells>((cells) => {
    cells.import(slot, ["middle"]);
    cells.entry("depth", 5);
    cells.define("corner", ["middle", "depth"], (middle, depth) => `${middle}, ${depth}`);
  });
  const pockets = openNotebook(pocket);
  const slots = openNotebook(slot, pockets.runtime);
  expect(await pockets.settled(["corner"])).toEqual(["20, 5"]);
  slots.set("right", 50);
  expect(await pockets.settled(["corner"])).toEqual(["30, 5"]);
});

it("cells.define(name, inputs, body) takes a promise and a generator for the values that they come to", async () => {
  interface SlowCells {
    promised: number;
    improving: number;
    both: number;
  }
  const slow = openNotebook(
    defineNotebook<SlowCells>((cells) => {
      cells.define("promised", [], async () => 1);
      cells.define("improving", ["invalidation"], async function* (invalidation) {
        yield 10;
        yield 20;
        await invalidation;
      });
      cells.define("both", ["promised", "improving"], (promised, improving) => promised + improving);
    }),
  );
  const sums: number[] = [];
  const last = new Promise<void>((resolve) => {
    slow.watch("both", {
      fulfilled: (sum) => {
        sums.push(sum);
        if (sum === 21) resolve();
      },
    });
  });
  await last;
  expect(sums).toEqual([11, 21]);
});

it("cells.entry(name, value) and cells.define(name, ...) refuse a name that is taken", () => {
  expect(() =>
    defineNotebook<SlotCells>((cells) => {
      cells.entry("left", 1);
      cells.define("left", [], () => 2);
    }),
  ).toThrow(new RangeError('name: expected one that no cell has yet, got "left"'));
});

it.each(["invalidation", "visibility", "@variable"])("cells.entry(%j, value) is refused: the name belongs to the runtime", (name) => {
  const describe = (cells: Cells<Record<string, number>>) => cells.entry(name, 1);
  expect(() => defineNotebook(describe)).toThrow(`name: expected none of invalidation, visibility, @variable, got "${name}"`);
});

it("cells.entry(name, value) refuses an empty name", () => {
  expect(() => defineNotebook<Record<string, number>>((cells) => cells.entry("", 1))).toThrow(
    "name: expected at least one character, got none",
  );
});

it("cells.define(name, inputs, body) refuses an input that is given twice", () => {
  const twice: string[] = ["left", "left"];
  expect(() =>
    defineNotebook<Record<string, number>>((cells) => {
      cells.entry("left", 1);
      cells.define("width", twice, (a, b) => a! - b!);
    }),
  ).toThrow(new RangeError('cell "width": expected each input once, got "left" twice'));
});

it("cells.define(name, inputs, body) refuses an input that is not defined above it, so that no circle can arise", () => {
  expect(() =>
    defineNotebook<SlotCells>((cells) => {
      cells.entry("left", 1);
      cells.define("middle", ["left", "right"], (left, right) => left + right);
      cells.entry("right", 2);
    }),
  ).toThrow(new RangeError('cell "middle": expected inputs that are defined above it, got "right"'));
});

it("cells.import(notebook, names) is refused for a name that the other notebook does not define", () => {
  const promising = defineNotebook<{ depth: number }>(() => {});
  const importing = defineNotebook<{ depth: number }>((cells) => cells.import(promising, ["depth"]));
  expect(() => openNotebook(importing)).toThrow('cell "depth": expected a cell of the notebook that it is imported from');
});
