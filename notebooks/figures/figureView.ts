import { MiniElement, MiniText, miniDocument } from "./miniDocument.ts";
import type { SvgDocument } from "./svgBuilder.ts";

const svgNamespace = "http://www.w3.org/2000/svg";

/**
 * Shows drawings of one figure, one after the other, in an element of the page.
 * An edit changes few of the marks of a figure: the next drawing is made outside of
 * the page, and only what differs from the last is changed in it.
 */
export class FigureView {
  private readonly element: Element;
  private readonly document: SvgDocument = miniDocument();
  private shown: { readonly drawing: MiniElement; readonly root: Element } | undefined;

  constructor(element: Element) {
    this.element = element;
  }

  show(draw: (document: SvgDocument) => SVGSVGElement): void {
    const drawing = draw(this.document) as unknown as MiniElement;
    const { shown } = this;
    const root =
      shown !== undefined && shown.root.parentNode === this.element
        ? (changed(shown.root, shown.drawing, drawing) as Element)
        : (made(drawing) as Element);
    if (root.parentNode !== this.element) this.element.replaceChildren(root);
    this.shown = { drawing, root };
  }
}

function made(from: MiniElement | MiniText): Node {
  if (from instanceof MiniText) return document.createTextNode(from.textContent);
  const element = document.createElementNS(svgNamespace, from.tagName);
  for (const [name, value] of from.attributes) setAttribute(element, name, value);
  for (const child of from.children) element.appendChild(made(child));
  return element;
}

/** The node that shows `after` in the place of one that shows `before`: the same one where that can be. */
function changed(node: Node, before: MiniElement | MiniText, after: MiniElement | MiniText): Node {
  if (before instanceof MiniText && after instanceof MiniText) {
    if (before.textContent !== after.textContent) node.nodeValue = after.textContent;
    return node;
  }
  if (!(before instanceof MiniElement && after instanceof MiniElement && before.tagName === after.tagName)) return made(after);
  const element = node as Element;
  for (const name of before.attributes.keys()) if (!after.attributes.has(name)) element.removeAttribute(name);
  for (const [name, value] of after.attributes) if (before.attributes.get(name) !== value) setAttribute(element, name, value);
  changeChildren(element, before.children, after.children);
  return node;
}

function changeChildren(element: Element, before: readonly (MiniElement | MiniText)[], after: readonly (MiniElement | MiniText)[]): void {
  let node = element.firstChild;
  for (const [i, child] of after.entries()) {
    const old = before[i];
    if (node === null || old === undefined) {
      element.appendChild(made(child));
      continue;
    }
    const next: ChildNode | null = node.nextSibling;
    const now = changed(node, old, child);
    if (now !== node) element.replaceChild(now, node);
    node = next;
  }
  while (node !== null) {
    const next: ChildNode | null = node.nextSibling;
    node.remove();
    node = next;
  }
}

/** The namespace of a root is told in the namespace of namespaces, so that every serialiser writes it exactly once. */
function setAttribute(element: Element, name: string, value: string): void {
  if (name === "xmlns") element.setAttributeNS("http://www.w3.org/2000/xmlns/", name, value);
  else element.setAttribute(name, value);
}
