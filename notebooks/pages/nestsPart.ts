import { capitalise } from "../../lib/base/capitalise.ts";
import { listText } from "../../lib/base/listText.ts";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import { gridOfNests } from "../../lib/document/gridOfNests.ts";
import type { OffsetEntry, SetupDocument } from "../../lib/document/setupDocument.ts";
import type { CellValue } from "../../lib/ledger/cellValue.ts";
import { localShiftBefore } from "../../lib/offsets/localShiftBefore.ts";
import type { NestsEvaluation } from "../../lib/offsets/nests.ts";
import { readRegister } from "../../lib/offsets/offsetRegister.ts";
import { replacedShiftSentence } from "../../lib/record/localShiftText.ts";
import { nestFitSentence } from "../../lib/record/nestFitText.ts";
import { type Budget, budgetOf } from "../../lib/uncertainty/budget.ts";
import { formatFixed, formatWithUncertainty } from "../../lib/uncertainty/roundForReport.ts";
import { act } from "../inputs/act.ts";
import { html, setChildren } from "../inputs/html.ts";
import { freeName } from "../inputs/rows.ts";
import { toTheMinute } from "./format.ts";
import type { OffsetsSectionOptions } from "./offsetsSection.ts";
import type { SheetResults } from "./sheetResults.ts";

/** What a local shift can be logged for besides single nests. */
const fits = { shifted: "all nests, shifted", turned: "all nests, shifted and turned" } as const;
type Fit = keyof typeof fits;

/** A grid of nests, the best zero for all that were found, and a local shift logged for one of them or for all. */
export class NestsPart {
  readonly element: HTMLElement;
  private readonly options: OffsetsSectionOptions;
  private readonly columns = field("nest-columns", 3, "columns");
  private readonly rows = field("nest-rows", 3, "rows");
  private readonly pitchX = field("nest-pitch-x", 9, "X apart");
  private readonly pitchY = field("nest-pitch-y", 9, "Y apart");
  private readonly turn = field("nest-turn", 9, "turned by");
  private readonly refusal = html("p", { class: "reason", role: "status" });
  private readonly which = html("select", { id: "nest-shift" });
  private readonly shift: HTMLElement;
  private readonly told = html("ul", { class: "told" });
  private results: SheetResults | undefined;
  private document: SetupDocument | undefined;

  constructor(options: OffsetsSectionOptions) {
    this.options = options;
    this.shift = html(
      "div",
      { class: "trials" },
      html("label", { for: "nest-shift" }, "local shift for"),
      this.which,
      act("log it", () => this.log()),
    );
    this.element = html(
      "div",
      { class: "offsets" },
      html(
        "div",
        { class: "trials on-screen" },
        html("span", {}, "a grid of"),
        labelled("columns", this.columns),
        html("span", {}, "by"),
        labelled("rows", this.rows),
        labelled("pitch along X", this.pitchX),
        labelled("pitch along Y", this.pitchY),
        labelled("turn against the machine", this.turn),
        act("add these nests", () => this.addGrid()),
      ),
      this.refusal,
      this.told,
      this.shift,
    );
  }

  /** Undefined while results wait or have failed. */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    this.results = results;
    this.document = document;
    this.shift.hidden = document.nests.length === 0;
    const choices = [...document.nests.map(({ id }) => [id, id] as const), ...Object.entries(fits)];
    const shown = [...this.which.options].map(({ value }) => value);
    if (choices.map(([value]) => value).join("\n") !== shown.join("\n")) {
      const before = this.which.value;
      this.which.replaceChildren(...choices.map(([value, words]) => new Option(words, value)));
      if (choices.some(([value]) => value === before)) this.which.value = before;
    }
    const nests = results?.evaluation.nests;
    const sentences = nests && results ? sentencesOf(nests, results.evaluation.setup.unit) : [];
    setChildren(
      this.told,
      sentences.map((text) => html("li", {}, text)),
    );
    this.told.hidden = sentences.length === 0;
  }

  private addGrid(): void {
    const { document } = this;
    if (document === undefined) return;
    const nests = new Set(document.nests.map(({ id }) => id));
    const cells = new Set(document.ledger.flatMap((block) => ("id" in block ? [block.id] : [])));
    const own = this.results?.own;
    const entries = {
      columns: this.columns.value,
      rows: this.rows.value,
      pitchX: this.pitchX.value,
      pitchY: this.pitchY.value,
      turn: this.turn.value,
    };
    const grid = gridOfNests(entries, {
      unit: document.unit,
      isNest: (id) => nests.has(id),
      isCell: (name) => cells.has(name),
      isInDoubt: (name) => isInDoubt(own?.get(name)),
    });
    this.refusal.textContent = grid.ok ? "" : grid.problems.map((problem) => capitalise(describeProblem({ ...problem, at: "" }))).join(" ");
    if (!grid.ok) return;
    const { nests: added, cells: shared } = grid.value;
    this.options.edit(
      (before) => ({ ...before, nests: [...before.nests, ...added], ledger: [...before.ledger, ...shared] }),
      "grid of nests",
    );
    const told = shared.flatMap((cell) => ("id" in cell ? [`“${cell.id}”`] : []));
    this.options.say(
      `${added.length} nests are added${told.length === 0 ? "" : `, and to the ledger ${listText(told)}, which they share`}.`,
    );
  }

  private log(): void {
    const which = this.which.value;
    if (this.results === undefined) {
      this.options.say("No results yet: what the shift takes the place of is not known.");
      return;
    }
    const { setup, offsets } = this.results.evaluation;
    const shift = which in fits ? this.shiftOfAll(which as Fit) : this.shiftOfOne(which);
    if (shift === undefined) return;
    const register = readRegister(setup.machine.register)?.name ?? setup.machine.register;
    const before = localShiftBefore(offsets?.history, register, which === "turned" ? ["X", "Y", "turn"] : ["X", "Y"]);
    this.options.edit(
      (document) => {
        const id = freeName(
          "shift",
          document.offsets.map((row) => row.id),
        );
        const row: OffsetEntry = {
          ...blankEntries.offset(id),
          kind: "local shift",
          register,
          when: toTheMinute(this.options.now()),
          ...Object.fromEntries(before.toEnd.map((coordinate) => [coordinate.toLowerCase(), "0"])),
          ...shift,
        };
        return { ...document, offsets: [...document.offsets, row] };
      },
      `local shift for “${which in fits ? fits[which as Fit] : which}”`,
    );
    this.options.say(`The shift is logged in ${register}. ${replacedShiftSentence(before, setup.unit)}`.trim());
  }

  /** As found where somebody looked, as drawn otherwise: the very text, so that names and doubts stay what they are. */
  private shiftOfOne(nest: string): Partial<OffsetEntry> | undefined {
    const entry = this.document?.nests.find(({ id }) => id === nest);
    if (entry === undefined) return undefined;
    const isFound = entry.foundX.trim() !== "";
    return { nest, x: isFound ? entry.foundX : entry.x, y: isFound ? entry.foundY : entry.y, why: isFound ? "as found" : "as drawn" };
  }

  private shiftOfAll(which: Fit): Partial<OffsetEntry> | undefined {
    const fit = this.results?.evaluation.nests?.[which];
    if (!fit?.ok) {
      this.options.say(fit?.problems.map(describeProblem).join(" ") ?? "No results yet.");
      return undefined;
    }
    const { shift, rotation } = fit.value;
    const [x, y] = shift.map((budget) => statement(budget, 1, 4, "mm")) as [string, string];
    return {
      nest: fits[which],
      x,
      y,
      ...(which === "turned" && { turn: statement(rotation, 180 / Math.PI, 5, "deg") }),
      why: "best fit of the nests that were found",
    };
  }
}

function isInDoubt(cell: Outcome<CellValue> | undefined): boolean {
  return cell?.ok === true && cell.value.kind === "quantity" && budgetOf(cell.value.value).standardUncertainty > 0;
}

function sentencesOf(nests: NestsEvaluation, unit: "mm" | "inch"): string[] {
  const told = (["shifted", "turned"] as const).flatMap((which) => {
    const fit = nests[which];
    return fit.ok ? [nestFitSentence(fit.value, which === "turned", unit)] : fit.problems.map(describeSentence);
  });
  return [...new Set(told)];
}

function describeSentence(problem: Parameters<typeof describeProblem>[0]): string {
  return capitalise(describeProblem({ ...problem, at: "" }));
}

/** A value with its standard uncertainty, rounded up, as an entry states it. */
function statement({ value, standardUncertainty }: Budget, factor: number, decimals: number, unit: string): string {
  const digits = formatFixed(value * factor, decimals);
  if (standardUncertainty === 0) return `${digits} ${unit}`;
  return `${digits} ± ${formatWithUncertainty(0, standardUncertainty * factor, { direction: "up" }).standardUncertainty} ${unit}`;
}

function labelled(words: string, input: HTMLInputElement): HTMLElement {
  input.setAttribute("aria-label", `Grid of nests: ${words}`);
  return input;
}

function field(id: string, width: number, placeholder: string): HTMLInputElement {
  return html("input", {
    id,
    type: "text",
    class: "written",
    size: width,
    maxlength: 200,
    placeholder,
    autocomplete: "off",
    spellcheck: "false",
  });
}
