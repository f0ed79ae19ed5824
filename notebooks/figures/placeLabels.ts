/** A rectangle of the drawing, pixels. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A label that may stand at several places, the best one first. */
export interface Placeable {
  readonly candidates: readonly Box[];
  /** What it names: a spot, and how far off the spot a label beside it stands. */
  readonly names?: { readonly spot: readonly [x: number, y: number]; readonly gap: number };
}

/** Standing by what another label names costs as much as covering this share of the label. */
const mistakable = 0.7;
/** Letters over letters cannot be read, over marks they can: by so much more the same area costs. */
const unreadable = 20;
/** So near to a thing, pixels, a label seems to name it. */
const besideIt = 3;
/** What costs no more than this is free, square pixels. */
const free = 1e-6;

/**
 * Places labels one after another where they overlap least with what is drawn
 * and with labels before them, and do not seem to name what another label names;
 * among equally free places the first one is taken.
 * Labels that matter most come first.
 *
 * @param sheet what may not be left
 * @param lines what a label rather keeps off, but may lie over: it interrupts them
 * @returns by label, in order: its box, and what share of it lies over obstacles and other labels
 */
export function placeLabels(
  labels: readonly Placeable[],
  obstacles: readonly Box[],
  sheet: Box,
  lines: readonly Box[] = [],
): { readonly box: Box; readonly covered: number }[] {
  const placed: Box[] = [];
  const seemsToName = (box: Box, self: Placeable) =>
    labels.some((other) => other !== self && other.names !== undefined && distance(box, other.names.spot) < other.names.gap + besideIt);
  return labels.map((label) => {
    const { candidates } = label;
    let best: Box | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const candidate of candidates) {
      if (least <= free) break;
      const inside = kept(candidate, sheet);
      // Being pushed back onto the sheet costs as much as covering something of that size.
      const pushed = (Math.abs(inside.x - candidate.x) + Math.abs(inside.y - candidate.y)) * candidate.height;
      const misleading = seemsToName(inside, label) ? mistakable * inside.width * inside.height : 0;
      const cost = overlaps(inside, obstacles) + unreadable * overlaps(inside, placed) + overlaps(inside, lines) + pushed + misleading;
      if (cost < least - free) {
        least = cost;
        best = inside;
      }
    }
    if (best === undefined) throw new RangeError("placeLabels: expected at least one candidate for every label, got none");
    const covered = (overlaps(best, obstacles) + overlaps(best, placed)) / (best.width * best.height);
    placed.push(best);
    return { box: best, covered };
  });
}

function distance({ x, y, width, height }: Box, [px, py]: readonly [number, number]): number {
  return Math.hypot(Math.max(x - px, 0, px - x - width), Math.max(y - py, 0, py - y - height));
}

function overlaps(box: Box, others: readonly Box[]): number {
  const left = box.x;
  const top = box.y;
  const right = left + box.width;
  const bottom = top + box.height;
  let sum = 0;
  for (let i = 0; i < others.length; i++) {
    const other = others[i] as Box;
    const width = Math.min(right, other.x + other.width) - Math.max(left, other.x);
    if (!(width > 0)) continue;
    const height = Math.min(bottom, other.y + other.height) - Math.max(top, other.y);
    if (height > 0) sum += width * height;
  }
  return sum;
}

function kept(box: Box, sheet: Box): Box {
  const x = Math.max(sheet.x, Math.min(box.x, sheet.x + sheet.width - box.width));
  const y = Math.max(sheet.y, Math.min(box.y, sheet.y + sheet.height - box.height));
  return { ...box, x, y };
}
