/** What has the focus, seen from where `near` stands: in a shadow root the document itself knows only the element that hosts it. */
export function focusedNear(near: Node): HTMLElement | null {
  return ((near.getRootNode() as Partial<DocumentOrShadowRoot>).activeElement ?? null) as HTMLElement | null;
}
