import fc from "fast-check";
import { expect, it } from "vitest";
import { localShiftBefore } from "../../lib/offsets/localShiftBefore.ts";
import { evaluateOffsets } from "../../lib/offsets/offsetTable.ts";
import { type LoggedRow, logOf, randomLogs } from "./logs.ts";

const before = (rows: readonly LoggedRow[]) => localShiftBefore(evaluateOffsets(logOf(rows))?.history, "G54", ["X", "Y"]);

it("localShiftBefore(history, register, states) ends a turn that X and Y would leave in force, and nothing that was not shifted", () => {
  expect(before([{ kind: "local shift", register: "G54", values: [120, 0, undefined, 0.001] }]).toEnd).toEqual(["turn"]);
  expect(before([{ kind: "local shift", register: "G55", values: [120, 0, undefined, 0.001] }]).toEnd).toEqual([]);
  expect(before([{ kind: "local shift", register: "G54", values: [120, 0, 0.5, 0] }]).toEnd).toEqual(["Z"]);
  expect(localShiftBefore(undefined, "G54", ["X", "Y"])).toEqual({ inForce: [], toEnd: [] });
});

it("where a row cannot be read, every coordinate that is not stated is ended", () => {
  expect(before([{ kind: "local shift", register: "G54", unread: true }]).toEnd).toEqual(["Z", "turn"]);
});

// By the definition of the log: a local shift takes the place of the one before along what it states.
it("with its zeros nothing of an earlier local shift is in force after any log", () => {
  fc.assert(
    fc.property(randomLogs(12), (rows) => {
      const { toEnd } = before(rows);
      const values = [1, 2, toEnd.includes("Z") ? 0 : undefined, toEnd.includes("turn") ? 0 : undefined];
      const after = evaluateOffsets(logOf([...rows, { kind: "local shift", register: "G54", values }]));
      const shifts = after?.registers
        .find(({ register }) => register === "G54")
        ?.coordinates.map(({ localShift }) => (localShift?.budget.value ?? 0) + 0);
      expect(shifts).toEqual([1, 2, 0, 0]);
    }),
    { numRuns: 300 },
  );
});
