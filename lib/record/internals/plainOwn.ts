import type { OwnEvaluation, SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { baseUnitText } from "../../formula/baseUnitText.ts";
import type { Dimension } from "../../formula/dimension.ts";
import { soundBudget } from "../../formula/soundBudget.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import { beyondFirstOrderOfOwn, ownValues } from "../ownBends.ts";
import { ownRelativeUncertainty } from "../ownRelativeUncertainty.ts";
import type { BeyondFirstOrder } from "../studyResults.ts";
import { plainFirstOrder } from "./plainFirstOrder.ts";
import { plainNumber } from "./plainNumber.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";
import { plainSecondOrder } from "./plainSecondOrder.ts";

/** Cells and columns that a person has added, in document order, in base units; of formulas that bend, what is known beyond first order. */
export function plainOwn({ setup, cells = new Map(), own = new Map() }: Pick<SetupEvaluation, "setup"> & Partial<OwnEvaluation>) {
  const bends = beyondFirstOrderOfOwn(ownValues({ cells, own }), setup.sampling.seed);
  const plainValue = (value: Uncertain, dimension: Dimension) =>
    plainOutcome(soundBudget(value), (budget) => {
      const bend = bends.get(value);
      const relative = ownRelativeUncertainty(budget, dimension);
      return {
        ...plainQuantity(budget, baseUnitText(dimension)),
        relativeStandardUncertainty: relative === undefined ? null : plainNumber(relative),
        ...(bend && { beyondFirstOrder: plainBend(bend) }),
      };
    });
  return [...cells.keys()].flatMap((name) => {
    const outcome = own.get(name);
    if (outcome === undefined) return [];
    return [
      {
        name,
        ...plainOutcome(outcome, (value) => {
          const { dimension } = value;
          if (value.kind === "quantity") return plainValue(value.value, dimension);
          return {
            unit: baseUnitText(dimension),
            rows: value.rows.map((row) => (row === undefined ? null : plainOutcome(row, (each) => plainValue(each, dimension)))),
          };
        }),
      },
    ];
  });
}

function plainBend(bend: BeyondFirstOrder) {
  const { distribution, isTooCurved, symmetric, nonlinearity } = bend;
  return {
    method: distribution.method,
    isTooCurved,
    symmetricInterval: isTooCurved ? null : symmetric,
    firstOrder: plainFirstOrder(bend),
    secondOrder: bend.secondOrder.map(plainSecondOrder),
    nonlinearity: { size: plainNumber(nonlinearity.size), doubt: plainNumber(nonlinearity.doubt) },
  };
}
