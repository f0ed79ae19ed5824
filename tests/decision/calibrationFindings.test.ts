import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { suspicions } from "../../lib/decision/suspicions.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { documentFrom, must } from "../properties/setups.ts";

/** A face touched upon a block by one finder; a second finder lies beside and touches nothing. */
function job(tool: object, more: object = {}, block: object = {}): SetupDocument {
  return documentFrom({
    part: { elements: [{ id: "left", kind: "face", outward: "-X", datum: "A" }] },
    tools: [
      { id: "finder", kind: "turning edge finder", radius: "5", radiusUncertainty: "0.001", scatter: "0.005", ...tool },
      { id: "other", kind: "turning edge finder", radius: "5", scatter: "0.005", due: "2020-01-01" },
    ],
    spacers: [{ id: "block", thickness: "10", ...block }],
    touches: [{ id: "l", element: "left", travelling: "+X", tool: "finder", spacer: "block", readings: "-417.350" }],
    strategies: [{ id: "edge", touches: ["l"], zero: { x: "left" } }],
    chosen: "edge",
    ...more,
  });
}

const findings = (document: SetupDocument) => suspicions(evaluateSetup(document)).map(describeProblem);
const row = (kind: string, when: string) => ({ offsets: [{ id: "z", kind, register: "G54", x: "-400", why: "a reason", when }] });
const dated = (date: string) => ({ record: { date } });

describe("a calibration", () => {
  const due = { due: "2026-03-14" };

  it("that still held on the last day that is stated is no finding, nor one of a setup without days", () => {
    expect(findings(job(due))).toEqual([]);
    expect(findings(job(due, dated("2026-03-14")))).toEqual([]);
    expect(findings(job(due, dated("14 March 2027")))).toEqual([]);
    expect(findings(job({}, dated("2026-03-15")))).toEqual([]);
  });

  it.each([
    [dated("2026-03-15"), "the record is dated on 2026-03-15"],
    [row("measured zero", "2026-03-15T08:00Z"), 'the zero "z" was logged on 2026-03-15'],
    [{ events: [{ id: "e", kind: "zero set", when: "2026-04-01 07:30" }] }, "the zero was set on 2026-04-01 07:30"],
    [
      { checks: [{ id: "c", element: "left", travelling: "+X", tool: "finder", readings: "-407.35", when: "2026-05-01" }] },
      'the check "c" was taken on 2026-05-01',
    ],
    // The latest of several.
    [{ ...dated("2026-03-20"), ...row("measured zero", "2026-03-18") }, "the record is dated on 2026-03-20"],
  ])("that had run out by the last day with which it was used is a finding at its place: %j", (more, told) => {
    expect(findings(job(due, more))).toContain(
      `tools.finder.due: the calibration of "finder" had run out: it was due again on 2026-03-14, and ${told}. Have it calibrated, and see whether what it then shows is still what is stated here.`,
    );
  });

  it("of a block is told as well", () => {
    expect(findings(job({}, dated("2026-03-15"), due))[0]).toContain('spacers.block.due: the calibration of "block" had run out');
  });

  it("of what touched nothing, or after which nothing touched, is no finding", () => {
    expect(findings(job(due, row("correction", "2026-05-01")))).toEqual([]);
    expect(
      findings(job(due, { events: [{ id: "e", kind: "power off", when: "2026-05-01" }] })).filter((line) => /calibration/.test(line)),
    ).toEqual([]);
    const byOther = { id: "c", element: "left", travelling: "+X", tool: "other", readings: "-407.35" };
    expect(findings(job(due, { checks: [byOther] })).filter((line) => /calibration/.test(line))).toEqual([]);
    expect(findings(job(due, { checks: [{ ...byOther, when: "2026-05-01" }] })).filter((line) => /calibration/.test(line))).toEqual([
      expect.stringContaining('tools.other.due: the calibration of "other" had run out: it was due again on 2020-01-01, and the check "c"'),
    ]);
  });

  it("that is due before it was made is a finding", () => {
    expect(findings(job({ calibrated: "2026-03-15", due: "2026-03-14" }))).toEqual([
      'tools.finder.due: the calibration of "finder" is due again on 2026-03-14, before it was made on 2026-03-15. Look for a slip in one of both days.',
    ]);
    expect(findings(job({ calibrated: "2026-03-14", due: "2026-03-14" }))).toEqual([]);
  });

  it("of which a day cannot be read is a problem there, and moves neither zero nor doubt", () => {
    const [wrong, right] = [evaluateSetup(job({ calibrated: "14.3.26", due: "next year" })), evaluateSetup(job({}))];
    expect(wrong.problems.map(describeProblem)).toEqual([
      'tools.finder.calibrated: this is no day; expected a day as year, month and day, such as 2026-03-14, got "14.3.26".',
      'tools.finder.due: this is no day; expected a day as year, month and day, such as 2026-03-14, got "next year".',
    ]);
    const x = ({ strategies: [strategy] }: typeof wrong) => must(must(strategy?.evaluation ?? { ok: false, problems: [] }).zero[0]);
    expect([x(wrong).value, x(wrong).standardUncertainty]).toEqual([x(right).value, x(right).standardUncertainty]);
    expect(summaryText(wrong)).toContain('"finder": a day of it cannot be read');
  });

  it("is in the results and in the text of every tool and block that was used, and nothing is said for what nobody states", () => {
    const evaluation = evaluateSetup(job({ certificate: " ring 12 ", calibrated: "2026-01-02", ...due }));
    expect(plainResults(evaluation).calibrations).toEqual([
      { of: "tool", id: "finder", certificate: "ring 12", calibratedOn: "2026-01-02", dueAgainOn: "2026-03-14" },
      { of: "spacer", id: "block", certificate: null, calibratedOn: null, dueAgainOn: null },
    ]);
    const text = summaryText(evaluation);
    expect(text).toContain('"finder": calibrated on 2026-01-02, due again on 2026-03-14, certificate "ring 12"');
    expect(text).toContain('"block": calibration not stated');
  });

  it("names the certificate where a budget says that a figure rests on one", () => {
    const evidence = (tool: object) =>
      plainResults(evaluateSetup(job(tool))).sources.find(({ id }) => id === "tool finder, radius")?.evidence;
    expect(evidence({ radiusEvidence: "certificate", certificate: "ring 12" })).toEqual({ kind: "certificate", note: "ring 12" });
    expect(evidence({ radiusEvidence: "stated", certificate: "ring 12" })).toEqual({ kind: "stated" });
  });

  it("is told among the warnings of the results", () => {
    const { warnings } = plainResults(evaluateSetup(job(due, dated("2026-03-15"))));
    expect(warnings.map(({ text }) => text).join(" ")).toContain('the calibration of "finder" had run out');
  });
});
