import { strToU8, zipSync } from "fflate";
import { type XmlElement, xmlText } from "./xmlText.ts";

/** A formula as it stands in the file (names of functions newer than the standard with their prefix `_xlfn.`), and what it gives. */
export interface FormulaCell {
  readonly formula: string;
  readonly value: number | string;
}

/** A text is a text, whatever it starts with; undefined leaves the cell empty. */
export type WorkbookCell = string | number | FormulaCell | undefined;

export interface Worksheet {
  /** At most 31 characters, none of `: \ / ? * [ ]`. */
  readonly name: string;
  readonly rows: readonly (readonly WorkbookCell[])[];
  /** Rows in bold, counted from 0. */
  readonly headings: ReadonlySet<number>;
  readonly columns: readonly WorkbookColumn[];
}

export interface WorkbookColumn {
  /** In characters. */
  readonly width: number;
  /** How its numbers are shown; as they are unless given. What is not shown is there all the same. */
  readonly format?: keyof typeof formats;
}

/** By what is shown: seven decimals tell tenths of a nanometre, and keep rounding of the last bits out of sight. */
const formats = { general: "General", lengths: "0.0000000", factors: "0.000", shares: "0.0000", freedoms: "0.0" } as const;
/** Formats of a file's own are numbered from here. */
const firstFormat = 164;

/**
 * A workbook of worksheets with formulas (ECMA-376, Office Open XML, the parts that are necessary and no others; part names and content types from memory).
 * The same sheets give the same bytes. Programs that open it are told to work out every formula anew.
 */
export function xlsxFile(sheets: readonly Worksheet[]): Uint8Array {
  const parts = {
    "[Content_Types].xml": contentTypes(sheets),
    "_rels/.rels": relationships([["officeDocument", "xl/workbook.xml"]]),
    "xl/workbook.xml": workbook(sheets),
    "xl/_rels/workbook.xml.rels": relationships([
      ...sheets.map((_, i) => ["worksheet", `worksheets/sheet${i + 1}.xml`] as const),
      ["styles", "styles.xml"],
    ]),
    "xl/styles.xml": styles,
    ...Object.fromEntries(sheets.map((sheet, i) => [`xl/worksheets/sheet${i + 1}.xml`, worksheet(sheet)])),
  };
  const files = Object.fromEntries(Object.entries(parts).map(([name, root]) => [name, strToU8(xmlText(root))]));
  return zipSync(files, { mtime: firstMoment, level: 6 });
}

/** The earliest that a ZIP archive can tell, so that no clock is in the bytes. */
const firstMoment = "1980-01-01T00:00:00";

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const linked = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packaged = "http://schemas.openxmlformats.org/package/2006";
const parts = "application/vnd.openxmlformats-officedocument.spreadsheetml";

function element(name: string, attributes: Readonly<Record<string, string>> = {}, children: XmlElement["children"] = ""): XmlElement {
  return { name, attributes, children };
}

function contentTypes(sheets: readonly Worksheet[]): XmlElement {
  const override = (part: string, kind: string) => element("Override", { PartName: part, ContentType: `${parts}.${kind}+xml` });
  return element("Types", { xmlns: `${packaged}/content-types` }, [
    element("Default", { Extension: "rels", ContentType: "application/vnd.openxmlformats-package.relationships+xml" }),
    element("Default", { Extension: "xml", ContentType: "application/xml" }),
    override("/xl/workbook.xml", "sheet.main"),
    override("/xl/styles.xml", "styles"),
    ...sheets.map((_, i) => override(`/xl/worksheets/sheet${i + 1}.xml`, "worksheet")),
  ]);
}

function relationships(targets: readonly (readonly [kind: string, target: string])[]): XmlElement {
  return element(
    "Relationships",
    { xmlns: `${packaged}/relationships` },
    targets.map(([kind, target], i) => element("Relationship", { Id: `r${i + 1}`, Type: `${linked}/${kind}`, Target: target })),
  );
}

function workbook(sheets: readonly Worksheet[]): XmlElement {
  return element("workbook", { xmlns: main, "xmlns:r": linked }, [
    element("bookViews", {}, [element("workbookView")]),
    element(
      "sheets",
      {},
      sheets.map(({ name }, i) => element("sheet", { name, sheetId: String(i + 1), "r:id": `r${i + 1}` })),
    ),
    element("calcPr", { fullCalcOnLoad: "1" }),
  ]);
}

const typeface = [element("sz", { val: "10" }), element("name", { val: "Liberation Sans" })];
/** Every format, plain and bold. */
const styles = element("styleSheet", { xmlns: main }, [
  element(
    "numFmts",
    { count: String(Object.keys(formats).length) },
    Object.values(formats).map((formatCode, i) => element("numFmt", { numFmtId: String(firstFormat + i), formatCode })),
  ),
  element("fonts", { count: "2" }, [element("font", {}, typeface), element("font", {}, [element("b"), ...typeface])]),
  element("fills", { count: "2" }, [
    element("fill", {}, [element("patternFill", { patternType: "none" })]),
    element("fill", {}, [element("patternFill", { patternType: "gray125" })]),
  ]),
  element("borders", { count: "1" }, [element("border")]),
  element("cellStyleXfs", { count: "1" }, [element("xf", { numFmtId: "0", fontId: "0", fillId: "0", borderId: "0" })]),
  element(
    "cellXfs",
    { count: String(2 * Object.keys(formats).length) },
    Object.keys(formats).flatMap((_, i) =>
      ["0", "1"].map((fontId) =>
        element("xf", {
          numFmtId: String(firstFormat + i),
          fontId,
          fillId: "0",
          borderId: "0",
          xfId: "0",
          applyFont: "1",
          applyNumberFormat: "1",
        }),
      ),
    ),
  ),
]);

function worksheet({ rows, headings, columns }: Worksheet): XmlElement {
  const pane = { ySplit: "1", topLeftCell: "A2", activePane: "bottomLeft", state: "frozen" };
  return element("worksheet", { xmlns: main }, [
    element("sheetPr", {}, [element("pageSetUpPr", { fitToPage: "1" })]),
    element("sheetViews", {}, [
      element("sheetView", { workbookViewId: "0" }, headings.has(0) && !headings.has(1) ? [element("pane", pane)] : ""),
    ]),
    element(
      "cols",
      {},
      columns.map(({ width }, i) => element("col", { min: String(i + 1), max: String(i + 1), width: String(width), customWidth: "1" })),
    ),
    element(
      "sheetData",
      {},
      rows.map((row, r) =>
        element(
          "row",
          { r: String(r + 1) },
          row.flatMap((cell, c) => (cell === undefined ? [] : [cellElement(cell, cellName(r, c), styleOf(columns[c], headings.has(r)))])),
        ),
      ),
    ),
    // As wide as a sheet of paper, as high as it gets.
    element("pageSetup", { orientation: "landscape", fitToWidth: "1", fitToHeight: "0" }),
  ]);
}

function styleOf(column: WorkbookColumn | undefined, isBold: boolean): string {
  return String(2 * Object.keys(formats).indexOf(column?.format ?? "general") + (isBold ? 1 : 0));
}

function cellElement(cell: Exclude<WorkbookCell, undefined>, name: string, style: string): XmlElement {
  const attributes = { r: name, s: style };
  if (typeof cell === "string")
    return element("c", { ...attributes, t: "inlineStr" }, [
      element("is", {}, [element("t", { "xml:space": "preserve" }, sharedText(cell))]),
    ]);
  if (typeof cell === "number") return element("c", attributes, [element("v", {}, numberText(cell))]);
  const { formula, value } = cell;
  return typeof value === "number"
    ? element("c", attributes, [element("f", {}, formula), element("v", {}, numberText(value))])
    : element("c", { ...attributes, t: "str" }, [element("f", {}, formula), element("v", {}, sharedText(value))]);
}

/** @throws RangeError for a number that is not finite: a workbook has no sign for it */
function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`cell: expected a finite number, got ${value}`);
  return String(value === 0 ? 0 : value);
}

/** Most characters of a cell. */
const longest = 32_767;

/** What looks like the escape of a sign (`_x000D_`) is none (ECMA-376, ST_Xstring). */
function sharedText(text: string): string {
  const whole = text.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_");
  return whole.length > longest ? `${whole.slice(0, longest - 1)}…` : whole;
}

/** `A1` for the first cell; rows and columns are counted from 0. */
export function cellName(row: number, column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return `${letters}${row + 1}`;
}
