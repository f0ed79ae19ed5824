import { once } from "../base/once.ts";
import { disagreeBelow } from "../frame/agreement.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { conditioned } from "../uncertainty/conditioned.ts";
import { chiSquareUpperTail } from "../uncertainty/special/chiSquare.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import type { PartLocation } from "./locatePart.ts";

/** A size of this part that the touches determine. */
export interface MeasuredSize {
  readonly id: string;
  readonly nominal: number;
  /** By the touches, mm. */
  readonly size: Uncertain;
  /** Touches less the measurement by other means, where there is one; its doubt includes what both share (nothing, as a rule). */
  readonly difference: Uncertain | undefined;
  /**
   * By touches and other measurements together, mm. A size measured otherwise tells of other sizes too: a known width says how large the probe is,
   * and with that how wide the slot is. Undefined where nothing else tells anything worth a digit, or where the findings do not fit each other.
   * Worked out when it is first asked for.
   */
  readonly combined: Uncertain | undefined;
}

/** More standard uncertainties than this, and two findings of one size disagree: the usual coverage factor (JCGM 100:2008, 6.3.3). */
export const disagreesAbove = 2;

/**
 * Sizes that redundant touches have measured on the way, how they agree with what was measured otherwise, and what both say together: all sources
 * conditioned on the differences, which are 0 in truth (see `conditioned`). Where one size disagrees, or all differences together are too large for
 * their doubts, none is combined: the cause may lie in what the touches share.
 */
export function measureSizes({ thisPart, sizes }: PartLocation): MeasuredSize[] {
  if (!thisPart.ok) return [];
  const found = sizes.sizes.flatMap(({ id, kind, nominal, measured }, i) => {
    const deviation = thisPart.value.sizes[i];
    if (deviation === undefined || !thisPart.value.sizesDetermined[i] || kind === "turn") return [];
    return [{ id, nominal, size: deviation.plus(nominal), difference: measured && deviation.minus(measured) }];
  });
  const differences = found.flatMap(({ difference }) => difference ?? []);
  const combined = once(() =>
    combinedSizes(
      found.map(({ size }) => size),
      differences,
    ),
  );
  return found.map((each, i) => ({
    ...each,
    get combined() {
      return combined()[i];
    },
  }));
}

/** In the order of the sizes; undefined where the differences say nothing of one. */
function combinedSizes(sizes: readonly Uncertain[], differences: readonly Uncertain[]): readonly (Uncertain | undefined)[] {
  if (differences.length === 0 || budgetsOf(differences).some(isTooLarge)) return [];
  const best = conditioned(sizes, differences);
  if (best === undefined || best.rank === 0 || chiSquareUpperTail(best.statistic, best.rank) < disagreeBelow) return [];
  const uncertainties = budgetsOf([...sizes, ...best.values]).map(({ standardUncertainty }) => standardUncertainty);
  return best.values.map((value, i) => {
    const [before, after] = [uncertainties[i] as number, uncertainties[sizes.length + i] as number];
    return value !== sizes[i] && after < (1 - worthTelling) * before ? value : undefined;
  });
}

function isTooLarge({ value, standardUncertainty }: Budget): boolean {
  return Math.abs(value) > disagreesAbove * standardUncertainty;
}

/** What makes a size better known by less than this share tells nothing of it. */
const worthTelling = 0.01;
