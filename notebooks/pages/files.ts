import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem, failure, type Outcome } from "../../lib/base/outcome.ts";
import { longestDocument, parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { html } from "../inputs/html.ts";

/** Reads a setup from a file; a file that is larger than any setup is refused before it is read. */
export async function readSetupFile(file: File): Promise<Outcome<SetupDocument>> {
  if (file.size > longestDocument) {
    return failure({
      at: "",
      what: "the file is larger than any setup",
      expected: `at most ${longestDocument} bytes`,
      got: String(file.size),
      remedy: "open the file of one setup",
    });
  }
  return parseDocument(await file.text());
}

/** Why a file was refused, in words: each place with its reason. */
export function refusalInWords(name: string, problems: Extract<Outcome<never>, { ok: false }>["problems"]): string {
  const [first, ...others] = problems.slice(0, mostTold);
  const more = problems.length > mostTold ? ` And ${problems.length - mostTold} more.` : "";
  return `“${name}” was not opened; the open setup stays as it is. ${[first, ...others].flatMap((problem) => (problem ? [capitalise(describeProblem(problem))] : [])).join(" ")}${more}`;
}

const mostTold = 5;

/** The text of the file that a setup is saved as. */
export function fileTextOf(document: SetupDocument): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** Saves where the person says, if the browser can ask; otherwise among the downloads. @returns the name of the file, undefined if the person turned back */
export async function saveSetupFile(document: SetupDocument): Promise<string | undefined> {
  const name = `${fileNameOf(document.title)}.json`;
  const text = fileTextOf(document);
  const { showSaveFilePicker } = window as FilePickers;
  if (showSaveFilePicker === undefined) {
    downloadText(name, text);
    return name;
  }
  try {
    const handle = await showSaveFilePicker.call(window, {
      suggestedName: name,
      types: [{ description: "Setup", accept: { "application/json": [".json"] } }],
    });
    const stream = await handle.createWritable();
    await stream.write(text);
    await stream.close();
    return handle.name;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return undefined;
    throw error;
  }
}

/** The part of the File System Access interface that is not in every browser. */
interface FilePickers {
  readonly showSaveFilePicker?: (options: {
    suggestedName: string;
    types: { description: string; accept: Record<string, string[]> }[];
  }) => Promise<{ readonly name: string; createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }> }>;
}

/** Saves a text of JSON among the downloads. */
export function downloadText(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = html("a", { href: address, download: name });
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

function fileNameOf(title: string): string {
  return (
    title
      .trim()
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^-+|-+$/g, "")
      .slice(0, 60) || "setup"
  );
}
