import { entryOf, matrixOf, multiply, pseudoInverse } from "../base/matrix.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { checkCoefficients } from "./internals/checkCoefficients.ts";
import { checkSource } from "./internals/checkSource.ts";
import { pivotedFactor } from "./internals/pivotedFactor.ts";
import type { Source } from "./source.ts";
import { type SourceDistribution, scaleOf, standardUncertaintyOf, withScale } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import { certain, fromSource, sum, type Uncertain } from "./uncertain.ts";

/**
 * Values of sources that are stated with correlation coefficients (JCGM 100:2008, 5.2.2 and F.1.2), made of independent sources: everything
 * that is read off a computation (budget, covariance, distribution, trials) then knows what they share.
 *
 * Sources that go together are split by Cholesky's method: the first keeps its whole deviation, which the others follow as far as their
 * coefficients say; each further one adds the part of its own that is left. A part keeps id, family, evidence and degrees of freedom of the
 * source that it is left of, and its label says what it is shared with or apart from. A source without coefficients other than 0 stays as it
 * is, and one without doubt is its estimate.
 *
 * Covariances are exactly those stated. So is the joint distribution, since only what stays of one kind is accepted:
 * - normal sources: jointly normal, uncorrelated parts being independent;
 * - scaled t sources with the same degrees of freedom: a multivariate t, as the means of quantities observed together have (JCGM 102:2011,
 *   5.3.2). They rest on one estimate: their sums are a t with these degrees of freedom, not more;
 * - any shape, where all coefficients in the group are 1 or -1 (for the exponential, which is not symmetric, 1) and the sources are of the same
 *   shape: one deviation in several sizes.
 *
 * Sources of other shapes that go together in part have no joint distribution that a coefficient determines, and are refused: a cause
 * that they share is to be stated as a source of its own. So are different degrees of freedom: the Welch-Satterthwaite formula is for
 * independent sources (JCGM 100:2008, G.4.1).
 *
 * A worst-case `limit` is kept only where a group follows one deviation; parts of a joint distribution have no end of their own.
 *
 * Some of them may have been made before, by themselves: their values stay, and the others follow them as far as their coefficients say.
 *
 * @param stated different ids; the values come in this order
 * @param coefficients of every two, symmetric, from -1 to 1, with ones on the diagonal, positive semidefinite
 * @param before by id: values that were made of these sources and their coefficients among each other, without a limit
 * @returns the values, or the problems: which sources contradict each other, and what a coefficient could be given the others
 * @throws RangeError for a distribution whose parameters are out of their range
 */
export function correlatedSources(
  stated: readonly Source[],
  coefficients: readonly (readonly number[])[],
  before: ReadonlyMap<string, Uncertain> = new Map(),
): Outcome<Uncertain[]> {
  for (const { distribution } of stated) checkSource(distribution);
  const labels = stated.map(({ label }) => label);
  const wrong = [...repeatedIds(stated), ...checkCoefficients(labels, coefficients)];
  if (wrong.length > 0) return failure(...wrong);
  const groups = groupsOf(stated, coefficients);
  const mixed = groups.flatMap((group) => groupProblems(group, stated, coefficients));
  if (mixed.length > 0) return failure(...mixed);
  const values = stated.map(({ estimate }) => certain(estimate));
  for (const group of groups) {
    const made = splitGroup(
      group.map((i) => stated[i] as Source),
      (i, j) => coefficients[group[i] as number]?.[group[j] as number] as number,
      before,
    );
    group.forEach((i, place) => {
      values[i] = made[place] as Uncertain;
    });
  }
  return success(values);
}

function repeatedIds(stated: readonly Source[]): Problem[] {
  const ids = stated.map(({ id }) => id);
  return ids
    .filter((id, i) => ids.indexOf(id) < i)
    .map((id) => ({ at: "sources", what: `two sources carry the id "${id}"`, expected: "different ids", got: id, remedy: "rename one" }));
}

/** Places of the doubtful sources, by what goes together directly or through others, each in the order stated. */
function groupsOf(stated: readonly Source[], coefficients: readonly (readonly number[])[]): number[][] {
  const groups: number[][] = [];
  const placed = new Set<number>();
  stated.forEach(({ distribution }, first) => {
    if (placed.has(first) || standardUncertaintyOf(distribution) === 0) return;
    const group = [first];
    placed.add(first);
    for (const member of group)
      stated.forEach((other, i) => {
        if (placed.has(i) || coefficients[member]?.[i] === 0 || standardUncertaintyOf(other.distribution) === 0) return;
        group.push(i);
        placed.add(i);
      });
    groups.push(group.sort((i, j) => i - j));
  });
  return groups;
}

/** Why the stated shapes leave the joint distribution open. */
function groupProblems(group: readonly number[], stated: readonly Source[], coefficients: readonly (readonly number[])[]): Problem[] {
  const [first, ...others] = group.map((i) => stated[i] as Source) as [Source, ...Source[]];
  const names = [first, ...others].map(({ label }) => `"${label}"`).join(", ");
  const { distribution } = first;
  const oneDeviation = group.every((i) => group.every((j) => Math.abs(coefficients[i]?.[j] as number) === 1));
  if (others.some((other) => shapeOf(other.distribution) !== shapeOf(distribution)))
    return [
      {
        at: "sources",
        what: `${names} are correlated but differ in shape, so that their joint distribution is not known`,
        expected: "one shape",
        got: [first, ...others].map((each) => shapeOf(each.distribution)).join(", "),
        remedy: "state them alike, or state the cause that they share as a source of its own",
      },
    ];
  if (others.length > 0 && !oneDeviation && distribution.shape !== "normal" && distribution.shape !== "scaledT")
    return [
      {
        at: "sources",
        what: `${names} are correlated in part, and a coefficient does not determine the joint distribution of this shape`,
        expected: "normal, or scaled t with the same degrees of freedom, or coefficients of 1 and -1 only",
        got: distribution.shape,
        remedy: "state the cause that they share as a source of its own, or state them as normal",
      },
    ];
  if (distribution.shape === "exponential" && group.some((i) => group.some((j) => coefficients[i]?.[j] === -1)))
    return [
      {
        at: "coefficients",
        what: `${names} cannot be opposite to each other: neither deviates as far below as above`,
        expected: "1",
        got: "-1",
        remedy: "state one of them with a negative sensitivity instead, or correct the coefficient",
      },
    ];
  if (others.some((other) => other.degreesOfFreedom !== first.degreesOfFreedom || other.varianceEstimate !== first.varianceEstimate))
    return [
      {
        at: "sources",
        what: `${names} are correlated but do not rest on the same observations`,
        expected: "the same degrees of freedom and the same estimate of the standard deviation",
        got: [first, ...others]
          .map(
            ({ degreesOfFreedom, varianceEstimate }) =>
              `${degreesOfFreedom}${varianceEstimate === undefined ? "" : ` of ${varianceEstimate}`}`,
          )
          .join(", "),
        remedy: "give them the degrees of freedom of the joint observations, or state the cause that they share as a source of its own",
      },
    ];
  return [];
}

/** What two distributions have in common when they differ by their size only. */
function shapeOf(distribution: SourceDistribution): string {
  switch (distribution.shape) {
    case "trapezoidal":
    case "curvilinearTrapezoidal":
      return `${distribution.shape} with the top ratio ${distribution.topRatio}`;
    case "scaledT":
      return `scaled t with ${distribution.degreesOfFreedom} degrees of freedom`;
    default:
      return distribution.shape;
  }
}

/** Values of sources that go together, in their order. */
function splitGroup(
  sources: readonly Source[],
  coefficient: (i: number, j: number) => number,
  before: ReadonlyMap<string, Uncertain>,
): Uncertain[] {
  if (sources.length === 1) return sources.map((source) => before.get(source.id) ?? fromSource(source));
  const uncertainties = sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  const earlier = earlierCauses(sources, uncertainties, coefficient, before);
  const { factor, pivots } = pivotedFactor(
    matrixOf(sources.length, sources.length, (i, j) =>
      earlier.isMade(i) || earlier.isMade(j) ? 0 : coefficient(i, j) - earlier.explained(i, j),
    ),
  );
  const share = (i: number, k: number) => {
    const entry = entryOf(factor, i, k);
    return Math.abs(entry) > rounding ? entry : 0;
  };
  const labelsOf = (places: readonly number[]) => places.map((i) => (sources[i] as Source).label).join(", ");
  const parts = pivots.map((pivot, k) => {
    const source = sources[pivot] as Source;
    const followers = sources.flatMap((_, i) => (i !== pivot && share(i, k) !== 0 ? [i] : []));
    const sooner = [...earlier.followedBy(pivot), ...pivots.slice(0, k).filter((_, column) => share(pivot, column) !== 0)];
    const apart = sooner.length > 0 ? `, apart from ${labelsOf(sooner)}` : "";
    const shared = followers.length > 0 ? `, shared with ${labelsOf(followers)}` : "";
    const { limit: _, ...rest } = source;
    const limit = pivots.length === 1 && earlier.causes.length === 0 ? commonLimit(sources, uncertainties) : undefined;
    const estimate = earlier.causes[0]?.source.varianceEstimate ?? estimateBehind(sources);
    return fromSource({
      ...rest,
      label: `${source.label}${apart}${shared}`,
      estimate: 0,
      distribution: withScale(source.distribution, share(pivot, k) * scaleOf(source.distribution)),
      ...(limit === undefined ? {} : { limit }),
      ...(estimate === undefined ? {} : { varianceEstimate: estimate }),
    });
  });
  return sources.map(({ id, estimate }, i) => {
    const made = before.get(id);
    if (made !== undefined) return made;
    const followed = earlier.causes.flatMap(({ source, deviation, share: shareOf }) =>
      shareOf(i) === 0 ? [] : [deviation.times(shareOf(i) * ((uncertainties[i] as number) / standardUncertaintyOf(source.distribution)))],
    );
    const own = parts.map((part, k) => {
      const pivot = pivots[k] as number;
      // In units of the part, which is the pivot's standard uncertainty times its own share.
      return part.times((share(i, k) / share(pivot, k)) * ((uncertainties[i] as number) / (uncertainties[pivot] as number)));
    });
    return sum([...followed, ...own]).plus(estimate);
  });
}

/** What those of a group that were made before are made of, and how far the others follow it. */
interface EarlierCauses {
  isMade(i: number): boolean;
  readonly causes: readonly {
    readonly source: Source;
    /** Of the source from its estimate. */
    readonly deviation: Uncertain;
    /** Of the standard deviation of one of the group. */
    share(i: number): number;
  }[];
  /** What two of the others have in common by following the same. */
  explained(i: number, j: number): number;
  /** Places of those made before that one of the others follows. */
  followedBy(i: number): number[];
}

/**
 * With the values made before as rows L over independent causes, L Lᵀ being their coefficients: the shares S of the others are those with
 * L Sᵀ = their coefficients with them.
 */
function earlierCauses(
  sources: readonly Source[],
  uncertainties: readonly number[],
  coefficient: (i: number, j: number) => number,
  before: ReadonlyMap<string, Uncertain>,
): EarlierCauses {
  const made = sources.flatMap(({ id }, i) => (before.has(id) ? [i] : []));
  const tape = new Tape(made.map((i) => before.get((sources[i] as Source).id) as Uncertain));
  const deviations = tape.sources.map(({ distribution }) => standardUncertaintyOf(distribution));
  const isMade = (i: number) => made.includes(i);
  if (made.length === 0) return { isMade, causes: [], explained: () => 0, followedBy: () => [] };
  const loadings = matrixOf(
    made.length,
    deviations.length,
    (row, k) => ((tape.sensitivities(row)[k] as number) * (deviations[k] as number)) / (uncertainties[made[row] as number] as number),
  );
  const found = multiply(
    pseudoInverse(loadings, dependent),
    matrixOf(made.length, sources.length, (row, i) => (isMade(i) ? 0 : coefficient(made[row] as number, i))),
  );
  const shareOf = (i: number, k: number) => (Math.abs(entryOf(found, k, i)) > rounding ? entryOf(found, k, i) : 0);
  const causes = tape.sources.map((source, k) => ({
    source,
    deviation: fromSource(source).minus(source.estimate),
    share: (i: number) => shareOf(i, k),
  }));
  return {
    isMade,
    causes,
    explained: (i, j) => causes.reduce((total, { share }) => total + share(i) * share(j), 0),
    followedBy: (i) =>
      made.filter((place) => causes.some(({ source, share }) => source.id === (sources[place] as Source).id && share(i) !== 0)),
  };
}

/** Singular values up to this of what values made before are made of are zero. */
const dependent = 1e-9;

/** Of the largest deviation that any of the limits allows, in the size of the first source; undefined where one has no limit. */
function commonLimit(sources: readonly Source[], uncertainties: readonly number[]): number | undefined {
  const ratios = sources.map(({ limit }, i) => (limit ?? Number.POSITIVE_INFINITY) / (uncertainties[i] as number));
  const limit = Math.max(...ratios) * (uncertainties[0] as number);
  return limit < Number.POSITIVE_INFINITY ? limit : undefined;
}

/** The estimate that all parts rest on: the one stated, or their own where it has few degrees of freedom. */
function estimateBehind([first, ...others]: readonly Source[]): string | undefined {
  if (first === undefined || first.varianceEstimate !== undefined || first.degreesOfFreedom === Number.POSITIVE_INFINITY)
    return first?.varianceEstimate;
  return `joint observations of ${[first, ...others].map(({ id }) => id).join(", ")}`;
}

/** A share of this size is what subtractions have left over. */
const rounding = 1e-12;
