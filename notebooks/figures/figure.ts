import { type Attributes, type Draw, type SvgDocument, svgBuilder } from "./svgBuilder.ts";

/** What every figure takes. */
export interface FigureOptions {
  /** Width in CSS pixels, 520 unless given; from 320 on. The layout follows it, so that text keeps its size on a narrow screen. */
  readonly width?: number;
  /** Prefix of the figure's ids. They must be unique in a page: give one where the same figure stands twice in it. */
  readonly id?: string;
}

/** Where elements are made: the page's document unless given (Node: `miniDocument()`). */
export interface FigureEnvironment {
  readonly document?: SvgDocument;
}

/** What a figure is about, before it is drawn. */
export interface FigureHead extends FigureOptions {
  /** Kind of figure, part of its class: `fig-<kind>`. */
  readonly kind: string;
  /** What tells this figure from others of its kind, for the ids. */
  readonly subject: string;
  /** Short text alternative. */
  readonly title: string;
  /** What a reader of the figure would see, in sentences. */
  readonly description: string;
}

/** A figure that is being drawn. */
export interface Sheet {
  readonly draw: Draw;
  readonly width: number;
  readonly id: string;
  /** Closes the figure: its root with text alternatives, definitions and content. */
  finish(height: number, definitions: readonly SVGElement[], content: readonly SVGElement[]): SVGSVGElement;
}

const usualWidth = 520;
/** The layouts have been looked at from this width on. */
const leastWidth = 320;

/** Opens a sheet to draw on; `kind` and `subject` give it its ids, `title` and `description` its text alternatives. */
export function openSheet(head: FigureHead, { document = globalThis.document }: FigureEnvironment): Sheet {
  const draw = svgBuilder(document);
  const width = Math.max(leastWidth, head.width ?? usualWidth);
  const id = head.id ?? `fig-${head.kind}-${slug(head.subject)}`;
  return { draw, width, id, finish: (height, definitions, content) => finish(draw, head, { id, width, height }, definitions, content) };
}

function finish(
  draw: Draw,
  { kind, title, description }: FigureHead,
  { id, width, height }: { id: string; width: number; height: number },
  definitions: readonly SVGElement[],
  content: readonly SVGElement[],
): SVGSVGElement {
  const attributes: Attributes = {
    class: `fig fig-${kind}`,
    viewBox: `0 0 ${width} ${Math.ceil(height)}`,
    width,
    height: Math.ceil(height),
    role: "img",
    "aria-labelledby": `${id}-title`,
    "aria-describedby": `${id}-desc`,
  };
  const root = draw(
    "svg",
    attributes,
    draw("title", { id: `${id}-title` }, title),
    draw("desc", { id: `${id}-desc` }, description),
    ...(definitions.length > 0 ? [draw("defs", {}, ...definitions)] : []),
    ...content,
  ) as SVGSVGElement;
  // In the namespace of namespaces, so that every serialiser writes it exactly once.
  root.setAttributeNS("http://www.w3.org/2000/xmlns/", "xmlns", "http://www.w3.org/2000/svg");
  return root;
}

/** Letters, digits and dashes of a text, and a hash of all of it: "ø 8" and "ø-8" stay apart. */
function slug(text: string): string {
  const readable = text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40);
  // FNV-1a, 32 bits (draft-eastlake-fnv).
  const hash = Array.from(text, (letter) => letter.codePointAt(0) as number).reduce(
    (sum, code) => Math.imul(sum ^ code, 0x01000193) >>> 0,
    0x811c9dc5,
  );
  return `${readable === "" ? "x" : readable}-${hash.toString(36)}`;
}
