import type { TiltEvaluation } from "../../decision/evaluateTilt.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** How the part lies askew in height, as plain data; null where no touches from above tell. Lengths in mm, turns in radians, slopes in mm per mm. */
export function plainTilt(tilt: TiltEvaluation | undefined) {
  if (tilt === undefined) return null;
  const { face, touches, middle, slopes, about, heightAtOrigin, offPlane, agreement, effects, across } = tilt;
  return {
    face,
    touches: [...touches],
    // Null where touches do not fix X and Y.
    middle: middle ? { X: middle[0], Y: middle[1] } : null,
    slopes: { X: plainQuantity(slopes.X, "mm/mm"), Y: plainQuantity(slopes.Y, "mm/mm") },
    about: { X: plainQuantity(about.X, "rad"), Y: plainQuantity(about.Y, "rad") },
    heightAtOrigin: heightAtOrigin ? plainQuantity(heightAtOrigin, "mm") : null,
    offPlane: offPlane.map(({ touch, budget }) => ({ touch, ...plainQuantity(budget, "mm") })),
    // Null for three touches: a plane fits any three.
    agreement:
      agreement === undefined
        ? null
        : {
            chance: agreement.chance,
            statistic: plainNumber(agreement.statistic),
            degreesOfFreedom: agreement.degreesOfFreedom,
          },
    effects: effects.map(({ characteristic, element, lift }) => ({
      characteristic,
      element,
      // Null for an element without an X and a Y, or where those of the touches are not known: it counts at the middle of the touches.
      lift: lift ? plainQuantity(lift, "mm") : null,
    })),
    // Null where places across do not follow the tilt, with the reason beside it.
    across:
      typeof across === "string"
        ? null
        : {
            height: plainNumber(across.height),
            heightNotKnown: [...across.unplaced],
            leans: across.leans.map(({ characteristic, element, lean }) => ({
              characteristic,
              element,
              X: lean ? plainQuantity(lean.X, "mm") : null,
              Y: lean ? plainQuantity(lean.Y, "mm") : null,
            })),
          },
    notAcross: typeof across === "string" ? across : null,
  };
}
