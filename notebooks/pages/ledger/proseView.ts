import { html, setAttribute, setText } from "../../inputs/html.ts";
import { type BlockOf, changeBlock } from "./blocks.ts";
import { BlockEntry, type BlockHost, type BlockView } from "./blockView.ts";

type Prose = BlockOf<"heading"> | BlockOf<"paragraph">;

/** Words between the cells: a paragraph, or a heading that begins a group and can fold it up. */
export class ProseView implements BlockView<Prose> {
  readonly element: HTMLElement;
  readonly words = "";
  readonly more = undefined;
  private readonly entry: BlockEntry;
  private readonly fold: HTMLButtonElement;
  private block: Prose | undefined;

  constructor(kind: Prose["kind"], key: string, host: BlockHost) {
    this.entry = new BlockEntry(
      {
        kind: kind === "heading" ? "text" : "long",
        label: kind,
        width: kind === "heading" ? 40 : 68,
        onEdit: (text, session) => {
          host.edit((blocks) => changeBlock<Prose>(blocks, key, { text }), kind, session);
          return undefined;
        },
      },
      host,
    );
    this.entry.control.setAttribute("placeholder", kind === "heading" ? "heading" : "words");
    this.fold = html("button", { type: "button", class: "fold", tabindex: -1 });
    this.fold.hidden = kind !== "heading";
    this.fold.addEventListener("click", () => {
      const { block } = this;
      if (block?.kind !== "heading") return;
      const folded = !block.folded;
      host.edit(
        (blocks) => changeBlock<BlockOf<"heading">>(blocks, key, { folded }),
        `${folded ? "folding" : "unfolding"} of ${block.text}`,
      );
    });
    this.element = html(
      "div",
      { class: `block ${kind}`, "data-row": key },
      this.fold,
      html("div", { class: "slot", "data-column": "entry" }, this.entry.control),
    );
    this.element.addEventListener("focusin", () => host.stand(key));
  }

  show(block: Prose): void {
    if (block === this.block) return;
    this.block = block;
    this.entry.cell.show(block.text);
    if (block.kind !== "heading") return;
    this.entry.cell.setLabel(block.text === "" ? "heading" : `heading ${block.text}`);
    setAttribute(this.fold, "aria-expanded", String(!block.folded));
    setAttribute(this.fold, "aria-label", `${block.folded ? "unfold" : "fold"} ${block.text === "" ? "this group" : block.text}`);
    setText(this.fold, block.folded ? "+" : "−");
  }

  showResults(): void {}

  showProblems(): void {}

  controlAt(): HTMLElement {
    return this.entry.control;
  }
}
