/** What the names of a formula can be where it is typed. */
export interface FormulaPlace {
  /** Cells that rest on nothing but each other, which entries of the setup can use; or everything that has a name. */
  readonly uses: "free cells" | "everything";
  /** Names that are known in this place alone: columns of the same table. */
  readonly locals?: () => readonly string[];
  /** What is worked out here, and cannot stand in its own formula. */
  readonly self?: () => string;
}

/** Of an entry of the setup. */
export const setupFormula: FormulaPlace = { uses: "free cells" };

const placesOfControls = new WeakMap<Element, FormulaPlace>();

/** Tells that formulas are typed into this control, with names that can be completed. */
export function markFormula(control: HTMLInputElement | HTMLTextAreaElement, place: FormulaPlace): void {
  placesOfControls.set(control, place);
  control.setAttribute("aria-autocomplete", "list");
  control.setAttribute("aria-haspopup", "listbox");
  // Only a line of text can be a combobox (ARIA in HTML); a text of several lines stays a text box that points at its list.
  if (control instanceof HTMLInputElement) {
    control.setAttribute("role", "combobox");
    control.setAttribute("aria-expanded", "false");
  }
}

export function formulaPlaceOf(element: EventTarget | null): FormulaPlace | undefined {
  return element instanceof Element ? placesOfControls.get(element) : undefined;
}
