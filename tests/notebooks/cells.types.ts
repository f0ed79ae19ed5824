import type { Runtime } from "@observablehq/runtime";
import { type Cells, defineNotebook } from "../../notebooks/wiring/cells.ts";
import type { RuntimeLike } from "../../notebooks/wiring/hosting.ts";
import { openNotebook } from "../../notebooks/wiring/openNotebook.ts";

// Never run: the type checker alone reads this file, and fails where an error that is expected does not come.

interface SlotCells {
  left: number;
  right: number;
  middle: number;
  label: string;
}

const slot = defineNotebook<SlotCells>(() => {});
const otherwise = defineNotebook<{ left: string }>(() => {});

export function cellsAreListed(cells: Cells<SlotCells>): void {
  // @ts-expect-error no cell of that name is listed
  cells.entry("lefft", 1);
  // @ts-expect-error a length is not a text
  cells.entry("left", "1");
  // @ts-expect-error the runtime's own name cannot be a cell, even if it is listed
  defineNotebook<{ invalidation: number }>((reserved) => reserved.entry("invalidation", 1));
}

export function inputsAndBodiesFit(cells: Cells<SlotCells>): void {
  // @ts-expect-error an input that is not listed
  cells.define("middle", ["left", "rihgt"], (left) => left);
  // @ts-expect-error the same input twice
  cells.define("middle", ["left", "left"], (left) => left);
  // @ts-expect-error the body returns a text where the cell holds a number
  cells.define("middle", ["left"], (left) => `${left}`);
  // @ts-expect-error the body takes a text where the input holds a number
  cells.define("middle", ["left"], (left: string) => left.length);
  // @ts-expect-error the body takes more values than there are inputs
  cells.define("middle", ["left"], (left, right) => left + right);
  cells.define("label", ["left", "right"], async (left, right) => (left + right).toFixed());
  cells.define("label", ["invalidation"], (invalidation) => invalidation.then(() => ""));
}

export function importsFit(cells: Cells<SlotCells>): void {
  // @ts-expect-error the other notebook has no such cell
  cells.import(slot, ["depth"]);
  // @ts-expect-error a cell of that name, but of another type
  cells.import(otherwise, ["left"]);
  cells.import(slot, ["left", "right"]);
}

export function anOpenNotebookKnowsItsCells(): void {
  const open = openNotebook(slot);
  // @ts-expect-error a length is not a text
  open.set("left", "1");
  // @ts-expect-error no cell of that name is listed
  void open.settled(["depth"]);
  void open.settled(["label", "left"]).then(([label, left]) => label.slice(left));
  // @ts-expect-error the watched value is a text
  open.watch("label", { fulfilled: (label: number) => label.toFixed() });
  open.watch("label", { fulfilled: (label) => label.trim() });
}

export function anyRuntimeCanBeHost(runtime: Runtime): void {
  const host: RuntimeLike = runtime;
  slot(host, () => true);
  runtime.module(slot, (name) => ({ fulfilled: (value) => name.concat(String(value)) }));
}
