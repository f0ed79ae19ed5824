import type { NestFit, NestsEvaluation } from "../../offsets/nests.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** How well one zero serves all nests that were found. Lengths in mm, turns in radians. */
export function plainNests({ places, shifted, turned }: NestsEvaluation) {
  return {
    places: places.map(({ id, nominal: [x, y], found }) => ({ nest: id, X: x, Y: y, found: found !== undefined })),
    shifted: plainOutcome(shifted, plainFit),
    turned: plainOutcome(turned, plainFit),
  };
}

function plainFit({ shift: [x, y], rotation, residuals, chiSquare }: NestFit) {
  return {
    X: plainQuantity(x, "mm"),
    Y: plainQuantity(y, "mm"),
    turn: plainQuantity(rotation, "rad"),
    residuals: residuals.map((each) => ({ nest: each.id, X: plainQuantity(each.x, "mm"), Y: plainQuantity(each.y, "mm") })),
    chiSquare: chiSquare === undefined ? null : { ...chiSquare },
  };
}
