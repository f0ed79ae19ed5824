import { groupsInWords } from "../uncertainty/groupsInWords.ts";
import { formatWithUncertainty } from "../uncertainty/roundForReport.ts";
import { standardUncertaintyOf } from "../uncertainty/sourceDistribution.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import { fromBaseUnit } from "./resultUnit.ts";
import type { LimitShape } from "./statement.ts";
import type { Unit } from "./units.ts";
import type { Doubt } from "./workOutDoubt.ts";

/**
 * A doubt in words, for a budget or a note: what was stated, and the standard uncertainty that follows, to two digits.
 *
 * @param unit in which it is told
 */
export function describeDoubt({ distribution, degreesOfFreedom, readings, groups, percent, step, stated }: Doubt, unit: Unit): string {
  const size = (value: number): string => {
    const number = fromBaseUnit(value, unit);
    // Beyond what fixed digits can hold.
    const text =
      number !== 0 && (number < 1e-15 || number >= 1e15) ? number.toPrecision(2) : formatWithUncertainty(0, number).standardUncertainty;
    return unit.symbol === "" ? text : `${text} ${unit.symbol}`;
  };
  const standardUncertainty = standardUncertaintyOf(distribution);
  const told = `standard uncertainty ${size(standardUncertainty)}`;
  const freedom = Number.isFinite(degreesOfFreedom)
    ? `, ${rounded(degreesOfFreedom)} ${degreesOfFreedom === 1 ? "degree" : "degrees"} of freedom`
    : "";
  switch (stated.kind) {
    case "standard": {
      const { coverageFactor: k } = stated;
      if (k === undefined) return percent === undefined ? `${told}${freedom}` : `${rounded(percent)} % of the value: ${told}${freedom}`;
      const expanded = percent === undefined ? size(standardUncertainty * k) : `${rounded(percent)} % of the value`;
      return `expanded uncertainty ${expanded} with k = ${rounded(k)}: ${told}${freedom}`;
    }
    case "within":
    case "limits": {
      const halfWidth = "halfWidth" in distribution ? distribution.halfWidth : standardUncertainty * limitsAtDeviations;
      const share = percent === undefined ? "" : `${rounded(percent)} % of the value, `;
      return `within ${share}${size(halfWidth)} of the best estimate, ${shapeWords(stated.shape)}: ${told}`;
    }
    case "notBelow":
      return `never more than ${size(standardUncertainty)} below the best estimate, without an end above it (exponential): ${told}`;
    case "readings": {
      const count = readings?.length ?? stated.readings.length;
      const inGroups = groups === undefined ? "" : ` in ${groups.sizes.length} groups`;
      if (step !== undefined)
        return `mean of ${count} readings${inGroups}, which scatter by less than their last digit tells: within ${size(step / 2)}, equally likely anywhere: ${told}`;
      if (groups !== undefined) {
        const within = `each scattering by ${size(groups.within)} within its group`;
        const chance = groupsInWords(groups);
        return groups.differ
          ? `mean of the means of ${groups.sizes.length} groups of readings, which differ by ${size(groups.between)} (${chance}), ${within}: ${told}${freedom}`
          : `mean of ${count} readings${inGroups}, which do not differ more than their readings scatter (${chance}), ${within}: ${told}${freedom}`;
      }
      return `mean of ${count} readings, each scattering by ${size(standardUncertainty * Math.sqrt(count))}: ${told}${freedom}`;
    }
  }
}

function shapeWords(shape: LimitShape): string {
  switch (shape.name) {
    case "rectangular":
      return "equally likely anywhere";
    case "triangular":
      return "most likely in the middle (triangular)";
    case "arcsine":
      return "most likely at the ends (arcsine)";
    case "normal":
      return "normal with the limits at three standard deviations";
    default:
      return `${shape.name}, flat over ${rounded(shape.topRatio)} of the width`;
  }
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(6)));
}
