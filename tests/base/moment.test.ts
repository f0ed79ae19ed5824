import { describe, expect, it } from "vitest";
import { dayWithin, parseDay, parseMoment } from "../../lib/base/moment.ts";

const at = (text: string) => {
  const read = parseMoment(text);
  if (!read.ok) throw new Error(read.problems[0]?.what);
  return read.value;
};

// The Gregorian calendar (ISO 8601-1:2019, 4.2.1): years that 4 divides are leap years, of those that 100 divides the ones that 400 divides (from memory).
it.each([
  ["2024-02-29", true],
  ["2000-02-29", true],
  ["2026-02-29", false],
  ["1900-02-29", false],
  ["2026-02-30", false],
  ["2026-04-31", false],
  ["2026-12-31", true],
  ["2026-13-01", false],
  ["2026-00-10", false],
  ["2026-03-00", false],
])("parseDay(%j) knows the days of the calendar", (text, isOne) => {
  expect([parseDay(text).ok, parseMoment(text).ok]).toEqual([isOne, isOne]);
});

it.each(["14.3.2026", "2026-3-14", "2026-03", "2026-03-14 16:20", "soon", "2026-03-14x"])(
  "parseDay(%j) is refused, with what is expected",
  (text) => {
    expect(parseDay(text)).toEqual({
      ok: false,
      problems: [{ at: "", what: "this is no day", expected: "a day as year, month and day, such as 2026-03-14", got: text }],
    });
  },
);

describe("parseMoment", () => {
  it("orders moments as they come, a day without a time from its first minute to its last", () => {
    const inOrder = ["2025-12-31 23:59", "2026-01-01", "2026-01-31T12:00", "2026-02-01 00:00", "2026-02-28 23:59", "2026-03-01"].map(at);
    expect([...inOrder].sort((a, b) => a.order - b.order)).toEqual(inOrder);
    expect(at("2026-03-14").order).toBe(at("2026-03-14 00:00").order);
    expect(at("2026-03-14").latest).toBe(at("2026-03-14 23:59").latest);
  });
  it("refuses times that no day has", () => {
    expect(["2026-03-14 24:00", "2026-03-14 12:60", "2026-03-14 7:05"].map((text) => parseMoment(text).ok)).toEqual([false, false, false]);
  });
});

it("dayWithin(text) is the day that a time of ISO 8601 begins with, in whatever zone, and nothing of another text", () => {
  for (const text of [
    "2026-03-14",
    " 2026-03-14 16:20",
    "2026-03-14T16:20Z",
    "2026-03-14T16:20:05.123Z",
    "2026-03-14T16:20+02:00",
    "2026-03-14T1620",
  ])
    expect([text, dayWithin(text)]).toEqual([text, { ...at("2026-03-14") }]);
  for (const text of ["", "14 March 2026", "2026-03-14ish", "2026-02-30", "2026-03-140"])
    expect([text, dayWithin(text)]).toEqual([text, undefined]);
});
