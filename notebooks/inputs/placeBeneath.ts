/** Room that the title block takes along the bottom of the window, px. */
const bottom = 66;
const gap = 3;

/** Beneath the entry, or above it where there is more room; false where the entry is out of sight. */
export function placeBeneath(box: HTMLElement, control: HTMLElement): boolean {
  const entry = control.getBoundingClientRect();
  const { offsetHeight: height, offsetWidth: width } = box;
  const { innerWidth, innerHeight } = window;
  if (entry.bottom < 0 || entry.top > innerHeight) return false;
  const isBelow = entry.bottom + gap + height <= innerHeight - bottom || entry.top < innerHeight - entry.bottom;
  const left = Math.max(gap, Math.min(entry.left, innerWidth - width - gap));
  const top = isBelow ? entry.bottom + gap : entry.top - gap - height;
  const place = `${Math.round(left)}px ${Math.round(top)}px`;
  if (box.style.translate !== place) box.style.translate = place;
  return true;
}
