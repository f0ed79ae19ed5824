import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem, failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { longestDocument, parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { longestExchange } from "../../lib/exchange/sizeLimits.ts";
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

/** Reads a text from outside; a file that is larger than any, or not text in UTF-8, is refused. */
export async function readExchangeFile(file: File): Promise<Outcome<string>> {
  if (file.size > longestExchange)
    return failure({
      at: "",
      what: "the file is larger than anything that is brought in",
      expected: `at most ${longestExchange} bytes`,
      got: String(file.size),
    });
  try {
    return success(new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer()));
  } catch {
    return failure({ at: "", what: "the file is not text in UTF-8", remedy: "save it as text in UTF-8" });
  }
}

/** Why a file was refused, in words: each place with its reason. */
export function refusalInWords(name: string, problems: Extract<Outcome<never>, { ok: false }>["problems"]): string {
  const [first, ...others] = problems.slice(0, mostTold);
  const more = problems.length > mostTold ? ` And ${problems.length - mostTold} more.` : "";
  return `“${name}” was not opened; the open setup stays as it is. ${[first, ...others].flatMap((problem) => (problem ? [capitalise(describeProblem(problem))] : [])).join(" ")}${more}`;
}

const mostTold = 5;

/** Saves a text among the downloads; one of JSON unless another kind is named. */
export function downloadText(name: string, text: string, type = "application/json"): void {
  download(name, new Blob([text], { type }));
}

/** Saves a file among the downloads. */
export function download(name: string, file: Blob): void {
  const address = URL.createObjectURL(file);
  const link = html("a", { href: address, download: name });
  link.click();
  // The browser has taken hold of it by then.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Of a name, without what is put behind it: file systems take 255 bytes, and a letter may have four. */
const longestName = 60;

/** A name for the file of a setup or a figure with this title, without its ending; of a long one whole words from both ends, as what tells it from others often stands last. */
export function fileNameOf(title: string): string {
  const name = title
    .trim()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "");
  const letters = Array.from(name);
  if (letters.length <= longestName) return name || "setup";
  const half = longestName / 2 - 1;
  const [start, end] = [letters.slice(0, half).join(""), letters.slice(-half).join("")];
  return `${start.replace(/(?<=.)-[^-]*$/, "")}--${end.replace(/^[^-]*-(?=.)/, "")}`;
}
