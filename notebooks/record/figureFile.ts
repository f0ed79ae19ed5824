import figureStyle from "../figures/figures.css?raw";
import { miniDocument } from "../figures/miniDocument.ts";
import type { SetupFigure } from "./setupFigures.ts";

/** A figure as an SVG file that stands by itself, black on white as it is printed. */
export function figureFile({ draw }: SetupFigure): string {
  const svg = draw({ document: miniDocument() }).outerHTML;
  // The root's own start tag is the first; what follows it is drawn as it was.
  const end = svg.indexOf(">") + 1;
  const style = `<style>svg { --paper: #fff; --sheet: #fff; --ink: #000; --soft: #333; --rule: #999; --hair: #ccc; --tint: #f2f2f2; --mark: #000; --calm: #000; --bad: #000; --f1: #000; --f2: #000; --f3: #000; --f4: #000; --f5: #000; --f6: #000; font-family: "Liberation Sans", Arial, sans-serif; }\n${asXml(figureStyle)}</style>`;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.slice(0, end)}${style}${svg.slice(end)}\n`;
}

function asXml(style: string): string {
  return style.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
}
