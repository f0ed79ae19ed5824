import { expect, it } from "vitest";
import { inputsChecksum } from "../../lib/document/inputsChecksum.ts";
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
