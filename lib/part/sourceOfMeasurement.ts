import type { Source } from "../uncertainty/source.ts";

/** What is not known of a size of this part that was measured by other means than touches. */
export function sourceOfMeasurement({ id }: { readonly id: string }): Pick<Source, "id" | "label" | "family" | "evidence"> {
  return { id: `dimension ${id}, measured`, label: `measurement of ${id}`, family: "part", evidence: { kind: "stated" } };
}
