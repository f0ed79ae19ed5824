import type { PartLocation } from "../datum/locatePart.ts";
import { liftAt } from "../datum/tilt.ts";
import type { NotAcross, TiltAcross } from "../datum/tiltAcross.ts";
import type { Agreement } from "../frame/agreement.ts";
import { type Characteristic, cutsOf, isOrientation } from "../part/part.ts";
import { leanOf, liftOf } from "../tolerance/deviations.ts";
import { type Budget, budgetsTogether } from "../uncertainty/budget.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";

/** How the part lies askew in height, and what that does. Lengths in mm, angles in radians. */
export interface TiltEvaluation {
  readonly face: string;
  readonly touches: readonly string[];
  /** On the drawing; undefined where touches do not fix X and Y. */
  readonly middle: readonly [x: number, y: number] | undefined;
  /** mm per mm. */
  readonly slopes: { readonly X: Budget; readonly Y: Budget };
  readonly about: { readonly X: Budget; readonly Y: Budget };
  /** Machine Z of the face above the drawing's origin; undefined where touches do not fix X and Y. */
  readonly heightAtOrigin: Budget | undefined;
  /** What each touch stands off the plane, upwards. */
  readonly offPlane: readonly { readonly touch: string; readonly budget: Budget }[];
  readonly agreement: Agreement | undefined;
  /** Of every characteristic along Z: how much higher the face lies where it is cut than at the middle of the touches; undefined where it has no one place, or that place is not known. */
  readonly effects: readonly { readonly characteristic: string; readonly element: string; readonly lift: Budget | undefined }[];
  readonly across: AcrossEvaluation | NotAcross;
}

/** What a tilt does to places across. */
export interface AcrossEvaluation extends TiltAcross {
  /** Of every place across that is demanded: how far the part leans away there, against the height of the touches; undefined where no Z is stated. */
  readonly leans: readonly { readonly characteristic: string; readonly element: string; readonly lean: LeanEvaluation | undefined }[];
}

export interface LeanEvaluation {
  readonly X: Budget;
  readonly Y: Budget;
}

/** Undefined where no touches from above tell. */
export function evaluateTilt(location: PartLocation): TiltEvaluation | undefined {
  const {
    tilt,
    tiltAcross,
    setup: { part },
  } = location;
  if (tilt === undefined || tiltAcross === undefined) return undefined;
  const atOrigin = tilt.height.plus(liftAt(tilt, 0, 0));
  const cuts = (counts: (characteristic: Characteristic) => boolean) =>
    part.characteristics.filter(counts).flatMap((characteristic) => {
      const ends = [characteristic.of, ...("from" in characteristic ? [characteristic.from] : [])];
      return part.elements
        .filter(({ id, made }) => made === "here" && ends.includes(id))
        .flatMap((element) => cutsOf(element, part.elements))
        .map((element) => ({ characteristic: characteristic.id, element }));
    });
  const effects = cuts((characteristic) => "axis" in characteristic && characteristic.axis === "Z").map(({ characteristic, element }) => ({
    characteristic,
    element: element.id,
    lift: liftOf(element, tilt),
  }));
  const leans = cuts((characteristic) => !isOrientation(characteristic) && !("axis" in characteristic && characteristic.axis === "Z")).map(
    ({ characteristic, element }) => ({ characteristic, element: element.id, lean: leanOf(element, tilt, location) }),
  );
  const results: Uncertain[] = [...tilt.slopes, tilt.about.X, tilt.about.Y, atOrigin, ...tilt.offPlane];
  const budgetOf = budgetsTogether([...results, ...effects.map(({ lift }) => lift ?? none), ...leans.flatMap(({ lean }) => lean ?? [])]);
  return {
    face: tilt.face,
    touches: tilt.touches,
    middle: tilt.isPlaced ? tilt.middle : undefined,
    slopes: { X: budgetOf(tilt.slopes[0]), Y: budgetOf(tilt.slopes[1]) },
    about: { X: budgetOf(tilt.about.X), Y: budgetOf(tilt.about.Y) },
    heightAtOrigin: tilt.isPlaced ? budgetOf(atOrigin) : undefined,
    offPlane: tilt.offPlane.map((off, i) => ({ touch: tilt.touches[i] as string, budget: budgetOf(off) })),
    agreement: tilt.agreement,
    effects: effects.map((effect) => ({ ...effect, lift: effect.lift && budgetOf(effect.lift) })),
    across:
      typeof tiltAcross === "string"
        ? tiltAcross
        : {
            ...tiltAcross,
            leans: leans.map((each) => ({ ...each, lean: each.lean && { X: budgetOf(each.lean[0]), Y: budgetOf(each.lean[1]) } })),
          },
  };
}

const none = certain(0);
