import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { amountInWords, gainInWords, placeInWords } from "./chain/chainWords.ts";
import { chainsOf, type DimensionChainOptions } from "./dimensionChain.ts";
import { writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { toleranceInWords } from "./sketch/toleranceInWords.ts";

const knownByWords = { drawing: "the drawing", measurement: "measured otherwise", touches: "the touches" } as const;

/** The table behind `dimensionChain`: places along each axis, then dimensions with their gains. */
export function dimensionChainTable(
  evaluation: SetupEvaluation,
  strategyId: string,
  characteristicId: string,
  { view, unit }: Pick<DimensionChainOptions, "view" | "unit">,
): FigureTable {
  const writer = writerOf(unit);
  const head = {
    caption: `Sizes of the part behind ${characteristicId}, ${strategyId}`,
    columns: ["along", "what", "from", "to", "size", "gain", "gives", "known by"],
  };
  const found = chainsOf(evaluation, strategyId, characteristicId, view);
  if (found === undefined || !found.ok) {
    const why = found === undefined ? "no such characteristic or strategy" : `not known: ${outcomeInWords(found.problems)}`;
    return { ...head, rows: [["", why, "", "", "", "", "", ""]] };
  }
  return {
    ...head,
    rows: found.value.flatMap(({ axis, places, links, zero }) => [
      ...places.map((place) => [axis, placeInWords(place), "", "", writer.stated(place.nominal), "", "", ""]),
      [axis, "part zero", "", "", writer.stated(zero), "", "", ""],
      ...links.map(({ dimension: { id, from, to, nominal, limits }, gain, amount, knownBy }) => [
        axis,
        id,
        from,
        to,
        `${writer.stated(Math.abs(nominal))}${toleranceInWords(limits, nominal < 0 ? -1 : 1, writer)}`,
        gainInWords(gain),
        amount === 0 ? "0" : amountInWords(amount, writer),
        knownByWords[knownBy],
      ]),
    ]),
  };
}
