import type { Problem } from "../base/outcome.ts";

/**
 * What a name stands for that is a column of a table and not one value: for the evaluation `Column<readonly T[]>`, its
 * values in order; for the check of dimensions `Column<Dimension>`, the one dimension that they all have.
 */
export class Column<C> {
  readonly content: C;

  constructor(content: C) {
    this.content = content;
  }
}

/** A column where one value is expected. */
export function complainAboutColumn(name: string): Pick<Problem, "what" | "remedy"> {
  return {
    what: `"${name}" is a column, and one value is expected here`,
    remedy: `say what is meant of its values: mean(${name}), sum, min, max, count or deviation`,
  };
}
