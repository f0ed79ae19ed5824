import { once } from "node:events";
import { createInterface } from "node:readline";
import { messageOf } from "../../lib/base/messageOf.ts";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { drawsFor, evaluateSetup } from "../../lib/evaluateSetup.ts";
import { briefResults } from "../../lib/record/briefResults.ts";
import { briefOperations } from "../../lib/record/plainOperations.ts";
import type { Draws } from "../../lib/uncertainty/draws.ts";
import { readText } from "./readText.ts";
import { exitCodes, inFile } from "./running.ts";

/**
 * Evaluates documents one after the other and prints a line of JSON for each, so that thousands take the memory of one. Random draws are kept
 * from one document to the next where they ask for the same.
 *
 * @param files paths, or a single `-` for one document per line of standard input
 */
export async function evaluateEach(files: readonly string[]): Promise<number> {
  let status: number = exitCodes.done;
  let draws: Draws | undefined;
  for await (const { name, text } of files.length === 1 && files[0] === "-" ? linesOfInput() : textsOf(files)) {
    const document = text.ok ? parseDocument(text.value) : text;
    let result: { readonly problems: readonly string[] };
    if (!document.ok) result = { problems: document.problems.map((problem) => describeProblem(inFile(name, problem))) };
    else {
      // A mistake of this program about one document must not cost the others.
      try {
        const operated = evaluateOperations(document.value, draws);
        const evaluation = operated?.operations[0] ?? evaluateSetup(document.value, draws);
        draws = drawsFor(evaluation.setup, draws);
        result = operated ? briefOperations(document.value.title, operated.operations, operated.finished) : briefResults(evaluation);
      } catch (error) {
        result = { problems: [`internal error: ${messageOf(error)}`] };
      }
    }
    if (result.problems.length > 0) status = exitCodes.unusable;
    await write(`${JSON.stringify({ document: name, ...result })}\n`);
  }
  return status;
}

interface NamedText {
  readonly name: string;
  readonly text: Outcome<string>;
}

async function* textsOf(files: readonly string[]): AsyncGenerator<NamedText> {
  for (const name of files) yield { name, text: await readText(name) };
}

async function* linesOfInput(): AsyncGenerator<NamedText> {
  let number = 0;
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    number += 1;
    if (line.trim() !== "") yield { name: `standard input, document ${number}`, text: { ok: true, value: line } };
  }
}

/** Waits while the reader is slower than the calculation: nothing piles up. */
async function write(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, "drain");
}
