import { lobingEffect } from "../../contacts/lobing.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { Round } from "../../part/part.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { strategyInUse } from "../strategyInUse.ts";
import type { Figures } from "./figures.ts";

/** What the strategy in use takes the lobes of a round wall for, and with how many touches it would not. */
export function lobingSentences(evaluation: SetupEvaluation, figures: Figures): JudgementSentence[] {
  const inUse = strategyInUse(evaluation)?.evaluation;
  if (inUse === undefined) return [];
  return evaluation.setup.part.elements.flatMap((element): JudgementSentence[] => {
    if ((element.kind !== "bore" && element.kind !== "boss") || element.lobing === undefined) return [];
    const travels = inUse.solution.contacts.flatMap((contact) =>
      contact.element === element.id && contact.surface.kind !== "axis" ? [Math.atan2(contact.travel[1], contact.travel[0])] : [],
    );
    return areEven(travels) ? [sentenceFor(element, element.lobing, travels.length, figures)] : [];
  });
}

function sentenceFor(
  { id }: Round,
  { lobes, amplitude }: NonNullable<Round["lobing"]>,
  touches: number,
  figures: Figures,
): JudgementSentence {
  const effect = lobingEffect(lobes, touches);
  const size = `${figures.length(amplitude)} ${figures.unit}`;
  const wall = `The ${lobes} lobes of "${id}", ${size} high, `;
  const blind = touchesThatSeeNothingOf(lobes);
  const remedy = ` ${blind} evenly spaced touches would see neither.`;
  const text =
    effect.centre > 0
      ? `${wall}are taken for a shift of its centre by as much, in a direction that ${touches} touches cannot tell.${remedy}`
      : effect.diameter > 0
        ? `${wall}are taken for its size: ${touches} touches find a diameter that is off by up to ${figures.length(2 * amplitude)} ${figures.unit}, and the right centre.${remedy}`
        : `${wall}show in neither centre nor diameter by ${touches} evenly spaced touches.`;
  return { kind: "form error", at: `part.elements.${id}`, text };
}

/** The least number of touches to which so many lobes look neither like a shift nor like a size. */
function touchesThatSeeNothingOf(lobes: number): number {
  for (let touches = 3; ; touches++) {
    const { centre, diameter } = lobingEffect(lobes, touches);
    if (centre === 0 && diameter === 0) return touches;
  }
}

/** Directions that differ from even ones by less, radians, are meant to be even. */
const nearlyEven = 0.05;

function areEven(angles: readonly number[]): boolean {
  const count = angles.length;
  if (count < 3) return false;
  const sorted = [...angles].sort((a, b) => a - b);
  const step = (2 * Math.PI) / count;
  return sorted.every(
    (angle, i) => Math.abs((sorted[(i + 1) % count] as number) + (i + 1 === count ? 2 * Math.PI : 0) - angle - step) < nearlyEven,
  );
}
