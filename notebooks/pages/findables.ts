import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import type { DocumentTable } from "../inputs/documentTable.ts";
import type { EntryField } from "../inputs/entryField.ts";
import { type Place, places } from "./documentRows.ts";
import type { Findable } from "./findIn.ts";
import { isSectionName, numberedSections, type SectionName } from "./layout.ts";
import { valueText } from "./ledger/valueText.ts";
import type { SheetResults } from "./sheetResults.ts";

export interface FoundOn {
  readonly document: SetupDocument;
  readonly tables: { readonly [P in Place]: Pick<DocumentTable<never, SheetResults>, "element" | "parts"> };
  readonly fields: readonly EntryField[];
  /** Undefined where nothing is known: then no result is found. */
  readonly results: SheetResults | undefined;
  /** What is hidden cannot be gone to. */
  isShown(section: SectionName): boolean;
  goToSection(section: SectionName): void;
  goTo(place: string): void;
}

/** Everything on a sheet that has a name: sections, rows with their entries and results, entries by themselves, cells, and what formulas can name. */
export function* findables(sheet: FoundOn): Iterable<Findable> {
  for (const each of everythingOn(sheet)) if (sheet.isShown(each.section)) yield each;
}

function* everythingOn({ document, tables, fields, results, goToSection, goTo }: FoundOn): Iterable<Findable> {
  for (const { name, title } of numberedSections)
    yield { section: name, name: title, label: "", isPart: false, text: () => "section", isSought: false, goTo: () => goToSection(name) };
  for (const place of places) {
    const section = sectionOf(tables[place].element);
    if (section === undefined) continue;
    for (const { path, row, label, text } of tables[place].parts())
      yield { section, name: row, label, isPart: label !== "", text, isSought: true, goTo: () => goTo(path) };
  }
  for (const field of fields) {
    const section = sectionOf(field.element);
    if (section !== undefined)
      yield { section, name: field.label, label: "", isPart: false, text: () => field.shown, isSought: true, goTo: () => field.focus() };
  }
  for (const block of document.ledger) {
    if (block.kind !== "cell" && block.kind !== "table") continue;
    const text = block.kind === "cell" ? () => cellText(block, results) : () => block.columns.map(({ id }) => id).join(", ");
    yield {
      section: "ledger",
      name: block.id,
      label: block.note,
      isPart: false,
      text,
      isSought: true,
      goTo: () => goTo(`ledger.${block.id}`),
    };
  }
  if (results === undefined) return;
  for (const name of results.quantities.keys()) {
    const { describes, of } = results.quantities.about(name) ?? { describes: "", of: "" };
    const place = places.find((each) => of.startsWith(`${each}.`));
    const section = of === "chosen" ? "zero" : place && sectionOf(tables[place].element);
    if (section === undefined) continue;
    const value = () => valueText(name, results) ?? "no value";
    // What it comes to is worked out for those that are listed alone.
    yield {
      section,
      name,
      label: describes,
      isPart: false,
      text: value,
      isSought: false,
      goTo: () => (of === "chosen" ? goToSection("zero") : goTo(of)),
    };
  }
}

function cellText({ id, entry }: { readonly id: string; readonly entry: string }, results: SheetResults | undefined): string {
  const value = results && valueText(id, results);
  return value === undefined ? entry : `${entry} = ${value}`;
}

function sectionOf(element: HTMLElement): SectionName | undefined {
  const id = element.closest("section")?.id ?? "";
  return isSectionName(id) ? id : undefined;
}
