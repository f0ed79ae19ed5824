import { expect, it } from "vitest";
import { parseStatement } from "../../../lib/formula/parseStatement.ts";
import { describeInText } from "../../../notebooks/inputs/describeInText.ts";

it("describeInText(problem, text) marks where the trouble starts, and tells the entry once", () => {
  const problem = { at: "ledger.wall", what: "cannot add a length and an angle", character: 8 };
  expect(describeInText(problem, "bore / 2 + 3 deg")).toBe("cannot add a length and an angle. Here: bore / 2▸ + 3 deg");
  const whole = { at: "", what: "the unit is not known", got: "12.5 mmm", character: 5, remedy: "perhaps mm was meant" };
  expect(describeInText(whole, "12.5 mmm")).toBe("the unit is not known. Perhaps mm was meant. Here: 12.5 ▸mmm");
  const part = { at: "", what: "cannot add a length and an angle", got: "bore + 3 deg", character: 6 };
  expect(describeInText(part, "(bore + 3 deg) * 2")).toBe(
    'cannot add a length and an angle; got "bore + 3 deg". Here: (bore ▸+ 3 deg) * 2',
  );
});

it("describeInText(problem, text) marks nothing where no character is told, or the trouble is the entry from its beginning", () => {
  expect(describeInText({ at: "", what: "nothing is typed" }, "x")).toBe("nothing is typed.");
  expect(describeInText({ at: "", what: 'unknown name "x"', character: 0 }, "x + 1")).toBe('unknown name "x".');
  // Of another text: a formula of a column, for instance.
  expect(describeInText({ at: "", what: "division by zero", character: 9 }, "1")).toBe("division by zero.");
});

it("describeInText(problem, text) tells of a long entry what is around the place", () => {
  const text = `${"1 mm + ".repeat(30)}2 mmm${" + 1 mm".repeat(30)}`;
  const parsed = parseStatement(text);
  const words = parsed.ok ? "" : describeInText(parsed.problems[0] ?? { at: "", what: "" }, text);
  expect(words).toMatch(/Here: ….{0,40}▸mmm \+ .{0,40}…$/);
});
