import { capitalise } from "../../lib/base/capitalise.ts";
import { failedInWords, firstOrderInWords } from "../../lib/record/firstOrderInWords.ts";
import { secondOrderInWords, secondOrderOfAll } from "../../lib/record/secondOrderInWords.ts";
import { formatFixed } from "../../lib/uncertainty/roundForReport.ts";
import { type DisplayUnit, writerOf } from "../figures/displayUnit.ts";
import { outsideInWords } from "../figures/outsideInWords.ts";
import { html, setChildren } from "../inputs/html.ts";
import { PlainTable } from "../inputs/plainTable.ts";
import type { FirstOrderResult, WholeModelResult } from "../worker/studyMessages.ts";

/** What is known of the results, to first order and with the bend of the model taken in. */
export class StudyTables {
  readonly firstOrder = new PlainTable({
    caption: "Results to first order",
    columns: [
      { label: "result" },
      { label: "value", number: true },
      { label: "u", number: true, hint: "standard uncertainty" },
      { label: "U", number: true, hint: "expanded uncertainty" },
      { label: "k", number: true, hint: "coverage factor" },
      { label: "coverage", number: true, hint: "coverage probability of y ± U" },
      { label: "ν eff", number: true, hint: "effective degrees of freedom of u" },
      { label: "chance outside", number: true, hint: "of the limits, from the sources' own distributions" },
    ],
  });
  readonly wholeModel = new PlainTable({
    caption: "The same results by the sources' own distributions and the whole model",
    columns: [
      { label: "result" },
      { label: "symmetric interval", number: true, hint: "leaves the same chance on either side" },
      { label: "shortest interval", number: true },
      { label: "chance outside", number: true },
      { label: "first order beside it" },
    ],
  });

  /** What the terms of second order do to the u above it: one sentence where they change nothing, else one for each result. */
  readonly secondOrder = html("div", { class: "second-order" });

  /** Rows without a result say so with a dash. */
  show(
    firstOrder: readonly FirstOrderResult[],
    wholeModel: readonly WholeModelResult[] | undefined,
    unitOf: (result: Pick<FirstOrderResult, "unit">) => DisplayUnit,
  ): void {
    this.firstOrder.show(firstOrder.map((result) => firstOrderRow(result, unitOf(result))));
    this.wholeModel.show(
      wholeModel === undefined
        ? []
        : firstOrder.map((result) => {
            const found = wholeModel.find(({ name }) => name === result.name);
            return found === undefined ? notStudied(result) : wholeModelRow(found, unitOf(result));
          }),
    );
    setChildren(
      this.secondOrder,
      wholeModel === undefined ? [] : secondOrderSentences(wholeModel, unitOf).map((sentence) => html("p", { class: "hint" }, sentence)),
    );
  }
}

function secondOrderSentences(
  results: readonly WholeModelResult[],
  unitOf: (result: Pick<FirstOrderResult, "unit">) => DisplayUnit,
): readonly string[] {
  const all = secondOrderOfAll(results.map(({ secondOrder }) => secondOrder));
  if (all !== undefined) return [all];
  return results.flatMap((result) => {
    const words = secondOrderInWords(result.secondOrder, writerOf(unitOf(result)));
    return words === undefined ? [] : [`${capitalise(result.name)}: ${words}.`];
  });
}

function firstOrderRow({ name, value, standardUncertainty, expanded, within }: FirstOrderResult, unit: DisplayUnit): string[] {
  const writer = writerOf(unit);
  const outside = within === undefined ? "–" : outsideInWords(within);
  const label = labelled(name, unit);
  if (standardUncertainty === undefined || expanded === undefined)
    return [label, writer.fixed(value, decimalsOfDiameter), "–", "–", "–", "–", "–", outside];
  const written = writer.withUncertainty(value, standardUncertainty);
  const { degreesOfFreedom } = expanded;
  return [
    label,
    written.value,
    written.uncertainty,
    writer.withUncertainty(0, expanded.expandedUncertainty).uncertainty,
    formatFixed(expanded.coverageFactor, 2),
    `${formatFixed(100 * expanded.coverageProbability, 2)} %`,
    degreesOfFreedom > 9999 ? "many" : formatFixed(degreesOfFreedom, degreesOfFreedom < 100 ? 1 : 0),
    outside,
  ];
}

/** A diameter used has no uncertainty of its own to be rounded by. */
const decimalsOfDiameter = 4;

function wholeModelRow(result: WholeModelResult, unit: DisplayUnit): string[] {
  const { name, symmetric, shortest, within, trials, isTooCurved } = result;
  const writer = writerOf(unit);
  const words = firstOrderInWords(result, writer);
  const failed = failedInWords(result);
  if (isTooCurved) return [labelled(name, unit), "–", "–", "–", `${words ?? "–"}${failed}`];
  const spread = (symmetric[1] - symmetric[0]) / 4;
  const decimals = spread > 0 ? Math.max(0, writer.withUncertainty(0, spread).decimals) : decimalsOfDiameter;
  const interval = ([lower, upper]: readonly [number, number]) => `${writer.fixed(lower, decimals)} to ${writer.fixed(upper, decimals)}`;
  return [
    labelled(name, unit),
    interval(symmetric),
    interval(shortest),
    within === undefined ? "–" : outsideInWords(within, trials?.count),
    `${words ?? "a diameter has no y ± U to compare: see the chances"}${failed}`,
  ];
}

function notStudied({ name, standardUncertainty }: FirstOrderResult): string[] {
  const why = standardUncertainty === 0 ? "to first order nothing makes it vary" : "not known: its standard deviation is not finite";
  return [name, "–", "–", "–", why];
}

function labelled(name: string, unit: DisplayUnit): string {
  return unit === "degree" ? `${name}, °` : name;
}
