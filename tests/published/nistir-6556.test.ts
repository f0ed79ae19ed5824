import { expect, it } from "vitest";
import { readSetup } from "../../lib/document/readSetup.ts";
import { enteredOffset } from "../../lib/offsets/enteredOffset.ts";
import { evaluateOffsets } from "../../lib/offsets/offsetTable.ts";
import { readOffsetText } from "../../lib/offsets/readOffsetText.ts";
import { type LoggedRow, logOf } from "../offsets/logs.ts";
import { documentFrom, must } from "../properties/setups.ts";

function linesOf(zero: readonly (number | undefined)[], machine: object): readonly string[] {
  const document = documentFrom({ part: { elements: [] }, machine, tools: [], touches: [], strategies: [] });
  return must(enteredOffset(zero, readSetup(document).setup.machine)).lines;
}

// Kramer, Proctor, Messina, The NIST RS274/NGC Interpreter - Version 3, NISTIR 6556 (2000), 3.5.5: "G10 L2 P1 x 3.5 y 17.2 sets the origin
// of the first coordinate system (the one selected by G54) to a point where X is 3.5 and Y is 17.2 (in absolute coordinates)"; axes
// without a word keep their value; P is 1 to 9 (seen).
it("nist-g10-l2: enteredOffset([3.5, 17.2, undefined], G54) writes G10 L2 P1 with X and Y alone", () => {
  const [modes, block] = linesOf([3.5, 17.2, undefined], { register: "G54" }) as [string, string];
  const words = block.split(" ");
  expect(words.slice(0, 3)).toEqual(["G10", "L2", "P1"]);
  expect(words.slice(3).map((word) => [word[0], Number(word.slice(1))])).toEqual([
    ["X", 3.5],
    ["Y", 17.2],
  ]);
  expect(modes.split(" ")).toContain("G90");
});

it.each([
  ["G54", 1],
  ["G55", 2],
  ["G56", 3],
  ["G57", 4],
  ["G58", 5],
  ["G59", 6],
  ["G59.1", 7],
  ["G59.2", 8],
  ["G59.3", 9],
])("nist-g10-l2: register %s is P%d", (register, number) => {
  expect(linesOf([1, undefined, undefined], { register })[1]?.split(" ")[2]).toBe(`P${number}`);
});

// 3.5.7 (rules: G20 inches, G21 millimetres; seen).
it("nist-rules: enteredOffset(...) says G20 before inches and G21 before millimetres", () => {
  expect(linesOf([25.4, undefined, undefined], { controllerUnit: "inch" })).toEqual(["G20 G90", "G10 L2 P1 X1.0000"]);
  expect(linesOf([25.4, undefined, undefined], { controllerUnit: "mm" })[0]).toBe("G21 G90");
});

// 3.5.5, the same example read back (seen): absolute coordinates in the active unit; Z keeps what it had, so that nothing is read for it.
it("nist-g10-l2: readOffsetText reads the example's values as absolute machine coordinates, and Z not at all", () => {
  const { unit, offsets } = must(readOffsetText("G20 G90\nG10 L2 P1 x 3.5 y 17.2", "mm"));
  expect(unit).toBe("inch");
  expect(offsets.map(({ register, axis, value }) => [register, axis, value])).toEqual([
    ["G54", "X", 3.5 * 25.4],
    ["G54", "Y", 17.2 * 25.4],
  ]);
});

// "It is an error if: the P number does not evaluate to an integer in the range 1 to 9" (3.5.5, seen); an integer may be written 1.0 (3.3.2.1, from memory).
it("nist-g10-l2: readOffsetText takes P1 to P9 as the nine systems and refuses what is no whole number from 1", () => {
  const registerOf = (p: string) => {
    const read = readOffsetText(`G21 G90\nG10 L2 P${p} X1.0`, "mm");
    return read.ok ? read.value.offsets[0]?.register : undefined;
  };
  expect(["1", "6", "7", "9", "1.0"].map(registerOf)).toEqual(["G54", "G59", "G59.1", "G59.3", "G54"]);
  expect(["0", "-1", "2.5"].map(registerOf)).toEqual([undefined, undefined, undefined]);
});

/** What the display shows of X at a machine coordinate: the point less where the programme's 0 is. */
function shown(machine: number, rows: readonly LoggedRow[]): number {
  const { sum } = evaluateOffsets(logOf(rows))?.registers[0]?.coordinates[0] ?? {};
  return machine - must(sum ?? { ok: false, problems: [] }).value;
}

// 3.5.18 (seen): at X = 4 with no axis offset, G92 x7 sets the X axis offset to -3, so that the same point is 7; then G92 x9 gives -5,
// "calculated by [[7-9] + -3]"; the offsets apply in all nine coordinate systems. A global shift here is that axis offset.
it("nist-g92: a global shift of -3, then of -5, makes the point at 4 read 7, then 9, whatever register is in use", () => {
  for (const [register, origin] of [
    ["G54", 0],
    ["G59.3", 100],
  ] as const) {
    const zero: LoggedRow = { kind: "measured zero", register, values: [origin] };
    expect(shown(origin + 4, [zero])).toBe(4);
    expect(shown(origin + 4, [zero, { kind: "global shift", values: [-3] }])).toBe(7);
    expect(shown(origin + 4, [zero, { kind: "global shift", values: [-3] }, { kind: "global shift", values: [7 - 9 + -3] }])).toBe(9);
  }
});

// 3.5.13 and 3.5.18 (coordinate systems and axis offsets add; seen for 3.5.18, 3.5.13 from memory): origin 3.5, shift -3, correction and local shift are the
// shop's own and add in the same way.
it("nist-sum: the point at which the programme's X is 0 is the origin of the system in use and the axis offset together", () => {
  const zero: LoggedRow = { kind: "measured zero", register: "G54", values: [3.5] };
  expect(shown(0.5, [zero, { kind: "global shift", values: [-3] }])).toBe(0);
});
