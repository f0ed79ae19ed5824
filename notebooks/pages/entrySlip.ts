import { aboutEntry, type EntryAbout } from "../inputs/entryAbout.ts";
import { focusedNear } from "../inputs/focusedNear.ts";
import { html } from "../inputs/html.ts";
import { settlingFrames } from "../inputs/keepInSight.ts";
import { placeBeneath } from "../inputs/placeBeneath.ts";
import { loadPart } from "./loadPart.ts";

/**
 * A slip beside the entry that a person stands on: what it is, usual values with what they rest on, the formula with its source. F1 lays it there and
 * takes it away; so do Escape and going on.
 */
export class EntrySlip {
  private readonly root: HTMLElement;
  private readonly box = html("div", { class: "entry-slip", role: "note", "aria-live": "polite", hidden: true });
  private control: HTMLElement | undefined;
  private last: HTMLElement | undefined;
  private frame = 0;

  constructor(root: HTMLElement) {
    this.root = root;
    root.append(this.box);
    root.addEventListener("keydown", (event) => this.pressed(event), { capture: true });
    root.addEventListener("focusin", ({ target }) => {
      if (target instanceof HTMLElement && aboutEntry(target) !== undefined) this.last = target;
      if (this.control !== undefined && target !== this.control) this.close();
    });
  }

  /** Of the entry that a person stands on, or stood on last. @returns whether there is one */
  async show(): Promise<boolean> {
    const focused = focusedNear(this.root);
    const control = focused !== null && this.root.contains(focused) && aboutEntry(focused) !== undefined ? focused : this.last;
    const about = control?.isConnected ? aboutEntry(control) : undefined;
    if (control === undefined || about === undefined) return false;
    const cannot: HTMLElement[] = [];
    const part = await loadPart(
      () => import("../guide/entryHelp.ts"),
      (words) => cannot.push(html("p", { class: "wrong" }, words)),
    );
    control.focus();
    this.box.replaceChildren(...entrySlipText(about, part?.entryHelp(about.place)), ...cannot);
    const section = control.closest("section") ?? this.root;
    if (this.box.parentElement !== section) section.append(this.box);
    this.box.hidden = false;
    cancelAnimationFrame(this.frame);
    this.control = control;
    this.follow(settlingFrames);
    return true;
  }

  private pressed(event: KeyboardEvent): void {
    if (event.key === "F1" && !event.ctrlKey && !event.altKey && !event.metaKey) {
      event.preventDefault();
      if (this.control === undefined) void this.show();
      else this.close();
    } else if (event.key === "Escape" && this.control !== undefined) {
      event.preventDefault();
      event.stopPropagation();
      this.close();
    }
  }

  /** Stays with the entry; out of sight with it, and there again when it is. */
  private follow(settling = 0): void {
    if (this.control?.isConnected !== true) {
      this.close();
      return;
    }
    let isInSight = placeBeneath(this.box, this.control);
    if (!isInSight && settling > 0) {
      this.control.scrollIntoView({ block: "center" });
      isInSight = placeBeneath(this.box, this.control);
    }
    this.box.style.visibility = isInSight ? "" : "hidden";
    this.frame = requestAnimationFrame(() => this.follow(Math.max(0, settling - 1)));
  }

  private close(): void {
    cancelAnimationFrame(this.frame);
    this.control = undefined;
    this.box.hidden = true;
  }
}

type Help = ReturnType<typeof import("../guide/entryHelp.ts")["entryHelp"]>;

/** What is known of an entry, as it is told. */
export function entrySlipText({ label, hint }: Pick<EntryAbout, "label" | "hint">, help: Help): HTMLElement[] {
  const { typical = [], formula } = help ?? {};
  return [
    html("p", {}, html("b", {}, label), hint === "" ? "" : ` · ${hint}`),
    ...(typical.length === 0
      ? []
      : [
          html(
            "dl",
            {},
            ...typical.flatMap(({ of, value, evidence }) => [html("dt", {}, of), html("dd", {}, value, " ", html("small", {}, evidence))]),
          ),
        ]),
    ...(formula === undefined ? [] : [html("p", { class: "by-hand" }, formula.text, " ", html("small", {}, formula.source))]),
  ];
}
