import { describeProblem, failure, type Outcome, type Problem, success } from "../../lib/base/outcome.ts";
import { mm } from "../../lib/base/quantity.ts";
import { candidateStrategies } from "../../lib/datum/candidateStrategies.ts";
import type { Strategy } from "../../lib/datum/strategy.ts";
import { type StrategyDeterminacy, strategyDeterminacy } from "../../lib/datum/strategyDeterminacy.ts";
import { lookedAt } from "../../lib/document/operationDocument.ts";
import type { SetupDocument, StrategyEntry } from "../../lib/document/setupDocument.ts";
import { determinacySentences, touchRoleInWords } from "../../lib/record/determinacySentences.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import type { SheetResults } from "./sheetResults.ts";
import { changeStrategy, toggled, withStrategy } from "./strategyEntries.ts";

export interface StrategyEditorOptions {
  /** One step of the history. */
  readonly edit: (change: (before: SetupDocument) => SetupDocument, what: string) => void;
  readonly say: (words: string) => void;
  /** Puts a strategy to use. */
  readonly choose: (strategy: string) => void;
}

const skews = { ignored: "not looked at", measured: "measured for the zero", applied: "measured and applied" } as const;
const sizesTaken = { nominal: "as drawn", measured: "as measured otherwise" } as const;
/** Of the ways that fit what was typed, so many are shown. */
const mostShown = 8;

/**
 * Puts a strategy together: every touch is a box to tick, below the element that it met. Beside each stands what it is there for, and beneath all of
 * them what the strategy finds, what stays free and what is redundant, worked out with the rest of the sheet.
 */
export class StrategyEditor {
  readonly element: HTMLElement;
  private readonly options: StrategyEditorOptions;
  private readonly choice = html("select", { "aria-label": "Strategy that is put together" });
  private readonly use = act("put to use", () => {
    this.options.choose(this.strategy);
    // There is nothing left to do for this button: it would take the focus with it.
    this.choice.focus();
  });
  private readonly duplicate = act("duplicate", () => this.copy());
  private readonly picks = html("div", { class: "picks" });
  private readonly told = html("div", { class: "told-of", role: "status" });
  private readonly wrong = html("ul", { class: "wrong-of" });
  private readonly rotation = new Choice("skew", skews, (rotation) => this.change(() => ({ rotation }), "skew"));
  private readonly sizes = new Choice("sizes between faces", sizesTaken, (sizes) => this.change(() => ({ sizes }), "sizes"));
  private readonly candidates: Candidates;
  private readonly inSight: InSight;
  private elements: readonly ElementPicks[] = [];
  private built = "";
  private document: SetupDocument | undefined;
  private results: SheetResults | undefined;
  /** The strategy that was asked for here; empty follows the one in use. */
  private wanted = "";

  constructor(options: StrategyEditorOptions) {
    this.options = options;
    this.candidates = new Candidates((strategy) => this.add(strategy));
    this.choice.addEventListener("change", () => this.stand(this.choice.value));
    this.picks.addEventListener("keydown", (event) => this.pressed(event));
    this.element = html(
      "div",
      { class: "strategy-editor" },
      html(
        "div",
        { class: "editor-head" },
        html("h3", {}, "Touches of"),
        this.choice,
        html("span", { class: "acts" }, this.use, this.duplicate),
      ),
      this.picks,
      html("div", { class: "editor-rules" }, this.rotation.element, this.sizes.element),
      this.told,
      this.wrong,
      this.candidates.element,
    );
    this.inSight = new InSight(this.element);
  }

  /** Opens what the touches allow, for a person to choose from. */
  offer(): void {
    this.candidates.open();
  }

  /** Shows the strategy of this name from now on. */
  stand(strategy: string): void {
    if (strategy === this.wanted) return;
    this.wanted = strategy;
    this.inSight.run(() => this.fill());
  }

  /** @param results undefined while they wait or have failed */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    this.results = results;
    this.document = document;
    if (results === undefined) this.inSight.now(() => this.fill());
    else this.inSight.run(() => this.fill());
  }

  /** Name of the strategy that is shown; empty where there is none. */
  private get strategy(): string {
    if (this.document === undefined) return "";
    const { strategies, chosen } = lookedAt(this.document);
    const has = (name: string) => strategies.some(({ id }) => id === name);
    return has(this.wanted) ? this.wanted : has(chosen) ? chosen : (strategies[0]?.id ?? "");
  }

  private get row(): StrategyEntry | undefined {
    return this.document?.strategies.find(({ id }) => id === this.strategy);
  }

  private fill(): void {
    const { document, results, row } = this;
    if (document === undefined) return;
    this.offerStrategies(document);
    this.build(document);
    const determinacy = results === undefined ? undefined : determinacyOf(results, this.strategy);
    for (const element of this.elements) element.show(row, determinacy?.ok ? determinacy.value : undefined, results);
    this.rotation.show(row?.rotation);
    this.sizes.show(row?.sizes);
    this.use.disabled = row === undefined || row.id === lookedAt(document).chosen;
    this.duplicate.disabled = row === undefined;
    this.tell(determinacy);
    this.candidates.show(results, row?.id ?? "");
  }

  private offerStrategies(document: SetupDocument): void {
    const { strategies, chosen } = lookedAt(document);
    const key = JSON.stringify([strategies.map(({ id }) => id), chosen]);
    if (this.choice.dataset["offered"] !== key) {
      this.choice.dataset["offered"] = key;
      this.choice.replaceChildren(...strategies.map(({ id }) => new Option(id === chosen ? `${id} (in use)` : id, id)));
    }
    this.choice.hidden = strategies.length === 0;
    if (this.choice.value !== this.strategy) this.choice.value = this.strategy;
  }

  /** Made anew only where elements or touches came or went, so that what has the focus keeps it. */
  private build(document: SetupDocument): void {
    const { part, fixture } = document;
    const { touches } = lookedAt(document);
    const touched = part.elements
      .filter((element) => element.kind === "middle" || touches.some((touch) => touch.element === element.id))
      .map((element) => ({ element, touches: touches.filter((touch) => touch.element === element.id) }));
    const beside = touches.filter((touch) => !part.elements.some(({ id }) => id === touch.element));
    const ofFixture = fixture.locators
      .map(({ id, kind }) => ({ id, kind, touches: beside.filter((touch) => touch.element === id) }))
      .filter((locator) => locator.touches.length > 0);
    const lost = beside.filter((touch) => !fixture.locators.some(({ id }) => id === touch.element));
    const key = JSON.stringify([
      ofFixture.map(({ id, kind, touches: own }) => [id, kind, own.map((t) => [t.id, t.travelling])]),
      touched.map(({ element: { id, kind, datum, outward, facing, inclination }, touches: own }) => [
        id,
        kind,
        datum,
        outward,
        facing,
        inclination,
        own.map((t) => [t.id, t.travelling]),
      ]),
      lost.map(({ id }) => id),
    ]);
    if (key === this.built) return;
    this.built = key;
    const order = touches.map(({ id }) => id);
    const pick = (names: readonly string[], isIn: boolean) =>
      this.change((row) => ({ touches: toggled(row.touches, names, isIn, order) }), `touches`);
    const onPart = touched.map(
      ({ element, touches: own }) =>
        new ElementPicks(
          { id: element.id, words: elementInWords(element), isMiddle: element.kind === "middle", canOrient: canOrient(element) },
          own.map(({ id, travelling }) => ({ id, travelling })),
          {
            touches: pick,
            hold: (isIn) => this.change((row) => ({ hold: toggled(row.hold, [element.id], isIn, []) }), "middle"),
            orient: (isIn) => this.change((row) => ({ orient: toggled(row.orient, [element.id], isIn, []) }), "face that turns"),
          },
        ),
    );
    const onFixture = ofFixture.map(
      ({ id, kind, touches: own }) =>
        new ElementPicks(
          { id, words: `${kind} of the fixture`, isMiddle: false, canOrient: false },
          own.map((touch) => ({ id: touch.id, travelling: touch.travelling })),
          { touches: pick, hold: () => undefined, orient: () => undefined },
        ),
    );
    this.elements = [...onPart, ...onFixture];
    const nothing = touches.length === 0 ? [html("p", { class: "hint" }, "There is no touch yet: add one to the list of touches.")] : [];
    const nowhere =
      lost.length === 0
        ? []
        : [html("p", { class: "hint" }, `On no element or locator that there is: ${lost.map(({ id }) => id).join(", ")}.`)];
    this.picks.replaceChildren(...this.elements.map(({ element }) => element), ...nothing, ...nowhere);
  }

  private tell(determinacy: Outcome<StrategyDeterminacy> | undefined): void {
    const { results, row } = this;
    if (results === undefined || determinacy === undefined) {
      const words = row === undefined ? "There is no strategy yet: make one from the touches, below." : "Being worked out.";
      setChildren(this.told, [paragraph(words)]);
      setChildren(this.wrong, []);
      return;
    }
    const sentences = determinacy.ok
      ? determinacySentences(determinacy.value, results.evaluation)
      : ["Nothing can be told of it, for what is said here."];
    const shown = [...this.told.children];
    setChildren(
      this.told,
      sentences.map((sentence, i) => {
        const line = shown[i] ?? html("p");
        setText(line, sentence);
        return line;
      }),
    );
    const problems = determinacy.ok ? determinacy.value.findings : determinacy.problems;
    const key = JSON.stringify(problems);
    if (this.wrong.dataset["shown"] === key) return;
    this.wrong.dataset["shown"] = key;
    setChildren(
      this.wrong,
      problems.map((problem) => html("li", {}, inPlace(problem))),
    );
  }

  private change(change: (row: StrategyEntry) => Partial<StrategyEntry>, what: string): void {
    const { strategy } = this;
    if (this.row === undefined) return;
    this.wanted = strategy;
    this.options.edit((before) => changeStrategy(before, strategy, change), `${what} of ${strategy}`);
  }

  private copy(): void {
    const { row } = this;
    if (row === undefined) return;
    this.added(row, `copy of ${row.id}`, `copy of ${row.id}`);
  }

  private add(strategy: Strategy): void {
    this.added(strategy, strategy.id, `strategy ${strategy.id}`);
  }

  private added(touches: Parameters<typeof withStrategy>[1], wanted: string, what: string): void {
    const like = this.strategy;
    this.options.edit((before) => {
      const { document, id } = withStrategy(before, touches, wanted, like);
      this.wanted = id;
      return document;
    }, what);
    this.options.say(`“${this.wanted}” is among the strategies.`);
    // It is away as long as there was nothing to choose from, and what is away takes no focus.
    this.choice.hidden = false;
    this.choice.focus();
  }

  /** Up and down go from box to box, left and right from element to element. */
  private pressed(event: KeyboardEvent): void {
    const boxes = [...this.picks.querySelectorAll<HTMLInputElement>("input:not(:disabled)")];
    const at = boxes.indexOf(event.target as HTMLInputElement);
    if (at < 0 || event.ctrlKey || event.altKey || event.metaKey) return;
    const groupOf = (box: HTMLInputElement | undefined) => box?.closest("fieldset");
    const firsts = boxes.filter((box, i) => i === 0 || groupOf(boxes[i - 1]) !== groupOf(box));
    const group = firsts.findIndex((box) => groupOf(box) === groupOf(boxes[at]));
    const next = {
      ArrowDown: boxes[at + 1],
      ArrowUp: boxes[at - 1],
      ArrowRight: firsts[group + 1],
      ArrowLeft: firsts[group - 1],
    }[event.key];
    if (!event.key.startsWith("Arrow")) return;
    event.preventDefault();
    next?.focus();
  }
}

function determinacyOf({ evaluation }: SheetResults, strategy: string): Outcome<StrategyDeterminacy> | undefined {
  const found = evaluation.strategies.find(({ id }) => id === strategy)?.evaluation;
  if (found === undefined) return undefined;
  return strategyDeterminacy(found.ok ? success(found.value.solution) : failure(...found.problems), evaluation.location);
}

interface ElementEdits {
  readonly touches: (names: readonly string[], isIn: boolean) => void;
  readonly hold: (isIn: boolean) => void;
  readonly orient: (isIn: boolean) => void;
}

interface PickedElement {
  readonly id: string;
  readonly words: string;
  readonly isMiddle: boolean;
  readonly canOrient: boolean;
}

/** An element with a box for all of its touches, and one for each. */
class ElementPicks {
  readonly element: HTMLElement;
  private readonly of: PickedElement;
  private readonly all: HTMLInputElement | undefined;
  private readonly single: readonly { readonly id: string; readonly box: HTMLInputElement; readonly words: HTMLElement }[];
  private readonly orient: HTMLInputElement | undefined;
  private readonly hold: HTMLInputElement | undefined;

  constructor(of: PickedElement, touches: readonly { readonly id: string; readonly travelling: string }[], edits: ElementEdits) {
    this.of = of;
    const ids = touches.map(({ id }) => id);
    this.all = of.isMiddle ? undefined : checkbox((isIn) => edits.touches(ids, isIn));
    this.hold = of.isMiddle ? checkbox(edits.hold) : undefined;
    this.orient = of.canOrient ? checkbox(edits.orient) : undefined;
    this.single = touches.map(({ id }) => ({ id, box: checkbox((isIn) => edits.touches([id], isIn)), words: html("small") }));
    const head = [this.all, this.hold].flatMap((box) => (box === undefined ? [] : [box]));
    this.element = html(
      "fieldset",
      {},
      html("legend", {}, html("label", {}, ...head, html("b", {}, of.id), html("span", {}, of.words))),
      ...this.single.map(({ id, box, words }, i) =>
        html("label", { class: "pick" }, box, html("span", {}, id, html("i", {}, ` ${touches[i]?.travelling.replace("-", "−")}`)), words),
      ),
      ...(this.orient === undefined ? [] : [html("label", { class: "pick" }, this.orient, html("span", {}, "only turns the part"))]),
    );
  }

  show(row: StrategyEntry | undefined, determinacy: StrategyDeterminacy | undefined, results: SheetResults | undefined): void {
    const isIn = (id: string) => row?.touches.includes(id) === true;
    const count = this.single.filter(({ id }) => isIn(id)).length;
    if (this.all !== undefined) {
      this.all.checked = count > 0 && count === this.single.length;
      this.all.indeterminate = count > 0 && count < this.single.length;
    }
    if (this.hold !== undefined) this.hold.checked = row?.hold.includes(this.of.id) === true;
    if (this.orient !== undefined) {
      this.orient.checked = row?.orient.includes(this.of.id) === true;
      this.orient.disabled = row === undefined || (row.rotation === "ignored" && !this.orient.checked);
    }
    for (const box of [this.all, this.hold]) if (box !== undefined) box.disabled = row === undefined;
    for (const { id, box, words } of this.single) {
      box.checked = isIn(id);
      box.disabled = row === undefined;
      const problem = results?.problems.find(({ at }) => at === `touches.${id}` || at.startsWith(`touches.${id}.`));
      const role = determinacy?.touches.find(({ touch }) => touch === id);
      setText(words, problem !== undefined ? inPlace(problem) : isIn(id) && role !== undefined ? touchRoleInWords(role) : "");
      setAttribute(words, "data-tone", problem === undefined ? undefined : "bad");
    }
  }
}

/** A choice of one out of a few. */
class Choice<Value extends string> {
  readonly element: HTMLElement;
  private readonly boxes: readonly { readonly value: Value; readonly box: HTMLInputElement }[];

  constructor(name: string, words: Readonly<Record<Value, string>>, onChoose: (value: Value) => void) {
    const group = `strategy-${name.replaceAll(" ", "-")}`;
    this.boxes = (Object.keys(words) as Value[]).map((value) => ({ value, box: html("input", { type: "radio", name: group }) }));
    for (const { value, box } of this.boxes) box.addEventListener("change", () => onChoose(value));
    this.element = html(
      "fieldset",
      {},
      html("legend", {}, name),
      ...this.boxes.map(({ value, box }) => html("label", {}, box, words[value])),
    );
  }

  show(chosen: Value | undefined): void {
    for (const { value, box } of this.boxes) {
      box.checked = value === chosen;
      box.disabled = chosen === undefined;
    }
  }
}

/** The usual strategies that the touches allow, found by typing; made when they are looked for. */
class Candidates {
  readonly element: HTMLDetailsElement;
  private readonly onAdd: (strategy: Strategy) => void;
  private readonly filter = html("input", {
    type: "text",
    class: "written",
    "aria-label": "Words of the new strategy",
    placeholder: "words, such as left front top",
    autocomplete: "off",
    spellcheck: "false",
  });
  private readonly list = html("ol", { class: "candidates" });
  private readonly count = html("p", { class: "hint", role: "status" });
  private of: { readonly results: SheetResults; readonly like: string } | undefined;
  private made:
    | { readonly of: object; readonly like: string; readonly strategies: readonly Strategy[]; readonly isCutShort: boolean }
    | undefined;

  constructor(onAdd: (strategy: Strategy) => void) {
    this.onAdd = onAdd;
    this.filter.addEventListener("input", () => this.fill());
    this.element = html(
      "details",
      {},
      html("summary", {}, "new strategy from the touches"),
      html("p", { class: "hint" }, "Every usual way to find the part by the touches that there are, for the same part zero."),
      this.filter,
      this.count,
      this.list,
    );
    this.element.addEventListener("toggle", () => this.fill());
  }

  /** Opens the list, with the focus on what narrows it down. */
  open(): void {
    this.element.open = true;
    this.filter.focus();
  }

  show(results: SheetResults | undefined, like: string): void {
    this.of = results && { results, like };
    this.fill();
  }

  private fill(): void {
    if (!this.element.open) return;
    const { strategies, isCutShort } = this.candidates();
    const words = this.filter.value.toLowerCase().split(/\s+/).filter(Boolean);
    const fitting = strategies.filter(({ id }) => words.every((word) => id.toLowerCase().includes(word)));
    const shown = fitting.slice(0, mostShown);
    const total = isCutShort ? `more than ${strategies.length}` : String(strategies.length);
    const which = words.length === 0 ? "" : ` with these words (of ${total})`;
    setText(
      this.count,
      strategies.length === 0
        ? "The touches that can be used allow none yet: touch the part along X and along Y."
        : `${fitting.length} ${fitting.length === 1 ? "way" : "ways"}${which}${fitting.length > shown.length ? `; the first ${shown.length}:` : ":"}`,
    );
    const key = shown.map(({ id }) => id).join("\n");
    if (this.list.dataset["shown"] === key) return;
    this.list.dataset["shown"] = key;
    setChildren(
      this.list,
      shown.map((strategy) => {
        const add = act("add", () => this.onAdd(this.candidates().strategies.find(({ id }) => id === strategy.id) ?? strategy));
        setAttribute(add, "aria-label", `add ${strategy.id}`);
        const { length } = strategy.touches;
        return html("li", {}, html("span", {}, strategy.id), html("small", {}, `${length} ${length === 1 ? "touch" : "touches"}`), add);
      }),
    );
  }

  private candidates(): { readonly strategies: readonly Strategy[]; readonly isCutShort: boolean } {
    if (this.of === undefined) return { strategies: [], isCutShort: false };
    const { results, like } = this.of;
    const { location } = results.evaluation;
    if (this.made?.of !== location || this.made.like !== like) {
      const stated = location.setup.strategies.find(({ id }) => id === like);
      this.made = { of: location, like, ...candidateStrategies(location, stated ?? noStrategy) };
    }
    return this.made;
  }
}

/** Where no strategy is there to be like. */
const origin = { kind: "coordinate", value: mm(0) } as const;
const noStrategy: Strategy = {
  id: "",
  touches: [],
  hold: [],
  orient: [],
  rotation: "ignored",
  sizes: "nominal",
  fixtureFrame: undefined,
  zero: [origin, origin, origin],
};

function checkbox(onChange: (isIn: boolean) => void): HTMLInputElement {
  const box = html("input", { type: "checkbox" });
  box.addEventListener("change", () => onChange(box.checked));
  return box;
}

function paragraph(words: string): HTMLElement {
  return html("p", {}, words);
}

/** A problem at its place, without telling the place again. */
function inPlace(problem: Problem): string {
  const words = describeProblem({ ...problem, at: "" });
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function canOrient({ kind, outward }: SetupDocument["part"]["elements"][number]): boolean {
  return kind === "face" && outward !== undefined && !outward.endsWith("Z");
}

function elementInWords({ kind, datum, outward, facing, inclination = "", of }: SetupDocument["part"]["elements"][number]): string {
  const what =
    kind === "face"
      ? `looks ${outward?.replace("-", "−")}`
      : kind === "angled face"
        ? `angled, facing ${facing}${inclination.trim() === "" ? "" : `, inclined ${inclination}`}`
        : kind === "middle"
          ? `held, of ${of?.join(" and ")}`
          : kind;
  return datum === "" ? what : `${what}, datum ${datum}`;
}
