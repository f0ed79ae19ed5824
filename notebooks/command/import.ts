import { oneLine } from "../../lib/base/oneLine.ts";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { bringIn, exchangeKindNamed, exchangeKinds } from "../../lib/exchange/bringIn.ts";
import { documentFragment } from "../../lib/exchange/documentFragment.ts";
import { type Proposal, takeLines } from "../../lib/exchange/proposal.ts";
import { seeHelp } from "./parseOptions.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { broughtText, readText } from "./readText.ts";
import { exitCodes, inFile, refuse, runAsAsked } from "./running.ts";

const usage = `Brings what other programs have written into a setup: tells how it was understood, line by line, and what was left out.

  npm run --silent import -- FILE [options]

FILE is a text in an open format; - reads it from standard input. Nothing is fetched, and XML with a DOCTYPE is refused.

${Object.entries(exchangeKinds)
  .map(([kind, words]) => `  --kind ${kind.padEnd(12)}${words}\n`)
  .join(
    "",
  )}  --into SETUP.json  the setup that it is brought into; without it an empty one. Its names say which touch, tool or element is meant
  --unit mm|inch     of bare numbers, without --into; mm unless given
  --layers A,B       of a drawing: only what is on these layers; those that it shows unless given
  --whole            prints the whole setup with what was taken, to be saved; without it the new and changed rows alone
  --doubtful         takes what would replace something, or is there already, as well
  --help             this text

The kind is found out from the text unless given. What was understood, and what was left out and why, goes to standard error; the
rows as JSON to standard output.

Exit status 0; 1 when something was left out or not taken; 2 when the file or the arguments cannot be used; 70 for a mistake of the
program itself.
`;

const options = {
  kind: { type: "string" },
  into: { type: "string" },
  unit: { type: "string" },
  layers: { type: "string" },
  whole: { type: "boolean" },
  doubtful: { type: "boolean" },
} as const;

/** Something of the text is not in the setup. */
const incomplete = 1;
/** A file can leave out as many things as it has lines. */
const mostTold = 200;

await runAsAsked(usage, options, async ({ values, positionals }) => {
  const [file] = positionals;
  if (file === undefined || positionals.length > 1)
    return refuse([
      {
        at: "arguments",
        what: "one file is brought in at a time",
        expected: "the path of a file, or -",
        got: positionals.join(" "),
        remedy: seeHelp,
      },
    ]);
  const kind = values.kind === undefined ? success(undefined) : exchangeKindNamed(values.kind);
  if (!kind.ok) return refuse(kind.problems.map((problem) => ({ ...problem, at: "--kind" })));
  const into = await setupFor(values.into, values.unit);
  if (!into.ok) return refuse(into.problems);
  const text = await readText(file, broughtText);
  if (!text.ok) return refuse(text.problems);
  const proposal = bringIn(text.value, into.value, kind.value, { layers: values.layers?.split(",").map((name) => name.trim()) });
  if (!proposal.ok)
    return refuse(proposal.problems.map((problem) => (problem.at === "layers" ? { ...problem, at: "--layers" } : inFile(file, problem))));
  const { lines, leftOut } = proposal.value;
  const taken = values.doubtful ? lines : lines.filter(({ doubt }) => doubt === undefined);
  tell(proposal.value, new Set(taken));
  const changed = takeLines(into.value, taken);
  process.stdout.write(values.whole ? documentText(changed) : `${JSON.stringify(documentFragment(into.value, changed), undefined, 2)}\n`);
  return leftOut.length === 0 && taken.length === lines.length ? exitCodes.done : incomplete;
});

async function setupFor(path: string | undefined, unit: string | undefined): Promise<Outcome<SetupDocument>> {
  if (path !== undefined && unit !== undefined)
    return failure({ at: "--unit", what: "the setup has its own unit", remedy: "leave --unit out" });
  if (path !== undefined) return readOneSetup([path]);
  if (unit === undefined || unit === "mm" || unit === "inch") return success(newDocument(unit));
  return failure({ at: "--unit", what: "there is no such unit", expected: "mm or inch", got: unit });
}

function tell({ is, lines, leftOut, notes, layers = [] }: Proposal, taken: ReadonlySet<unknown>): void {
  const told = [
    `Read as ${is}.`,
    ...notes,
    ...(layers.length === 0
      ? []
      : [
          `Layers: ${layers.map(({ name, has, isTaken }) => `${name || "without a name"} (${has}${isTaken ? "" : ", left"})`).join("; ")}.`,
        ]),
    ...lines.map((line) => {
      const { at, read, becomes, doubt } = line;
      return `${at}: ${read} -> ${becomes}${doubt === undefined ? "" : taken.has(line) ? ` (although ${doubt})` : ` - NOT TAKEN: ${doubt}`}`;
    }),
    ...leftOut.slice(0, mostTold).map(({ at, what }) => `${at === "" ? "" : `${at}, `}left out: ${what}`),
    ...(leftOut.length > mostTold ? [`left out: ${leftOut.length - mostTold} things more`] : []),
  ];
  process.stderr.write(told.map((line) => `${oneLine(line)}\n`).join(""));
}
