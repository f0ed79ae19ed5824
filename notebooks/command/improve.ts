import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import type { ImprovementRequest } from "../../lib/decision/improvement.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { improveSetup } from "../../lib/improveSetup.ts";
import { improvementText } from "../../lib/record/improvementText.ts";
import { obstacles } from "../../lib/record/obstacles.ts";
import { plainImprovement } from "../../lib/record/plainImprovement.ts";
import { readOneSetup } from "./readOneSetup.ts";
import { exitCodes, refuse, runAsAsked } from "./running.ts";

const usage = `Turns the question round: what would help a saved setup most, how large each doubt may be, and which strategies
from the same touches are best for their number of touches.

  npm run --silent improve -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

  --strategy NAME        whose part zero and touches it is about; the one in use unless given
  --view this-part|batch judged for this part, as touched, or for the batch, before touching; this-part unless given
  --chance PER-CENT      the chance that every characteristic is to have: above 50 and below 100; 99.73 unless given
  --json                 the same as JSON
  --help                 this text

Exit status 0; 2 when the file, an entry, the strategy or the arguments cannot be used, with one line per problem on standard
error; 70 for a mistake of the program itself.
`;

const options = {
  json: { type: "boolean" },
  strategy: { type: "string" },
  view: { type: "string" },
  chance: { type: "string" },
} as const;

await runAsAsked(usage, options, async ({ values, positionals }) => {
  const request = requestOf(values);
  if (!request.ok) return refuse(request.problems);
  const document = await readOneSetup(positionals);
  if (!document.ok) return refuse(document.problems);
  // Half of a setup would be told as all of it.
  const missing = obstacles(evaluateSetup(document.value));
  if (missing.length > 0) return refuse(missing);
  const steps = improveSetup(document.value, request.value);
  let step = steps.next();
  while (!step.done) step = steps.next();
  if (!step.value.ok) return refuse(step.value.problems);
  const improvement = step.value.value;
  process.stdout.write(values.json ? `${JSON.stringify(plainImprovement(improvement), undefined, 2)}\n` : improvementText(improvement));
  return exitCodes.done;
});

function requestOf({ strategy, view = "this-part", chance = "99.73" }: { strategy?: string; view?: string; chance?: string }) {
  const refused = (at: string, what: string, expected: string, got: string): Outcome<ImprovementRequest> =>
    failure({ at, what, expected, got });
  if (view !== "this-part" && view !== "batch") return refused("--view", "there is no such view", "this-part or batch", view);
  const wanted = Number(chance.replace(/\s*%$/, "")) / 100;
  if (!(wanted > 0.5 && wanted < 1))
    return refused("--chance", "this is no chance that can be asked for", "per cent above 50 and below 100", chance);
  const request: ImprovementRequest = {
    ...(strategy !== undefined && { strategy }),
    view: view === "batch" ? "batch" : "thisPart",
    wanted,
  };
  return success(request);
}
