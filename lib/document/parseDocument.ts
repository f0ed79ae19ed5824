import * as v from "valibot";
import { messageOf } from "../base/messageOf.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { migrate } from "./migrations/migrate.ts";
import { currentVersion, type SetupDocument } from "./setupDocument.ts";
import { strictSchema } from "./strictSchema.ts";

/** Longest text that is read, in characters: a setup of thousands of rows is a hundredth of it. */
export const longestDocument = 20_000_000;

/**
 * A document from its JSON text. Refused, with the place and the reason: text
 * that is no JSON, a document of another format, of a newer version, or with an
 * entry that the schema does not allow. What the schema does not know is told as
 * well, so that nothing is lost unseen.
 */
export function parseDocument(text: string): Outcome<SetupDocument> {
  if (text.length > longestDocument) {
    return failure({
      at: "",
      what: `the text is longer than any setup: ${text.length} characters`,
      expected: `at most ${longestDocument}`,
      remedy: "open the file of one setup",
    });
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    return failure(notJson(text, error));
  }
  return checkDocument(data);
}

/** The same check for data that is already parsed. Older versions are brought up to the newest before anything is checked. */
export function checkDocument(data: unknown): Outcome<SetupDocument> {
  if (typeof data !== "object" || data === null || Array.isArray(data))
    return failure({ at: "", what: "this is not a setup", expected: "a JSON object with format and version" });
  const { format, version } = data as { format?: unknown; version?: unknown };
  if (format !== "datumbook")
    return failure({ at: "format", what: "this is not a Datumbook setup", expected: '"datumbook"', got: shown(format) });
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return failure({
      at: "version",
      what: "the version is not readable",
      expected: `a whole number from 1 to ${currentVersion}`,
      got: shown(version),
    });
  if (version > currentVersion) {
    return failure({
      at: "version",
      what: "this setup was saved by a newer Datumbook",
      expected: `version ${currentVersion} or older`,
      got: String(version),
      remedy: "open it with the newer one",
    });
  }
  const parsed = v.safeParse(strictSchema, migrate(data as Record<string, unknown>, version));
  if (parsed.success) return success(parsed.output as SetupDocument);
  return { ok: false, problems: parsed.issues.map(problemOf) };
}

function problemOf(issue: v.BaseIssue<unknown>): Problem {
  const steps = issue.path ?? [];
  const at = steps.reduce((path, step) => {
    const item =
      Array.isArray(step.input) && typeof step.key === "number" ? (step.input[step.key] as { id?: unknown } | undefined) : undefined;
    const name = typeof item?.id === "string" && item.id !== "" ? item.id : step.key === "" ? '""' : String(step.key);
    return path === "" ? name : `${path}.${name}`;
  }, "");
  if (issue.type === "strict_object" && issue.expected === "never")
    return {
      at,
      what: "there is no such entry",
      got: String(steps[steps.length - 1]?.key ?? ""),
      remedy: "remove it, or correct its name",
    };
  if (issue.received === "undefined") return { at, what: "this entry is missing" };
  if (issue.kind === "validation") return { at, what: issue.message };
  return { at, what: "this entry is not readable", expected: inWords(issue.expected ?? issue.message), got: unquoted(issue.received) };
}

const kindsInWords: Readonly<Record<string, string>> = {
  string: "text in quotes",
  number: "a number",
  Array: "a list",
  Object: "an object",
  never: "nothing more",
};

/** What a schema wants, without its own notation: `("+X" | "-X")` becomes `"+X" or "-X"`. */
function inWords(expected: string): string {
  return kindsInWords[expected] ?? expected.replace(/^\((.*)\)$/s, "$1").replaceAll(" | ", " or ");
}

/** A text without the quotes that JSON gives it: the line that tells the problem has its own. */
function unquoted(text: string): string {
  return text.length > 1 && text.startsWith('"') && text.endsWith('"') ? text.slice(1, -1) : text;
}

function notJson(text: string, error: unknown): Problem {
  const message = messageOf(error);
  const character = /position (\d+)/.exec(message)?.[1];
  const line = character === undefined ? undefined : text.slice(0, Number(character)).split("\n").length;
  const problem: Problem = {
    at: line === undefined ? "" : `line ${line}`,
    what: text.trim() === "" ? "the file is empty" : `the text is not JSON (${message})`,
    remedy: "open a file that Datumbook saved",
  };
  return character === undefined ? problem : { ...problem, character: Number(character) };
}

/** Objects and lists are not written out: they may be as large and as deep as a file can be. */
function shown(value: unknown): string {
  if (value === undefined) return "";
  return typeof value === "object" && value !== null ? (Array.isArray(value) ? "a list" : "an object") : String(value);
}
