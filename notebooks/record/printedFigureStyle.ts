import figureStyle from "../figures/figures.css?raw";

/** The style of figures as they are printed, black on white with patterns, for every medium. */
export const printedFigureStyle = figureStyle.replace("@media print", "@media all");
