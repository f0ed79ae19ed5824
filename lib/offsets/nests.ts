import { entryOf, singularValues } from "../base/matrix.ts";
import { once } from "../base/once.ts";
import { failure, type Outcome, success } from "../base/outcome.ts";
import { type Turn, turnBy } from "../datum/turn.ts";
import type { NestPlace } from "../equipment/nestPlace.ts";
import { type Budget, budgetsOf } from "../uncertainty/budget.ts";
import { covarianceMatrix } from "../uncertainty/covariance.ts";
import { chiSquareUpperTail } from "../uncertainty/special/chiSquare.ts";
import { binary, certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";

/** A nest that was found in the machine. */
export type Nest = NestPlace & { readonly found: readonly [x: Uncertain, y: Uncertain] };

/** Columns and rows of nests at equal distances. */
export interface NestGrid {
  /** Whole numbers from 1. */
  readonly columns: number;
  readonly rows: number;
  /** From one column, and from one row, to the next, mm; nominal or measured, with its doubt. */
  readonly pitch: readonly [x: Uncertain, y: Uncertain];
  /** Of the grid against the machine, about Z, radians. */
  readonly turn: Uncertain;
}

/**
 * The local shift of every nest of a grid, column by column in each row: k pitches along, turned as the grid is turned. The pitch is one doubt for all
 * of them, so that the last nest bears it as many times as there are pitches to it.
 *
 * @throws RangeError unless columns and rows are whole numbers from 1
 */
export function nestGrid({
  columns,
  rows,
  pitch: [alongX, alongY],
  turn,
}: NestGrid): { readonly column: number; readonly row: number; readonly shift: readonly [Uncertain, Uncertain] }[] {
  for (const [name, count] of Object.entries({ columns, rows }))
    if (!(Number.isInteger(count) && count >= 1)) throw new RangeError(`${name}: expected a whole number from 1, got ${count}`);
  const { cosine, sine } = turnBy(turn);
  return Array.from({ length: rows * columns }, (_, i) => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const [x, y] = [alongX.times(column), alongY.times(row)];
    return {
      column: column + 1,
      row: row + 1,
      shift: [x.times(cosine).minus(y.times(sine)), x.times(sine).plus(y.times(cosine))] as const,
    };
  });
}

/** What one zero makes of all nests that were found: shifted alone, and shifted and turned. Worked out when it is first asked for. */
export interface NestsEvaluation {
  readonly places: readonly NestPlace[];
  readonly shifted: Outcome<NestFit>;
  readonly turned: Outcome<NestFit>;
}

/** Undefined where no nests are stated. */
export function evaluateNests(places: readonly NestPlace[]): NestsEvaluation | undefined {
  if (places.length === 0) return undefined;
  const found = places.filter((place): place is Nest => place.found !== undefined);
  const fitted = (rotation: boolean) =>
    once(() =>
      found.length === 0
        ? failure({
            at: "nests",
            what: "no nest was found yet, so nothing is known of how well one zero serves all",
            remedy: "state where the nests were found",
          })
        : fitNests(found, { rotation }),
    );
  const [shifted, turned] = [fitted(false), fitted(true)];
  return {
    places,
    get shifted() {
      return shifted();
    },
    get turned() {
      return turned();
    },
  };
}

/** One zero, and one turn, for all nests. */
export interface NestFit {
  /** Where the first nest's nominal place is to be put, mm: the shift of the zero that serves all nests best. */
  readonly shift: readonly [Budget, Budget];
  /** About Z, radians; exactly 0 where no turn was asked for. */
  readonly rotation: Budget;
  /** How far each nest was found from where the fit has it, mm. */
  readonly residuals: readonly { readonly id: string; readonly x: Budget; readonly y: Budget }[];
  /** Whether the residuals are what the doubts of the places explain; undefined where the places are exact, or just enough for the fit. */
  readonly chiSquare: { readonly value: number; readonly degreesOfFreedom: number; readonly upperTail: number } | undefined;
}

/** Beyond this the nests' covariance takes long to work out, and no fixture has more. */
const mostNests = 60;

/**
 * The best fit of nests: shift, and turn where one is wanted, that minimise Σ |found - (shift + Rot(θ) nominal)|², every nest alike. In the plane the solution
 * is closed: θ = atan2(Σ p × q, Σ p · q) of the places about their middles, and the shift takes the middle to the middle (B. K. P. Horn, J. Opt. Soc. Am. A 4
 * (1987) 629-642). It is worked out over uncertain values, so that the covariance of the result, and what nests share, follows by itself.
 *
 * Chi-square is rᵀ C⁺ r of the residuals r with their own covariance C, which is that of Σ (r/u)² where all places are found apart from each other and
 * alike.
 */
export function fitNests(nests: readonly Nest[], { rotation }: { readonly rotation: boolean }): Outcome<NestFit> {
  const least = rotation ? 2 : 1;
  if (nests.length < least || nests.length > mostNests)
    return failure({
      at: "nests",
      what: rotation && nests.length === 1 ? "one nest tells no turn" : "there are too few nests for a fit, or too many",
      expected: `${least} to ${mostNests} nests`,
      got: String(nests.length),
    });
  const count = nests.length;
  const middle = (of: (nest: Nest) => Uncertain) => sum(nests.map(of)).over(count);
  const nominal = ([0, 1] as const).map((i) => nests.reduce((total, nest) => total + nest.nominal[i], 0) / count) as [number, number];
  const found = [middle((nest) => nest.found[0]), middle((nest) => nest.found[1])] as const;
  const about = nests.map((nest) => ({
    p: [nest.nominal[0] - nominal[0], nest.nominal[1] - nominal[1]] as const,
    q: [nest.found[0].minus(found[0]), nest.found[1].minus(found[1])] as const,
  }));
  if (rotation && about.every(({ p }) => Math.hypot(...p) === 0))
    return failure({
      at: "nests",
      what: "all nests are meant to be at one place, which tells no turn",
      expected: "nests apart from each other",
    });
  const across = sum(about.map(({ p: [x, y], q }) => q[1].times(x).minus(q[0].times(y))));
  const along = sum(about.map(({ p: [x, y], q }) => q[0].times(x).plus(q[1].times(y))));
  const angle = rotation ? binary("arctangent2", across, along) : certain(0);
  const turn = turnBy(angle);
  const moved = (p: readonly [number, number]) => turnedPoint(p, turn);
  const ofMiddle = moved(nominal);
  const shift = [found[0].minus(ofMiddle[0]), found[1].minus(ofMiddle[1])] as const;
  const residuals = nests.map(({ id, nominal: p, found: q }) => {
    const [x, y] = moved(p);
    return { id, x: q[0].minus(x).minus(shift[0]), y: q[1].minus(y).minus(shift[1]) };
  });
  const budgets = budgetsOf([...shift, angle, ...residuals.flatMap(({ x, y }) => [x, y])]);
  const [shiftX, shiftY, turned, ...rest] = budgets as [Budget, Budget, Budget, ...Budget[]];
  return success({
    shift: [shiftX, shiftY],
    rotation: turned,
    residuals: residuals.map(({ id }, i) => ({ id, x: rest[2 * i] as Budget, y: rest[2 * i + 1] as Budget })),
    chiSquare: chiSquareOf(rest, 2 * count - (rotation ? 3 : 2)),
  });
}

function turnedPoint([x, y]: readonly [number, number], { cosine, sine }: Turn): readonly [Uncertain, Uncertain] {
  return [cosine.times(x).minus(sine.times(y)), sine.times(x).plus(cosine.times(y))];
}

/** Singular values below this share of the largest are those of the directions that the fit has taken out. */
const negligible = 1e-9;

/** @param most degrees of freedom that places apart from each other leave; what they share takes away more */
function chiSquareOf(residuals: readonly Budget[], most: number): NestFit["chiSquare"] {
  if (most <= 0) return undefined;
  const { values, right } = singularValues(covarianceMatrix(residuals));
  const largest = values[0] ?? 0;
  if (!(largest > 0)) return undefined;
  let value = 0;
  let degreesOfFreedom = 0;
  // A sum of squares along the principal directions, which no rounding can make negative.
  values.forEach((variance, k) => {
    if (!(variance > negligible * largest)) return;
    degreesOfFreedom++;
    const along = residuals.reduce((total, residual, i) => total + residual.value * entryOf(right, i, k), 0);
    value += along ** 2 / variance;
  });
  return { value, degreesOfFreedom, upperTail: chiSquareUpperTail(value, degreesOfFreedom) };
}
