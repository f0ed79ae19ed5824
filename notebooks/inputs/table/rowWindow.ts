/** Rows from one place to another, the latter not included. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Where every row of a long table lies, measured or taken to be as high as the mean of those measured. */
export class RowHeights {
  private readonly measured = new Map<string, number>();
  private total = 0;
  private keys: readonly string[] = [];
  /** Where each row begins, and the end of the last. */
  private starts: Float64Array | undefined;

  setRows(keys: readonly string[]): void {
    this.keys = keys;
    this.starts = undefined;
  }

  measure(key: string, height: number): void {
    const before = this.measured.get(key);
    if (before === height || !(height > 0)) return;
    this.measured.set(key, height);
    this.total += height - (before ?? 0);
    this.starts = undefined;
  }

  /** Height of the rows of a span, px. */
  heightOf({ from, to }: Span): number {
    const starts = this.startsOfRows();
    return (starts[to] as number) - (starts[from] as number);
  }

  startOf(index: number): number {
    return this.startsOfRows()[index] ?? 0;
  }

  /** The row at a distance from the top of the first, px. */
  indexAt(distance: number): number {
    const starts = this.startsOfRows();
    let [low, high] = [0, Math.max(0, this.keys.length - 1)];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] as number) <= distance) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private startsOfRows(): Float64Array {
    if (this.starts !== undefined) return this.starts;
    const usual = this.measured.size === 0 ? usualHeight : this.total / this.measured.size;
    const starts = new Float64Array(this.keys.length + 1);
    for (let i = 0; i < this.keys.length; i++) {
      starts[i + 1] = (starts[i] as number) + (this.measured.get(this.keys[i] as string) ?? usual);
    }
    this.starts = starts;
    return starts;
  }
}

/** A row of one line, px; corrected as soon as one has been measured. */
const usualHeight = 27;

/** Spans that overlap or touch put together, in order, within a table of `count` rows. */
export function joinSpans(spans: readonly Span[], count: number): Span[] {
  const joined: Span[] = [];
  const within = spans
    .map(({ from, to }) => ({ from: Math.max(0, from), to: Math.min(count, to) }))
    .filter(({ from, to }) => from < to)
    .sort((a, b) => a.from - b.from);
  for (const span of within) {
    const last = joined.at(-1);
    if (last !== undefined && span.from <= last.to) joined[joined.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
    else joined.push(span);
  }
  return joined;
}
