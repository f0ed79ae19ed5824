import type { Plugin } from "vite";
import { publishedChecks } from "../../.ci/publishedChecks.mjs";

const name = "virtual:published-checks";

/** What the last run of the tests found against published documents, as a text of the guide. */
export const publishedChecksText: Plugin = {
  name: "published-checks",
  resolveId: (source) => (source === name ? `\0${name}` : undefined),
  load: (id) => (id === `\0${name}` ? `export default ${JSON.stringify(publishedChecks())};` : undefined),
};
