import { html, setAttribute, setChildren, setText } from "./html.ts";

export interface PlainTableOptions {
  readonly caption: string;
  readonly columns: readonly { readonly label: string; readonly number?: boolean; readonly hint?: string }[];
}

/** A table of results alone. Texts are changed in place, so that only what differs is drawn anew. */
export class PlainTable {
  readonly element: HTMLElement;
  private readonly columns: PlainTableOptions["columns"];
  private readonly body = html("tbody");
  private readonly lines: { readonly line: HTMLElement; readonly boxes: readonly HTMLElement[] }[] = [];

  constructor({ caption, columns }: PlainTableOptions) {
    this.columns = columns;
    const heads = columns.map(({ label, number, hint }) =>
      html("th", { scope: "col", class: number ? "number" : undefined, title: hint }, label),
    );
    const table = html("table", {}, html("caption", { class: "unseen" }, caption), html("thead", {}, html("tr", {}, ...heads)), this.body);
    this.element = html("div", { class: "frame plain" }, table);
  }

  show(rows: readonly (readonly string[])[]): void {
    while (this.lines.length < rows.length) this.lines.push(this.createLine());
    rows.forEach((row, i) => {
      const { boxes } = this.lines[i] as (typeof this.lines)[number];
      row.forEach((text, c) => {
        const box = boxes[c] as HTMLElement;
        setText(box, text);
        setAttribute(box, "data-tone", text === "–" ? "nothing" : undefined);
      });
    });
    setChildren(
      this.body,
      this.lines.slice(0, rows.length).map(({ line }) => line),
    );
  }

  private createLine() {
    const boxes = this.columns.map(({ label, number }, c) =>
      html(c === 0 ? "th" : "td", { scope: c === 0 ? "row" : undefined, class: number ? "number" : undefined, "data-label": label }),
    );
    return { line: html("tr", {}, ...boxes), boxes };
  }
}
