import { lookedAt } from "../../lib/document/operationDocument.ts";
import type { SetupDocument, StrategyEntry } from "../../lib/document/setupDocument.ts";
import { changeRow, changeRows, freeName } from "../inputs/rows.ts";
import type { OfferedStrategy } from "../worker/studyMessages.ts";

const noZero: StrategyEntry["zero"] = { x: "", y: "", z: "" };

/** The document with one more strategy, for the same part zero and in the same operation as another; and the name that it got. */
export function withStrategy(
  before: SetupDocument,
  { touches, hold, orient, rotation, sizes }: OfferedStrategy["entry"],
  wanted: string,
  like: string,
): { readonly document: SetupDocument; readonly id: string } {
  const names = before.strategies.map(({ id }) => id);
  const id = names.includes(wanted) ? freeName(wanted, names) : wanted;
  const model = before.strategies.find((strategy) => strategy.id === like);
  const operation = model ? model.operation : lookedAt(before).operation;
  const added: StrategyEntry = {
    id,
    touches: [...touches],
    hold: [...hold],
    orient: [...orient],
    rotation,
    sizes,
    zero: model?.zero ?? noZero,
    fixtureFrame: "",
    note: "",
    ...(operation !== undefined && operation !== "" && { operation }),
  };
  return { document: { ...before, strategies: [...before.strategies, added] }, id };
}

/** The document with some entries of a strategy changed; the document itself where there is none by this name. */
export function changeStrategy(before: SetupDocument, id: string, change: (row: StrategyEntry) => Partial<StrategyEntry>): SetupDocument {
  const index = before.strategies.findIndex((strategy) => strategy.id === id);
  const strategies = changeRows(before.strategies, (row) => (row === before.strategies[index] ? changeRow(row, change(row)) : row));
  return strategies === before.strategies ? before : { ...before, strategies };
}

/** The names with some put in or taken out: new ones at the place that `order` gives them, where the others keep to it. */
export function toggled(names: readonly string[], changed: readonly string[], isIn: boolean, order: readonly string[]): string[] {
  const rest = names.filter((name) => !changed.includes(name));
  if (!isIn) return rest;
  const all = [...rest, ...changed];
  const place = (name: string) => order.indexOf(name);
  const keeps = names.every((name, i) => place(name) >= 0 && (i === 0 || place(names[i - 1] as string) < place(name)));
  return keeps ? all.sort((a, b) => place(a) - place(b)) : all;
}
