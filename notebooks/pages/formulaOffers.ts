import type { ReadLedger } from "../../lib/document/readLedger.ts";
import { nameDimension } from "../../lib/formula/dimension.ts";
import type { FunctionName } from "../../lib/formula/expression.ts";
import { findUnit, unitSpellings } from "../../lib/formula/units.ts";
import type { WordAtCaret } from "../../lib/formula/wordAt.ts";
import type { FormulaPlace } from "../inputs/formulaPlace.ts";
import type { Offer } from "../inputs/namesThatFit.ts";
import { valueText } from "./ledger/valueText.ts";
import type { SheetResults } from "./sheetResults.ts";

/** What the names of formulas can be, each with what it is or comes to. */
export class FormulaOffers {
  private results: SheetResults | undefined;
  private read: ReadLedger | undefined;
  /** Made of the results and cells that are shown; everything, and what entries of the setup can use. */
  private made: Partial<Record<FormulaPlace["uses"], readonly Offer[]>> = {};

  show(results: SheetResults | undefined, read: ReadLedger | undefined): void {
    // Names stay while results wait.
    if (results === undefined) return;
    this.results = results;
    this.read = read;
    this.made = {};
  }

  at({ uses, locals, self }: FormulaPlace, kind: WordAtCaret["kind"]): readonly Offer[] {
    if (kind === "unit") return units;
    const own = self?.();
    const inPlace = (locals?.() ?? []).filter((name) => name !== own).map((name): Offer => ({ name, about: () => "column of this table" }));
    this.made[uses] ??= this.offers(uses);
    return [...inPlace, ...this.made[uses].filter(({ name }) => name !== own)];
  }

  private offers(uses: FormulaPlace["uses"]): readonly Offer[] {
    const { results, read } = this;
    const cells = [...(results?.own.keys() ?? [])].filter((name) => uses === "everything" || read?.ledger.free.has(name));
    const named = uses === "everything" ? [...(results?.quantities.keys() ?? [])] : [];
    const value = (name: string) => (results && valueText(name, results)) ?? "no value";
    return [
      ...cells.map((name) => ({ name, about: () => value(name) })),
      ...named.map((name) => ({ name, about: () => `${value(name)}, ${results?.quantities.about(name)?.describes}` })),
      ...functions,
    ];
  }
}

const functionWords: Readonly<Record<FunctionName, string>> = {
  sqrt: "square root",
  abs: "size without its sign",
  sin: "sine of an angle",
  cos: "cosine of an angle",
  tan: "tangent of an angle",
  asin: "angle of a sine",
  acos: "angle of a cosine",
  atan: "angle of a tangent",
  atan2: "angle of two lengths: across, along",
  hypot: "root of the sum of squares",
  min: "smallest of several",
  max: "largest of several",
  mean: "mean of several, or of a column",
  sum: "sum of several, or of a column",
  count: "how many there are",
  deviation: "standard deviation of several, or of a column",
  estimate: "its best estimate, the doubt put aside",
  slope_of_line: "slope of the line through two columns: places, values",
  intercept_of_line: "its value at place 0: places, values",
  value_on_line: "its value at a place: places, values, the place",
  place_on_line: "the place where it has a value: places, values, the value",
};

const functions = Object.entries(functionWords).map(([name, words]): Offer => ({ name, closing: "()", about: () => words }));

const units = [...unitSpellings()].map((name): Offer => {
  const dimension = findUnit(name)?.dimension;
  return { name, about: () => (dimension === undefined ? "" : nameDimension(dimension)) };
});
