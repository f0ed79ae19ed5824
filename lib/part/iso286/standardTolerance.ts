import { failure, type Outcome, success } from "../../base/outcome.ts";
import { isUpTo, rangeOf, sizeText } from "../sizeRange.ts";

/** The standard tolerance grades of ISO 286-1, finest first: IT01, IT0, IT1 to IT18. */
export const toleranceGrades = [
  "01",
  "0",
  ...(["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "17", "18"] as const),
] as const;
export type ToleranceGrade = (typeof toleranceGrades)[number];

/** Upper bounds of the ranges of nominal sizes by which ISO 286-1 gives its grades, mm. */
export const mainBounds = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150] as const;

/** Where the standard ends, mm. */
const largestSize = 3150;

/**
 * The width of a standard tolerance in micrometres: `standardTolerance(20, "7")` is 21.
 *
 * @param size nominal size, mm; above 0, up to 3150 (IT01 and IT0: up to 500; IT14 to IT18: above 1)
 */
export function standardTolerance(size: number, grade: ToleranceGrade): Outcome<number> {
  if (!(size > 0) || !isUpTo(size, largestSize))
    return failure({
      at: "",
      what: "ISO 286 gives no standard tolerance for this nominal size",
      expected: `a nominal size above 0 and up to ${largestSize} mm`,
      got: sizeText(size),
      remedy: "state the limits as figures",
    });
  if (Number(grade) >= 14 && isUpTo(size, 1))
    return failure({
      at: "",
      what: `IT${grade} is not for nominal sizes up to 1 mm`,
      expected: "IT13 or a finer grade",
      got: `IT${grade} of ${sizeText(size)}`,
    });
  const width = widths[grade][rangeOf(size, mainBounds)];
  return width === undefined
    ? failure({
        at: "",
        what: `IT${grade} ends at 500 mm`,
        expected: "IT1 or a coarser grade",
        got: `IT${grade} of ${sizeText(size)}`,
      })
    : success(width);
}

/** In mm as the standard prints it, kept in µm like the others. */
const millimetres = (...values: readonly number[]) => values.map((value) => Math.round(value * 1000));

/**
 * By grade and range, µm. ISO 286-1:2010, table 1 (values from memory; the tests hold them against published ones and against the formulas of
 * ISO 286-1:1988). The formulas alone do not give the table: its values were rounded by hand in places and are special up to 3 mm.
 */
const widths: Readonly<Record<ToleranceGrade, readonly number[]>> = {
  "01": [0.3, 0.4, 0.4, 0.5, 0.6, 0.6, 0.8, 1, 1.2, 2, 2.5, 3, 4],
  "0": [0.5, 0.6, 0.6, 0.8, 1, 1, 1.2, 1.5, 2, 3, 4, 5, 6],
  "1": [0.8, 1, 1, 1.2, 1.5, 1.5, 2, 2.5, 3.5, 4.5, 6, 7, 8, 9, 10, 11, 13, 15, 18, 22, 26],
  "2": [1.2, 1.5, 1.5, 2, 2.5, 2.5, 3, 4, 5, 7, 8, 9, 10, 11, 13, 15, 18, 21, 25, 30, 36],
  "3": [2, 2.5, 2.5, 3, 4, 4, 5, 6, 8, 10, 12, 13, 15, 16, 18, 21, 24, 29, 35, 41, 50],
  "4": [3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 33, 39, 46, 55, 68],
  "5": [4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27, 32, 36, 40, 47, 55, 65, 78, 96],
  "6": [6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40, 44, 50, 56, 66, 78, 92, 110, 135],
  "7": [10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63, 70, 80, 90, 105, 125, 150, 175, 210],
  "8": [14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97, 110, 125, 140, 165, 195, 230, 280, 330],
  "9": [25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155, 175, 200, 230, 260, 310, 370, 440, 540],
  "10": [40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250, 280, 320, 360, 420, 500, 600, 700, 860],
  "11": [60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400, 440, 500, 560, 660, 780, 920, 1100, 1350],
  "12": millimetres(
    ...[0.1, 0.12, 0.15, 0.18, 0.21, 0.25, 0.3, 0.35, 0.4, 0.46, 0.52, 0.57, 0.63],
    ...[0.7, 0.8, 0.9, 1.05, 1.25, 1.5, 1.75, 2.1],
  ),
  "13": millimetres(
    ...[0.14, 0.18, 0.22, 0.27, 0.33, 0.39, 0.46, 0.54, 0.63, 0.72, 0.81, 0.89, 0.97],
    ...[1.1, 1.25, 1.4, 1.65, 1.95, 2.3, 2.8, 3.3],
  ),
  "14": millimetres(
    ...[0.25, 0.3, 0.36, 0.43, 0.52, 0.62, 0.74, 0.87, 1, 1.15, 1.3, 1.4, 1.55],
    ...[1.75, 2, 2.3, 2.6, 3.1, 3.7, 4.4, 5.4],
  ),
  "15": millimetres(...[0.4, 0.48, 0.58, 0.7, 0.84, 1, 1.2, 1.4, 1.6, 1.85, 2.1, 2.3, 2.5], ...[2.8, 3.2, 3.6, 4.2, 5, 6, 7, 8.6]),
  "16": millimetres(...[0.6, 0.75, 0.9, 1.1, 1.3, 1.6, 1.9, 2.2, 2.5, 2.9, 3.2, 3.6, 4], ...[4.4, 5, 5.6, 6.6, 7.8, 9.2, 11, 13.5]),
  "17": millimetres(...[1, 1.2, 1.5, 1.8, 2.1, 2.5, 3, 3.5, 4, 4.6, 5.2, 5.7, 6.3], ...[7, 8, 9, 10.5, 12.5, 15, 17.5, 21]),
  "18": millimetres(...[1.4, 1.8, 2.2, 2.7, 3.3, 3.9, 4.6, 5.4, 6.3, 7.2, 8.1, 8.9, 9.7], ...[11, 12.5, 14, 16.5, 19.5, 23, 28, 33]),
};
