import type { Problem } from "../base/outcome.ts";
import type { Ledger } from "../ledger/ledger.ts";
import type { QuantityLookup } from "./setupQuantities.ts";

/** Cells and columns that go by a name that a quantity of the setup has as well: a formula that names it could mean either. */
export function nameClashes({ cells }: Pick<Ledger, "cells">, quantities: QuantityLookup): Problem[] {
  return [...cells.values()].flatMap(({ name, place }) => {
    const other = quantities.about(name);
    if (other === undefined) return [];
    return [
      {
        at: `${place}.id`,
        what: `"${name}" is also the ${other.describes}; formulas take what stands here`,
        expected: "a name of its own",
        got: name,
        remedy: "rename it, or the row of the other",
      },
    ];
  });
}
