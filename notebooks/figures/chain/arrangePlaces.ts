import { fitText, smallSize, textWidth } from "../textWidth.ts";

/** A line of text above a place on the axis. */
export interface ArrangedPlace {
  readonly x: number;
  readonly lines: readonly { readonly text: string; readonly whole: string }[];
  /** Left edge and width of what is written, pixels. */
  readonly left: number;
  readonly width: number;
  /** Rows above the axis at which its lowest line stands. */
  readonly level: number;
}

/** Places nearer than this are one, pixels. */
const together = 3;
/** Between what is written and the leader of another place, pixels. */
const clear = 5;

/**
 * Puts what is written of each place above its spot, so high that nothing lies over anything else and no leader runs through words that are not its
 * own. Where places crowd, words stand to one side of their leader.
 *
 * @param room widest text, and the edges that nothing may leave
 */
export function arrangePlaces(
  places: readonly { readonly x: number; readonly text: string }[],
  { from, to }: { readonly from: number; readonly to: number },
): ArrangedPlace[] {
  const groups: { x: number; texts: string[] }[] = [];
  for (const { x, text } of [...places].sort((a, b) => a.x - b.x)) {
    const last = groups.at(-1);
    if (last !== undefined && x - last.x < together) last.texts.push(text);
    else groups.push({ x, texts: [text] });
  }
  const placed: ArrangedPlace[] = [];
  for (const { x, texts } of groups) {
    const lines = texts.map((whole) => ({ whole, text: fitText(whole, (to - from) * 0.7, smallSize) }));
    const width = Math.max(...lines.map(({ text }) => textWidth(text, smallSize)));
    const lefts = [x - width / 2, x - width + clear, x - clear].map((left) => Math.max(from, Math.min(to - width, left)));
    placed.push(firstFree(x, lines, lefts, width, placed, groups));
  }
  return placed;
}

function firstFree(
  x: number,
  lines: ArrangedPlace["lines"],
  lefts: readonly number[],
  width: number,
  placed: readonly ArrangedPlace[],
  groups: readonly { readonly x: number }[],
): ArrangedPlace {
  const highest = placed.reduce((most, { level, lines: { length } }) => Math.max(most, level + length), 0);
  for (let level = 0; level <= highest; level++)
    for (const left of lefts) {
      const here = { x, lines, left, width, level };
      // Words over the spot of a later place would stand in the way of its leader.
      if (groups.every((other) => other.x === x || !covers(here, other.x)) && placed.every((other) => !inTheWay(here, other))) return here;
    }
  for (const left of lefts) {
    const here = { x, lines, left, width, level: highest };
    if (placed.every((other) => !inTheWay(here, other))) return here;
  }
  return { x, lines, left: lefts[0] as number, width, level: highest };
}

function covers({ left, width }: Pick<ArrangedPlace, "left" | "width">, x: number): boolean {
  return x > left - clear && x < left + width + clear;
}

function inTheWay(a: ArrangedPlace, b: ArrangedPlace): boolean {
  const sideBySide = a.left + a.width + clear < b.left || b.left + b.width + clear < a.left;
  const above = a.level >= b.level + b.lines.length || b.level >= a.level + a.lines.length;
  // A leader runs from the axis up to its own words.
  return (!sideBySide && !above) || (a.level > b.level && covers(b, a.x)) || (b.level > a.level && covers(a, b.x));
}
