import type { Problem } from "../../../lib/base/outcome.ts";
import type { EntryColumn } from "../column.ts";
import { keyOf } from "../rows.ts";

/**
 * The rows of a table as they stand in the document, and what is asked of them with every letter that is typed: where a row
 * stands, which one a path means, which columns are in use. An edit of one row among thousands costs a look at each, no more.
 */
export class TableRows<Row extends object> {
  all: readonly Row[] = [];
  private readonly place: string;
  private readonly nameOf: (row: Row, index: number) => string;
  /** Columns that are hidden while no row uses them. */
  private readonly optional: readonly EntryColumn<Row>[];
  private places = new Map<string, number>();
  private names: Map<string, number> | undefined;
  private readonly users: number[];
  private problems: readonly Problem[] = [];
  /** By the name of their row. */
  private grouped: Map<string, Problem[]> | undefined;

  constructor(place: string, nameOf: (row: Row, index: number) => string, columns: readonly EntryColumn<Row>[]) {
    this.place = place;
    this.nameOf = nameOf;
    this.optional = columns.filter(({ usual }) => usual !== undefined);
    this.users = this.optional.map(() => 0);
  }

  /** @returns whether the rows are others, or stand in another order: not only edited where they stand */
  become(rows: readonly Row[]): boolean {
    const before = this.all;
    this.all = rows;
    this.names = undefined;
    this.grouped = undefined;
    const changed: number[] = [];
    if (rows.length === before.length) {
      for (let i = 0; i < rows.length; i++) if (rows[i] !== before[i]) changed.push(i);
      if (changed.every((i) => keyOf(rows[i] as Row) === keyOf(before[i] as Row))) {
        for (const i of changed) {
          this.countUses(before[i] as Row, -1);
          this.countUses(rows[i] as Row, 1);
        }
        return false;
      }
    }
    this.places = new Map(rows.map((row, i) => [keyOf(row), i]));
    this.users.fill(0);
    for (const row of rows) this.countUses(row, 1);
    return true;
  }

  indexOf(key: string | undefined): number {
    return key === undefined ? -1 : (this.places.get(key) ?? -1);
  }

  at(key: string | undefined): Row | undefined {
    return this.all[this.indexOf(key)];
  }

  nameAt(index: number): string {
    const row = this.all[index];
    return row === undefined ? "" : this.nameOf(row, index);
  }

  pathAt(index: number): string {
    return `${this.place}.${this.nameAt(index)}`;
  }

  /** Whether some row holds more than what is usual in a column. */
  isUsed(column: EntryColumn<Row>): boolean {
    return (this.users[this.optional.indexOf(column)] ?? 1) > 0;
  }

  /** Names may hold points, so that of several rows the one with the longest name is meant. */
  indexAtPath(path: string): number {
    if (!path.startsWith(`${this.place}.`)) return -1;
    // Of two rows with one name the first is meant.
    this.names ??= new Map(this.all.map((_, i) => [this.nameAt(i), i] as const).reverse());
    for (let name = path.slice(this.place.length + 1); ; ) {
      const index = this.names.get(name);
      if (index !== undefined) return index;
      const point = name.lastIndexOf(".");
      if (point < 0) return -1;
      name = name.slice(0, point);
    }
  }

  /** @returns whether any are shown, before or after */
  setProblems(problems: readonly Problem[]): boolean {
    const own = problems.filter(({ at }) => at === this.place || at.startsWith(`${this.place}.`));
    const hasAny = own.length > 0 || this.problems.length > 0;
    this.problems = own;
    this.grouped = undefined;
    return hasAny;
  }

  problemsAt(index: number): readonly Problem[] {
    if (this.problems.length === 0) return [];
    this.grouped ??= this.groupProblems();
    return this.grouped.get(this.nameAt(index)) ?? [];
  }

  hasProblemIn({ key }: EntryColumn<Row>): boolean {
    return this.problems.some(({ at }) => {
      const index = at.endsWith(`.${key}`) ? this.indexAtPath(at) : -1;
      return index >= 0 && at === `${this.pathAt(index)}.${key}`;
    });
  }

  private groupProblems(): Map<string, Problem[]> {
    const grouped = new Map<string, Problem[]>();
    for (const problem of this.problems) {
      const index = this.indexAtPath(problem.at);
      if (index < 0) continue;
      const name = this.nameAt(index);
      grouped.set(name, [...(grouped.get(name) ?? []), problem]);
    }
    return grouped;
  }

  private countUses(row: Row, by: 1 | -1): void {
    for (const [i, column] of this.optional.entries()) {
      const text = column.read(row);
      if (text !== "" && text !== column.usual) this.users[i] = (this.users[i] ?? 0) + by;
    }
  }
}
