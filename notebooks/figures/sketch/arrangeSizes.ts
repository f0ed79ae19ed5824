import type { SetupEvaluation } from "../../../lib/decision/setupEvaluation.ts";
import { axesOf, normalOf } from "../../../lib/part/part.ts";
import { datumReach } from "./drawDatums.ts";
import { type DrawnSize, sizeRoom } from "./drawSizes.ts";
import { nameReach, travelLength } from "./drawTouches.ts";
import type { FaceSlots } from "./faceSlots.ts";
import type { Plan } from "./planOf.ts";
import type { Margins } from "./projection.ts";
import type { SketchModel } from "./sketchModel.ts";

/** Sides on which dimension lines run: free ones first, outside of touches and datums otherwise. */
export function arrangeSizes(
  plan: Plan,
  { sizes, touches }: SketchModel,
  slots: readonly FaceSlots[],
  { location, setup }: SetupEvaluation,
): DrawnSize[] {
  const used = { left: 0, right: 0, top: 0, bottom: 0 };
  const known = new Map(setup.part.elements.map((element) => [element.id, element]));
  return sizes.flatMap((size): DrawnSize[] => {
    const { dimension } = size;
    const [from, to] = dimension ? [known.get(dimension.from), known.get(dimension.to)] : [undefined, undefined];
    if (dimension === undefined || dimension.axis === "Z" || !from || !to || !axesOf(from, known).includes(dimension.axis)) return [];
    const axis = dimension.axis === "X" ? 0 : 1;
    const [a, b] = [from, to].map(({ id }) => location.located.places.get(id)?.[axis]?.nominal);
    if (a === undefined || b === undefined) return [];
    const sides = axis === 0 ? (["top", "bottom"] as const) : (["left", "right"] as const);
    const side =
      outwardReach(slots, plan, touches, sides[0]) + used[sides[0]] <= outwardReach(slots, plan, touches, sides[1]) + used[sides[1]]
        ? sides[0]
        : sides[1];
    used[side] += sizeRoom;
    return [{ size, axis, from: a, to: b, side, offset: outwardReach(slots, plan, touches, side) + used[side] - 6 }];
  });
}

/** How far touches and datum letters stand off a side, pixels. */
function outwardReach(slots: readonly FaceSlots[], plan: Plan, touches: SketchModel["touches"], side: keyof Margins): number {
  const edge = side === "left" ? plan.x[0] : side === "right" ? plan.x[1] : side === "bottom" ? plan.y[0] : plan.y[1];
  const slot = edge.face && slots.find(({ line }) => line.face.id === edge.face?.id);
  const angled = angledReach(plan, touches, side);
  if (slot === undefined) return Math.max(4, angled);
  const names = side === "left" || side === "right" ? slot.touches.map(({ touch }) => nameReach(touch.touch.id)) : [];
  return Math.max(4, angled, slot.touches.length > 0 ? travelLength + 16 : 0, ...names, slot.datum === undefined ? 0 : datumReach + 4);
}

/** The same of what stands off angled faces that look to that side, where they reach it. */
function angledReach({ angled }: Plan, touches: SketchModel["touches"], side: keyof Margins): number {
  const reaches = angled.flatMap(({ element }) => {
    const [x, y] = normalOf(element);
    const towards = side === "left" ? -x : side === "right" ? x : side === "bottom" ? -y : y;
    if (towards < looksThere) return [];
    const isTouched = touches.some(({ element: { id }, contact }) => id === element.id && contact.travel[2] === 0);
    return [isTouched ? travelLength + 16 : 0, element.datum === "" ? 0 : datumReach + 4];
  });
  return Math.max(0, ...reaches);
}

/** Cosine from which a face looks to a side. */
const looksThere = 0.5;

/** Room about the outline for touches, datum letters and dimension lines. */
export function marginsOf(
  plan: Plan,
  { touches }: Pick<SketchModel, "touches">,
  slots: readonly FaceSlots[],
  sizes: readonly DrawnSize[],
  turned: number,
): Margins {
  const room = (side: keyof Margins) => {
    const lines = sizes.filter((size) => size.side === side);
    // A turned part swings what stands off it.
    const swing = 1 + Math.abs(Math.sin(turned));
    const outermost = lines.length > 0 ? Math.max(...lines.map(({ offset }) => offset)) + (side === "top" || side === "left" ? 20 : 10) : 0;
    return Math.max(leastMargin, outermost, outwardReach(slots, plan, touches, side) + 4) * swing;
  };
  return { left: Math.max(30, room("left")), right: Math.max(24, room("right")), top: room("top"), bottom: Math.max(30, room("bottom")) };
}

const leastMargin = 14;
