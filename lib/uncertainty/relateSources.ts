import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { correlatedSources } from "./correlatedSources.ts";
import { centredValues } from "./internals/centredValues.ts";
import { checkCoefficients } from "./internals/checkCoefficients.ts";
import { simultaneousCoefficients } from "./internals/simultaneousCoefficients.ts";
import type { Source } from "./source.ts";
import type { RelatedValues } from "./sourceBook.ts";
import { Tape } from "./tape.ts";
import type { Uncertain } from "./uncertain.ts";

/** Two sources that somebody states to go together. */
export interface SourceRelation {
  /** Where it is stated: problems are told at its entries `one`, `other` and `coefficient`. */
  readonly place: string;
  /** Ids of two different sources; no two relations are of the same pair. */
  readonly one: string;
  readonly other: string;
  /** From -1 to 1; undefined where it is to be estimated from the readings of both, taken together (JCGM 100:2008, 5.2.3). */
  readonly coefficient: number | undefined;
}

/** Two sources that go together, and how far. */
export interface RelatedPair extends Pick<SourceRelation, "place" | "one" | "other"> {
  /** As stated, or as estimated from readings. */
  readonly coefficient: number;
}

/** Sources that go together, and what could not be made of what was stated. */
export interface RelatedSources extends RelatedValues {
  /** One for each relation that could be used. */
  readonly pairs: readonly RelatedPair[];
  readonly problems: readonly Problem[];
  /** Sources whose values would be wrong, because a relation that names them cannot be used. */
  readonly unusable: ReadonlySet<string>;
}

/**
 * Sources that go together are made where they belong, some before others: what is made before does not know the others, and what is made after
 * follows it (see correlatedSources).
 */
export interface MadeApart {
  /** Of sources that were made before, by id: as they go together among each other. */
  readonly before?: ReadonlyMap<string, Uncertain>;
  /** Whether a source is made after these. */
  readonly isLater?: (id: string) => boolean;
}

/**
 * Sources made anew so that they go together as stated (`correlatedSources`, which says what kinds it accepts).
 *
 * Quantities that were read together are so in common: where a was read with b and b with c, a was read with c, and all coefficients among them are those
 * of the readings. Their scatter then is one joint estimate with n − 1 degrees of freedom (see `simultaneousReadings`).
 *
 * @param made values of all sources that can be named, by id, as they are without any relation
 * @param exact sources that are without doubt only for the moment: nothing goes together with them, and that is no mistake
 * @param apart sources that are made elsewhere; `values` and `pairs` have what is made here
 */
export function relateSources(
  relations: readonly SourceRelation[],
  made: ReadonlyMap<string, Uncertain>,
  exact: ReadonlySet<string> = new Set(),
  apart: MadeApart = {},
): RelatedSources {
  const { before = new Map(), isLater = () => false } = apart;
  const values = new Map<string, Uncertain>();
  const estimates = new Map<string, string>();
  const pairs: RelatedPair[] = [];
  const problems: Problem[] = [];
  const unusable = new Set<string>();
  const read = relations.map((relation) => {
    const endAt = (end: "one" | "other"): End => (isLater(relation[end]) ? {} : endOf(relation, end, made, exact));
    const ends = [endAt("one"), endAt("other")] as const;
    const wrong = [...ends.flatMap(({ problem }) => problem ?? []), ...pairProblems(relation, ends)];
    return { relation, wrong, sources: ends.flatMap(({ source }) => source ?? []) };
  });
  for (const group of relatedGroups(relations)) {
    const rows = read.filter(({ relation }) => group.includes(relation.one));
    const wrong = rows.flatMap((row) => row.wrong);
    const sources = [...new Map(rows.flatMap((row) => row.sources).map((source) => [source.id, source])).values()];
    const together =
      wrong.length > 0
        ? { problems: wrong }
        : relateGroup(
            sources,
            rows.map(({ relation }) => relation),
            { before, isLater },
          );
    if ("problems" in together) {
      problems.push(...together.problems);
      for (const id of group) unusable.add(id);
      continue;
    }
    for (const [id, value] of together.values) values.set(id, value);
    for (const [before, joint] of together.estimates) estimates.set(before, joint);
    pairs.push(...together.pairs);
  }
  return { values, estimates, pairs, problems, unusable };
}

/** One of the two of a relation: its source, unless it is exact, or what is wrong with it. */
interface End {
  readonly source?: Source;
  readonly problem?: Problem;
}

function endOf(relation: SourceRelation, entry: "one" | "other", made: ReadonlyMap<string, Uncertain>, exact: ReadonlySet<string>): End {
  const id = relation[entry];
  const at = `${relation.place}.${entry}`;
  const value = made.get(id);
  if (value === undefined) {
    const suggestion = suggestName(id, made.keys());
    const remedy = suggestion.remedy ?? "name a source as a budget lists it";
    return { problem: { at, what: "no result rests on a source of this name", expected: "the name of a source", got: id, remedy } };
  }
  const { sources } = new Tape([value]);
  if (sources.length === 0)
    return exact.has(id) || relation.coefficient === undefined
      ? {}
      : {
          problem: {
            at,
            what: "nothing is in doubt about this, so nothing goes together with it",
            got: id,
            remedy: "state its doubt, or take this row out",
          },
        };
  const [source] = sources;
  if (source === undefined || sources.length > 1 || source.id !== id || !isSourceItself(value))
    return {
      problem: {
        at,
        what: `a value made of ${sources.map((each) => `"${each.id}"`).join(", ")} stands in the place of this source`,
        expected: "a source that is stated by itself",
        got: id,
        remedy: "relate what the value is made of instead",
      },
    };
  return { source: { ...source, estimate: value.value } };
}

/** Whether a value of one source is that source, or differs from it by a fixed amount only. */
function isSourceItself(value: Uncertain): boolean {
  const tape = new Tape([value]);
  return tape.isLinear(0) && tape.sensitivities(0)[0] === 1;
}

/** Why the readings of two sources are not pairs. */
function pairProblems({ place, coefficient }: SourceRelation, [one, other]: readonly [End, End]): Problem[] {
  if (coefficient !== undefined) return [];
  const alone = [one, other].flatMap(({ source }, i) => {
    if (source === undefined || source.repeats !== undefined) return [];
    return [
      {
        at: `${place}.${i === 0 ? "one" : "other"}`,
        what: "the doubt of this is not the scatter of readings of its own, so nothing can be estimated from them",
        expected: "repeated readings, and a scatter that comes from them",
        got: source.id,
        remedy: "let its scatter come from its own repeats, or state the coefficient",
      },
    ];
  });
  const [a, b] = [one.source?.repeats, other.source?.repeats];
  if (alone.length > 0 || a === undefined || b === undefined || a.length === b.length) return alone;
  return [
    {
      at: `${place}.other`,
      what: "readings that were taken together come in pairs",
      expected: `as many readings of both`,
      got: `${a.length} and ${b.length}`,
      remedy: "add the reading that is missing, or state the coefficient",
    },
  ];
}

/** Ids of what goes together directly or through others, each in the order in which it was named. */
export function relatedGroups(relations: readonly Pick<SourceRelation, "one" | "other">[]): string[][] {
  let groups: string[][] = [];
  for (const { one, other } of relations) {
    const met = groups.filter((group) => group.includes(one) || group.includes(other));
    groups = [...groups.filter((group) => !met.includes(group)), [...new Set([...met.flat(), one, other])]];
  }
  return groups;
}

/**
 * How the coefficients of a group contradict each other as stated, whatever they are of; nothing where one is to be estimated from readings, and
 * nothing as long as no sum would have a variance below zero.
 */
export function contradictionsIn(rows: readonly SourceRelation[]): Problem[] {
  const ids = [...new Set(rows.flatMap(({ one, other }) => [one, other]))];
  if (rows.some(({ coefficient }) => coefficient === undefined)) return [];
  const stated = (i: string, j: string) => rows.find(({ one, other }) => (one === i && other === j) || (one === j && other === i));
  const matrix = ids.map((i) => ids.map((j) => (i === j ? 1 : (stated(i, j)?.coefficient ?? 0))));
  return checkCoefficients(ids, matrix).map((problem) => placedAmong(problem, rows));
}

type Group = Pick<RelatedSources, "values" | "estimates" | "pairs">;

function relateGroup(
  all: readonly Source[],
  rows: readonly SourceRelation[],
  { before, isLater }: Required<MadeApart>,
): Group | { readonly problems: readonly Problem[] } {
  const coefficients = coefficientsOf(all, rows);
  if ("problem" in coefficients) return { problems: [coefficients.problem] };
  const { matrix, sets } = coefficients;
  const joint = new Map<string, string>();
  for (const set of sets) {
    const madeBefore = set.flatMap(({ id }) => before.get(id) ?? []).flatMap((value) => estimateBehind(value) ?? []);
    const name = madeBefore[0] ?? `scatter of ${set.map(({ id }) => id).join(", ")}`;
    for (const { id } of set) joint.set(id, name);
  }
  const sources = all.map((source) => {
    const varianceEstimate = joint.get(source.id);
    return varianceEstimate === undefined ? source : { ...source, varianceEstimate };
  });
  const outcome = correlatedSources(
    sources.map((source) => madeFirst(source, rows, all, isLater)),
    matrix,
    before,
  );
  if (!outcome.ok) return { problems: outcome.problems.map((problem) => placedAmong(problem, rows)) };
  const places = new Map(all.map(({ id }, i) => [id, i]));
  const isHere = ({ one, other }: SourceRelation) => !(isLater(one) || isLater(other) || (before.has(one) && before.has(other)));
  return {
    values: new Map(all.flatMap(({ id }, i) => (before.has(id) ? [] : [[id, outcome.value[i] as Uncertain] as const]))),
    estimates: new Map(
      all.flatMap(({ id, varianceEstimate }) => {
        const name = joint.get(id);
        return varianceEstimate === undefined || name === undefined ? [] : [[varianceEstimate, name] as const];
      }),
    ),
    pairs: rows.filter(isHere).map(({ place, one, other }) => ({
      place,
      one,
      other,
      coefficient: matrix[places.get(one) ?? -1]?.[places.get(other) ?? -1] ?? 0,
    })),
  };
}

/** The coefficients of all of a group, as stated or as readings have them, and the sets of sources that were read together. */
function coefficientsOf(all: readonly Source[], rows: readonly SourceRelation[]) {
  const places = new Map(all.map(({ id }, i) => [id, i]));
  const matrix = all.map((_, i) => all.map((_, j) => (i === j ? 1 : 0)));
  const state = (one: string, other: string, coefficient: number) => {
    const [i, j] = [places.get(one), places.get(other)];
    if (i === undefined || j === undefined) return;
    (matrix[i] as number[])[j] = coefficient;
    (matrix[j] as number[])[i] = coefficient;
  };
  const sets = relatedGroups(rows.filter(({ coefficient }) => coefficient === undefined)).map((ids) =>
    all.filter(({ id }) => ids.includes(id)),
  );
  for (const row of rows) {
    if (row.coefficient === undefined) continue;
    if (sets.some((set) => [row.one, row.other].every((end) => set.some(({ id }) => id === end))))
      return { problem: alreadyEstimated(row) };
    state(row.one, row.other, row.coefficient);
  }
  for (const set of sets) {
    const found = simultaneousCoefficients(set.map(({ repeats }) => centredValues(repeats ?? [])));
    set.forEach(({ id }, i) => {
      set.forEach((other, j) => {
        if (j < i) state(id, other.id, found[i]?.[j] as number);
      });
    });
  }
  return { matrix, sets };
}

/** A source with which others go together that are made later: its label names them, and its few degrees of freedom are theirs as well. */
function madeFirst(source: Source, rows: readonly SourceRelation[], all: readonly Source[], isLater: (id: string) => boolean): Source {
  if (!rows.some(({ one, other }) => isLater(one) || isLater(other))) return source;
  const shared = rows.flatMap(({ one, other, coefficient }) => {
    const partner = one === source.id ? other : one;
    return coefficient !== 0 && (one === source.id || other === source.id) && isLater(partner) ? [partner] : [];
  });
  const { limit: _, ...rest } = source;
  return {
    ...rest,
    label: shared.length > 0 ? `${source.label}, shared with ${shared.join(", ")}` : source.label,
    ...(source.degreesOfFreedom < Number.POSITIVE_INFINITY && source.varianceEstimate === undefined
      ? { varianceEstimate: `joint observations of ${all.map(({ id }) => id).join(", ")}` }
      : {}),
  };
}

/** The estimate of scatter that all parts of a value made before rest on. */
function estimateBehind(value: Uncertain): string | undefined {
  return new Tape([value]).sources[0]?.varianceEstimate;
}

function alreadyEstimated({ place, coefficient }: SourceRelation): Problem {
  return {
    at: `${place}.coefficient`,
    what: "both were read together with the same others, so their coefficient follows from the readings",
    expected: "nothing, or no such row",
    got: `${coefficient}`,
    remedy: "take this row out",
  };
}

/** What is wrong with several relations at once is told where the last of them is stated. */
function placedAmong(problem: Problem, rows: readonly SourceRelation[]): Problem {
  const { place, coefficient } = rows[rows.length - 1] as SourceRelation;
  const stated = rows.map((row) => row.place).join(", ");
  return {
    ...problem,
    at: `${place}.${coefficient === undefined ? "other" : "coefficient"}`,
    remedy: rows.length > 1 ? `${problem.remedy}; they are stated at ${stated}` : `${problem.remedy}`,
  };
}
