import { html, setChildren } from "../html.ts";
import { whenPrinted } from "../printing.ts";
import { keyOf } from "../rows.ts";
import { joinSpans, RowHeights, type Span } from "./rowWindow.ts";

/** What the body of a table needs of a row's view. */
export interface BodyRow {
  readonly isEdited: boolean;
  /** What it consists of just now. */
  elements(): HTMLElement[];
  readonly lines: readonly HTMLElement[];
}

export interface TableBodyOptions<View extends BodyRow> {
  /** What scrolls. */
  readonly frame: HTMLElement;
  /** A view of this row with everything that belongs on it. */
  readonly createView: (index: number) => View;
  /** Places of rows that stay in the page wherever it is scrolled to: where a person stands. */
  readonly kept: () => readonly number[];
  /** Other rows than before are in the page. */
  readonly onScrolled: () => void;
}

/** Up to this many rows all are in the page. */
const shortTable = 150;
/** Rows beyond either edge of the frame that are ready before they are scrolled to. */
const spare = 12;
/** Most rows that are printed; the table says so where it has more. */
export const mostPrinted = 1000;
/** Where nothing has a height (no page is drawn). */
const usualFrame = 640;

/** The rows of a table that are in the page: all of a short one; of a long one those near the window, and gaps for the others. */
export class TableBody<View extends BodyRow> {
  readonly element = html("tbody");
  private readonly options: TableBodyOptions<View>;
  private readonly views = new Map<string, View>();
  private readonly heights = new RowHeights();
  private readonly watcher: ResizeObserver | undefined;
  /** By the key of the row that they follow. */
  private readonly gaps = new Map<string, HTMLTableRowElement>();
  private keys: readonly string[] = [];
  private spans: readonly Span[] = [];
  /** What of the rows the frame shows, as it was read last: to read it in the midst of changes makes the browser lay the page out. */
  private window: { readonly top: number; readonly height: number } | undefined;
  private isPrinting = false;
  private isLayingOut = false;

  constructor(options: TableBodyOptions<View>) {
    this.options = options;
    options.frame.addEventListener("scroll", () => this.scrolled(), { passive: true });
    if (typeof ResizeObserver === "function") {
      this.watcher = new ResizeObserver((entries) => this.measured(entries));
      // A frame that becomes higher shows more rows.
      new ResizeObserver(() => this.scrolled()).observe(options.frame);
    }
    whenPrinted(
      this.element,
      () => this.print(true),
      () => this.print(false),
    );
  }

  get isLong(): boolean {
    return this.keys.length > shortTable;
  }

  /** Views of the rows that are in the page, with their places. */
  *inPage(): Generator<readonly [index: number, view: View]> {
    for (const { from, to } of this.spans) {
      for (let index = from; index < to; index++) {
        const view = this.views.get(this.keys[index] as string);
        if (view !== undefined) yield [index, view];
      }
    }
  }

  viewOf(key: string | undefined): View | undefined {
    return key === undefined ? undefined : this.views.get(key);
  }

  setRows(rows: readonly object[]): void {
    if (rows.length !== this.keys.length) this.window = undefined;
    this.keys = rows.map(keyOf);
    this.heights.setRows(this.keys);
    const wanted = new Set(this.keys);
    for (const key of [...this.views.keys()]) if (!wanted.has(key)) this.drop(key);
  }

  /** The view of a row, brought into the page if it was not there. */
  reveal(index: number): View | undefined {
    const key = this.keys[index];
    if (key === undefined) return undefined;
    if (!this.views.has(key)) {
      this.options.frame.scrollTop = Math.max(0, this.heights.startOf(index) - this.options.frame.clientHeight / 2);
      this.window = undefined;
      this.layOut([index]);
      this.options.onScrolled();
    }
    return this.views.get(key);
  }

  /** How many rows are as high as the frame. */
  get rowsInSight(): number {
    const { top, height } = this.readWindow();
    return Math.max(1, this.heights.indexAt(top + height) - this.heights.indexAt(top) - 1);
  }

  layOut(alsoKept: readonly number[] = []): void {
    // A row that is taken away while it has the focus is left, and leaving asks for the layout again.
    if (this.isLayingOut) return;
    this.isLayingOut = true;
    try {
      this.spans = this.wantedSpans(alsoKept);
      const children: HTMLElement[] = [];
      let end = 0;
      const gapsBefore = new Set(this.gaps.keys());
      const addGap = (to: number) => {
        if (to <= end) return;
        const after = this.keys[end - 1] ?? "";
        gapsBefore.delete(after);
        children.push(this.gapAfter(after, this.heights.heightOf({ from: end, to })));
      };
      for (const { from, to } of this.spans) {
        addGap(from);
        for (let index = from; index < to; index++) children.push(...this.viewAt(index).elements());
        end = to;
      }
      addGap(this.keys.length);
      if (this.isLong) this.dropOutside();
      setChildren(this.element, children);
      for (const after of gapsBefore) this.gaps.delete(after);
    } finally {
      this.isLayingOut = false;
    }
  }

  private viewAt(index: number): View {
    const key = this.keys[index] as string;
    let view = this.views.get(key);
    if (view === undefined) {
      view = this.options.createView(index);
      this.views.set(key, view);
      for (const line of view.lines) {
        owners.set(line, { key, view });
        this.watcher?.observe(line);
      }
    }
    return view;
  }

  private drop(key: string): void {
    for (const line of this.views.get(key)?.lines ?? []) this.watcher?.unobserve(line);
    this.views.delete(key);
  }

  private dropOutside(): void {
    const within = new Set<string>();
    for (const { from, to } of this.spans) for (let index = from; index < to; index++) within.add(this.keys[index] as string);
    for (const key of [...this.views.keys()]) if (!within.has(key)) this.drop(key);
  }

  private wantedSpans(alsoKept: readonly number[]): readonly Span[] {
    const count = this.keys.length;
    if (!this.isLong) return [{ from: 0, to: count }];
    if (this.isPrinting) return joinSpans([{ from: 0, to: mostPrinted }, ...this.keptSpans(alsoKept)], count);
    const { top, height } = this.window ?? this.readWindow();
    const from = this.heights.indexAt(top) - spare;
    const to = this.heights.indexAt(top + height) + 1 + spare;
    // The first and the last are where the arrow keys enter from other tables.
    return joinSpans([{ from: 0, to: 1 }, { from, to }, { from: count - 1, to: count }, ...this.keptSpans(alsoKept)], count);
  }

  private keptSpans(alsoKept: readonly number[]): readonly Span[] {
    return [...this.options.kept(), ...alsoKept].filter((index) => index >= 0).map((index) => ({ from: index - 1, to: index + 2 }));
  }

  private readWindow(): { readonly top: number; readonly height: number } {
    const { scrollTop, clientHeight } = this.options.frame;
    this.window = { top: scrollTop, height: clientHeight || usualFrame };
    return this.window;
  }

  private gapAfter(key: string, height: number): HTMLTableRowElement {
    let gap = this.gaps.get(key);
    if (gap === undefined) {
      gap = html("tr", { class: "gap", "aria-hidden": "true" }, html("td", { colspan: 1000 }));
      this.gaps.set(key, gap);
    }
    const wanted = `${Math.round(height)}px`;
    const [box] = gap.cells;
    if (box !== undefined && box.style.height !== wanted) box.style.height = wanted;
    return gap;
  }

  private scrolled(): void {
    this.window = undefined;
    if (!this.isLong || this.isPrinting) return;
    const before = this.spans;
    const wanted = this.wantedSpans([]);
    if (wanted.length === before.length && wanted.every(({ from, to }, i) => from === before[i]?.from && to === before[i]?.to)) return;
    this.layOut();
    this.options.onScrolled();
  }

  private measured(entries: readonly ResizeObserverEntry[]): void {
    if (!this.isLong) return;
    for (const { target } of entries) {
      const owner = owners.get(target);
      if (owner === undefined || this.views.get(owner.key) !== owner.view) continue;
      const height = owner.view.lines.reduce((sum, line) => sum + (line.isConnected ? line.offsetHeight : 0), 0);
      this.heights.measure(owner.key, height);
    }
  }

  private print(isPrinting: boolean): void {
    this.isPrinting = isPrinting;
    if (!this.isLong || !this.element.isConnected) return;
    this.layOut();
    this.options.onScrolled();
  }
}

/** Whose height a line of the page is. */
const owners = new WeakMap<Element, { readonly key: string; readonly view: BodyRow }>();
