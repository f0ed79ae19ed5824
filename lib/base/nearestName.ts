/**
 * The known name nearest to a mistyped one, or undefined if none is near: equal
 * but for upper and lower case, or reached by one slip (two from five letters
 * on), a slip being a letter added, left out, changed or swapped with its
 * neighbour.
 */
export function nearestName(typed: string, known: Iterable<string>): string | undefined {
  if (typed.length > longestCompared) return undefined;
  let nearest: string | undefined;
  let fewest = (typed.length >= 5 ? 2 : 1) + 1;
  for (const name of known) {
    if (name.toLowerCase() === typed.toLowerCase()) return name;
    if (Math.abs(name.length - typed.length) >= fewest) continue;
    const slips = countSlips(typed, name);
    // A name of which nothing is left over is not near: "d" is not a slip of "e".
    if (slips < fewest && slips < Math.max(typed.length, name.length)) [nearest, fewest] = [name, slips];
  }
  return nearest;
}

/** The remedy of a problem with a mistyped name: the nearest known one, if any is near. */
export function suggestName(typed: string, known: Iterable<string>): { readonly remedy?: string } {
  const name = nearestName(typed, known);
  return name === undefined ? {} : { remedy: `perhaps "${name}" was meant` };
}

const longestCompared = 60;

/** Optimal string alignment distance (Damerau, Communications of the ACM 7 (1964) 171; swapped neighbours count once). */
function countSlips(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let slips = Math.min((row[j - 1] ?? 0) + 1, (last[j] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) slips = Math.min(slips, (beforeLast[j - 2] ?? 0) + 1);
      row.push(slips);
    }
    [beforeLast, last] = [last, row];
  }
  return last[b.length] ?? 0;
}
