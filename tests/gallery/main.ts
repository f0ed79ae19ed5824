import "../../notebooks/figures/figures.css";
import type { FigureTable } from "../../notebooks/figures/figureTable.ts";
import { type Exhibit, gallery } from "./gallery.ts";

// `?width=340&only=setup` shows some figures at another width.
const asked = new URLSearchParams(location.search);
const width = Number(asked.get("width") ?? 520);

for (const [name, show] of Object.entries(gallery))
  if (name.includes(asked.get("only") ?? "")) document.querySelector("main")?.append(framed(name, show({ width })));

function framed(name: string, { figure, table }: Exhibit): HTMLElement {
  const frame = document.createElement("figure");
  const caption = document.createElement("figcaption");
  caption.textContent = name;
  const sheet = document.createElement("div");
  sheet.className = "frame";
  sheet.tabIndex = 0;
  sheet.append(figure);
  const details = document.createElement("details");
  const summary = document.createElement("summary");
  summary.textContent = "table";
  details.append(summary, asElement(table));
  frame.append(caption, sheet, details);
  return frame;
}

function asElement({ caption, columns, rows }: FigureTable): HTMLTableElement {
  const table = document.createElement("table");
  table.createCaption().textContent = caption;
  const head = table.createTHead().insertRow();
  for (const column of columns) {
    const cell = document.createElement("th");
    cell.scope = "col";
    cell.textContent = column;
    head.append(cell);
  }
  const body = table.createTBody();
  for (const row of rows) {
    const line = body.insertRow();
    for (const entry of row) line.insertCell().textContent = entry;
  }
  return table;
}
