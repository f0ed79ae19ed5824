import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { demoFile } from "../exchange/demoEvaluations.ts";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const folder = mkdtempSync(join(tmpdir(), "import-"));
beforeAll(() => buildCommand("import"), patience);
afterAll(() => rmSync(folder, { recursive: true }));

const sample = (name: string) => fileURLToPath(new URL(`../exchange/samples/${name}`, import.meta.url));
const run = (...args: string[]) => runCommand("import", args);

it("import FILE prints the rows as JSON, and tells on standard error what was understood and what was left out", () => {
  const { status, output, errors } = run(sample("plate.dxf"));
  expect(status).toBe(1);
  expect(JSON.parse(output).part.elements).toHaveLength(6);
  expect(errors[0]).toMatch(/^Read as a DXF drawing/);
  expect(errors.filter((line) => line.includes("left out"))).toHaveLength(7);
});

it("import DRAWING --layers A,B takes what is on them alone, and refuses a layer that is not there", () => {
  const { output, errors } = run(sample("plate.dxf"), "--layers", "holes");
  // The drawing has its two holes on that layer, and all its lines on another.
  expect(JSON.parse(output).part.elements.map(({ kind }: { kind: string }) => kind)).toEqual(["bore", "bore"]);
  expect(errors).toContain("Layers: 0 (6 lines, left); holes (3 circles).");
  expect(errors).toContain('layer "0", left out: 6 lines: not chosen');
  expect(run(sample("plate.dxf"), "--layers", "bores")).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("--layers: nothing that could be brought in is on this layer")],
  });
});

it("import FILE --into SETUP takes nothing doubtful unless it is told to, and --whole prints a setup", () => {
  const file = join(folder, "lines.txt");
  writeFileSync(file, "left X -443.2\n");
  const plate = demoFile("sawnPlate");
  expect(run(file, "--into", plate)).toMatchObject({
    status: 1,
    output: "{}\n",
    errors: expect.arrayContaining([expect.stringContaining("NOT TAKEN")]),
  });
  const { status, output } = run(file, "--into", plate, "--doubtful", "--whole");
  expect(status).toBe(0);
  const read = parseDocument(output);
  expect(read.ok && read.value.touches.find(({ id }) => id === "left")?.readings).toBe("-443.2");
  expect(output.replace('"-443.2"', "")).toBe(readFileSync(plate, "utf8").replace('"-443.181 -443.166"', ""));
});

it("import refuses at its place: a document type, another kind, a unit beside a setup", () => {
  const file = join(folder, "laughs.xml");
  writeFileSync(file, '<?xml version="1.0"?>\n<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>');
  expect(run(file)).toMatchObject({
    status: 2,
    output: "",
    errors: [expect.stringContaining(`${file}, line 2: the document declares a document type`)],
  });
  expect(run(file, "--kind", "step")).toMatchObject({ status: 2, errors: [expect.stringContaining("--kind: there is no such kind")] });
  expect(run(file, "--unit", "mm", "--into", demoFile("sawnPlate")).status).toBe(2);
});

it("import FILE says of what it cannot take what it is, and not how setups are saved", () => {
  const large = join(folder, "large.txt");
  writeFileSync(large, "a".repeat(20_000_001));
  const { status, errors } = run(large);
  expect(status).toBe(2);
  expect(errors[0]).toContain("this is longer than anything that is brought in; expected at most 20000000 bytes");
  const binary = join(folder, "binary");
  writeFileSync(binary, Buffer.from([0xff, 0xfe, 0x00]));
  expect(run(binary).errors[0]).toContain("this is not text in UTF-8. Save it as text in UTF-8.");
});
