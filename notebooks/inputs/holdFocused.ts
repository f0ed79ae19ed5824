import { focusedNear } from "./focusedNear.ts";

/**
 * When something in the window grows, the browser holds what stands first in it, and all beneath moves. While what has the focus is in the window, this part
 * of the page is held instead: what a person types into stays where it is. Elsewhere, and while the focus is out of sight, the browser chooses.
 *
 * The others are let go by a style of their own: a rule about what they stand in would have every element of the page styled anew with each step of the focus.
 *
 * @param parts children of one element, one beneath the other
 * @returns ends what watches
 */
export function holdFocused(parts: readonly HTMLElement[]): () => void {
  const parent = parts[0]?.parentElement;
  if (parent == null || typeof IntersectionObserver !== "function") return () => undefined;
  const hold = (held: HTMLElement | undefined) => {
    for (const part of parts) part.style.overflowAnchor = held === undefined || part === held ? "" : "none";
  };
  const watcher = new IntersectionObserver((entries) => {
    const last = entries.at(-1);
    if (last === undefined || last.target !== focusedNear(parent)) return;
    hold(last.isIntersecting ? parts.find((part) => part.contains(last.target)) : undefined);
  });
  const follow = ({ target }: FocusEvent) => {
    watcher.disconnect();
    watcher.observe(target as Element);
  };
  const letGo = () => {
    watcher.disconnect();
    hold(undefined);
  };
  parent.addEventListener("focusin", follow);
  parent.addEventListener("focusout", letGo);
  return () => {
    letGo();
    parent.removeEventListener("focusin", follow);
    parent.removeEventListener("focusout", letGo);
  };
}
