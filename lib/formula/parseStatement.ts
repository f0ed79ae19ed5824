import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Expression, leavesOf } from "./expression.ts";
import { withBareUnit } from "./internals/bareFormulas.ts";
import { type ShapeName, splitShape, withoutExponential } from "./internals/limitShapes.ts";
import { parseConcise } from "./internals/parseConcise.ts";
import { parseStretch } from "./internals/parseStretch.ts";
import { type FormulaText, openFormula, stretchOf } from "./internals/scanFormula.ts";
import { type Mark, marksIn, unwrap } from "./internals/statementMarks.ts";
import { type Note, type NoteKind, notesBehind } from "./internals/statementNotes.ts";
import type { NumberOptions } from "./parseNumber.ts";
import { type LimitShape, meanOf, middleOf, type StatedDoubt, type Statement } from "./statement.ts";
import type { Unit } from "./units.ts";

/**
 * Reads what a person typed into one cell: a formula, with or without a doubt of its own.
 *
 * - `12.500 mm ± 0.002 mm`, also `+-` and `+/-`: a standard uncertainty. The unit may be given once, and behind brackets:
 *   `12.500 ± 0.002 mm`, `(12.500 ± 0.002) mm` (JCGM 100:2008, 7.2.2). Behind it may stand `(k = 2)`, which makes it an
 *   expanded uncertainty with that coverage factor, and `(9 degrees of freedom)` or, shorter, `(df 9)`, or how
 *   well the size of the doubt is judged to be known, `(known to 25 %)` (G.4.2).
 * - `12.500(2) mm`: the standard uncertainty in the last digits, and `12.500(0.002) mm` (JCGM 100:2008, 7.2.2).
 * - `12.5 mm within 0.01 mm`: limits, equally likely anywhere between them, or as a word behind says: `triangular`, `arcsine`,
 *   `normal` (limits at three standard deviations), `trapezoidal (top 0.5)`, `curvilinear trapezoidal (top 0.5)`.
 * - `from 12.49 mm to 12.52 mm`: limits about nothing stated; the same words may follow.
 * - `0.02 mm not below 0.005 mm`: a quantity with one limit, of which the expectation is all that is known (JCGM 101:2008, 6.4.10); the word
 *   `exponential` may follow.
 * - `12.501; 12.499; 12.502 mm`: readings of one thing; `12.501; 12.499 | 12.503; 12.504 mm`: in groups, such as days.
 *
 * Behind `±` and `within` a size in `%` is relative to the value (JCGM 100:2008, 5.1.6): `12.5 mm ± 0.1 %`.
 *
 * Before `±` and `within` any formula may stand, also with names. Limits, an expectation and the size of a doubt may name what is sure; readings are formulas of
 * numbers.
 * Two doubts, a doubt inside brackets and words that are not understood are refused at their character.
 */
export function parseStatement(text: string, options: NumberOptions = {}): Outcome<Statement> {
  const opened = openFormula(text);
  if (!opened.ok) return opened;
  if (opened.value.text.trim() === "") return failure({ at: "", what: "nothing is typed", expected: "a number or a formula", got: text });
  const notes = notesBehind(opened.value, options);
  if (!notes.ok) return notes;
  const whole = stretchOf(opened.value, 0, notes.value.start);
  const unwrapped = unwrap(whole);
  const body = unwrapped?.inside ?? whole;
  const marks = marksIn(body);
  if (!marks.ok) return marks;
  return parseParts({ body, unit: unwrapped?.unit, marks: marks.value, notes: notes.value.notes, options });
}

interface Parts {
  readonly body: FormulaText;
  /** Of all bare numbers of the body, where it stood behind the brackets round them. */
  readonly unit: Unit | undefined;
  readonly marks: readonly Mark[];
  readonly notes: ReadonlyMap<NoteKind, Note>;
  readonly options: NumberOptions;
}

function parseParts(parts: Parts): Outcome<Statement> {
  const { body, marks } = parts;
  const [mark, next] = marks;
  if (!mark) return parseWithoutMark(parts);
  const stray = strayMark(marks);
  if (stray)
    return refuseAt(body, stray.start, "a value has one doubt, and here is a second one", "give a part of the formula a cell of its own");
  switch (mark.kind) {
    case "plusMinus":
      return parseStandard(parts, mark);
    case "within":
      return parseWithin(parts, mark);
    case "notBelow":
      return parseNotBelow(parts, mark);
    case "semicolon":
    case "bar":
      return parseReadings(parts);
    default:
      return next ? parseLimits(parts, mark, next) : refuseAt(body, body.text.length, `"from" needs a second limit behind "to"`);
  }
}

/** The first mark that does not belong to the doubt that the marks before it state. */
function strayMark([first, ...others]: readonly Mark[]): Mark | undefined {
  if (first && partsReadings(first)) return others.find((other) => !partsReadings(other));
  return first?.kind === "from" && others[0]?.kind === "to" ? others[1] : others[0];
}

function partsReadings({ kind }: Mark): boolean {
  return kind === "semicolon" || kind === "bar";
}

function parseWithoutMark(parts: Parts): Outcome<Statement> {
  const { body, options } = parts;
  const concise = parseConcise(body, options);
  if (concise === undefined) {
    const misplaced = refuseNotes(parts, []);
    if (misplaced) return failure(misplaced);
    const expression = parseStretch(body, options);
    return expression.ok ? success({ expression: expression.value }) : expression;
  }
  if (!concise.ok) return concise;
  const misplaced = refuseNotes(parts, ["degreesOfFreedom"]);
  if (misplaced) return failure(misplaced);
  const { expression, size } = concise.value;
  return success({ expression, doubt: { kind: "standard", size, ...valuesOf(parts.notes) } });
}

function parseStandard(parts: Parts, mark: Mark): Outcome<Statement> {
  const { body } = parts;
  const misplaced = refuseNotes(parts, ["coverageFactor", "degreesOfFreedom"]);
  if (misplaced) return failure(misplaced);
  const expression = parsePart(parts, 0, mark.start, "formula");
  if (!expression.ok) return expression;
  const size = parseSize(parts, mark.end, body.text.length);
  if (!size.ok) return size;
  return success({ expression: expression.value, doubt: { kind: "standard", ...size.value, ...valuesOf(parts.notes) } });
}

function parseWithin(parts: Parts, mark: Mark): Outcome<Statement> {
  const expression = parsePart(parts, 0, mark.start, "formula");
  if (!expression.ok) return expression;
  const limited = parseShaped(parts, mark.end);
  if (!limited.ok) return limited;
  const { size: halfWidth, shape, ...relative } = limited.value;
  return success({ expression: expression.value, doubt: { kind: "within", halfWidth, ...relative, shape } });
}

function parseLimits(parts: Parts, from: Mark, to: Mark): Outcome<Statement> {
  const lower = parsePart(parts, from.end, to.start, "size");
  if (!lower.ok) return lower;
  const upper = parseShaped(parts, to.end);
  if (!upper.ok) return upper;
  const { size, isRelative, shape } = upper.value;
  if (isRelative) return refuseAt(parts.body, to.end, "a limit is no share of the value", "write limits as 12.5 mm within 1 %");
  return success({ expression: middleOf(lower.value, size), doubt: { kind: "limits", lower: lower.value, upper: size, shape } });
}

function parseNotBelow(parts: Parts, mark: Mark): Outcome<Statement> {
  const { body } = parts;
  const misplaced = refuseNotes(parts, []);
  if (misplaced) return failure(misplaced);
  const expectation = parsePart(parts, 0, mark.start, "formula");
  if (!expectation.ok) return expectation;
  const limit = withoutExponential(stretchOf(body, mark.end, body.text.length));
  if (!limit.ok) return limit;
  const lowest = parseSize(parts, mark.end, mark.end + limit.value.text.length);
  if (!lowest.ok) return lowest;
  if (lowest.value.isRelative)
    return refuseAt(body, mark.end, "a limit is no share of the value", "write the limit itself: 0.02 mm not below 0.005 mm");
  return success({
    expression: expectation.value,
    doubt: { kind: "notBelow", expectation: expectation.value, lowest: lowest.value.size },
  });
}

function parseReadings(parts: Parts): Outcome<Statement> {
  const { body, marks } = parts;
  const misplaced = refuseNotes(parts, []);
  if (misplaced) return failure(misplaced);
  const ends = [...marks.map(({ start }) => start), body.text.length];
  const readings: Expression[] = [];
  for (const [place, end] of ends.entries()) {
    const reading = parsePart(parts, marks[place - 1]?.end ?? 0, end, "numbers");
    if (!reading.ok) return reading;
    readings.push(reading.value);
  }
  const groupSizes = sizesOfGroups(marks);
  const bar = marks.find(({ kind }) => kind === "bar");
  if (bar && groupSizes?.every((size) => size === 1)) {
    const what =
      "| parts groups of readings, such as days, and no group here has two: what differs between them cannot be told from the scatter";
    return refuseAt(body, bar.start, what, "part readings of one group by semicolons: 12.501; 12.499 | 12.503; 12.504 mm");
  }
  return success({
    expression: meanOf(readings as [Expression, ...Expression[]]),
    doubt: { kind: "readings", readings, ...(groupSizes && { groupSizes }) },
  });
}

/** Undefined where all readings are of one group. */
function sizesOfGroups(marks: readonly Mark[]): readonly number[] | undefined {
  const ends = [...marks.flatMap(({ kind }, place) => (kind === "bar" ? [place + 1] : [])), marks.length + 1];
  return ends.length === 1 ? undefined : ends.map((end, group) => end - (ends[group - 1] ?? 0));
}

interface Size {
  readonly size: Expression;
  readonly isRelative?: true;
}

/** A size, or behind it the sign % that makes it a share of the value. */
function parseSize(parts: Parts, start: number, end: number): Outcome<Size> {
  const { body } = parts;
  const text = body.text.slice(start, end).trimEnd();
  if (!text.endsWith("%")) {
    const size = parsePart(parts, start, end, "size");
    return size.ok ? success({ size: size.value }) : size;
  }
  // The unit behind brackets is that of the value.
  const share = parsePart({ ...parts, unit: undefined }, start, start + text.length - 1, "size");
  return share.ok ? success({ size: share.value, isRelative: true }) : share;
}

/** A size and the word behind it that says how the values lie between the limits. */
function parseShaped(parts: Parts, start: number): Outcome<Size & { readonly shape: LimitShape }> {
  const { body, notes } = parts;
  const split = splitShape(stretchOf(body, start, body.text.length));
  if (!split.ok) return split;
  const size = parseSize(parts, start, start + split.value.size.text.length);
  if (!size.ok) return size;
  const name = split.value.shape;
  const hasTop = name === "trapezoidal" || name === "curvilinear trapezoidal";
  const misplaced = refuseNotes(parts, hasTop ? ["topRatio"] : []);
  if (misplaced) return failure(misplaced);
  const shape = hasTop ? withTop(name, notes.get("topRatio")?.value) : { name };
  const remedy = `write it in brackets: ${name} (top 0.5)`;
  return shape
    ? success({ ...size.value, shape })
    : refuseAt(body, body.text.length, `${name} needs the share of its width that is flat`, remedy);
}

function withTop(name: ShapeName & ("trapezoidal" | "curvilinear trapezoidal"), topRatio: number | undefined): LimitShape | undefined {
  return topRatio === undefined ? undefined : { name, topRatio };
}

/** A part of the statement as a formula, with the unit behind the brackets where there was one. */
function parsePart({ body, unit, options }: Parts, start: number, end: number, of: "formula" | "size" | "numbers"): Outcome<Expression> {
  const stretch = stretchOf(body, start, end);
  if (stretch.text.trim() === "")
    return refuseAt(body, start, of === "formula" ? "the value is missing before its doubt" : "a number is missing here");
  const parsed = parseStretch(stretch, options);
  if (!parsed.ok) return parsed;
  for (const leaf of leavesOf(parsed.value)) {
    if (leaf.kind === "name" && of === "numbers") {
      const problem: Problem = {
        at: "",
        what: `"${leaf.name}" is a name, and a number is expected here`,
        got: body.typed,
        character: leaf.character,
      };
      return failure(problem);
    }
    if (unit && (leaf.kind === "name" || leaf.unit)) {
      const what = `the unit "${unit.symbol}" behind the brackets needs bare numbers inside them`;
      return failure({ at: "", what, got: body.typed, character: leaf.character });
    }
  }
  return success(unit ? withBareUnit(parsed.value, unit) : parsed.value);
}

function valuesOf(
  notes: ReadonlyMap<NoteKind, Note>,
): Pick<StatedDoubt & { readonly kind: "standard" }, "coverageFactor" | "degreesOfFreedom"> {
  const coverageFactor = notes.get("coverageFactor")?.value;
  const degreesOfFreedom = notes.get("degreesOfFreedom")?.value;
  return { ...(coverageFactor !== undefined && { coverageFactor }), ...(degreesOfFreedom !== undefined && { degreesOfFreedom }) };
}

const whereNotesBelong: Readonly<Record<NoteKind, string>> = {
  coverageFactor: "a coverage factor belongs behind an expanded uncertainty: 12.5 mm ± 0.004 mm (k = 2)",
  degreesOfFreedom: "degrees of freedom belong behind a standard uncertainty: 12.5 mm ± 0.002 mm (9 degrees of freedom)",
  topRatio: "a flat share belongs behind a trapezoid: 12.5 mm within 0.01 mm trapezoidal (top 0.5)",
};

function refuseNotes({ body, notes }: Parts, allowed: readonly NoteKind[]): Problem | undefined {
  for (const [kind, { character }] of notes)
    if (!allowed.includes(kind)) return { at: "", what: whereNotesBelong[kind], got: body.typed, character };
  return undefined;
}

function refuseAt({ typed, characterAt }: FormulaText, index: number, what: string, remedy?: string): Outcome<never> {
  return failure({ at: "", what, got: typed, character: characterAt(index), ...(remedy && { remedy }) });
}
