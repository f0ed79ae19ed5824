import { expect, it } from "vitest";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import { earlierChecksums, inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { heldBesideZero } from "../../lib/document/setupInputs.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { recordChecks } from "../../lib/record/recordChecks.ts";
import { replaySetup } from "../../lib/record/replaySetup.ts";
import { shortChecksum } from "../../lib/record/shortChecksum.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { exampleDocument } from "../../notebooks/pages/demo.ts";

const document = exampleDocument("bearingCover");
const evaluation = evaluateSetup(document);
const recorded = {
  checksum: inputsChecksum(document),
  earlier: earlierChecksums(document),
  beside: heldBesideZero(document),
  operation: undefined,
  checks: recordChecks(evaluation, strategyInUse(evaluation)?.evaluation),
  unit: "mm" as const,
};
const short = shortChecksum(recorded.checksum);

// The means of the demo's own readings, by hand: (401.457 + 401.467 + 401.460 + 401.464) / 4 = 401.462, and so on. A reading that comes again as it was is
// within any limits about the prediction that rests on it.
const means = { left: "-401.462", "front 1": "-234.912", top: "-122.2545" };
const replay = (checksum: string, readings: Readonly<Record<string, string>>) =>
  replaySetup(recorded, { checksum, readings: new Map(Object.entries(readings)) });

it("replaySetup verifies with the same inputs and three readings within their limits, and promises no more", () => {
  const { isVerified, sameInputs, readings, sentences } = replay(short, means);
  expect({ isVerified, sameInputs }).toEqual({ isVerified: true, sameInputs: true });
  expect(readings.map(({ isWithin }) => isWithin)).toEqual([true, true, true]);
  expect(sentences.at(-1)).toMatch(/^Verified: the same inputs, and 3 readings within their limits. That is no promise/);
});

it.each([
  ["the whole checksum", recorded.checksum],
  ["capitals and dashes", short.toUpperCase().replace(" ", "-")],
])("replaySetup takes %s", (_, checksum) => {
  expect(replay(checksum, means).isVerified).toBe(true);
});

it("replaySetup does not verify another setup, fewer readings, or one that is off", () => {
  const other = `${recorded.checksum[0] === "0" ? "1" : "0"}${recorded.checksum.slice(1)}`;
  expect(replay(other, means)).toMatchObject({ isVerified: false, sameInputs: false });
  expect(replay(short, { left: means.left, top: means.top })).toMatchObject({ isVerified: false, sameInputs: true });
  // Off by a tenth of a millimetre, ten times and more what the limits leave.
  const off = replay(short, { ...means, left: "-401.562" });
  expect(off).toMatchObject({ isVerified: false, sameInputs: true });
  expect(off.readings).toContainEqual({ name: "left", isWithin: false });
  expect(off.sentences.at(-1)).toContain("a reading disagrees with the record");
  // A fourth reading that is off is not outvoted by three that are not.
  expect(replay(short, { ...means, right: "-235.3" }).isVerified).toBe(false);
});

it("replaySetup says what is no checksum and what is no reading, and verifies nothing with them", () => {
  expect(replay("102e", means)).toMatchObject({
    isVerified: false,
    sameInputs: undefined,
    sentences: expect.arrayContaining([expect.stringContaining("This is no checksum")]),
  });
  expect(replay("wxyz wxyz", means).sameInputs).toBeUndefined();
  const { isVerified, readings } = replay(short, { ...means, right: "near" });
  expect(isVerified).toBe(false);
  expect(readings).toContainEqual({ name: "right", isWithin: undefined });
  expect(replay("", {})).toMatchObject({ isVerified: false, sameInputs: undefined, readings: [] });
});

it("replaySetup takes readings with a unit of their own", () => {
  // -401.462 mm is -15.805590… in.
  expect(replay(short, { ...means, left: "-15.80559 in" }).isVerified).toBe(true);
});

/** The setup as it has become, held against the record of the setup as it was. */
function replayAfter(change: (before: SetupDocument) => SetupDocument) {
  const now = change(document);
  const evaluationNow = evaluateSetup(now);
  return replaySetup(
    {
      checksum: inputsChecksum(now),
      earlier: earlierChecksums(now),
      beside: heldBesideZero(now),
      checks: recordChecks(evaluationNow, strategyInUse(evaluationNow)?.evaluation),
      unit: "mm",
      operation: undefined,
    },
    { checksum: short, readings: new Map(Object.entries(means)) },
  );
}

const logged = { ...blankEntries.offset("zero"), register: "G54", x: "-318.399 mm ± 0.004 mm", y: "-176.901", z: "-284.600" };
const check = { ...blankEntries.check("again"), element: "left", travelling: "+X" as const, tool: "probe", readings: "-401.462" };

it.each<[string, (before: SetupDocument) => SetupDocument, string]>([
  ["the zero was logged", (before) => ({ ...before, offsets: [logged] }), "1 offset row"],
  ["a check was typed", (before) => ({ ...before, checks: [check] }), "1 check"],
  [
    "an event was noted",
    (before) => ({ ...before, events: [{ ...blankEntries.event("bump"), kind: "crash", when: "2026-03-14 10:00" }] }),
    "1 event",
  ],
  [
    "made parts were measured",
    (before) => ({
      ...before,
      madeParts: {
        ...before.madeParts,
        measured: ["1", "2"].map((part) => ({ ...blankEntries.measuredFeature(`${part}`), part, element: "hole 1", x: "0.01" })),
      },
    }),
    "2 measured features",
  ],
])("replaySetup verifies after %s, and tells that it is there", (_, change, told) => {
  const { isVerified, sentences } = replayAfter(change);
  expect(isVerified).toBe(true);
  expect(sentences[0]).toContain(`does not count ${told}, 2 calibrations and 4 cells or tables of the ledger that the setup holds besides`);
});

it.each<[string, (before: SetupDocument) => SetupDocument]>([
  [
    "a reading",
    (before) => ({ ...before, touches: before.touches.map((touch, i) => (i === 0 ? { ...touch, readings: "-290.389" } : touch)) }),
  ],
  ["a tool", (before) => ({ ...before, tools: before.tools.map((tool, i) => (i === 0 ? { ...tool, radiusUncertainty: "0.004" } : tool)) })],
  ["the strategy", (before) => ({ ...before, chosen: "corner" })],
  ["a strategy", (before) => ({ ...before, strategies: before.strategies.map((each) => ({ ...each, rotation: "ignored" as const })) })],
  ["the step of the machine", (before) => ({ ...before, machine: { ...before.machine, offsetStep: "0.01" } })],
])("replaySetup does not verify after %s has changed, whatever was logged besides", (_, change) => {
  expect(replayAfter((before) => ({ ...change(before), offsets: [logged] }))).toMatchObject({ isVerified: false, sameInputs: false });
});

it("replaySetup takes the checksum of a record by the first scheme, which counted everything, as long as nothing was added", () => {
  const [first] = recorded.earlier;
  const { isVerified, sentences } = replay(shortChecksum(first?.checksum ?? ""), means);
  expect(isVerified).toBe(true);
  expect(sentences[0]).toContain('by its own scheme, "datumbook inputs 1", which counts every entry');
  const added = { ...document, events: [{ ...blankEntries.event("bump"), kind: "crash" as const, when: "2026-03-14 10:00" }] };
  expect(earlierChecksums(added)).not.toEqual(recorded.earlier);
});

it("replaySetup says of which operation the readings are", () => {
  const { sentences } = replaySetup({ ...recorded, operation: "second side" }, { checksum: short, readings: new Map() });
  expect(sentences[0]).toContain('The readings below are those of operation "second side"');
});
