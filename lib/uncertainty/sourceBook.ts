import type { Evidence, Family, Source } from "./source.ts";
import { type SourceDistribution, scaledBy, standardUncertaintyOf } from "./sourceDistribution.ts";
import { Tape } from "./tape.ts";
import { certain, fromSource, type Uncertain } from "./uncertain.ts";

/** What a source needs to be named; the rest has usual values. */
export interface SourceEntry {
  readonly id: string;
  readonly label: string;
  readonly family: Family;
  readonly distribution: SourceDistribution;
  readonly evidence: Evidence;
  /** 0 when left out. */
  readonly estimate?: number;
  /** Exactly known (infinite) when left out. */
  readonly degreesOfFreedom?: number;
  readonly limit?: number;
  readonly varianceEstimate?: string;
  readonly repeats?: readonly number[];
  readonly circle?: string;
}

/** A source taken, for the moment, to be another than stated. */
export interface Supposition {
  /** Of the estimate, in standard uncertainties as stated. */
  readonly shift: number;
  /** The scale of the distribution as a multiple of the stated one, 0 or more. */
  readonly doubt: number;
}

/** What a person has stated about single sources, by their ids. */
export interface SourceStatements {
  /** Values that were worked out elsewhere, with their own sources, and stand in the place of one of these. */
  readonly given?: ReadonlyMap<string, Uncertain>;
  readonly suppositions?: ReadonlyMap<string, Supposition>;
}

/** Sources that go together, made of what they share and of what each has apart from the others. */
export interface RelatedValues {
  /** By source. */
  readonly values: ReadonlyMap<string, Uncertain>;
  /** The joint estimate of scatter that has taken the place of one of these (`Source.varianceEstimate`). */
  readonly estimates: ReadonlyMap<string, string>;
}

const unrelated: RelatedValues = { values: new Map(), estimates: new Map() };

/** The sources of one evaluation: each exists once, whoever asks for it. */
export class SourceBook {
  private readonly values: Map<string, Uncertain>;
  private readonly given: ReadonlyMap<string, Uncertain>;
  private readonly suppositions: ReadonlyMap<string, Supposition>;
  private readonly related: RelatedValues;

  constructor({ given = new Map(), suppositions = new Map() }: SourceStatements = {}, related = unrelated) {
    this.given = given;
    this.values = new Map(given);
    for (const id of related.values.keys()) this.values.delete(id);
    this.suppositions = suppositions;
    this.related = related;
  }

  /** What was asked for so far, and what is given, by source. */
  get made(): ReadonlyMap<string, Uncertain> {
    return this.values;
  }

  /** Values worked out elsewhere that stand in the place of further sources; one that was asked for already stays. */
  take(given: ReadonlyMap<string, Uncertain> = new Map()): void {
    for (const [id, value] of given) if (!this.values.has(id)) this.values.set(id, value);
  }

  /** Sources that something is supposed of and that no value so far rests on: nobody asked for them, or another value stands in their place. */
  withoutEffect(): string[] {
    return [...this.suppositions].flatMap(([id, { doubt }]) => {
      const given = this.given.get(id);
      if (given === undefined) return this.values.has(id) ? [] : [id];
      // Where no doubt is supposed there is no source left to find.
      return doubt === 0 || new Tape([given]).sources.some((source) => source.id === id) ? [] : [id];
    });
  }

  /** The source's value, made on first asking; a source without doubt is its estimate. */
  value(entry: SourceEntry): Uncertain {
    const known = this.values.get(entry.id);
    if (known !== undefined) return known;
    const value = this.related.values.get(entry.id) ?? valueOfSource(this.resting(entry), this.suppositions.get(entry.id));
    this.values.set(entry.id, value);
    return value;
  }

  /** The same source, resting on the joint estimate where there is one. */
  private resting(entry: SourceEntry): SourceEntry {
    const joint = entry.varianceEstimate === undefined ? undefined : this.related.estimates.get(entry.varianceEstimate);
    return joint === undefined ? entry : { ...entry, varianceEstimate: joint };
  }
}

/** The value of a source, as stated or as supposed; without doubt it is its estimate. */
export function valueOfSource(entry: SourceEntry, supposition?: Supposition): Uncertain {
  const { estimate = 0, degreesOfFreedom = Number.POSITIVE_INFINITY, distribution } = entry;
  const source: Source = supposition
    ? {
        ...entry,
        degreesOfFreedom,
        estimate: estimate + supposition.shift * standardUncertaintyOf(distribution),
        distribution: scaledBy(distribution, supposition.doubt),
      }
    : { ...entry, degreesOfFreedom, estimate };
  return standardUncertaintyOf(source.distribution) === 0 ? certain(source.estimate) : fromSource(source);
}
