import { expect, it } from "vitest";
import { zeroWeights } from "../../lib/datum/zeroWeights.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { exampleDocument, exampleNames } from "../../notebooks/pages/demo.ts";

function recorded(document: SetupDocument) {
  const record = recordOf(document, evaluateSetup(document));
  return { record, text: paperText(recordPaper(record)), flowing: paperText(recordPaper(record)).replace(/\s+/g, " ") };
}

// The rule of the trade, F = R + a r, by hand: the plate's milled end is touched going -X by a finder of 3 mm, so X = R - 3; its front at two places, so Y is
// the middle of both + 3; its top through a block of 10 mm by a cutter of 118.46 mm, so Z = R - 128.46.
it("the formula of a corner is the hand formula, and its numbers give zero", () => {
  const { record } = recorded(exampleDocument("sawnPlate"));
  expect(record.strategy?.formula.lines).toEqual([
    "X = R(right) - r(right)",
    "Y = 1/2 R(front 1) + 1/2 R(front 2) + 1/2 r(front 1) + 1/2 r(front 2)",
    "Z = R(top) - r(top)",
  ]);
  const mean = (...values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const byHand = [mean(-197.003, -196.998) - 3, mean(mean(-303.002, -302.997), mean(-302.998, -303.004)) + 3, -21.54 - 118.46 - 10];
  const zero = record.strategy?.zero.map(({ known }) => known?.value) ?? [];
  expect(zero).toEqual(byHand.map((value) => expect.closeTo(value, 9)));
});

it("a zero at the far end of a known size has that size as its number", () => {
  const plate = exampleDocument("sawnPlate");
  const strategies = plate.strategies.map((strategy) =>
    strategy.id === plate.chosen ? { ...strategy, zero: { ...strategy.zero, z: "2.5" } } : strategy,
  );
  const { record } = recorded({ ...plate, strategies });
  expect(record.strategy?.formula.lines.at(-1)).toBe("Z = R(top) - r(top) + 2.5000");
});

it.each(exampleNames)("zeroWeights of %s are how far zero moves when a reading does", (name) => {
  const document = exampleDocument(name);
  const zeroOf = (each: SetupDocument) =>
    strategyInUse(evaluateSetup(each))?.evaluation.zero.map((axis) => (axis.ok ? axis.value.value : 0)) ?? [];
  const strategy = strategyInUse(evaluateSetup(document))?.evaluation;
  const weights = (strategy && zeroWeights(strategy.solution)) ?? [];
  expect(weights.length).toBe(strategy?.solution.contacts.length);
  const step = 0.001;
  const moved = (touch: string, by: number) => ({
    ...document,
    touches: document.touches.map((row) =>
      row.id === touch
        ? {
            ...row,
            readings: row.readings
              .trim()
              .split(/\s+/)
              .map((text) => String(Number(text) + by))
              .join(" "),
          }
        : row,
    ),
  });
  for (const { touch, byReading } of weights) {
    const [after, before] = [zeroOf(moved(touch, step)), zeroOf(moved(touch, -step))];
    byReading.forEach((weight, i) => {
      if (strategy?.zero[i as 0 | 1 | 2].ok)
        expect([touch, i, ((after[i] as number) - (before[i] as number)) / (2 * step)]).toEqual([touch, i, expect.closeTo(weight, 4)]);
    });
  }
});

it("offsets that are logged stand in the record with their sums and lines", () => {
  const { text } = recorded({
    ...exampleDocument("sawnPlate"),
    offsets: [
      {
        id: "first",
        kind: "measured zero",
        register: "G54",
        x: "-412.607 mm ± 0.002 mm",
        y: "-203.112",
        z: "",
        turn: "",
        nest: "",
        restores: "",
        why: "",
        when: "",
        who: "",
      },
      {
        id: "boss",
        kind: "correction",
        register: "G54",
        x: "0.02",
        y: "",
        z: "",
        turn: "",
        nest: "",
        restores: "",
        why: "first article",
        when: "",
        who: "",
      },
    ],
  });
  // -412.607 + 0.02 by hand.
  expect(text).toMatch(/G54 X +-412\.5870 +0\.0020 +first, boss/);
  expect(text).toContain("G10 L2 P1 X-412.587 Y-203.112");
});

it("an event that voids the zero stands in the record, besides those that always would", () => {
  const event = { id: "e1", kind: "crash" as const, when: "2026-03-14 16:20", tool: "", note: "" };
  const { flowing } = recorded({ ...exampleDocument("bearingCover"), events: [event] });
  expect(flowing).toContain('UNVERIFIED since "crash, 2026-03-14 16:20"');
  expect(flowing).toContain("X, Y, Z and the turn about Z have not been checked.");
  for (const kind of ["Reference run", "Power off", "Crash", "Fixture moved", "Tool changed", "New stylus", "Hours passed"])
    expect(flowing).toContain(`- ${kind}: `);
});

it("names, date and the last revision are told, and lines to write on where they are empty", () => {
  const document = exampleDocument("bearingCover");
  expect(recorded(document).text).toContain("  Prepared by: ____");
  const named = { ...document, record: { ...document.record, preparedBy: "the day shift", date: "2026-03-14" } };
  expect(recorded(named).text).toContain("  Prepared by: the day shift\n  Checked by: ____");
});

it("a strategy that could not be solved leaves no zero, no offset and says so", () => {
  const { record, text } = recorded({ ...exampleDocument("bearingCover"), chosen: "none such" });
  expect(record.strategy).toBeNull();
  expect(text).toContain("could not be solved, and no other is put in its place");
  expect(text).not.toContain("G10 L2");
});
