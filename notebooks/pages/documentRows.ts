import { type QuantityPlace, quantityEndings } from "../../lib/decision/quantityNames.ts";
import { renameQuantities } from "../../lib/document/renameQuantities.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { changeRow, changeRows, keepKey } from "../inputs/rows.ts";

/** Every table of a document, by its place there. */
export interface RowsByPlace {
  touches: SetupDocument["touches"];
  strategies: SetupDocument["strategies"];
  "part.elements": SetupDocument["part"]["elements"];
  "part.dimensions": SetupDocument["part"]["dimensions"];
  "part.characteristics": SetupDocument["part"]["characteristics"];
  "part.datumSystems": SetupDocument["part"]["datumSystems"];
  tools: SetupDocument["tools"];
  spacers: SetupDocument["spacers"];
  workFrames: SetupDocument["workFrames"];
  "fixture.locators": SetupDocument["fixture"]["locators"];
  "fixture.clamps": SetupDocument["fixture"]["clamps"];
  "fixture.seatTouches": SetupDocument["fixture"]["seatTouches"];
  correlations: SetupDocument["correlations"];
  operations: SetupDocument["operations"];
  "madeParts.measured": SetupDocument["madeParts"]["measured"];
  "madeParts.corrections": SetupDocument["madeParts"]["corrections"];
  "warmUp.readings": SetupDocument["warmUp"]["readings"];
  offsets: SetupDocument["offsets"];
  nests: SetupDocument["nests"];
  checks: SetupDocument["checks"];
  checkMoves: SetupDocument["checkMoves"];
  events: SetupDocument["events"];
  slipChances: SetupDocument["slipChances"];
}
export type Place = keyof RowsByPlace;

/** In the order in which names are looked for. */
export const places = [
  "touches",
  "strategies",
  "part.characteristics",
  "part.elements",
  "part.dimensions",
  "part.datumSystems",
  "tools",
  "spacers",
  "workFrames",
  "fixture.locators",
  "fixture.clamps",
  "fixture.seatTouches",
  "correlations",
  "operations",
  "madeParts.measured",
  "madeParts.corrections",
  "warmUp.readings",
  "offsets",
  "nests",
  "checks",
  "checkMoves",
  "events",
  "slipChances",
] as const satisfies readonly Place[];

export function rowsAt<P extends Place>(document: SetupDocument, place: P): RowsByPlace[P] {
  const [section, table] = partsOf(place);
  const held = document[section as keyof SetupDocument];
  return (table === undefined ? held : (held as unknown as Record<string, unknown>)[table]) as RowsByPlace[P];
}

function partsOf(place: Place): readonly [section: string, table?: string] {
  const dot = place.indexOf(".");
  return dot < 0 ? [place] : [place.slice(0, dot), place.slice(dot + 1)];
}

/** The document with other rows in one of its tables; the document itself if they are the same. */
export function withRows<P extends Place>(document: SetupDocument, place: P, rows: RowsByPlace[P]): SetupDocument {
  if (rowsAt(document, place) === rows) return document;
  const [section, table] = partsOf(place);
  return {
    ...document,
    [section]: table === undefined ? rows : { ...(document[section as keyof SetupDocument] as object), [table]: rows },
  };
}

/** Says of a document in which entries were changed and no row came, went or moved that its rows are those of the other. */
export function keepRows(before: SetupDocument, after: SetupDocument): SetupDocument {
  for (const place of places) {
    const rows = rowsAt(after, place) as readonly object[];
    for (const [i, row] of (rowsAt(before, place) as readonly object[]).entries()) keepKey(row, rows[i] as object);
  }
  for (const [i, block] of before.ledger.entries()) {
    const other = after.ledger[i] as typeof block;
    keepKey(block, other);
    if (block.kind === "table" && other.kind === "table")
      for (const [r, row] of block.rows.entries()) keepKey(row, other.rows[r] as object);
  }
  return after;
}

/**
 * The document with a row renamed, and with it every entry that names it. A name that two rows have says
 * nothing about which of them is meant: then only the row itself changes, whether they have it before or after.
 */
export function renameRow(document: SetupDocument, place: Place, index: number, name: string): SetupDocument {
  const rows = rowsAt(document, place) as { readonly id: string }[];
  const old = rows[index]?.id;
  if (old === undefined || old === name) return document;
  const renamed = withRows(
    document,
    place,
    rows.map((row, i) => (i === index ? changeRow(row, { id: name }) : row)) as RowsByPlace[typeof place],
  );
  const isOnlyOne = rows.filter(({ id }) => id === old).length === 1 && !rows.some(({ id }) => id === name);
  if (!isOnlyOne) return renamed;
  const referred = renameReferences(renamed, place, (id) => (id === old ? name : id));
  return hasNoQuantities(place) ? referred : renameQuantities(referred, place, old, name);
}

/** Whether nothing that formulas can name carries the names of its rows. */
function hasNoQuantities(place: Place): place is Exclude<Place, QuantityPlace> {
  return !(place in quantityEndings);
}

function renameReferences(document: SetupDocument, place: Place, to: (id: string) => string): SetupDocument {
  const each = (ids: string[]) => (ids.every((id) => to(id) === id) ? ids : ids.map(to));
  switch (place) {
    case "tools":
      return {
        ...document,
        touches: changeRows(document.touches, (touch) => changeRow(touch, { tool: to(touch.tool) })),
        checks: changeRows(document.checks, (check) => changeRow(check, { tool: to(check.tool) })),
        checkMoves: changeRows(document.checkMoves, (move) => changeRow(move, { tool: to(move.tool) })),
        events: changeRows(document.events, (event) => changeRow(event, { tool: to(event.tool) })),
      };
    case "spacers":
      return {
        ...document,
        touches: changeRows(document.touches, (touch) => changeRow(touch, { spacer: to(touch.spacer) })),
        checks: changeRows(document.checks, (check) => changeRow(check, { spacer: to(check.spacer) })),
      };
    case "workFrames":
      return {
        ...document,
        touches: changeRows(document.touches, (touch) => changeRow(touch, { frame: to(touch.frame) })),
        checks: changeRows(document.checks, (check) => changeRow(check, { frame: to(check.frame) })),
        strategies: changeRows(document.strategies, (strategy) => changeRow(strategy, { fixtureFrame: to(strategy.fixtureFrame) })),
      };
    case "touches":
      return {
        ...document,
        strategies: changeRows(document.strategies, (strategy) => changeRow(strategy, { touches: each(strategy.touches) })),
      };
    case "strategies":
      return {
        ...document,
        chosen: to(document.chosen),
        operations: changeRows(document.operations, (operation) => changeRow(operation, { chosen: to(operation.chosen) })),
      };
    case "operations":
      return renameOperation(document, to);
    case "part.datumSystems":
      return {
        ...document,
        part: {
          ...document.part,
          characteristics: changeRows(document.part.characteristics, (demand) => changeRow(demand, { datums: to(demand.datums) })),
        },
      };
    case "offsets":
      return { ...document, offsets: changeRows(document.offsets, (row) => changeRow(row, { restores: to(row.restores) })) };
    case "nests":
      return { ...document, offsets: changeRows(document.offsets, (row) => changeRow(row, { nest: to(row.nest) })) };
    case "part.elements":
      return renameElement(document, to, each);
    case "fixture.locators":
      return renameLocator(document, to);
    default:
      return document;
  }
}

function renameOperation(document: SetupDocument, to: (id: string) => string): SetupDocument {
  const owned = <R extends { readonly id: string; operation?: string | undefined }>(rows: R[]): R[] =>
    changeRows(rows, (row) => (row.operation === undefined ? row : changeRow(row, { operation: to(row.operation) } as Partial<R>)));
  const { part, fixture, madeParts } = document;
  return {
    ...document,
    operation: to(document.operation),
    part: { ...part, elements: owned(part.elements) },
    fixture: {
      ...fixture,
      locators: owned(fixture.locators),
      clamps: owned(fixture.clamps),
      seatTouches: owned(fixture.seatTouches),
    },
    madeParts: { ...madeParts, corrections: owned(madeParts.corrections) },
    touches: owned(document.touches),
    checks: owned(document.checks),
    checkMoves: owned(document.checkMoves),
    strategies: owned(document.strategies),
  };
}

/** Touches and checks name a locator where no element of the part has its name. */
function renameLocator(document: SetupDocument, to: (id: string) => string): SetupDocument {
  const elements = new Set(document.part.elements.map(({ id }) => id));
  const met = (element: string) => (elements.has(element) ? element : to(element));
  return {
    ...document,
    touches: changeRows(document.touches, (touch) => changeRow(touch, { element: met(touch.element) })),
    checks: changeRows(document.checks, (check) => changeRow(check, { element: met(check.element) })),
  };
}

function renameElement(document: SetupDocument, to: (id: string) => string, each: (ids: string[]) => string[]): SetupDocument {
  const { part } = document;
  return {
    ...document,
    part: {
      ...part,
      elements: changeRows(part.elements, (element) =>
        element.of === undefined ? element : changeRow(element, { of: each(element.of) as [string, string] }),
      ),
      dimensions: changeRows(part.dimensions, (dimension) => changeRow(dimension, { from: to(dimension.from), to: to(dimension.to) })),
      characteristics: changeRows(part.characteristics, (characteristic) =>
        changeRow(characteristic, { of: to(characteristic.of), also: each(characteristic.also), from: to(characteristic.from) }),
      ),
      datumSystems: changeRows(part.datumSystems, (system) =>
        changeRow(system, { primary: to(system.primary), secondary: to(system.secondary), tertiary: to(system.tertiary) }),
      ),
    },
    fixture: {
      ...document.fixture,
      locators: changeRows(document.fixture.locators, (locator) => changeRow(locator, { element: to(locator.element) })),
    },
    madeParts: {
      ...document.madeParts,
      measured: changeRows(document.madeParts.measured, (feature) => changeRow(feature, { element: to(feature.element) })),
    },
    touches: changeRows(document.touches, (touch) => changeRow(touch, { element: to(touch.element) })),
    checks: changeRows(document.checks, (check) => changeRow(check, { element: to(check.element) })),
    strategies: changeRows(document.strategies, (strategy) => {
      const { x, y, z } = strategy.zero;
      const zero = [x, y, z].every((at) => to(at) === at) ? strategy.zero : { x: to(x), y: to(y), z: to(z) };
      return changeRow(strategy, { hold: each(strategy.hold), orient: each(strategy.orient), zero });
    }),
  };
}
