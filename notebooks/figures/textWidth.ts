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
  // By units of its code: figures measure hundreds of texts with every edit.
  for (let i = 0; i < text.length; i++) ems += emsAt(text.charCodeAt(i));
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
  const space = textWidth(" ", size);
  let used = Number.POSITIVE_INFINITY;
  for (const word of text.split(" ")) {
    const width = textWidth(word, size);
    if (used + space + width <= room) {
      lines[lines.length - 1] += ` ${word}`;
      used += space + width;
    } else {
      const fitting = fitText(word, room, size);
      lines.push(fitting);
      used = fitting === word ? width : textWidth(fitting, size);
    }
  }
  return lines;
}

/** Of a unit of UTF-16: the second half of a pair has no width of its own. */
function emsAt(code: number): number {
  if (code >= 0xdc00 && code <= 0xdfff) return 0;
  return code < plain.length ? (plain[code] as number) : (others.get(code) ?? usual);
}

const usual = 0.63;
const groups = [
  ["iIjl|'.,:;! ", 0.32],
  ["tfr-()[]/\u202f\u2009", 0.41],
  ["mwMW%…–±×+=<>≤≥−", 0.9],
  ["ABCDEFGHJKLNOPQRSTUVXYZ", 0.7],
] as const;
const others = new Map(groups.flatMap(([letters, ems]) => Array.from(letters, (letter): [number, number] => [letter.charCodeAt(0), ems])));
const plain = Float64Array.from({ length: 128 }, (_, code) => others.get(code) ?? usual);
