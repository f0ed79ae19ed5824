import { cellOf } from "../entryCell.ts";
import type { CellPlace } from "./cellRange.ts";

export interface MouseRange {
  rowIndex(key: string): number;
  columnIndex(key: string): number;
  /** The row's head was pressed, or the pointer drawn over it. */
  readonly onRows: (row: number, extend: boolean) => void;
  readonly onColumn: (column: number, extend: boolean) => void;
  readonly onAll: () => void;
  /** The pointer is drawn from one cell to another; from the cell that is stood on where `from` is undefined. */
  readonly onCell: (from: CellPlace | undefined, to: CellPlace) => void;
}

type Place =
  | { readonly kind: "cell"; readonly row: number; readonly column: number; readonly control: Element | null }
  | { readonly kind: "row"; readonly row: number }
  | { readonly kind: "column"; readonly column: number }
  | { readonly kind: "corner" };

/** How near to an edge of the frame a drag scrolls it, px, and by how much with every move. */
const edge = 18;

/** Ranges drawn with the mouse: from cell to cell, over the heads of rows and of columns; with Shift from the cell that is stood on. */
export function watchMouse(element: HTMLElement, frame: HTMLElement, range: MouseRange): void {
  let start: Place | undefined;
  let isDrawn = false;

  const placeUnder = (target: EventTarget | null): Place | undefined => {
    if (!(target instanceof Element) || !frame.contains(target)) return undefined;
    const row = range.rowIndex(target.closest<HTMLElement>("[data-row]")?.dataset["row"] ?? "");
    const head = target.closest<HTMLElement>("[data-head]")?.dataset["head"];
    if (head !== undefined) return { kind: "column", column: range.columnIndex(head) };
    if (target.closest(".head")) return row < 0 ? { kind: "corner" } : { kind: "row", row };
    const box = target.closest<HTMLElement>("[data-column]");
    if (row < 0 || box === null) return undefined;
    return { kind: "cell", row, column: range.columnIndex(box.dataset["column"] ?? ""), control: box.querySelector("[data-cell]") };
  };

  const pressed = (event: MouseEvent) => {
    if (event.button !== 0) return;
    const place = placeUnder(event.target);
    start = undefined;
    isDrawn = false;
    if (place === undefined) return;
    if (place.kind === "cell") {
      // In a text that is being edited the mouse selects letters.
      if (cellOf(place.control)?.isEdited) return;
      start = place;
      if (!event.shiftKey) return;
      event.preventDefault();
      range.onCell(undefined, place);
      return;
    }
    event.preventDefault();
    start = place;
    if (place.kind === "corner") range.onAll();
    else if (place.kind === "row") range.onRows(place.row, event.shiftKey);
    else range.onColumn(place.column, event.shiftKey);
  };

  const moved = (event: MouseEvent) => {
    if (start === undefined) return;
    if ((event.buttons & 1) === 0) {
      released();
      return;
    }
    const box = frame.getBoundingClientRect();
    if (isDrawn && event.clientY > box.bottom - edge) frame.scrollTop += edge;
    if (isDrawn && event.clientY < box.top + edge) frame.scrollTop -= edge;
    const place = placeUnder(event.target);
    if (place === undefined) return;
    if (start.kind === "cell" && place.kind === "cell") {
      if (!isDrawn && place.row === start.row && place.column === start.column) return;
      isDrawn = true;
      element.dataset["drawing"] = "";
      getSelection()?.removeAllRanges();
      range.onCell(start, place);
    } else if (start.kind === "row" && "row" in place && place.row !== start.row) range.onRows(place.row, true);
    else if (start.kind === "column" && "column" in place && place.column !== start.column) range.onColumn(place.column, true);
  };

  const released = () => {
    start = undefined;
    delete element.dataset["drawing"];
  };

  element.addEventListener("mousedown", pressed);
  element.addEventListener("mousemove", moved);
  element.addEventListener("mouseup", released);
  // What is selected in a cell would be dragged away as a text.
  element.addEventListener("dragstart", (event) => start !== undefined && event.preventDefault());
}
