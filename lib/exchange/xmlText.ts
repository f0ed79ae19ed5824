/** Attributes by name. */
export type XmlAttributes = Readonly<Record<string, string>>;

/** An element of XML on its way out: children are elements, or one text. */
export interface XmlElement {
  readonly name: string;
  readonly attributes?: XmlAttributes;
  readonly children?: string | readonly XmlElement[];
}

/** A whole document, indented by two blanks. A comment before its root is for people (two hyphens would end it: XML 1.0, 2.5). */
export function xmlText(root: XmlElement, comment?: string): string {
  const told = comment === undefined ? "" : `<!-- ${escapedXml(comment).replaceAll("-", "\u2010")} -->\n`;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${told}${elementText(root, "")}`;
}

function elementText({ name, attributes = {}, children = "" }: XmlElement, indent: string): string {
  const start = `${indent}<${name}${Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escapedXml(value)}"`)
    .join("")}`;
  if (children.length === 0) return `${start}/>\n`;
  if (typeof children === "string") return `${start}>${escapedXml(children)}</${name}>\n`;
  return `${start}>\n${children.map((child) => elementText(child, `${indent}  `)).join("")}${indent}</${name}>\n`;
}

/**
 * A text as character data or as an attribute: what means something in XML is escaped, what XML 1.0 has no sign for (2.2, production 2: most
 * control characters, lone surrogates) becomes U+FFFD.
 */
export function escapedXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd")
    .replace(/[&<>"'\t\n\r]/g, (sign) => references[sign] as string);
}

const references: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
  "\t": "&#9;",
  "\n": "&#10;",
  "\r": "&#13;",
};
