import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Mm, mm, type Radian, radian } from "../base/quantity.ts";
import type { Limits } from "./part.ts";
import { isUpTo, rangeOf, sizeText } from "./sizeRange.ts";

/** Classes of general tolerances (ISO 2768-1): fine, medium, coarse, very coarse. */
const generalClasses = ["f", "m", "c", "v"] as const;
export type GeneralClass = (typeof generalClasses)[number];

/** What a title block says of dimensions without a tolerance of their own. */
export const generalTolerances = ["none stated", "ISO 2768-f", "ISO 2768-m", "ISO 2768-c", "ISO 2768-v"] as const;

/** The class of general tolerances that a title block states. */
export function generalClassOf(stated: (typeof generalTolerances)[number]): GeneralClass | undefined {
  return generalClasses.find((each) => stated === `ISO 2768-${each}`);
}

/**
 * The general tolerance of a linear dimension that states none of its own, other than of broken edges: `generalTolerance(20, "m")` is ±0.2 mm.
 * A part beyond it is not rejected of itself where its function is not impaired (ISO 2768-1, clause 6).
 *
 * @param size nominal size without its sign, mm; from 0.5 (v: above 3) up to 4000 (f: 2000)
 */
export function generalTolerance(size: Mm, generalClass: GeneralClass): Outcome<Limits> {
  if (!isUpTo(smallest, size)) return refuse(size, generalClass, tooSmall);
  const width = linear[generalClass][rangeOf(size, linearBounds)];
  if (width === undefined) return refuse(size, generalClass, `ISO 2768-1 gives no ${generalClass} for this nominal size`);
  return success({ lower: mm(-width), upper: mm(width), standard: `ISO 2768-${generalClass}` });
}

/** The general tolerance of an external radius or the height of a chamfer, mm; from 0.5 mm. ISO 2768-1:1989, table 2 (values from memory). */
export function generalToleranceOfEdge(size: Mm, generalClass: GeneralClass): Outcome<Limits> {
  if (!isUpTo(smallest, size)) return refuse(size, generalClass, tooSmall, "a size from 0.5 mm");
  const [upTo3, upTo6, larger] = generalClass === "f" || generalClass === "m" ? [0.2, 0.5, 1] : [0.4, 1, 2];
  const width = (isUpTo(size, 3) ? upTo3 : isUpTo(size, 6) ? upTo6 : larger) as number;
  return success({ lower: mm(-width), upper: mm(width), standard: `ISO 2768-${generalClass}` });
}

/**
 * By how much an angle without a tolerance of its own may be off to either side.
 *
 * @param shorterLeg length of the shorter side of the angle, mm; above 0
 */
export function generalToleranceOfAngle(shorterLeg: Mm, generalClass: GeneralClass): Outcome<Radian> {
  if (!(shorterLeg > 0 && shorterLeg < Number.POSITIVE_INFINITY))
    return refuse(shorterLeg, generalClass, "ISO 2768-1 gives angles by the length of their shorter side", "a length above 0");
  const range = rangeOf(shorterLeg, angularBounds);
  const minutes = angular[generalClass][range === -1 ? angularBounds.length : range] as number;
  return success(radian(((minutes / 60) * Math.PI) / 180));
}

function refuse(size: number, generalClass: GeneralClass, what: string, expected = expectedOf[generalClass]): Outcome<never> {
  return failure({
    at: "",
    what,
    expected,
    got: sizeText(size),
    remedy: "state a tolerance of its own; 0 for a size that is exact",
  });
}

/** Where the first range begins, mm; it has its beginning in it. */
const smallest = 0.5;
const tooSmall = `ISO 2768-1 gives no general tolerance below ${smallest} mm`;

const expectedOf: Readonly<Record<GeneralClass, string>> = {
  f: "a nominal size from 0.5 to 2000 mm",
  m: "a nominal size from 0.5 to 4000 mm",
  c: "a nominal size from 0.5 to 4000 mm",
  v: "a nominal size above 3 and up to 4000 mm",
};

/** ISO 2768-1:1989, table 1 (values from memory; the tests hold them against published ones): ranges of nominal sizes and permissible deviations to either side, mm. */
const linearBounds = [3, 6, 30, 120, 400, 1000, 2000, 4000];
const linear: Readonly<Record<GeneralClass, readonly (number | undefined)[]>> = {
  f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5],
  m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
  c: [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4],
  v: [undefined, 0.5, 1, 1.5, 2.5, 4, 6, 8],
};

/** ISO 2768-1:1989, table 3 (values from memory): minutes of arc, by the shorter side, mm; the last beyond 400 mm. */
const angularBounds = [10, 50, 120, 400];
const angular: Readonly<Record<GeneralClass, readonly number[]>> = {
  f: [60, 30, 20, 10, 5],
  m: [60, 30, 20, 10, 5],
  c: [90, 60, 30, 15, 10],
  v: [180, 120, 60, 30, 20],
};
