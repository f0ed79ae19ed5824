import { createReadStream, statSync } from "node:fs";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { longestDocument } from "../../lib/document/parseDocument.ts";
import { longestExchange } from "../../lib/exchange/sizeLimits.ts";

/** What a text is to be, for whoever named another: the words of a problem. */
export interface WantedText {
  /** The largest thing of its kind. */
  readonly largest: string;
  readonly mostBytes: number;
  /** What to do about one that is too long, and about one that is no text. */
  readonly remedies: { readonly long: string; readonly noText: string };
}

const setupText: WantedText = {
  largest: "any setup",
  mostBytes: longestDocument,
  remedies: { long: "open the file of one setup", noText: "open a file that Datumbook saved" },
};

/** What another program has written. */
export const broughtText: WantedText = {
  largest: "anything that is brought in",
  mostBytes: longestExchange,
  remedies: { long: "bring in a part of it", noText: "save it as text in UTF-8" },
};

/**
 * The text of a file, or of standard input for `-`: UTF-8, with or without a byte order mark. Refused without reading it all:
 * what is longer than anything of its kind. Refused as well: what cannot be read, and what is no text.
 *
 * @param wanted a saved setup unless given
 */
export async function readText(file: string, wanted: WantedText = setupText): Promise<Outcome<string>> {
  const at = file === "-" ? "standard input" : file;
  try {
    if (file !== "-") {
      const { size } = statSync(file);
      if (size > wanted.mostBytes) return failure(tooLong(at, `${size} bytes`, wanted));
    }
    const bytes = await readBytes(file, wanted.mostBytes);
    return bytes === undefined ? failure(tooLong(at, "more", wanted)) : decode(bytes, at, wanted);
  } catch (error) {
    return failure({ at, what: reasonOf(error), expected: "a file that can be read" });
  }
}

/** Undefined when there is more than is wanted. The size told by the system is not to be trusted: a pipe has none. */
async function readBytes(file: string, most: number): Promise<Buffer | undefined> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of file === "-" ? process.stdin : createReadStream(file)) {
    length += (chunk as Buffer).length;
    if (length > most) return undefined;
    chunks.push(chunk as Buffer);
  }
  return Buffer.concat(chunks);
}

function decode(bytes: Buffer, at: string, { remedies }: WantedText): Outcome<string> {
  try {
    return success(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return failure({ at, what: "this is not text in UTF-8", remedy: remedies.noText });
  }
}

function tooLong(at: string, got: string, { largest, mostBytes, remedies }: WantedText) {
  return { at, what: `this is longer than ${largest}`, expected: `at most ${mostBytes} bytes`, got, remedy: remedies.long };
}

function reasonOf(error: unknown): string {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return reasons[code ?? ""] ?? `it cannot be read (${code ?? String(error)})`;
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EISDIR: "this is a folder",
  EACCES: "reading it is not allowed",
  EPERM: "reading it is not allowed",
  ENOTDIR: "there is no such file",
};
