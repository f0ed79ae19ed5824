import { describeProblem } from "../../lib/base/outcome.ts";
import { judgeWarmUp } from "../../lib/decision/judgeWarmUp.ts";
import { warmUpSentences } from "../../lib/record/warmUpSentences.ts";
import { html, setChildren } from "../inputs/html.ts";
import { InSight } from "../inputs/inSight.ts";
import { paragraphs } from "../inputs/paragraphs.ts";
import { FigureSlot } from "./figureSlot.ts";
import type { SheetResults } from "./sheetResults.ts";

/** How a zero drifts while the machine warms, and how long it lasts. */
export class WarmUpSection {
  readonly element: HTMLElement;
  private readonly sentences = html("div", { class: "findings" });
  private readonly chart = new FigureSlot({ title: "Drift since the start" });
  private readonly inSight: InSight;
  private computations = 0;

  constructor() {
    this.element = html("div", { class: "fixture" }, this.sentences, this.chart.element);
    this.inSight = new InSight(this.element);
  }

  /** Undefined where nothing is known: nothing old stays. */
  show(results: SheetResults | undefined): void {
    this.computations += 1;
    if (results === undefined) this.inSight.now(() => this.fill(undefined));
    else this.inSight.run(() => this.fill(results));
  }

  private fill(results: SheetResults | undefined): void {
    const setup = results?.evaluation.setup;
    const warmUp = setup && judgeWarmUp(setup, results.chosen.ok ? results.chosen.value : undefined);
    this.chart.element.hidden = !warmUp?.ok;
    if (setup === undefined || warmUp === undefined) {
      setChildren(this.sentences, []);
      return;
    }
    if (!warmUp.ok) {
      setChildren(this.sentences, paragraphs(warmUp.problems.map(describeProblem)));
      return;
    }
    const { unit } = setup;
    const { life } = warmUp.value;
    const words = [...warmUpSentences(warmUp.value, { unit }), ...(life.ok ? [] : life.problems.map(describeProblem))];
    setChildren(this.sentences, paragraphs(words));
    this.chart.show({
      key: `${this.computations} ${unit}`,
      draw: (width, environment, { warmUpChart }) =>
        warmUpChart(warmUp.value, setup.warmUp.readings, { unit, width, id: "warm-up", words }, environment),
      table: ({ warmUpChartTable }) => warmUpChartTable(warmUp.value, setup.warmUp.readings, unit),
    });
  }
}
