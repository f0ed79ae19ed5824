import { describeProblem, type Problem } from "../lib/base/outcome.ts";
import { checkDocument, parseDocument } from "../lib/document/parseDocument.ts";
import type { SetupDocument } from "../lib/document/setupDocument.ts";
import { type PlainResults, plainResults } from "../lib/record/plainResults.ts";
import { shadowStyles } from "./element/shadowStyles.ts";
import figuresCss from "./figures/figures.css?inline";
import { html } from "./inputs/html.ts";
import { command } from "./pages/command.ts";
import type { DocumentHistory } from "./pages/documentHistory.ts";
import { isSectionName, type SectionName } from "./pages/layout.ts";
import sheetCss from "./pages/sheet.css?inline";
import { Sheet } from "./pages/sheet.ts";

/** What a `<datum-book>` tells its page; every event bubbles, out of shadow roots as well. */
export interface DatumBookEvents {
  /** Everything has been worked out: what `plainResults` gives, of several operations that of the one looked at. Edits in quick succession are told of once. */
  readonly "datumbook-results": CustomEvent<PlainResults>;
  /** What keeps results from being known has changed: problems with their places; none any more where it is empty. */
  readonly "datumbook-problem": CustomEvent<readonly Problem[]>;
  /** A person has edited the document: it is the new one, unfinished entries and all. */
  readonly "datumbook-document": CustomEvent<SetupDocument>;
}

type Evaluation = Parameters<typeof plainResults>[0];

// Node has no elements, and may import this module for its types and its name.
const HostElement: typeof HTMLElement = globalThis.HTMLElement ?? (class {} as typeof HTMLElement);

/**
 * The sheet as an element of any page: `<datum-book>`.
 *
 * The setup comes as text of JSON in a `<script type="application/json">` within the element or in the attribute `document`, or as the property
 * `document`, an object or a text. The element reaches no network: a page that has its setup at an address fetches it by itself.
 *
 * Attributes: `sections` names the sections that are shown, apart by spaces (`touches zero`; all unless given); `scheme` is `light` or `dark`
 * where the page does not follow the system. Custom properties begin with `--datumbook-`: `--datumbook-ink`, `--datumbook-sheet`, `--datumbook-sans`.
 *
 * Taken out of the page it ends all its work, and put back it goes on where it was.
 */
export class DatumBookElement extends HostElement {
  static readonly observedAttributes = ["document", "sections"];

  #sheet: Sheet | undefined;
  #history: DocumentHistory<SetupDocument> | undefined;
  #evaluation: Evaluation | undefined;
  #unread: readonly Problem[] = [];
  #told = "[]";
  #telling: ReturnType<typeof setTimeout> | undefined;
  #watcher: MutationObserver | undefined;

  /** The setup as it stands, edits and all; undefined while there is none. Setting it replaces the setup and what could be undone. */
  get document(): SetupDocument | undefined {
    return this.#history?.present;
  }

  set document(given: SetupDocument | string | undefined) {
    if (given === undefined) this.#begin(undefined);
    else this.#take(typeof given === "string" ? parseDocument(given) : checkDocument(given));
  }

  /** What `plainResults` gives of the setup; undefined while nothing has been worked out. */
  get results(): PlainResults | undefined {
    return this.#evaluation && plainResults(this.#evaluation);
  }

  /** Brings a section into view and puts the focus there. @throws RangeError if no section has this name */
  goTo(section: string): void {
    if (!isSectionName(section)) throw new RangeError(`section: expected the name of one, got "${section}"`);
    this.#sheet?.goToSection(section);
  }

  connectedCallback(): void {
    if (this.#sheet !== undefined) return;
    const root = this.shadowRoot ?? this.attachShadow({ mode: "open" });
    root.adoptedStyleSheets = [stylesOnce()];
    if (this.#history !== undefined) this.#mount();
    else {
      this.#showUnread();
      this.#readContent();
      if (this.#history === undefined) this.#awaitContent();
    }
  }

  disconnectedCallback(): void {
    // An element that is only moved is back at once.
    queueMicrotask(() => {
      if (!this.isConnected) this.#end();
    });
  }

  attributeChangedCallback(name: string, before: string | null, now: string | null): void {
    if (before === now) return;
    if (name === "sections") this.#showSections();
    else if (now !== null) this.document = now;
  }

  #readContent(): void {
    const text = this.querySelector(':scope > script[type="application/json"]')?.textContent ?? "";
    if (text.trim() === "") return;
    const parsed = parseDocument(text);
    // The page may still be on its way, and the text half of itself.
    if (parsed.ok || globalThis.document.readyState !== "loading") this.#take(parsed);
  }

  /** The element may be there before what is in it. */
  #awaitContent(): void {
    this.#watcher ??= new MutationObserver(() => this.#readContent());
    this.#watcher.observe(this, { childList: true, characterData: true, subtree: true });
  }

  #take(read: ReturnType<typeof parseDocument>): void {
    if (read.ok) {
      this.#begin({ past: [], present: read.value, future: [] });
      return;
    }
    this.#begin(undefined);
    this.#unread = read.problems;
    this.#showUnread();
    this.#tellProblems(read.problems);
  }

  /** In the place of the sheet, why there is none. */
  #showUnread(): void {
    if (this.#unread.length === 0) return;
    const words = this.#unread.slice(0, mostTold).map((problem) => html("p", {}, describeProblem(problem)));
    this.shadowRoot?.replaceChildren(html("div", { class: "book", role: "alert" }, html("p", {}, "The setup cannot be read."), ...words));
  }

  #begin(history: DocumentHistory<SetupDocument> | undefined): void {
    this.#watcher?.disconnect();
    this.#end();
    this.#history = history;
    this.#unread = [];
    this.#evaluation = undefined;
    if (this.isConnected && history !== undefined) this.#mount();
  }

  #mount(): void {
    const history = this.#history;
    const root = this.shadowRoot;
    if (history === undefined || root === null) return;
    const sheet: Sheet = new Sheet(history.present, {
      history,
      commands: html(
        "nav",
        { class: "commands", "aria-label": "Setup" },
        command("undo", () => sheet.undo(), "Control+Z"),
        command("redo", () => sheet.redo(), "Control+Y"),
      ),
      isPart: true,
      onDocument: (document, edited) => {
        this.#history = edited;
        this.#tell("datumbook-document", document);
      },
      onResults: (evaluation, problems) => this.#worked(evaluation, problems),
    });
    this.#sheet = sheet;
    root.replaceChildren(html("div", { class: "book" }, sheet.element));
    this.#showSections();
  }

  #end(): void {
    clearTimeout(this.#telling);
    this.#watcher?.disconnect();
    this.#sheet?.dispose();
    this.#sheet = undefined;
    this.shadowRoot?.replaceChildren();
  }

  #showSections(): void {
    const wanted = this.getAttribute("sections")?.split(/\s+/).filter(isSectionName);
    this.#sheet?.showSections(wanted === undefined || wanted.length === 0 ? undefined : new Set<SectionName>(wanted));
  }

  /** What a person sees comes first; the page is told when that is done. */
  #worked(evaluation: Evaluation | undefined, problems: readonly Problem[]): void {
    this.#evaluation = evaluation;
    clearTimeout(this.#telling);
    this.#telling = setTimeout(() => {
      this.#tellProblems(problems);
      if (evaluation !== undefined) this.#tell("datumbook-results", plainResults(evaluation));
    });
  }

  #tellProblems(problems: readonly Problem[]): void {
    const told = JSON.stringify(problems);
    if (told === this.#told) return;
    this.#told = told;
    this.#tell("datumbook-problem", problems);
  }

  #tell<K extends keyof DatumBookEvents>(kind: K, detail: DatumBookEvents[K]["detail"]): void {
    this.dispatchEvent(new CustomEvent(kind, { detail, bubbles: true, composed: true }));
  }
}

/** Of what keeps a setup from being read. */
const mostTold = 5;

let styles: CSSStyleSheet | undefined;

/** One sheet of styles for all elements of a page. */
function stylesOnce(): CSSStyleSheet {
  if (styles === undefined) {
    styles = new CSSStyleSheet();
    styles.replaceSync(shadowStyles(`${figuresCss}\n${sheetCss}`));
  }
  return styles;
}

declare global {
  interface HTMLElementTagNameMap {
    "datum-book": DatumBookElement;
  }
  interface HTMLElementEventMap extends DatumBookEvents {}
}

// Another copy of this module may have been here before.
if (globalThis.customElements !== undefined && customElements.get("datum-book") === undefined)
  customElements.define("datum-book", DatumBookElement);
