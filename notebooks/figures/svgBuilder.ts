/** The little of a document that figures are made with. */
export type SvgDocument = Pick<Document, "createElementNS" | "createTextNode">;

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Makes one SVG element; attributes that are undefined are left out, numbers are written with two decimals at most. */
export type Draw = (name: string, attributes?: Attributes, ...children: readonly (SVGElement | string)[]) => SVGElement;

/**
 * A maker of SVG elements.
 *
 * It throws a RangeError for a number that is not finite: a figure with a hole in
 * it is better than one with a mark where no value is.
 */
export function svgBuilder(document: SvgDocument): Draw {
  return (name, attributes = {}, ...children) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", name) as SVGElement;
    for (const [key, value] of Object.entries(attributes)) {
      if (value !== undefined)
        element.setAttribute(key, typeof value === "number" ? coordinate(value, name, key) : checked(value, name, key));
    }
    for (const child of children) element.appendChild(typeof child === "string" ? document.createTextNode(plain(child)) : child);
    return element;
  };
}

/** Path data of commands and coordinates: `pathOf("M", 0, 0, "H", 12.5)`. */
export function pathOf(...parts: readonly (string | number)[]): string {
  return parts.map((part) => (typeof part === "number" ? coordinate(part, "path", "d") : part)).join(" ");
}

function coordinate(value: number, name: string, key: string): string {
  if (!Number.isFinite(value)) throw new RangeError(`${name} ${key}: expected a finite number, got ${value}`);
  // The sum turns -0 into 0.
  return String(Math.round(value * 100) / 100 + 0);
}

/** Attributes made of several numbers come as text. */
const numeric = new Set(["d", "points", "transform", "viewBox"]);

function checked(value: string, name: string, key: string): string {
  if (numeric.has(key) && /NaN|Infinity/.test(value)) throw new RangeError(`${name} ${key}: expected finite numbers, got ${value}`);
  return plain(value);
}

/**
 * Without characters that XML does not allow or that serialisers write differently (control characters, no-break space), and without those that turn the
 * direction of what follows: a number must not read another way.
 */
function plain(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  return text.replace(/[\u0000-\u001f\u007f\u00a0\u2028-\u202e\u2066-\u2069\ufffe\uffff]/g, " ");
}
