/**
 * Frames for which what a person has just gone to is brought back in sight: sections between here and there take their height only once they have been
 * drawn, and push it away again.
 */
export const settlingFrames = 20;

/** Whether no part of it is in the window. */
function isOutOfSight(control: Element): boolean {
  const { top, bottom } = control.getBoundingClientRect();
  return bottom < 0 || top > window.innerHeight;
}

/** Keeps what has the focus in the window while the sheet settles; whoever goes on to something else is left alone. */
export function keepInSight(control: HTMLElement, hasFocus: () => boolean, frames: number = settlingFrames): void {
  if (frames === 0 || !hasFocus()) return;
  if (isOutOfSight(control)) control.scrollIntoView({ block: "center" });
  requestAnimationFrame(() => keepInSight(control, hasFocus, frames - 1));
}
