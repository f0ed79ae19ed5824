// The notebook for hosts: the `define(runtime, observer)` of a setup, and what opens it with a document. No type here names a package.

export { type OpenSetup, openSetup } from "./openSetup.ts";
export { default, default as setup, type SetupCells, sections } from "./setup.ts";
export type { Failure } from "./wiring/cellGraph.ts";
export { type Cells, defineNotebook, type NotebookDefine } from "./wiring/cells.ts";
export { createRuntime } from "./wiring/createRuntime.ts";
export type {
  Define,
  Definition,
  ModuleLike,
  ObserverFactory,
  ObserverLike,
  RuntimeLike,
  VariableLike,
} from "./wiring/hosting.ts";
export { type CellWatcher, type OpenNotebook, openNotebook } from "./wiring/openNotebook.ts";
