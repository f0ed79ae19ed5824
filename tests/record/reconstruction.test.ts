import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { exampleDocument, exampleNames } from "../../notebooks/pages/demo.ts";
import { type Job, openJob } from "../documents/openJob.ts";
import { readRecordText } from "./readRecordText.ts";
import { opened, zeroOf } from "./rebuilt.ts";

function textOf(document: SetupDocument): string {
  return paperText(recordPaper(recordOf(document, evaluateSetup(document))));
}

const jobs: readonly (readonly [string, () => SetupDocument])[] = [
  ...exampleNames.map((name) => [name, () => exampleDocument(name)] as const),
  ...(["pinBlock", "skewedRail", "locatedPlate"] as const).map((name) => [name, () => opened(openJob(name))] as const),
  [
    "bothSides, its first operation",
    () => {
      const document = exampleDocument("bothSides");
      return { ...document, operation: document.operations[0]?.id ?? "" };
    },
  ],
];

describe.each(jobs)("the record of %s", (_, open) => {
  it("has in its text alone what its zero, its chances and its checksum follow from", () => {
    const document = open();
    const again = opened(readRecordText(textOf(document)));
    expect(zeroOf(again)).toEqual(zeroOf(document));
    expect(inputsChecksum(again)).toBe(inputsChecksum(document));
  });

  it("is at most 100 columns wide", () => {
    expect(
      textOf(open())
        .split("\n")
        .filter((line) => Array.from(line).length > 100),
    ).toEqual([]);
  });
});

it("a record in which one digit of a reading was changed gives another zero and another checksum", () => {
  const document = exampleDocument("bearingCover");
  const text = textOf(document).replace('readings = "-290.388"', 'readings = "-290.383"');
  const again = opened(readRecordText(text));
  expect(zeroOf(again).zero).not.toEqual(zeroOf(document).zero);
  expect(inputsChecksum(again)).not.toBe(inputsChecksum(document));
});

/** Anything that a person may type or paste, hostile or not; halves of characters are no text that a file could hold. */
const anyText = fc.oneof(
  fc.string({ unit: "binary", maxLength: 200 }),
  fc.constantFrom(
    'a; b = "c"',
    "\\",
    "a\\",
    "  two  blanks ",
    "line\nend",
    "\u202eturned",
    '<script>alert("x")</script>',
    "x".repeat(300),
    "\\u005c \ue05c",
  ),
);

it("whatever is typed into entries comes back from the record's text as it was", () => {
  fc.assert(
    fc.property(anyText, anyText, anyText, (readings, name, cell) => {
      const job: Job = openJob("pinBlock");
      job["touches"][0]["readings"] = readings;
      job["machine"]["name"] = name;
      job["ledger"] = [
        {
          kind: "table",
          id: "t",
          columns: [{ id: "a" }, { id: "b" }],
          rows: [
            [cell, ""],
            ["", name],
          ],
        },
      ];
      const document = opened(job);
      const again = opened(readRecordText(textOf(document)));
      expect(again.touches[0]?.readings).toBe(readings.trim());
      expect(again.machine.name).toBe(name.trim());
      expect(again.ledger).toEqual([
        expect.objectContaining({
          rows: [
            [cell.trim(), ""],
            ["", name.trim()],
          ],
        }),
      ]);
      expect(inputsChecksum(again)).toBe(inputsChecksum(document));
    }),
    { numRuns: 60 },
  );
});
