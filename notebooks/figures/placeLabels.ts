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
}

/**
 * Places labels one after another where they overlap least with what is drawn
 * and with labels before them; among equally free places the first one is taken.
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
  const taken: Box[] = [...obstacles];
  const overlaps = (box: Box, others: readonly Box[]) => others.reduce((sum, other) => sum + overlap(box, other), 0);
  return labels.map(({ candidates }) => {
    let best: Box | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const candidate of candidates) {
      const inside = kept(candidate, sheet);
      // Being pushed back onto the sheet costs as much as covering something of that size.
      const pushed = (Math.abs(inside.x - candidate.x) + Math.abs(inside.y - candidate.y)) * candidate.height;
      const cost = overlaps(inside, taken) + overlaps(inside, lines) + pushed;
      if (cost < least - 1e-6) {
        least = cost;
        best = inside;
      }
    }
    if (best === undefined) throw new RangeError("placeLabels: expected at least one candidate for every label, got none");
    const covered = overlaps(best, taken) / (best.width * best.height);
    taken.push(best);
    return { box: best, covered };
  });
}

function overlap(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

function kept(box: Box, sheet: Box): Box {
  const x = Math.max(sheet.x, Math.min(box.x, sheet.x + sheet.width - box.width));
  const y = Math.max(sheet.y, Math.min(box.y, sheet.y + sheet.height - box.height));
  return { ...box, x, y };
}
