import { describe, expect, it } from "vitest";
import { cautions } from "../../lib/record/cautions.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import { evaluateJob, type Job, openJob, rowOf } from "../documents/openJob.ts";
import { must } from "../properties/setups.ts";

/** The job with the stop and the jaw alone in doubt, so that a part in the plane tells all of it. */
function inThePlane(job: Job = openJob("viceZero")): Job {
  for (const pad of ["parallel left", "parallel right", "parallel front"])
    Object.assign(rowOf(job["fixture"].locators, pad), { heightError: "", debris: "" });
  job["touches"] = job["touches"].filter(({ id }: Job) => id !== "left 1");
  job["strategies"] = [rowOf(job["strategies"], "jaw and stop")];
  for (const hole of ["hole 1", "hole 2"]) rowOf(job["part"].elements, hole)["process"] = "";
  return job;
}

/** A small generator of its own (mulberry32), so that nothing of the library draws. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * The same job by hand and by chance, in the plane and without any smallness: a jaw along X whose ends stand off, a part whose rear edge lies on what is on
 * both ends and whose left edge is pushed against the stop, a zero from two touches of the jaw and one of the stop, and a hole drilled where the programme says.
 */
function simulatedParts(trials: number): { readonly mean: number; readonly deviation: number }[] {
  const random = numbers(7);
  const even = (half: number) => half * (2 * random() - 1);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const ends = [5, 115];
  const touched = [10, 110];
  const hole = [25, 20];
  const off = Array.from({ length: trials }, () => {
    const jaw = [even(0.01), even(0.01)];
    const jawAt = (x: number) => (jaw[0] as number) + (((jaw[1] as number) - (jaw[0] as number)) * (x - (ends[0] as number))) / 110;
    const stop = even(0.1);
    // What all touches share: radius and late trigger.
    const shared = 0.0015 * normal() + even(0.003);
    const [yA, yB] = touched.map((x) => jawAt(x) + shared + 0.002 * normal()) as [number, number];
    const x = stop + shared + 0.002 * normal();
    const turn = Math.atan2(yB - yA, 100);
    // Zero where the jaw's line and the stop, met at y = 35 square to it, put the corner.
    const along = [Math.cos(turn), Math.sin(turn)] as const;
    const foot = [10, yA] as const;
    const way = (x - foot[0]) * along[0] + (35 - foot[1]) * along[1];
    const corner = [foot[0] + way * along[0], foot[1] + way * along[1]] as const;
    const drilled = [corner[0] + hole[0]! * along[0] - hole[1]! * along[1], corner[1] + hole[0]! * along[1] + hole[1]! * along[0]] as const;
    // The part: its rear edge through what lies on both ends, its left edge against what lies on the stop.
    const on = jaw.map((stands) => stands + 0.004 * normal() + 0.01 * random()) as [number, number];
    const lies = Math.atan2(on[1] - on[0], 110);
    const edge = [Math.cos(lies), Math.sin(lies)] as const;
    const against = stop + 0.005 * normal() + 0.02 * random();
    const reach = (against - ends[0]!) * edge[0] + (35 - on[0]) * edge[1];
    const origin = [ends[0]! + reach * edge[0], on[0] + reach * edge[1]] as const;
    const seen = [drilled[0] - origin[0], drilled[1] - origin[1]] as const;
    return [seen[0] * edge[0] + seen[1] * edge[1] - hole[0]!, -seen[0] * edge[1] + seen[1] * edge[0] - hole[1]!] as const;
  });
  return [0, 1].map((axis) => {
    const mean = off.reduce((total, each) => total + each[axis]!, 0) / trials;
    return { mean, deviation: Math.sqrt(off.reduce((total, each) => total + (each[axis]! - mean) ** 2, 0) / trials) };
  });
}

describe("plates in a vice, zero on the fixed jaw and the stop", () => {
  it.each(["batch", "thisPart"] as const)("parts put in by chance, one after another, come out as the sheet says, %s", (view) => {
    const [first] = evaluateJob(inThePlane()).strategies;
    const stack = must(must(first!.evaluation)[view].stacks[0]!);
    const trials = 200_000;
    simulatedParts(trials).forEach(({ mean, deviation }, axis) => {
      const told = stack.components[axis]!;
      // Four standard deviations of what so many trials tell.
      expect(Math.abs(told.value - mean)).toBeLessThan((4 * deviation) / Math.sqrt(trials));
      expect(Math.abs(told.standardUncertainty / deviation - 1)).toBeLessThan(4 / Math.sqrt(2 * trials));
    });
  });

  it("moves with its readings: everything the same but where the zero is", () => {
    const before = evaluateJob(openJob("viceZero"));
    const job = openJob("viceZero");
    const by: Readonly<Record<string, number>> = { x: 12.5, y: -3.25, z: 0.75 };
    for (const touch of job["touches"]) {
      for (const axis of ["x", "y", "z"]) if (touch[axis]) touch[axis] = String(Number(touch[axis]) + by[axis]!);
      touch.readings = (Number(touch.readings) + by[(touch.travelling as string)[1]!.toLowerCase()]!).toFixed(6);
    }
    const after = evaluateJob(job);
    before.strategies.forEach(({ evaluation }, s) => {
      const [was, is] = [must(evaluation), must(after.strategies[s]!.evaluation)];
      [12.5, -3.25, 0.75].forEach((shift, axis) => {
        expect(must(is.zero[axis]!).value - must(was.zero[axis]!).value).toBeCloseTo(shift, 6);
        expect(must(is.zero[axis]!).standardUncertainty).toBeCloseTo(must(was.zero[axis]!).standardUncertainty, 8);
      });
      for (const view of ["thisPart", "batch"] as const)
        was[view].stacks.forEach((stack, i) => {
          must(stack).components.forEach((component, c) => {
            expect(must(is[view].stacks[i]!).components[c]!.value).toBeCloseTo(component.value, 6);
          });
        });
    });
  });

  it("says what it rests on, what no touch looks at, and what the part covers", () => {
    const evaluation = evaluateJob(inThePlane());
    const said = judgementSentences(evaluation)
      .map(({ text }) => text)
      .join(" ");
    expect(said).toContain(
      '"jaw and stop" rests on the touches "jaw a", "jaw b", "on stop" and "on top" on "jaw" and "stop" of the fixture and on the part with "probe"',
    );
    expect(said).toContain("is in it as the locators' entries state it; no touch looks at that.");
    expect(
      cautions(evaluation)
        .map(({ text }) => text)
        .join(" "),
    ).toContain('The part covers "jaw", "stop", touched on the fixture: touch there before the part is put in');
    expect(evaluation.predictions.map(({ id }) => id)).toEqual(["on top", "jaw a", "jaw b", "on stop"]);
  });

  it("a check on the jaw must show what the touch of it showed", () => {
    const job = inThePlane();
    job["checks"] = [{ id: "jaw again", element: "jaw", travelling: "-Y", tool: "probe", x: "-345", z: "-168", readings: "-247.004" }];
    const [check] = evaluateJob(job).checks;
    // By hand: the jaw at -250, the tool's centre 2.9965 before it.
    expect(must(check!.evaluation).predicted.value).toBeCloseTo(-247.0035, 3);
  });
});
