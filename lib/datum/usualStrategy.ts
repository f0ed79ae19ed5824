import { listText } from "../base/listText.ts";
import { type Axis, axisOf, indexOfAxis } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { isLevel } from "../contacts/surface.ts";
import { axesOf, type Element } from "../part/part.ts";
import { type PartLocation, strategyContacts } from "./locatePart.ts";
import type { Strategy } from "./strategy.ts";

/** By what a strategy finds the part along one axis. */
interface Means {
  readonly kind: "face" | "middle" | "round" | "faces";
  /** Names of the elements. */
  readonly of: readonly string[];
}

/**
 * Which of the usual strategies this one is, in the words of the trade: `corner of "left" and "front", height from "top"`. A strategy that is none of
 * them is told by its elements.
 */
export function usualStrategy(
  strategy: Strategy,
  location: Pick<PartLocation, "contacts" | "onFixture" | "planned" | "touchable" | "isOnFixture">,
): string {
  const { elements } = location.touchable.setup.part;
  if (strategy.fixtureFrame) return `zero stays in "${strategy.fixtureFrame.id}"`;
  const own = strategyContacts(location).filter(({ touch }) => strategy.touches.includes(touch));
  const [x, y, z] = (["X", "Y", "Z"] as const).map((axis) => meansAlong(axis, strategy, own, elements));
  const height = z === undefined ? [] : [`height from ${named(z.of)}`];
  const skew = strategy.rotation === "ignored" ? [] : [skewInWords(strategy, own, elements)];
  const ofFixture = [...new Set(own.flatMap(({ element }) => (location.isOnFixture(element) ? [element] : [])))];
  const fixture = ofFixture.length === 0 ? "" : `; ${named(ofFixture)} ${ofFixture.length > 1 ? "are" : "is"} of the fixture`;
  const words = [planInWords(x, y, strategy, elements), ...height, ...skew].filter((each) => each !== "").join(", ");
  return words === "" ? "nothing yet" : `${words}${fixture}`;
}

function meansAlong(axis: Axis, { hold, orient }: Strategy, contacts: readonly Contact[], elements: readonly Element[]): Means | undefined {
  const known = new Map(elements.map((element) => [element.id, element]));
  const acting = (how: (contact: Contact, axis: Axis) => boolean) =>
    elements.filter((element) => contacts.some((contact) => contact.element === element.id && how(contact, axis)));
  // An inclined face tells a height only where nothing else does.
  const direct = acting(acts);
  const touched =
    direct.length > 0 || axis !== "Z" ? direct : acting(({ surface }) => surface.kind === "plane" && surface.outward[2] !== 0);
  const locating = touched.filter(({ id }) => !orient.includes(id));
  const middles = elements.filter((element) => hold.includes(element.id) && axesOf(element, known).includes(axis));
  if (middles.length > 0) return { kind: "middle", of: middles.map(({ id }) => id) };
  const rounds = locating.filter(({ kind }) => kind === "bore" || kind === "boss");
  if (rounds.length > 0) return { kind: "round", of: rounds.map(({ id }) => id) };
  if (locating.length === 0) return undefined;
  return { kind: locating.length > 1 ? "faces" : "face", of: locating.map(({ id }) => id) };
}

/** Whether a contact pushes along the axis: round walls count by what their touches reach, however slanted; inclined faces by what the other axes leave to them. */
function acts({ travel, surface }: Contact, axis: Axis): boolean {
  if (surface.kind === "plane" && surface.outward[2] !== 0 && !isLevel(surface)) {
    const [x, y] = surface.outward;
    return axis === (Math.abs(x) >= Math.abs(y) ? "X" : "Y");
  }
  return Math.abs(travel[indexOfAxis(axis)] as number) > slanted;
}

/** Cosine below which a touch of a round wall is taken to say nothing along an axis. */
const slanted = 0.1;

function planInWords(x: Means | undefined, y: Means | undefined, strategy: Strategy, elements: readonly Element[]): string {
  if (x === undefined && y === undefined) return "";
  if (x === undefined || y === undefined) return `${alone((x ?? y) as Means)}, ${x === undefined ? "Y" : "X"} only`;
  const both = [...new Set([...x.of, ...y.of])];
  if (x.kind === "round" && y.kind === "round") {
    const [first, ...others] = both;
    if (others.length > 0) return `${both.length === 2 ? "two" : both.length} round walls, ${named(both)}`;
    return `centre of the ${elements.find(({ id }) => id === first)?.kind ?? "round wall"} "${first}"`;
  }
  if (x.kind === "face" && y.kind === "face") return `corner of ${named(both)}${halfWidths(strategy, elements)}`;
  if (x.kind === "middle" && y.kind === "middle") return `middle both ways, ${named(both)}`;
  return `X from the ${alone(x)}, Y from the ${alone(y)}`;
}

function alone({ kind, of }: Means): string {
  const words = { face: "face", middle: "middle", round: of.length > 1 ? "round walls" : "round wall", faces: "faces" } as const;
  return `${words[kind]} ${named(of)}`;
}

/** A zero at a middle whose faces are not held: half of a width is added to a touched face. */
function halfWidths({ zero, hold }: Strategy, elements: readonly Element[]): string {
  const middles = zero.flatMap((place) => {
    const element = place.kind === "element" ? elements.find(({ id }) => id === place.element) : undefined;
    return element?.kind === "middle" && !hold.includes(element.id) ? [element.id] : [];
  });
  return middles.length === 0 ? "" : ` and half a width to ${named(middles)}`;
}

function skewInWords({ rotation, orient }: Strategy, contacts: readonly Contact[], elements: readonly Element[]): string {
  const faces = elements.filter(
    (element) => element.kind === "angled face" || (element.kind === "face" && axisOf(element.outward) !== "Z"),
  );
  const twice = faces.filter(({ id }) => contacts.filter(({ element }) => element === id).length > 1).map(({ id }) => id);
  const by = orient.length > 0 ? orient : twice;
  return `skew ${rotation === "applied" ? "measured and applied" : "measured"}${by.length === 0 ? "" : ` by ${named(by)}`}`;
}

function named(ids: readonly string[]): string {
  return listText(ids.map((id) => `"${id}"`));
}
