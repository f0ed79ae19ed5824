import { miniDocument } from "../figures/miniDocument.ts";
import { printedFigureStyle } from "./printedFigureStyle.ts";
import type { SetupFigure } from "./setupFigures.ts";

/** A figure as an SVG file that stands by itself, black on white as it is printed. */
export function printedFigure({ draw }: SetupFigure): string {
  const svg = draw({ document: miniDocument() }).outerHTML;
  // The root's own start tag is the first; what follows it is drawn as it was.
  const end = svg.indexOf(">") + 1;
  const style = `<style>svg { font-family: "Liberation Sans", Arial, sans-serif; }\n${asXml(printedFigureStyle)}</style>`;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.slice(0, end)}${style}${svg.slice(end)}\n`;
}

function asXml(style: string): string {
  return style.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}
