import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { html, setText } from "../inputs/html.ts";
import { suppositionsInWords } from "./ledger/suppositions.ts";

/** Says at the top of the page, and on paper, that what is shown rests on what is only supposed. */
export class SuppositionBanner {
  readonly element: HTMLElement;
  private readonly words = html("span");

  constructor(onTakeBack: () => void) {
    const takeBack = html("button", { type: "button", class: "act" }, "take them back");
    takeBack.addEventListener("click", () => onTakeBack());
    this.element = html("p", { class: "suppositions", role: "status" }, this.words, " ", takeBack);
    this.element.hidden = true;
  }

  show(document: Pick<SetupDocument, "ledger" | "whatIf">): void {
    const supposed = suppositionsInWords(document);
    this.element.hidden = supposed.length === 0;
    setText(this.words, supposed.length === 0 ? "" : `What is shown rests on suppositions: ${supposed.join("; ")}.`);
  }
}
