/** A sum as a double and the rounding error that it has gathered: `sum + error` is the sum as if worked out in twice the digits. */
export interface CompensatedSum {
  readonly sum: number;
  readonly error: number;
}

/** A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen, Z. Angew. Math. Mech. 54 (1974) 39-51. */
export function compensatedSum(terms: readonly number[]): CompensatedSum {
  let sum = 0;
  let error = 0;
  for (const term of terms) {
    const next = sum + term;
    error += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return { sum, error };
}
