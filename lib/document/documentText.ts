import type * as v from "valibot";
import { compactJson } from "./compactJson.ts";
import { type SetupDocument, setupDocumentSchema } from "./setupDocument.ts";

/**
 * The text of the file that a document is saved as. The same document always gives the same text, its keys in the order of the schema, so that a
 * difference of two files reads as what was changed.
 */
export function documentText(document: SetupDocument): string {
  return compactJson(inOrder(setupDocumentSchema, document));
}

/** The value with its keys in the order of the schema; what the schema does not name stays behind them, as it was. */
function inOrder(schema: v.GenericSchema | undefined, value: unknown): unknown {
  const known = schema as KnownSchema | undefined;
  if (known?.wrapped) return inOrder(known.wrapped, value);
  if (known?.options && known.key !== undefined) return inOrder(optionFor(known.options, known.key, value), value);
  if (Array.isArray(value)) return value.map((item) => inOrder(known?.item, item));
  if (typeof value !== "object" || value === null) return value;
  const entries = known?.entries ?? {};
  const held = value as Record<string, unknown>;
  const keys = [
    ...Object.keys(entries).filter((key) => Object.hasOwn(held, key)),
    ...Object.keys(held).filter((key) => !Object.hasOwn(entries, key)),
  ];
  return Object.fromEntries(keys.flatMap((key) => (held[key] === undefined ? [] : [[key, inOrder(entries[key], held[key])]])));
}

interface KnownSchema {
  readonly wrapped?: v.GenericSchema;
  readonly entries?: Record<string, v.GenericSchema & { readonly literal?: unknown }>;
  readonly item?: v.GenericSchema;
  readonly key?: string;
  readonly options?: readonly v.GenericSchema[];
}

/** Of several kinds of objects the one that this is. */
function optionFor(options: readonly v.GenericSchema[], key: string, value: unknown): v.GenericSchema | undefined {
  const kind = typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : undefined;
  return options.find((option) => (option as KnownSchema).entries?.[key]?.literal === kind);
}
