import type { Evidence, Family, Source } from "./source.ts";
import { type SourceDistribution, standardUncertaintyOf } from "./sourceDistribution.ts";
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
}

/** The sources of one evaluation: each exists once, whoever asks for it. */
export class SourceBook {
  private readonly values = new Map<string, Uncertain>();

  /** The source's value, made on first asking; a source without doubt is its estimate. */
  value(entry: SourceEntry): Uncertain {
    const known = this.values.get(entry.id);
    if (known !== undefined) return known;
    const { estimate = 0, degreesOfFreedom = Number.POSITIVE_INFINITY } = entry;
    const source: Source = { ...entry, estimate, degreesOfFreedom };
    const value = standardUncertaintyOf(entry.distribution) === 0 ? certain(estimate) : fromSource(source);
    this.values.set(entry.id, value);
    return value;
  }
}
