import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { type Mm, mm } from "../../base/quantity.ts";
import type { Limits } from "../part.ts";
import { isUpTo, rangeOf, sizeText } from "../sizeRange.ts";
import { type DeviationColumn, holeJ, shaftDeviations, shaftJ } from "./deviationTables.ts";
import { standardTolerance, type ToleranceGrade, toleranceGrades } from "./standardTolerance.ts";
import { classText, type Deviation, type ToleranceClass } from "./toleranceClass.ts";

/**
 * The limit deviations of a tolerance class (ISO 286-1:2010): `limitsOfClass(20, H7)` is 0 to +0.021 mm. JS and js are half the
 * standard tolerance to either side, not rounded.
 *
 * Where the standard, or these tables of it, state no value it is refused: a and b up to 1 mm, t up to 24 mm, K coarser than 8 above 3 mm,
 * letters beyond u above 500 mm, and the like.
 *
 * @param size nominal size, mm; above 0, up to 3150
 */
export function limitsOfClass(size: Mm, toleranceClass: ToleranceClass): Outcome<Limits> {
  const { of, deviation, grade } = toleranceClass;
  const tolerance = standardTolerance(size, grade);
  if (!tolerance.ok) return tolerance;
  const width = tolerance.value;
  const standard = `ISO 286 ${classText(toleranceClass)}`;
  const limits = (lower: number, upper: number) => success({ lower: mm(lower / 1000), upper: mm(upper / 1000), standard });
  if (deviation === "js") return limits(-width / 2, width / 2);
  const near = of === "shaft" ? shaftDeviation(size, deviation, grade) : holeDeviation(size, deviation, grade);
  if (typeof near !== "number")
    return failure({
      at: "",
      expected: "a class that the standard has for this size, or limits as figures",
      got: `${classText(toleranceClass)} of ${sizeText(size)}`,
      ...near,
    });
  // It is the upper deviation of shafts a to h and of holes J to ZC, else the lower one.
  const isUpper = of === "shaft" ? isBelowNominal(deviation) : !isBelowNominal(deviation);
  return isUpper ? limits(near - width, near) : limits(near, near + width);
}

/** Every letter but js, which lies to both sides alike. */
type OneSided = Exclude<Deviation, "js">;
type Refusal = Pick<Problem, "what" | "remedy">;

/** a to h: shafts below nominal, holes above it. */
function isBelowNominal(deviation: Deviation): boolean {
  return deviation === "h" || belowNominal.has(deviation);
}
const belowNominal: ReadonlySet<Deviation> = new Set(["a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g"]);

/** Signed, µm: the upper deviation of a to h, the lower one of j to zc. */
function shaftDeviation(size: number, deviation: OneSided, grade: ToleranceGrade): number | Refusal {
  if (deviation === "h") return 0;
  if (deviation === "j")
    return valueOr(shaftJ[grade], size, (below) => -below, `ISO 286 has j only in the grades 5 to 7 (8 up to 3 mm), up to 500 mm`);
  const distance = distanceOf(size, deviation);
  if (typeof distance !== "number") return distance;
  if (isBelowNominal(deviation)) return 0 - distance;
  // k starts at nominal in all but the usual grades.
  return deviation === "k" && !isBetween(grade, 4, 7) ? 0 : distance;
}

/** Signed, µm: the lower deviation of A to H, the upper one of J to ZC. */
function holeDeviation(size: number, deviation: OneSided, grade: ToleranceGrade): number | Refusal {
  if (deviation === "h") return 0;
  if (deviation === "j") return valueOr(holeJ[grade], size, (value) => value, `ISO 286 has J only in the grades 6 to 8, up to 500 mm`);
  const distance = distanceOf(size, deviation);
  if (typeof distance !== "number") return distance;
  if (isBelowNominal(deviation)) return distance;
  const name = deviation.toUpperCase();
  if (!isBetween(grade, 3, 18)) return { what: `${name} is not made in the grade ${grade}: grades 3 and coarser` };
  const isSmall = isUpTo(size, 3);
  const isCoarse = !isBetween(grade, 3, 8);
  if (deviation === "k" && isCoarse && !isSmall) return { what: "ISO 286 gives K above 3 mm only up to the grade 8" };
  if (deviation === "n" && isCoarse) {
    if (isUpTo(size, 1)) return { what: "ISO 286 gives N up to 1 mm only up to the grade 8" };
    if (!isSmall && isUpTo(size, 500)) return 0;
  }
  // The one value that stands outside the rule (ISO 286-1, table 2, note to M).
  if (deviation === "m" && grade === "6" && !isUpTo(size, 250) && isUpTo(size, 315)) return -9;
  const coarsestWithDelta = deviation === "k" || deviation === "m" || deviation === "n" ? 8 : 7;
  const delta = isSmall || !isUpTo(size, 500) || !isBetween(grade, 3, coarsestWithDelta) ? 0 : deltaOf(size, grade);
  return delta - distance;
}

/**
 * By how much the hole of a fit may reach further than the shaft of the same letters one grade finer, so that both fits are alike: ITn - IT(n-1),
 * printed as Δ beside the holes' deviations (ISO 286-1:2010, tables 2 and 3; from memory).
 */
function deltaOf(size: number, grade: ToleranceGrade): number {
  const finer = toleranceGrades[toleranceGrades.indexOf(grade) - 1] ?? grade;
  const [own, other] = [standardTolerance(size, grade), standardTolerance(size, finer)];
  return own.ok && other.ok ? own.value - other.value : 0;
}

function distanceOf(size: number, deviation: Exclude<OneSided, "h" | "j">): number | Refusal {
  if ((deviation === "a" || deviation === "b") && isUpTo(size, 1))
    return { what: `ISO 286 does not use ${deviation} and ${deviation.toUpperCase()} up to 1 mm` };
  const { bounds, values }: DeviationColumn = shaftDeviations[deviation];
  const names = `${deviation} and ${deviation.toUpperCase()}`;
  const range = rangeOf(size, bounds);
  const first = values.findIndex((value) => value !== undefined);
  if (range > first && values[range] === undefined) return { what: `the value of ${names} for this size is not known here with certainty` };
  const from = first > 0 ? `above ${bounds[first - 1]} mm and ` : "";
  return values[range] ?? { what: `${names} are known here only ${from}up to ${bounds.at(-1)} mm` };
}

function valueOr(column: DeviationColumn | undefined, size: number, signed: (value: number) => number, what: string): number | Refusal {
  const value = column?.values[rangeOf(size, column.bounds)];
  return value === undefined ? { what } : signed(value);
}

function isBetween(grade: ToleranceGrade, finest: number, coarsest: number): boolean {
  // "01" is finer than 0, but a number as the others it would be 1.
  const number = grade === "01" ? -1 : Number(grade);
  return number >= finest && number <= coarsest;
}
