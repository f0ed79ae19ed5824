import { describe, expect, it } from "vitest";
import { unitVector, type Vector } from "../../lib/base/vector.ts";
import type { Surface } from "../../lib/contacts/surface.ts";
import { type FrameContact, type FrameSize, solveFrame } from "../../lib/frame/solveFrame.ts";
import type { Source } from "../../lib/uncertainty/source.ts";
import { Tape } from "../../lib/uncertainty/tape.ts";
import { certain, fromSource, type Uncertain } from "../../lib/uncertainty/uncertain.ts";

const source = (id: string, estimate: number, standardDeviation = 0.001): Source => ({
  id,
  label: id,
  family: "contact tool",
  estimate,
  distribution: { shape: "normal", standardDeviation },
  degreesOfFreedom: Number.POSITIVE_INFINITY,
  evidence: { kind: "stated" },
});

const left: Surface = { kind: "plane", point: [0, 0, 0], outward: [-1, 0, 0] };
const right: Surface = { kind: "plane", point: [120, 0, 0], outward: [1, 0, 0] };
const front: Surface = { kind: "plane", point: [0, 0, 0], outward: [0, -1, 0] };

function touch(
  surface: Surface,
  centre: Vector,
  travel: "+X" | "-X" | "+Y" | "-Y",
  reach: Uncertain | number,
  id = `${centre}`,
): FrameContact {
  return {
    surface,
    centre,
    travel: unitVector(travel),
    movements: [],
    weight: 1,
    advance: fromSource(source(`advance ${id}`, 0)),
    reach: typeof reach === "number" ? certain(reach) : reach,
  };
}

function solved(contacts: readonly FrameContact[], sizes: readonly FrameSize[] = [], rotates = false) {
  const outcome = solveFrame(contacts, sizes, rotates);
  if (!outcome.ok) throw new Error(outcome.problems.map((p) => p.what).join());
  return outcome.value;
}

describe("solveFrame", () => {
  it("solveFrame(one face) puts the face one radius ahead of the reading: F = R + a r", () => {
    expect(solved([touch(left, [-412.61125, 0, 0], "+X", 2.998)]).origin[0].value).toBeCloseTo(-412.61125 + 2.998, 12);
    expect(solved([touch(right, [-286.74325, 0, 0], "-X", 2.998)]).origin[0].value).toBeCloseTo(-286.74325 - 2.998 - 120, 12);
  });

  it("solveFrame(contacts that leave a motion free) says which", () => {
    const frame = solved([touch(left, [-412, 0, 0], "+X", 3)]);
    expect(frame.determined).toEqual([true, false, false, true]);
    expect(frame.freeMotions.map((m) => m.words).sort()).toEqual(["a shift along Y", "a shift along Z"]);
  });

  it("solveFrame(two opposite faces, free width) halves the travel and cancels the radius", () => {
    const radius = fromSource(source("radius", 2.998, 0.0015));
    const width = (outward: number) => [{ size: 0, shift: [outward / 2, 0, 0] as Vector, growth: 0 }];
    const frame = solved(
      [
        { ...touch(left, [-412.61125, 0, 0], "+X", radius), movements: width(-1) },
        { ...touch(right, [-286.74325, 0, 0], "-X", radius), movements: width(1) },
      ],
      [{ mode: "free", scale: 1, given: certain(0) }],
    );
    expect(frame.origin[0].value + 60).toBeCloseTo((-412.61125 - 286.74325) / 2, 12);
    expect((frame.sizes[0] as Uncertain).value + 120).toBeCloseTo(412.61125 - 286.74325 - 2 * 2.998, 12);
    const tape = new Tape([frame.origin[0], frame.sizes[0] as Uncertain]);
    const k = tape.sources.findIndex(({ id }) => id === "radius");
    expect(tape.sensitivities(0)[k]).toBeCloseTo(0, 12);
    expect(tape.sensitivities(1)[k]).toBeCloseTo(-2, 12);
  });

  it("solveFrame(a skewed edge and a corner) offsets by the radius along the normal", () => {
    const r = 5;
    const theta = 0.1;
    // Edge through (10, 20) at theta, second edge square to it: tool centres one radius outside.
    const at = (along: number, off: number): Vector => [
      10 + along * Math.cos(theta) - off * Math.sin(theta),
      20 + along * Math.sin(theta) + off * Math.cos(theta),
      0,
    ];
    const frame = solved(
      [touch(front, at(15, -r), "+Y", r), touch(front, at(90, -r), "+Y", r), touch(left, at(-r, 30), "+X", r)],
      [],
      true,
    );
    expect(frame.rotation.value).toBeCloseTo(theta, 13);
    expect(frame.origin[0].value).toBeCloseTo(10, 11);
    expect(frame.origin[1].value).toBeCloseTo(20, 11);
    expect(frame.redundancy).toBe(0);
  });

  it("solveFrame(...) has sensitivities equal to differences of the whole solution, also with residuals left", () => {
    const bore: Surface = { kind: "bore", axis: [40, 30, 0], radius: 10 };
    const directions = [0.1, 1.3, 2.9, 4.0, 5.2];
    const build = (shifts: readonly number[]) => {
      const round = directions.map(
        (angle, i): FrameContact => ({
          surface: bore,
          centre: [140 + 7.1 * Math.cos(angle) + 0.05 * Math.sin(7 * i), 230 + 7.1 * Math.sin(angle) + 0.04 * Math.cos(5 * i), 0],
          travel: [Math.cos(angle), Math.sin(angle), 0],
          movements: [{ size: 0, shift: [0, 0, 0], growth: 0.5 }],
          weight: 1,
          advance: fromSource(source(`a${i}`, shifts[2 * i] as number)),
          reach: fromSource(source(`r${i}`, 3 + (shifts[2 * i + 1] as number))),
        }),
      );
      const edge = [20, 55, 95].map(
        (x, i): FrameContact => ({
          surface: front,
          centre: [100 + x, 197 + 0.002 * x + 0.03 * Math.sin(i * 4), 0],
          travel: [0, 1, 0],
          movements: [],
          weight: 1,
          advance: fromSource(source(`b${i}`, shifts[10 + 2 * i] as number)),
          reach: fromSource(source(`q${i}`, 3 + (shifts[11 + 2 * i] as number))),
        }),
      );
      return solved([...round, ...edge], [{ mode: "free", scale: 1, given: certain(0) }], true);
    };
    const zeros = Array.from({ length: 16 }, () => 0);
    const frame = build(zeros);
    const outputs = [...frame.origin.slice(0, 2), frame.rotation, frame.sizes[0]] as Uncertain[];
    const tape = new Tape(outputs);
    const h = 1e-3;
    const names = [...directions.flatMap((_, i) => [`a${i}`, `r${i}`]), ...[0, 1, 2].flatMap((i) => [`b${i}`, `q${i}`])];
    names.forEach((name, k) => {
      const up = build(zeros.map((v, i) => (i === k ? h : v)));
      const down = build(zeros.map((v, i) => (i === k ? -h : v)));
      const pick = (f: typeof frame) => [f.origin[0].value, f.origin[1].value, f.rotation.value, (f.sizes[0] as Uncertain).value];
      const column = tape.sources.findIndex(({ id }) => id === name);
      pick(up).forEach((value, o) => {
        const difference = (value - (pick(down)[o] as number)) / (2 * h);
        expect(tape.sensitivities(o)[column]).toBeCloseTo(difference, 7);
      });
    });
    expect(Math.max(...frame.residuals.map(Math.abs))).toBeGreaterThan(0.001);
  });

  it("solveFrame(a preferred size) measures it where two faces are touched and keeps it where one is", () => {
    const given = fromSource(source("drawing width", 0, 0.05));
    const size: FrameSize = { mode: "preferred", scale: 0.05, given };
    const far = { ...touch(right, [-286.74325, 0, 0], "-X", 2.998), movements: [{ size: 0, shift: [1, 0, 0] as Vector, growth: 0 }] };
    const both = solved([touch(left, [-412.61125, 0, 0], "+X", 2.998), far], [size]);
    expect(both.origin[0].value).toBeCloseTo(-409.61325, 12);
    expect((both.sizes[0] as Uncertain).value).toBeCloseTo(-0.128, 12);
    expect(both.sizesDetermined).toEqual([true]);
    expect(
      new Tape([both.origin[0]]).sensitivities(0)[new Tape([both.origin[0]]).sources.findIndex((s) => s.id === "drawing width")] ?? 0,
    ).toBeCloseTo(0, 12);
    const alone = solved([far], [size]);
    expect(alone.origin[0].value).toBeCloseTo(-409.74125, 12);
    expect(alone.sizesDetermined).toEqual([false]);
    const tape = new Tape([alone.origin[0]]);
    expect(tape.sensitivities(0)[tape.sources.findIndex((s) => s.id === "drawing width")]).toBeCloseTo(-1, 12);
  });

  it("solveFrame(touches of a bore at one point) reports what stays free", () => {
    const bore: Surface = { kind: "bore", axis: [0, 0, 0], radius: 10 };
    const at = (x: number): FrameContact => ({
      surface: bore,
      centre: [x, 5, 0],
      travel: [1, 0, 0],
      movements: [{ size: 0, shift: [0, 0, 0], growth: 0.5 }],
      weight: 1,
      advance: certain(0),
      reach: certain(3),
    });
    const { determined, freeMotions } = solved([at(7), at(7), at(7)], [{ mode: "free", scale: 1, given: certain(0) }]);
    expect(determined.slice(0, 2)).toEqual([false, false]);
    expect(freeMotions.map(({ words }) => words)).toContain("a shift along Y");
  });
});

it("in trials a held size is what it is given there, wherever the solution was found", () => {
  const face: FrameContact = {
    surface: { kind: "plane", point: [10, 0, 0], outward: [-1, 0, 0] },
    centre: [7, 0, 0],
    travel: [1, 0, 0],
    movements: [{ size: 0, shift: [1, 0, 0], growth: 0 }],
    weight: 1,
    advance: certain(0),
    reach: certain(3),
  };
  const solved = solveFrame([face], [{ mode: "held", scale: 1, given: fromSource(source("size", 0, 0.1)) }], false);
  if (!solved.ok) throw new Error("expected a frame");
  const [x] = solved.value.origin;
  const tape = new Tape([x, solved.value.sizes[0] as Uncertain]);
  const [places, sizes] = tape.evaluate([Float64Array.of(0, 0.1, -0.2)], 3);
  // The face stands at 10 + size of the part and at 10 of the machine.
  expect([...(places as Float64Array)].map((value) => value + 0)).toEqual([0, -0.1, 0.2].map((value) => expect.closeTo(value, 12)));
  expect([...(sizes as Float64Array)]).toEqual([0, 0.1, -0.2].map((value) => expect.closeTo(value, 12)));
});
