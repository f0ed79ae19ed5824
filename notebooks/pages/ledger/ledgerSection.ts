import type { Problem } from "../../../lib/base/outcome.ts";
import type { CellBlock, LedgerBlock, TableBlock } from "../../../lib/document/ledgerBlocks.ts";
import { namesOfSetup } from "../../../lib/document/namesOfSetup.ts";
import type { ReadLedger } from "../../../lib/document/readLedger.ts";
import { type NamesElsewhere, namesOfBlocks } from "../../../lib/document/renameBlock.ts";
import type { SetupDocument } from "../../../lib/document/setupDocument.ts";
import { focusedNear } from "../../inputs/focusedNear.ts";
import { html, setAttribute, setText } from "../../inputs/html.ts";
import { IdleWork } from "../../inputs/idleWork.ts";
import { InSight } from "../../inputs/inSight.ts";
import { keyOf } from "../../inputs/rows.ts";
import { shortList, withoutItInWords } from "../../inputs/withoutItInWords.ts";
import type { SheetResults } from "../sheetResults.ts";
import { Batches } from "./batches.ts";
import {
  type BlockKind,
  type Blocks,
  blankBlock,
  changeBlock,
  foldedAway,
  indexOfBlock,
  insertAfter,
  isHidden,
  moveBlock,
  namesOfBlock,
  removeBlock,
} from "./blocks.ts";
import { type BlockHost, type BlockView, noteId } from "./blockView.ts";
import { CellView } from "./cellView.ts";
import { followRowSources } from "./followRowSources.ts";
import { FreeTableView } from "./freeTableView.ts";
import { LedgerGraph } from "./graph.ts";
import { MadeOf } from "./madeOf.ts";
import { NamesInUse } from "./namesInUse.ts";
import { nameBlock, nameColumn } from "./naming.ts";
import { ProseView } from "./proseView.ts";
import { type Stood, stoodOnCell, stoodOnEntry, type TableEntry } from "./stood.ts";
import { asStated } from "./suppositions.ts";
import { WhatIf } from "./whatIf.ts";

/** What the ledger asks of the sheet. */
export interface LedgerEdits {
  /** `change` gets the document from before the session's first edit. */
  edit(change: (before: SetupDocument) => SetupDocument, what: string, session?: object): void;
  abandon(session: object): void;
  say(words: string): void;
  /** A person stands on a cell of their own: what it is made of comes into view. */
  stand(): void;
  /** A person wants to go to an entry of the document, by its place. */
  goTo(place: string): void;
}

const kinds = ["cell", "heading", "paragraph", "table"] as const satisfies readonly BlockKind[];

/** As they are on a wide page, px. */
const usualHeights = { cell: 40, heading: 41, paragraph: 28, table: 160 } as const satisfies Record<BlockKind, number>;

/** Cells, free tables and words of a person's own, in the order in which they stand in the document. */
export class LedgerSection {
  readonly element: HTMLElement;
  readonly madeOf: MadeOf;
  private readonly edits: LedgerEdits;
  private readonly host: BlockHost;
  private readonly whatIf: WhatIf;
  private readonly batches = new Batches();
  private readonly nothing = html("p", { class: "hint" });
  private readonly list = html("div", { class: "blocks" }, this.batches.element, this.nothing);
  private readonly views = new Map<string, BlockView>();
  private readonly acts: Acts;
  private readonly names = new NamesInUse();
  private readonly inSight: InSight;
  private readonly bends = new IdleWork();
  private document: SetupDocument | undefined;
  private results: SheetResults | undefined;
  private read: ReadLedger | undefined;
  private graph: LedgerGraph | undefined;
  /** Key of the block that a person stands on or last stood on. */
  private standing: string | undefined;
  /** Of a table, the entry that a person stands on or last stood on. */
  private entry: TableEntry | undefined;
  private showsHidden = false;
  private hasProblems = false;

  constructor(edits: LedgerEdits) {
    this.edits = edits;
    this.host = {
      edit: (change, what, session) => this.editBlocks(change, what, session),
      rename: (key, name, session) => this.rename((before, elsewhere) => nameBlock(before, key, name, elsewhere), key, session),
      renameColumn: (key, column, name, session) =>
        this.rename((before, elsewhere) => nameColumn(before, key, column, name, elsewhere), key, session),
      abandon: (session) => edits.abandon(session),
      say: (words) => edits.say(words),
      missing: (names) => this.missingWithout(names),
      meaningOf: (name) => this.meaningOf(name),
      stand: (key, entry) => this.standOn(key, entry),
      refused: () => this.showNote(),
    };
    this.acts = new Acts({
      add: (kind) => this.add(kind),
      move: (by) => this.move(by),
      remove: () => this.remove(),
      hide: () => this.hide(),
      more: () => this.toggleMore(),
      suppose: () => this.suppose(),
      showHidden: () => this.toggleHidden(),
      leave: () => this.focusBlock(this.standing),
    });
    this.madeOf = new MadeOf({ go: (name) => this.go(name), look: (column) => this.lookAt(column) });
    this.whatIf = new WhatIf(edits);
    const heads = html(
      "div",
      { class: "heads", "aria-hidden": "true" },
      ...["name", "entry, as typed", "comes to", "note"].map((head) => html("span", {}, head)),
    );
    this.element = html("div", { class: "own" }, heads, this.list, this.acts.element, this.names.element, this.whatIf.element);
    this.inSight = new InSight(this.list);
    this.element.addEventListener("keydown", (event) => this.pressed(event));
  }

  showDocument(document: SetupDocument): void {
    const before = this.document;
    this.document = document;
    if (document.ledger !== before?.ledger) this.showBlocks(document.ledger, before?.ledger);
    if (document.whatIf !== before?.whatIf) this.whatIf.show(undefined, document, this.stoodCell()?.id);
  }

  /** Undefined while results wait or have failed: nothing old stays on the page. */
  showResults(results: SheetResults | undefined, read: ReadLedger | undefined): void {
    const { document } = this;
    this.results = results;
    this.read = read;
    if (document === undefined) return;
    if (results === undefined) this.inSight.now(() => this.fillResults(undefined));
    else this.inSight.run(() => this.fillResults(results));
    this.showProblems(results?.problems ?? []);
    this.showMadeOf();
    this.names.show(results);
    this.whatIf.show(results, document, this.stoodCell()?.id);
  }

  /** Puts the focus on the entry with this path; false if it is not of the ledger. */
  focus(place: string): boolean {
    if (place === "ledger") {
      this.acts.focus();
      return true;
    }
    const block = this.blocks.find((each) => "id" in each && (place === `ledger.${each.id}` || place.startsWith(`ledger.${each.id}.`)));
    if (block === undefined || !("id" in block)) return false;
    if (isHidden(block) && !this.showsHidden) this.toggleHidden();
    this.unfold(block);
    const control = this.views.get(keyOf(block))?.controlAt(place.slice(`ledger.${block.id}.`.length));
    control?.focus();
    control?.scrollIntoView?.({ block: "center" });
    return true;
  }

  /** The place of the cell, table or column with this name. */
  placeOf(name: string): string | undefined {
    const block = this.blocks.find((each) => namesOfBlock(each).includes(name) || ("id" in each && each.id === name));
    return block !== undefined && "id" in block ? `ledger.${block.id}` : undefined;
  }

  private get blocks(): Blocks {
    return this.document?.ledger ?? [];
  }

  private editBlocks(change: (blocks: Blocks) => Blocks, what: string, session?: object): void {
    this.edits.edit(
      (before) => {
        const ledger = change(before.ledger);
        return ledger === before.ledger ? before : followRowSources(before, { ...before, ledger });
      },
      what,
      session,
    );
  }

  private rename(
    change: (before: SetupDocument, elsewhere: NamesElsewhere) => ReturnType<typeof nameBlock>,
    key: string,
    session: object,
  ): string | undefined {
    const elsewhere = this.namesElsewhere();
    let refusal: string | undefined;
    const block = this.blocks[indexOfBlock(this.blocks, key)];
    this.edits.edit(
      (before) => {
        const renamed = change(before, elsewhere);
        refusal = renamed.refusal;
        return renamed.document;
      },
      `name of ${block !== undefined && "id" in block ? block.id : "a block"}`,
      session,
    );
    return refusal;
  }

  /** What formulas know by name besides cells and columns; also while results wait, or cannot be worked out. */
  private namesElsewhere(): NamesElsewhere {
    const names = new Map(this.document === undefined ? [] : namesOfSetup(this.document));
    const { quantities } = this.results ?? {};
    for (const name of quantities?.keys() ?? []) names.set(name, `the ${quantities?.about(name)?.describes}`);
    return names;
  }

  private showBlocks(blocks: Blocks, before: Blocks | undefined): void {
    if (blocks.length === before?.length && blocks.every((block, i) => isInPlaceOf(block, before[i] as LedgerBlock))) {
      for (const [i, block] of blocks.entries()) if (block !== before[i]) this.viewOf(block).show(block);
      this.showNote();
      return;
    }
    const active = focusedNear(this.list);
    const focused = this.list.contains(active) ? active : undefined;
    const keys = new Set(blocks.map(keyOf));
    for (const key of this.views.keys()) if (!keys.has(key)) this.views.delete(key);
    for (const block of blocks) this.viewOf(block).show(block);
    this.layOut();
    // What was moved in the page has lost the focus on its way.
    if (focused?.isConnected && focusedNear(this.list) !== focused) focused.focus({ preventScroll: true });
    this.showNote();
  }

  private layOut(): void {
    const { blocks } = this;
    const away = foldedAway(blocks);
    const shown = blocks.filter((block) => !away.has(keyOf(block)) && (this.showsHidden || !isHidden(block)));
    this.batches.show(shown.map((block) => ({ key: keyOf(block), element: this.viewOf(block).element, height: usualHeights[block.kind] })));
    setText(this.nothing, shown.length > 0 ? "" : wordsOfNothing(blocks.length > 0));
    this.nothing.hidden = shown.length > 0;
    this.acts.showHidden(blocks.filter(isHidden).length, this.showsHidden);
  }

  private viewOf(block: LedgerBlock): BlockView {
    const key = keyOf(block);
    const known = this.views.get(key);
    if (known !== undefined) return known;
    const view = this.createView(block, key) as BlockView;
    this.views.set(key, view);
    return view;
  }

  private createView(block: LedgerBlock, key: string): CellView | ProseView | FreeTableView {
    if (block.kind === "cell") return new CellView(key, this.host);
    return block.kind === "table" ? new FreeTableView(key, this.host) : new ProseView(block.kind, key, this.host);
  }

  /** Where that fails, half of what is shown may be old: none of it stays. */
  private fillResults(results: SheetResults | undefined): void {
    try {
      for (const view of this.views.values()) view.showResults(results);
      this.bends.begin(this.bendsOf(this.views.values()));
    } catch (error) {
      for (const view of this.views.values()) view.showResults(undefined);
      throw error;
    }
  }

  private *bendsOf(views: Iterable<BlockView>): Generator<() => void> {
    for (const view of views) {
      const look = view instanceof CellView ? view.takeBend() : undefined;
      if (look !== undefined) yield look;
    }
  }

  private showProblems(problems: readonly Problem[]): void {
    const byName = new Map<string, Problem[]>();
    for (const problem of problems) {
      const [section, name] = problem.at.split(".", 2);
      if (section === "ledger" && name !== undefined) byName.set(name, [...(byName.get(name) ?? []), problem]);
    }
    if (byName.size > 0 || this.hasProblems)
      for (const block of this.blocks) if ("id" in block) this.viewOf(block).showProblems(byName.get(block.id) ?? []);
    this.hasProblems = byName.size > 0;
    this.showNote();
  }

  private standOn(key: string, entry?: TableEntry): void {
    this.entry = entry ?? (key === this.standing ? this.entry : undefined);
    if (key !== this.standing) {
      const left = this.standing === undefined ? undefined : this.views.get(this.standing);
      if (left !== undefined) setAttribute(left.element, "data-standing", undefined);
      this.standing = key;
      this.whatIf.show(this.results, this.document as SetupDocument, this.stoodCell()?.id);
    }
    const view = this.views.get(key);
    if (view !== undefined) setAttribute(view.element, "data-standing", "");
    this.showMadeOf();
    if (this.stoodCell() !== undefined || this.entry !== undefined) this.edits.stand();
    this.showNote();
  }

  private standingBlock(): LedgerBlock | undefined {
    return this.blocks[indexOfBlock(this.blocks, this.standing)];
  }

  private stoodCell(): CellBlock | undefined {
    const block = this.standingBlock();
    return block?.kind === "cell" ? block : undefined;
  }

  private currentGraph(): LedgerGraph | undefined {
    const { read, document } = this;
    if (read === undefined || document === undefined) return undefined;
    if (this.graph?.isOf(document, read) !== true) this.graph = new LedgerGraph(document, read);
    return this.graph;
  }

  private showMadeOf(): void {
    this.madeOf.show(this.stood());
  }

  private stood(): Stood | undefined {
    const { results, entry } = this;
    const block = this.standingBlock();
    const graph = block && this.currentGraph();
    if (graph === undefined || results === undefined) return undefined;
    if (block?.kind === "cell") return stoodOnCell(block, graph, results);
    return block?.kind === "table" && entry !== undefined ? stoodOnEntry(block, entry, graph, results) : undefined;
  }

  /** Another entry of the row that one stands on. */
  private lookAt(column: number): void {
    if (this.entry === undefined) return;
    this.entry = { ...this.entry, column };
    this.showMadeOf();
  }

  private showNote(): void {
    const { blocks } = this;
    const index = indexOfBlock(blocks, this.standing);
    const block = blocks[index];
    const view = block === undefined ? undefined : this.views.get(keyOf(block));
    this.acts.show(
      block === undefined || view === undefined
        ? undefined
        : {
            block,
            isFirst: index === 0,
            isLast: index === blocks.length - 1,
            wrong: view.words,
            about: this.aboutBlock(block),
            more: view.more?.isOpen,
          },
    );
  }

  private aboutBlock(block: LedgerBlock): string {
    if (!("id" in block))
      return block.kind === "paragraph" ? "Shift with Enter breaks a line." : "Begins a group: all up to the next heading.";
    const missing = this.missingWithout(namesOfBlock(block));
    return missing.length === 0 ? "Nothing depends on it." : `On it depend ${shortList(missing)}.`;
  }

  private add(kind: BlockKind): void {
    const names = new Set(namesOfBlocks(this.blocks));
    const elsewhere = this.namesElsewhere();
    const block = blankBlock(kind, (name) => names.has(name) || elsewhere.has(name));
    this.editBlocks((blocks) => insertAfter(blocks, this.standing, block), `new ${kind}`);
    this.unfold(block);
    if (block.kind === "table") this.views.get(keyOf(block))?.more?.toggle(true);
    this.focusBlock(keyOf(block));
  }

  private move(by: -1 | 1): void {
    const block = this.standingBlock();
    if (block === undefined) return;
    const isShown = (each: LedgerBlock) => this.showsHidden || !isHidden(each);
    const before = this.blocks;
    this.editBlocks((blocks) => moveBlock(blocks, keyOf(block), by, isShown), `place of ${nameInWords(block)}`);
    const isAtEnd = keyOf((by < 0 ? before.at(0) : before.at(-1)) as LedgerBlock) === keyOf(block);
    if (this.blocks === before && !isAtEnd)
      this.edits.say(
        `${capitalise(nameInWords(block))} stays: farther ${by < 0 ? "up" : "down"} something would be folded away by it. Unfold the group first.`,
      );
  }

  /** What has no value without these names of quantities, cells or columns, directly or by way of others. */
  missingWithout(names: readonly string[]): readonly string[] {
    return [...new Set(names.flatMap((name) => this.currentGraph()?.missing(name) ?? []))];
  }

  private remove(): void {
    const block = this.standingBlock();
    if (block === undefined) return;
    const key = keyOf(block);
    const without = this.withoutInWords(namesOfBlock(block));
    const index = indexOfBlock(this.blocks, key);
    this.editBlocks((blocks) => removeBlock(blocks, key), `removal of ${nameInWords(block)}`);
    this.edits.say(`${capitalise(nameInWords(block))} is removed; undo brings it back.${without}`);
    const next = this.blocks[Math.min(index, this.blocks.length - 1)];
    if (next === undefined) {
      this.standing = undefined;
      this.showMadeOf();
      this.showNote();
      this.acts.focus();
    } else this.focusBlock(keyOf(next));
  }

  private meaningOf(name: string): string | undefined {
    if (this.currentGraph()?.isOwn(name)) return `"${name}" of this ledger`;
    const describes = this.results?.quantities.about(name)?.describes;
    return describes === undefined ? undefined : `the ${describes}`;
  }

  /** What has no value when these names of cells and columns are gone, and what then means something else that has such a name. */
  private withoutInWords(names: readonly string[]): string {
    const { quantities } = this.results ?? {};
    const shared = names.flatMap((name) => {
      const describes = quantities?.about(name)?.describes;
      // Entries of the setup can name cells alone.
      const users = describes === undefined ? [] : this.missingWithout([name]).filter((user) => this.currentGraph()?.isOwn(user));
      return users.length === 0
        ? []
        : [{ users, words: ` By "${name}" the formulas behind ${shortList(users)} now mean the ${describes}.` }];
    });
    const lost = this.missingWithout(names).filter((each) => !shared.some(({ users }) => users.includes(each)));
    return `${withoutItInWords(lost)}${shared.map(({ words }) => words).join("")}`;
  }

  private hide(): void {
    const block = this.standingBlock();
    if (block === undefined || block.kind === "heading" || block.kind === "paragraph") return;
    const [key, hidden] = [keyOf(block), !block.hidden];
    this.editBlocks(
      (blocks) => changeBlock<CellBlock | TableBlock>(blocks, key, { hidden }),
      `${hidden ? "hiding" : "showing"} of ${block.id}`,
    );
    if (hidden && !this.showsHidden) this.edits.say(`${block.id} is hidden and goes on counting.`);
    this.acts.focus();
  }

  private toggleHidden(): void {
    this.showsHidden = !this.showsHidden;
    this.layOut();
  }

  private toggleMore(): void {
    const view = this.standing === undefined ? undefined : this.views.get(this.standing);
    if (view?.more === undefined) return;
    const open = !view.more.isOpen;
    view.more.toggle(open);
    this.showNote();
    if (open) view.element.querySelector<HTMLElement>(".line [data-cell]")?.focus();
  }

  private suppose(): void {
    const view = this.standing === undefined ? undefined : this.views.get(this.standing);
    if (view instanceof CellView) view.suppose();
  }

  /** The group that it stands in is unfolded, so that it can be seen. */
  private unfold(block: LedgerBlock): void {
    if (!foldedAway(this.blocks).has(keyOf(block))) return;
    const heading = this.blocks.slice(0, indexOfBlock(this.blocks, keyOf(block))).findLast(({ kind }) => kind === "heading");
    if (heading?.kind !== "heading") return;
    this.editBlocks((blocks) => changeBlock<typeof heading>(blocks, keyOf(heading), { folded: false }), `unfolding of ${heading.text}`);
  }

  private focusBlock(key: string | undefined): void {
    const block = this.blocks[indexOfBlock(this.blocks, key)];
    if (block === undefined) this.acts.focus();
    else this.viewOf(block).controlAt("")?.focus();
  }

  private go(name: string): void {
    const place = this.placeOf(name) ?? this.results?.quantities.about(name)?.of ?? name;
    this.edits.goTo(place);
  }

  private pressed(event: KeyboardEvent): void {
    if (event.defaultPrevented || !event.altKey || event.ctrlKey || event.metaKey) return;
    if (!(event.target as Element).matches("[data-cell]")) return;
    const keys: Readonly<Record<string, () => void>> = {
      ArrowUp: () => this.move(-1),
      ArrowDown: () => this.move(1),
      Enter: () => (event.shiftKey ? this.acts.focus() : this.add("cell")),
      Backspace: () => this.remove(),
      Delete: () => this.remove(),
    };
    const act = keys[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  }

  /** Takes back everything that is only supposed. */
  takeAllBack(): void {
    this.edits.edit((before) => asStated(before), "taking back all suppositions");
  }
}

interface ActsOptions {
  readonly add: (kind: BlockKind) => void;
  readonly move: (by: -1 | 1) => void;
  readonly remove: () => void;
  readonly hide: () => void;
  readonly more: () => void;
  readonly suppose: () => void;
  readonly showHidden: () => void;
  readonly leave: () => void;
}

interface StandingBlock {
  readonly block: LedgerBlock;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly wrong: string;
  readonly about: string;
  /** Whether what is behind the disclosure is open; undefined where there is none. */
  readonly more: boolean | undefined;
}

/** Beneath the ledger: what is said about the block that one stands on, and what can be done with it. */
class Acts {
  readonly element: HTMLElement;
  private readonly wrong = html("span", { class: "wrong" });
  private readonly words = html("span", { "data-tone": "soft" });
  private readonly adds: readonly HTMLButtonElement[];
  private readonly up: HTMLButtonElement;
  private readonly down: HTMLButtonElement;
  private readonly remove: HTMLButtonElement;
  private readonly hide: HTMLButtonElement;
  private readonly more: HTMLButtonElement;
  private readonly suppose: HTMLButtonElement;
  private readonly hidden: HTMLButtonElement;

  constructor(options: ActsOptions) {
    this.adds = kinds.map((kind) => button(`add a ${kind}`, () => options.add(kind)));
    this.up = button("up", () => options.move(-1), "move this up");
    this.down = button("down", () => options.move(1), "move this down");
    this.more = button("more", options.more, "unit, decimals, evidence and family, or the columns");
    this.suppose = button("suppose", options.suppose, "another entry for the moment");
    this.hide = button("hide", options.hide);
    this.remove = button("remove", options.remove, "remove this");
    this.hidden = button("", options.showHidden);
    this.element = html(
      "div",
      { class: "note acts-of-ledger" },
      html("p", { id: noteId, class: "understood" }, this.wrong, this.words),
      html("div", { class: "acts" }, ...this.adds, this.up, this.down, this.more, this.suppose, this.hide, this.remove, this.hidden),
    );
    this.element.addEventListener("keydown", (event) => {
      if (event.key === "Escape") options.leave();
    });
    this.show(undefined);
  }

  show(standing: StandingBlock | undefined): void {
    const block = standing?.block;
    this.up.disabled = standing?.isFirst ?? true;
    this.down.disabled = standing?.isLast ?? true;
    this.remove.disabled = standing === undefined;
    this.more.disabled = standing?.more === undefined;
    setAttribute(this.more, "aria-expanded", standing?.more === undefined ? undefined : String(standing.more));
    this.suppose.disabled = block?.kind !== "cell";
    this.hide.disabled = block?.kind !== "cell" && block?.kind !== "table";
    setText(this.hide, block !== undefined && isHidden(block) ? "show" : "hide");
    setText(this.wrong, standing === undefined || standing.wrong === "" ? "" : `${nameInWords(standing.block)}: ${standing.wrong} `);
    setText(
      this.words,
      standing === undefined
        ? "What you add comes behind the one that you stand on. Alt with Enter adds a cell, Alt with Shift and Enter comes here, Escape goes back."
        : standing.wrong !== ""
          ? standing.about
          : `${capitalise(nameInWords(standing.block))}: ${standing.about}`,
    );
  }

  showHidden(count: number, areShown: boolean): void {
    setText(this.hidden, areShown ? "put the hidden away" : `show ${count} hidden`);
    setAttribute(this.hidden, "aria-pressed", String(areShown));
    this.hidden.hidden = count === 0;
  }

  focus(): void {
    this.adds[0]?.focus();
  }
}

/** The name that is read begins with the word that is seen. */
function button(text: string, act: () => void, meaning?: string): HTMLButtonElement {
  const made = html("button", { type: "button", class: "act", "aria-label": meaning && `${text}: ${meaning}` }, text);
  made.addEventListener("click", () => act());
  return made;
}

/** Whether a block stands on the page where another has stood before it: neither has to be laid out anew for it. */
function isInPlaceOf(block: LedgerBlock, before: LedgerBlock): boolean {
  if (block === before) return true;
  if (keyOf(block) !== keyOf(before) || isHidden(block) !== isHidden(before)) return false;
  return block.kind !== "heading" || (before.kind === "heading" && block.folded === before.folded);
}

function wordsOfNothing(isAway: boolean): string {
  return isAway
    ? "All that is written here is hidden or folded up."
    : "Nothing is written here yet: quantities and formulas of your own over everything that this notebook finds, such as (left_face + right_face) / 2 or 12.500 mm ± 0.002 mm, with headings, words and tables between them.";
}

function nameInWords(block: LedgerBlock): string {
  if ("id" in block) return block.id;
  return block.kind === "heading" && block.text !== "" ? `the heading “${block.text}”` : `this ${block.kind}`;
}

function capitalise(text: string): string {
  return text.startsWith("th") ? text.charAt(0).toUpperCase() + text.slice(1) : text;
}
