import { failure, type Outcome, success } from "../base/outcome.ts";
import type { DxfGroup } from "./dxfGroups.ts";
import type { UnitScale } from "./lengthText.ts";

/** By the codes of `$INSUNITS` (DXF reference, from memory); a word for a unit in which no part of this trade is drawn. */
const drawnUnits: Readonly<Record<number, UnitScale | string>> = {
  1: { unit: "inch" },
  2: { unit: "inch", times: 12 },
  3: "miles",
  4: { unit: "mm" },
  5: { unit: "mm", power: 1 },
  6: { unit: "mm", power: 3 },
  7: "kilometres",
  8: { unit: "inch", power: -6 },
  9: { unit: "inch", power: -3 },
  10: { unit: "inch", times: 36 },
  11: "angstroms",
  12: { unit: "mm", power: -6 },
  13: { unit: "mm", power: -3 },
  14: { unit: "mm", power: 2 },
  15: "decametres",
  16: "hectometres",
  17: "gigametres",
  18: "astronomical units",
  19: "light years",
  20: "parsecs",
  21: "feet of the US survey",
  22: "inches of the US survey",
  23: "yards of the US survey",
  24: "miles of the US survey",
};

/** The unit that the header states; undefined where it does not state it, or states 0, which is none. */
export function dxfUnit(header: readonly DxfGroup[]): Outcome<UnitScale | undefined> {
  const stated = header.flatMap(({ code, value }, i) => (code === 9 && value === "$INSUNITS" ? [header[i + 1]] : []));
  const [group] = stated;
  if (stated.length === 0) return success(undefined);
  const at = group === undefined ? "$INSUNITS" : `line ${group.line}`;
  if (stated.length > 1 || group === undefined || !/^\d+$/.test(group.value))
    return failure({
      at,
      what: "the drawing does not state its unit as one code",
      expected: "$INSUNITS once, with a whole number",
      got: group?.value ?? "",
    });
  if (Number(group.value) === 0) return success(undefined);
  const unit = drawnUnits[Number(group.value)];
  if (typeof unit === "object") return success(unit);
  return failure({
    at,
    what: unit === undefined ? "the drawing states its unit by a code that is not known" : `the drawing is in ${unit}`,
    expected: "millimetres or inches ($INSUNITS 4 or 1), or their parts and multiples",
    got: group.value,
    remedy: "export it in millimetres or inches",
  });
}
