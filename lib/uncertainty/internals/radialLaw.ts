/** The distribution of a distance from the origin. */
export interface RadialLaw {
  /** Chance to lie within `radius` > 0, and its rate of growth. */
  evaluate(radius: number): readonly [chance: number, density: number];
  /** No larger radius is of interest: beyond it the chance is 1 but for the error. */
  readonly limit?: number;
  readonly error: number;
  readonly method: string;
}
