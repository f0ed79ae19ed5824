/** What is known of an output quantity: its distribution, however it was computed. All values in the unit of the quantity. */
export interface Distribution {
  /** The estimate about which the distribution lies. */
  readonly mean: number;
  /** Standard deviation; each maker says what it means where a source with few degrees of freedom has none. */
  readonly standardDeviation: number;
  /** Probability density at `y`, per unit; `Infinity` where all the chance sits in one point. */
  density(y: number): number;
  /** Chance that the quantity is at most `y`; monotone and within 0 to 1 to within `error`. */
  cumulative(y: number): number;
  /**
   * The value not exceeded with chance `p`; for 0 and 1 the ends of the distribution, or of the range of values where the maker does not
   * work the ends out.
   * @throws RangeError for p outside 0 to 1
   */
  quantile(p: number): number;
  /**
   * A coverage interval (JCGM 101:2008, 3.12): `symmetric` leaves the same chance on either side (3.15, "probabilistically
   * symmetric"), `shortest` is the shortest one that holds the probability (3.16).
   * @throws RangeError for a probability not above 0 and below 1
   */
  interval(probability: number, kind: "symmetric" | "shortest"): readonly [lower: number, upper: number];
  /** Chance to lie from `lower` to `upper`, both included; 0 if they are reversed. */
  chanceWithin(lower: number, upper: number): number;
  /** Estimated bound of the absolute error of `cumulative`. */
  readonly error: number;
  /** How it was computed, in a few words for a person. */
  readonly method: string;
}

/** A chance, and a bound of its absolute error. */
export interface ChanceWithError {
  readonly chance: number;
  readonly error: number;
}
