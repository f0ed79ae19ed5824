import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { html, setAttribute } from "../inputs/html.ts";

/** Which of several operations is looked at: touches, results and figures are those of that one. Hidden for a part with one operation. */
export class OperationChoice {
  readonly element: HTMLElement;
  private readonly select = html("select", { "aria-label": "Operation that is looked at" });
  private shown: readonly string[] = [];

  constructor(onChoose: (operation: string) => void) {
    this.select.addEventListener("change", () => onChoose(this.select.value));
    this.element = html("label", { class: "operation-choice" }, "operation", this.select);
    this.element.hidden = true;
  }

  showDocument({ operations, operation }: Pick<SetupDocument, "operations" | "operation">): void {
    const names = operations.map(({ id }) => id);
    this.element.hidden = names.length === 0;
    if (names.join("\n") !== this.shown.join("\n")) this.select.replaceChildren(...names.map((name) => new Option(name, name)));
    this.shown = names;
    const looked = names.includes(operation) ? operation : (names[0] ?? "");
    if (this.select.value !== looked) this.select.value = looked;
    setAttribute(this.element, "data-operation", looked);
  }
}
