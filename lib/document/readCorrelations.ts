import type { Problem } from "../base/outcome.ts";
import type { Names } from "../formula/names.ts";
import { plainNumber } from "../formula/units.ts";
import { isCellSource } from "../ledger/cellSource.ts";
import { contradictionsIn, relatedGroups, type SourceRelation } from "../uncertainty/relateSources.ts";
import { newReading } from "./reading.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { CorrelationEntry, SetupDocument } from "./setupDocument.ts";

/** What a document says of sources that go together: of the setup, and of cells of a person's own. */
export interface ReadCorrelations {
  /** Of groups with a source of the setup. */
  readonly ofSetup: readonly SourceRelation[];
  /** With a cell on either side. */
  readonly ofCells: readonly SourceRelation[];
  /** Sources of rows that name two and cannot be used: what rests on them would be wrong. */
  readonly unusable: ReadonlySet<string>;
}

/**
 * Reads the rows. One that does not name two sources yet says nothing; whether there are such sources is known where they are made: cells before the
 * setup, which may rest on them. Only here they are all at hand, and that no two coefficients contradict each other is seen to.
 */
export function readCorrelations(
  { correlations, unit }: Pick<SetupDocument, "correlations" | "unit">,
  problems: Problem[] = [],
  names?: Names,
): ReadCorrelations {
  const pairs = new Map<string, string>();
  const read = readRows(correlations, "correlations", newReading(unit, names), problems, (entry, row) => readRow(entry, row, pairs));
  const contradictory = new Set(contradictions(read, problems));
  const relations = read.filter((relation) => !contradictory.has(relation));
  const usable = new Set(relations.map(({ place }) => place));
  const unusable = correlations.filter((entry) => namesTwo(entry) && !usable.has(placeOf(entry)));
  const withSetup = new Set(relatedGroups(relations).flatMap((group) => (group.every(isCellSource) ? [] : group)));
  return {
    ofSetup: relations.filter(({ one }) => withSetup.has(one)),
    ofCells: relations.filter(({ one, other }) => isCellSource(one) || isCellSource(other)),
    unusable: new Set(unusable.flatMap(({ one, other }) => [one.trim(), other.trim()])),
  };
}

/** Relations of cells and the setup that contradict each other, as stated: all of their group. Others are looked at where they are made. */
function contradictions(relations: readonly SourceRelation[], problems: Problem[]): SourceRelation[] {
  return relatedGroups(relations).flatMap((group) => {
    if (group.every(isCellSource) || !group.some(isCellSource)) return [];
    const rows = relations.filter(({ one }) => group.includes(one));
    const found = contradictionsIn(rows);
    problems.push(...found);
    return found.length > 0 ? rows : [];
  });
}

function placeOf({ id }: CorrelationEntry): string {
  return `correlations.${id}`;
}

function namesTwo({ one, other }: Pick<CorrelationEntry, "one" | "other">): boolean {
  return one.trim() !== "" && other.trim() !== "";
}

/** @param pairs places of the pairs before this one */
function readRow(entry: CorrelationEntry, row: RowReader, pairs: Map<string, string>): SourceRelation {
  const [one, other] = [entry.one.trim(), entry.other.trim()];
  for (const end of ["one", "other"] as const)
    if (entry[end].trim() === "")
      row.refuse(end, { what: "two sources go together, and this one is not named yet", expected: "the name of a source", got: "" });
  const coefficient = readCoefficient(entry, row);
  if (namesTwo(entry)) checkPair(one, other, entry, row, pairs);
  return { place: placeOf(entry), one, other, coefficient };
}

function checkPair(one: string, other: string, entry: CorrelationEntry, row: RowReader, pairs: Map<string, string>): void {
  if (one === other) {
    row.refuse("other", {
      what: "a source goes together with itself, whatever is stated",
      expected: "the name of another source",
      got: other,
      remedy: "name another one, or take this row out",
    });
    return;
  }
  const pair = JSON.stringify([one, other].sort());
  const before = pairs.get(pair);
  if (before !== undefined)
    row.refuse("other", { what: `this pair is stated twice, here and at ${before}`, got: other, remedy: "take one of the rows out" });
  else pairs.set(pair, placeOf(entry));
}

/** Undefined where it comes from readings, or cannot be read. */
function readCoefficient({ coefficient: text, evidence, one, other }: CorrelationEntry, row: RowReader): number | undefined {
  const isEmpty = text.trim() === "";
  if (evidence === "read together") {
    if (!isEmpty)
      row.refuse("coefficient", {
        what: "the coefficient comes from the readings that were taken together",
        expected: "nothing",
        got: text,
        remedy: "empty this entry, or say what else the coefficient rests on",
      });
    return undefined;
  }
  if (isEmpty) {
    if (namesTwo({ one, other }))
      row.refuse("coefficient", {
        what: "how far these two go together is not stated",
        expected: "a coefficient from -1 to 1",
        got: "",
        remedy: "state it, or let it come from readings that were taken together",
      });
    return undefined;
  }
  const value = row.sureQuantity("coefficient", text, plainNumber);
  if (value === undefined || Math.abs(value) <= 1) return value;
  row.refuse("coefficient", { what: "this is no correlation coefficient", expected: "a number from -1 to 1", got: text });
  return undefined;
}
