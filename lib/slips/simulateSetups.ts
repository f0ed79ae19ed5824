import { mm } from "../base/quantity.ts";
import { addScaled, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import type { Setup } from "../datum/setup.ts";
import { simulateReadings } from "../datum/simulateReadings.ts";
import { checkContact } from "../decision/foreseeChecks.ts";
import type { FrameContact } from "../frame/solveFrame.ts";
import type { Touch } from "../readings/touch.ts";
import { Draws } from "../uncertainty/draws.ts";
import type { Source } from "../uncertainty/source.ts";
import { scaleOf } from "../uncertainty/sourceDistribution.ts";
import { Tape } from "../uncertainty/tape.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";

/** Readings are written down to this step where the machine states none, mm. */
const usualStep = 0.001;

/**
 * Setups in which nobody slips: the same part again and again out of its batch, lying where this one lies, touched and checked by the same touches with
 * errors drawn from the same sources (Philox, so that a seed gives the same setups everywhere). Sizes that are measured otherwise are measured with their doubt.
 *
 * @param count at least 1
 * @throws RangeError if this part is not located
 */
export function simulateSetups(location: PartLocation, seed: number, count: number): (trial: number) => Setup {
  const { setup, thisPart, contacts, sizes } = location;
  if (!thisPart.ok) throw new RangeError("simulateSetups: expected a part that its touches locate");
  const { origin, rotation } = thisPart.value;
  const pose = { origin: origin.map(({ value }) => value) as unknown as Vector, rotation: rotation.value };
  const checkContacts = setup.checks.flatMap((check) => {
    const contact = checkContact(check, location);
    return contact.ok ? [contact.value] : [];
  });
  const taken: readonly Contact[] = [...contacts, ...checkContacts];
  const stops = simulateReadings(
    taken.map((contact): FrameContact => ({ ...contact, movements: sizes.movementsOf(contact.element), weight: 1 })),
    sizes.sizes,
    pose,
  );
  const measured = sizes.sizes.flatMap((size) =>
    size.measured === undefined ? [] : [{ id: size.id, value: size.batch.plus(size.measured.minus(size.measured.value)) }],
  );
  const outputs = [...stops.map(({ advance }) => advance), ...measured.map(({ value }) => value)];
  const draw = drawsOf(outputs, seed, count);
  const scatters = new Draws(seed, count);
  return (trial) => {
    const drawn = draw(trial);
    const shifts = new Map<string, Vector>();
    taken.forEach(({ touch, centre, travel }, i) => {
      const from = shifts.get(touch) ?? [0, 0, 0];
      const moved = addScaled(addScaled((stops[i] as FrameContact).centre, -1, centre), drawn[i] as number, travel);
      shifts.set(touch, addScaled(from, 1, moved));
    });
    const shifted = <T extends Touch>(touch: T, name: string): T => {
      const shift = shifts.get(name);
      const contact = taken.find((each) => each.touch === name);
      if (shift === undefined || contact === undefined || touch.positions.length === 0) return touch;
      const repeats = scattered(touch.positions.length, name, contact, scatters, trial);
      const base = meanOf(touch.positions);
      const positions = repeats.map((error) =>
        base.map((value, axis) =>
          value === undefined ? undefined : toStep(value + (shift[axis] as number) + error * (contact.travel[axis] as number), setup),
        ),
      ) as unknown as Touch["positions"];
      return { ...touch, positions };
    };
    return {
      ...setup,
      touches: setup.touches.map((touch) => shifted(touch, touch.id)),
      checks: setup.checks.map((check) => {
        const name = `check ${check.id}`;
        const contact = checkContacts.find((each) => each.touch === name);
        if (contact === undefined) return check;
        // What the check shows follows from where it should stop, not from what somebody once typed.
        const stop = contact.centre.map((value, axis) =>
          contact.noted[axis] ? value : undefined,
        ) as unknown as Touch["positions"][number];
        return shifted({ ...check, positions: check.positions.map(() => stop) }, name);
      }),
      part: {
        ...setup.part,
        dimensions: setup.part.dimensions.map((dimension) => {
          const at = measured.findIndex(({ id }) => id === dimension.id);
          if (at < 0 || dimension.measured === undefined) return dimension;
          return { ...dimension, measured: { ...dimension.measured, value: mm(dimension.nominal + (drawn[taken.length + at] as number)) } };
        }),
      },
    };
  };
}

/** Values of the outputs in one trial, to first order. A standard deviation from few repeats is taken as the true one. */
function drawsOf(outputs: readonly Uncertain[], seed: number, count: number): (trial: number) => Float64Array {
  const tape = new Tape(outputs);
  const rows = tape.allSensitivities();
  const draws = new Draws(seed, count);
  const columns = tape.sources.map((source) => draws.unitColumn(withoutRepeats(source)));
  const scales = tape.sources.map(({ distribution }) => scaleOf(distribution));
  return (trial) =>
    Float64Array.from(outputs, ({ value }, i) =>
      tape.sources.reduce(
        (sum, _, k) =>
          sum + (rows[i * tape.sources.length + k] as number) * (scales[k] as number) * ((columns[k] as Float64Array)[trial] as number),
        value,
      ),
    );
}

function withoutRepeats(source: Source): Source {
  const { distribution, varianceEstimate: _, ...rest } = source;
  return distribution.shape === "scaledT" ? { ...rest, distribution: { shape: "normal", standardDeviation: distribution.scale } } : source;
}

/** Scatter of single readings about their mean, which has its own among the sources. */
function scattered(n: number, name: string, { ownUncertainty }: Contact, draws: Draws, trial: number): number[] {
  const single = ownUncertainty * Math.sqrt(n);
  const errors = Array.from({ length: n }, (_, i) => {
    const source: Source = {
      id: `repeat ${i + 1} of ${name}`,
      label: "",
      family: "contact tool",
      estimate: 0,
      distribution: { shape: "normal", standardDeviation: 1 },
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      evidence: { kind: "stated" },
    };
    return single * (draws.unitColumn(source)[trial] as number);
  });
  const mean = errors.reduce((sum, each) => sum + each, 0) / n;
  return errors.map((error) => error - mean);
}

function meanOf(positions: Touch["positions"]): readonly (number | undefined)[] {
  return ([0, 1, 2] as const).map((axis) => {
    const values = positions.map((position) => position[axis]);
    return values.some((value) => value === undefined)
      ? undefined
      : values.reduce<number>((sum, value) => sum + (value as number), 0) / values.length;
  });
}

function toStep(value: number, { machine }: Setup): number {
  const step = machine.displayStep > 0 ? machine.displayStep : usualStep;
  return Math.round(value / step) * step;
}
