import type { Migration } from "./migrate.ts";

/** Version 2 keeps revisions; a document of version 1 has none. */
export const from1: Migration = (data) => ({ ...data, version: 2, revisions: [] });
