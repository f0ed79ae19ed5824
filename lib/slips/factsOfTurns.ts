import { axes, opposite } from "../base/vector.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { measureSizes } from "../datum/measureSizes.ts";
import { signsAfterTurn } from "../offsets/turnedOver.ts";
import { budgetsOf } from "../uncertainty/budget.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { TurnoverFact } from "./slipFacts.ts";

/**
 * What an earlier operation has cut, found again on a part that lies turned: its place along an axis from the face that was touched there, beside where the stated turn
 * has it, and where it would come out if the part had been turned about another axis. The face that was touched were then the opposite one: p becomes
 * a + (b - p), with a and b the places of both faces on the drawing.
 */
export function turnoversOf(location: PartLocation): TurnoverFact[] {
  const { setup, contacts, sizes } = location;
  const { operation } = setup;
  const assumed = operation && axes.find((axis) => signsAfterTurn(axis).every((sign, i) => sign === operation.signs[i]));
  if (operation === undefined || assumed === undefined) return [];
  const found = measureSizes(location).flatMap((size) => {
    const left = operation.earlier.sizes.find(({ id }) => id === size.id);
    if (left?.axis === undefined) return [];
    const { axis } = left;
    const others = axes.filter((turn) => turn !== assumed && signsAfterTurn(turn)[axis] !== operation.signs[axis]);
    const touched = contacts.find(({ surface, travel }) => surface.kind === "plane" && Math.abs(travel[axis]) === 1);
    const between = touched && facesAlong(touched.element, axis, location);
    if (between === undefined || others.length === 0) return [];
    const offPlace = size.size.minus(size.nominal).minus(left.thisPart);
    return [{ left, axis, others, size, between, offPlace }];
  });
  const budgets = budgetsOf(found.flatMap(({ offPlace, between }) => [offPlace, between]));
  return found.map(({ left, axis, others, size, between }, i) => ({
    at: `operations.${operation.id}.lies`,
    feature: left.id,
    axis: axes[axis],
    touched: size.size.value,
    // Of both predictions: the other one rests on the size between the two faces as well.
    standardUncertainty: Math.hypot(budgets[2 * i]?.standardUncertainty ?? 0, budgets[2 * i + 1]?.standardUncertainty ?? 0),
    assumed: { turn: `about ${assumed}`, predicted: size.nominal + left.thisPart.value },
    others: others.map((turn) => ({ turn: `about ${turn}`, predicted: between.value - size.nominal - left.thisPart.value })),
  }));

  /** The places of a face and of the outermost one that looks the other way, added; undefined where the part has no such face. */
  function facesAlong(touched: string, axis: 0 | 1 | 2, { located }: PartLocation): Uncertain | undefined {
    const face = setup.part.elements.find(({ id }) => id === touched);
    const side = face?.kind === "face" && face.outward[0] === "+" ? -1 : 1;
    const [facing] = setup.part.elements
      .filter((each) => each.kind === "face" && face?.kind === "face" && each.outward === opposite(face.outward))
      .map(({ id }) => ({ id, outwards: side * (located.places.get(id)?.[axis]?.nominal ?? Number.NaN) }))
      .filter(({ outwards }) => Number.isFinite(outwards))
      .sort((a, b) => b.outwards - a.outwards);
    const places = [touched, facing?.id].map((id) => (id === undefined ? undefined : located.places.get(id)?.[axis]));
    return places.reduce<Uncertain | undefined>((sum, place) => {
      if (sum === undefined || place === undefined) return undefined;
      return [...place.gains].reduce((total, [id, gain]) => {
        const size = sizes.sizes[sizes.indexOf(id)];
        return size === undefined ? total : total.plus((size.measured ?? size.batch).times(gain));
      }, sum.plus(place.nominal));
    }, certain(0));
  }
}
