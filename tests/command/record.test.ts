import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { JSDOM } from "jsdom";
import { afterAll, beforeAll, expect, it } from "vitest";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const folder = mkdtempSync(join(tmpdir(), "record-"));
beforeAll(() => {
  buildCommand("record");
  buildCommand("rationale");
  buildCommand("evaluate");
}, 3 * patience);
afterAll(() => rmSync(folder, { recursive: true }));

const demo = (name: string) => fileURLToPath(new URL(`../../notebooks/demo/${name}.json`, import.meta.url));
const cover = demo("bearingCover");

it("record FILE has the digits of evaluate: zero, offset, check readings", () => {
  const { status, output, errors } = runCommand("record", [cover]);
  expect({ status, errors }).toEqual({ status: 0, errors: [] });
  const evaluated = JSON.parse(runCommand("evaluate", [cover, "--json"]).output);
  const [first] = evaluated.strategies;
  for (const line of first.offset.lines) expect(output).toContain(line);
  const record = JSON.parse(runCommand("record", [cover, "--json"]).output);
  expect(record.strategy.id).toBe(first.id);
  expect(
    record.strategy.zero.map(({ known }: { known: { value: number; expandedUncertainty: number } }) => [
      known.value,
      known.expandedUncertainty,
    ]),
  ).toEqual(["X", "Y", "Z"].map((axis) => [first.zero[axis].value, first.zero[axis].expandedUncertainty]));
  expect(record.checks.map(({ name, lower, upper }: { name: string; lower: number; upper: number }) => [name, lower, upper])).toEqual(
    evaluated.predictedReadings.map(({ touch, lower, upper }: { touch: string; lower: number; upper: number }) => [touch, lower, upper]),
  );
  for (const { known } of record.strategy.zero) expect(output).toContain(known.written.value);
});

it("record FILE --html is one page for the paper that is asked for, and --csv four columns", () => {
  const a4 = runCommand("record", [cover, "--html"]);
  const letter = runCommand("record", [cover, "--html", "--paper", "letter"]);
  expect([a4.status, letter.status]).toEqual([0, 0]);
  expect(a4.output).toContain("size: 210mm 297mm");
  expect(letter.output).toContain("size: 8.5in 11in");
  expect(new JSDOM(a4.output).window.document.querySelector("h1")?.textContent).toBe("Bearing cover, second side");
  const [head, ...rows] = runCommand("record", [cover, "--csv"]).output.trimEnd().split("\r\n");
  expect(head).toBe("section,row,column,text");
  expect(rows).toContain("To type,1,X,-318.399");
});

it("record FILE --figures DIR writes figures that are XML by themselves and the same as on the page", () => {
  const into = join(folder, "figures");
  const { status, output } = runCommand("record", [cover, "--html", "--figures", into]);
  expect(status).toBe(0);
  const names = readdirSync(into);
  expect(names).toEqual(expect.arrayContaining(["setup.svg", "strategies.svg", "budget-X.svg", "stack-1.svg"]));
  for (const name of names) {
    const text = readFileSync(join(into, name), "utf8");
    const { document } = new JSDOM(text, { contentType: "image/svg+xml" }).window;
    expect([name, document.documentElement.localName]).toEqual([name, "svg"]);
    expect(text).not.toMatch(/<script|href=/);
  }
  const setup = readFileSync(join(into, "setup.svg"), "utf8");
  const drawn = setup.slice(setup.indexOf("</style>") + "</style>".length).trimEnd();
  expect(output).toContain(drawn);
  expect(runCommand("record", [cover, "--figures", join(cover, "here")])).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("--figures: the figures cannot be written there")],
  });
});

it("record FILE --operation NAME tells of that operation, and --unit inch in inches", () => {
  const first = JSON.parse(runCommand("record", [demo("bothSides"), "--operation", "10", "--json"]).output);
  expect(first.operation).toBe("10");
  expect(runCommand("record", [cover, "--operation", "10"])).toMatchObject({
    status: 2,
    output: "",
    errors: [expect.stringContaining("--operation")],
  });
  // -318.3995 mm / 25.4 = -12.53541… in.
  const inches = JSON.parse(runCommand("record", [cover, "--unit", "inch", "--json"]).output);
  expect(inches.strategy.zero[0].known.written.value).toMatch(/^-12\.535/);
});

it.each([
  ["two forms", [cover, "--html", "--json"], "one form at a time"],
  ["a paper that there is not", [cover, "--html", "--paper", "a3"], "a4 or letter"],
  ["paper for text", [cover, "--paper", "a4"], "only --html"],
  ["a unit that there is not", [cover, "--unit", "cm"], "mm or inch"],
  ["an option that there is not", [cover, "--pdf"], "--pdf"],
  ["no file", [], "one setup is looked at at a time"],
])("record refuses %s with status 2 and a line", (_, args, words) => {
  for (const name of ["record", "rationale"] as const)
    expect(runCommand(name, args)).toMatchObject({ status: 2, output: "", errors: [expect.stringContaining(words)] });
});

it("record FILE with something open prints nothing, and with --keep-going what is open first", () => {
  const document = JSON.parse(readFileSync(cover, "utf8"));
  document.touches[0].readings = "near";
  const file = join(folder, "open.json");
  writeFileSync(file, JSON.stringify(document));
  const refused = runCommand("record", [file]);
  expect(refused).toMatchObject({ status: 2, output: "" });
  expect(refused.errors.join("\n")).toContain("touches.b1.readings");
  const kept = runCommand("record", [file, "--keep-going"]);
  expect(kept.status).toBe(2);
  expect(kept.output.indexOf("Not read, or not known")).toBeGreaterThan(0);
  expect(kept.output.indexOf("Not read, or not known")).toBeLessThan(kept.output.indexOf("Cautions"));
  expect(kept.output).not.toContain("G10 L2");
});

it("rationale FILE names every alternative, every source with what it rests on, and what stays open", () => {
  const { status, output } = runCommand("rationale", [cover, "--json"]);
  expect(status).toBe(0);
  const rationale = JSON.parse(output);
  const evaluated = JSON.parse(runCommand("evaluate", [cover, "--json"]).output);
  expect(rationale.alternatives.map(({ id }: { id: string }) => id)).toEqual(evaluated.ranking);
  expect(rationale.sources.map(({ source }: { source: string }) => source).sort()).toEqual(
    evaluated.sources.map(({ id }: { id: string }) => id).sort(),
  );
  const classes = new Map(
    rationale.sources.map(({ source, written }: { source: string; written: { evidence: string } }) => [source, written.evidence]),
  );
  // As the demo states: the probe's radius has a certificate, its scatter is pooled from 4 + 4 + 3 + 3 readings.
  expect(classes.get("tool probe, radius")).toBe("certificate: ring R-26/031");
  expect([...classes.values()]).toContain("measured, n = 14");
  expect(rationale.risks.length).toBeGreaterThan(0);
  const text = runCommand("rationale", [cover]).output;
  for (const { label } of rationale.sources) expect(text.replace(/\s+/g, " ")).toContain(label);
});
