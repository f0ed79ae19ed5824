import * as v from "valibot";
import { setupDocumentSchema } from "./setupDocument.ts";

/** The schema of a document in a file: keys that it does not name are refused, because they would be lost on saving. */
export const strictSchema = strictly(setupDocumentSchema);

function strictly(schema: v.GenericSchema): v.GenericSchema {
  const known = schema as v.GenericSchema & {
    type: string;
    entries?: Record<string, v.GenericSchema>;
    item?: v.GenericSchema;
    items?: readonly v.GenericSchema[];
    wrapped?: v.GenericSchema;
    default?: unknown;
    key?: string;
    options?: readonly v.GenericSchema[];
  };
  if (known.type === "object" && known.entries) return refusingLists(v.strictObject(onlyOwn(known.entries)));
  if (known.type === "array" && known.item) return v.array(strictly(known.item));
  if (known.type === "tuple" && known.items) return v.strictTuple([...known.items]);
  if (known.type === "variant" && known.key && known.options)
    return refusingLists(
      v.variant(known.key, known.options.map(strictly) as unknown as Parameters<typeof v.variant>[1]) as unknown as v.GenericSchema,
    );
  if (known.type === "optional" && known.wrapped) return v.optional(strictly(known.wrapped), known.default as never);
  return schema;
}

/** An empty list would pass for an object of which everything was left out. */
function refusingLists(schema: v.GenericSchema): v.GenericSchema {
  return {
    ...schema,
    "~run": (dataset, config) => schema["~run"](Array.isArray(dataset.value) ? { ...dataset, value: "a list" } : dataset, config),
  };
}

/** Entries without a prototype: `constructor` and `__proto__` are then keys like any other that nobody knows. */
function onlyOwn(entries: Record<string, v.GenericSchema>): Record<string, v.GenericSchema> {
  const own: Record<string, v.GenericSchema> = Object.create(null);
  for (const [key, entry] of Object.entries(entries)) own[key] = strictly(entry);
  return own;
}
