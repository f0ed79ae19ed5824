import { messageOf } from "../../lib/base/messageOf.ts";
import type { FigureEnvironment } from "../figures/figure.ts";
import type { FigureTable } from "../figures/figureTable.ts";
import { FigureView } from "../figures/figureView.ts";
import { loadedFigures, loadFigures, type SheetFigures } from "../figures/loadFigures.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { whenPrinted } from "../inputs/printing.ts";
import { figureFile, figurePicture } from "./figureFile.ts";
import { download, fileNameOf } from "./files.ts";
import { loadPart } from "./loadPart.ts";

export interface FigureSlotOptions {
  readonly title: string;
  /** Controls that choose what is drawn. */
  readonly controls?: readonly Node[];
}

export interface DrawnFigure {
  /** Says everything that the figure shows: the same key, the same figure. */
  readonly key: string;
  readonly draw: (width: number, environment: FigureEnvironment, figures: SheetFigures) => SVGSVGElement;
  readonly table?: (figures: SheetFigures) => FigureTable;
  /** For paper, a figure that is too large for it: the same in pieces. */
  readonly pieces?: (
    paper: { readonly width: number; readonly height: number },
    environment: FigureEnvironment,
    figures: SheetFigures,
  ) => readonly SVGSVGElement[];
}

/** What a figure has on a sheet of paper (A4, landscape, margins of 10 mm) beneath a heading, CSS pixels. */
const paper = { width: 1000, height: 620 };

/** A place for a figure on the sheet: its heading, the figure or the reason why there is none, and the numbers behind it. */
export class FigureSlot {
  readonly element: HTMLElement;
  private readonly view = html("div", { class: "view" });
  private readonly picture = new FigureView(this.view);
  private readonly pieces = html("div", { class: "pieces" });
  private readonly numbers: HTMLDetailsElement;
  private readonly numbersBox = html("div");
  private readonly notTaken = html("span", { class: "wrong", role: "alert" });
  private readonly takeOut: HTMLElement;
  private figure: DrawnFigure | undefined;
  private shownKey = "";
  private width = 0;
  private readonly title: string;
  /** As told by the view itself: asking for it while drawing would make the browser lay the page out once more. */
  private scrolled: readonly [x: number, y: number] = [0, 0];
  private readonly sight: InSight;

  constructor({ title, controls = [] }: FigureSlotOptions) {
    this.numbers = html("details", { class: "numbers" }, html("summary", {}, "the numbers"), this.numbersBox);
    this.numbers.addEventListener("toggle", () => this.showNumbers());
    this.takeOut = html(
      "p",
      { class: "take-out" },
      this.notTaken,
      ...(["SVG", "PNG"] as const).map((kind) => this.takeOutAct(kind, title)),
    );
    this.element = html(
      "figure",
      {},
      html("figcaption", {}, html("h3", {}, title), ...controls),
      this.view,
      this.pieces,
      html("div", { class: "figure-foot" }, this.numbers, this.takeOut),
    );
    this.title = title;
    this.view.addEventListener(
      "scroll",
      () => {
        this.scrolled = [this.view.scrollLeft, this.view.scrollTop];
        this.keepInSight();
      },
      { passive: true },
    );
    whenPrinted(
      this.element,
      () => this.drawPieces(),
      () => this.pieces.replaceChildren(),
    );
    if (typeof ResizeObserver === "function")
      new ResizeObserver(([entry]) => this.resize(entry?.contentRect.width ?? 0)).observe(this.view);
    this.sight = new InSight(this.element);
  }

  /** Drawn again only where it differs. */
  show(figure: DrawnFigure): void {
    this.figure = figure;
    this.numbers.hidden = figure.table === undefined;
    this.takeOut.hidden = false;
    this.sight.run(() => this.draw());
  }

  private takeOutAct(kind: "SVG" | "PNG", title: string): HTMLElement {
    const button = act(kind, () => void this.take(kind));
    setAttribute(button, "aria-label", `${title}: take the figure out as ${kind}`);
    return button;
  }

  /** What is shown as a file among the downloads; it has the name of the figure's own title. */
  private async take(kind: "SVG" | "PNG"): Promise<void> {
    const drawn = this.view.querySelector<SVGSVGElement>("svg");
    if (drawn === null) return;
    setText(this.notTaken, "");
    const name = fileNameOf(drawn.querySelector(":scope > title")?.textContent ?? this.title);
    try {
      const file = figureFile(drawn);
      const content = kind === "SVG" ? new Blob([file.svg], { type: "image/svg+xml" }) : await figurePicture(file);
      download(`${name}.${kind.toLowerCase()}`, content);
    } catch (error) {
      setText(this.notTaken, `Not taken out: ${messageOf(error)}. `);
    }
  }

  private draw(): void {
    const { figure } = this;
    if (figure === undefined) return;
    const key = `${this.width} ${figure.key}`;
    if (key === this.shownKey) return;
    const figures = loadedFigures();
    if (figures === undefined) {
      void this.load();
      return;
    }
    this.shownKey = key;
    try {
      this.picture.show((document) => figure.draw(this.width || usualWidth, { document }, figures));
    } catch (error) {
      // An old drawing never stays in the place of one that could not be made.
      this.say(`Not drawn: ${messageOf(error)}`);
      throw error;
    }
    this.letScroll();
    this.keepInSight();
    if (this.numbers.open) this.showNumbers();
  }

  /** What draws comes after what is typed and read. */
  private async load(): Promise<void> {
    setAttribute(this.element, "aria-busy", "true");
    const figures = await loadPart(loadFigures, (words) => this.say(words));
    setAttribute(this.element, "aria-busy", undefined);
    if (figures !== undefined) this.draw();
  }

  /** Heads and names of a figure that scrolls stay where they can be read. */
  private keepInSight(): void {
    if (this.figure?.pieces === undefined) return;
    const [x, y] = this.scrolled;
    for (const [name, right, down] of [
      ["fig-stays-left", x, 0],
      ["fig-stays-top", 0, y],
      ["fig-stays", x, y],
    ] as const) {
      const group = this.view.querySelector<SVGElement>(`.${name}`);
      if (group !== null) group.style.transform = right === 0 && down === 0 ? "" : `translate(${right}px, ${down}px)`;
    }
  }

  /** A figure that does not fit into its frame is scrolled by the keyboard as well. */
  private letScroll(): void {
    const root = this.view.querySelector("svg");
    const sizes = ["width", "height"].map((name) => Number(root?.getAttribute(name)));
    const fits = this.figure?.pieces === undefined || ((sizes[0] as number) <= this.width + 1 && (sizes[1] as number) <= lowest);
    setAttribute(this.view, "tabindex", fits ? undefined : "0");
    setAttribute(this.view, "role", fits ? undefined : "group");
    setAttribute(this.view, "aria-label", fits ? undefined : `${this.title}, scrolls`);
    setAttribute(this.view, "data-large", fits ? undefined : "");
  }

  /** After what waits to be drawn, which is drawn before printing as well. */
  private drawPieces(): void {
    const figures = loadedFigures();
    this.pieces.replaceChildren(...((figures && this.figure?.pieces?.(paper, {}, figures)) ?? []));
  }

  /** In place of a figure, why there is none: an old one never stays. */
  say(words: string): void {
    this.figure = undefined;
    this.numbers.hidden = true;
    this.takeOut.hidden = true;
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
    const figures = loadedFigures();
    const table = figures && this.figure?.table?.(figures);
    if (!this.numbers.open || table === undefined) return;
    const shown = new PlainTable({ caption: table.caption, columns: table.columns.map((label, i) => ({ label, number: i > 0 })) });
    shown.show(table.rows);
    this.numbersBox.replaceChildren(shown.element);
  }
}

const usualWidth = 480;
/** A figure higher than this scrolls in its frame, CSS pixels; the same stands in sheet.css. */
const lowest = 760;
