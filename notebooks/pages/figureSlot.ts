import type { FigureEnvironment } from "../figures/figure.ts";
import type { FigureTable } from "../figures/figureTable.ts";
import { FigureView } from "../figures/figureView.ts";
import { html, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { PlainTable } from "../inputs/plainTable.ts";

export interface FigureSlotOptions {
  readonly title: string;
  /** Controls that choose what is drawn. */
  readonly controls?: readonly Node[];
}

export interface DrawnFigure {
  /** Says everything that the figure shows: the same key, the same figure. */
  readonly key: string;
  readonly draw: (width: number, environment: FigureEnvironment) => SVGSVGElement;
  readonly table?: () => FigureTable;
}

/** A place for a figure on the sheet: its heading, the figure or the reason why there is none, and the numbers behind it. */
export class FigureSlot {
  readonly element: HTMLElement;
  private readonly view = html("div", { class: "view" });
  private readonly picture = new FigureView(this.view);
  private readonly numbers: HTMLDetailsElement;
  private readonly numbersBox = html("div");
  private figure: DrawnFigure | undefined;
  private shownKey = "";
  private width = 0;
  private readonly sight: InSight;

  constructor({ title, controls = [] }: FigureSlotOptions) {
    this.numbers = html("details", { class: "numbers" }, html("summary", {}, "the numbers"), this.numbersBox);
    this.numbers.addEventListener("toggle", () => this.showNumbers());
    this.element = html("figure", {}, html("figcaption", {}, html("h3", {}, title), ...controls), this.view, this.numbers);
    if (typeof ResizeObserver === "function")
      new ResizeObserver(([entry]) => this.resize(entry?.contentRect.width ?? 0)).observe(this.view);
    this.sight = new InSight(this.element);
  }

  /** Drawn again only where it differs. */
  show(figure: DrawnFigure): void {
    this.figure = figure;
    this.numbers.hidden = figure.table === undefined;
    this.sight.run(() => this.draw());
  }

  private draw(): void {
    const { figure } = this;
    if (figure === undefined) return;
    const key = `${this.width} ${figure.key}`;
    if (key === this.shownKey) return;
    this.shownKey = key;
    try {
      this.picture.show((document) => figure.draw(this.width || usualWidth, { document }));
    } catch (error) {
      // An old drawing never stays in the place of one that could not be made.
      this.say(`Not drawn: ${error instanceof Error ? error.message : String(error)}`);
      throw error;
    }
    if (this.numbers.open) this.showNumbers();
  }

  /** In place of a figure, why there is none: an old one never stays. */
  say(words: string): void {
    this.figure = undefined;
    this.numbers.hidden = true;
    if (this.shownKey === words) return;
    this.shownKey = words;
    const reason = html("p", { class: "reason" });
    setText(reason, words);
    this.view.replaceChildren(reason);
  }

  private resize(width: number): void {
    if (Math.abs(width - this.width) < 1 || width === 0) return;
    this.width = Math.floor(width);
    this.draw();
  }

  private showNumbers(): void {
    const table = this.figure?.table?.();
    if (!this.numbers.open || table === undefined) return;
    const shown = new PlainTable({ caption: table.caption, columns: table.columns.map((label, i) => ({ label, number: i > 0 })) });
    shown.show(table.rows);
    this.numbersBox.replaceChildren(shown.element);
  }
}

const usualWidth = 480;
