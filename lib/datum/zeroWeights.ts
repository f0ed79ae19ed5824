import { indexOfAxis, type Vector } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { StrategySolution } from "./solveStrategy.ts";

/** How far part zero follows one touch, to first order about the readings as taken: mm per mm, along X, Y and Z. */
export interface ZeroWeights {
  readonly touch: string;
  /** The axis along which the tool travelled, and its mean reading on it, mm. */
  readonly axis: "X" | "Y" | "Z";
  readonly reading: number;
  /** From the tool's centre (Z: its gauge line) to the metal, mm. */
  readonly reach: number;
  readonly byReading: Vector;
  readonly byReach: Vector;
}

/**
 * What a strategy makes of its readings: part zero = Σ byReading · reading + Σ byReach · reach + what the drawing puts in. Undefined where that says
 * nothing a person could work out by hand: zero stays on a fixture, or touches travelled along no axis.
 */
export function zeroWeights({ frame, contacts, zeroOnPart, appliesRotation, strategy }: StrategySolution): ZeroWeights[] | undefined {
  if (contacts.length === 0 || contacts.some((contact) => axisAlong(contact) === undefined)) return undefined;
  const outputs = [...frame.origin, frame.rotation].map((unknown) => derivatives(unknown));
  if (outputs.some((row) => row === undefined)) return undefined;
  const [x, y, z, turn] = outputs as [Float64Array, Float64Array, Float64Array, Float64Array];
  // Part zero is the frame applied to its place on the part; a strategy that does not look at the turn has none.
  const turns = appliesRotation || strategy.rotation !== "ignored";
  const [sine, cosine] = [Math.sin(frame.rotation.value), Math.cos(frame.rotation.value)];
  const [px, py] = zeroOnPart;
  const lever: Vector = turns ? [-sine * px - cosine * py, cosine * px - sine * py, 0] : [0, 0, 0];
  return contacts.map((contact, i) => {
    const axis = axisAlong(contact) as "X" | "Y" | "Z";
    const along = contact.travel[indexOfAxis(axis)];
    const by = (input: number): Vector => {
      const rotation = turn[input] as number;
      return [(x[input] as number) + lever[0] * rotation, (y[input] as number) + lever[1] * rotation, z[input] as number];
    };
    const byAdvance = by(2 * i);
    return {
      touch: contact.touch,
      axis,
      reading: contact.centre[indexOfAxis(axis)],
      reach: contact.reach.value,
      byReading: [byAdvance[0] * along, byAdvance[1] * along, byAdvance[2] * along],
      byReach: by(2 * i + 1),
    };
  });
}

function axisAlong({ travel }: Contact): "X" | "Y" | "Z" | undefined {
  return (["X", "Y", "Z"] as const).find((axis) => Math.abs(travel[indexOfAxis(axis)]) === 1);
}

/** By every input of the frame: advance and reach of each contact in turn, then the sizes (see solveFrame). */
function derivatives({ operation }: Uncertain): Float64Array | undefined {
  if (operation.kind !== "solved") return undefined;
  const { solution, index } = operation;
  return solution.sensitivities().subarray(index * solution.inputs.length, (index + 1) * solution.inputs.length);
}
