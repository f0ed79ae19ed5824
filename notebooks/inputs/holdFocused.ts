import { focusedNear } from "./focusedNear.ts";

/**
 * When something in the window grows, the browser holds what stands first in it, and all beneath moves. While what has the focus is in the window, this part
 * of the page is held instead: what a person types into stays where it is. Elsewhere, and while the focus is out of sight, the browser chooses.
 *
 * @param parts children of one element, one beneath the other; which of them is held is told to the style by `data-held`, and to their parent by `data-holds`
 * @returns ends what watches
 */
export function holdFocused(parts: readonly HTMLElement[]): () => void {
  const parent = parts[0]?.parentElement;
  if (parent == null || typeof IntersectionObserver !== "function") return () => undefined;
  const hold = (held: HTMLElement | undefined) => {
    for (const part of parts) part.toggleAttribute("data-held", part === held);
    parent.toggleAttribute("data-holds", held !== undefined);
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
