import type { Problem } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { evaluateEach } from "./evaluateEach.ts";
import { type Request, readArguments, usage } from "./readArguments.ts";
import { readText } from "./readText.ts";
import { exitCodes, inFile, refuse, runToExit } from "./running.ts";

await runToExit(run);

async function run(args: readonly string[]): Promise<number> {
  const request = readArguments(args);
  if (!request.ok) return refuse(request.problems);
  if (request.value.help) {
    process.stdout.write(usage);
    return exitCodes.done;
  }
  if (request.value.each !== undefined) return evaluateEach(request.value.each);
  const text = await readText(request.value.file);
  if (!text.ok) return refuse(text.problems);
  const document = parseDocument(text.value);
  if (!document.ok) return refuse(document.problems.map((problem) => inFile(request.value.file, problem)));
  const evaluation = evaluateSetup(document.value);
  const problems = [...obstacles(evaluation), ...unknownStrategy(request.value, evaluation.setup.strategies)];
  if (problems.length > 0) refuse(problems);
  if (problems.length === 0 || request.value.keepGoing) process.stdout.write(show(evaluation, request.value));
  return problems.length === 0 ? exitCodes.done : exitCodes.unusable;
}

function unknownStrategy({ strategy }: Request, known: readonly { readonly id: string }[]): Problem[] {
  if (strategy === undefined || known.some(({ id }) => id === strategy)) return [];
  return [
    { at: "--strategy", what: "there is no strategy by this name", expected: known.map(({ id }) => `"${id}"`).join(" or "), got: strategy },
  ];
}

function show(evaluation: ReturnType<typeof evaluateSetup>, { json, unit, strategy }: Request): string {
  if (!json) return summaryText(evaluation, { ...(unit && { unit }), ...(strategy !== undefined && { strategy }) });
  const results = plainResults(evaluation);
  const shown = strategy === undefined ? results : { ...results, strategies: results.strategies.filter(({ id }) => id === strategy) };
  return `${JSON.stringify(shown, undefined, 2)}\n`;
}
