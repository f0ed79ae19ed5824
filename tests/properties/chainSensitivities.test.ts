import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { addScaled, axisOf, unitVector, type Vector } from "../../lib/base/vector.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { budgetsOf } from "../../lib/uncertainty/budget.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";
import { documentOf, type Job, kinds, must, type Stop, typed, zeroOf } from "./setups.ts";

// Many evaluations a test: not to fail on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

// Whatever is typed is changed by a little, the whole chain is run again, and the change of the results is what their budgets say.

const step = 2e-3;

/** One typed number, the source whose estimate or error it is, and the job with the number changed. */
interface Entry {
  readonly source: string;
  readonly changed: (by: number) => Job;
}

const touching = kinds.filter(({ name }) => !name.startsWith("zero on the fixture"));
const onFixture = kinds.filter((kind) => !touching.includes(kind));

describe.each(touching)("$name", (kind) => {
  it("sensitivities of zero, part and sizes to all that is typed are the differences of evaluateSetup(document)", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        const budgets = budgetsOf(resultsOf(job));
        for (const { source, changed } of entriesOf(job)) {
          const up = resultsOf(changed(step));
          const down = resultsOf(changed(-step));
          budgets.forEach(({ contributions }, i) => {
            const sensitivity = contributions.find((each) => each.source.id === source)?.sensitivity ?? 0;
            const difference = ((up[i] as Uncertain).value - (down[i] as Uncertain).value) / (2 * step);
            expect(Math.abs(sensitivity - difference), `${source} on result ${i}: ${sensitivity} against ${difference}`).toBeLessThan(5e-6);
          });
        }
      }),
      { numRuns: 4 },
    );
  });

  function resultsOf(job: Job): Uncertain[] {
    const { location, strategies } = evaluateSetup(documentOf(job));
    const { solution } = must((strategies[0] as (typeof strategies)[number]).evaluation);
    const part = must(location.thisPart);
    return [...zeroOf(kind, solution), ...part.origin, part.rotation, ...part.sizes];
  }
});

function entriesOf(job: Job): Entry[] {
  const { tool, spacers = [], part } = job as unknown as Tables;
  const more = (text: string | undefined, by: number) => typed(Number(text) + by);
  const entries: Entry[] = job.stops.flatMap((stop) => stopEntries(job, stop));
  if (tool["radius"] !== undefined) {
    entries.push({ source: "tool tool, radius", changed: (by) => ({ ...job, tool: { ...tool, radius: more(tool["radius"], by) } }) });
    entries.push({ source: "tool tool, length", changed: (by) => ({ ...job, tool: { ...tool, length: more(tool["length"], by) } }) });
  }
  for (const spacer of spacers) {
    entries.push({
      source: `spacer ${spacer["id"]}, thickness`,
      changed: (by) => ({ ...job, spacers: [{ ...spacer, thickness: more(spacer["thickness"], by) }] }),
    });
  }
  for (const dimension of part.dimensions ?? []) {
    if (dimension["measured"] === undefined) continue;
    const changed = (by: number): Job => ({
      ...job,
      part: {
        ...part,
        dimensions: part.dimensions?.map((each) => (each === dimension ? { ...each, measured: more(each["measured"], by) } : each)),
      },
    });
    entries.push({ source: `dimension ${dimension["id"]}, measured`, changed });
  }
  return entries;
}

interface Tables {
  readonly tool: Record<string, string>;
  readonly spacers?: readonly Record<string, string>[];
  readonly part: PartTables;
}

interface PartTables {
  readonly dimensions?: readonly Record<string, string>[];
}

function stopEntries(job: Job, stop: Stop): Entry[] {
  const along = (direction: Vector, source: string): Entry => ({
    source,
    changed: (by) => ({
      ...job,
      stops: job.stops.map((each) => (each === stop ? { ...each, centre: addScaled(each.centre, by, direction) } : each)),
    }),
  });
  const scatter = `touch ${stop.id}, scatter`;
  if (stop.travelling === "sweep") return [along([1, 0, 0], `${scatter} X`), along([0, 1, 0], `${scatter} Y`)];
  if (stop.travelling !== "radial") return [along(unitVector(`+${axisOf(stop.travelling)}`), scatter)];
  const { location } = evaluateSetup(documentOf(job));
  const { travel } = location.contacts.find(({ touch }) => touch === stop.id) as { travel: Vector };
  return [along(travel, scatter)];
}

/** What zero is of a job on a fixture, and how far a part is displaced there. */
function standing(job: Job) {
  const [strategy] = evaluateSetup(documentOf(job)).strategies;
  if (strategy === undefined) throw new Error("no strategy");
  const { solution } = must(strategy.evaluation);
  const displaced = solution.seated?.displacement(solution.zeroOnPart);
  if (displaced === undefined) throw new Error("no displacement");
  return [0, 1, 2].map((axis) => ({
    zero: solution.fromReadings.zero[axis] as Uncertain,
    displaced: (displaced[axis] as Uncertain).value,
  }));
}

describe.each(onFixture)("$name", (kind) => {
  it("sensitivities of zero to the fixture's frame and to the heights of its locators are the differences of evaluateSetup(document)", () => {
    fc.assert(
      fc.property(kind.job, (job) => {
        const { fixture } = job;
        if (fixture === undefined) throw new Error("no fixture");
        const budgets = budgetsOf(standing(job).map(({ zero }) => zero));
        const sensitivity = (axis: number, source: string) =>
          budgets[axis]?.contributions.find((each) => each.source.id === source)?.sensitivity ?? 0;
        const framed = (along: number, by: number) =>
          standing({
            ...job,
            fixture: { ...fixture, frame: fixture.frame.map((value, i) => (i === along ? value + by : value)) as unknown as Vector },
          });
        for (const [along, name] of (["X", "Y", "Z"] as const).entries()) {
          const [up, down] = [framed(along, step), framed(along, -step)];
          for (const axis of [0, 1, 2])
            expect(sensitivity(axis, `work frame nest, ${name}`)).toBeCloseTo(
              ((up[axis]?.zero.value ?? 0) - (down[axis]?.zero.value ?? 0)) / (2 * step),
              6,
            );
        }
        // A height that is known moves the part and not the register: what is not known of it counts in zero as the part moves.
        for (const locator of fixture.locators) {
          if (locator.height === undefined) continue;
          const higher = (by: number) => {
            const locators = fixture.locators.map((each) =>
              each === locator ? { ...each, height: typed(Number(each.height) + by) } : each,
            );
            return standing({ ...job, fixture: { ...fixture, locators } });
          };
          const [up, down] = [higher(step), higher(-step)];
          for (const axis of [0, 1, 2])
            expect(sensitivity(axis, `locator ${locator.id}, height`)).toBeCloseTo(
              ((up[axis]?.displaced ?? 0) - (down[axis]?.displaced ?? 0)) / (2 * step),
              6,
            );
        }
      }),
      { numRuns: 6 },
    );
  });
});
