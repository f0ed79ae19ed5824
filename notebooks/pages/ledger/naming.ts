import { describeProblem, type Outcome } from "../../../lib/base/outcome.ts";
import { checkBlockName, type NamesElsewhere, renameBlock, renameColumn } from "../../../lib/document/renameBlock.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { keepRows } from "../documentRows.ts";
import { changeBlock, indexOfBlock } from "./blocks.ts";

/** A document with another name in it, or why it cannot have that. */
export interface Renamed {
  readonly document: SetupDocument;
  readonly refusal: string | undefined;
}

/** Gives a cell or a free table another name, wherever it is named. */
export function nameBlock(document: SetupDocument, key: string, name: string, elsewhere: NamesElsewhere): Renamed {
  const block = document.ledger[indexOfBlock(document.ledger, key)];
  if (block?.kind !== "cell" && block?.kind !== "table") return { document, refusal: undefined };
  const isOnlyOne = document.ledger.filter((each) => (each.kind === "cell" || each.kind === "table") && each.id === block.id).length === 1;
  if (isOnlyOne) return renamed(document, renameBlock(document, block.id, name, elsewhere));
  // A name that two have says nothing about which of them is meant: formulas stay with the other.
  const checked = checkBlockName(document, block, name, elsewhere);
  if (!checked.ok) return renamed(document, checked);
  return { document: { ...document, ledger: changeBlock(document.ledger, key, { id: checked.value }) }, refusal: undefined };
}

/** Gives a column of a free table another name, wherever it is named. */
export function nameColumn(document: SetupDocument, key: string, column: number, name: string, elsewhere: NamesElsewhere): Renamed {
  const block = document.ledger[indexOfBlock(document.ledger, key)];
  const from = block?.kind === "table" ? block.columns[column]?.id : undefined;
  if (block?.kind !== "table" || from === undefined) return { document, refusal: undefined };
  return renamed(document, renameColumn(document, block.id, from, name, elsewhere));
}

function renamed(before: SetupDocument, after: Outcome<SetupDocument>): Renamed {
  if (after.ok) return { document: keepRows(before, after.value), refusal: undefined };
  return { document: before, refusal: after.problems.map((problem) => describeProblem(problem)).join(" ") };
}
