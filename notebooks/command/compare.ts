import { oneLine } from "../../lib/base/oneLine.ts";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { differenceOfDocuments, type PlacedSentence } from "../../lib/differenceOfDocuments.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { documentAtRevision } from "../../lib/document/revisions.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { seeHelp } from "./parseOptions.ts";
import { readText } from "./readText.ts";
import { exitCodes, inFile, refuse, runAsAsked } from "./running.ts";

const usage = `Tells the difference of two saved setups: which entries changed, and what that does to the zero, the chances and the
ranking.

  npm run --silent compare -- A.json B.json [--json]
  npm run --silent compare -- A.json --revision N [--json]

  --revision N   compares revision N in the file, counted from 1, with what the file states now
  --json         the same sentences as JSON, each with the place that it is about
  --help         this text

Exit status 0, also when nothing differs; 2 when a file or the arguments cannot be used, with one line per problem on
standard error; 70 for a mistake of the program itself.
`;

await runAsAsked(usage, { json: { type: "boolean" }, revision: { type: "string" } }, async ({ values, positionals }) => {
  const pair = await documentsToCompare(positionals, values.revision);
  if (!pair.ok) return refuse(pair.problems);
  const { entries, results } = differenceOfDocuments(...pair.value);
  process.stdout.write(values.json ? `${JSON.stringify({ entries, results }, undefined, 2)}\n` : differenceText(entries, results));
  return exitCodes.done;
});

async function documentsToCompare(
  files: readonly string[],
  revision: string | undefined,
): Promise<Outcome<[SetupDocument, SetupDocument]>> {
  const wanted = revision === undefined ? 2 : 1;
  if (files.length !== wanted) {
    return failure({
      at: "arguments",
      what: wanted === 2 ? "two setups are compared at a time" : "a revision is compared with the file that holds it",
      expected: wanted === 2 ? "the paths of two saved setups" : "the path of one saved setup",
      got: files.join(" "),
      remedy: seeHelp,
    });
  }
  const [first, second = first] = await Promise.all(files.map(readDocument));
  if (!first?.ok || !second?.ok) return failure(...[first, second].flatMap((each) => (each === undefined || each.ok ? [] : each.problems)));
  if (revision === undefined) return success([first.value, second.value]);
  const { length } = first.value.revisions;
  const number = Number(revision);
  if (!(Number.isInteger(number) && number >= 1 && number <= length))
    return failure({
      at: "--revision",
      what: "there is no such revision",
      expected: length === 0 ? "a file with revisions" : `1 to ${length}`,
      got: revision,
    });
  const old = documentAtRevision(first.value, number - 1);
  return old.ok ? success([old.value, first.value]) : failure(...old.problems.map((problem) => inFile(files[0] as string, problem)));
}

async function readDocument(file: string): Promise<Outcome<SetupDocument>> {
  const text = await readText(file);
  if (!text.ok) return text;
  const document = parseDocument(text.value);
  // Of two files, the line must say which.
  return document.ok ? document : failure(...document.problems.map((problem) => ({ ...problem, at: `${file}: ${problem.at}` })));
}

function differenceText(entries: readonly PlacedSentence[], results: readonly PlacedSentence[]): string {
  const list = (sentences: readonly PlacedSentence[]) => sentences.map(({ sentence }) => `  - ${oneLine(sentence)}`);
  if (entries.length === 0) return "Nothing differs.\n";
  return `${["What changed", ...list(entries), "", "What that does", ...(results.length > 0 ? list(results) : ["  Nothing: no result differs in the digits that are reported."])].join("\n")}\n`;
}
