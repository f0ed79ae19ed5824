import { leastIn } from "../part/wall.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** The entries of each table in which formulas can stand. */
const formulaEntries = {
  elements: [
    "facing",
    "inclination",
    "x",
    "y",
    "z",
    "diameter",
    "diameterTolerance",
    "roughness",
    "skew",
    "lobeAmplitude",
    "process",
    "deflection",
    "outOfSquare",
  ],
  dimensions: ["nominal", "tolerance", "measured", "measuredUncertainty"],
  characteristics: ["tolerance", "length", "width"],
  tools: [
    "diameter",
    "radius",
    "radiusUncertainty",
    "lateTrigger",
    "eccentricity",
    "scatter",
    "length",
    "lengthUncertainty",
    "leverAngle",
    "leverAngleUncertainty",
    "leverAngleLimit",
    "touchMinutes",
  ],
  spacers: ["thickness", "uncertainty"],
  workFrames: ["x", "y", "z", "uncertainty"],
  locators: ["x", "y", "z", "span", "angle", "diameter", "diameterTolerance", "clearance", "height", "heightError", "seat", "debris"],
  clamps: ["x", "y", "z"],
  seatTouches: ["x", "y", "reading", "baseline"],
  touches: ["readings", "x", "y", "z"],
  measured: ["x", "y", "z"],
  madeCorrections: ["x", "y", "z"],
  warmUpReadings: ["minutes", "reading"],
  offsets: ["x", "y", "z", "turn"],
  nests: ["x", "y", "foundX", "foundY"],
  checks: ["readings", "x", "y", "z"],
  checkMoves: ["x", "y", "z", "clearance"],
  slipChances: ["chance"],
  correlations: ["coefficient"],
} as const;

const fixtureEntries = ["seatScatter", "wantedError"] as const;
const madePartsEntries = ["partScatter"] as const;
const decisionEntries = ["inspection"] as const;
const warmUpEntries = ["start", "allowed", "cycle", "setAt"] as const;
const warmEntries = ["temperature", "temperatureUncertainty", "coefficient", "coefficientUncertainty"] as const;
const machineEntries = ["offsetStep", "displayStep", "positioning", "positioningOver", "squarenessOver"] as const;

/**
 * The document with every formula in it changed; what stays the same stays the same object.
 *
 * @param change gets each text and its place, as problems name it: `tools.probe.radius`, `ledger.wall.entry`
 */
export function mapFormulas(document: SetupDocument, change: (text: string, place: string) => string): SetupDocument {
  const rows = <R extends { readonly id: string }, K extends keyof R & string>(
    table: string,
    list: readonly R[],
    entries: readonly K[],
    changeOne = change,
  ): R[] => sameOr(list, (row) => withEntries(row, entries, changeOne, `${table}.${row.id}`));
  // What stands behind "at least" is the formula.
  const changeDemand = (text: string, place: string) => {
    const least = leastIn(text);
    return least === undefined ? change(text, place) : text.slice(0, text.length - least.length) + change(least, place);
  };
  const perAxis = <T extends object>(value: T, place: string): T =>
    withEntries(value, ["x", "y", "z"] as unknown as (keyof T & string)[], change, place);
  const { part, machine, fixture, madeParts, warmUp, decision, heat } = document;
  return same(document, {
    ...document,
    part: same(part, {
      ...part,
      elements: rows("part.elements", part.elements, formulaEntries.elements),
      dimensions: rows("part.dimensions", part.dimensions, formulaEntries.dimensions),
      characteristics: rows("part.characteristics", part.characteristics, formulaEntries.characteristics, changeDemand),
    }),
    tools: rows("tools", document.tools, formulaEntries.tools),
    spacers: rows("spacers", document.spacers, formulaEntries.spacers),
    workFrames: rows("workFrames", document.workFrames, formulaEntries.workFrames),
    fixture: same(fixture, {
      ...withEntries(fixture, fixtureEntries, change, "fixture"),
      locators: rows("fixture.locators", fixture.locators, formulaEntries.locators),
      clamps: rows("fixture.clamps", fixture.clamps, formulaEntries.clamps),
      seatTouches: rows("fixture.seatTouches", fixture.seatTouches, formulaEntries.seatTouches),
    }),
    madeParts: same(madeParts, {
      ...withEntries(madeParts, madePartsEntries, change, "madeParts"),
      measured: rows("madeParts.measured", madeParts.measured, formulaEntries.measured),
      corrections: rows("madeParts.corrections", madeParts.corrections, formulaEntries.madeCorrections),
    }),
    warmUp: same(warmUp, {
      ...withEntries(warmUp, warmUpEntries, change, "warmUp"),
      readings: rows("warmUp.readings", warmUp.readings, formulaEntries.warmUpReadings),
    }),
    heat: same(heat, {
      ...heat,
      part: withEntries(heat.part, warmEntries, change, "heat.part"),
      scale: withEntries(heat.scale, warmEntries, change, "heat.scale"),
    }),
    touches: sameOr(rows("touches", document.touches, formulaEntries.touches), (touch) =>
      same(touch, { ...touch, total: perAxis(touch.total, `touches.${touch.id}.total`) }),
    ),
    checks: rows("checks", document.checks, formulaEntries.checks),
    checkMoves: rows("checkMoves", document.checkMoves, formulaEntries.checkMoves),
    slipChances: rows("slipChances", document.slipChances, formulaEntries.slipChances),
    correlations: rows("correlations", document.correlations, formulaEntries.correlations),
    strategies: sameOr(document.strategies, (strategy) =>
      same(strategy, { ...strategy, zero: perAxis(strategy.zero, `strategies.${strategy.id}.zero`) }),
    ),
    offsets: rows("offsets", document.offsets, formulaEntries.offsets),
    decision: same(decision, withEntries(decision, decisionEntries, change, "decision")),
    nests: rows("nests", document.nests, formulaEntries.nests),
    machine: same(machine, {
      ...withEntries(machine, machineEntries, change, "machine"),
      lostMotion: perAxis(machine.lostMotion, "machine.lostMotion"),
      squareness: perAxis(machine.squareness, "machine.squareness"),
    }),
    ledger: sameOr(document.ledger, (block) => {
      if (block.kind === "cell") return withEntries(block, ["entry", "instead"], change, `ledger.${block.id}`);
      if (block.kind !== "table") return block;
      const place = (column: number) => `ledger.${block.id}.${block.columns[column]?.id}`;
      return same(block, {
        ...block,
        columns: sameOr(block.columns, (column, c) => withEntries(column, ["formula"], change, place(c))),
        rows: sameOr(block.rows, (row, r) => sameOr(row, (text, c) => change(text, `${place(c)}.${r + 1}`))),
      });
    }),
  });
}

function withEntries<R extends object, K extends keyof R & string>(
  row: R,
  entries: readonly K[],
  change: (text: string, place: string) => string,
  place: string,
): R {
  let changed = row;
  for (const entry of entries) {
    const text = row[entry];
    if (typeof text !== "string") continue;
    const next = change(text, `${place}.${entry}`);
    if (next !== text) changed = { ...changed, [entry]: next };
  }
  return changed;
}

function sameOr<T>(list: readonly T[], change: (item: T, index: number) => T): T[] {
  const changed = list.map(change);
  return changed.every((item, i) => item === list[i]) ? (list as T[]) : changed;
}

/** The first where every entry of the second is the same. */
function same<T extends object>(before: T, after: T): T {
  return (Object.keys(after) as (keyof T)[]).every((key) => after[key] === before[key]) ? before : after;
}
