import type { SvgDocument } from "./svgBuilder.ts";

/**
 * The smallest document that figures can be drawn in, for Node and for a view
 * that only changes what differs: elements with attributes and text, and `outerHTML`. What comes out is the same text, byte
 * for byte, that a browser gives for the same figure; being well-formed XML it
 * can be saved as an SVG file.
 */
export function miniDocument(): SvgDocument {
  const document = {
    createElementNS: (_namespace: string | null, name: string) => new MiniElement(name),
    createTextNode: (text: string) => new MiniText(text),
  };
  return document as unknown as SvgDocument;
}

export class MiniText {
  readonly textContent: string;

  constructor(text: string) {
    this.textContent = text;
  }

  get outerHTML(): string {
    return this.textContent.replace(/[&<>\u00a0]/g, escaped);
  }
}

export class MiniElement {
  readonly tagName: string;
  readonly attributes = new Map<string, string>();
  readonly children: (MiniElement | MiniText)[] = [];

  constructor(name: string) {
    this.tagName = name;
  }

  setAttribute(name: string, value: string): void {
    this.attributes.set(name, String(value));
  }

  setAttributeNS(_namespace: string | null, name: string, value: string): void {
    this.setAttribute(name, value);
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  appendChild(child: MiniElement | MiniText): MiniElement | MiniText {
    this.children.push(child);
    return child;
  }

  get textContent(): string {
    return this.children.map(({ textContent }) => textContent).join("");
  }

  get outerHTML(): string {
    const attributes = Array.from(this.attributes, ([name, value]) => ` ${name}="${value.replace(/[&<>"\u00a0]/g, escaped)}"`).join("");
    return `<${this.tagName}${attributes}>${this.children.map(({ outerHTML }) => outerHTML).join("")}</${this.tagName}>`;
  }
}

function escaped(character: string): string {
  switch (character) {
    case "&":
      return "&amp;";
    case "<":
      return "&lt;";
    case ">":
      return "&gt;";
    case '"':
      return "&quot;";
    default:
      return "&nbsp;";
  }
}
