import type * as v from "valibot";
import type { PlainOperations } from "../../lib/record/plainOperations.ts";
import type { PlainResults } from "../../lib/record/plainResults.ts";
import type { operationsSchema, resultsSchema } from "../../lib/record/resultsSchema.ts";

/** As JSON has it: no units on numbers, lists of any length. */
type Plain<T> = T extends number
  ? number extends T
    ? number
    : T extends { readonly [unit: symbol]: unknown }
      ? number
      : T
  : T extends readonly (infer Item)[]
    ? Plain<Item>[]
    : T extends object
      ? { -readonly [Key in keyof T]: Plain<T[Key]> }
      : T;

/** Whatever `plainResults` gives is what the published schema says. */
export const published = (results: Plain<PlainResults>): v.InferOutput<typeof resultsSchema> => results;

/** Whatever `plainOperations` gives is what the published schema of several operations says. */
export const publishedOperations = (results: Plain<PlainOperations>): v.InferOutput<typeof operationsSchema> => results;
