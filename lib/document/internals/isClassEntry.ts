import { parseToleranceClass } from "../../part/iso286/toleranceClass.ts";

/** Whether the text at this place is a tolerance class and so no formula, whatever else bears that name. */
export function isClassEntry(text: string, place: string): boolean {
  return /\.(?:tolerance|diameterTolerance)$/.test(place) && parseToleranceClass(text).ok;
}
