import { SaxesParser } from "saxes";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { usableText } from "./sizeLimits.ts";

/** An element of a document that was read. */
export interface XmlNode {
  /** Without its prefix. */
  readonly name: string;
  readonly namespace: string;
  /** By name without prefix. */
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlNode[];
  /** Of itself, not of its children; blanks round it taken off. */
  readonly text: string;
  /** Counted from 1. */
  readonly line: number;
}

/** Real files of measurements are a tenth of these. */
const mostElements = 200_000;
const deepest = 100;

/**
 * The elements of an XML document, well-formed with namespaces (XML 1.0, Namespaces in XML 1.0). Refused before anything is parsed: a document type
 * declaration, the only way to entities of its own and to files elsewhere. Refused while parsing: what is not well-formed, entities beyond the five of XML,
 * too many elements, and elements too deep in each other. Nothing is ever fetched.
 */
export function readXml(text: string): Outcome<XmlNode> {
  const usable = usableText(text, "an XML document");
  if (!usable.ok) return usable;
  const declaration = usable.value.search(/<!DOCTYPE/i);
  if (declaration >= 0)
    return failure({
      at: `line ${lineAt(usable.value, declaration)}`,
      what: "the document declares a document type, which can make it grow without end or reach for other files",
      expected: "a document without DOCTYPE",
      remedy: "take the declaration out, if the source is known",
    });
  return parse(usable.value);
}

interface GrowingNode extends XmlNode {
  readonly children: XmlNode[];
  text: string;
}

function parse(xml: string): Outcome<XmlNode> {
  const parser = new SaxesParser({ xmlns: true, position: true });
  const open: GrowingNode[] = [];
  let root: XmlNode | undefined;
  let count = 0;
  const stop = (what: string, expected?: string): never => {
    throw new Stopped({ at: `line ${parser.line}`, what, ...(expected !== undefined && { expected }) });
  };
  parser.on("error", (error) =>
    stop(`the document is not well-formed: ${error.message.replace(/^[^:]*\d+:\d+: /, "").replace(/\.$/, "")}`),
  );
  parser.on("opentag", ({ local, uri, attributes }) => {
    count += 1;
    if (count > mostElements) stop(`the document has more than ${mostElements} elements`);
    if (open.length >= deepest) stop(`elements are more than ${deepest} deep in each other`);
    const node: GrowingNode = {
      name: local,
      namespace: uri,
      attributes: new Map(Object.values(attributes).map((attribute) => [attribute.local, attribute.value])),
      children: [],
      text: "",
      line: parser.line,
    };
    open.at(-1)?.children.push(node);
    root ??= node;
    open.push(node);
  });
  const addText = (more: string) => {
    const node = open.at(-1);
    if (node !== undefined) node.text += more;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => {
    const node = open.pop();
    if (node !== undefined) node.text = node.text.trim();
  });
  try {
    parser.write(xml).close();
  } catch (error) {
    if (error instanceof Stopped) return failure(error.problem);
    throw error;
  }
  return root === undefined ? failure({ at: "", what: "the document has no element" }) : success(root);
}

/** Ends the parser at the first thing that is wrong; caught where it was started. */
class Stopped extends Error {
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.what);
    this.problem = problem;
  }
}

function lineAt(text: string, character: number): number {
  let line = 1;
  for (let at = text.indexOf("\n"); at >= 0 && at < character; at = text.indexOf("\n", at + 1)) line += 1;
  return line;
}

/** Every element below this one by this name, in the order of the document. */
export function nodesNamed(node: XmlNode, name: string): XmlNode[] {
  return node.children.flatMap((child) => [...(child.name === name ? [child] : []), ...nodesNamed(child, name)]);
}

export function childNamed(node: XmlNode | undefined, ...names: readonly string[]): XmlNode | undefined {
  return node?.children.find(({ name }) => names.includes(name));
}

/** The text of the child by this name; empty where there is none. */
export function childText(node: XmlNode | undefined, ...names: readonly string[]): string {
  return childNamed(node, ...names)?.text ?? "";
}
