import { expect, it } from "vitest";
import { readSetup } from "../../lib/document/readSetup.ts";
import { enteredOffset } from "../../lib/offsets/enteredOffset.ts";
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
