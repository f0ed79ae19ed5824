import { axes } from "../../base/vector.ts";
import type { PartLocation } from "../../datum/locatePart.ts";
import { solveStrategy, zeroFound } from "../../datum/solveStrategy.ts";
import type { Strategy } from "../../datum/strategy.ts";
import { readRegister } from "../../offsets/offsetRegister.ts";
import { budgetOf } from "../../uncertainty/budget.ts";
import type { Uncertain } from "../../uncertainty/uncertain.ts";
import type { EvidenceBeside } from "./explainDisagreement.ts";

/**
 * The zero of the strategy in use beside one that was measured before, in the same register, by other touches of the part as it lies: along each axis the last row of
 * the log that says so and states its doubt. A zero of which nobody says that it rests on other touches may be made of today's own, and tells nothing.
 */
export function earlierZeros({ setup }: PartLocation, strategy: Strategy): (location: PartLocation) => readonly EvidenceBeside[] {
  const register = readRegister(setup.machine.register)?.name;
  const rows = setup.offsets.filter(
    (row) => row.kind === "measured zero" && row.rests === "on other touches" && row.register === register && !row.unread,
  );
  const known = axes.flatMap((axis, i) => {
    const row = rows.findLast(({ values }) => isInDoubt(values[i as 0 | 1 | 2]));
    const value = row?.values[i as 0 | 1 | 2];
    return row === undefined || value === undefined ? [] : [{ axis, i: i as 0 | 1 | 2, row: row.id, value }];
  });
  if (known.length === 0 || strategy.fixtureFrame !== undefined) return () => [];
  return (location) => {
    const solved = solveStrategy(strategy, location);
    if (!solved.ok) return [];
    const found = zeroFound(solved.value);
    const { zero } = solved.value.fromReadings;
    return known.flatMap(({ axis, i, row, value }): EvidenceBeside[] =>
      found[i]
        ? [
            {
              name: `zero ${axis} by "${strategy.id}" beside the earlier one, "${row}"`,
              at: `offsets.${row}.${axis.toLowerCase()}`,
              value: zero[i].minus(value),
              otherwise: `the earlier zero ${axis} of "${row}" is off, or the part has moved since`,
            },
          ]
        : [],
    );
  };
}

function isInDoubt(value: Uncertain | undefined): boolean {
  return value !== undefined && budgetOf(value).standardUncertainty > 0;
}
