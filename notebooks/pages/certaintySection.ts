import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import type { StrategyBend } from "../../lib/record/strategyBend.ts";
import { blockSize } from "../../lib/uncertainty/trials/blockWords.ts";
import { readTally } from "../../lib/uncertainty/trials/tallyText.ts";
import type { TrialTally } from "../../lib/uncertainty/trials/trialTally.ts";
import { type DisplayUnit, writerOf } from "../figures/displayUnit.ts";
import { groups } from "../figures/formatChance.ts";
import { act } from "../inputs/act.ts";
import { html, setAttribute, setText } from "../inputs/html.ts";
import type { FirstOrderResult, Steadiness, StudyAnswer, StudyOf, StudyWork, WholeModelResult } from "../worker/studyMessages.ts";
import { FigureSlot } from "./figureSlot.ts";
import { downloadText } from "./files.ts";
import type { SheetResults } from "./sheetResults.ts";
import { StudyClient } from "./studyClient.ts";
import { StudyTables } from "./studyTables.ts";

/** After the last edit, ms: at once would be work for nothing while somebody types; out of sight there is no hurry at all. */
const pauses = { inSight: 250, outOfSight: 3000 } as const;
const mostTrials = 100_000_000;
/** Trials after which a study ends that does not become steady. */
const mostUntilSteady = 5_000_000;

/** Everything that was found for one document, strategy and view. */
interface Found {
  readonly firstOrder: readonly FirstOrderResult[];
  readonly wholeModel?: readonly WholeModelResult[];
  /** Before trials, which leave it standing in the figure. */
  readonly corrected?: readonly WholeModelResult[];
  readonly bends?: readonly StrategyBend[];
  readonly tally?: { readonly text: string; readonly counted: TrialTally };
}

/**
 * Whether the numbers of the sheet can be trusted to first order: worked out in a worker when the section is looked at, or after a while; and
 * trials of the whole model on request. An edit takes everything back at once.
 */
export class CertaintySection {
  readonly element: HTMLElement;
  private readonly client = new StudyClient<StudyWork, StudyAnswer>("wholeModel", (answer) => this.answered(answer));
  private readonly tables = new StudyTables();
  private readonly choice = html("select", { "aria-label": "Result whose distribution is shown" });
  private readonly figure: FigureSlot;
  private readonly told = html("p", { class: "hint", role: "status" });
  private readonly count = html("input", {
    type: "text",
    inputmode: "numeric",
    value: "100000",
    class: "trials-wanted",
    id: "trials-wanted",
    autocomplete: "off",
  });
  private readonly run = act("run trials", () => this.runTrials());
  private readonly steady = act("run until steady", () => this.start({ kind: "steady", mostTrials: mostUntilSteady }));
  private readonly stop = act("stop", () => this.stopTrials());
  private readonly save = act("save the trials", () => this.saveTrials());
  private readonly progress = html("progress", { "aria-label": "Trials done" });
  private readonly progressText = html("span", { class: "progress-text" });
  private readonly answers: HTMLElement;
  /** As high as the last answers while others are worked out, so that what is below does not come up and go down again. */
  private readonly placeOfAnswers: HTMLElement;
  private lastHeight = 0;
  private wanted: StudyOf | undefined;
  private unit: "mm" | "inch" = "mm";
  private work: "nothing" | "correction" | "trials" | "numbers" = "nothing";
  private wantedTrials: number | undefined;
  private found: Found = { firstOrder: [] };
  private readonly onBends: (bends: readonly StrategyBend[]) => void;
  private drawings = 0;
  private isSeen = true;
  private pause: ReturnType<typeof setTimeout> | undefined;

  /** @param onBends where first order does not hold, of every strategy, for what was shown last */
  constructor(onBends: (bends: readonly StrategyBend[]) => void = () => undefined) {
    this.onBends = onBends;
    this.figure = new FigureSlot({ title: "The distribution of", controls: [this.choice] });
    this.choice.addEventListener("change", () => this.draw());
    this.count.addEventListener("keydown", (event) => {
      if (event.key === "Enter") this.runTrials();
    });
    this.answers = html(
      "div",
      { class: "answers" },
      html("h3", {}, "To first order"),
      this.tables.firstOrder.element,
      this.tables.secondOrder,
      html("h3", {}, "By the sources' own distributions and the whole model"),
      this.tables.wholeModel.element,
      this.figure.element,
    );
    this.placeOfAnswers = html("div", { class: "place-of-answers" }, this.answers);
    this.element = html(
      "div",
      { class: "certainty" },
      html(
        "p",
        { class: "hint" },
        "Every number above takes the model as straight near the readings: first order. Here the same results are worked out with its bend, and by trials that draw every source and solve everything anew.",
      ),
      html(
        "div",
        { class: "trials" },
        html("label", { for: "trials-wanted" }, "trials"),
        this.count,
        this.run,
        this.steady,
        this.stop,
        this.save,
        this.progress,
        this.progressText,
      ),
      this.told,
      this.placeOfAnswers,
    );
    this.showState();
    if (typeof ResizeObserver === "function") this.watchHeight();
    if (typeof IntersectionObserver === "function") {
      this.isSeen = false;
      new IntersectionObserver(([entry]) => this.seen(entry?.isIntersecting === true)).observe(this.element);
    }
  }

  /** @param results undefined while they wait or have failed */
  show(results: SheetResults | undefined, document: SetupDocument): void {
    const wanted = results?.chosen.ok === true ? { document, strategy: results.chosen.value.id, view: results.view } : undefined;
    const unit = results?.evaluation.setup.unit ?? this.unit;
    const isOtherUnit = unit !== this.unit;
    this.unit = unit;
    if (sameStudy(wanted, this.wanted)) {
      if (isOtherUnit) this.showAgain();
      return;
    }
    const wasTrying = this.work === "trials" || this.work === "numbers";
    const hadTrials = this.found.tally !== undefined;
    this.client.stop();
    this.work = "nothing";
    this.wanted = wanted;
    clearTimeout(this.pause);
    // What was found stays to be seen only where it would be wrong to nobody: nowhere.
    this.found = { firstOrder: [] };
    this.drawings += 1;
    this.say(
      wanted === undefined
        ? "Not known: the chosen strategy has no results."
        : wasTrying
          ? "The trials were stopped: an entry has changed."
          : hadTrials
            ? "The trials of the setup as it was are put away: an entry has changed."
            : "",
    );
    this.hide();
    this.keepPlace(wanted !== undefined);
    if (wanted !== undefined) this.schedule();
  }

  /** What was found of the strategies, for what was shown last; undefined until that has been looked at. */
  get bends(): readonly StrategyBend[] | undefined {
    return this.found.bends;
  }

  dispose(): void {
    this.client.dispose();
  }

  private showAgain(): void {
    this.drawings += 1;
    this.showFound();
  }

  private seen(isSeen: boolean): void {
    if (isSeen === this.isSeen) return;
    this.isSeen = isSeen;
    if (isSeen && this.pause !== undefined) this.schedule();
  }

  private schedule(): void {
    clearTimeout(this.pause);
    this.pause = setTimeout(
      () => {
        this.pause = undefined;
        this.start({ kind: "correction" });
      },
      this.isSeen ? pauses.inSight : pauses.outOfSight,
    );
  }

  private start(work: StudyWork): void {
    if (this.wanted === undefined) return;
    clearTimeout(this.pause);
    this.pause = undefined;
    this.work = work.kind === "correction" ? "correction" : work.kind === "stopped" ? "numbers" : "trials";
    this.wantedTrials = work.kind === "trials" ? Math.ceil(work.trials / blockSize) * blockSize : undefined;
    if (work.kind === "trials" || work.kind === "steady") {
      const { tally: _, wholeModel: __, ...rest } = this.found;
      this.found = rest.corrected === undefined ? rest : { ...rest, wholeModel: rest.corrected };
      this.say("Trials are running.");
      this.showFound();
    }
    this.showProgress(0, undefined);
    this.showState();
    this.client.ask(this.wanted, work);
  }

  /** What the answers take once all of them are there; in a window of another width they would take another. */
  private watchHeight(): void {
    let width = 0;
    const watcher = new ResizeObserver((entries) => {
      for (const { target, contentRect } of entries) {
        if (target === this.answers && !this.answers.hidden && this.work === "nothing") this.lastHeight = contentRect.height;
        if (target !== this.placeOfAnswers || contentRect.width === width) continue;
        width = contentRect.width;
        this.lastHeight = 0;
        this.keepPlace(false);
      }
    });
    // A new width is told before the new height.
    watcher.observe(this.placeOfAnswers);
    watcher.observe(this.answers);
  }

  private keepPlace(isKept: boolean): void {
    this.placeOfAnswers.style.minHeight = isKept && this.lastHeight > 0 ? `${this.lastHeight}px` : "";
  }

  private runTrials(): void {
    const wanted = Number(this.count.value.replace(/[\s\u202f]/g, ""));
    const isRight = Number.isInteger(wanted) && wanted >= 1 && wanted <= mostTrials;
    setAttribute(this.count, "aria-invalid", isRight ? undefined : "true");
    if (isRight) this.start({ kind: "trials", trials: wanted });
    else this.say(`Trials: expected a whole number from 1 to ${groups(mostTrials)}, got “${this.count.value}”.`);
  }

  private stopTrials(): void {
    const { tally } = this.found;
    this.client.stop();
    this.work = "nothing";
    this.run.focus();
    if (tally === undefined) {
      this.say("Stopped before the first trials were done.");
      this.showState();
      return;
    }
    this.start({ kind: "stopped", tally: tally.text });
    this.say(`Stopped after ${groups(tally.counted.trials)} trials; their numbers are worked out.`);
  }

  private saveTrials(): void {
    if (this.found.tally !== undefined) downloadText("trials.json", this.found.tally.text);
  }

  private answered(answer: StudyAnswer): void {
    switch (answer.kind) {
      case "firstOrder":
        this.found = { ...this.found, firstOrder: answer.results };
        this.offerResults();
        break;
      case "progress":
        this.take(answer.tally);
        this.showProgress(this.found.tally?.counted.trials ?? 0, answer.steadiness);
        break;
      case "wholeModel":
        if (answer.tally !== undefined) this.take(answer.tally);
        this.found = {
          ...this.found,
          wholeModel: answer.results,
          ...(this.work === "correction" ? { corrected: answer.results } : {}),
          ...(answer.bends && { bends: answer.bends }),
        };
        if (answer.bends) this.onBends(answer.bends);
        this.say(this.work === "correction" ? "" : this.outcome(answer.steadiness));
        this.work = "nothing";
        this.keepPlace(false);
        break;
      case "failed":
        this.work = "nothing";
        this.keepPlace(false);
        this.found = { firstOrder: [] };
        this.say(`Not worked out: ${answer.why}`);
        this.hide();
        return;
    }
    this.drawings += 1;
    this.showFound();
  }

  private take(text: string): void {
    const read = readTally(text);
    if (!read.ok) throw new Error("The tally of the worker cannot be read.");
    this.found = { ...this.found, tally: { text, counted: read.value } };
  }

  private outcome(steadiness: Steadiness | undefined): string {
    const { trials, seed, outputs } = this.found.tally?.counted ?? { trials: 0, seed: 0, outputs: [] };
    const failed = Math.max(0, ...outputs.map((output) => output.failed));
    const share = failed > 0 ? ` In up to ${groups(failed)} of them the model had no value; they are not in the numbers.` : "";
    const steady =
      steadiness === undefined ? "" : steadiness.isEnough ? " All numbers are steady." : ` Not steady: ${this.farthest(steadiness)}.`;
    return `${groups(trials)} trials, seed ${seed}.${steady}${share}`;
  }

  private farthest({ worst: { name, unit, reached, tolerance } }: Steadiness): string {
    const writer = writerOf(this.unitOf({ unit }));
    if (!Number.isFinite(reached)) return `${name}, not known yet`;
    const written = (value: number) => `${writer.withUncertainty(0, value).uncertainty}${writer.suffix}`;
    return `${name} to ${written(reached)}, wanted ${written(tolerance)}`;
  }

  private showProgress(trials: number, steadiness: Steadiness | undefined): void {
    if (this.wantedTrials === undefined) this.progress.removeAttribute("value");
    else {
      this.progress.max = this.wantedTrials;
      this.progress.value = trials;
    }
    const of = this.wantedTrials === undefined ? "trials" : `of ${groups(this.wantedTrials)} trials`;
    const farthest = steadiness === undefined ? "" : `; farthest from steady: ${this.farthest(steadiness)}`;
    setText(this.progressText, this.work === "numbers" ? "the numbers are worked out" : `${groups(trials)} ${of}${farthest}`);
  }

  private offerResults(): void {
    const before = this.choice.value;
    this.choice.replaceChildren(...this.found.firstOrder.map(({ name }) => new Option(name, name)));
    if (this.found.firstOrder.some(({ name }) => name === before)) this.choice.value = before;
  }

  private showFound(): void {
    const { firstOrder, wholeModel } = this.found;
    this.tables.show(firstOrder, wholeModel, (result) => this.unitOf(result));
    this.answers.hidden = firstOrder.length === 0;
    this.showState();
    this.draw();
  }

  private hide(): void {
    this.answers.hidden = true;
    this.showState();
  }

  private showState(): void {
    const isTrying = this.work === "trials" || this.work === "numbers";
    for (const name of ["aria-busy", "data-earlier"]) setAttribute(this.answers, name, this.work === "nothing" ? undefined : "true");
    this.run.disabled = this.steady.disabled = isTrying || this.found.wholeModel === undefined;
    this.stop.hidden = this.work !== "trials";
    this.save.hidden = isTrying || this.found.tally === undefined;
    this.progress.hidden = this.progressText.hidden = !isTrying;
    if (this.told.textContent === "" || this.told.dataset["usual"] === "true") this.sayUsual();
  }

  /** What is to be said when nothing has happened. */
  private sayUsual(): void {
    const { firstOrder, wholeModel } = this.found;
    this.told.dataset["usual"] = "true";
    setText(
      this.told,
      wholeModel !== undefined
        ? ""
        : firstOrder.length > 0 || this.work === "correction"
          ? "Being worked out."
          : "Is worked out when nothing else is to be done.",
    );
  }

  private say(words: string): void {
    this.told.dataset["usual"] = String(words === "");
    setText(this.told, words);
  }

  private draw(): void {
    const { firstOrder, wholeModel, corrected, tally } = this.found;
    const result = firstOrder.find(({ name }) => name === this.choice.value);
    if (result === undefined || this.wanted === undefined) {
      this.figure.say("Not drawn: there is no result.");
      return;
    }
    const named = <T extends { readonly name: string }>(list: readonly T[] | undefined) => list?.find(({ name }) => name === result.name);
    const bent = named(corrected);
    const view = {
      firstOrder: result,
      wholeModel: named(wholeModel),
      corrected: bent === undefined || bent.isTooCurved ? [] : bent.curve,
      tally: named(tally?.counted.outputs),
    };
    const unit = this.unitOf(result);
    const title = `${result.name}, ${this.wanted.strategy}, ${this.wanted.view === "thisPart" ? "this part" : "the batch"}`;
    this.figure.show({
      key: JSON.stringify([this.drawings, title]),
      draw: (width, environment, { distribution }) => distribution(view, { title, unit, width, id: "distribution" }, environment),
      table: ({ distributionTable }) => distributionTable(view, { title, unit }),
    });
  }

  private unitOf({ unit }: Pick<FirstOrderResult, "unit">): DisplayUnit {
    return unit === "rad" ? "degree" : this.unit;
  }
}

/** What of the document changes no number. */
const unstudied: ReadonlySet<keyof SetupDocument> = new Set(["title", "note", "revision", "chosen", "decision", "revisions"]);

/** Whether a question would have the same answer. */
export function sameStudy(a: StudyOf | undefined, b: StudyOf | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return (
    a.strategy === b.strategy &&
    a.view === b.view &&
    (Object.keys(a.document) as (keyof SetupDocument)[]).every((part) => unstudied.has(part) || a.document[part] === b.document[part])
  );
}
