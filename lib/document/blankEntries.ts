import * as v from "valibot";
import { type LedgerBlock, ledgerSchema } from "./ledgerBlocks.ts";
import {
  type CharacteristicEntry,
  type CheckEntry,
  type CheckMoveEntry,
  type ClampEntry,
  type CorrelationEntry,
  type DimensionEntry,
  type ElementEntry,
  type EventEntry,
  type LocatorEntry,
  type SeatTouchEntry,
  type SlipChanceEntry,
  type SpacerEntry,
  type StrategyEntry,
  setupDocumentSchema,
  type ToolEntry,
  type TouchEntry,
  type WorkFrameEntry,
} from "./setupDocument.ts";

const { part, tools, spacers, workFrames, fixture, touches, correlations, strategies, checks, checkMoves, events, slipChances } =
  setupDocumentSchema.entries;

/** New rows of a document, of which only the name is stated: everything else as the schema has it when it is left out. */
export const blankEntries = {
  element: (id: string): ElementEntry => v.parse(part.entries.elements.item, { id, kind: "face" }),
  dimension: (id: string): DimensionEntry => v.parse(part.entries.dimensions.wrapped.item, { id, from: "", to: "" }),
  characteristic: (id: string): CharacteristicEntry => v.parse(part.entries.characteristics.wrapped.item, { id, kind: "position", of: "" }),
  tool: (id: string): ToolEntry => v.parse(tools.item, { id, kind: "touch probe" }),
  spacer: (id: string): SpacerEntry => v.parse(spacers.wrapped.item, { id }),
  workFrame: (id: string): WorkFrameEntry => v.parse(workFrames.wrapped.item, { id }),
  locator: (id: string): LocatorEntry => v.parse(fixture.wrapped.entries.locators.wrapped.item, { id, kind: "pad" }),
  clamp: (id: string): ClampEntry => v.parse(fixture.wrapped.entries.clamps.wrapped.item, { id, pressing: "-Z" }),
  seatTouch: (id: string): SeatTouchEntry => v.parse(fixture.wrapped.entries.seatTouches.wrapped.item, { id }),
  touch: (id: string): TouchEntry => v.parse(touches.item, { id, element: "", travelling: "+X", tool: "" }),
  correlation: (id: string): CorrelationEntry => v.parse(correlations.wrapped.item, { id }),
  strategy: (id: string): StrategyEntry => v.parse(strategies.item, { id, touches: [] }),
  check: (id: string): CheckEntry => v.parse(checks.wrapped.item, { id, element: "", travelling: "+X", tool: "" }),
  checkMove: (id: string): CheckMoveEntry => v.parse(checkMoves.wrapped.item, { id }),
  event: (id: string): EventEntry => v.parse(events.wrapped.item, { id, kind: "zero set" }),
  slipChance: (id: string): SlipChanceEntry => v.parse(slipChances.wrapped.item, { id, slip: "radius or diameter" }),
  /** A block of the ledger; headings and paragraphs have no name. */
  block: (kind: LedgerBlock["kind"], id: string): LedgerBlock =>
    v.parse(ledgerSchema.item, kind === "table" ? { kind, id, columns: [{ id: "value" }], rows: [[""]] } : { kind, id }),
};
