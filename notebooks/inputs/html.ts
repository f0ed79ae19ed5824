/** Attributes and properties of a new element: `class`, `aria-label`, `type`; `undefined` and `false` leave one out. */
export type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** A new element with its attributes and children. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== false) element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...children);
  return element;
}

/** Sets an attribute only where it differs, so that nothing is drawn anew in vain; `undefined` removes it. */
export function setAttribute(element: Element, name: string, value: string | undefined): void {
  if (value === undefined) element.removeAttribute(name);
  else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

/** Makes the children of an element these, in this order, moving as few as possible: what has the focus stays where it is. */
export function setChildren(parent: Element, children: readonly Node[]): void {
  if (children.length === parent.childNodes.length && children.every((child, i) => child === parent.childNodes[i])) return;
  const wanted = new Set(children);
  for (const child of [...parent.childNodes]) if (!wanted.has(child)) child.remove();
  let next: ChildNode | null = parent.firstChild;
  for (const child of children) {
    if (child === next) next = next.nextSibling;
    else parent.insertBefore(child, next);
  }
}
