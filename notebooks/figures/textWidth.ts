/** Sizes of text in figures, CSS pixels; the same stand in figures.css. */
export const textSize = 12;
export const smallSize = 11;

/**
 * About how wide a text is, in the unit of `size`: figures are laid out without
 * measuring, so that they come out the same everywhere. The widths are those of a
 * wide common sans-serif; narrower ones leave a little more white.
 */
export function textWidth(text: string, size: number = textSize): number {
  let ems = 0;
  for (const letter of text) ems += emsOf(letter);
  return ems * size;
}

/** The text, or as much of its beginning as fits followed by an ellipsis. */
export function fitText(text: string, room: number, size: number = textSize): string {
  if (textWidth(text, size) <= room) return text;
  const letters = Array.from(text);
  while (letters.length > 1 && textWidth(`${letters.join("").trimEnd()}…`, size) > room) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** The text in lines that fit, broken between words; a word that is longer than a line is cut. */
export function wrapText(text: string, room: number, size: number = textSize): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines[lines.length - 1];
    const joined = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(joined, size) <= room) lines[lines.length - 1] = joined;
    else lines.push(fitText(word, room, size));
  }
  return lines;
}

function emsOf(letter: string): number {
  if ("iIjl|'.,:;! ".includes(letter)) return 0.32;
  if ("tfr-()[]/\u202f\u2009".includes(letter)) return 0.41;
  if ("mwMW%…–±×+=<>≤≥−".includes(letter)) return 0.9;
  if (letter >= "A" && letter <= "Z") return 0.7;
  return 0.63;
}
