import { isDeepStrictEqual } from "node:util";
import Ajv from "ajv/dist/2020.js";
import { describe, expect, it, vi } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { noteRevision } from "../../lib/document/revisions.ts";
import schema from "../../lib/document/setupDocument.schema.json" with { type: "json" };
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { demoDocument } from "../../notebooks/pages/firstJob.ts";
import { openJob } from "../documents/openJob.ts";
import { mutatedText } from "./mutants.ts";

vi.setConfig({ testTimeout: 120_000 });

const howMany = 10_000;

/** With revisions, so that these are mutated as well. */
function noted(document: SetupDocument): SetupDocument {
  const once = noteRevision(document, { who: "A. Setter", when: "2026-01-05T08:00:00Z", why: "first setup" });
  const twice = once.ok ? noteRevision({ ...once.value, title: "again" }, { who: "", when: "", why: "" }) : once;
  if (!twice.ok) throw new Error("the sample has no revisions");
  return twice.value;
}

const small = parseDocument(JSON.stringify({ ...openJob("pinBlock"), sampling: { trials: 16, seed: 1 } }));
const originals = [demoDocument(), small.ok ? noted(small.value) : demoDocument()];

describe(`${howMany} mutated documents`, () => {
  const texts = Array.from({ length: howMany }, (_, seed) => mutatedText(originals[seed % 2] as SetupDocument, seed));
  const outcomes = texts.map((text) => parseDocument(text));

  it("are read, and then saved and read again as the same; or refused, each problem with its place and its reason", () => {
    let read = 0;
    for (const outcome of outcomes) {
      // Of ten thousand only what is wrong is worth the words of an assertion.
      if (outcome.ok) {
        read += 1;
        const again = parseDocument(documentText(outcome.value));
        if (!isDeepStrictEqual(again, outcome)) expect(again).toEqual(outcome);
        continue;
      }
      if (outcome.problems.length === 0) expect.fail("refused without a reason");
      for (const problem of outcome.problems) {
        const told = describeProblem(problem);
        // Only what is no JSON at all may have no place in it.
        if ((problem.at === "" && !/JSON|empty/.test(problem.what)) || /\n|undefined/.test(told)) expect.fail(told);
      }
    }
    // Neither nearly all nor nearly none: otherwise the mutants would test little.
    expect(read).toBeGreaterThan(howMany / 20);
    expect(read).toBeLessThan(howMany / 2);
  });

  it("are accepted by the published JSON Schema exactly when they are read (ajv, a general validator)", () => {
    const isValid = new Ajv({ allErrors: false, strict: false }).compile(schema);
    const disagreeing = texts.flatMap((text, i) => {
      let data: unknown;
      try {
        data = JSON.parse(text);
      } catch {
        return [];
      }
      // What the schema cannot say: names of blanks alone, and documents of an older version.
      if (/"id":" +"/.test(text) || (data as { version?: unknown } | null)?.version !== 2) return [];
      const ok = outcomes[i]?.ok;
      return ok === isValid(data) ? [] : [`${ok ? "read" : "refused"}: ${JSON.stringify(isValid.errors)} ${text.slice(0, 80)}`];
    });
    expect(disagreeing).toEqual([]);
  });

  it("that are read are evaluated without an exception (one in forty)", () => {
    const read = outcomes.flatMap((outcome, i) => (i % 40 === 1 && outcome.ok ? [outcome.value] : []));
    expect(read.length).toBeGreaterThan(20);
    for (const document of read) expect(evaluateSetup(document).setup.title).toBe(document.title);
  });
});

describe("a document with a key that every object has", () => {
  it.each(["__proto__", "constructor", "prototype", "toString", "hasOwnProperty"])("%s is refused at that key", (key) => {
    const text = JSON.stringify(demoDocument()).replace('{"id"', `{${JSON.stringify(key)}:{"polluted":true},"id"`);
    const outcome = parseDocument(text);
    expect(outcome).toMatchObject({ ok: false, problems: [{ what: "there is no such entry", got: key }] });
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  });
});

it("a document as deep as a file can be is refused, wherever the depth is", () => {
  const deep = `${"[".repeat(1_000_000)}${"]".repeat(1_000_000)}`;
  for (const text of [
    deep,
    `{"format":${deep}}`,
    `{"format":"datumbook","version":${deep}}`,
    `{"format":"datumbook","version":1,"part":${deep}}`,
    `{"format":"datumbook","version":2,"unit":"mm","note":${deep}}`,
  ])
    expect(parseDocument(text).ok).toBe(false);
});

it("a document with a hundred thousand wrong rows is refused, with a problem for each", () => {
  const text = JSON.stringify({ ...demoDocument(), touches: Array.from({ length: 200_000 }, () => 1) });
  const outcome = parseDocument(text);
  expect(outcome.ok ? 0 : outcome.problems.length).toBe(200_000);
});
