import type { Problem } from "../../../lib/base/outcome.ts";
import type { LedgerBlock } from "../../../lib/document/ledgerBlocks.ts";
import { EntryCell } from "../../inputs/entryCell.ts";
import type { FormulaPlace } from "../../inputs/formulaPlace.ts";
import type { SheetResults } from "../sheetResults.ts";
import type { Blocks } from "./blocks.ts";
import type { TableEntry } from "./stood.ts";

/** What a block asks of the ledger that it stands in. All edits of one session are one step of the document's history. */
export interface BlockHost {
  edit(change: (blocks: Blocks) => Blocks, what: string, session?: object): void;
  /** @returns why the block cannot have that name, if it cannot */
  rename(key: string, name: string, session: object): string | undefined;
  renameColumn(key: string, column: number, name: string, session: object): string | undefined;
  abandon(session: object): void;
  say(words: string): void;
  /** What has no value without these names, directly or by way of others. */
  missing(names: readonly string[]): readonly string[];
  /** What formulas mean by a name where no column beside them has it; undefined where nothing else is called so. */
  meaningOf(name: string): string | undefined;
  /** A person stands on this block; of a table, on this entry of it. */
  stand(key: string, entry?: TableEntry): void;
  /** What is said about the block has changed without the document. */
  refused(): void;
}

/** What is on the page for one block. */
export interface BlockView<B extends LedgerBlock = LedgerBlock> {
  readonly element: HTMLElement;
  show(block: B): void;
  /** Undefined while results wait or have failed: nothing old stays on the page. */
  showResults(results: SheetResults | undefined): void;
  /** Those of this block alone. */
  showProblems(problems: readonly Problem[]): void;
  /** What is wrong with the text that is being typed, or else with the block; empty where nothing is. */
  readonly words: string;
  /** The control of the entry with this path within the block, or the first one. */
  controlAt(path: string): HTMLElement | undefined;
  /** Opens or closes what is behind the disclosure; undefined for a block that has none. */
  readonly more: { readonly isOpen: boolean; toggle(open: boolean): void } | undefined;
}

export interface EntryOptions {
  readonly kind: "text" | "choice" | "long";
  readonly label: string;
  readonly width: number;
  readonly choices?: readonly string[];
  readonly formula?: FormulaPlace | undefined;
  /** @returns why the document cannot hold the text, if it cannot */
  readonly onEdit: (text: string, session: object) => string | undefined;
}

/** Id of the element that says why a text that is being typed cannot be held. */
export const noteId = "ledger-note";

/** An entry of a block, with what is said while a text is typed that the document cannot hold. */
export class BlockEntry {
  readonly cell: EntryCell;
  /** Told while the text is typed. */
  refusal: string | undefined;
  private reason: string | undefined;

  constructor({ kind, label, width, choices, formula, onEdit }: EntryOptions, host: BlockHost, onLeave: () => void = () => {}) {
    this.cell = new EntryCell({
      kind,
      label,
      width,
      formula,
      onEdit: (text, session) => {
        const before = this.refusal;
        const reason = onEdit(text, session);
        this.reason = reason;
        this.refusal = reason === undefined ? undefined : `${reason} Until then the name stays as it was.`;
        if (this.refusal === before) return;
        this.cell.setProblem(this.refusal === undefined ? undefined : noteId);
        host.refused();
      },
      onAbandon: (session) => host.abandon(session),
      onLeave: () => {
        const wasRefused = this.refusal !== undefined;
        this.refusal = undefined;
        if (wasRefused) host.say(`The name stays as it was: ${this.reason}`);
        if (wasRefused) this.cell.setProblem(undefined);
        onLeave();
        if (wasRefused) host.refused();
      },
    });
    if (choices) this.cell.setChoices(choices);
  }

  get control(): HTMLElement {
    return this.cell.control;
  }
}
