import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { seeHelp } from "./parseOptions.ts";
import { readText } from "./readText.ts";
import { inFile } from "./running.ts";

/** The one setup that the arguments name; standard input for `-`. */
export async function readOneSetup(positionals: readonly string[]): Promise<Outcome<SetupDocument>> {
  const [file] = positionals;
  if (file === undefined || positionals.length > 1)
    return failure({
      at: "arguments",
      what: "one setup is looked at at a time",
      expected: "the path of a saved setup, or -",
      got: positionals.join(" "),
      remedy: seeHelp,
    });
  const text = await readText(file);
  if (!text.ok) return text;
  const document = parseDocument(text.value);
  return document.ok ? success(document.value) : failure(...document.problems.map((problem) => inFile(file, problem)));
}
