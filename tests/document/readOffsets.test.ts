import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { strategyNamed } from "../../lib/decision/strategyNamed.ts";
import { documentChanges } from "../../lib/document/documentChanges.ts";
import { entriesNaming } from "../../lib/document/entriesNaming.ts";
import { takeOverMovedZero, takeOverZero } from "../../lib/document/takeOverZero.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { moveZero } from "../../lib/offsets/moveZero.ts";
import { readPlaces } from "../../lib/offsets/readPlaces.ts";
import { paperText } from "../../lib/record/paper/paperText.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { recordPaper } from "../../lib/record/recordPaper.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { recordOf } from "../../lib/recordOf.ts";
import { documentFrom, must } from "../properties/setups.ts";

const bare = { part: { elements: [] }, tools: [], touches: [], strategies: [] };
const withLog = (offsets: object[], more: object = {}) => documentFrom({ ...bare, ...more, offsets });
const evaluated = (offsets: object[], more: object = {}) => evaluateSetup(withLog(offsets, more));
const problemsOf = (...offsets: object[]) =>
  evaluated(offsets)
    .problems.filter(({ at }) => at.startsWith("offsets"))
    .map(describeProblem);

/** One face along X with a doubt, so that its zero is known. */
const oneFace = {
  part: { elements: [{ id: "end", kind: "face", outward: "-X", datum: "A" }] },
  tools: [{ id: "pin", kind: "tool or pin", radius: "3", scatterFrom: "own repeats" }],
  touches: [{ id: "end", element: "end", travelling: "+X", tool: "pin", readings: "10.001 10.003 10.002 10.006" }],
  strategies: [{ id: "left", touches: ["end"] }],
  chosen: "left",
};

describe("the log of the offsets in a document", () => {
  it("evaluateSetup(document).offsets is undefined where nothing is logged, and results say null", () => {
    expect(evaluated([]).offsets).toBeUndefined();
    expect(plainResults(evaluated([])).offsets).toBeNull();
  });

  // Numbers invented; sums and root sums of squares by hand: 0.0025 = √(0.002² + 0.0015²); 0.5 in = 12.7 mm.
  it("evaluateSetup(document): fields take arithmetic, units, doubts and names of a person's own cells", () => {
    const { offsets, problems } = evaluated(
      [
        { id: "first", register: "G54", x: "-412.607 mm ± 0.002 mm", y: "(-203.1 - 0.012)", turn: "0.5" },
        { id: "pull", kind: "correction", register: "G54", x: "lift / 2", why: "boss 0.02 to the right" },
        { id: "second part", kind: "local shift", register: "G54", x: "9 * 0.5 in", nest: "2" },
      ],
      { ledger: [{ kind: "cell", id: "lift", entry: "0.04 mm ± 0.003 mm" }] },
    );
    expect(problems).toEqual([]);
    const [x, y, , turn] = offsets?.registers[0]?.coordinates ?? [];
    expect(must(x?.sum ?? { ok: false, problems: [] }).value).toBeCloseTo(-412.607 + 0.02 + 114.3, 9);
    expect(must(x?.sum ?? { ok: false, problems: [] }).standardUncertainty).toBeCloseTo(0.0025, 9);
    expect(must(y?.sum ?? { ok: false, problems: [] }).value).toBeCloseTo(-203.112, 9);
    expect([x?.doubtStated, y?.doubtStated]).toEqual([true, false]);
    expect(must(turn?.sum ?? { ok: false, problems: [] }).value).toBeCloseTo(Math.PI / 360, 12);
  });

  it.each<[row: object, line: string]>([
    [{ x: "1" }, "offsets.r.register: the register is missing; expected G54 to G59"],
    [{ register: "G53", x: "1" }, "offsets.r.register: there is no such register"],
    [{ register: "P0", x: "1" }, "offsets.r.register: there is no such register"],
    [{ register: "P301", x: "1" }, "offsets.r.register: there is no such register"],
    [{ register: "G54" }, "offsets.r.x: a measured zero along no axis says nothing"],
    [{ register: "G54", x: "1 kg" }, "offsets.r.x: "],
    [{ register: "G54", x: "1", turn: "181" }, "offsets.r.turn: this is more than half a turn"],
    [{ register: "G54", x: "1", turn: "1 mm" }, "offsets.r.turn: "],
    [{ register: "G54", x: "2000000" }, "offsets.r.x: this is longer than any machine"],
    [{ kind: "correction", register: "G54", x: "0.02" }, "offsets.r.why: a correction needs its reason"],
    [{ kind: "global shift", register: "G54", x: "1" }, "offsets.r.register: a global shift moves every register"],
    [{ kind: "restore", restores: "none" }, "offsets.r.restores: there is no such row before this one"],
    [{ kind: "restore", restores: "r" }, "offsets.r.restores: there is no such row before this one"],
    [{ kind: "restore", restores: "" }, "offsets.r.restores: the row is missing whose state is to come back"],
    [{ register: "G54", x: "1", restores: "first" }, "offsets.r.restores: a measured zero restores nothing"],
    [{ kind: "restore", restores: "first", x: "1" }, "offsets.r.x: a row that restores an earlier state states nothing else"],
    [{ register: "G54", x: "1", nest: "2" }, "offsets.r.nest: a measured zero is for no nest"],
  ])("evaluateSetup(document): the row %j is refused at its place, and its sums are withheld", (row, line) => {
    const log = [
      { id: "first", register: "G54", x: "-400" },
      { id: "r", ...row },
    ];
    expect(problemsOf(...log)).toEqual([expect.stringContaining(line)]);
    const sums = evaluated(log).offsets?.registers.flatMap(({ coordinates }) => coordinates.map(({ sum }) => sum.ok));
    expect(sums?.some((ok) => ok) && (row as { register?: string }).register === "G54").toBe(false);
  });

  it("evaluateSetup(document): a name used twice is refused", () => {
    expect(problemsOf({ id: "r", register: "G54", x: "1" }, { id: "r", register: "G55", x: "1" })).toEqual([
      expect.stringContaining("this name is used twice"),
    ]);
    const restored = [
      { id: "r", register: "G54", x: "1" },
      { id: "back", kind: "restore", restores: "r" },
      { id: "r", register: "G55", x: "2" },
    ];
    expect(must(evaluated(restored).offsets?.registers[0]?.coordinates[0].sum ?? { ok: false, problems: [] }).value).toBe(1);
  });

  it("entriesNaming(document, cells) and documentChanges(...) know the rows of the log", () => {
    const before = withLog([{ id: "first", register: "G54", x: "pitch" }], { ledger: [{ kind: "cell", id: "pitch", entry: "100" }] });
    expect(entriesNaming(before, new Set(["pitch"])).get("pitch")).toEqual(["offsets.first.x"]);
    const after = {
      ...before,
      offsets: [...before.offsets, { ...(before.offsets[0] as (typeof before.offsets)[number]), id: "second", x: "101" }],
    };
    expect(documentChanges(before, after).changes.map(({ at }) => at)).toEqual(["offsets.second"]);
  });

  // Mean 10.003, s/√4 = √(14/3/4) µm = 1.0801 µm (JCGM 100:2008, 4.2.3); face at 10.003 + 3; rounding to 13.003 takes nothing away.
  it("takeOverZero(strategy) logs the digits with their doubt, degrees of freedom and where they come from", () => {
    const evaluation = evaluated([], oneFace);
    const strategy = must(strategyNamed(evaluation.strategies, "left"));
    const row = must(takeOverZero(strategy, { id: "z1", when: "06:10", who: "AB" }));
    expect(row).toMatchObject({
      kind: "measured zero",
      register: "G54",
      x: "13.003 ± 0.0011 mm (df 3)",
      y: "",
      when: "06:10",
      who: "AB",
    });
    expect(row.why).toBe('zero by "left", from the touches end');
    const { offsets, problems } = evaluated([row]);
    expect(problems.filter(({ at }) => at.startsWith("offsets"))).toEqual([]);
    const { budget } = offsets?.registers[0]?.coordinates[0].measured ?? {};
    expect(budget).toMatchObject({ value: 13.003, standardUncertainty: 0.0011 });
    expect(budget?.contributions[0]?.source.degreesOfFreedom).toBe(3);
    const expanded = must(takeOverZero(strategy, { id: "z1", when: "", who: "", doubt: "expanded" }));
    // JCGM 100:2008, table G.2: 3.31 for 3 degrees of freedom at 95.45 %; 3.31 · 1.0801 µm = 3.575 µm, rounded up.
    expect(expanded.x).toBe("13.003 ± 0.0036 mm (k = 3.31) (df 3)");
    expect(problemsOf(expanded)).toEqual([]);
  });

  // The left face at 13.003 (u 1.0801 µm), and 50 mm farther by a dimension of ±0.03, whose standard deviation is a third of that: √(0.00108² + 0.01²) = 0.01006.
  it("takeOverMovedZero(strategy, moved) logs the point with the doubt of the way, in the register that it is for, and it stands in the record", () => {
    const more = {
      ...oneFace,
      part: {
        elements: [...oneFace.part.elements, { id: "step", kind: "face", outward: "+X" }],
        dimensions: [{ id: "way", from: oneFace.part.elements[0]?.id, to: "step", nominal: "50", tolerance: "±0.03" }],
      },
    };
    const evaluation = evaluated([], more);
    const strategy = must(strategyNamed(evaluation.strategies, "left"));
    const places = must(readPlaces("X=step", strategy.solution.strategy.zero, "mm", undefined));
    const moved = must(moveZero(strategy.solution, places, evaluation.location));
    const machine = { ...evaluation.setup.machine, register: "G55" as const };
    const row = must(takeOverMovedZero(strategy, moved, { id: "z2", when: "06:20", who: "AB", machine, places: "X=step" }));
    expect(row).toMatchObject({
      kind: "measured zero",
      register: "G55",
      x: expect.stringMatching(/^63\.003 ± 0\.011 mm/),
      y: "",
      when: "06:20",
    });
    const document = withLog([row as object], more);
    const text = paperText(
      recordPaper(recordOf({ ...document, record: { ...document.record, date: "2026-03-14" } }, evaluateSetup(document))),
    );
    expect(text.replace(/\s+/g, " ")).toContain('z2: zero by "left" moved to X=step without touching again');
    expect(text).toContain("(2026-03-14)");
    expect(text).toContain("G10 L2 P2 X63.003");
  });

  it("takeOverZero(strategy) in inches keeps the controller's digits and puts what they were rounded by into the doubt", () => {
    const evaluation = evaluated([], { ...oneFace, machine: { controllerUnit: "inch" } });
    const row = must(takeOverZero(must(strategyNamed(evaluation.strategies, "left")), { id: "z", when: "", who: "" }));
    // 13.003 mm / 25.4 = 0.511929 in; 0.5119 is 0.0000291 in short; √(0.0000425² + 0.0000291²) = 0.0000515, up to 0.000052.
    expect(row.x).toBe("0.5119 ± 0.000052 in (df 3)");
  });

  it("plainResults and summaryText tell the sums in force, what they are made of, and the lines; a shift left on is among what is open", () => {
    const evaluation = evaluated(
      [
        { id: "a", register: "G54", x: "-412.607 mm ± 0.002 mm", y: "-203.112" },
        { id: "b", kind: "correction", register: "G54", x: "0.02", why: "first article" },
        { id: "c", kind: "global shift", x: "0.5" },
      ],
      oneFace,
    );
    const plain = plainResults(evaluation);
    const [register] = plain.offsets?.registers ?? [];
    expect(register).toMatchObject({
      register: "G54",
      X: { sum: { value: expect.closeTo(-412.087, 9) }, doubtStated: true },
      Y: { doubtStated: false },
    });
    expect(plain.offsets?.lines).toContain("G10 L2 P1 X-412.587 Y-203.112");
    expect(plain.sources.map(({ id }) => id)).toContain("offset a, X");
    const text = summaryText(evaluation);
    expect(text).toContain("Offsets in force");
    expect(text).toMatch(/G54 X +-412\.0870 +0\.0020 +a, b, c/);
    expect(text).toMatch(/G54 Y +-203\.1120 +not stated +a/);
    expect(text).toContain("G54 X: measured -412.6070 (a), correction 0.0200 (b), global shift 0.5000 (c).");
    expect(plain.warnings.map(({ text }) => text).join("\n")).toContain("a global shift is on along X");
  });

  it("plainResults(evaluation): no lines are written while something is only supposed", () => {
    const offsets = [{ id: "a", register: "G54", x: "-412.607 mm ± 0.002 mm" }];
    const plain = plainResults(evaluated(offsets, { whatIf: [{ source: "offset a, X", shift: "2" }] }));
    expect(plain.offsets?.lines).toMatchObject({ problems: [{ what: expect.stringContaining("only supposed") }] });
    expect(plain.offsets?.registers[0]?.X.sum).toMatchObject({ value: expect.closeTo(-412.603, 9) });
  });
});
