import { listText } from "../base/listText.ts";
import { entryOf, type Matrix, matrixOf, multiply, pseudoInverse, rankOf, singularValues, transpose } from "../base/matrix.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { meanOf, summariseRepeats } from "../uncertainty/repeats.ts";

/** A feature as it was measured on a made part. */
export interface MeasuredDeviation {
  /** Which part of the run, in the order of making. */
  readonly part: string;
  readonly feature: string;
  /** What cut it. */
  readonly tool: string;
  /** Its nominal place from the part's zero, mm. */
  readonly place: readonly [x: number, y: number];
  readonly axis: "X" | "Y" | "Z";
  /** Made less wanted, mm. */
  readonly deviation: number;
}

/** One way in which the made part can be off: of the zero (a shift), of the coordinates (a turn, a scale), or of one tool against the others. */
export type Cause =
  | { readonly kind: "shift"; readonly axis: "X" | "Y" | "Z" }
  | { readonly kind: "turn" }
  | { readonly kind: "scale" }
  | { readonly kind: "pull"; readonly tool: string; readonly axis: "X" | "Y" | "Z" };

/** How much of the deviations a cause explains: mm; radian for the turn; mm per mm for the scale. */
export interface CauseFound {
  readonly cause: Cause;
  readonly estimate: number;
  /**
   * Of the estimate: with several parts from how it differs between them, with one part from what the causes leave unexplained. Undefined where
   * neither tells anything.
   */
  readonly standardUncertainty: number | undefined;
  readonly degreesOfFreedom: number;
  /** What a scatter of 1 mm of single deviations makes of the estimate of one part: more than 1 where features lie far from the zero and close together. */
  readonly reach: number;
  /** By part, in the order in which the parts came. */
  readonly perPart: readonly number[];
}

/** What deviations of made parts say, and what they do not say. */
export interface Separation {
  /** By cause, in the order asked for; a problem where the measured features cannot tell it from others. */
  readonly causes: readonly { readonly cause: Cause; readonly found: Outcome<CauseFound> }[];
  /** Causes that cannot be told apart, group by group. */
  readonly confounded: readonly (readonly Cause[])[];
  /** Of the estimates from one part by what is left unexplained, rows and columns by the causes that are found; undefined where nothing is left. */
  readonly covariance: Matrix | undefined;
  /** What the causes leave unexplained, mm, in the order of the deviations. */
  readonly residuals: readonly number[];
  /** Of one deviation about what the causes explain, mm; undefined without any to spare. */
  readonly residualStandardDeviation: number | undefined;
  readonly degreesOfFreedom: number;
  readonly parts: number;
}

/**
 * Splits measured deviations into causes by least squares, part by part: dx = sx - θ y + m x + pull, dy = sy + θ x + m y + pull, dz = sz + pull.
 * The pulls of all tools along an axis add up to nothing: what is common to all tools is a shift, and moves with the zero.
 *
 * A cause that is not determined by the features of every part is told with those that it cannot be told from, never given the smallest of many
 * possible values.
 *
 * @param deviations at least one
 */
export function separateDeviations(deviations: readonly MeasuredDeviation[], causes: readonly Cause[]): Outcome<Separation> {
  if (deviations.length === 0)
    return failure({ at: "", what: "no deviation of a made part is there", remedy: "enter what was measured on the first part" });
  const names = [...new Set(deviations.map(({ part }) => part))];
  const fits = names.map((name) =>
    fitPart(
      deviations.filter(({ part }) => part === name),
      causes,
    ),
  );
  const groups = confoundedOf(fits, causes.length);
  const residuals = new Map(fits.flatMap((fit) => fit.measured.map((each, i) => [each, fit.residuals[i] as number])));
  const degreesOfFreedom = fits.reduce((total, { spare }) => total + spare, 0);
  const squares = [...residuals.values()].reduce((total, each) => total + each * each, 0);
  const variance = degreesOfFreedom > 0 ? squares / degreesOfFreedom : undefined;
  const told = causes.flatMap((_, k) => (groups.some((each) => each.includes(k)) ? [] : [k]));
  const covarianceOf = (i: number, j: number, each: number) =>
    meanOf(fits.map(({ inverse }) => entryOf(inverse, told[i] as number, told[j] as number))) * each;
  return success({
    causes: causes.map((cause, k) => {
      const group = groups.find((each) => each.includes(k));
      const found = group
        ? failure(notTold(group.map((each) => causes[each] as Cause)))
        : success(foundOf(k, cause, fits, variance, degreesOfFreedom));
      return { cause, found };
    }),
    confounded: groups.map((group) => group.map((k) => causes[k] as Cause)),
    covariance: variance === undefined ? undefined : matrixOf(told.length, told.length, (i, j) => covarianceOf(i, j, variance)),
    residuals: deviations.map((each) => residuals.get(each) as number),
    residualStandardDeviation: variance === undefined ? undefined : Math.sqrt(variance),
    degreesOfFreedom,
    parts: fits.length,
  });
}

/** A feature that could be measured. */
export type Measurable = Omit<MeasuredDeviation, "deviation" | "part">;

/** Of features that could be measured, those that would help to tell apart what is confounded, the most telling first. */
export function whatWouldSeparate(
  measured: readonly Measurable[],
  causes: readonly Cause[],
  candidates: readonly Measurable[],
): Measurable[] {
  const { unseen, scales, ways } = designOf(measured, causes);
  const told = (candidate: Measurable) => {
    const row = multiply(
      matrixOf(1, causes.length, (_, k) => effectOf(causes[k] as Cause, candidate)),
      ways,
    );
    const scaled = matrixOf(1, ways.columns, (_, k) => entryOf(row, 0, k) / (scales[k] as number));
    return multiply(scaled, unseen).entries.reduce((total, each) => total + each * each, 0);
  };
  return candidates
    .map((candidate) => ({ candidate, told: told(candidate) }))
    .filter((each) => each.told > negligible)
    .sort((a, b) => b.told - a.told)
    .map(({ candidate }) => candidate);
}

/** The causes that measurements like these can have; pulls along an axis only where several tools are measured along it. */
export function usualCauses(measured: readonly Measurable[]): Cause[] {
  const alongAxis = (["X", "Y", "Z"] as const).map((axis) => ({ axis, of: measured.filter((each) => each.axis === axis) }));
  const along = alongAxis.filter(({ of }) => of.length > 0);
  return [
    ...along.map(({ axis }): Cause => ({ kind: "shift", axis })),
    ...(along.some(({ axis }) => axis !== "Z") ? [{ kind: "turn" } as const, { kind: "scale" } as const] : []),
    ...along.flatMap(({ axis, of }): Cause[] => {
      const tools = [...new Set(of.map(({ tool }) => tool))];
      return tools.length > 1 ? tools.map((tool) => ({ kind: "pull", tool, axis })) : [];
    }),
  ];
}

/** Entries of a projector, and squares of them, below this are rounding. */
const negligible = 1e-9;

/** What one of a cause does to a deviation. */
function effectOf(cause: Cause, { axis, tool, place: [x, y] }: Measurable): number {
  if (cause.kind === "turn") return axis === "X" ? -y : axis === "Y" ? x : 0;
  if (cause.kind === "scale") return axis === "X" ? x : axis === "Y" ? y : 0;
  if (cause.axis !== axis) return 0;
  return cause.kind === "shift" || cause.tool === tool ? 1 : 0;
}

interface Design {
  /** Effects by unknown, every column of length 1. */
  readonly design: Matrix;
  readonly scales: readonly number[];
  /** Causes by unknown: each cause is one of its own, but the last pull along an axis is the others' opposite. */
  readonly ways: Matrix;
  /** Orthonormal combinations of the scaled unknowns that no measurement sees, as columns. */
  readonly unseen: Matrix;
  readonly rank: number;
}

function designOf(measured: readonly Measurable[], causes: readonly Cause[]): Design {
  const ways = waysOf(causes);
  const effects = multiply(
    matrixOf(measured.length, causes.length, (i, k) => effectOf(causes[k] as Cause, measured[i] as Measurable)),
    ways,
  );
  const scales = Array.from({ length: ways.columns }, (_, k) => Math.hypot(...measured.map((_each, i) => entryOf(effects, i, k))) || 1);
  const design = matrixOf(measured.length, ways.columns, (i, k) => entryOf(effects, i, k) / (scales[k] as number));
  const decomposition = singularValues(design);
  const rank = rankOf(decomposition, threshold);
  const unseen = matrixOf(ways.columns, ways.columns - rank, (i, j) => entryOf(decomposition.right, i, rank + j));
  return { design, scales, ways, unseen, rank };
}

/** Singular values of a design with columns of length 1 below this are rounding. */
const threshold = 1e-9;

function waysOf(causes: readonly Cause[]): Matrix {
  const isLast = causes.map(
    (cause, k) => cause.kind === "pull" && !causes.slice(k + 1).some((other) => other.kind === "pull" && other.axis === cause.axis),
  );
  const own = causes.flatMap((_, k) => (isLast[k] ? [] : [k]));
  return matrixOf(causes.length, own.length, (k, column) => {
    const unknown = own[column] as number;
    if (k === unknown) return 1;
    const [cause, other] = [causes[k] as Cause, causes[unknown] as Cause];
    return isLast[k] && cause.kind === "pull" && other.kind === "pull" && cause.axis === other.axis ? -1 : 0;
  });
}

interface PartFit {
  readonly measured: readonly MeasuredDeviation[];
  /** By cause. */
  readonly estimates: readonly number[];
  /** (AᵀA)⁻¹ by cause: the covariance of the estimates for deviations of variance 1. */
  readonly inverse: Matrix;
  readonly residuals: readonly number[];
  /** More measurements than unknowns that they determine. */
  readonly spare: number;
  /** What no measurement sees, by cause. */
  readonly unseen: Matrix;
}

function fitPart(measured: readonly MeasuredDeviation[], causes: readonly Cause[]): PartFit {
  const { design, scales, ways, unseen, rank } = designOf(measured, causes);
  const inverse = pseudoInverse(design, threshold);
  const column = matrixOf(measured.length, 1, (i) => (measured[i] as MeasuredDeviation).deviation);
  const solution = multiply(inverse, column);
  const explained = multiply(design, solution);
  const byCause = multiply(
    ways,
    matrixOf(ways.columns, measured.length, (k, i) => entryOf(inverse, k, i) / (scales[k] as number)),
  );
  return {
    measured,
    estimates: multiply(byCause, column).entries,
    inverse: multiply(byCause, transpose(byCause)),
    residuals: measured.map(({ deviation }, i) => deviation - entryOf(explained, i, 0)),
    spare: measured.length - rank,
    // By scaled unknowns, so that a turn counts by what it moves and not by its unit.
    unseen: multiply(ways, unseen),
  };
}

/** Causes that some part does not determine, together with those that they are entangled with there. */
function confoundedOf(fits: readonly PartFit[], count: number): number[][] {
  const groups: number[][] = [];
  for (const { unseen } of fits) {
    const tangled = multiply(unseen, transpose(unseen));
    for (let i = 0; i < count; i++) {
      if (!(entryOf(tangled, i, i) > negligible)) continue;
      const group = Array.from({ length: count }, (_, k) => k).filter((k) => k === i || Math.abs(entryOf(tangled, i, k)) > negligible);
      merge(groups, group);
    }
  }
  return groups;
}

function merge(groups: number[][], group: readonly number[]): void {
  const touching = groups.filter((each) => each.some((k) => group.includes(k)));
  for (const each of touching) groups.splice(groups.indexOf(each), 1);
  groups.push([...new Set([...touching.flat(), ...group])].sort((a, b) => a - b));
}

function foundOf(k: number, cause: Cause, fits: readonly PartFit[], variance: number | undefined, degreesOfFreedom: number): CauseFound {
  const perPart = fits.map(({ estimates }) => estimates[k] as number);
  const estimate = meanOf(perPart);
  const reach = Math.sqrt(meanOf(fits.map(({ inverse }) => entryOf(inverse, k, k))));
  if (perPart.length === 1) {
    const standardUncertainty = variance === undefined ? undefined : Math.sqrt(variance) * reach;
    return { cause, estimate, standardUncertainty, degreesOfFreedom, reach, perPart };
  }
  const { standardUncertaintyOfMean } = summariseRepeats(perPart);
  return { cause, estimate, standardUncertainty: standardUncertaintyOfMean, degreesOfFreedom: perPart.length - 1, reach, perPart };
}

function notTold(causes: readonly Cause[]): Problem {
  const names = causes.map(describeCause);
  return {
    at: "",
    what:
      causes.length === 1 ? `no measured feature shows ${names[0]}` : `${listText(names)} cannot be told apart by the features measured`,
    remedy: "measure one more feature that they move differently",
  };
}

/** A cause in words. */
export function describeCause(cause: Cause): string {
  if (cause.kind === "shift") return `a shift along ${cause.axis}`;
  if (cause.kind === "turn") return "a turn";
  if (cause.kind === "scale") return "a change of scale";
  return `a pull of "${cause.tool}" along ${cause.axis}`;
}
