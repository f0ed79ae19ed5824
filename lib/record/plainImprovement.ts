import type { Improvement } from "../decision/improvement.ts";
import { plainNumber } from "./internals/plainNumber.ts";

/** What would make a setup better, as plain data; lengths in millimetres, angles in radians. */
export function plainImprovement({ strategy, view, wanted, moves, allowances, search }: Improvement) {
  return {
    strategy,
    view,
    wantedChance: wanted,
    chanceOfAll: { ...moves.now },
    moves: moves.moves.map(({ kind, of, chanceOfAll, gain }) => ({ kind, of, chanceOfAll: { ...chanceOfAll }, gain })),
    chanceOfAllWithoutMeasuring: { ...moves.withoutMeasuring },
    allowances: allowances.map(({ source, factor, standardUncertainty, boundBy, chanceWithout }) => ({
      source: source.id,
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
