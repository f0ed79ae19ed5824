import { type Outcome, success } from "../base/outcome.ts";
import { summariseRepeats } from "../uncertainty/repeats.ts";
import type { Source } from "../uncertainty/source.ts";
import { type SourceEntry, type Supposition, valueOfSource } from "../uncertainty/sourceBook.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { CheckedStatement } from "./checkStatement.ts";
import { evaluateExpression, type ValueLookup } from "./evaluateExpression.ts";
import { namesIn } from "./expression.ts";
import { inGroups } from "./statement.ts";
import { uncertainArithmetic } from "./uncertainArithmetic.ts";
import { type Doubt, sureNumber, workOutDoubt } from "./workOutDoubt.ts";

/** What the doubt that a statement states is called in budgets. The evidence of readings is that they were taken, whatever is given here. */
export interface StatementSource extends Pick<Source, "id" | "label" | "family" | "evidence"> {
  /** What is supposed of it for the moment. */
  readonly supposition?: Supposition | undefined;
  /** The source's value where it goes together with others: made with them, it stands in the place of an independent one. */
  readonly related?: Uncertain | undefined;
}

/**
 * The value of a checked statement, in base units. Its own doubt is one source more, independent of all others unless it is `related`: about the
 * value itself where the statement has no names, about zero, and added, where it is a formula of other values.
 */
export function evaluateStatement(
  { expression, doubt: known, namedDoubt }: CheckedStatement,
  lookup: ValueLookup<Uncertain>,
  source: StatementSource,
): Outcome<Uncertain> {
  const value = evaluateExpression(expression, uncertainArithmetic, lookup);
  if (!value.ok) return value;
  const named = namedDoubt && workOutDoubt(namedDoubt, sureNumber(lookup), () => success(value.value.value));
  if (named?.ok === false) return named;
  const doubt = named?.value ?? known;
  if (!doubt || standardUncertaintyOf(doubt.distribution) === 0) return value;
  const isOwn = namesIn(expression).length === 0;
  const own = source.related ?? valueOfSource(sourceOfDoubt(doubt, isOwn ? value.value.value : 0, source), source.supposition);
  return success(isOwn ? own : value.value.plus(own));
}

/** The source of the doubt that a statement states, about this estimate. */
function sourceOfDoubt(doubt: Doubt, estimate: number, { id, label, family, evidence }: StatementSource): SourceEntry {
  const { distribution, degreesOfFreedom, readings, groups, step, limit } = doubt;
  return {
    id,
    label,
    family,
    estimate,
    distribution,
    degreesOfFreedom,
    evidence: readings === undefined ? evidence : { kind: "measured", readings: readings.length, ...(groups && { groups }) },
    // Of groups that differ the means are what scatters.
    ...(readings &&
      step === undefined && {
        repeats: groups?.differ ? inGroups(readings, groups.sizes).map((group) => summariseRepeats(group).mean) : readings,
      }),
    ...(limit !== undefined && { limit }),
  };
}
