import { createReadStream, statSync } from "node:fs";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { longestDocument } from "../../lib/document/parseDocument.ts";

/**
 * The text of a file, or of standard input for `-`: UTF-8, with or without a byte order mark. Refused without reading it all:
 * what is longer than any setup. Refused as well: what cannot be read, and what is no text.
 */
export async function readText(file: string): Promise<Outcome<string>> {
  const at = file === "-" ? "standard input" : file;
  try {
    if (file !== "-") {
      const { size } = statSync(file);
      if (size > longestDocument) return failure(tooLong(at, `${size} bytes`));
    }
    const bytes = await readBytes(file);
    return bytes === undefined ? failure(tooLong(at, "more")) : decode(bytes, at);
  } catch (error) {
    return failure({ at, what: reasonOf(error), expected: "a file that can be read" });
  }
}

/** Undefined when there is more than a setup can be. The size told by the system is not to be trusted: a pipe has none. */
async function readBytes(file: string): Promise<Buffer | undefined> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of file === "-" ? process.stdin : createReadStream(file)) {
    length += (chunk as Buffer).length;
    if (length > longestDocument) return undefined;
    chunks.push(chunk as Buffer);
  }
  return Buffer.concat(chunks);
}

function decode(bytes: Buffer, at: string): Outcome<string> {
  try {
    return success(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return failure({ at, what: "this is not text in UTF-8", remedy: "open a file that Datumbook saved" });
  }
}

function tooLong(at: string, got: string) {
  return {
    at,
    what: "this is longer than any setup",
    expected: `at most ${longestDocument} bytes`,
    got,
    remedy: "open the file of one setup",
  };
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
