/** The functions that draw the figures of the sheet. */
export type SheetFigures = typeof import("./sheetFigures.ts");

let loaded: SheetFigures | undefined;

/** Undefined until `loadFigures` has them. */
export function loadedFigures(): SheetFigures | undefined {
  return loaded;
}

/** Figures are a fifth of the page: entries and numbers can be used before they are there. */
export async function loadFigures(): Promise<SheetFigures> {
  loaded ??= await import("./sheetFigures.ts");
  return loaded;
}
