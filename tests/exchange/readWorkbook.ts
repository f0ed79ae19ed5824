import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { SaxesParser } from "saxes";

/** A cell as a file has it: formula without `=`, and the value that is stored with it. */
export interface ReadCell {
  readonly formula: string | undefined;
  readonly value: string | number | undefined;
}

/** Cells by sheet and name (`Budgets`, `F5`). What it reads it knows from ECMA-376, and nothing from the code that wrote it. */
export function readWorkbook(bytes: Uint8Array): ReadonlyMap<string, ReadonlyMap<string, ReadCell>> {
  const parts = unzipSync(bytes);
  const part = (name: string) => strFromU8(parts[name] ?? failed(`no part ${name}`));
  const targets = new Map<string, string>();
  eachElement(part("xl/_rels/workbook.xml.rels"), (name, { Id, Target }) => {
    if (name === "Relationship") targets.set(Id ?? "", (Target ?? "").replace(/^\/?(?:xl\/)?/, "xl/"));
  });
  const sheets: [string, string][] = [];
  eachElement(part("xl/workbook.xml"), (name, attributes) => {
    if (name === "sheet") sheets.push([attributes["name"] ?? "", targets.get(attributes["r:id"] ?? "") ?? ""]);
  });
  const shared = "xl/sharedStrings.xml" in parts ? sharedStrings(part("xl/sharedStrings.xml")) : [];
  return new Map(sheets.map(([name, path]) => [name, readSheet(part(path), shared)]));
}

/** The same file, but no formula knows what it gives. */
export function withoutResults(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  return zipSync(
    Object.fromEntries(
      Object.entries(parts).map(([name, data]) => [
        name,
        name.includes("worksheets/") ? strToU8(strFromU8(data).replace(/(<\/f>\s*)<v>[^<]*<\/v>/g, "$1")) : data,
      ]),
    ),
  );
}

function readSheet(xml: string, shared: readonly string[]): ReadonlyMap<string, ReadCell> {
  const cells = new Map<string, ReadCell>();
  let cell: { at: string; type: string; formula?: string; value?: string } | undefined;
  eachElement(
    xml,
    (name, { r, t }) => {
      if (name === "c") cell = { at: r ?? "", type: t ?? "n" };
    },
    (name, text) => {
      if (cell === undefined) return;
      if (name === "f") cell.formula = text;
      else if (name === "v" || name === "t") cell.value = text;
      else if (name === "c") {
        const { at, type, formula, value } = cell;
        cell = undefined;
        if (value === undefined) cells.set(at, { formula, value });
        else if (type === "e") failed(`${at} is in error: ${value}`);
        else cells.set(at, { formula, value: type === "n" ? Number(value) : type === "s" ? (shared[Number(value)] ?? "") : value });
      }
    },
  );
  return cells;
}

function sharedStrings(xml: string): string[] {
  const texts: string[] = [];
  let text = "";
  eachElement(
    xml,
    (name) => {
      if (name === "si") text = "";
    },
    (name, inside) => {
      if (name === "t") text += inside;
      if (name === "si") texts.push(text);
    },
  );
  return texts;
}

function eachElement(
  xml: string,
  onOpen: (name: string, attributes: Readonly<Record<string, string>>) => void,
  onClose: (name: string, text: string) => void = () => {},
): void {
  const parser = new SaxesParser();
  let text = "";
  parser.on("error", (error) => failed(error.message));
  parser.on("opentag", ({ name, attributes }) => {
    text = "";
    onOpen(name, attributes);
  });
  parser.on("text", (more) => {
    text += more;
  });
  parser.on("closetag", ({ name }) => onClose(name, text));
  parser.write(xml).close();
}

function failed(words: string): never {
  throw new Error(`readWorkbook: ${words}`);
}
