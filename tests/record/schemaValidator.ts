import Ajv from "ajv/dist/2020.js";

/** The same where nothing may stand that is not named. */
export function closed(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(closed);
  if (typeof node !== "object" || node === null) return node;
  const entries = Object.fromEntries(Object.entries(node).map(([key, value]) => [key, closed(value)]));
  return "properties" in node && "type" in node ? { ...entries, additionalProperties: false } : entries;
}

/** By ajv, a general validator, which knows nothing of this project. */
export const validator = (of: object) => new Ajv({ allErrors: false, strict: false }).compile(of);

/** The entries of some results without which, or with another kind of value in the place of which, they keep the schema all the same. */
export function entriesNotNeeded(results: Readonly<Record<string, unknown>>, keeps: (data: unknown) => boolean): string[] {
  return Object.keys(results).filter((key) => {
    const { [key]: _, ...rest } = results;
    return keeps(rest) || keeps({ ...results, [key]: true });
  });
}
