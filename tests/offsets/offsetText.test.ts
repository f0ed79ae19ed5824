import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { compareOffsets } from "../../lib/offsets/compareOffsets.ts";
import type { Controller } from "../../lib/offsets/enteredOffset.ts";
import { evaluateOffsets, type OffsetsEvaluation } from "../../lib/offsets/offsetTable.ts";
import { offsetText, registerDigits } from "../../lib/offsets/offsetText.ts";
import { readOffsetText } from "../../lib/offsets/readOffsetText.ts";
import { must } from "../properties/setups.ts";
import { type LoggedRow, logOf, randomZeros } from "./logs.ts";

const metric: Controller = { controllerUnit: "mm", decimals: 3, offsetStep: mm(0) };
const inch: Controller = { controllerUnit: "inch", decimals: 4, offsetStep: mm(0) };

/** For thousands of cases: only what differs is worth the words of an assertion. */
function expectSame(got: unknown, wanted: unknown): void {
  if (!isDeepStrictEqual(got, wanted)) expect(got).toStrictEqual(wanted);
}

const tableOf = (rows: readonly LoggedRow[]) => evaluateOffsets(logOf(rows)) as OffsetsEvaluation;
const textOf = (table: OffsetsEvaluation, controller: Controller) =>
  must(offsetText(table, { controller, job: "a job (second side)", time: "2026-05-04 06:10" }));

describe("offsetText and readOffsetText", () => {
  it("readOffsetText(offsetText(table)) gives the table's own digits back, to the last, for 10 000 random tables in mm and in inches", () => {
    let tables = 0;
    fc.assert(
      fc.property(randomZeros, fc.constantFrom(metric, inch), (rows, controller) => {
        const table = tableOf(rows);
        const digits = registerDigits(table, { controller });
        if (digits.every((each) => each.digits.length === 0)) {
          if (offsetText(table, { controller, job: "", time: "" }).ok) expect.fail("text without a value");
          return;
        }
        const printed = textOf(table, controller);
        const read = must(readOffsetText(printed.join("\n"), "mm"));
        expectSame(read.unit, controller.controllerUnit);
        expectSame(
          read.offsets.map(({ register, axis, text }) => [register, axis, text]),
          digits.flatMap(({ register, digits }) => digits.map(({ axis, text }) => [register, axis, text])),
        );
        expectSame(compareOffsets(digits, read, controller), { differences: [], agreeing: read.offsets.length, coarse: 0 });
        // The table that is logged from what was read prints the same text once more.
        const again = tableOf(
          digits.map(({ register }) => ({
            kind: "measured zero",
            register,
            values: ["X", "Y", "Z"].map((axis) => read.offsets.find((each) => each.register === register && each.axis === axis)?.value),
          })),
        );
        expectSame(textOf(again, controller), printed);
        tables++;
      }),
      { numRuns: 10_000 },
    );
    expect(tables).toBeGreaterThan(9000);
  });

  it("offsetText(table): the shifts are told and not written, unless the sum is asked for", () => {
    const table = tableOf([
      { kind: "measured zero", register: "G54", values: [-412.607, -203.112] },
      { kind: "correction", register: "G54", values: [0.02] },
      { kind: "local shift", register: "G54", values: [114.3], nest: "2" },
      { kind: "measured zero", register: "P12", values: [undefined, undefined, -80] },
    ]);
    const text = textOf(table, metric);
    expect(text.filter((line) => !line.startsWith("("))).toEqual(["G21 G90", "G10 L2 P1 X-412.587 Y-203.112", "G10 L2 P12 Z-80.000"]);
    expect(text[0]).toBe("(a job [second side])");
    expect(text).toContain("(G54: the local shift for 2 of X114.300 mm is not in these values)");
    expect(must(offsetText(table, { controller: metric, written: "sum", job: "", time: "" }))).toContain("G10 L2 P1 X-298.287 Y-203.112");
  });

  // NISTIR 6556 (2000), 3.3.4: comments in round brackets, none inside another, "MSG," begins a message (clause seen; 256 characters from memory).
  it("offsetText(table, {job}): whatever the job is called, its comment is one and no message", () => {
    const table = tableOf([{ kind: "measured zero", register: "G54", values: [1] }]);
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 400 }), (job) => {
        const text = must(offsetText(table, { controller: metric, job, time: "" }));
        expect(text[0]).toMatch(/^\([^()\r\n%]*\)$/);
        expect(text[0]).not.toMatch(/^\(\s*msg\s*,/i);
        expect(text.every((line) => line.length <= 256 && /^[\x20-\x7e]*$/.test(line))).toBe(true);
        expect(must(readOffsetText(text.join("\r\n"), "inch")).offsets).toMatchObject([{ register: "G54", axis: "X", value: 1 }]);
      }),
      { numRuns: 500 },
    );
    expect(must(offsetText(table, { controller: metric, job: "MSG, hello", time: "" }))[0]).toBe("(message: hello)");
  });
});

describe("readOffsetText", () => {
  const values = (text: string, unit: "mm" | "inch" = "mm") =>
    must(readOffsetText(text, unit)).offsets.map(({ register, axis, value }) => `${register} ${axis} ${Number(value.toFixed(6))}`);

  it.each([
    ["g21g90\ng10l2p1x-1.5y+2.", ["G54 X -1.5", "G54 Y 2"]],
    ["%\nN10 G90 G20 (units)\nN20 G10 L2 P7 X1.0000\n%", ["G59.1 X 25.4"]],
    ["G21 G90 G10 L2 P1.0 Z-0.500 (all in one line)", ["G54 Z -0.5"]],
    ["G21 G90\nG10 L2 P2 X0 Y0 Z0", ["G55 X 0", "G55 Y 0", "G55 Z 0"]],
    ["G54 X-412.607 Y-203.112 Z-118.400", ["G54 X -412.607", "G54 Y -203.112", "G54 Z -118.4"]],
    ["G54: X = −412.607 mm, Y = -203.112 mm", ["G54 X -412.607", "G54 Y -203.112"]],
    ["G59.3 X1.5in Y2.5inch", ["G59.3 X 38.1", "G59.3 Y 63.5"]],
    ["P12 X412,6070 Y12.000-", ["P12 X 412.607", "P12 Y -12"]],
    [
      "register\tX mm\tY mm\tZ mm\nG54\t-412.607\t-203.112\t\nG55\t-100.000\t0\t-5.000",
      ["G54 X -412.607", "G54 Y -203.112", "G55 X -100", "G55 Y 0", "G55 Z -5"],
    ],
    ["offset;X [in];Z [in]\nG54;1,5;2,5", ["G54 X 38.1", "G54 Z 63.5"]],
  ])("readOffsetText(%j) reads every value", (text, expected) => {
    expect(values(text)).toEqual(expected);
  });

  it.each<[text: string, at: string, what: RegExp]>([
    ["", "", /nothing is typed/],
    ["hello world", "line 1, character 1", /names no register/],
    ["G21 G91\nG10 L2 P1 X1.0", "line 1, character 5", /G91 some controllers add/],
    ["G21\nG10 L2 P1 X1.0", "line 2, character 1", /absolute/],
    ["G90\nG10 L2 P1 X1.0", "line 2, character 1", /in which unit/],
    ["G21 G90\nG10 L2 X1.0", "line 2, character 1", /P word is missing/],
    ["G21 G90\nG10 L2 P0 X1.0", "line 2, character 8", /P0 is no register/],
    ["G21 G90\nG10 L2 P1.5 X1.0", "line 2, character 8", /P1.5 is no register/],
    ["G21 G90\nG10 L2 P-1 X1.0", "line 2, character 8", /P-1 is no register/],
    ["G21 G90\nG10 L20 P1 X1.0", "line 2, character 5", /L20 sets something else/],
    ["G21 G90\nG10 P1 X1.0", "line 2, character 1", /without L2/],
    ["G21 G90\nG10 L2 P1 X1.0\nG20\nG10 L2 P2 X1.0", "line 3, character 1", /mixes millimetres and inches/],
    ["G21 G90\nG10 L2 P1 X", "line 2, character 11", /cut off/],
    ["G21 G90\nG10 L2 P1 X-", "line 2, character 11", /cut off/],
    ["G21 G90\nG10 L2 P1", "line 2, character 1", /sets no axis/],
    ["G21 G90\nG10 L2 P1 X1.0 (job", "line 2, character 16", /never closed/],
    ["G21 G90\nG10 L2 P1 X-412", "line 2, character 11", /no decimal point/],
    ["G21 G90\nG10 L2 P1 X-412,607", "line 2, character 16", /does not belong to the number/],
    ["G21 G90\nG10 L2 P1 X1.000 Y2.000\nG10 L2 P2 X3.000 Y4.0", "line 3, character 18", /fewer decimals/],
    ["G21 G90\nG10 L2 P1 X1.0\nG10 L2 P1 X2.0", "line 3, character 11", /stated twice/],
    ["G21 G90\nG10 L2 P1 X1.0 X2.0", "line 2, character 16", /second word/],
    ["G21 G90\nG10 L2 P1 X1.0 A90.0", "line 2, character 16", /axis that this table does not have/],
    ["G21 G90\nG10 L2 P1 X1.0 R2.0", "line 2, character 16", /turns the coordinates/],
    ["G21 G90\nG10 L2 P1 X1.0\nG1 X5.0", "line 3, character 1", /does not belong/],
    ["G21 G90\nG10 L2 P1 X1.0\nX5.0", "line 3, character 1", /would move the machine/],
    ["G21 G90\nG10 L2 P1 X1.0\nM30", "line 3, character 1", /does not belong/],
    ["G21 G90\n/G10 L2 P1 X1.0", "line 2, character 1", /leave out/],
    ["G21 G90\nG10 L2 P1 X#5221", "line 2, character 12", /works out itself/],
    ["G21 G90\nG10 L2 P1 X9999999.0", "line 2, character 11", /longer than any machine/],
    ["G54 X-412.607 Y", "line 1, character 15", /cut off/],
    ["G54", "line 1, character 4", /cut off/],
    ["G54 X1.0 Y2.0\nX3.0", "line 2, character 1", /names no register/],
    ["G54 X1.0 mm Y2.0 in", "line 1, character 13", /mixes/],
    ["G54 X412,607", "line 1, character 5", /decimal mark .* or a thousands mark/],
    ["G54 X1.0 F100", "line 1, character 10", /no axis with its value/],
    ["G60 X1.0", "line 1, character 1", /names no register/],
    ["register\tX\tA\nG54\t1.0\t2.0", "line 1, character 12", /"A" is no column/],
    ["register\tX mm\tY in\nG54\t1.0\t2.0", "line 1, character 1", /one unit/],
    ["register\tX\tY\nG54\t1.0", "line 2, character 8", /fewer cells/],
    ["register\tX\tY\nG53\t1.0\t2.0", "line 2, character 1", /names no register/],
    ["register\tX\tY\nG54\t1.0\tabc", "line 2, character 9", /does not belong to a number|not a number/],
    ["G54\t1.0\t2.0", "line 1, character 5", /no axis/],
  ])("readOffsetText(%j) is refused at %s", (text, at, what) => {
    const read = readOffsetText(text, "mm");
    expect(read).toMatchObject({ ok: false });
    const [problem] = read.ok ? [] : read.problems;
    expect(problem).toMatchObject({ at, what: expect.stringMatching(what) });
  });

  it("readOffsetText(huge) is refused at once", () => {
    expect(readOffsetText("G54 X1.0\n".repeat(100_000), "mm")).toMatchObject({ ok: false, problems: [{ expected: "at most 200000" }] });
    expect(readOffsetText(`G54 X${"1".repeat(150_000)}`, "mm")).toMatchObject({ ok: false, problems: [{ expected: "at most 1000" }] });
  });

  it("readOffsetText(anything) never throws, and refuses at a place or reads whole", () => {
    const pieces = fc.constantFrom(
      "G10",
      "G54",
      "L2",
      "P1",
      "X",
      "Y-1.5",
      "\n",
      "\t",
      ";",
      "(",
      ")",
      "G21",
      "G90",
      " ",
      "1.0",
      ",",
      "%",
      "/",
      "−2.5",
      "mm",
      "in",
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (parts) => {
        const read = readOffsetText(parts.join(""), "mm");
        if (read.ok)
          for (const { value, register } of read.value.offsets) expect([Number.isFinite(value), register !== ""]).toEqual([true, true]);
        else expect(read.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("compareOffsets", () => {
  const digits = registerDigits(
    tableOf([
      { kind: "measured zero", register: "G54", values: [-412.607, -203.112, -118.4] },
      { kind: "measured zero", register: "G55", values: [-300.25, -203.112] },
    ]),
    { controller: metric },
  );
  const compared = (text: string, unit: "mm" | "inch" = "mm") => compareOffsets(digits, must(readOffsetText(text, unit)), metric);

  it("compareOffsets(...) lists every difference by register and axis, with what it looks like", () => {
    const { differences, agreeing } = compared("G54 X412.607 Y-203.112 Z-118.390\nG55 X-412.607 Y-406.224\nG56 X0.000");
    expect(agreeing).toBe(1);
    expect(differences.map(({ register, axis, table, read, looksLike }) => [register, axis, table, read, looksLike])).toEqual([
      ["G54", "X", "-412.607", "412.607", "the other sign"],
      ["G54", "Z", "-118.400", "-118.390", ""],
      ["G55", "X", "-300.250", "-412.607", "the value of G54"],
      ["G55", "Y", "-203.112", "-406.224", "twice the value"],
      ["G56", "X", undefined, "0.000", ""],
    ]);
    expect(differences[1]?.difference).toBeCloseTo(0.01, 12);
  });

  it("compareOffsets(...) tells what the text leaves out, and what it tells with fewer decimals", () => {
    const { differences, agreeing, coarse } = compared("G54 X-412.61 Y-203.11 Z-118.40");
    expect([agreeing, coarse]).toEqual([3, 3]);
    expect(differences.map(({ register, axis, read }) => [register, axis, read])).toEqual([
      ["G55", "X", undefined],
      ["G55", "Y", undefined],
    ]);
  });

  // RS274/NGC (NISTIR 6556, 3.3.2.1): a number has one value, whatever digits it is written with.
  it("compareOffsets(...) takes a number of a block for what it is, without decimals as well", () => {
    expect(compared("G21 G90\nG10 L2 P1 X-412.6 Y-203.112 Z-118.4").differences.map(({ axis, read }) => [axis, read])).toEqual([
      ["X", "-412.6"],
      ["X", undefined],
      ["Y", undefined],
    ]);
    expect(compared("G21 G90\nG10 L2 P1 X-413. Z-118.4").differences.map(({ axis }) => axis)).toEqual(["X", "Y", "X", "Y"]);
  });

  it("compareOffsets(...) takes a text in inches for what it is, and sees a unit that was mistaken", () => {
    // 412.607 mm / 25.4 = 16.24437 in, 203.112 mm / 25.4 = 7.99654 in, 118.4 mm / 25.4 = 4.66142 in.
    const inches = "G54 X-16.2444 Y-7.9965 Z-4.6614\nG55 X-11.8209 Y-7.9965";
    expect(compared(inches, "inch")).toEqual({ differences: [], agreeing: 5, coarse: 5 });
    expect(compared(inches, "mm").differences.map(({ looksLike }) => looksLike)).toEqual(
      Array.from({ length: 5 }, () => expect.stringContaining("inches taken for millimetres")),
    );
  });
});
