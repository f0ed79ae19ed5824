import type { LineOf, LineRefusal, Refusal } from "../formula/evaluateExpression.ts";
import { coverageFactor } from "../uncertainty/coverage.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import { fitStraightLine, type StraightLine, withLeastScatter } from "../uncertainty/straightLine.ts";
import { Tape } from "../uncertainty/tape.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type DoubtfulPoint, uncertainLine } from "../uncertainty/uncertainLine.ts";
import { lineSourceId } from "./cellSource.ts";
import type { ColumnValues } from "./cellValue.ts";

/** A column by the name that formulas know it by. */
export interface NamedColumn {
  readonly name: string;
  readonly values: ColumnValues;
}

type Line = LineOf<Uncertain> | LineRefusal;

/** Lines by the columns that they go through, places first: whatever is read off a line rests on the same sources. */
const lines = new WeakMap<ColumnValues, WeakMap<ColumnValues, Line>>();

/**
 * The straight line through the rows of two columns, by least squares with equal weights (JCGM 100:2008, H.3). Its doubt is what the rows scatter about
 * it, n − 2 degrees of freedom. Rows with nothing in either column are passed over.
 *
 * Places count as exact, and are refused where they are in doubt. Doubts that several values share move the line and are passed on; one that a
 * single value states is refused: independent of the others it shows in the scatter already, and common to them it would be lost.
 */
export function lineThrough(places: NamedColumn, values: NamedColumn): Line {
  const known = lines.get(places.values) ?? new WeakMap<ColumnValues, Line>();
  lines.set(places.values, known);
  const line = known.get(values.values) ?? makeLine(places, values);
  known.set(values.values, line);
  return line;
}

function makeLine(places: NamedColumn, values: NamedColumn): Line {
  const points = pairsOf(places, values);
  if ("what" in points) return points;
  const refusal = refuseDoubts(places.name, values.name, points) ?? refusePoints(places.name, values.name, points);
  if (refusal) return refusal;
  const fitted = fitStraightLine(points.map(({ place, value }) => ({ at: place.value, value: value.value })));
  const line = withLeastScatter(fitted, (values.values.step ?? 0) / Math.sqrt(12));
  if (isExact(line, points)) return refuseExact(values.name);
  const doubtful = points.map(({ place, value }): DoubtfulPoint => ({ at: place.value, value }));
  const { family, suppositions } = values.values.scatter;
  const naming = {
    id: lineSourceId(places.name, values.name),
    label: `${values.name} over ${places.name}`,
    family,
  };
  return { ...uncertainLine(line, naming, new SourceBook({ suppositions }), doubtful), noPlace: refusePlaces(line) };
}

interface Pair {
  readonly row: number;
  readonly place: Uncertain;
  readonly value: Uncertain;
}

function pairsOf(places: NamedColumn, values: NamedColumn): readonly Pair[] | LineRefusal {
  const [across, along] = [places.values.rows, values.values.rows];
  if (across.length !== along.length)
    return {
      of: "values",
      what: `"${places.name}" has ${across.length} rows and "${values.name}" ${along.length}: it is not known which go together`,
      remedy: "put both columns into one table",
    };
  const pairs: Pair[] = [];
  for (const [i, place] of across.entries()) {
    const value = along[i];
    if (place?.ok && value?.ok) pairs.push({ row: i + 1, place: place.value, value: value.value });
    else if (place?.ok) return blank("values", i + 1, values.name, places.name);
    else if (value?.ok) return blank("places", i + 1, places.name, values.name);
  }
  return pairs;
}

function blank(of: LineRefusal["of"], row: number, name: string, other: string): LineRefusal {
  return {
    of,
    what: `row ${row} of "${name}" is empty, and that of "${other}" is not`,
    remedy: "fill it, or empty that row in both columns",
  };
}

function refuseDoubts(places: string, values: string, points: readonly Pair[]): LineRefusal | undefined {
  const doubtful = rowsInDoubt(points.map(({ place }) => place)).rows[0];
  if (doubtful !== undefined)
    return {
      of: "places",
      what: `row ${points[doubtful]?.row} of "${places}" is in doubt, and the places of a line count as exact`,
      remedy: "take the column that is known well for the places, or put its doubt aside with estimate( ) in a column of its own",
    };
  const alone = rowsInDoubt(points.map(({ value }) => value)).byThemselves[0];
  if (alone === undefined) return undefined;
  return {
    of: "values",
    what: `row ${points[alone]?.row} of "${values}" states a doubt of its own: where it differs from row to row it shows in the scatter about the line already, and where it is common to the rows a line would lose it`,
    remedy:
      "put aside what scatters, with estimate( ) in a column of its own, and state what is common in a cell that every row names, as in reading - standard",
  };
}

/** Which of some values are in doubt, and which of them by something that none of the others shares; by their index. */
function rowsInDoubt(values: readonly Uncertain[]): { readonly rows: readonly number[]; readonly byThemselves: readonly number[] } {
  // A tape for each: of thousands of rows that share nothing, the derivatives by all sources of all would fill the memory.
  const sources = values.map((value) => (value.operation.kind === "constant" ? [] : movedBy(value)));
  const counts = new Map<string, number>();
  for (const id of sources.flat()) counts.set(id, (counts.get(id) ?? 0) + 1);
  const where = (test: (ids: readonly string[]) => boolean) => sources.flatMap((ids, row) => (test(ids) ? [row] : []));
  return { rows: where((ids) => ids.length > 0), byThemselves: where((ids) => ids.some((id) => counts.get(id) === 1)) };
}

/** The sources that move a value. */
function movedBy(value: Uncertain): readonly string[] {
  const tape = new Tape([value]);
  const sensitivities = tape.sensitivities(0);
  return tape.sources.flatMap(({ id }, i) => (sensitivities[i] === 0 ? [] : [id]));
}

/** Far within what a double holds, so that squares, slopes and values on the line do as well. */
const [smallest, largest] = [1e-75, 1e75];

function refusePoints(places: string, values: string, points: readonly Pair[]): LineRefusal | undefined {
  if (points.length < 3)
    return {
      of: "values",
      what: `a line needs three rows or more to tell its doubt, and "${values}" has ${points.length}`,
      remedy: "take further readings",
    };
  const at = points.map(({ place }) => place.value);
  const first = at[0] as number;
  const reach = at.reduce((most, place) => Math.max(most, Math.abs(place - first)), 0);
  if (reach === 0)
    return {
      of: "places",
      what: `all places in "${places}" are the same, and through one place a line goes any way`,
      remedy: "take readings at other places",
    };
  const size = points.reduce((most, { place, value }) => Math.max(most, Math.abs(place.value), Math.abs(value.value)), 0);
  if (reach < smallest || size > largest)
    return { of: "places", what: `the numbers of "${places}" and "${values}" are too large, or too near to each other, for a line` };
  return undefined;
}

/** What is left of sums of doubles of this size. */
const rounding = 1e-13;

function isExact({ residualStandardDeviation }: StraightLine, points: readonly Pair[]): boolean {
  return residualStandardDeviation <= rounding * points.reduce((most, { value }) => Math.max(most, Math.abs(value.value)), 0);
}

function refuseExact(values: string): LineRefusal {
  return {
    of: "values",
    what: `all rows of "${values}" lie on one line, and no digit tells by what step they were read: nothing tells its doubt`,
    remedy: "type the values as they were read, or write the line itself as a formula",
  };
}

/**
 * Where the slope cannot be told from none at 95 %, the places that go with a value are without bounds (E. C. Fieller, J. R. Statist. Soc. B 16
 * (1954) 175), and no standard uncertainty says so.
 */
function refusePlaces({ slope, standardUncertaintyOfSlope, degreesOfFreedom }: StraightLine): Refusal | undefined {
  if (Math.abs(slope) > coverageFactor(0.95, degreesOfFreedom) * standardUncertaintyOfSlope) return undefined;
  return {
    what: "these rows do not tell the slope of their line from none (at 95 %), so that a value may belong to any place",
    remedy: "take readings over a longer way, or more of them",
  };
}
