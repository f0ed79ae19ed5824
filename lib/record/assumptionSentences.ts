import { listText, quotedList } from "../base/listText.ts";
import { axes } from "../base/vector.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";

/** What the numbers of a setup take for granted: what nobody stated, and what the model itself does not look at. */
export function assumptionSentences({ setup, location }: SetupEvaluation, strategy: StrategyEvaluation): string[] {
  const { machine, part, tools, touches, fixture } = setup;
  const used = tools.filter(({ id }) => touches.some(({ tool }) => tool === id));
  const unstated = (of: (tool: (typeof used)[number]) => boolean) => used.filter((tool) => of(tool)).map(({ id }) => id);
  const noRadius = unstated(({ radius, radiusUncertainty }) => radius !== undefined && radiusUncertainty === 0);
  const noTrigger = unstated(({ kind, lateTrigger }) => kind === "touch probe" && lateTrigger === 0);
  const noLeverDoubt = unstated(({ lever }) => lever?.standardUncertainty === 0);
  const noLever = unstated(
    ({ id, lever }) =>
      lever === undefined && touches.some(({ tool, sweepTotal }) => tool === id && sweepTotal.some((total) => total !== 0)),
  );
  const noPlay = axes.filter((_, i) => machine.lostMotion[i] === 0);
  const noCut = part.elements
    .filter(({ made, process, kind }) => made === "here" && process === 0 && kind !== "middle")
    .map(({ id }) => id);
  const { rotation, sizes } = strategy.solution.strategy;
  return [
    "Every source is independent of every other but for what is stated to err together, and its distribution is the stated one.",
    location.related.length === 0 ? "Nothing is stated to err together." : "",
    sizes === "measured"
      ? "Sizes between touched faces and datums are as measured on this part."
      : "Sizes between touched faces and datums are as drawn, within the drawing's limits.",
    rotation === "ignored"
      ? "The part is taken to lie square: the strategy does not look at the turn about Z, and what the part is askew goes into its features unseen."
      : "",
    machine.heat === undefined ? "Nothing is stated of heat: part and scales are taken to be at 20 °C." : "",
    noPlay.length === 3 ? "No lost motion is stated." : noPlay.length > 0 ? `No lost motion is stated along ${listText(noPlay)}.` : "",
    machine.positioningRate === 0 ? "No positioning error is stated: the scales are taken as true." : "",
    machine.squareness.every((angle) => angle === undefined)
      ? "Nothing is stated of squareness: the motions are taken as square to each other."
      : "",
    noRadius.length > 0 ? `No doubt is stated of the radius of ${quotedList(noRadius)}.` : "",
    noTrigger.length > 0 ? `No late trigger is stated of ${quotedList(noTrigger)}.` : "",
    noLeverDoubt.length > 0 ? `No doubt is stated of the angle of the lever of ${quotedList(noLeverDoubt)}.` : "",
    noLever.length > 0
      ? `Nothing is stated of a lever of ${quotedList(noLever)}: total readings are taken as shown, without the cosine of an angle.`
      : "",
    noCut.length > 0 ? `No doubt is stated of cutting ${quotedList(noCut)}.` : "",
    fixture.locators.length === 0
      ? "Nothing is stated of the fixture: the part is taken to stand still and not to bend."
      : "The fixture is rigid and linear: no friction, weight, cutting force or bending.",
    "Faces are square to the drawing's axes and round walls stand along Z, but for angles, leans and tilts that are stated or touched.",
  ].filter((sentence) => sentence !== "");
}
