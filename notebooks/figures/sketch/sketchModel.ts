import type { Outcome } from "../../../lib/base/outcome.ts";
import type { Contact } from "../../../lib/contacts/contact.ts";
import { takenContacts } from "../../../lib/datum/locatePart.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import type { Dimension, Element, Limits, Part, Round } from "../../../lib/part/part.ts";
import type { Touch } from "../../../lib/readings/touch.ts";
import type { Budget } from "../../../lib/uncertainty/budget.ts";
import { outcomeInWords } from "../outcomeInWords.ts";

/** A touch with what it met. */
export interface SketchTouch {
  readonly touch: Touch;
  readonly element: Element;
  readonly contact: Contact;
  /** Whether the strategy shown counts it. */
  readonly used: boolean;
  readonly lit: boolean;
  /** Another touch is stood upon, and this one steps back. */
  readonly quiet: boolean;
}

/** A size that touches have measured, beside what the drawing says. */
export interface SketchSize {
  readonly id: string;
  /** The dimension of the drawing; undefined for a diameter. */
  readonly dimension: Dimension | undefined;
  /** What the drawing says, mm; limits are deviations from it, undefined when it gives none. */
  readonly nominal: number;
  readonly limits: Limits | undefined;
  readonly budget: Budget;
}

/** What the sketch shows of an evaluation. */
export interface SketchModel {
  readonly strategy: StrategyEvaluation | undefined;
  readonly touches: readonly SketchTouch[];
  readonly sizes: readonly SketchSize[];
  /** Elements whose stated roughness stands out, by id. */
  readonly rough: ReadonlySet<string>;
  /** What cannot be drawn, in words. */
  readonly missing: readonly string[];
}

/** A roughness that many times the middle one is told by hatching: a sawn face beside milled ones. */
const markedlyRougher = 2;

export function sketchModel(
  { setup, location, strategies, sizes }: SetupEvaluation,
  strategyId: string,
  highlight: string | undefined,
): SketchModel {
  const found = strategies.find(({ id }) => id === strategyId)?.evaluation;
  const stated = setup.strategies.find(({ id }) => id === strategyId);
  const elements = new Map(location.touchable.setup.part.elements.map((element) => [element.id, element]));
  const taken = takenContacts(location);
  const standing = setup.touches.some(({ id }) => id === highlight);
  const touches = setup.touches.flatMap((touch): SketchTouch[] => {
    const contact = taken.find((each) => each.touch === touch.id);
    const element = elements.get(touch.element);
    if (contact === undefined || element === undefined) return [];
    return [
      {
        touch,
        element,
        contact,
        used: stated?.touches.includes(touch.id) ?? false,
        lit: touch.id === highlight,
        quiet: standing && touch.id !== highlight,
      },
    ];
  });
  const lost = setup.touches.length - touches.length;
  return {
    strategy: found?.ok ? found.value : undefined,
    touches,
    sizes: sizes.map(({ id, budget }) => sketchSize(id, budget, setup.part)),
    rough: roughOnes(setup.part.elements),
    missing: [
      ...strategyMissing(found, strategyId),
      ...(lost > 0 ? [`${lost === 1 ? "One touch" : `${lost} touches`} cannot be used and ${lost === 1 ? "is" : "are"} not drawn.`] : []),
    ],
  };
}

function sketchSize(id: string, budget: Budget, { dimensions, elements }: Part): SketchSize {
  const dimension = dimensions.find((each) => each.id === id);
  if (dimension) return { id, budget, dimension, nominal: dimension.nominal, limits: dimension.limits };
  const round = elements.find((each): each is Round => (each.kind === "bore" || each.kind === "boss") && id === `${each.id}, diameter`);
  return { id, budget, dimension, nominal: round?.diameter ?? budget.value, limits: round?.diameterLimits };
}

function strategyMissing(found: Outcome<StrategyEvaluation> | undefined, id: string): string[] {
  if (found === undefined)
    return [id === "" ? "No strategy is chosen: no zero is drawn." : `There is no strategy "${id}": no zero is drawn.`];
  if (!found.ok) return [`No zero is drawn: ${outcomeInWords(found.problems)}.`];
  const [x, y, z] = found.value.zero;
  return [x, y, z].flatMap((axis, i) => (axis.ok ? [] : [`${"XYZ"[i]} of the zero is not known: ${outcomeInWords(axis.problems)}.`]));
}

function roughOnes(elements: readonly Element[]): ReadonlySet<string> {
  const stated = elements
    .map(({ roughness }) => roughness as number)
    .filter((roughness) => roughness > 0)
    .sort((a, b) => a - b);
  const middle = stated[Math.floor((stated.length - 1) / 2)];
  return new Set(middle === undefined ? [] : elements.filter(({ roughness }) => roughness > markedlyRougher * middle).map(({ id }) => id));
}
