import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations, type OperationsEvaluation } from "../../lib/evaluateOperations.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { finishedText } from "../../lib/record/finishedText.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { plainOperations } from "../../lib/record/plainOperations.ts";
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
  const operated = evaluateOperations(document.value);
  if (operated !== undefined) return told(...ofOperations(document.value, operated, request.value), request.value);
  const evaluation = evaluateSetup(document.value);
  const problems = [...obstacles(evaluation), ...unknownStrategy(request.value, evaluation.setup.strategies)];
  return told(problems, () => show(evaluation, request.value), request.value);
}

function told(problems: readonly Problem[], text: () => string, { keepGoing }: Request): number {
  if (problems.length > 0) refuse(problems);
  if (problems.length === 0 || keepGoing) process.stdout.write(text());
  return problems.length === 0 ? exitCodes.done : exitCodes.unusable;
}

/** The finished part first, then every operation; with a strategy named, its operation alone. */
function ofOperations(
  document: SetupDocument,
  { operations, finished }: OperationsEvaluation,
  { json, unit, strategy }: Request,
): [Problem[], () => string] {
  // Cells of a person's own rest on the operation that is looked at.
  const looked = evaluateSetup(document);
  const all = operations.map((each) => (each.setup.operation?.id === looked.setup.operation?.id ? looked : each));
  const problems = onceEach(all.flatMap(obstacles));
  const unknown = unknownStrategy(
    { strategy },
    all.flatMap(({ setup }) => setup.strategies),
  );
  const shown = strategy === undefined ? all : all.filter(({ setup }) => setup.strategies.some(({ id }) => id === strategy));
  const text = () => {
    if (json) return `${JSON.stringify(plainOperations(document.title, shown, finished), undefined, 2)}\n`;
    const options = { ...(unit && { unit }), ...(strategy !== undefined && { strategy }) };
    return [
      finishedText(document.title, all, finished, problems, unit ?? document.unit),
      ...shown.map((each) => summaryText(each, options)),
    ].join("\n\n");
  };
  return [[...problems, ...unknown], text];
}

function onceEach(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [describeProblem(problem), problem])).values()];
}

function unknownStrategy({ strategy }: Pick<Request, "strategy">, known: readonly { readonly id: string }[]): Problem[] {
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
