import { capitalise } from "../../lib/base/capitalise.ts";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { takeOverMovedZero, takeOverZero } from "../../lib/document/takeOverZero.ts";
import { type Register, registers } from "../../lib/equipment/equipment.ts";
import { compareOffsets } from "../../lib/offsets/compareOffsets.ts";
import { dialectNotes } from "../../lib/offsets/dialectNotes.ts";
import { type MovedZero, moveZero } from "../../lib/offsets/moveZero.ts";
import type { OffsetHistory } from "../../lib/offsets/offsetHistory.ts";
import { type CoordinateInForce, type OffsetsEvaluation, partsOf } from "../../lib/offsets/offsetTable.ts";
import { registerDigits, type WrittenOffsets } from "../../lib/offsets/offsetText.ts";
import { readPlaces } from "../../lib/offsets/readPlaces.ts";
import { movedZeroSentences } from "../../lib/record/movedZeroText.ts";
import { agreementText, offsetDifferenceText } from "../../lib/record/offsetDifferenceText.ts";
import { writtenOffsets } from "../../lib/record/writtenOffsets.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { writerOf } from "../figures/displayUnit.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { freeName } from "../inputs/rows.ts";
import { plainDecimals, toTheMinute } from "./format.ts";
import { loadPart } from "./loadPart.ts";
import type { SheetResults } from "./sheetResults.ts";

export interface OffsetsSectionOptions {
  /** One step of the history. */
  readonly edit: (change: (before: SetupDocument) => SetupDocument, what: string) => void;
  readonly say: (words: string) => void;
  /** Date and time of ISO 8601. */
  readonly now: () => string;
}

/** The offsets in force, what can be logged by one command, the table as text, the text read back, and a zero moved without touching again. */
export class OffsetsSection {
  /** What is in force; stands before the log. */
  readonly inForce: HTMLElement;
  /** Everything else; stands behind it. */
  readonly element: HTMLElement;
  private readonly options: OffsetsSectionOptions;
  private readonly sums = new PlainTable({
    caption: "The sums in force in every register, machine coordinates",
    columns: [
      { label: "register" },
      { label: "axis" },
      { label: "in force", number: true, hint: "measured zero, corrections and both shifts together" },
      { label: "u", number: true, hint: "standard uncertainty" },
      { label: "made of" },
    ],
  });
  private readonly told = html("ul", { class: "told" });
  private readonly nothing = html(
    "p",
    { class: "hint" },
    "Nothing is logged yet. Log the zero in use, or add a row and type what the register holds.",
  );
  private readonly who = field("offset-who", 8);
  private readonly take = act("log the zero in use", () => this.takeOver());
  private readonly states = html("select", { id: "offset-state" });
  private readonly restore = act("restore that state", () => this.restoreState());
  private readonly written = choice("offset-written", [
    ["register", "what the registers hold"],
    ["sum", "the sums, for a controller without shifts"],
  ]);
  private readonly reason = html("p", { class: "reason" });
  private readonly lines = html("pre", { class: "log-lines", tabindex: 0, "aria-label": "Offsets as block text" });
  private readonly copy = html("button", { type: "button", class: "act" }, "copy the lines");
  private readonly pasted = html("textarea", {
    id: "offset-text",
    class: "read-back on-screen",
    rows: 4,
    spellcheck: "false",
    autocomplete: "off",
    placeholder: "G54 X-412.607 Y-203.112 Z-118.400",
  });
  private readonly agreement = html("p", { class: "agreement", role: "status" });
  private readonly differences = html("ul", { class: "told" });
  private readonly places = field("offset-places", 26, "X=bore, Y=bore");
  private readonly moved = html("ul", { class: "told" });
  private readonly movedRegister = html("select", { id: "offset-moved-register" }, ...registers.map((name) => new Option(name, name)));
  private readonly takeMoved = act("log the moved zero", () => this.takeOverMoved());
  private readonly parts: HTMLElement;
  private registerChosen = false;
  private readOffsetsBack: typeof import("../../lib/exchange/readOffsetsBack.ts").readOffsetsBack | undefined;
  private results: SheetResults | undefined;
  private document: SetupDocument | undefined;

  constructor(options: OffsetsSectionOptions) {
    this.options = options;
    this.copy.addEventListener("click", () => {
      // With the time at which they are taken along.
      this.showText();
      void navigator.clipboard?.writeText(this.lines.textContent ?? "");
    });
    this.written.addEventListener("input", () => this.showText());
    this.pasted.addEventListener("input", () => this.showReadBack());
    this.places.addEventListener("input", () => this.showMoved());
    this.movedRegister.addEventListener("change", () => {
      this.registerChosen = true;
    });
    this.inForce = html("div", { class: "offsets" }, this.nothing, this.sums.element, this.told);
    this.parts = html(
      "div",
      {},
      html("h3", {}, "As text"),
      html("div", { class: "trials" }, html("label", { for: "offset-written" }, "write"), this.written),
      this.reason,
      html("div", { class: "block-text" }, this.lines, this.copy),
      html("h3", { class: "on-screen" }, "Read back"),
      html(
        "p",
        { class: "hint on-screen" },
        html(
          "label",
          { for: "offset-text" },
          "Paste what the machine shows: G10 L2 blocks, lines, cells under a row of names, or an MTConnect streams document. Nothing is changed by it.",
        ),
      ),
      this.pasted,
      this.agreement,
      this.differences,
      html(
        "details",
        { class: "on-screen" },
        html("summary", {}, "What differs between controllers"),
        html("ul", { class: "told" }, ...dialectNotes.map((note) => html("li", {}, note))),
      ),
    );
    this.element = html(
      "div",
      { class: "offsets" },
      html(
        "div",
        { class: "trials" },
        html("span", { class: "pair" }, html("label", { for: "offset-who" }, "who"), this.who),
        this.take,
        html("span", { class: "pair" }, html("label", { for: "offset-state" }, "state after"), this.states, this.restore),
      ),
      this.parts,
      html("h3", {}, "The zero at another point"),
      html(
        "div",
        { class: "trials" },
        html("label", { for: "offset-places" }, "of the same part, without touching again"),
        this.places,
        html("span", { class: "pair" }, html("label", { for: "offset-moved-register" }, "for"), this.movedRegister, this.takeMoved),
      ),
      this.moved,
    );
  }

  /** The log as it was read last; undefined where nothing is logged, or nothing known. */
  get history(): OffsetHistory | undefined {
    return this.results?.evaluation.offsets?.history;
  }

  /** Undefined while results wait or have failed: nothing old stays. */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    this.results = results;
    this.document = document;
    const offsets = results?.evaluation.offsets;
    this.nothing.hidden = document.offsets.length > 0;
    this.sums.element.hidden = this.parts.hidden = document.offsets.length === 0;
    this.take.disabled = results?.chosen.ok !== true;
    // The register in use, until somebody chooses another.
    const register = results?.evaluation.setup.machine.register;
    if (register !== undefined && !this.registerChosen) this.movedRegister.value = register;
    this.showSums(results, offsets);
    this.showStates(document);
    this.showText();
    this.showReadBack();
    this.showMoved();
  }

  private showSums(results: SheetResults | undefined, offsets: OffsetsEvaluation | undefined): void {
    const unit = results?.evaluation.setup.unit ?? "mm";
    const rows = offsets?.registers.flatMap(({ register, coordinates }) =>
      coordinates.flatMap((each) =>
        each.coordinate === "turn" && partsOf(each).length === 0 ? [] : [[register, ...sumTexts(each, unit)]],
      ),
    );
    this.sums.show(rows ?? []);
    const unknown = offsets?.registers.flatMap(({ coordinates }) => coordinates.flatMap(({ sum }) => (sum.ok ? [] : sum.problems))) ?? [];
    showList(this.told, [
      ...new Set(unknown.map((problem) => capitalise(describeProblem({ ...problem, at: "" })))),
      ...(offsets?.history.notes.map(({ text }) => text) ?? []),
    ]);
  }

  private showStates({ offsets }: SetupDocument): void {
    const names = offsets.slice(0, -1).map(({ id }) => id);
    const shown = [...this.states.options].map(({ value }) => value);
    if (names.join("\n") !== shown.join("\n")) this.states.replaceChildren(...names.map((name) => new Option(name, name)));
    const pair = this.states.parentElement;
    if (pair !== null) pair.hidden = names.length === 0;
  }

  private showText(): void {
    const { results } = this;
    const offsets = results?.evaluation.offsets;
    const options = { written: this.written.value as WrittenOffsets, time: this.when() };
    const text = results && offsets && writtenOffsets(results.evaluation, offsets, options);
    setText(this.reason, text === undefined || text.ok ? "" : text.problems.map(describeProblem).join(" "));
    setText(this.lines, text?.ok ? text.value.join("\n") : "");
    this.lines.hidden = this.copy.hidden = !text?.ok;
  }

  /** What reads offsets back comes with the first text that is there to be read. */
  private async loadReader(): Promise<void> {
    const part = await loadPart(
      () => import("../../lib/exchange/readOffsetsBack.ts"),
      (words) => this.tell(words, [], true),
    );
    if (part === undefined) return;
    this.readOffsetsBack = part.readOffsetsBack;
    this.showReadBack();
  }

  private showReadBack(): void {
    const { results } = this;
    const offsets = results?.evaluation.offsets;
    const text = this.pasted.value;
    if (results === undefined || offsets === undefined || text.trim() === "") {
      this.tell("", [], false);
      return;
    }
    const { readOffsetsBack } = this;
    if (readOffsetsBack === undefined) {
      void this.loadReader();
      return;
    }
    const { machine, unit } = results.evaluation.setup;
    const read = readOffsetsBack(text, machine.controllerUnit);
    if (!read.ok) {
      this.tell("Nothing of it was taken.", read.problems.map(describeProblem), true);
      return;
    }
    const digits = registerDigits(offsets, { controller: machine, written: this.written.value as WrittenOffsets });
    const comparison = compareOffsets(digits, read.value, machine);
    const unitWords = read.value.unitStated
      ? ""
      : ` Read in ${read.value.unit === "mm" ? "millimetres" : "inches"}, as the controller shows.`;
    this.tell(
      `${agreementText(comparison)}${unitWords}`,
      [
        ...comparison.differences.map((difference) => offsetDifferenceText(difference, { unit: unit === "inch" ? "in" : "mm" })),
        ...read.value.leftOut.map(({ at, what }) => `Left out, ${at}: ${what}.`),
      ],
      comparison.differences.length > 0,
    );
  }

  private tell(agreement: string, items: readonly string[], differs: boolean): void {
    setText(this.agreement, agreement);
    setAttribute(this.agreement, "data-tone", differs ? "bad" : undefined);
    showList(this.differences, items);
  }

  private showMoved(): void {
    const moved = this.movedZero();
    this.takeMoved.disabled = moved?.ok !== true;
    const unit = this.results?.evaluation.setup.unit ?? "mm";
    showList(this.moved, moved === undefined ? [] : moved.ok ? movedZeroSentences(moved.value, unit) : moved.problems.map(describeProblem));
  }

  /** Undefined while nothing is asked for, or nothing known. */
  private movedZero(): Outcome<MovedZero> | undefined {
    const { results } = this;
    const text = this.places.value;
    const solution = results?.chosen.ok ? results.chosen.value.solution : undefined;
    if (results === undefined || solution === undefined || text.trim() === "") return undefined;
    const { setup, location } = results.evaluation;
    const places = readPlaces(text, solution.strategy.zero, this.document?.unit ?? setup.unit, setup.operation);
    return places.ok ? moveZero(solution, places.value, location) : places;
  }

  private takeOverMoved(): void {
    const [chosen, moved] = [this.results?.chosen, this.movedZero()];
    if (this.results === undefined || chosen?.ok !== true || moved?.ok !== true) return;
    const { machine } = this.results.evaluation.setup;
    const register = this.movedRegister.value as Register;
    let told = "";
    this.options.edit((before) => {
      const row = takeOverMovedZero(chosen.value, moved.value, {
        id: newName("zero", before),
        when: this.when(),
        who: this.who.value.trim(),
        places: this.places.value,
        machine: { ...machine, register },
      });
      told = row.ok ? `The moved zero is logged in ${row.value.register}.` : row.problems.map(describeProblem).join(" ");
      return row.ok ? { ...before, offsets: [...before.offsets, row.value] } : before;
    }, "moved zero into the log of the offsets");
    this.options.say(told);
  }

  private takeOver(): void {
    const chosen = this.results?.chosen;
    if (chosen?.ok !== true) return;
    let told = "";
    this.options.edit((before) => {
      const row = takeOverZero(chosen.value, { id: newName("zero", before), when: this.when(), who: this.who.value.trim() });
      told = row.ok ? `The zero by “${chosen.value.id}” is logged in ${row.value.register}.` : row.problems.map(describeProblem).join(" ");
      return row.ok ? { ...before, offsets: [...before.offsets, row.value] } : before;
    }, "zero into the log of the offsets");
    this.options.say(told);
  }

  private restoreState(): void {
    const restores = this.states.value;
    if (restores === "") return;
    this.options.edit(
      (before) => ({
        ...before,
        offsets: [
          ...before.offsets,
          { ...blankEntries.offset(newName("restored", before)), kind: "restore", restores, when: this.when(), who: this.who.value.trim() },
        ],
      }),
      `restoring of the offsets after “${restores}”`,
    );
    this.options.say(`The offsets are those after “${restores}” again; the rows since then stay in the log.`);
  }

  private when(): string {
    return toTheMinute(this.options.now());
  }
}

function newName(word: string, { offsets }: SetupDocument): string {
  return freeName(
    word,
    offsets.map(({ id }) => id),
  );
}

function sumTexts(each: CoordinateInForce, lengthUnit: "mm" | "inch"): [axis: string, sum: string, u: string, parts: string] {
  const { coordinate, sum, doubtStated } = each;
  const isTurn = coordinate === "turn";
  const writer = writerOf(isTurn ? "degree" : lengthUnit);
  const plain = ({ value }: Budget) => writer.fixed(value, isTurn ? 4 : plainDecimals[lengthUnit]);
  const parts = partsOf(each);
  const made = parts
    .map(({ words, part }) => (parts.length === 1 ? `${words} (${part.row})` : `${words} ${plain(part.budget)} (${part.row})`))
    .join(", ");
  const axis = isTurn ? "turn, °" : coordinate;
  if (!sum.ok) return [axis, "–", "–", made];
  const { standardUncertainty } = sum.value;
  const written =
    standardUncertainty > 0 ? writer.withUncertainty(sum.value.value, standardUncertainty) : { value: plain(sum.value), uncertainty: "0" };
  return [axis, written.value, doubtStated ? written.uncertainty : "not stated", made];
}

function showList(list: HTMLElement, texts: readonly string[]): void {
  const items = [...list.children];
  while (items.length < texts.length) items.push(html("li"));
  setChildren(
    list,
    texts.map((text, i) => {
      const item = items[i] as Element;
      setText(item, text);
      return item;
    }),
  );
  list.hidden = texts.length === 0;
}

function field(id: string, width: number, placeholder?: string): HTMLInputElement {
  return html("input", {
    id,
    type: "text",
    class: "written",
    size: width,
    maxlength: 500,
    placeholder,
    autocomplete: "off",
    spellcheck: "false",
  });
}

function choice(id: string, options: readonly (readonly [value: string, words: string])[]): HTMLSelectElement {
  return html("select", { id }, ...options.map(([value, words]) => new Option(words, value)));
}
