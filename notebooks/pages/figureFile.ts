/** Written for every element; those that are inherited only where they differ from the parent's. */
const inherited = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-linecap",
  "stroke-linejoin",
  "stroke-opacity",
  "paint-order",
  "font-family",
  "font-size",
  "font-weight",
  "text-anchor",
  "visibility",
  "color",
] as const;
const own = { opacity: "1", "vector-effect": "none", display: "inline" } as const;
/** What halos and strokes reach beyond the figure, CSS pixels. */
const margin = 8;
/** Canvases are not larger in every browser, pixels. */
const largestSide = 16_384;
const mostPixels = 100_000_000;

export interface FigureFile {
  readonly svg: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/**
 * A figure of the page as a file of its own: in the colours of a white sheet, whatever the page shows, every colour and stroke written beside its mark, so that a
 * program without style sheets draws it alike.
 */
export function figureFile(figure: SVGSVGElement): FigureFile {
  const copy = figure.cloneNode(true) as SVGSVGElement;
  // Names that stay in sight while a figure is scrolled go back to their places.
  for (const moved of copy.querySelectorAll<SVGElement>("[style]")) moved.removeAttribute("style");
  const [width, height] = ["width", "height"].map((name) => Number(copy.getAttribute(name))) as [number, number];
  const root = figure.getRootNode() as Document | ShadowRoot;
  for (const [name, value] of lightColours(root)) copy.style.setProperty(name, value);
  copy.style.color = "var(--ink)";
  const aside = document.createElement("div");
  aside.className = "unseen";
  aside.setAttribute("aria-hidden", "true");
  aside.append(copy);
  // Beside the figure, where the same styles hold: those of a shadow root hold nowhere else.
  (root === document ? document.body : root).append(aside);
  const written = [copy, ...copy.querySelectorAll<SVGElement>("*")].map((element) => [element, attributesOf(element)] as const);
  aside.remove();
  for (const [element, attributes] of written) {
    element.removeAttribute("class");
    for (const [name, value] of attributes) element.setAttribute(name, value);
  }
  copy.removeAttribute("style");
  const [left, top, wide, high] = [-margin, -margin, width + 2 * margin, height + 2 * margin];
  copy.setAttribute("viewBox", `${left} ${top} ${wide} ${high}`);
  copy.setAttribute("width", String(wide));
  copy.setAttribute("height", String(high));
  const ground = document.createElementNS(copy.namespaceURI as string, "rect");
  for (const [name, value] of Object.entries({ x: left, y: top, width: wide, height: high, fill: "#fff", stroke: "none" }))
    ground.setAttribute(name, String(value));
  copy.querySelector(":scope > desc")?.after(ground);
  return { svg: new XMLSerializer().serializeToString(copy), width: wide, height: high };
}

/** The same drawn at twice the size; smaller where no canvas holds that. */
export async function figurePicture({ svg, width, height }: FigureFile): Promise<Blob> {
  const scale = Math.min(2, largestSide / width, largestSide / height, Math.sqrt(mostPixels / (width * height)));
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const picture = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/png"));
    if (picture === null) throw new Error("the browser makes no picture of this size");
    return picture;
  } finally {
    URL.revokeObjectURL(address);
  }
}

function attributesOf(element: SVGElement): [name: string, value: string][] {
  const style = getComputedStyle(element);
  const parent = element.parentElement instanceof SVGElement ? getComputedStyle(element.parentElement) : undefined;
  const different = inherited.filter((name) => style.getPropertyValue(name) !== parent?.getPropertyValue(name));
  const special = (Object.keys(own) as (keyof typeof own)[]).filter(
    (name) => ![own[name], "block", "auto", ""].includes(style.getPropertyValue(name)),
  );
  return [...different, ...special].map((name) => {
    const value = style.getPropertyValue(name);
    // SVG 1.1 knows no colours with a fourth part.
    return [name, /^rgba\(.*, 0\)$/.test(value) ? "none" : value];
  });
}

/** A page that this one is part of may have style sheets from elsewhere, which no script may read. */
function rulesOf(sheet: CSSStyleSheet): Iterable<CSSRule> {
  try {
    return sheet.cssRules;
  } catch {
    return [];
  }
}

/** The custom properties of the page, or of an element's root, as its style sheets have them for a light sheet, on white. */
function lightColours({ styleSheets, adoptedStyleSheets }: DocumentOrShadowRoot): Map<string, string> {
  const found = new Map<string, string>();
  for (const sheet of [...styleSheets, ...adoptedStyleSheets])
    for (const rule of rulesOf(sheet))
      if (rule instanceof CSSStyleRule && (rule.selectorText === ":root" || rule.selectorText === ".book"))
        for (const name of rule.style) if (name.startsWith("--")) found.set(name, rule.style.getPropertyValue(name));
  return found.set("--sheet", "#fff").set("--paper", "#fff");
}
