/** Something on a sheet that gets ready for paper, and out of it again. */
export function whenPrinted(element: HTMLElement, before: () => void, after?: () => void): void {
  element.dataset["prints"] = "";
  element.addEventListener("beforeprint", before);
  if (after !== undefined) element.addEventListener("afterprint", after);
}

/**
 * Tells everything on `sheet` of printing: one pair of listeners on the window for a whole sheet.
 *
 * @param first done before anything gets ready; what it leaves to microtasks is done by then as well
 * @returns what ends it, so that nothing of a sheet that has been taken away is held by the window
 */
export function tellOfPrinting(sheet: HTMLElement, first: () => void): () => void {
  const tell = ({ type }: Event) => {
    for (const each of sheet.querySelectorAll("[data-prints]")) each.dispatchEvent(new Event(type));
  };
  addEventListener("beforeprint", first);
  const kinds = ["beforeprint", "afterprint"] as const;
  for (const kind of kinds) addEventListener(kind, tell);
  return () => {
    removeEventListener("beforeprint", first);
    for (const kind of kinds) removeEventListener(kind, tell);
  };
}
