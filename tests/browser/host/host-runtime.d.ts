/** A second, separate copy of the runtime, which `installPackage` puts beside the package. */
declare module "host-runtime" {
  export { Runtime } from "@observablehq/runtime";
}
