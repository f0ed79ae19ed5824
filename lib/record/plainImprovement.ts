import type { Improvement } from "../decision/improvement.ts";
import { plainNumber } from "./internals/plainNumber.ts";

/** What would make a setup better, as plain data; lengths in millimetres, angles in radians. */
export function plainImprovement({ strategy, view, wanted, supposed, moves, allowances, search }: Improvement) {
  return {
    strategy,
    view,
    wantedChance: wanted,
    supposed: [...supposed],
    chanceOfAll: { ...moves.now },
    moves: moves.moves.map(({ kind, of, chanceOfAll, gain }) => ({ kind, of, chanceOfAll: { ...chanceOfAll }, gain })),
    chanceOfAllWithoutMeasuring: { ...moves.withoutMeasuring },
    allowances: allowances.map(({ doubt, factor, standardUncertainty, boundBy, chanceWithout }) => ({
      sources: doubt.sources.map(({ id }) => id),
      /** Null where nothing bounds it. */
      factor: plainNumber(factor),
      standardUncertainty: plainNumber(standardUncertainty),
      boundBy: boundBy ?? null,
      chanceWithout,
    })),
    strategies: {
      candidates: search.candidates,
      determined: search.determined,
      isCutShort: search.isCutShort,
      best: search.best.map(({ strategy: { id, touches, hold, orient, rotation }, thisPart, batch }) => ({
        id,
        touches,
        hold,
        orient,
        rotation,
        chanceOfAllThisPart: { ...thisPart },
        chanceOfAllBatch: { ...batch },
      })),
    },
  };
}
