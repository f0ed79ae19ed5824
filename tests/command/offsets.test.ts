import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { buildCommand, patience, runCommand } from "../support/runEvaluate.ts";

const folder = mkdtempSync(join(tmpdir(), "offsets-"));
beforeAll(() => buildCommand("offsets"), patience);
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

const document = {
  format: "datumbook",
  version: 2,
  title: "two nests",
  unit: "mm",
  part: {
    elements: [
      { id: "end", kind: "face", outward: "-X", datum: "A" },
      { id: "step", kind: "face", outward: "+X" },
    ],
    dimensions: [{ id: "length", from: "end", to: "step", axis: "X", nominal: "120", tolerance: "±0.03" }],
  },
  tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatter: "0.002" }],
  touches: [{ id: "end", element: "end", travelling: "+X", tool: "pin", readings: "10" }],
  strategies: [{ id: "left", touches: ["end"] }],
  chosen: "left",
  offsets: [
    { id: "first", register: "G54", x: "-412.607 mm ± 0.002 mm", y: "-203.112" },
    { id: "boss", kind: "correction", register: "G54", x: "0.02", why: "first article" },
    { id: "nest", kind: "local shift", register: "G54", x: "114.3", nest: "2" },
  ],
};
const file = fileOf("job.json", JSON.stringify(document));
const run = (...args: string[]) => runCommand("offsets", [file, ...args]);

// Sums by hand: -412.607 + 0.02 = -412.587; + 114.3 = -298.287.
it("offsets FILE tells the sums in force, and --after ROW those after an earlier row", () => {
  expect(run()).toMatchObject({ status: 0, errors: [], output: expect.stringMatching(/G54 X +-298\.2870 +0\.0020 +first, boss, nest/) });
  expect(run("--after", "boss").output).toMatch(/G54 X +-412\.5870 +0\.0020 +first, boss/);
  expect(run("--after", "second")).toMatchObject({ status: 2, output: "", errors: [expect.stringContaining("no such row in the log")] });
});

it("offsets FILE --lines writes blocks that --read takes back without a difference", () => {
  const { output } = run("--lines", "--time", "06:10");
  expect(output.split("\n")).toEqual([
    "(two nests)",
    "(06:10)",
    "(without shifts, which stay where the machine keeps them)",
    "G21 G90",
    "(G54: the local shift for 2 of X114.300 mm is not in these values)",
    "G10 L2 P1 X-412.587 Y-203.112",
    "",
  ]);
  expect(run("--read", fileOf("same.txt", output))).toMatchObject({
    status: 0,
    output: "2 values agree with the table; nothing differs.\n",
  });
  expect(run("--lines", "--sum").output).toContain("G10 L2 P1 X-298.287 Y-203.112");
});

it("offsets FILE --read tells differences with status 1, and refuses a text at its line and character with status 2", () => {
  const read = (text: string) => run("--read", fileOf("read.txt", text));
  expect(read("G54 X412.587 Y-203.112")).toMatchObject({
    status: 1,
    output:
      "1 value agrees with the table; 1 value differs.\nG54 X: the table has -412.587, the text 412.587; +825.1740 mm: the other sign.\n",
  });
  expect(read("G21 G91\nG10 L2 P1 X1.0")).toMatchObject({
    status: 2,
    output: "",
    errors: [expect.stringContaining("read.txt, line 1, character 5: with G91")],
  });
});

// The step is 120 from the end, within ±0.03 at three standard deviations: u² = 0.002² + 0.01².
it("offsets FILE --move tells the zero at another point, and what it costs", () => {
  expect(run("--move", "X=step")).toMatchObject({
    status: 0,
    output: expect.stringMatching(/^X 133\.000 mm \(u 0\.010; before 0\.0020\), 120\.0000 from the old zero/m),
  });
  expect(run("--move", "X=step").output).toContain("each milliradian of turn moves the new zero by 0.1200 mm");
  expect(run("--move", "X=stop")).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("no element by this name with a place along X")],
  });
  expect(run("--move", "sideways")).toMatchObject({ status: 2, errors: [expect.stringContaining("these places are not understood")] });
});

it("offsets FILE refuses a setup without a log, and one whose log cannot be read", () => {
  const without = fileOf("without.json", JSON.stringify({ ...document, offsets: [] }));
  expect(runCommand("offsets", [without])).toMatchObject({ status: 2, output: "", errors: [expect.stringContaining("nothing is logged")] });
  const wrong = fileOf("wrong.json", JSON.stringify({ ...document, offsets: [...document.offsets, { id: "r", register: "G53", x: "1" }] }));
  expect(runCommand("offsets", [wrong])).toMatchObject({ status: 2, output: "", errors: [expect.stringContaining("offsets.r.register")] });
});

// (x, y, z) turned about Y is (-x, y, T - z), and L - x from the other end; the step is 120 from the end within ±0.03, u = 0.01; √(0.01² + 0.02²) = 0.022.
it("offsets FILE --turn tells every element after half a turn, with the doubt of what lies between the faces", () => {
  expect(run("--turn", "Y")).toMatchObject({ status: 0, output: expect.stringMatching(/step +-120\.000 +0\.010 +- +- +- +-\n/) });
  expect(run("--turn", "z", "--across", "X=150 mm ± 0.02 mm").output).toMatch(/end +150\.000 +0\.020 .*\n +step +30\.000 +0\.022 /);
  expect(run("--turn", "X", "--across", "X=150")).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("nothing changes along X")],
  });
  // A zero at the right end: the part lies to its left, at 0 to -120, and so does its other end.
  const atRight = fileOf(
    "atRight.json",
    JSON.stringify({ ...document, strategies: [{ id: "left", touches: ["end"], zero: { x: "step" } }] }),
  );
  const turned = (across: string) => runCommand("offsets", [atRight, "--turn", "Y", "--across", across]);
  expect(turned("X=-120").output).toMatch(/end +0\.000 .*\n +step +-120\.0000 /);
  expect(turned("X=120")).toMatchObject({ status: 2, errors: [expect.stringContaining("negative side of its zero")] });
  expect(run("--turn", "W")).toMatchObject({ status: 2, errors: [expect.stringContaining("no such axis")] });
});

// Two nests 100 apart, the second found 0.02 too high: without a turn 0.01 is left at each, with one none; the turn is 0.02/100 rad = 0.01146°.
it("offsets FILE --nests tells the best zero for several nests, with and without a turn", () => {
  const table = (rows: string) => fileOf("nests.tsv", `nest\tx\ty\tfound x\tfound y\n${rows}`);
  const { status, output } = run("--nests", table("A\t0\t0\t0 ± 0.004 mm\t0 ± 0.004 mm\nB\t100\t0\t100 ± 0.004 mm\t0.02 ± 0.004 mm\n"));
  expect(status).toBe(0);
  const [without, turned] = output.split("\n\n") as [string, string];
  expect(without).toMatch(/B +0\.0000 +0\.0100 +0\.0100/);
  expect(without).toContain("more than the doubts explain");
  expect(turned).toMatch(/turn, ° +0\.0115 +0\.0032/);
  expect(turned).toMatch(/B +-?0\.0000 +0\.0000 +0\.0000/);
  expect(run("--nests", table("A\t0\t0\tnear\t0\n"))).toMatchObject({ status: 2, errors: [expect.stringContaining("row 2.found x")] });
  expect(run("--nests", fileOf("other.tsv", "a\tb\n1\t2\n"))).toMatchObject({
    status: 2,
    errors: [expect.stringContaining("columns are missing")],
  });
});
