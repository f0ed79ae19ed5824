import { radio } from "@observablehq/inputs";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { html, setText } from "../inputs/html.ts";

type LengthUnit = SetupDocument["unit"];

const names = { mm: "mm", inch: "in" } as const satisfies Record<LengthUnit, string>;

/** In which unit lengths are shown, for the whole notebook. Nothing that was typed changes by it, and it is no part of the document. */
export class UnitChoice {
  readonly element: HTMLElement;
  private readonly choice: ReturnType<typeof radio<LengthUnit>>;
  private readonly note = html("small", {});
  private readonly onChoose: (unit: LengthUnit | undefined) => void;
  /** What a person has chosen; undefined as long as results follow the document. */
  private chosen: LengthUnit | undefined;
  private typed: LengthUnit = "mm";

  constructor(onChoose: (unit: LengthUnit | undefined) => void) {
    this.onChoose = onChoose;
    const choices = new Map((Object.keys(names) as LengthUnit[]).map((unit) => [names[unit], unit]));
    this.choice = radio<LengthUnit>(choices, { value: "mm", label: "shown in" });
    this.choice.setAttribute("aria-label", "Unit in which lengths are shown");
    this.choice.addEventListener("input", () => this.choose(this.choice.value));
    this.element = html("span", { class: "unit-choice" }, this.choice, this.note);
  }

  showDocument({ unit }: Pick<SetupDocument, "unit">): void {
    this.typed = unit;
    this.show();
  }

  private choose(unit: LengthUnit): void {
    this.chosen = unit === this.typed ? undefined : unit;
    this.show();
    this.onChoose(this.chosen);
  }

  private show(): void {
    const shown = this.chosen ?? this.typed;
    if (this.choice.value !== shown) this.choice.value = shown;
    setText(this.note, shown === this.typed ? "" : `entries stay in ${names[this.typed]}`);
  }
}
