/** A share of the value in two digits; `-` where there is none. */
export function relativeText(relative: number | undefined): string {
  return relative === undefined ? "-" : relative === 0 ? "0" : relative.toExponential(1);
}
