/**
 * Rows of immutable lists. A changed row is a new object that keeps the key of the one that it replaces,
 * so that what is on the page for a row follows it through edits, moves, undo and redo.
 */
export function keyOf(row: object): string {
  let key = keys.get(row);
  if (key === undefined) {
    count += 1;
    key = `row-${count}`;
    keys.set(row, key);
  }
  return key;
}

const keys = new WeakMap<object, string>();
let count = 0;

/** The row with some entries changed; the row itself if they are what they were. */
export function changeRow<Row extends object>(row: Row, changes: Partial<Row>): Row {
  const names = Object.keys(changes) as (keyof Row)[];
  if (names.every((name) => row[name] === changes[name])) return row;
  const changed = { ...row, ...changes };
  // An entry that is set to nothing is left out, as it is in a document that never had it.
  for (const name of names) if (changes[name] === undefined) delete changed[name];
  keys.set(changed, keyOf(row));
  return changed;
}

/** Rows that come from elsewhere as the successors of others get their keys: those of the same name, or else at the same place. */
export function followRows(before: readonly object[], after: readonly object[]): void {
  if (before === after) return;
  const [there, stay] = [new Set(before), new Set(after)];
  const gone = new Set(before.filter((row) => !stay.has(row)));
  const named = new Map([...gone].map((row) => [nameOf(row), row]));
  after.forEach((row, index) => {
    if (there.has(row) || keys.has(row)) return;
    const former = [named.get(nameOf(row)), before[index]].find((each) => each !== undefined && gone.has(each));
    if (former === undefined) return;
    keys.set(row, keyOf(former));
    gone.delete(former);
  });
}

function nameOf(row: object): unknown {
  return (row as { readonly id?: unknown }).id;
}

/** The list with `change` applied to each row; the list itself if none changed. */
export function changeRows<Row extends object>(rows: Row[], change: (row: Row) => Row): Row[] {
  const changed = rows.map(change);
  return changed.every((row, index) => row === rows[index]) ? rows : changed;
}

export function insertRow<Row>(rows: readonly Row[], index: number, row: Row): Row[] {
  return [...rows.slice(0, index), row, ...rows.slice(index)];
}

export function removeRow<Row>(rows: readonly Row[], index: number): Row[] {
  return [...rows.slice(0, index), ...rows.slice(index + 1)];
}

/** The list with a row moved by a number of places; the list itself where it cannot move so far. */
export function moveRow<Row>(rows: Row[], index: number, by: number): Row[] {
  const row = rows[index];
  if (row === undefined || index + by < 0 || index + by >= rows.length) return rows;
  return insertRow(removeRow(rows, index), index + by, row);
}

/** A name that no row has yet: `touch 3`. */
export function freeName(stem: string, taken: readonly string[]): string {
  let number = taken.length + 1;
  while (taken.includes(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}
