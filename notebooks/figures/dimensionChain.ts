import type { Outcome } from "../../lib/base/outcome.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { View } from "../../lib/tolerance/deviations.ts";
import { type DimensionChain, dimensionChains } from "../../lib/tolerance/dimensionChain.ts";
import { amountInWords, linkInWords, placeInWords } from "./chain/chainWords.ts";
import { drawChain } from "./chain/drawChain.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet } from "./figure.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { writeLines } from "./writeLines.ts";

export interface DimensionChainOptions extends FigureOptions {
  readonly view: View;
  readonly unit: DisplayUnit;
}

/** The chains of a characteristic under a strategy, or why there are none. */
export function chainsOf(
  { setup, location }: SetupEvaluation,
  strategyId: string,
  characteristicId: string,
  view: View,
): Outcome<DimensionChain[]> | undefined {
  const strategy = setup.strategies.find(({ id }) => id === strategyId);
  const characteristic = setup.part.characteristics.find(({ id }) => id === characteristicId);
  return strategy && characteristic && dimensionChains(characteristic, strategy, location, view);
}

/**
 * From the datums to the feature: every dimension that lies between, with its tolerance, the gain with which it enters the characteristic under
 * this strategy, and what it gives; touched faces and part zero marked.
 */
export function dimensionChain(
  evaluation: SetupEvaluation,
  strategyId: string,
  characteristicId: string,
  options: DimensionChainOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const writer = writerOf(options.unit);
  const title = `Sizes of the part behind ${characteristicId}, ${strategyId}, ${options.view === "thisPart" ? "this part" : "the batch"}`;
  const head = { ...options, kind: "dimensions", subject: `${strategyId} ${characteristicId} ${options.view}`, title };
  const found = chainsOf(evaluation, strategyId, characteristicId, options.view);
  if (found === undefined || !found.ok) {
    const words = found === undefined ? "There is no such characteristic or strategy." : `Not known: ${outcomeInWords(found.problems)}.`;
    const sheet = openSheet({ ...head, description: words }, environment);
    const written = writeLines(sheet, [words], 2, "fig-soft");
    return sheet.finish(written.bottom + 8, [], written.marks);
  }
  const chains = found.value;
  const sentences = chains.map((chain) => chainInWords(chain, writer));
  const told = chains.flatMap(({ places, links }) => [...places.map(placeInWords), ...links.map((link) => linkInWords(link, writer))]);
  const sheet = openSheet({ ...head, description: `${sentences.join(" ")} ${told.join("; ")}.` }, environment);
  const marks: SVGElement[] = [];
  let top = 2;
  for (const chain of chains) {
    const drawn = drawChain(sheet, chain, programmedIn(chain, evaluation), writer, top);
    marks.push(...drawn.marks);
    top = drawn.bottom + 6;
  }
  const legend = "▾ touched; ▴ datum; ○ part zero; heavy lines: sizes that enter, the heavier the more; broken: gain 0.";
  const words = writeLines(sheet, [...sentences, legend], top, "fig-small fig-soft");
  return sheet.finish(words.bottom + 7, [], [...marks, ...words.marks]);
}

/** Ends of a chain that are cut here: the programme takes them from zero. */
function programmedIn({ places }: DimensionChain, { setup }: SetupEvaluation): { readonly element: string; readonly to: number }[] {
  return places.flatMap(({ element, nominal, end }) =>
    end !== undefined && setup.part.elements.find(({ id }) => id === element)?.made === "here" ? [{ element, to: nominal }] : [],
  );
}

function chainInWords({ axis, links, bySizes }: DimensionChain, writer: UnitWriter): string {
  if (links.every(({ gain }) => gain === 0)) {
    const told = links.some(({ knownBy }) => knownBy === "touches") ? ": the touches tell those that lie between" : "";
    return `Along ${axis} no size of the part enters${told}.`;
  }
  return `Along ${axis} the sizes give a standard uncertainty of ${amountInWords(bySizes, writer)}.`;
}
