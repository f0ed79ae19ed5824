import { radio } from "@observablehq/inputs";
import { messageOf } from "../../lib/base/messageOf.ts";
import { describeProblem, type Problem } from "../../lib/base/outcome.ts";
import { sourcesOfRow } from "../../lib/datum/sourcesOfRow.ts";
import { hasQuantities, quantityNamesOf } from "../../lib/decision/quantityNames.ts";
import type { OwnEvaluation, SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { lookedAt, withInUse } from "../../lib/document/operationDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { ownProblems } from "../../lib/ledger/ownProblems.ts";
import { judgementSentences } from "../../lib/record/judgementSentences.ts";
import type { StrategyBend } from "../../lib/record/strategyBend.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import type { CellContext } from "../inputs/column.ts";
import type { DocumentTable, TableEdits } from "../inputs/documentTable.ts";
import { cellOf } from "../inputs/entryCell.ts";
import { focusedNear } from "../inputs/focusedNear.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { keepInSight } from "../inputs/keepInSight.ts";
import { NameCompletion } from "../inputs/nameCompletion.ts";
import { tellOfPrinting } from "../inputs/printing.ts";
import { keyOf } from "../inputs/rows.ts";
import { goesOnTyping } from "../inputs/typing.ts";
import { type OpenSetup, openSetup } from "../openSetup.ts";
import type { SetupCells } from "../setup.ts";
import { createRuntime } from "../wiring/createRuntime.ts";
import type { OpenNotebook } from "../wiring/openNotebook.ts";
import { CertaintySection } from "./certaintySection.ts";
import { ChecksSection } from "./checksSection.ts";
import { type DocumentHistory, startHistory } from "./documentHistory.ts";
import { type Place, type RowsByPlace, renameRow, rowsAt, withRows } from "./documentRows.ts";
import { DocumentStore } from "./documentStore.ts";
import { EntrySlip } from "./entrySlip.ts";
import { type Fields, fixtureFields, heatFields, jobFields, machineFields, madePartsFields, recordFields, warmUpFields } from "./fields.ts";
import { Figures, type Looking } from "./figures.ts";
import { findables } from "./findables.ts";
import { Finder, isFinderKey } from "./finder.ts";
import { FinishedSection } from "./finishedSection.ts";
import { type FirstStep, FirstSteps } from "./firstSteps.ts";
import { FixtureSection } from "./fixtureSection.ts";
import { FormulaOffers } from "./formulaOffers.ts";
import { HelpSection } from "./helpSection.ts";
import { createLayout, type Layout, numberedSections, type SectionName } from "./layout.ts";
import { LedgerSection } from "./ledger/ledgerSection.ts";
import { NestsPart } from "./nestsPart.ts";
import { OffsetsSection, type OffsetsSectionOptions } from "./offsetsSection.ts";
import { OperationChoice } from "./operationChoice.ts";
import { Pace } from "./pace.ts";
import { RecordSection } from "./recordSection.ts";
import { RevisionsSection } from "./revisionsSection.ts";
import { RunSection } from "./runSection.ts";
import { namesOfDoubts, type SheetResults, shownIn } from "./sheetResults.ts";
import { StrategyEditor } from "./strategyEditor.ts";
import { SuppositionBanner } from "./suppositionBanner.ts";
import { checkMovesTable, checksTable, eventsTable, slipChancesTable } from "./tables/checks.ts";
import { correlationsTable } from "./tables/correlations.ts";
import { clampsTable, locatorsTable, seatTouchesTable } from "./tables/fixture.ts";
import { nestsTable } from "./tables/nests.ts";
import { leavesStanding, offsetsTable, onlyAdded, rowsStand } from "./tables/offsets.ts";
import { operationsTable } from "./tables/operations.ts";
import { characteristicsTable, datumSystemsTable, dimensionsTable, elementsTable } from "./tables/part.ts";
import { madeCorrectionsTable, measuredFeaturesTable, warmUpReadingsTable } from "./tables/run.ts";
import { strategiesTable } from "./tables/strategies.ts";
import { spacersTable, toolsTable, workFramesTable } from "./tables/tools.ts";
import { touchesTable } from "./tables/touches.ts";
import { TitleBlock } from "./titleBlock.ts";
import { TurnedPartQuestion } from "./turnedPart.ts";
import { UnitChoice } from "./unitChoice.ts";
import { WarmUpSection } from "./warmUpSection.ts";
import { WorthSection } from "./worthSection.ts";
import { ZeroSection } from "./zeroSection.ts";

export interface SheetOptions {
  /** Called with every change of the document, unfinished entries and all, and with the way to it. */
  readonly onDocument: (document: SetupDocument, history: DocumentHistory<SetupDocument>) => void;
  /** What can be undone and done again from the start; nothing unless given. */
  readonly history?: DocumentHistory<SetupDocument>;
  /** Called each time that the document has been worked out, with what `evaluateSetup` gives of it; undefined where that failed. */
  readonly onResults?: (evaluation: (SetupEvaluation & OwnEvaluation) | undefined, problems: readonly Problem[]) => void;
  readonly commands: HTMLElement;
  readonly guide?: HTMLElement;
  /** Whether the sheet is a part of another page. */
  readonly isPart?: boolean;
}

/**
 * The sheet: one document, one notebook that works it out, and everything on the page that shows either.
 *
 * An edit goes one way: input event, next document, the sections that changed, the notebook, the page. All of
 * it happens before the browser draws again, so that no frame shows a new entry beside an old result; where that
 * takes longer than a frame, the entry is drawn first and its results with the frame after (see `Pace`).
 */
export class Sheet {
  readonly element: HTMLElement;
  private readonly store: DocumentStore;
  private readonly setup: OpenSetup;
  private readonly tables: { readonly [P in Place]: DocumentTable<RowsByPlace[P][number], SheetResults> };
  private readonly machine = machineFields(() => this.document.unit, this.fieldEdits());
  private readonly heat = heatFields(() => this.document.unit, this.fieldEdits());
  private readonly fixtureEntries = fixtureFields(() => this.document.unit, this.fieldEdits());
  private readonly fixture = new FixtureSection();
  private readonly madePartsEntries = madePartsFields(() => this.document.unit, this.fieldEdits());
  private readonly run = new RunSection();
  private readonly warmUpEntries = warmUpFields(() => this.document.unit, this.fieldEdits());
  private readonly warmUp = new WarmUpSection();
  private readonly job = jobFields(() => this.document.unit, this.fieldEdits());
  private readonly recordEntries = recordFields(() => this.document.unit, this.fieldEdits());
  private readonly record = new RecordSection();
  private readonly worth = new WorthSection();
  private readonly zero = new ZeroSection();
  private readonly checks = new ChecksSection({
    edit: (change, what) => this.store.edit(change, what),
    say: (words) => this.say(words),
    goTo: (place) => this.goTo(place),
  });
  private readonly certainty = new CertaintySection((bends) => this.showBends(bends));
  private readonly offsets = new OffsetsSection(this.logging());
  private readonly nests = new NestsPart(this.logging());
  private readonly turnedPart = new TurnedPartQuestion();
  private readonly help = new HelpSection({
    edit: (change, what) => this.store.edit(change, what),
    say: (words) => this.say(words),
  });
  private readonly strategyEditor = new StrategyEditor({
    edit: (change, what) => this.store.edit(change, what),
    say: (words) => this.say(words),
    choose: (strategy) => this.choose(strategy),
  });
  private readonly revisions = new RevisionsSection({
    edit: (change, what) => this.open(change(this.document), what),
    say: (words) => this.say(words),
    now: () => new Date().toISOString(),
  });
  private readonly ledger: LedgerSection;
  private readonly offers = new FormulaOffers();
  private readonly banner = new SuppositionBanner(() => this.ledger.takeAllBack());
  private readonly firstSteps = new FirstSteps((place) => this.begin(place));
  private readonly unitChoice = new UnitChoice((unit) => this.notebook.free.replace(shownUnitCell, [], () => unit));
  private readonly operationChoice = new OperationChoice((operation) => this.lookAt(operation));
  private readonly finished = new FinishedSection();
  private readonly figures = new Figures((looking) => this.look(looking));
  private readonly finder = new Finder({
    all: () =>
      findables({
        document: this.document,
        tables: this.tables,
        fields: this.fields,
        results: this.shown,
        isShown: (section) => this.layout.isShown(section),
        goToSection: (section) => this.layout.goTo(section),
        goTo: (place) => this.goTo(place),
      }),
    numberOf: (section) => numberedSections.find(({ name }) => name === section)?.number ?? 0,
  });
  private readonly titleBlock: TitleBlock;
  private readonly layout: Layout;
  private readonly sentences = html("div", { class: "sentences" });
  private readonly sentencesInSight = new InSight(this.sentences);
  private readonly problemList = html("ul", { class: "open-problems" });
  private readonly viewChoice: ViewChoice;
  private readonly options: SheetOptions;
  private readonly endPrinting: () => void;
  private readonly slip: EntrySlip;
  private readonly pace = new Pace((isWaiting) => this.markEdited(isWaiting));
  private stateBefore: string | undefined;
  private context: CellContext = { unit: "mm", names: {} };
  private shown: SheetResults | undefined;
  private looking: Looking = { result: "zero X", characteristic: "", touch: "", contact: "" };

  constructor(document: SetupDocument, options: SheetOptions) {
    this.options = options;
    this.store = new DocumentStore(options.history ?? startHistory(document), (next, before) => this.changed(next, before));
    this.setup = openSetup(createRuntime(() => this.pace.turn()));
    this.tables = {
      touches: touchesTable(this.tableEdits("touches", ({ id }) => this.look({ ...this.looking, touch: id }))),
      strategies: strategiesTable(
        this.tableEdits("strategies", ({ id }) => this.strategyEditor.stand(id)),
        {
          isChosen: ({ id }) => id === lookedAt(this.document).chosen,
          choose: ({ id }) => this.choose(id),
        },
      ),
      "part.elements": elementsTable(this.tableEdits("part.elements")),
      "part.dimensions": dimensionsTable(this.tableEdits("part.dimensions")),
      "part.characteristics": characteristicsTable(
        this.tableEdits("part.characteristics", ({ id }) => this.look({ ...this.looking, characteristic: id })),
      ),
      "part.datumSystems": datumSystemsTable(this.tableEdits("part.datumSystems")),
      tools: toolsTable(this.tableEdits("tools")),
      spacers: spacersTable(this.tableEdits("spacers")),
      workFrames: workFramesTable(this.tableEdits("workFrames")),
      correlations: correlationsTable(this.tableEdits("correlations")),
      operations: operationsTable(this.tableEdits("operations"), {
        isLookedAt: ({ id }) => id === (this.document.operation || this.document.operations[0]?.id),
        lookAt: ({ id }) => this.lookAt(id),
      }),
      offsets: offsetsTable(this.logEdits(), (row) => this.isOpen(row)),
      "fixture.locators": locatorsTable(
        this.tableEdits("fixture.locators", ({ id }) => this.look({ ...this.looking, contact: this.fixture.contactOf(id) })),
      ),
      "fixture.clamps": clampsTable(this.tableEdits("fixture.clamps")),
      "fixture.seatTouches": seatTouchesTable(this.tableEdits("fixture.seatTouches")),
      "madeParts.measured": measuredFeaturesTable(this.tableEdits("madeParts.measured")),
      "madeParts.corrections": madeCorrectionsTable(this.tableEdits("madeParts.corrections")),
      "warmUp.readings": warmUpReadingsTable(this.tableEdits("warmUp.readings")),
      nests: nestsTable(this.tableEdits("nests")),
      checks: checksTable(this.tableEdits("checks")),
      checkMoves: checkMovesTable(this.tableEdits("checkMoves")),
      events: eventsTable(this.tableEdits("events")),
      slipChances: slipChancesTable(this.tableEdits("slipChances")),
    };
    this.ledger = new LedgerSection({
      ...this.fieldEdits(),
      say: (words) => this.say(words),
      stand: () => this.layout.followMadeOf(),
      goTo: (place) => this.goTo(place),
    });
    this.titleBlock = new TitleBlock({ onChoose: (strategy) => this.choose(strategy), onProblems: () => this.layout.goTo("problems") });
    this.viewChoice = viewChoice((view) => this.notebook.set("view", view));
    this.layout = createLayout({
      commands: options.commands,
      isPart: options.isPart ?? false,
      guide: options.guide,
      viewChoice: this.viewChoice,
      figures: this.figures,
      madeOf: this.ledger.madeOf.element,
      banner: this.banner.element,
      firstSteps: this.firstSteps.element,
      unitChoice: this.unitChoice.element,
      operationChoice: this.operationChoice.element,
      titleBlock: this.titleBlock.element,
      finder: [this.finder.field, this.finder.found],
      sections: {
        touches: [this.tables.touches.element],
        strategies: [this.tables.strategies.element, this.strategyEditor.element, this.sentences, this.worth.element],
        demands: [this.tables["part.characteristics"].element],
        zero: [this.zero.element],
        offsets: [
          this.offsets.inForce,
          html("h3", {}, "The log"),
          this.tables.offsets.element,
          this.offsets.element,
          this.turnedPart.element,
          html("h3", {}, "Nests"),
          this.tables.nests.element,
          this.nests.element,
        ],
        checks: [
          this.tables.checks.element,
          this.checks.suggest,
          this.checks.element,
          html("h3", {}, "What happened since"),
          this.tables.events.element,
          html("h3", {}, "Above the part, without a touch"),
          this.tables.checkMoves.element,
          html("h3", {}, "How often slips happen"),
          this.tables.slipChances.element,
        ],
        certainty: [this.certainty.element],
        help: [this.help.element],
        ledger: [this.ledger.element],
        part: [
          html("h3", {}, "Elements"),
          this.tables["part.elements"].element,
          html("h3", {}, "Dimensions"),
          this.tables["part.dimensions"].element,
          html("h3", {}, "Datum systems"),
          this.tables["part.datumSystems"].element,
        ],
        operations: [this.tables.operations.element, this.finished.element],
        fixture: [
          html("h3", {}, "Locators"),
          this.tables["fixture.locators"].element,
          html("h3", {}, "Clamps"),
          this.tables["fixture.clamps"].element,
          html("h3", {}, "Seat, by touches from above"),
          this.tables["fixture.seatTouches"].element,
          this.fixtureEntries.element,
          this.fixture.element,
        ],
        tools: [
          this.tables.tools.element,
          html("h3", {}, "Blocks and spacers"),
          this.tables.spacers.element,
          html("h3", {}, "Doubts that err together"),
          this.tables.correlations.element,
        ],
        machine: [
          this.machine.element,
          html("h3", {}, "Heat"),
          this.heat.element,
          html("h3", {}, "Older work frames"),
          this.tables.workFrames.element,
        ],
        warmUp: [this.tables["warmUp.readings"].element, this.warmUpEntries.element, this.warmUp.element],
        madeParts: [
          this.tables["madeParts.measured"].element,
          html("h3", {}, "Corrections between the parts"),
          this.tables["madeParts.corrections"].element,
          this.madePartsEntries.element,
          this.run.element,
        ],
        job: [this.job.element],
        revisions: [this.revisions.element],
        record: [this.recordEntries.element, this.record.element],
        problems: [this.problemList, this.checks.findings],
      },
    });
    this.element = this.layout.element;
    this.showDocument(document, undefined);
    this.setup.fill(document);
    this.endPrinting = tellOfPrinting(this.element, () => this.pace.hurry());
    new NameCompletion(this.element, (place, kind) => this.offers.at(place, kind));
    this.watch();
    this.slip = new EntrySlip(this.element);
    // Whoever goes on to something else finds the last edit worked out; not with the button still down, for what comes may move what lies under it.
    this.element.addEventListener("click", () => this.pace.hurry(), { capture: true });
    this.element.addEventListener("keydown", (event) => !goesOnTyping(event) && this.pace.hurry(), { capture: true });
    this.element.addEventListener("keydown", (event) => this.heed(event), { capture: true });
  }

  get document(): SetupDocument {
    return this.store.document;
  }

  /** What is shown; undefined where it could not be worked out. */
  get results(): SheetResults | undefined {
    return this.shown;
  }

  /** Another document takes the place of this one; undo brings it back. */
  open(document: SetupDocument, what: string): void {
    this.endEditing();
    this.store.edit(() => document, what);
    // Who has just begun would have to look for where to go on.
    this.firstSteps.focus();
  }

  private begin(place: FirstStep): void {
    if (place === "chosen") this.layout.goTo("strategies");
    else if (place === "strategies") this.strategyEditor.offer();
    else this.tables[place].add();
  }

  /** Works out once more what is shown; nothing changes by it. */
  workOutAgain(): void {
    this.notebook.set("note", this.document.note);
  }

  /** Ends all that goes on without the sheet: its notebook, its workers, what listens to the window. It shows nothing any more. */
  dispose(): void {
    this.endPrinting();
    this.layout.dispose();
    this.certainty.dispose();
    this.help.dispose();
    this.notebook.runtime.dispose();
    this.element.remove();
  }

  /** Shows these sections alone; all where nothing is said. */
  showSections(wanted: ReadonlySet<SectionName> | undefined): void {
    this.layout.showSections(wanted);
  }

  /** Tells what the entry is that a person stands on, or stood on last. */
  async tellOfEntry(): Promise<void> {
    if (!(await this.slip.show())) this.say("Stand on an entry first: then F1, or this command, tells what it is.");
  }

  /** Brings a section into view and puts the focus there. */
  goToSection(section: SectionName): void {
    this.layout.goTo(section);
  }

  /** Puts the focus into the line in which places of the sheet are found. */
  find(): void {
    this.finder.open();
  }

  private get notebook(): OpenNotebook<SetupCells> {
    return this.setup.notebook;
  }

  undo(): void {
    this.endEditing();
    const what = this.store.undo();
    this.say(what === undefined ? "There is nothing to undo." : `Undone: ${what}.`);
  }

  redo(): void {
    this.endEditing();
    const what = this.store.redo();
    this.say(what === undefined ? "There is nothing to redo." : `Done again: ${what}.`);
  }

  say(words: string): void {
    this.layout.say(words);
  }

  /** Something that a person must not miss: it stays until it is put away. */
  warn(words: string): void {
    this.layout.warn(words);
  }

  private get entries(): readonly Fields[] {
    return [this.machine, this.heat, this.fixtureEntries, this.warmUpEntries, this.madePartsEntries, this.job, this.recordEntries];
  }

  private get fields() {
    return this.entries.flatMap(({ fields }) => fields);
  }

  private choose(strategy: string): void {
    this.store.edit((before) => withInUse(before, strategy), "choice of the strategy");
  }

  private lookAt(operation: string): void {
    this.store.edit((before) => (before.operation === operation ? before : { ...before, operation }), "operation that is looked at");
  }

  private look(looking: Looking): void {
    if (JSON.stringify(looking) === JSON.stringify(this.looking)) return;
    this.looking = looking;
    this.figures.look(looking);
  }

  private changed(document: SetupDocument, before: SetupDocument): void {
    const focused = focusedNear(this.element);
    const section = focused?.closest("section[id]");
    this.pace.edit(() => {
      // Whatever the page makes of it: an edit is worked out and kept.
      try {
        this.showDocument(document, before);
        // A row that is gone takes the focus with it: without one no key would reach the sheet any more.
        if (focused?.isConnected === false) section?.querySelector<HTMLElement>("h2")?.focus({ preventScroll: true });
      } finally {
        this.setup.fill(document);
        this.options.onDocument(document, this.store.whole);
      }
    });
  }

  /**
   * What is shown is of an earlier entry. It does not look it: results that were older than some frames would, and thousands would be styled
   * anew. An edit that changes no result leaves the state as it was.
   */
  private markEdited(isWaiting: boolean): void {
    const { dataset } = this.element;
    if (isWaiting) {
      this.stateBefore = dataset["state"];
      dataset["state"] = "edited";
    } else setAttribute(this.element, "data-state", this.stateBefore);
  }

  private showDocument(document: SetupDocument, before: SetupDocument | undefined): void {
    // Names of strategies are only chosen from where operations have theirs.
    const sameStrategies = document.operations.length === 0 || document.strategies === before?.strategies;
    const sameContext = before !== undefined && sameStrategies && contextSections.every((section) => document[section] === before[section]);
    if (!sameContext) this.context = withDoubts(contextOf(document), this.context.names["doubts"] ?? []);
    for (const place of Object.keys(this.tables) as Place[]) {
      const rows = rowsAt(document, place);
      const sameRows = before !== undefined && rows === rowsAt(before, place) && sameMarks(place, document, before);
      if (!sameRows || !sameContext) (this.tables[place] as DocumentTable<object, SheetResults>).showRows(rows, this.context);
    }
    this.ledger.showDocument(document);
    this.banner.show(document);
    this.firstSteps.show(document);
    this.unitChoice.showDocument(document);
    this.operationChoice.showDocument(document);
    for (const entries of this.entries) entries.show(document);
    this.revisions.show(document);
    this.titleBlock.showDocument(document);
    this.layout.showJob(document);
  }

  /** One cell gathers what the page shows, so that it never shows parts of two computations. */
  private watch(): void {
    this.notebook.free.add(shownUnitCell, [], () => undefined);
    this.notebook.free.add(
      "sheet",
      ["evaluation", "operated", "chosenStrategy", "results", "own", "unnamed", "quantities", "problems", "view", shownUnitCell],
      (evaluation, operated, chosen, results, own, unnamed, quantities, problems, view, unit): SheetResults => ({
        evaluation: shownIn(evaluation, unit),
        operated,
        chosen,
        results,
        own,
        quantities,
        related: this.relatedIn(evaluation),
        unnamed,
        problems,
        view,
      }),
    );
    this.notebook.free.watch("sheet", {
      pending: () => setAttribute(this.element, "data-state", "computing"),
      fulfilled: (results) => this.showOrBlank(() => this.showResults(results as SheetResults, "")),
      failed: ({ error }) => this.showResults(undefined, messageOf(error)),
    });
  }

  /** Where showing fails, half of what is shown may be old: none of it stays. */
  private showOrBlank(show: () => void): void {
    try {
      show();
    } catch (error) {
      this.showResults(undefined, messageOf(error));
      throw error;
    }
  }

  private showResults(results: SheetResults | undefined, failure: string): void {
    const problems = results?.problems ?? [];
    this.shown = results;
    if (results !== undefined) this.offerDoubts(results);
    for (const table of Object.values(this.tables) as DocumentTable<object, SheetResults>[]) {
      table.showProblems(problems);
      table.showResults(results);
    }
    for (const field of this.fields) field.showProblems(problems);
    // What is typed into a machine never waits.
    this.zero.show(results);
    this.offsets.show(results, this.document);
    this.nests.show(results, this.document);
    this.turnedPart.show(results, this.document);
    this.titleBlock.showResults(results);
    this.figures.show(results, failure);
    this.strategyEditor.show(results, this.document);
    this.fixture.show(results);
    this.finished.show(results);
    this.warmUp.show(results);
    this.run.show(results);
    this.worth.show(results);
    this.checks.show(results);
    this.certainty.show(results, this.document);
    // Nothing has changed for what was looked at already, such as another unit.
    if (results !== undefined && this.certainty.bends !== undefined) this.markBends(results, this.certainty.bends);
    this.help.show(results, this.document);
    this.record.show(results, this.document);
    this.ledger.showResults(results, this.setup.own);
    this.offers.show(results, this.setup.own);
    this.finder.refresh();
    if (results === undefined) this.sentencesInSight.now(() => this.showSentences(results));
    else this.sentencesInSight.run(() => this.showOrBlank(() => this.showSentences(this.shown)));
    this.showProblemList(problems, failure);
    if (results !== undefined) showView(this.viewChoice, results.view);
    setAttribute(this.element, "data-state", results === undefined ? "failed" : "settled");
    setAttribute(this.element, "data-failed", results === undefined ? "" : undefined);
    this.pace.isSettled();
    this.element.dispatchEvent(new Event("settled"));
    if (results === undefined) this.options.onResults?.(undefined, [{ at: "", what: `the results could not be worked out: ${failure}` }]);
    else this.options.onResults?.(this.wholeOf(results), problems);
  }

  /** Everything that is shown with the cells of a person's own; undefined where it could not be worked out. */
  get whole(): (SetupEvaluation & OwnEvaluation) | undefined {
    return this.shown && this.wholeOf(this.shown);
  }

  /** In the document's own unit, whichever is shown. */
  private wholeOf({ evaluation, own, unnamed, related }: SheetResults): SetupEvaluation & OwnEvaluation {
    return {
      ...shownIn(evaluation, this.document.unit),
      problems: [...evaluation.problems, ...unnamed, ...ownProblems(own)],
      cells: this.setup.own?.ledger.cells ?? new Map(),
      own,
      related,
    };
  }

  private relatedIn({ location }: SheetResults["evaluation"]): SheetResults["related"] {
    return [...location.related, ...(this.setup.own?.related ?? [])];
  }

  /** Which doubts there are is known when all is worked out. */
  private offerDoubts(results: SheetResults): void {
    const { correlations } = this.document;
    if (correlations.length === 0) return;
    const stated = correlations.flatMap(({ one, other }) => [one, other]).filter((name) => name !== "");
    const doubts = [...new Set([...namesOfDoubts(results), ...stated])].sort();
    if (doubts.join("\n") === (this.context.names["doubts"] ?? []).join("\n")) return;
    this.context = withDoubts(this.context, doubts);
    this.tables.correlations.showRows(correlations, this.context);
  }

  /** Came from the worker, long after the results that they are of. */
  private showBends(bends: readonly StrategyBend[]): void {
    const { shown } = this;
    if (shown === undefined) return;
    this.markBends(shown, bends);
    const marked = this.shown;
    this.sentencesInSight.run(() => this.showOrBlank(() => this.showSentences(marked)));
  }

  private markBends(results: SheetResults, bends: readonly StrategyBend[]): void {
    this.shown = { ...results, bends };
    this.tables.strategies.showResults(this.shown);
  }

  private showSentences(results: SheetResults | undefined): void {
    const wanted = results === undefined ? [] : judgementSentences(results.evaluation, { bends: results.bends ?? [] });
    const shown = [...this.sentences.children];
    while (shown.length < wanted.length) shown.push(html("p"));
    const paragraphs = wanted.map(({ kind, text }, i) => {
      const paragraph = shown[i] as HTMLElement;
      setText(paragraph, text);
      setAttribute(paragraph, "data-kind", kind);
      return paragraph;
    });
    setChildren(this.sentences, paragraphs);
  }

  private showProblemList(problems: readonly Problem[], failure: string): void {
    const told: readonly Problem[] = failure === "" ? problems : [{ at: "", what: `the results could not be worked out: ${failure}` }];
    const items =
      told.length === 0 ? [html("li", {}, "Nothing is open.")] : told.map((problem) => html("li", {}, this.problemLink(problem)));
    const key = JSON.stringify(told);
    if (this.problemList.dataset["shown"] === key) return;
    this.problemList.dataset["shown"] = key;
    setChildren(this.problemList, items);
  }

  private problemLink(problem: Problem): HTMLElement {
    const words = describeProblem(problem);
    const link = html("button", { type: "button", class: "link" }, words);
    link.addEventListener("click", () => this.goTo(problem.at));
    return link;
  }

  /** Puts the focus where something is wrong. */
  private goTo(place: string): void {
    const field = this.fields.find((each) => each.place === place);
    if (field !== undefined) field.focus();
    else if (place === "chosen") this.layout.goTo("strategies");
    else if (place === "ledger" || place.startsWith("ledger.")) this.ledger.focus(place);
    else if (place === "checks" || place === "events") this.layout.goTo("checks");
    else if (place.startsWith("whatIf")) this.layout.goTo("ledger");
    else if (!Object.values(this.tables).some((table) => table.focus(place))) {
      const section = (["fixture", "madeParts", "warmUp"] as const).find((each) => place.startsWith(each));
      if (section !== undefined) this.layout.goTo(section);
    }
    const there = focusedNear(this.element);
    if (there !== null && this.element.contains(there)) keepInSight(there, () => focusedNear(this.element) === there);
  }

  private tableEdits<P extends Place>(place: P, onStand?: (row: RowsByPlace[P][number]) => void): TableEdits<RowsByPlace[P][number]> {
    return {
      edit: (change, what, session) =>
        this.store.edit((before) => withRows(before, place, change(rowsAt(before, place)) as RowsByPlace[P]), what, session),
      rename: (index, name, session) => {
        this.store.edit((before) => renameRow(before, place, index, name), `name of ${rowsAt(this.document, place)[index]?.id}`, session);
        // Figures follow the row that one stands on by its name.
        const renamed = rowsAt(this.document, place)[index];
        if (renamed !== undefined) onStand?.(renamed);
      },
      abandon: (session) => this.store.abandon(session),
      say: (words) => this.say(words),
      stand: (row) => {
        this.layout.follow(place);
        onStand?.(row);
      },
      missing: (rows) => [
        ...(hasQuantities(place) ? this.ledger.missingWithout(rows.flatMap(({ id }) => quantityNamesOf(place, id))) : []),
        ...this.correlationsOf(rows.flatMap(({ id }) => sourcesOfRow(place, id) ?? [])),
      ],
    };
  }

  /** What is stated to err together with sources whose names begin so. */
  private correlationsOf(beginnings: readonly string[]): string[] {
    const isOf = (source: string) => beginnings.some((beginning) => source.startsWith(beginning));
    return this.document.correlations.flatMap(({ id, one, other }) => (isOf(one) || isOf(other) ? [`correlations.${id}`] : []));
  }

  /** Rows of the log are only added: those before the last one stand. */
  private logging(): OffsetsSectionOptions {
    return {
      edit: (change, what) => this.store.edit(change, what),
      say: (words) => this.say(words),
      now: () => new Date().toISOString(),
    };
  }

  private logEdits(): TableEdits<RowsByPlace["offsets"][number]> {
    const edits = this.tableEdits("offsets");
    let refused = false;
    return {
      ...edits,
      edit: (change, what, session) =>
        edits.edit(
          (rows) => {
            const wanted = change(rows);
            const added = onlyAdded(rows, wanted, (row) => this.isOpen(row));
            refused = wanted !== rows && leavesStanding(rows, wanted, added);
            return added;
          },
          what,
          session,
        ),
      // What the table says of an edit would not be true.
      say: (words) => edits.say(refused ? rowsStand : words),
    };
  }

  /** Whether a row of the log can still be written: the last one, and one that cannot be read. */
  private isOpen(row: RowsByPlace["offsets"][number]): boolean {
    const last = this.document.offsets.at(-1);
    const log = this.offsets.history?.rows ?? [];
    return (last !== undefined && keyOf(last) === keyOf(row)) || log.some(({ id, unread }) => unread && id === row.id);
  }

  private fieldEdits() {
    return {
      edit: (change: (before: SetupDocument) => SetupDocument, what: string, session?: object) => this.store.edit(change, what, session),
      abandon: (session: object) => this.store.abandon(session),
    };
  }

  private endEditing(): void {
    cellOf(focusedNear(this.element))?.endEditing();
  }

  /** Does what a key means to the whole sheet, wherever it was pressed. */
  heed(event: KeyboardEvent): void {
    if (isFinderKey(event)) {
      event.preventDefault();
      this.find();
    }
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    if (key === "y" || event.shiftKey) this.redo();
    else this.undo();
  }
}

/** Whether the rows that are marked in a table are the same ones. */
function sameMarks(place: Place, document: SetupDocument, before: SetupDocument): boolean {
  if (place === "strategies") return lookedAt(document).chosen === lookedAt(before).chosen;
  return place !== "operations" || document.operation === before.operation;
}

/** The cell that holds the unit in which a person wants to see results; no part of the document. */
const shownUnitCell = "shownUnit";

/** What a context is made of. */
const contextSections = [
  "unit",
  "part",
  "tools",
  "spacers",
  "workFrames",
  "operations",
  "fixture",
] as const satisfies readonly (keyof SetupDocument)[];

function contextOf({ unit, part, tools, spacers, workFrames, operations, strategies, fixture }: SetupDocument): CellContext {
  const idsOf = (rows: readonly { readonly id: string }[]) => [...new Set(rows.map(({ id }) => id))];
  const middles = idsOf(part.elements.filter(({ kind }) => kind === "middle"));
  return {
    unit,
    names: {
      elements: idsOf(part.elements),
      locators: touchableNames(fixture.locators, part.elements),
      datumLetters: [...new Set(part.elements.flatMap(({ datum }) => (datum.trim() === "" ? [] : [datum.trim()])))].sort(),
      datumSystems: idsOf(part.datumSystems),
      middles,
      tools: idsOf(tools),
      indicators: idsOf(tools.filter(({ kind }) => kind === "swept indicator")),
      spacers: idsOf(spacers),
      workFrames: idsOf(workFrames),
      operations: idsOf(operations),
      strategies: operations.length > 0 ? idsOf(strategies) : [],
    },
  };
}

/** Locators that a touch can name: those with a wall that a tool finds, and a name that no element of the part has. */
function touchableNames(locators: SetupDocument["fixture"]["locators"], elements: readonly { readonly id: string }[]): readonly string[] {
  const taken = new Set(elements.map(({ id }) => id));
  return [...new Set(locators.flatMap(({ id, kind }) => (taken.has(id) || kind === "diamond pin" || kind === "V-block" ? [] : [id])))];
}

function withDoubts(context: CellContext, doubts: readonly string[]): CellContext {
  return { ...context, names: { ...context.names, doubts } };
}

const views = { thisPart: "this part, after its readings", batch: "the batch, before them" } as const satisfies Record<View, string>;

type ViewChoice = ReturnType<typeof radio<View>>;

function viewChoice(onChoose: (view: View) => void): ViewChoice {
  const choices = new Map((Object.keys(views) as View[]).map((view) => [views[view], view]));
  const choice = radio<View>(choices, { value: "thisPart" });
  choice.classList.add("view-choice");
  choice.setAttribute("aria-label", "Question");
  choice.addEventListener("input", () => onChoose(choice.value));
  return choice;
}

function showView(choice: ViewChoice, view: View): void {
  if (choice.value !== view) choice.value = view;
}
