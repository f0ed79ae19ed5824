import type { ShownResult } from "../column.ts";
import { html, setAttribute, setChildren, setText } from "../html.ts";

/** A worked-out result in its box of a table. What is the same is not drawn again, and what changes, changes in place. */
export class ResultBox {
  private readonly box: HTMLElement;
  private state: string | undefined;
  private readonly value = html("span", { class: "value" });
  private pad: HTMLElement | undefined;
  private whisker: HTMLElement | undefined;
  private readonly words = document.createTextNode("");
  private below: HTMLElement | undefined;

  constructor(box: HTMLElement) {
    this.box = box;
  }

  /** @param pad what stands behind the number for the sake of the column (`alignDecimals`) */
  show(shown: ShownResult | undefined, pad: string): void {
    const state = JSON.stringify([shown ?? null, pad]);
    const isFirst = this.state === undefined;
    if (this.state === state) return;
    this.state = state;
    setAttribute(this.box, "data-tone", shown === undefined ? "nothing" : shown.tone);
    setAttribute(this.box, "title", shown?.title);
    setText(this.value, shown?.text ?? "–");
    // The other of two names for one animation starts it again.
    if (!isFirst) this.value.className = this.value.className === "value fresh" ? "value afresh" : "value fresh";
    setChildren(this.box, [this.value, this.padOf(pad) ?? [], this.belowOf(shown) ?? []].flat());
  }

  private padOf(pad: string): HTMLElement | undefined {
    if (pad === "") return undefined;
    this.pad ??= html("span", { class: "pad", "aria-hidden": "true" });
    setText(this.pad, pad);
    return this.pad;
  }

  /** A result that is gone leaves its second line empty: the rows beneath stay where they are. */
  private belowOf(shown: ShownResult | undefined): HTMLElement | undefined {
    const text = shown === undefined && this.below?.parentElement === this.box ? "\u00a0" : shown?.below;
    if (text === undefined) return undefined;
    this.below ??= html("small");
    if (this.words.data !== text) this.words.data = text;
    setChildren(this.below, [this.whiskerOf(shown?.whisker) ?? [], this.words].flat());
    return this.below;
  }

  private whiskerOf(length: number | undefined): HTMLElement | undefined {
    if (length === undefined) return undefined;
    this.whisker ??= html("i", { class: "whisker", "aria-hidden": "true" });
    this.whisker.style.setProperty("--share", Math.min(1, length).toFixed(3));
    return this.whisker;
  }
}
