export type Direction = "up" | "down" | "left" | "right" | "first" | "last";

/**
 * Puts the focus on the cell next to this one. Up and down go on from table to table, so that a whole page
 * is walked with the arrow keys alone; left and right stay in the row.
 *
 * Rows are elements with `data-row`, cells controls with `data-cell`; a cell's column is the `data-column`
 * of what it stands in. What is hidden is passed over.
 *
 * @param stays in its own table or section: whoever enters one value after the other and comes to the end does not go on in another one
 */
export function moveFrom(control: HTMLElement, direction: Direction, stays = false): void {
  const target = neighbour(control, direction, stays);
  if (target === undefined) return;
  target.focus();
  target.scrollIntoView?.({ block: "nearest", inline: "nearest" });
}

function neighbour(control: HTMLElement, direction: Direction, stays: boolean): HTMLElement | undefined {
  const row = control.closest<HTMLElement>("[data-row]");
  if (row === null) return undefined;
  const cells = cellsOf(row);
  switch (direction) {
    case "left":
      return cells[cells.indexOf(control) - 1];
    case "right":
      return cells[cells.indexOf(control) + 1];
    case "first":
      return cells[0];
    case "last":
      return cells.at(-1);
    default: {
      const next = rowBeside(row, direction === "up" ? -1 : 1);
      if (next === undefined || (stays && listOf(next) !== listOf(row))) return undefined;
      const others = cellsOf(next);
      return others.find((cell) => columnOf(cell) === columnOf(control)) ?? others[Math.min(cells.indexOf(control), others.length - 1)];
    }
  }
}

/** The next row with a cell in it. */
function rowBeside(row: HTMLElement, step: 1 | -1): HTMLElement | undefined {
  const rows = [...(row.getRootNode() as ParentNode).querySelectorAll<HTMLElement>("[data-row]")];
  let index = rows.indexOf(row) + step;
  while (rows[index] !== undefined && cellsOf(rows[index] as HTMLElement).length === 0) index += step;
  return rows[index];
}

function listOf(row: HTMLElement): Element | null {
  return row.closest("[data-table], section");
}

function cellsOf(row: HTMLElement): HTMLElement[] {
  return [...row.querySelectorAll<HTMLElement>("[data-cell]")].filter((cell) => cell.closest("[hidden]") === null);
}

function columnOf(cell: HTMLElement): string | undefined {
  return cell.closest<HTMLElement>("[data-column]")?.dataset["column"];
}
