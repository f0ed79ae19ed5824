import { failure, type Outcome, success } from "../base/outcome.ts";
import type { Vector } from "../base/vector.ts";
import { lateSolver } from "../uncertainty/lateSolver.ts";
import { Solution, type Solver, type Uncertain } from "../uncertainty/uncertain.ts";
import { type Agreement, agreementOf } from "./agreement.ts";
import { type ContactGeometry, isMetFromBehind, type Pose, poseUnknowns } from "./contactResidual.ts";
import { type ContactRoles, contactRoles } from "./contactRoles.ts";
import { contrastsOf, tiltPatterns, withoutTilts } from "./contrasts.ts";
import { FrameResiduals, residualSensitivities, residualsOf } from "./frameResiduals.ts";
import { FrameSolver, type SizeRule } from "./frameSolver.ts";
import { type FreeMotion, freeMotionOf } from "./freeMotion.ts";
import { freeDirections, type Linearisation, ownEffect, unweightedColumnsOf } from "./linearisation.ts";
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

/** Where the part is, without the doubt of that. */
export function poseOf({ origin: [x, y, z], rotation }: Pick<FrameEstimate, "origin" | "rotation">): Pose {
  return { origin: [x.value, y.value, z.value], rotation: rotation.value };
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

/** What a frame is solved with besides its contacts and sizes. */
export interface FrameOptions {
  /** About where the part lies, if that is known: what no contact determines stays there. */
  readonly near?: Pose;
  /** Contacts that nobody has made yet do not disagree: residuals are 0, and nothing is said about agreement. */
  readonly areForeseen?: boolean;
}

/**
 * Solves for the frame of the part (see FrameSolver for the method).
 *
 * Undetermined motions are no failure: they are reported, and what the contacts
 * do determine is still given.
 */
export function solveFrame(
  contacts: readonly FrameContact[],
  sizes: readonly FrameSize[],
  rotates: boolean,
  { near, areForeseen = false }: FrameOptions = {},
): Outcome<FrameSolution> {
  const inputs = inputsOf(contacts, sizes, ({ advance }) => advance);
  const values = Float64Array.from(inputs, ({ value }) => value);
  const start = near && [...near.origin, rotates ? near.rotation : 0, ...sizes.map(({ given }) => given.value)];
  const { solver, unknowns, linear } = settleFacing(contacts, sizes, rotates, values, start);
  if (linear === undefined) {
    return failure({
      at: "",
      what: "no position of the part fits these touches",
      remedy: "look for a touch on another face than named, or touches of a round wall that lie on one line or at one point",
    });
  }
  return success(new SolvedFrame(contacts, sizes, { solver, inputs, values, unknowns, linear, areForeseen }));
}

/** Touches of flat faces fit half a turn further as well, from within the metal: then the part lies the other way round. */
function settleFacing(
  contacts: readonly FrameContact[],
  sizes: readonly FrameSize[],
  rotates: boolean,
  values: Float64Array,
  start: ArrayLike<number> | undefined,
) {
  const settleFrom = (near: ArrayLike<number> | undefined) => {
    const solver = new FrameSolver(contacts, sizes, rotates, near);
    const unknowns = new Float64Array(solver.outputCount);
    return { solver, unknowns, linear: solver.settle(values, unknowns) };
  };
  const isBehind = ([x = 0, y = 0, z = 0, rotation = 0]: Float64Array) =>
    contacts.some((contact) => isMetFromBehind(contact, { origin: [x, y, z], rotation }));
  const found = settleFrom(start);
  if (!rotates || found.linear === undefined || !isBehind(found.unknowns)) return found;
  const { unknowns } = found;
  const other = settleFrom(unknowns.map((value, k) => (k === 3 ? value - Math.PI * Math.sign(value || 1) : value)));
  return other.linear === undefined || isBehind(other.unknowns) ? found : other;
}

/** A solution, and how it was come by. */
interface Settled {
  readonly solver: FrameSolver;
  readonly inputs: readonly Uncertain[];
  readonly values: Float64Array;
  readonly unknowns: Float64Array;
  readonly linear: Linearisation;
  readonly areForeseen: boolean;
}

/** A class, since a search solves thousands: getters of their own for each would cost more than the numbers. */
class SolvedFrame implements FrameSolution {
  readonly origin: FrameSolution["origin"];
  readonly rotation: Uncertain;
  readonly sizes: readonly Uncertain[];
  readonly inTruth: FrameEstimate;
  readonly determined: FrameSolution["determined"];
  readonly turnsByTouches: boolean;
  readonly sizesDetermined: readonly boolean[];
  readonly rank: number;
  readonly unknowns: number;
  readonly redundancy: number;
  private readonly contacts: readonly FrameContact[];
  private readonly rules: readonly FrameSize[];
  private readonly settled: Settled;
  private readonly sensitivities: Float64Array;
  /** In true lengths. */
  private readonly trueInputs: readonly Uncertain[];
  private readonly free: readonly Float64Array[];
  private readonly isScaled: boolean;
  /** Independent equations among all unknowns, preferred sizes too. */
  private readonly patterns: number;
  private readonly made: { -readonly [K in "remainders" | "contrasts" | "roles"]?: FrameSolution[K] } = {};
  private agreed: { readonly agreement: Agreement | undefined } | undefined;

  constructor(contacts: readonly FrameContact[], rules: readonly FrameSize[], settled: Settled) {
    const { solver, inputs, values, unknowns, linear } = settled;
    const { firm, soft, units, residuals } = linear;
    this.contacts = contacts;
    this.rules = rules;
    this.settled = settled;
    this.free = freeDirections(unweightedColumnsOf(residuals, firm, units));
    const together = [...firm, ...soft];
    const freeTogether = soft.length > 0 ? freeDirections(unweightedColumnsOf(residuals, together, units)) : this.free;
    const fixed = (k: number) => this.free.every((direction) => Math.abs(direction[k] as number) <= notMoved);
    const turnHas = (among: readonly number[], without: readonly Float64Array[]) =>
      without.every((direction) => Math.abs(direction[among.indexOf(3)] as number) <= notMoved) &&
      ownEffect(unweightedColumnsOf(residuals, among, units), among.indexOf(3)) >= leastLever * (units[3] as number);
    // What one of X and Y is on a part that turns, the other tells as well, be the turn that was found nothing to the last digit.
    const both = fixed(0) && fixed(1);
    this.determined = [
      solver.rotates ? both : fixed(0),
      solver.rotates ? both : fixed(1),
      fixed(2),
      !solver.rotates || turnHas(firm, this.free),
    ];
    this.turnsByTouches = solver.rotates && turnHas(together, freeTogether);
    this.sizesDetermined = rules.map(({ mode }, s) => {
      const k = together.indexOf(poseUnknowns + s);
      return mode !== "held" && freeTogether.every((direction) => Math.abs(direction[k] as number) <= notMoved);
    });
    this.rank = firm.length - this.free.length;
    this.unknowns = firm.length;
    this.redundancy = contacts.length - this.rank;
    this.patterns = contacts.length - (soft.length > 0 ? together.length - freeTogether.length : this.rank);

    this.sensitivities = solver.sensitivitiesAbout(linear, values, unknowns);
    this.isScaled = contacts.some(({ scaleError }) => scaleError !== undefined);
    this.trueInputs = this.isScaled ? inputsOf(contacts, rules, (contact) => this.trueAdvance(contact)) : inputs;
    // Trials are solved from here: they differ by small errors. Most frames are never tried.
    const trialSolver = lateSolver(unknowns.length, () => new TrialFrameSolver(contacts, rules, solver.rotates, unknowns, linear));
    const estimate = this.estimateFrom(inputs, trialSolver);
    this.origin = estimate.origin;
    this.rotation = estimate.rotation;
    this.sizes = estimate.sizes;
    this.inTruth = this.isScaled ? this.estimateFrom(this.trueInputs, trialSolver) : estimate;
  }

  get freeMotions(): readonly FreeMotion[] {
    const { firm, units } = this.settled.linear;
    return this.free.map((direction) => freeMotionOf(direction, firm, units, this.place()));
  }

  get residuals(): readonly number[] {
    return this.settled.areForeseen ? this.contacts.map(() => 0) : residualsOf(this.settled.linear);
  }

  get remainders(): readonly Uncertain[] {
    this.made.remainders ??= this.remaining();
    return this.made.remainders;
  }

  get agreement(): Agreement | undefined {
    this.agreed ??= { agreement: this.settled.areForeseen ? undefined : this.agree() };
    return this.agreed.agreement;
  }

  get contrasts(): readonly Uncertain[] {
    this.made.contrasts ??= contrastsOf(this.settled.linear, this.trueInputs, this.contacts);
    return this.made.contrasts;
  }

  get roles(): ContactRoles {
    this.made.roles ??= contactRoles(
      this.settled.linear,
      this.rules.map(({ mode }) => mode !== "free"),
      this.place(),
    );
    return this.made.roles;
  }

  private place(): Vector {
    return this.origin.map(({ value }) => value) as unknown as Vector;
  }

  private trueAdvance({ advance, scaleError }: FrameContact): Uncertain {
    return this.isScaled ? advance.plus(scaleError ?? 0) : advance;
  }

  private estimateFrom(from: readonly Uncertain[], trialSolver: Solver): FrameEstimate {
    const { values, unknowns } = this.settled;
    // What is expected of the scale moves the solution; without that it is the one that is there already.
    const isThere = from.every(({ value }, i) => value === values[i]);
    const outputs = new Solution(trialSolver, from, isThere ? { values: unknowns, derivatives: this.sensitivities } : undefined).outputs();
    const [x, y, z, rotation, ...found] = outputs as [Uncertain, Uncertain, Uncertain, Uncertain, ...Uncertain[]];
    return { origin: [x, y, z], rotation, sizes: found };
  }

  private remaining(): Uncertain[] {
    const { solver, linear, inputs } = this.settled;
    // Metal that is known to stand off is no disagreement of the touches that meet it.
    if (this.contacts.some(({ unforeseen = 0 }) => unforeseen !== 0)) {
      const foreseen = this.contacts.map((contact) => ({ ...contact, reach: contact.reach.plus(contact.unforeseen ?? 0) }));
      const from = inputsOf(foreseen, this.rules, (contact) => this.trueAdvance(contact));
      return new Solution(new FrameResiduals(solver), from, undefined).outputs();
    }
    const known = {
      values: Float64Array.from(residualsOf(linear)),
      derivatives: residualSensitivities(linear, this.sensitivities, inputs.length),
    };
    // Evidence from far apart may differ by what the scale is off between.
    return new Solution(new FrameResiduals(solver), this.trueInputs, known).outputs();
  }

  private agree(): Agreement | undefined {
    // Heights that lie in a plane agree, askew or not.
    const tilts = tiltPatterns(this.settled.linear, this.contacts);
    return agreementOf(withoutTilts(this.remainders, tilts), this.patterns - tilts.length);
  }
}

/** Advance and reach of every contact, then the given value of every size. */
function inputsOf(
  contacts: readonly FrameContact[],
  sizes: readonly FrameSize[],
  advance: (contact: FrameContact) => Uncertain,
): Uncertain[] {
  return [...contacts.flatMap((contact) => [advance(contact), contact.reach]), ...sizes.map(({ given }) => given)];
}
