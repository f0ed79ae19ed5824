import { failure, type Outcome, success } from "../../lib/base/outcome.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { parseOptions, seeHelp } from "./parseOptions.ts";

/** What a study was asked for. */
export interface StudyRequest {
  readonly help: boolean;
  /** A path, or `-` for standard input. */
  readonly file: string;
  readonly json: boolean;
  readonly quiet: boolean;
  readonly strategy: string | undefined;
  readonly view: View;
  readonly seed: number | undefined;
  readonly work:
    | { readonly kind: "correction" }
    /** Blocks from `from` on, before `to`. */
    | { readonly kind: "trials"; readonly from: number; readonly to: number; readonly isShard: boolean }
    | { readonly kind: "steady"; readonly mostTrials: number }
    | { readonly kind: "merge"; readonly files: readonly string[] };
}

export const studyUsage = `Studies the results of a strategy beyond first order: is u with its factor k good enough, and what does
the whole model say?

  npm run --silent study -- FILE.json [options]

FILE.json is a setup that Datumbook saved; - reads it from standard input.

  --strategy NAME    the strategy to study; the chosen one unless given
  --view VIEW        this-part (after its readings) or batch (before touching); this-part unless given
  --trials N         run N trials of the whole model: every source drawn, every frame solved again; rounded up to
                     whole blocks of ${blockSize}
  --until-steady     trials until mean, u and both ends of the interval are steady to two digits of u
                     (JCGM 101, 7.9), at most --trials of them (10 million unless given)
  --shard K/N        run only the K-th of N parts of the trials and print what they have counted, a file to be
                     put together with the other parts by --merge, in any order, on any machine
  --merge FILES ...  put together what the parts have counted, and tell of all of them
  --seed S           0 to 4294967295; the document's own unless given
  --json             results as JSON
  --quiet            no progress on standard error
  --help             this text

Control+C stops the trials; what has been counted until then is told, or printed as a shard of so much.

Without --trials, --until-steady and --merge the answers are the exact distributions of the linearised results,
corrected for the bend of the model by four sets of ${blockSize} evenly spread trials.

Exit status 0 when the study could be done; 2 when a file or the arguments cannot be used, with one line per
problem on standard error; 70 for a mistake of the program itself.
`;

const views: Readonly<Record<string, View>> = { "this-part": "thisPart", batch: "batch" };
const mostTrials = 10_000_000_000;
const steadyTrials = 10_000_000;

/** The request that the arguments make, or what is wrong with them. */
export function readStudyRequest(args: readonly string[]): Outcome<StudyRequest> {
  const parsed = parseOptions(args, options);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  const [file = "", ...more] = positionals;
  const view = views[values.view ?? "this-part"];
  if (view === undefined) return refused("--view", "there is no such view", Object.keys(views).join(" or "), values.view);
  const seed = values.seed === undefined ? undefined : wholeNumber(values.seed, 0, 0xffffffff);
  if (seed === null) return refused("--seed", "this is no seed", "a whole number from 0 to 4294967295", values.seed);
  const merge = values.merge ?? false;
  if (!values.help && (file === "" || more.length > 0 !== merge))
    return refused(
      "arguments",
      merge ? "a merge needs the setup and what its shards have counted" : "one setup is studied at a time",
      merge ? "the path of the setup, then those of the shards" : "the path of a saved setup, or -",
      positionals.join(" "),
    );
  const work = merge ? success({ kind: "merge", files: more } as const) : readWork(values);
  if (!work.ok) return work;
  const { help = false, json = false, quiet = false, strategy } = values;
  return success({ help, file, json, quiet, strategy, view, seed, work: work.value });
}

function readWork(values: Pick<Values, "trials" | "shard" | "until-steady">): Outcome<StudyRequest["work"]> {
  const steady = values["until-steady"] ?? false;
  const trials = values.trials === undefined ? undefined : wholeNumber(values.trials, 1, mostTrials);
  if (trials === null) return refused("--trials", "this is no number of trials", `a whole number from 1 to ${mostTrials}`, values.trials);
  if (steady && values.shard !== undefined)
    return refused("--shard", "trials that go on until they are steady cannot be shared out", "--trials with --shard", values.shard);
  if (steady) return success({ kind: "steady", mostTrials: trials ?? steadyTrials });
  if (trials === undefined)
    return values.shard === undefined
      ? success({ kind: "correction" })
      : refused("--shard", "there are no trials to share out", "--trials beside it", values.shard);
  const blocks = Math.ceil(trials / blockSize);
  const [part, parts] = shardOf(values.shard ?? "1/1");
  if (!(part >= 1 && part <= parts && parts <= blocks))
    return refused(
      "--shard",
      "there is no such part",
      `K/N with K from 1 to N, and N at most ${blocks} (the number of blocks)`,
      values.shard,
    );
  const start = (k: number) => Math.floor((k * blocks) / parts);
  return success({ kind: "trials", from: start(part - 1), to: start(part), isShard: values.shard !== undefined });
}

function shardOf(text: string): readonly [number, number] {
  const [, part, parts] = /^(\d{1,9})\/(\d{1,9})$/.exec(text) ?? [];
  return [Number(part), Number(parts)];
}

/** Null for what is no whole number in the range. */
function wholeNumber(text: string, least: number, most: number): number | null {
  const value = /^\d{1,15}$/.test(text) ? Number(text) : Number.NaN;
  return value >= least && value <= most ? value : null;
}

function refused(at: string, what: string, expected: string, got: string | undefined): Outcome<never> {
  return failure({ at, what, expected, got: got ?? "nothing", remedy: seeHelp });
}

const options = {
  help: { type: "boolean" },
  json: { type: "boolean" },
  quiet: { type: "boolean" },
  strategy: { type: "string" },
  view: { type: "string" },
  seed: { type: "string" },
  trials: { type: "string" },
  "until-steady": { type: "boolean" },
  shard: { type: "string" },
  merge: { type: "boolean" },
} as const;

type Values = Extract<ReturnType<typeof parseOptions<typeof options>>, { ok: true }>["value"]["values"];
