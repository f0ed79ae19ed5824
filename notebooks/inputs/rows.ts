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

/** Says of a row that it is the one that another was before it was changed. */
export function keepKey(before: object, after: object): void {
  if (after !== before) keys.set(after, keyOf(before));
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

export function insertRows<Row>(rows: readonly Row[], index: number, added: readonly Row[]): Row[] {
  return [...rows.slice(0, index), ...added, ...rows.slice(index)];
}

export function removeRows<Row>(rows: readonly Row[], index: number, count: number): Row[] {
  return [...rows.slice(0, index), ...rows.slice(index + count)];
}

/** The list with rows that stand together moved by a number of places; the list itself where they cannot move so far. */
export function moveRows<Row>(rows: Row[], index: number, count: number, by: number): Row[] {
  const moved = rows.slice(index, index + count);
  if (index < 0 || moved.length < count || index + by < 0 || index + count + by > rows.length) return rows;
  return insertRows(removeRows(rows, index, count), index + by, moved);
}

/** A name that no row has yet: `touch 3`. */
export function freeName(stem: string, taken: readonly string[]): string {
  let number = taken.length + 1;
  while (taken.includes(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}
