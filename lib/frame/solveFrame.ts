import { once } from "../base/once.ts";
import { failure, type Outcome, success } from "../base/outcome.ts";
import type { Vector } from "../base/vector.ts";
import { lateSolver } from "../uncertainty/lateSolver.ts";
import { Solution, type Uncertain } from "../uncertainty/uncertain.ts";
import { type Agreement, agreementOf } from "./agreement.ts";
import { type ContactGeometry, type Pose, poseUnknowns } from "./contactResidual.ts";
import { type ContactRoles, contactRoles } from "./contactRoles.ts";
import { contrastsOf, tiltPatterns, withoutTilts } from "./contrasts.ts";
import { FrameResiduals, residualSensitivities, residualsOf } from "./frameResiduals.ts";
import { FrameSolver, type SizeRule } from "./frameSolver.ts";
import { type FreeMotion, freeMotionOf } from "./freeMotion.ts";
import { freeDirections, ownEffect, unweightedColumnsOf } from "./linearisation.ts";
import { TrialFrameSolver } from "./trialFrameSolver.ts";

/** A contact as the frame solver takes it: geometry, and its two uncertain lengths. */
export interface FrameContact extends ContactGeometry {
  /** Error of the tool's place along its travel, estimate 0, mm. */
  readonly advance: Uncertain;
  /** Distance from the tool's centre to the metal along the surface's normal, mm. */
  readonly reach: Uncertain;
  /** Whether X, Y and Z of its place are known; all of them where left out. */
  readonly noted?: readonly [boolean, boolean, boolean];
  /** How much farther out the metal is to be expected than its surface says, mm, which is in the readings and not in the reach; nothing where left out. */
  readonly unforeseen?: number;
  /** What the machine's own scale is off there, along the travel, mm; nothing where left out. */
  readonly scaleError?: Uncertain;
}

/** A size as the frame solver takes it: a rule, and the given deviation from nominal, mm. */
export interface FrameSize extends SizeRule {
  readonly given: Uncertain;
}

/** A place of the part and its sizes. */
export interface FrameEstimate {
  /** X, Y, Z of the part's origin in the machine, mm. */
  readonly origin: readonly [Uncertain, Uncertain, Uncertain];
  /** About Z, radians; exactly 0 when the frame was not asked to turn. */
  readonly rotation: Uncertain;
  /** Deviations of the sizes from nominal, mm, in the order asked. */
  readonly sizes: readonly Uncertain[];
}

/** Where the part is by the machine's own scale, with all other doubt. */
export interface FrameSolution extends FrameEstimate {
  /** The same in true lengths: with what the scale is off where the touches were, for work that is done elsewhere. */
  readonly inTruth: FrameEstimate;
  /** Which of X, Y, Z, rotation the contacts determine. */
  readonly determined: readonly [boolean, boolean, boolean, boolean];
  /** Whether the touches determine the rotation by themselves, without leaning on the given value of a preferred size. */
  readonly turnsByTouches: boolean;
  /** For every size: whether the contacts determine it. */
  readonly sizesDetermined: readonly boolean[];
  /** Number of independent equations, and of unknowns, among pose and free sizes. */
  readonly rank: number;
  readonly unknowns: number;
  /** The motions that no contact limits. */
  readonly freeMotions: readonly FreeMotion[];
  /** What is left of every contact's equation, mm: 0 for all when they are just enough. */
  readonly residuals: readonly number[];
  /** The same with their doubt, in true lengths. Worked out when they are first asked for. */
  readonly remainders: readonly Uncertain[];
  /** Whether the contacts fit each other within their doubts, tilts that touches from above determine allowed; undefined where they are just enough. Worked out when it is first asked for. */
  readonly agreement: Agreement | undefined;
  /** How many contacts are more than just enough. */
  readonly redundancy: number;
  /** What the contacts say more than once, in true lengths, mm (see contrastsOf). Worked out when it is first asked for. */
  readonly contrasts: readonly Uncertain[];
  /** What each contact is to this frame. Worked out when it is first asked for. */
  readonly roles: ContactRoles;
}

/**
 * Touches tell a turn when they stand at least so far apart beside what else they tell, mm: nobody notes the place of a touch finer, and two tools at
 * one place would else make a turn of what they disagree by.
 */
const leastLever = 0.5;

/** Sizes smaller than this in a free direction are rounding. */
const notMoved = 1e-7;

/**
 * Solves for the frame of the part (see FrameSolver for the method).
 *
 * Undetermined motions are no failure: they are reported, and what the contacts
 * do determine is still given.
 *
 * @param near about where the part lies, if that is known: what no contact determines stays there
 */
export function solveFrame(
  contacts: readonly FrameContact[],
  sizes: readonly FrameSize[],
  rotates: boolean,
  near?: Pose,
): Outcome<FrameSolution> {
  const inputs = inputsOf(contacts, sizes, ({ advance }) => advance);
  const values = Float64Array.from(inputs, ({ value }) => value);
  const start = near && [...near.origin, rotates ? near.rotation : 0, ...sizes.map(({ given }) => given.value)];
  const solver = new FrameSolver(contacts, sizes, rotates, start);
  const unknowns = new Float64Array(solver.outputCount);
  const linear = solver.settle(values, unknowns);
  if (linear === undefined) {
    return failure({
      at: "",
      what: "no position of the part fits these touches",
      remedy: "look for a touch on another face than named, or touches of a round wall that lie on one line or at one point",
    });
  }
  const free = freeDirections(unweightedColumnsOf(linear.residuals, linear.firm, linear.units));
  const fixed = (k: number) => free.every((direction) => Math.abs(direction[k] as number) <= notMoved);
  const together = [...linear.firm, ...linear.soft];
  const freeTogether = linear.soft.length > 0 ? freeDirections(unweightedColumnsOf(linear.residuals, together, linear.units)) : free;
  const turnHas = (among: readonly number[], without: readonly Float64Array[]) =>
    without.every((direction) => Math.abs(direction[among.indexOf(3)] as number) <= notMoved) &&
    ownEffect(unweightedColumnsOf(linear.residuals, among, linear.units), among.indexOf(3)) >= leastLever * (linear.units[3] as number);
  const sensitivities = solver.sensitivitiesAbout(linear, values, unknowns);
  // Trials are solved from here: they differ by small errors. Most frames are never tried.
  const trialSolver = lateSolver(unknowns.length, () => new TrialFrameSolver(contacts, sizes, rotates, unknowns, linear));
  const estimateFrom = (from: readonly Uncertain[]): FrameEstimate => {
    // What is expected of the scale moves the solution; without that it is the one that is there already.
    const isThere = from.every(({ value }, i) => value === values[i]);
    const outputs = new Solution(trialSolver, from, isThere ? { values: unknowns, derivatives: sensitivities } : undefined).outputs();
    const [x, y, z, rotation, ...found] = outputs as [Uncertain, Uncertain, Uncertain, Uncertain, ...Uncertain[]];
    return { origin: [x, y, z], rotation, sizes: found };
  };
  const estimate = estimateFrom(inputs);
  const scaled = contacts.some(({ scaleError }) => scaleError !== undefined);
  const trueAdvance = (contact: FrameContact) => (scaled ? contact.advance.plus(contact.scaleError ?? 0) : contact.advance);
  const trueInputs = scaled ? inputsOf(contacts, sizes, trueAdvance) : inputs;
  const inTruth = scaled ? estimateFrom(trueInputs) : estimate;
  const remainders = once(() => {
    // Metal that is known to stand off is no disagreement of the touches that meet it.
    if (contacts.some(({ unforeseen = 0 }) => unforeseen !== 0)) {
      const foreseen = contacts.map((contact) => ({ ...contact, reach: contact.reach.plus(contact.unforeseen ?? 0) }));
      return new Solution(new FrameResiduals(solver), inputsOf(foreseen, sizes, trueAdvance), undefined).outputs();
    }
    const known = {
      values: Float64Array.from(residualsOf(linear)),
      derivatives: residualSensitivities(linear, sensitivities, inputs.length),
    };
    // Evidence from far apart may differ by what the scale is off between.
    return new Solution(new FrameResiduals(solver), trueInputs, known).outputs();
  });
  const agreement = once(() => {
    const patterns = contacts.length - (linear.soft.length > 0 ? together.length - freeTogether.length : linear.firm.length - free.length);
    // Heights that lie in a plane agree, askew or not.
    const tilts = tiltPatterns(linear, contacts);
    return agreementOf(withoutTilts(remainders(), tilts), patterns - tilts.length);
  });
  const contrasts = once(() => contrastsOf(linear, trueInputs, contacts));
  const origin = estimate.origin.map(({ value }) => value) as unknown as Vector;
  const roles = once(() =>
    contactRoles(
      linear,
      sizes.map(({ mode }) => mode !== "free"),
      origin,
    ),
  );
  return success({
    ...estimate,
    inTruth,
    determined: [fixed(0), fixed(1), fixed(2), !rotates || turnHas(linear.firm, free)],
    turnsByTouches: rotates && turnHas(together, freeTogether),
    sizesDetermined: sizes.map(({ mode }, s) => {
      const k = together.indexOf(poseUnknowns + s);
      return mode !== "held" && freeTogether.every((direction) => Math.abs(direction[k] as number) <= notMoved);
    }),
    rank: linear.firm.length - free.length,
    unknowns: linear.firm.length,
    freeMotions: free.map((direction) => freeMotionOf(direction, linear.firm, linear.units, origin)),
    residuals: residualsOf(linear),
    get remainders() {
      return remainders();
    },
    get agreement() {
      return agreement();
    },
    redundancy: contacts.length - (linear.firm.length - free.length),
    get contrasts() {
      return contrasts();
    },
    get roles() {
      return roles();
    },
  });
}

/** Advance and reach of every contact, then the given value of every size. */
function inputsOf(
  contacts: readonly FrameContact[],
  sizes: readonly FrameSize[],
  advance: (contact: FrameContact) => Uncertain,
): Uncertain[] {
  return [...contacts.flatMap((contact) => [advance(contact), contact.reach]), ...sizes.map(({ given }) => given)];
}
