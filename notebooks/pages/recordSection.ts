import { earlierChecksums, inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { heldBesideZero } from "../../lib/document/setupInputs.ts";
import { recordChecks } from "../../lib/record/recordChecks.ts";
import type { Recorded } from "../../lib/record/replaySetup.ts";
import { shortChecksum } from "../../lib/record/shortChecksum.ts";
import { strategyInUse } from "../../lib/record/strategyInUse.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { paragraphs } from "../inputs/paragraphs.ts";
import type { PaperSize } from "../record/paperHtml.ts";
import type { RationaleAnswer, RationaleWork } from "../worker/studyMessages.ts";
import { downloadText, fileNameOf } from "./files.ts";
import { loadPart } from "./loadPart.ts";
import type { SheetResults } from "./sheetResults.ts";
import { StudyClient } from "./studyClient.ts";

type Kind = "record" | "rationale";

/** What a sheet is made of: as long as it is the same, the sheet that is shown is fresh. */
interface Present {
  readonly results: SheetResults;
  readonly document: SetupDocument;
}

/** What leaves the notebook on paper: the record and the rationale, shown, printed by themselves and saved; and a record that comes back to be verified. */
export class RecordSection {
  /** Beneath the entries of names, date and the author's paragraphs. */
  readonly element: HTMLElement;
  private readonly paper = html(
    "select",
    { id: "record-paper" },
    ...(["a4", "letter"] as const).map((size) => new Option(size === "a4" ? "A4" : "Letter", size)),
  );
  /** Only there while a sheet is shown. No script runs in it; it may be printed. */
  private readonly frame = html("iframe", {
    class: "paper-frame",
    title: "The sheet as it is printed",
    sandbox: "allow-same-origin allow-modals",
  });
  private readonly shownActs = html("div", { class: "trials", hidden: true });
  private readonly told = html("p", { class: "hint", role: "status" });
  private readonly checksum = html("p", { class: "hint" });
  private readonly typedChecksum = html("input", {
    type: "text",
    class: "chance-wanted replay-checksum",
    id: "replay-checksum",
    spellcheck: "false",
    autocomplete: "off",
  });
  private readonly readingRows = html("div", { class: "replay-readings" });
  private readonly verdict = html("div", { class: "findings", role: "status" });
  private readonly inSight: InSight;
  private readonly typed = new Map<string, string>();
  private readonly client = new StudyClient<RationaleWork, RationaleAnswer>("rationale", (answer) => this.answered(answer));
  private present: Present | undefined;
  private recorded: Recorded | undefined;
  private shown: Kind | undefined;
  private replaySetup: typeof import("../../lib/record/replaySetup.ts").replaySetup | undefined;
  private sheets: typeof import("../record/sheets.ts") | undefined;

  constructor() {
    this.shownActs.append(
      act("print it", () => this.print()),
      act("save it as HTML", () => this.save()),
      act("put it away", () => this.putAway("")),
    );
    this.paper.addEventListener("change", () => {
      if (this.shown !== undefined) void this.open(this.shown);
    });
    this.typedChecksum.addEventListener("input", () => this.replay());
    this.element = html(
      "div",
      { class: "record on-screen" },
      html(
        "div",
        { class: "trials" },
        act("show the record", () => void this.open("record")),
        act("show the rationale", () => void this.open("rationale")),
        html("label", { for: "record-paper" }, "for paper of size"),
        this.paper,
      ),
      this.told,
      this.shownActs,
      html("h3", {}, "Replay"),
      this.checksum,
      html("div", { class: "trials" }, html("label", { for: "replay-checksum" }, "checksum on the record"), this.typedChecksum),
      this.readingRows,
      this.verdict,
    );
    this.inSight = new InSight(this.element);
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    const isSame = results !== undefined && results.evaluation === this.present?.results.evaluation && document === this.present.document;
    this.present = results && { results, document };
    if (!isSame && this.shown !== undefined) this.putAway("An entry has changed: show it again.");
    if (results === undefined) this.inSight.now(() => this.fillReplay());
    else this.inSight.run(() => this.fillReplay());
  }

  private async open(kind: Kind): Promise<void> {
    this.client.stop();
    this.shown = kind;
    const { present } = this;
    if (present === undefined) {
      this.putAway(`There are no results that a ${kind} could be made of.`);
      return;
    }
    const { document, results } = present;
    const { evaluation } = results;
    this.fold("Being worked out.");
    const sheets = await loadPart(
      () => import("../record/sheets.ts"),
      (words) => this.putAway(words),
    );
    // Another entry or another sheet may have come in the meantime.
    if (sheets === undefined || this.present !== present || this.shown !== kind) return;
    this.sheets = sheets;
    if (kind === "record") {
      this.unfold(sheets.recordSheet(document, evaluation, this.size));
      return;
    }
    const strategy = strategyInUse(evaluation)?.evaluation.id ?? "";
    this.client.ask({ document, strategy, view: "thisPart" }, { kind: "rationale", unit: evaluation.setup.unit });
  }

  private answered(answer: RationaleAnswer): void {
    if (this.present === undefined || this.shown !== "rationale" || this.sheets === undefined) return;
    if (answer.kind === "failed") this.putAway(`Not worked out: ${answer.why}`);
    else this.unfold(this.sheets.rationaleHtml(answer.rationale, this.present.results.evaluation, this.size));
  }

  private get size(): PaperSize {
    return this.paper.value as PaperSize;
  }

  private unfold(sheet: string): void {
    setText(this.told, "");
    this.frame.srcdoc = sheet;
    this.shownActs.hidden = false;
    this.shownActs.after(this.frame);
  }

  private fold(why: string): void {
    setText(this.told, why);
    this.shownActs.hidden = true;
    this.frame.remove();
  }

  private putAway(why: string): void {
    this.client.stop();
    this.shown = undefined;
    this.fold(why);
  }

  private print(): void {
    this.frame.contentWindow?.focus();
    this.frame.contentWindow?.print();
  }

  private save(): void {
    if (this.shown === undefined || this.present === undefined) return;
    downloadText(`${fileNameOf(this.present.document.title)}-${this.shown}.html`, this.frame.srcdoc, "text/html");
  }

  private fillReplay(): void {
    this.recorded = this.present && recordedIn(this.present);
    setText(
      this.checksum,
      this.recorded === undefined
        ? "Not known while there are no results."
        : `The checksum of these inputs is ${shortChecksum(this.recorded.checksum)}. Type that of a printed record, and what the display shows at three of its readings: it is said here whether this is still the same setup.`,
    );
    this.fillReadings();
    this.replay();
  }

  /** One entry for each reading that must come again; what was typed stays. */
  private fillReadings(): void {
    const checks = this.recorded?.checks ?? [];
    const key = JSON.stringify(checks.map(({ name, axis, written }) => [name, axis, written.lower, written.upper]));
    if (this.readingRows.dataset["shown"] === key) return;
    this.readingRows.dataset["shown"] = key;
    const lines = checks.map(({ name, axis, element, tool, written }, i) => {
      const id = `replay-${i}`;
      const entry = html("input", {
        type: "text",
        class: "chance-wanted",
        id,
        spellcheck: "false",
        autocomplete: "off",
        "aria-describedby": `${id}-limits`,
      });
      entry.value = this.typed.get(name) ?? "";
      entry.addEventListener("input", () => {
        this.typed.set(name, entry.value);
        this.replay();
      });
      return html(
        "div",
        { class: "trials" },
        html("label", { for: id }, `${name}, ${axis} shows`),
        entry,
        html("span", { class: "hint", id: `${id}-limits` }, `${element} with ${tool}: ${written.lower} to ${written.upper}`),
      );
    });
    setChildren(this.readingRows, lines);
  }

  /** What verifies comes with the first thing that is typed to be verified. */
  private async loadReplay(): Promise<void> {
    const part = await loadPart(
      () => import("../../lib/record/replaySetup.ts"),
      (words) => setChildren(this.verdict, paragraphs([words])),
    );
    if (part === undefined) return;
    this.replaySetup = part.replaySetup;
    this.replay();
  }

  private replay(): void {
    const { recorded } = this;
    const isTyped = this.typedChecksum.value.trim() !== "" || [...this.typed.values()].some((text) => text.trim() !== "");
    if (recorded === undefined || !isTyped) {
      setChildren(this.verdict, []);
      return;
    }
    const { replaySetup } = this;
    if (replaySetup === undefined) {
      void this.loadReplay();
      return;
    }
    const { sentences, isVerified } = replaySetup(recorded, { checksum: this.typedChecksum.value, readings: this.typed });
    setAttribute(this.verdict, "data-verified", isVerified ? "yes" : "no");
    setChildren(this.verdict, paragraphs(sentences));
  }
}

function recordedIn({ results: { evaluation }, document }: Present): Recorded {
  return {
    checksum: inputsChecksum(document),
    earlier: earlierChecksums(document),
    beside: heldBesideZero(document),
    operation: evaluation.setup.operation?.id,
    checks: recordChecks(evaluation, strategyInUse(evaluation)?.evaluation),
    unit: evaluation.setup.unit,
  };
}
