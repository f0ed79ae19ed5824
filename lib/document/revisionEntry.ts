import * as v from "valibot";
import { type Change, changeSchemaOf } from "./stateChange.ts";

/** A state of the document that somebody noted. */
export interface RevisionEntry<Sections> {
  /** As typed. */
  readonly who: string;
  /** As the page or the command line gave it: date and time of ISO 8601. */
  readonly when: string;
  /** As typed. */
  readonly why: string;
  /** From the state of the revision before it, the first from a blank document. */
  readonly change: Change<Sections>;
}

/** Revisions, oldest first, of a document with these sections. */
export function revisionsOf<const Entries extends v.ObjectEntries>(sections: Entries) {
  type Revisions = RevisionEntry<v.InferOutput<v.ObjectSchema<Entries, undefined>>>[];
  const text = v.optional(v.string(), "");
  const entry = v.object({ who: text, when: text, why: text, change: changeSchemaOf(v.object(sections)) });
  return v.optional(v.array(entry) as unknown as v.GenericSchema<Revisions>, []);
}
