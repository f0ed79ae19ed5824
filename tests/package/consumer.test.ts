import { readFileSync } from "node:fs";
import { join } from "node:path";
import { build, type Rolldown } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { corner } from "../support/corner.ts";
import { type Consumer, installPackage, typescript } from "../support/installPackage.ts";

let consumer: Consumer;
beforeAll(() => {
  consumer = installPackage();
}, 120_000);
afterAll(() => consumer?.remove());

describe("the packed package", () => {
  it("holds what its exports name, and neither tests nor sources", () => {
    const { exports, dependencies, devDependencies, scripts } = JSON.parse(
      readFileSync(join(consumer.folder, "node_modules/datumbook/package.json"), "utf8"),
    ) as Record<string, Record<string, string> | undefined>;
    const entries = Object.keys(exports ?? {});
    expect(entries).toEqual(
      expect.arrayContaining([
        ".",
        "./uncertainty",
        "./notebook",
        "./element",
        "./setupDocument.schema.json",
        "./setupResults.schema.json",
        "./operationsResults.schema.json",
      ]),
    );
    expect(Object.keys(dependencies ?? {}).sort()).toEqual([
      "@noble/hashes",
      "@observablehq/runtime",
      "fflate",
      "mathjs",
      "saxes",
      "valibot",
    ]);
    expect([devDependencies, scripts]).toEqual([undefined, undefined]);
    const asked = entries.map((entry) => `import.meta.resolve(${JSON.stringify(entry.replace(/^\./, "datumbook"))})`);
    const script = consumer.write(
      "resolve.mjs",
      `import { existsSync } from "node:fs"; import { fileURLToPath } from "node:url";
       console.log([${asked.join(",")}].filter((url) => !existsSync(fileURLToPath(url))).join(" "));`,
    );
    expect(consumer.node(script).trim()).toBe("");
  });

  it("brings a reference with everything that its entries export, each with what it is", () => {
    const script = consumer.write(
      "names.mjs",
      `const told = {};
       for (const entry of ["", "/base", "/uncertainty", "/run", "/formula", "/part", "/offsets", "/document", "/notebook", "/element"])
         told[entry] = Object.keys(await import("datumbook" + entry)).filter((name) => name !== "default");
       console.log(JSON.stringify(told));`,
    );
    const names = JSON.parse(consumer.node(script)) as Readonly<Record<string, readonly string[]>>;
    const page = (name: string) => readFileSync(join(consumer.folder, `node_modules/datumbook/reference/${name}.md`), "utf8");
    const list = page("README");
    expect(names[""]?.length).toBeGreaterThan(80);
    expect(names[""]?.filter((name) => !list.includes(name))).toEqual([]);
    for (const [entry, own] of Object.entries(names)) {
      if (entry === "") continue;
      const text = page(entry.slice(1));
      for (const name of own) expect(text, name).toMatch(new RegExp(`^## ${name}\\n\\n\\S[^\\n]{8,}`, "m"));
    }
    // Ranges and errors come along.
    expect(page("notebook")).toContain("runtime one of this project's own unless given".replace("runtime ", "`runtime`: "));
  });

  const strict = { strict: true, skipLibCheck: false, noEmit: true, exactOptionalPropertyTypes: true };

  it.each([
    ["nodenext", { module: "nodenext", target: "es2022", lib: ["ES2022"], types: ["node"] }],
    ["bundler", { module: "esnext", moduleResolution: "bundler", target: "es2022", lib: ["ES2022"], types: ["node"] }],
  ])("is checked by a consumer's own compiler with every declaration read, module %s", (name, options) => {
    consumer.write("headless.ts", headless);
    const project = consumer.write(
      `tsconfig.${name}.json`,
      JSON.stringify({ compilerOptions: { ...strict, ...options }, files: ["headless.ts"] }),
    );
    expect(consumer.node(typescript, "-p", project)).toBe("");
  });

  it("declares the element and its events for pages", () => {
    consumer.write("page.ts", page);
    const options = { ...strict, module: "esnext", moduleResolution: "bundler", target: "es2022", lib: ["ES2022", "DOM"], types: [] };
    const project = consumer.write("tsconfig.page.json", JSON.stringify({ compilerOptions: options, files: ["page.ts"] }));
    expect(consumer.node(typescript, "-p", project)).toBe("");
  });

  it("works a setup out in Node, and can be imported there whole", () => {
    const script = consumer.write(
      "evaluate.mjs",
      `import * as all from "datumbook";
       import { evaluateSetup } from "datumbook";
       import { plainResults } from "datumbook/record";
       import { checkDocument } from "datumbook/document";
       import { DatumBookElement } from "datumbook/element";
       const { chosen, strategies } = plainResults(evaluateSetup(checkDocument(${JSON.stringify(corner)}).value));
       const { zero } = strategies.find(({ id }) => id === chosen);
       console.log(JSON.stringify([zero.X.value, zero.Y.value, typeof all.evaluateSetup, typeof DatumBookElement]));`,
    );
    expect(JSON.parse(consumer.node(script))).toEqual([-47, -67, "function", "function"]);
  });
});

describe("a host's own copy of the runtime, in Node", () => {
  it("imports the notebook, overrides entries and computed cells, and reads results", () => {
    const script = consumer.write("host.mjs", host);
    expect(JSON.parse(consumer.node(script))).toEqual({
      isSeparate: true,
      filled: [-47, -67],
      // The host's own formula over a cell that it imports.
      twice: -94,
      // A reading further by 1 mm takes the zero along; a radius larger by 1 mm as well.
      moved: [-46, -67],
      larger: [-45, -66],
      failed: "the host says no",
    });
  });
});

/** Most bytes, minified, of a bundle that takes one function from a stage: a stage may need those before it, and never formulas or documents. */
const largestBundle = 6_000;

describe("one function of one stage", () => {
  it.each([
    ["datumbook/uncertainty", "standardUncertaintyOf"],
    ["datumbook/part", "iso14253Default"],
    ["datumbook/fixture", "axisLift"],
    ["datumbook", "chartConstants"],
  ])(`is all that a bundle takes of the package: %s, %s`, async (entry, name) => {
    const source = consumer.write(`${name}.js`, `import { ${name} } from "${entry}"; globalThis.taken = ${name};`);
    const { output } = (await build({
      root: consumer.folder,
      configFile: false,
      logLevel: "silent",
      build: { write: false, minify: true, rolldownOptions: { input: source } },
    })) as Rolldown.RolldownOutput;
    const size = output.reduce((sum, file) => sum + (file.type === "chunk" ? file.code.length : 0), 0);
    expect(size).toBeGreaterThan(20);
    expect(size).toBeLessThan(largestBundle);
  });
});

/** Signatures of every kind, as somebody else would write them; `Equal` fails where a type has become `any`. */
const headless = `
import { evaluateSetup, type Outcome, type SetupDocument } from "datumbook";
import { type Budget, budgetOf, SourceBook, type Uncertain } from "datumbook/uncertainty";
import { checkDocument, parseDocument } from "datumbook/document";
import { parseStatement } from "datumbook/formula";
import { plainResults } from "datumbook/record";
import setup, { type ModuleLike, type ObserverLike, openSetup, type RuntimeLike, type SetupCells } from "datumbook/notebook";
import * as base from "datumbook/base";
import * as contacts from "datumbook/contacts";
import * as decision from "datumbook/decision";
import * as drift from "datumbook/drift";
import * as fixture from "datumbook/fixture";
import * as ledger from "datumbook/ledger";
import * as offsets from "datumbook/offsets";
import * as part from "datumbook/part";
import * as run from "datumbook/run";
import * as slips from "datumbook/slips";

type Equal<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
const read: Outcome<SetupDocument> = parseDocument("{}");
const isNoAny: [Equal<typeof read, any>, Equal<ReturnType<typeof evaluateSetup>, any>, Equal<SetupDocument["touches"], any>,
  Equal<SetupDocument["touches"][number]["readings"], string>, Equal<Parameters<typeof setup>[0], RuntimeLike>,
  Equal<ReturnType<typeof setup>, ModuleLike>, Equal<SetupCells["evaluation"], any>] = [false, false, false, true, true, true, false];
export async function use(runtime: RuntimeLike, observer: ObserverLike): Promise<Budget | undefined> {
  const module: ModuleLike = runtime.module(setup, (name) => (name === "results" ? observer : undefined));
  module.redefine("touches", [], () => []);
  const opened = openSetup(runtime);
  if (read.ok) opened.fill(read.value);
  const [evaluation] = await opened.notebook.settled(["evaluation"]);
  const plain: { readonly chosen: unknown } = plainResults(evaluation);
  // @ts-expect-error no cell has this name
  await opened.notebook.settled(["evaluatoin"]);
  const zero: Uncertain | undefined = undefined;
  return zero === undefined ? undefined : budgetOf(zero);
}
export { base, checkDocument, contacts, decision, drift, fixture, isNoAny, ledger, offsets, parseStatement, part, run, slips, SourceBook };
`;

const page = `
import { DatumBookElement } from "datumbook/element";
const book: DatumBookElement = document.createElement("datum-book");
book.document = "{}";
book.addEventListener("datumbook-results", ({ detail }) => {
  const chosen: unknown = detail.chosen;
  // @ts-expect-error there is no such result
  detail.nothing;
  console.log(chosen);
});
book.addEventListener("datumbook-problem", ({ detail }) => console.log(detail.map(({ at, what }) => at + what)));
`;

const host = `
import { Runtime } from "host-runtime";
import { Runtime as OwnRuntime } from "@observablehq/runtime";
import setup, { openSetup } from "datumbook/notebook";
import { checkDocument } from "datumbook/document";

const { value: document } = checkDocument(${JSON.stringify(corner)});
const runtime = new Runtime();
const main = runtime.module();
const module = runtime.module(setup);
openSetup(runtime).fill(document);
const zero = async () => {
  const { value } = await module.value("chosenStrategy");
  return value.zero.slice(0, 2).map((axis) => axis.value.value);
};
const told = { isSeparate: Runtime !== OwnRuntime, filled: await zero() };
main.variable().import("chosenStrategy", "zeroOfTheSetup", module);
main.define("twice", ["zeroOfTheSetup"], ({ value }) => 2 * value.zero[0].value.value);
told.twice = await main.value("twice");
module.redefine("touches", [], () => document.touches.map((touch) => (touch.id === "left" ? { ...touch, readings: "-49" } : touch)));
told.moved = await zero();
module.redefine("tools", [], () => [{ ...document.tools[0], radius: "4" }]);
told.larger = await zero();
module.redefine("location", [], () => { throw new Error("the host says no"); });
told.failed = await zero().catch((error) => error.message);
console.log(JSON.stringify(told));
process.exit();
`;
