/** What is printed, before anything says how: the same sheet becomes text, a page and a table. */
export interface Paper {
  /** What kind of sheet it is: `Setup record`. */
  readonly kind: string;
  readonly title: string;
  /** What every side of it is known by. */
  readonly facts: readonly Fact[];
  readonly sections: readonly PaperSection[];
}

export interface Fact {
  readonly name: string;
  /** Empty for a line to write on. */
  readonly value: string;
}

export interface PaperSection {
  readonly title: string;
  readonly blocks: readonly Block[];
  /** How it is set on a page: beside the section before it, or in columns of small type. */
  readonly set?: "beside" | "small";
}

export type Block =
  | { readonly kind: "paragraph"; readonly text: string }
  /** A person's own paragraphs, one to a line, and whose they are. */
  | { readonly kind: "quote"; readonly of: string; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | { readonly kind: "table"; readonly columns: readonly PaperColumn[]; readonly rows: readonly (readonly Cell[])[] }
  /** Lines that are typed as they stand. */
  | { readonly kind: "lines"; readonly lines: readonly string[] }
  /** Entries under the place that they have in the saved file. */
  | { readonly kind: "listing"; readonly place: string; readonly rows: readonly string[] }
  /** Drawn by whoever can; text passes it over. */
  | { readonly kind: "figure"; readonly name: string };

export interface PaperColumn {
  readonly title: string;
  readonly align: "left" | "right";
}

/** A text, or a box to fill in by hand. */
export type Cell = string | typeof blank;

export const blank = { blank: true } as const;

/** A table of texts whose columns are named, those after a colon aligned to the right: `touch`, `mean:`. */
export function tableOf(titles: readonly string[], rows: readonly (readonly Cell[])[]): Block[] {
  if (rows.length === 0) return [];
  const columns = titles.map((title): PaperColumn => ({ title: title.replace(/:$/, ""), align: title.endsWith(":") ? "right" : "left" }));
  return [{ kind: "table", columns, rows }];
}

/** Nothing for an empty text. */
export function paragraph(text: string): Block[] {
  return text.trim() === "" ? [] : [{ kind: "paragraph", text }];
}

/** Nothing for no items. */
export function list(items: readonly string[]): Block[] {
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

/** Sections without content are left out. */
export function sectionsOf(sections: readonly PaperSection[]): PaperSection[] {
  return sections.filter(({ blocks }) => blocks.length > 0);
}
