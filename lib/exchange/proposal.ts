import type { SetupDocument } from "../document/setupDocument.ts";

/** One thing in a text from outside that a setup has a place for. */
export interface ProposedLine {
  /** Where in the text: `line 12`. */
  readonly at: string;
  /** What was read there, in words. */
  readonly read: string;
  /** What becomes of it in the setup, in words. */
  readonly becomes: string;
  /** Why it is only taken when somebody says so; undefined where nothing speaks against it. */
  readonly doubt?: string;
  readonly change: (document: SetupDocument) => SetupDocument;
}

/** What has no place in a setup, or was not understood. */
export interface LeftOut {
  readonly at: string;
  readonly what: string;
}

/** How a text from outside was understood; nothing is changed by it. */
export interface Proposal {
  /** What the text is. */
  readonly is: string;
  readonly lines: readonly ProposedLine[];
  readonly leftOut: readonly LeftOut[];
  /** What holds for all of it. */
  readonly notes: readonly string[];
  /** Of a drawing, what is on which layer; left out of other texts. */
  readonly layers?: readonly ProposedLayer[];
}

/** A layer that can be taken or left, with all that is on it. */
export interface ProposedLayer {
  readonly name: string;
  /** In words: `12 lines, 3 circles`. */
  readonly has: string;
  /** Whether it is in the proposal. */
  readonly isTaken: boolean;
}

/** The document with these lines of a proposal taken, in their order. */
export function takeLines(document: SetupDocument, lines: readonly ProposedLine[]): SetupDocument {
  return lines.reduce((changed, { change }) => change(changed), document);
}

/** The line with one more reason to be asked about. */
export function withDoubt(line: ProposedLine, doubt: string | undefined): ProposedLine {
  if (doubt === undefined) return line;
  return { ...line, doubt: line.doubt === undefined ? doubt : `${line.doubt}; ${doubt}` };
}

/** The name, or with a number behind it where it is taken. */
export function freeName(wanted: string, taken: readonly { readonly id: string }[]): string {
  const names = new Set(taken.map(({ id }) => id));
  let name = wanted;
  for (let i = 2; names.has(name); i++) name = `${wanted} ${i}`;
  return name;
}
