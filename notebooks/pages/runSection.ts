import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { judgeRun, type RunEvaluation } from "../../lib/decision/judgeRun.ts";
import { causeFigures, errorLeftSentence, runSentences } from "../../lib/record/runSentences.ts";
import { describeCause } from "../../lib/run/separateDeviations.ts";
import { formatShare } from "../figures/formatChance.ts";
import { html, setChildren, setText } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { paragraphs } from "../inputs/paragraphs.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import { FigureSlot } from "./figureSlot.ts";
import type { SheetResults } from "./sheetResults.ts";

/** What made parts say of the setup. */
export class RunSection {
  readonly element: HTMLElement;
  private readonly sentences = html("div", { class: "findings" });
  private readonly causes = new PlainTable({
    caption: "What the deviations of the measured parts come from",
    columns: [
      { label: "cause" },
      { label: "estimate", number: true },
      { label: "u", number: true },
      { label: "change", number: true, hint: "what to change it by; nothing where it is to be left alone" },
    ],
  });
  private readonly shares = new PlainTable({
    caption: "Share of each tolerance that the mean of the measured parts uses",
    columns: [
      { label: "characteristic" },
      { label: "as made", number: true },
      { label: "by least squares", number: true, hint: "with the zero that a best fit would choose" },
      { label: "best zero", number: true, hint: "with the zero whose largest share is the smallest" },
    ],
  });
  private readonly chartChoice = html("select", { "aria-label": "Feature whose run is drawn" });
  private readonly chart = new FigureSlot({ title: "Part by part:", controls: [this.chartChoice] });
  /** What the run that is drawn leaves of the setup's error. */
  private readonly left = html("p", { class: "hint" });
  private readonly inSight: InSight;
  private computations = 0;
  private results: SheetResults | undefined;

  constructor() {
    this.element = html(
      "div",
      { class: "fixture run" },
      this.causes.element,
      this.sentences,
      this.shares.element,
      this.chart.element,
      this.left,
    );
    this.inSight = new InSight(this.element);
    this.chartChoice.addEventListener("change", () => this.fill(this.results));
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined): void {
    this.computations += 1;
    this.results = results;
    if (results === undefined) this.inSight.now(() => this.fill(undefined));
    else this.inSight.run(() => this.fill(results));
  }

  private fill(results: SheetResults | undefined): void {
    const run = results && judgeRun(results.evaluation.setup, results.chosen.ok ? results.chosen.value : undefined);
    const unit = results?.evaluation.setup.unit ?? "mm";
    for (const part of [this.causes, this.shares, this.chart]) part.element.hidden = true;
    this.left.hidden = true;
    setChildren(this.sentences, paragraphs(wordsOf(run, unit)));
    if (!run?.ok) return;
    const { separation, verdicts, zeros, charts } = run.value;
    this.causes.element.hidden = false;
    this.causes.show(
      separation.causes.map(({ cause, found }) => {
        const verdict = verdicts.find((each) => each.found.cause === cause);
        if (!found.ok || verdict === undefined) return [describeCause(cause), "–", "–", "not told"];
        const figures = causeFigures(cause, found.value.estimate, verdict.standardUncertainty, unit);
        const change =
          verdict.correction.verdict === "correct"
            ? causeFigures(cause, verdict.correction.change, verdict.correction.left, unit).value
            : "leave it";
        return [describeCause(cause), `${figures.value} ${figures.unit}`, figures.standardUncertainty ?? "–", change];
      }),
    );
    this.shares.element.hidden = zeros.characteristics.length === 0;
    this.shares.show(
      zeros.characteristics.map((id, i) => [
        id,
        ...[zeros.asMade, zeros.leastSquares, zeros.smallestLargestShare].map(({ shares }) => formatShare(shares[i] as number)),
      ]),
    );
    this.showChart(charts, unit);
  }

  private showChart(charts: RunEvaluation["charts"], unit: "mm" | "inch"): void {
    this.chart.element.hidden = this.left.hidden = charts.length === 0;
    const names = charts.map(({ element, axis }) => `${element} along ${axis}`);
    if ([...this.chartChoice.options].map(({ value }) => value).join("\n") !== names.join("\n")) {
      const wanted = this.chartChoice.value;
      this.chartChoice.replaceChildren(...names.map((name) => new Option(name, name)));
      this.chartChoice.value = names.includes(wanted) ? wanted : (names[0] ?? "");
    }
    const chart = charts[Math.max(0, this.chartChoice.selectedIndex)];
    if (chart === undefined) return;
    const name = `${chart.element} along ${chart.axis}`;
    setText(this.left, errorLeftSentence(chart, { unit }));
    this.chart.show({
      key: `${this.computations} ${name} ${unit}`,
      draw: (width, environment, { runChart }) =>
        runChart(chart, { unit, width, id: "run", words: [`${name}, part by part.`] }, environment),
      table: ({ runChartTable }) => runChartTable(chart, unit),
    });
  }
}

function wordsOf(run: Outcome<RunEvaluation> | undefined, unit: "mm" | "inch"): string[] {
  if (run === undefined) return [];
  return run.ok ? runSentences(run.value, { unit }) : run.problems.map(describeProblem);
}
