// A page of somebody else's. It brings a copy of the runtime of its own, and takes the notebook from the installed package.
import { openSetup, type RuntimeLike, type SetupCells, setup } from "datumbook/notebook";
import { Runtime } from "host-runtime";

type Chosen = SetupCells["chosenStrategy"];

const runtime = new Runtime() as RuntimeLike;
const module = runtime.module(setup);
const told = document.querySelector("#told") as HTMLElement;
const zeroOf = (chosen: Chosen) => (chosen.ok && chosen.value.zero[0].ok ? chosen.value.zero[0].value.value : undefined);

// The host's own cell, watched as hosts do.
const main = runtime.module();
main.variable().import("chosenStrategy", module);
main
  .variable({
    fulfilled: (value) => {
      told.textContent = String(value);
    },
    rejected: (error) => {
      told.textContent = String(error);
    },
  })
  .define("x of the setup", ["chosenStrategy"], zeroOf);

Object.assign(globalThis, {
  fillSetup: (document: SetupCells["document"]) => openSetup(runtime).fill(document),
  override: (name: string, value: unknown) => void module.redefine(name, [], () => value),
});
