/** Told before everything that rests on what is only supposed. */
export function supposedText(supposed: readonly string[]): string {
  return `SUPPOSED FOR THE MOMENT, and not as stated: ${supposed.join("; ")}. Everything below rests on it.`;
}
