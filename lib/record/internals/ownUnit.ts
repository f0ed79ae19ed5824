import type { Dimension } from "../../formula/dimension.ts";
import { parseUnit, resultUnit } from "../../formula/resultUnit.ts";
import type { Unit } from "../../formula/units.ts";
import type { LedgerCell } from "../../ledger/ledger.ts";

/** In which a cell of a person's own is told: as wished, else the usual one of the notebook. */
export function ownUnit(dimension: Dimension, shown: LedgerCell["shown"] | undefined, notebook: "mm" | "inch"): Unit {
  const wished = shown === undefined || shown.unit.trim() === "" ? undefined : parseUnit(shown.unit);
  return wished?.ok ? wished.value : resultUnit(dimension, notebook);
}
