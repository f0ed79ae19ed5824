import fc from "fast-check";
import { expect, it } from "vitest";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { parseExpression } from "../../lib/formula/parseExpression.ts";
import { parseNumber } from "../../lib/formula/parseNumber.ts";
import { parseAngle, parseLength } from "../../lib/formula/parseQuantity.ts";
import { parsePointReadings } from "../../lib/readings/parsePointReadings.ts";
import { parseReadings } from "../../lib/readings/parseReadings.ts";
import { parseTable } from "../../lib/readings/parseTable.ts";

/** Texts near the grammar: what a slip of the hand, or a hostile one, makes of a formula. */
const pieces = fc.constantFrom(
  ...["1", "12.5", "0", ".5", "12,5", "1,234", "1e3", "9e999", "٣", "４"],
  ...["mm", "in", "um", "µm", "deg", "°", "K", "MM", "kg", '"', "″", "'"],
  ...["+", "-", "−", "*", "×", "·", "/", "÷", "^", "(", ")", ",", ";", " ", "\t", "\n", "\u00a0", "\u202f"],
  ...["sqrt", "max", "sin", "pi", "a", "constructor", "__proto__", "toString", "import", "to", "mod", "true", "NaN", "X", "Y-"],
  ...["[", "]", "{", "}", "=", "?", ":", "!", "%", "#", "\\", ".", "..", "$", "²", "½", "√", "🙂", "\ud800", "\u0301", "\u0000"],
);
const nearGrammar = fc.array(pieces, { maxLength: 14 }).map((parts) => parts.join(""));
const anyText = fc.oneof({ weight: 3, arbitrary: nearGrammar }, { weight: 1, arbitrary: fc.string({ unit: "binary", maxLength: 30 }) });

/** An outcome in which every number is finite, and every problem a sentence with a place inside the text. */
function expectSound<T>(outcome: Outcome<T>, text: string, numbers: (value: T) => readonly number[]): void {
  if (outcome.ok) {
    if (!numbers(outcome.value).every((value) => Number.isFinite(value) && !Object.is(value, -0)))
      expect.fail(`${JSON.stringify(text)}: ${numbers(outcome.value)}`);
    return;
  }
  if (outcome.problems.length === 0) expect.fail(`${JSON.stringify(text)}: refused without a reason`);
  for (const problem of outcome.problems) {
    const told = describeProblem(problem);
    const { character = 0 } = problem;
    if (/undefined|\[object|NaN \(char/.test(told) || !Number.isInteger(character) || character < 0 || character > text.length)
      expect.fail(`${JSON.stringify(text)}, character ${character}: ${told}`);
  }
}

it("parseNumber, parseLength, parseAngle and parseExpression give an outcome for any text, never an exception", () => {
  fc.assert(
    fc.property(
      anyText,
      fc.constantFrom("mm" as const, "inch" as const),
      fc.constantFrom({}, { decimalMark: "," as const }),
      (text, unit, mark) => {
        expectSound(parseNumber(text, mark), text, ({ value, decimals }) => [value, decimals]);
        expectSound(parseLength(text, { unit, ...mark }), text, ({ value }) => [value]);
        expectSound(parseAngle(text, { unit: "deg", ...mark }), text, ({ value }) => [value]);
        expectSound(parseExpression(text, mark), text, () => []);
      },
    ),
    { numRuns: 20_000 },
  );
}, 120_000);

it("parseReadings, parsePointReadings and parseTable give an outcome for any text, never an exception", () => {
  fc.assert(
    fc.property(anyText, (text) => {
      expectSound(parseReadings(text, { unit: "mm", axis: "X" }), text, ({ values }) => values);
      expectSound(parsePointReadings(text, { unit: "inch" }), text, ({ points }) => points.flatMap(({ x, y }) => [x, y]));
      expectSound(parseTable(text), text, ({ rows }) => rows.map((row) => row.length));
    }),
    { numRuns: 10_000 },
  );
}, 120_000);

const unitFactors = [
  ["mm", 1],
  ["in", 25.4],
  ["inch", 25.4],
  ["um", 0.001],
  ["cm", 10],
  ["thou", 0.0254],
] as const;
const decimalText = fc.record({ digits: fc.integer({ min: -9_999_999, max: 9_999_999 }), decimals: fc.integer({ min: 0, max: 5 }) });

/** Digits with the mark set in by hand, so that nothing of the code under test writes what it reads. */
function typed({ digits, decimals }: { digits: number; decimals: number }): string {
  const padded = String(Math.abs(digits)).padStart(decimals + 1, "0");
  const point = padded.length - decimals;
  return `${digits < 0 ? "-" : ""}${padded.slice(0, point)}${decimals > 0 ? "." : ""}${padded.slice(point)}`;
}

it("parseLength(number unit) is never off by more than a unit in the last place of number times factor, whatever the field's unit", () => {
  fc.assert(
    fc.property(
      decimalText,
      fc.constantFrom(...unitFactors),
      fc.constantFrom("mm" as const, "inch" as const),
      (number, [symbol, factor], unit) => {
        const text = typed(number);
        const exact = Number(text) * factor;
        const outcome = parseLength(`${text} ${symbol}`, { unit });
        expect(outcome.ok && Math.abs(outcome.value.value - exact) <= Math.abs(exact) * 2 ** -51).toBe(true);
        const bare = parseLength(text, { unit });
        const exactBare = Number(text) * (unit === "inch" ? 25.4 : 1);
        expect(bare.ok && Math.abs(bare.value.value - exactBare) <= Math.abs(exactBare) * 2 ** -51).toBe(true);
        const formula = parseLength(`(${text} ${symbol})`, { unit });
        expect(formula.ok && outcome.ok && formula.value.value).toBe(outcome.ok ? outcome.value.value : Number.NaN);
      },
    ),
    { numRuns: 2000 },
  );
});

it("parseNumber(text) reads back what was written with a point, a comma, a trailing minus or thousands marks", () => {
  fc.assert(
    fc.property(decimalText, (number) => {
      const text = typed(number);
      const value = Number(text) + 0;
      const read = (written: string): number | undefined => {
        const outcome = parseNumber(written);
        return outcome.ok ? outcome.value.value : undefined;
      };
      expect(read(text)).toBe(value);
      if (text.startsWith("-")) expect(read(`${text.slice(1)}-`)).toBe(value);
      const commaValue = read(text.replace(".", ","));
      expect(commaValue === undefined || commaValue === value).toBe(true);
      expect(parseNumber(text.replace(".", ","), { decimalMark: "," })).toMatchObject({
        ok: true,
        value: { value, decimals: number.decimals },
      });
      const [whole = "", fraction] = text.split(".");
      const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u202f");
      expect(read(fraction === undefined ? grouped : `${grouped}.${fraction}`)).toBe(value);
    }),
    { numRuns: 2000 },
  );
});
