import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { OffsetRow } from "../../lib/equipment/offsetLog.ts";
import { evaluateOffsets, offsetsAfter } from "../../lib/offsets/offsetTable.ts";
import { valueOfSource } from "../../lib/uncertainty/sourceBook.ts";
import { must } from "../properties/setups.ts";
import { type LoggedRow, logOf, randomLogs } from "./logs.ts";

const runs = { numRuns: 400 };

const evaluated = (rows: readonly LoggedRow[]) => {
  const evaluation = evaluateOffsets(logOf(rows));
  if (evaluation === undefined) throw new Error("nothing is logged");
  return evaluation;
};

const inForce = (rows: readonly LoggedRow[], register: string, axis: 0 | 1 | 2 | 3 = 0) => {
  const found = evaluated(rows).registers.find((each) => each.register === register);
  if (found === undefined) throw new Error(`no register ${register}`);
  return found.coordinates[axis];
};

function doubtful(id: string, estimate: number, standardUncertainty: number) {
  return valueOfSource({
    id,
    label: id,
    family: "machine",
    estimate,
    distribution: { shape: "normal", standardDeviation: standardUncertainty },
    evidence: { kind: "stated" },
  });
}

describe("evaluateOffsets", () => {
  it("evaluateOffsets([]) is undefined: nothing is logged", () => {
    expect(evaluateOffsets([])).toBeUndefined();
  });

  // The sum is the shop's own: work offset + correction + local shift + global shift. Numbers invented, added by hand.
  it("evaluateOffsets(log): the sum in force is measured zero + corrections + local shift + global shift", () => {
    const rows: LoggedRow[] = [
      { kind: "measured zero", register: "G54", values: [-412.607] },
      { kind: "correction", register: "G54", values: [0.02] },
      { kind: "correction", register: "G54", values: [0.02] },
      { kind: "local shift", register: "G54", values: [114.3], nest: "2" },
      { kind: "global shift", values: [-0.5] },
    ];
    const { held, sum, corrections, measured } = inForce(rows, "G54");
    expect(must(held).value).toBeCloseTo(-412.567, 12);
    expect(must(sum).value).toBeCloseTo(-298.767, 12);
    // "I have moved G54 by 0.02 twice tonight. What was the original measured zero?"
    expect(measured).toMatchObject({ row: "r1", budget: { value: -412.607 } });
    expect(corrections.map(({ row }) => row)).toEqual(["r2", "r3"]);
  });

  // JCGM 100:2008, 5.1.2 and 5.2.2: independent doubts add in squares, a shared one with its sensitivities.
  it("evaluateOffsets(log): doubts of independent rows add in squares, one that two rows share adds as it is", () => {
    const pitch = doubtful("pitch", 100, 0.003);
    const rows: LoggedRow[] = [
      { kind: "measured zero", register: "G54", values: [doubtful("zero", -400, 0.004)] },
      { kind: "local shift", register: "G54", values: [pitch], nest: "2" },
    ];
    expect(must(inForce(rows, "G54").sum).standardUncertainty).toBeCloseTo(0.005, 12);
    const shared: LoggedRow[] = [...rows.slice(0, 1), { kind: "correction", register: "G54", values: [pitch] }, ...rows.slice(1)];
    expect(must(inForce(shared, "G54").sum).standardUncertainty).toBeCloseTo(Math.hypot(0.004, 0.006), 12);
  });

  it("evaluateOffsets(log): a new measured zero ends the corrections along its axes, and says so", () => {
    const rows: LoggedRow[] = [
      { kind: "measured zero", register: "G54", values: [-400, -200] },
      { kind: "correction", register: "G54", values: [0.02, 0.03] },
      { kind: "measured zero", register: "G54", values: [-399.98] },
    ];
    expect(must(inForce(rows, "G54", 0).sum).value).toBe(-399.98);
    expect(must(inForce(rows, "G54", 1).sum).value).toBeCloseTo(-199.97, 12);
    expect(evaluated(rows).history.notes).toEqual([{ row: "r3", text: expect.stringContaining('X "r2"') }]);
    expect(evaluated(rows).history.notes[0]?.text).not.toContain("Y");
  });

  it("evaluateOffsets(log): without a measured zero nothing is known along an axis, and a turn is none", () => {
    const { sum } = inForce([{ kind: "correction", register: "G55", values: [0.02] }], "G55", 0);
    expect(sum).toMatchObject({ ok: false, problems: [{ what: expect.stringContaining("no row measures X of G55") }] });
    expect(must(inForce([{ kind: "measured zero", register: "G55", values: [1] }], "G55", 3).sum).value).toBe(0);
  });

  it("evaluateOffsets(log): a row that cannot be read withholds what it may have changed, until an earlier state is restored", () => {
    const rows: LoggedRow[] = [
      { kind: "measured zero", register: "G54", values: [-400] },
      { kind: "measured zero", register: "G55", values: [-300] },
      { kind: "correction", register: "G54", values: [], unread: true },
    ];
    expect(inForce(rows, "G54").sum).toMatchObject({ ok: false, problems: [{ at: "offsets.r3" }] });
    expect(must(inForce(rows, "G55").sum).value).toBe(-300);
    expect(must(inForce([...rows, { kind: "restore", restores: "r2" }], "G54").sum).value).toBe(-400);
    const global: LoggedRow[] = [...rows.slice(0, 2), { kind: "global shift", unread: true }];
    expect(inForce(global, "G55").sum.ok).toBe(false);
  });

  it("evaluateOffsets(log): a global shift that is on is told, and a local one that names no nest; a shift of 0 is none", () => {
    const zero: LoggedRow = { kind: "measured zero", register: "G54", values: [-400] };
    const findings = (...rows: LoggedRow[]) => evaluated([zero, ...rows]).findings.map(({ at, what }) => `${at}: ${what}`);
    expect(findings({ kind: "global shift", values: [0.5, 0] })).toEqual([expect.stringMatching(/^offsets\.r2: .* along X: /)]);
    expect(findings({ kind: "local shift", register: "G54", values: [0, 0.5] })).toEqual([
      expect.stringMatching(/in G54 along Y, and no nest/),
    ]);
    expect(findings({ kind: "local shift", register: "G54", values: [0.5], nest: "2" })).toEqual([]);
    expect(findings({ kind: "global shift", values: [0.5] }, { kind: "global shift", values: [0] })).toEqual([]);
  });

  // The oracle works the other way round: a log is first rewritten until no row restores anything, then each sum is looked up from its end.
  it("evaluateOffsets(log): the table is what the log says, whatever is restored, after every row", () => {
    fc.assert(
      fc.property(randomLogs(14), (rows) => {
        const log = logOf(rows);
        const evaluation = evaluated(rows);
        log.forEach((row, i) => {
          const then = offsetsAfter(evaluation.history, row.id);
          for (const register of then?.registers ?? [])
            register.coordinates.forEach(({ held, sum }, axis) => {
              const expected = expectedAlong(rewritten(log.slice(0, i + 1), register.register), axis);
              expect(held.ok ? held.value.value : undefined).toEqual(expected && expect.closeTo(expected.held, 9));
              expect(sum.ok ? sum.value.value : undefined).toEqual(expected && expect.closeTo(expected.sum, 9));
            });
        });
      }),
      runs,
    );
  });

  it("offsetsAfter(history, row): what was read back before a row is the same after it", () => {
    fc.assert(
      fc.property(randomLogs(10), (rows) => {
        const log = logOf(rows);
        const [before, after] = [evaluateOffsets(log.slice(0, -1)), evaluateOffsets(log)];
        for (const { id } of log.slice(0, -1)) {
          const values = (evaluation: typeof before) =>
            evaluation &&
            offsetsAfter(evaluation.history, id)?.registers.map(({ register, coordinates }) => [
              register,
              coordinates.map(({ sum }) => sum.ok && sum.value.value),
            ]);
          expect(values(after)).toEqual(values(before));
        }
      }),
      runs,
    );
  });
});

/** The rows that concern a register, and those of the global shift, without restores. */
function rewritten(log: readonly OffsetRow[], register: string): OffsetRow[] {
  const own: OffsetRow[][] = [];
  const global: OffsetRow[][] = [];
  log.forEach((row, i) => {
    const named = log.findIndex(({ id }) => id === row.restores);
    const [ownBefore, globalBefore] = [own[i - 1] ?? [], global[i - 1] ?? []];
    const isRestore = row.kind === "restore";
    const concerns = row.register === undefined || row.register === register;
    own.push(
      isRestore ? (concerns ? (own[named] as OffsetRow[]) : ownBefore) : row.register === register ? [...ownBefore, row] : ownBefore,
    );
    global.push(
      isRestore
        ? row.register === undefined
          ? (global[named] as OffsetRow[])
          : globalBefore
        : row.kind === "global shift"
          ? [...globalBefore, row]
          : globalBefore,
    );
  });
  return [...(own.at(-1) ?? []), ...(global.at(-1) ?? [])];
}

function expectedAlong(rows: readonly OffsetRow[], axis: number): { readonly held: number; readonly sum: number } | undefined {
  const stated = (row: OffsetRow | undefined) => row?.values[axis as 0]?.value;
  const states = (kind: OffsetRow["kind"]) => (row: OffsetRow) => row.kind === kind && stated(row) !== undefined;
  const last = rows.findLastIndex(states("measured zero"));
  if (last < 0 && axis !== 3) return undefined;
  const corrections = rows.slice(last + 1).filter(states("correction"));
  const held = (stated(rows[last]) ?? 0) + corrections.reduce((total, row) => total + (stated(row) ?? 0), 0);
  return {
    held,
    sum: held + (stated(rows.findLast(states("local shift"))) ?? 0) + (stated(rows.findLast(states("global shift"))) ?? 0),
  };
}
