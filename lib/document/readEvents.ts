import { parseMoment } from "../base/moment.ts";
import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { plainNumber } from "../formula/units.ts";
import type { CheckMove, SetupEvent } from "../readings/checks.ts";
import type { SlipChances, SlipKind } from "../readings/slipKinds.ts";
import type { Reading } from "./reading.ts";
import { readRows } from "./rowReader.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** What happened, in the order in which it did. */
export function readEvents({ events }: SetupDocument, reading: Reading, problems: Problem[]): SetupEvent[] {
  const read = readRows(events, "events", reading, problems, ({ id, kind, when, tool }, row): SetupEvent | undefined => {
    const moment = row.take("when", parseMoment(when));
    return moment && { id, kind, when: moment, tool: tool.trim() };
  });
  return read.sort((a, b) => a.when.order - b.when.order);
}

export function readCheckMoves({ checkMoves }: SetupDocument, reading: Reading, problems: Problem[]): CheckMove[] {
  return readRows(checkMoves, "checkMoves", reading, problems, (entry, row) => {
    const clearance = row.required("clearance", entry.clearance, "how far the tip stays above the part");
    if (clearance !== undefined && !(clearance > 0))
      row.refuse("clearance", { what: "the tip must stay above the part", expected: "a length above 0", got: entry.clearance });
    const [x, y, z] = (["x", "y", "z"] as const).map((axis) => row.length(axis, entry[axis]) ?? mm(0));
    return clearance && { id: entry.id, tool: entry.tool.trim(), place: [x ?? 0, y ?? 0, z ?? 0], clearance };
  });
}

/** Chances that a person states for slips, in per cent. */
export function readSlipChances({ slipChances }: SetupDocument, reading: Reading, problems: Problem[]): SlipChances {
  const read = readRows(slipChances, "slipChances", reading, problems, ({ slip, chance }, row): readonly [SlipKind, number] | undefined => {
    const percent = row.sureQuantity("chance", chance.trim().replace(/\s*%$/u, ""), plainNumber);
    if (percent === undefined) return undefined;
    if (percent > 0 && percent < 100) return [slip, percent / 100];
    row.refuse("chance", {
      what: "a chance lies between nothing and certainty",
      expected: "per cent above 0 and below 100, such as 0.2 %",
      got: chance,
    });
    return undefined;
  });
  return new Map(read);
}
