import { html } from "../../inputs/html.ts";
import { PlainTable } from "../../inputs/plainTable.ts";
import type { SheetResults } from "../sheetResults.ts";
import { valueText } from "./valueText.ts";

/** Behind a disclosure: every result of the setup by the name that formulas know it by, what it is, and what it comes to. */
export class NamesInUse {
  readonly element: HTMLDetailsElement;
  private readonly table = new PlainTable({
    caption: "Names that formulas can use besides those of cells and columns",
    columns: [{ label: "name" }, { label: "value", number: true }, { label: "what it is" }],
  });
  private results: SheetResults | undefined;

  constructor() {
    this.element = html(
      "details",
      { class: "numbers names-in-use" },
      html("summary", {}, "names that formulas can use"),
      this.table.element,
    );
    this.element.addEventListener("toggle", () => this.fill());
  }

  /** Worked out only while it is open. */
  show(results: SheetResults | undefined): void {
    this.results = results;
    this.fill();
  }

  private fill(): void {
    if (!this.element.open) return;
    const { results } = this;
    const names = results === undefined ? [] : [...results.quantities.keys()];
    this.table.show(
      names.map((name) => [name, (results && valueText(name, results)) ?? "–", results?.quantities.about(name)?.describes ?? ""]),
    );
  }
}
