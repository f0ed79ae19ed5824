import { expect, it } from "vitest";
import { differenceOfDocuments } from "../../lib/differenceOfDocuments.ts";
import { inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { heldBesideZero } from "../../lib/document/setupInputs.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { rationaleOf } from "../../lib/rationaleOf.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import { rationalePaper } from "../../lib/record/rationalePaper.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { exampleDocument } from "../../notebooks/pages/demo.ts";
import { readRecordText } from "./readRecordText.ts";
import { opened } from "./rebuilt.ts";

// The certificates of the demo jobs are inventions of the project's own.
const cover = exampleDocument("bearingCover");

const recordText = (document: SetupDocument) => paperText(recordPaper(recordOf(document, evaluateSetup(document))));
const flowing = (text: string) => text.replace(/\s+/g, " ");
const rationaleText = (document: SetupDocument) => flowing(paperText(rationalePaper(rationaleOf(document, evaluateSetup(document)))));

function without(document: SetupDocument): SetupDocument {
  const bare = <R extends object>(rows: readonly R[]) => rows.map((row) => ({ ...row, certificate: "", calibrated: "", due: "" }));
  return { ...document, tools: bare(document.tools), spacers: bare(document.spacers) };
}

it("the record lists the contact tools with their calibration, and those of which nothing is stated", () => {
  const text = flowing(recordText(cover));
  expect(text).toContain('"probe": calibrated on 2026-02-09, due again on 2026-08-09, certificate "ring R-26/031"');
  expect(text).toContain('"block 50": calibrated on 2025-05-20, due again on 2027-05-20, certificate "gauge blocks GB-4417"');
  expect(text).toContain('"tool 7": calibration not stated');
  const { tools } = recordOf(cover, evaluateSetup(cover));
  expect(tools.find(({ id }) => id === "probe")?.calibration).toMatchObject({
    certificate: "ring R-26/031",
    calibratedOn: "2026-02-09",
    dueAgainOn: "2026-08-09",
  });
});

it.each(["bearingCover", "turnedCasting"] as const)("certificates and days of %s come back from the record's text alone", (name) => {
  const document = exampleDocument(name);
  const again = opened(readRecordText(recordText(document)));
  const stated = ({ tools, spacers }: SetupDocument) =>
    [...tools, ...spacers].map(({ id, certificate = "", calibrated = "", due = "" }) => [id, certificate, calibrated, due]);
  expect(stated(again)).toEqual(stated(document));
  expect(
    stated(document)
      .flat()
      .filter((text) => /^20/.test(text)),
  ).toHaveLength(4);
});

it("the rationale tells calibrations among what it rests on, and the certificate beside the source", () => {
  const text = rationaleText(cover);
  expect(text).toContain('The tool "probe": calibrated on 2026-02-09, due again on 2026-08-09, certificate "ring R-26/031".');
  expect(text).toContain('The tool "tool 7": calibration not stated.');
  expect(text).toContain("certificate: gauge blocks GB-4417");
  expect(text).not.toContain("none is named");
});

it("figures that are said to rest on a certificate, of which none is named, are an open risk and no finding", () => {
  const bare = without(cover);
  const { risks } = rationaleOf(bare, evaluateSetup(bare));
  expect(risks).toContain('Figures of "probe" and "block 50" are said to rest on a certificate, and none is named.');
  expect(evaluateSetup(bare).problems).toEqual([]);
  expect(recordText(bare)).not.toContain("none is named");
});

it("no number follows from calibrations: the checksum is the same without them, and a replay tells that they stand beside", () => {
  expect(inputsChecksum(without(cover))).toBe(inputsChecksum(cover));
  expect(heldBesideZero(cover)).toContain("2 calibrations");
  expect(heldBesideZero(without(cover))).not.toContain("2 calibrations");
});

it("a changed calibration is told in words", () => {
  const later: SetupDocument = {
    ...cover,
    tools: cover.tools.map((tool) => (tool.id === "probe" ? { ...tool, certificate: "ring R-26/090", due: "2027-02-09" } : tool)),
  };
  const told = differenceOfDocuments(cover, later).entries.map(({ sentence }) => sentence);
  expect(told.join("\n")).toContain('certificate of tool "probe" from "ring R-26/031" to "ring R-26/090"');
  expect(told.join("\n")).toContain('day on which calibration is due again of tool "probe" from "2026-08-09" to "2027-02-09"');
});
