import type { Source } from "../uncertainty/source.ts";
import type { SourceDistribution } from "../uncertainty/sourceDistribution.ts";

/** How a sum, or a point of the plane, follows one independent deviation. */
interface Term {
  readonly sensitivities: readonly number[];
  readonly distribution: SourceDistribution;
}

/**
 * Effects as independent terms. Deviations that rest on one estimate of their standard deviation are a multivariate t (JCGM 101:2008, 6.4.9, and
 * G.3 of JCGM 100 for one of them): along one component their sum is one t with the root sum of squares for its scale. In the plane they
 * are taken as two, along the principal axes of their covariance: each as wide as it should be, but not too wide in the same cases.
 */
export function independentTerms(effects: readonly { readonly source: Source; readonly sensitivities: readonly number[] }[]): Term[] {
  const terms: Term[] = [];
  const groups = new Map<string, { degreesOfFreedom: number; amounts: (readonly number[])[] }>();
  for (const { source, sensitivities } of effects) {
    const { distribution, varianceEstimate } = source;
    if (varianceEstimate === undefined || distribution.shape !== "scaledT") {
      terms.push({ sensitivities, distribution });
      continue;
    }
    const group = groups.get(varianceEstimate) ?? { degreesOfFreedom: distribution.degreesOfFreedom, amounts: [] };
    group.amounts.push(sensitivities.map((sensitivity) => sensitivity * distribution.scale));
    groups.set(varianceEstimate, group);
  }
  for (const { degreesOfFreedom, amounts } of groups.values())
    for (const sensitivities of principalAxes(amounts))
      terms.push({ sensitivities, distribution: { shape: "scaledT", scale: 1, degreesOfFreedom } });
  return terms;
}

/** A width across below this share of the length is rounding of the square root of it. */
const alongOneLine = 1e-7;

/** Uncorrelated amounts with the same covariance: one for a sum, two for a point of the plane. */
function principalAxes(amounts: readonly (readonly number[])[]): number[][] {
  const product = (i: number, j: number) => amounts.reduce((total, amount) => total + (amount[i] as number) * (amount[j] as number), 0);
  if (amounts.length === 1) return [[...(amounts[0] as readonly number[])]];
  if (amounts[0]?.length === 1) return [[Math.sqrt(product(0, 0))]];
  const [xx, xy, yy] = [product(0, 0), product(0, 1), product(1, 1)];
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  const along = Math.sqrt(Math.max(0, xx * cosine * cosine + 2 * xy * cosine * sine + yy * sine * sine));
  const across = Math.sqrt(Math.max(0, xx * sine * sine - 2 * xy * cosine * sine + yy * cosine * cosine));
  const first = [along * cosine, along * sine];
  // Amounts along one line leave nothing across it but rounding.
  return across > alongOneLine * along ? [first, [-across * sine, across * cosine]] : [first];
}
