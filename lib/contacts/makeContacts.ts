import { circleCentre } from "../base/circleCentre.ts";
import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { type AxisDirection, addScaled, axes, axisOf, dot, indexOfAxis, opposite, unitVector, type Vector } from "../base/vector.ts";
import type { Machine, Spacer, Tool } from "../equipment/equipment.ts";
import { leverCosine } from "../equipment/leverCosine.ts";
import { lengthOf, radiusOf, thicknessOf } from "../equipment/toolSources.ts";
import type { LocatedPart } from "../part/locateElements.ts";
import { type AngledFace, axesOf, type Element, normalOf, type Part } from "../part/part.ts";
import type { Touch } from "../readings/touch.ts";
import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { certain, sum, type Uncertain } from "../uncertainty/uncertain.ts";
import type { Contact } from "./contact.ts";
import { ContactSources } from "./contactSources.ts";
import { surfaceOf } from "./surfaceOf.ts";

export interface ContactMaking {
  readonly contacts: readonly Contact[];
  /** Touches that make no contact, each with its reason. */
  readonly problems: readonly Problem[];
}

/** What a person states about touching. */
export interface Touching {
  readonly part: Part;
  readonly tools: readonly Tool[];
  readonly spacers: readonly Spacer[];
  readonly machine: Machine;
  readonly touches: readonly Touch[];
  /** What of the fixture can be touched beside the part, by name. */
  readonly fixture?: { readonly locators: readonly { readonly id: string }[] };
  /** Touches whose repeats tell the scatter of tools, where those are others than the touches themselves. */
  readonly repeated?: readonly Touch[];
  /** Rows that are there and could not be read, as `tools.probe`; `machine` or `correlations` when one of their entries could not. */
  readonly unread: ReadonlySet<string>;
}

interface Bench extends Touching {
  readonly located: LocatedPart;
}

/**
 * Turns touches into contacts. The face always lies on the side towards which
 * the tool was travelling: F = R + a · r; here the travel is a unit vector and
 * the radius a reach along the surface's normal, so that the rule also holds for
 * skewed faces and round walls.
 *
 * A touch that cannot have happened (travelling away from the metal, a tool
 * without radius, an element that is not there) is told and left out.
 */
export function makeContacts(bench: Bench, book: SourceBook): ContactMaking {
  if (cannotBeHonest(bench)) return { contacts: [], problems: [] };
  const elements = new Map(bench.part.elements.map((element) => [element.id, element]));
  const tools = new Map(bench.tools.map((tool) => [tool.id, tool]));
  const spacers = new Map(bench.spacers.map((spacer) => [spacer.id, spacer]));
  const travels = new Map(
    bench.touches.flatMap((touch) => {
      const element = elements.get(touch.element);
      const travel = element === undefined ? undefined : travelOf(touch, element, bench.touches);
      return travel === undefined ? [] : [[touch.id, travel] as const];
    }),
  );
  const sources = new ContactSources(bench.machine, bench.repeated ?? bench.touches, travels, book);
  const problems: Problem[] = [];
  const contacts: Contact[] = [];
  for (const touch of bench.touches) {
    const at = `touches.${touch.id}`;
    const element = elements.get(touch.element);
    const tool = tools.get(touch.tool);
    const spacer = touch.spacer === undefined ? undefined : spacers.get(touch.spacer);
    if (element === undefined)
      problems.push(missing(`${at}.element`, "element of the part", "part.elements", touch.element, elements, bench));
    else if (tool === undefined) problems.push(missing(`${at}.tool`, "tool", "tools", touch.tool, tools, bench));
    else if (touch.spacer !== undefined && spacer === undefined)
      problems.push(missing(`${at}.spacer`, "spacer", "spacers", touch.spacer, spacers, bench));
    else {
      const awry = wrongSide(touch, element, bench.touches);
      if (awry !== undefined) {
        problems.push({ ...awry, at: `${at}.travelling` });
        continue;
      }
      const open = openAcross(touch, element, bench.machine, at);
      if (open !== undefined) {
        problems.push(open);
        continue;
      }
      const middle = middleOfWall(element, bench.touches);
      const made = contactsOf(touch, element, tool, spacer, travels.get(touch.id), middle, bench.located, sources, at);
      if ("what" in made) problems.push(made);
      else contacts.push(...made);
    }
  }
  return { contacts, problems };
}

/** Every touch carries the machine's doubts, and how doubts go together is in whatever they meet in: with one of these unread, no number would be honest. */
export function cannotBeHonest({ unread }: Pick<Touching, "unread">): boolean {
  return unread.has("machine") || unread.has("correlations");
}

function missing(
  at: string,
  kind: string,
  table: string,
  got: string,
  known: ReadonlyMap<string, unknown>,
  { unread, fixture }: Touching,
): Problem {
  const locators = table === "part.elements" ? (fixture?.locators ?? []).map(({ id }) => id) : [];
  if (table === "part.elements" && unread.has(`fixture.locators.${got}`))
    return { at, what: "this locator cannot be touched", got, remedy: "see what is said there" };
  return unread.has(`${table}.${got}`)
    ? { at, what: `this ${kind} cannot be read`, got, remedy: "see what is said there" }
    : {
        at,
        what: `there is no such ${kind}${locators.length > 0 ? ", nor such a locator" : ""}`,
        got,
        remedy: "name one that the document lists, or add it",
        ...suggestName(got, [...known.keys(), ...locators]),
      };
}

function contactsOf(
  touch: Touch,
  element: Element,
  tool: Tool,
  spacer: Spacer | undefined,
  travel: Vector | undefined,
  middle: Vector | undefined,
  located: LocatedPart,
  sources: ContactSources,
  at: string,
): readonly Contact[] | Problem {
  const wrong = cannotTouch(touch, element, tool, at);
  if (wrong !== undefined) return wrong;
  const surface = surfaceOf(element, located);
  if ("what" in surface) return { ...surface, at };
  const mean = meanPosition(touch);
  if (surface.kind !== "plane" || element.kind === "angled face") {
    const counting = surface.kind === "plane" ? axes.filter((_, axis) => surface.outward[axis] !== 0) : (["X", "Y"] as const);
    const open = counting.find((axis) => mean[indexOfAxis(axis)] === undefined);
    if (open !== undefined) {
      return {
        at: `${at}.${open.toLowerCase()}`,
        what: `the ${open} where ${surface.kind === "plane" ? "an angled face" : "a round wall"} was touched must be known, since it ${surface.kind === "plane" ? "runs" : "bends"} away`,
        expected: `the ${open} of the tool when it touched`,
        got: "",
        remedy: `note the ${open} of the touch`,
      };
    }
  }
  const noted = mean.map((value) => value !== undefined) as unknown as readonly [boolean, boolean, boolean];
  const centre = mean.map((value) => value ?? 0) as unknown as Vector;

  const build = (kind: typeof surface, along: Vector): Contact | Problem => {
    const reach =
      element.kind === "angled face" && element.inclination !== 0
        ? reachOfBall(touch, tool, spacer, normalOf(element), sources, at)
        : reachOf(touch, tool, spacer, along, sources, at);
    if ("what" in reach) return reach;
    // A tool of like size is taken to cut: what counts is the way between the metal here and there.
    const touched = metalAt(centre, element, along, tool, reach.value);
    const into = element.kind === "angled face" ? inwards(element) : intoWall(touch, element, middle);
    const seen = into === undefined || (element.kind !== "angled face" && isSquare(into, along)) ? along : seenAlong(along, into);
    const errors = sources.errorsOf(touch, tool, element, along, touched, middle, seen);
    if ("what" in errors) return errors;
    return {
      touch: touch.id,
      element: element.id,
      tool: tool.id,
      surface: kind,
      centre,
      metal: { place: touched, known: [noted[0], noted[1], noted[2] && (along[2] !== 0 || tool.length !== undefined)] },
      noted,
      travel: along,
      advance: errors.advance,
      reach: reach.plus(errors.reach),
      ownUncertainty: errors.ownUncertainty,
      scaleError: errors.scaleError,
      next: { advance: errors.nextAdvance, reach: reach.plus(errors.reach) },
    };
  };

  if (touch.travelling === "sweep") {
    if (surface.kind === "plane") throw new Error("contactsOf: a sweep of a flat face was let through");
    const { axis } = surface;
    const both = (["+X", "+Y"] as const).map((along) => build({ kind: "axis", axis, along: unitVector(along) }, unitVector(along)));
    const offAxis = sweptShift(touch, element);
    const cosine = leverCosine(tool, sources.book);
    const middle = addScaled(centre, cosine.value, offAxis);
    return (
      both.find((contact): contact is Problem => "what" in contact) ??
      (both as Contact[]).map((contact) => ({
        ...contact,
        centre: middle,
        advance: contact.advance.plus(cosine.minus(cosine.value).times(dot(offAxis, contact.travel))),
      }))
    );
  }
  if (travel === undefined) {
    return {
      at: `${at}.readings`,
      what: "the direction of a radial touch follows from at least two touches of the same wall at different places",
      remedy: "touch the wall at more places, or name the direction of travel",
    };
  }
  const contact = build(surface, travel);
  return "what" in contact ? contact : [contact];
}

/** A machine that is out of square reads X off by its Y: a touch along X must then say where along Y it was. */
function openAcross(touch: Touch, element: Element, machine: Machine, at: string): Problem | undefined {
  if (machine.squareness[2] === undefined || !isFlat(element) || !axesOf(element, noElements).includes("X")) return undefined;
  if (meanPosition(touch)[1] !== undefined) return undefined;
  return {
    at: `${at}.y`,
    what: "the squareness of the machine is stated, so what X reads depends on Y, and the Y of this touch is not known",
    expected: "the Y of the tool when it touched",
    got: "",
    remedy: "note the Y of the touch",
  };
}

function isFlat({ kind }: Element): boolean {
  return kind === "face" || kind === "angled face";
}

const noElements: ReadonlyMap<string, Element> = new Map();

function cannotTouch(touch: Touch, element: Element, tool: Tool, at: string): Problem | undefined {
  const { travelling } = touch;
  if (element.kind === "middle" || element.made === "here") {
    const reason = element.kind === "middle" ? "a middle is no surface" : `"${element.id}" is only cut in this setup`;
    return { at: `${at}.element`, what: `${reason}, so nothing can touch it`, got: element.id, remedy: "name the face that was touched" };
  }
  if (travelling === "+Z") {
    return {
      at: `${at}.travelling`,
      what: "a touch upwards is not understood: lengths are measured down from the gauge line to the tip",
      expected: "a touch travelling -Z for a face that looks up",
      got: travelling,
      remedy: "touch the part from above, or touch a face that is tied to this one by a dimension",
    };
  }
  if (element.kind === "face") {
    const towards = opposite(element.outward);
    if (travelling === towards) return undefined;
    return {
      at: `${at}.travelling`,
      what: `a tool travelling ${travelling} cannot touch "${element.id}", whose metal lies ${axisName(towards)} of it`,
      expected: `travelling ${towards}`,
      got: travelling,
      remedy: "correct the direction of travel, or name the face that was touched",
    };
  }
  if (element.kind === "angled face") return cannotTouchAngled(touch, element, at) ?? needsBall(element, tool, at);
  if (travelling === "sweep") {
    if (tool.kind === "swept indicator") return undefined;
    return { at: `${at}.tool`, what: "only a swept indicator sweeps", expected: "a tool of kind swept indicator", got: tool.kind };
  }
  if (travelling === "-Z") {
    return {
      at: `${at}.travelling`,
      what: `"${element.id}" is a round wall along Z`,
      expected: "+X, -X, +Y, -Y, radial or sweep",
      got: travelling,
    };
  }
  return undefined;
}

/** Unit vector into the metal. */
function inwards(face: AngledFace): Vector {
  const [x, y, z] = normalOf(face);
  return [-x, -y, -z];
}

/**
 * Machine coordinates of the metal that a tool met. From above it lies a length below the gauge line; from the side at the height of a ball's middle, a length
 * less a radius below, and of any other tip at its end: where along its flank that meets the face nobody sees.
 */
function metalAt(centre: Vector, element: Element, travel: Vector, { kind, length = mm(0), radius = mm(0) }: Tool, reach: number): Vector {
  const isInclined = element.kind === "angled face" && element.inclination !== 0;
  if (travel[2] !== 0 && !isInclined) return addScaled(centre, reach, travel);
  const tip = addScaled(centre, (kind === "touch probe" ? radius : 0) - length, [0, 0, 1]);
  return addScaled(tip, isInclined ? radius : reach, element.kind === "angled face" ? inwards(element) : travel);
}

/** The side and the end of other tips meet an inclined face at an edge that nothing tells of. */
function needsBall({ id, inclination }: AngledFace, tool: Tool, at: string): Problem | undefined {
  if (inclination === 0 || tool.kind === "touch probe") return undefined;
  return {
    at: `${at}.tool`,
    what: `"${id}" is inclined, so where it is met depends on the shape of the tip, which is known of a ball alone`,
    expected: "a tool of kind touch probe",
    got: tool.kind,
    remedy: "touch it with a ball, or touch the faces beside it",
  };
}

/** A place that is off by a vector e stands off a surface of normal n by n · e, as one that is off by n · e / n · t along the travel t. */
function seenAlong(travel: Vector, into: Vector): Vector {
  const steep = dot(into, travel);
  return into.map((component) => component / steep) as unknown as Vector;
}

/** Sine of the angle between travel and face below which the tip slides along the face (common practice, no source: 30°). */
const leastSteep = 0.5 - 1e-9;

/** Every axis meets a face that looks between them, towards its metal; nothing is touched upwards. */
function cannotTouchAngled({ travelling }: Touch, face: AngledFace, at: string): Problem | undefined {
  const into = inwards(face);
  const possible = (["+X", "-X", "+Y", "-Y", "-Z"] as const).filter((each) => dot(unitVector(each), into) >= leastSteep);
  if (possible.some((each) => each === travelling)) return undefined;
  const steep = travelling === "radial" || travelling === "sweep" ? 0 : dot(unitVector(travelling), into);
  return {
    at: `${at}.travelling`,
    what:
      steep > 0
        ? `a tool travelling ${travelling} meets "${face.id}" at less than 30 degrees, and slides along it`
        : `a tool travelling ${travelling} cannot touch "${face.id}", ${face.inclination === 0 ? "which is an upright face whose metal lies on another side" : "whose metal lies on another side"}`,
    expected:
      possible.length === 0
        ? "a face that some axis meets at 30 degrees or more"
        : possible.map((each) => `travelling ${each}`).join(" or "),
    got: travelling,
    remedy: "correct the direction of travel, or name the face that was touched",
  };
}

function axisName(direction: AxisDirection): string {
  return direction[0] === "+" ? `on the + ${axisOf(direction)} side` : `on the - ${axisOf(direction)} side`;
}

function meanPosition({ positions }: Touch): readonly [number | undefined, number | undefined, number | undefined] {
  const mean = (axis: 0 | 1 | 2): number | undefined => {
    const values = positions.map((position) => position[axis]);
    if (values.some((value) => value === undefined)) return undefined;
    const first = values[0] as number;
    // Differences from the first reading keep the digits of the scatter.
    return first + values.reduce<number>((sum, value) => sum + ((value as number) - first), 0) / values.length;
  };
  return [mean(0), mean(1), mean(2)];
}

/**
 * How far the axis that a sweep found is off the spindle: half the total reading. In a
 * bore the indicator reads more where the wall is nearer, so the axis lies away
 * from the larger reading; about a boss it reads more where the boss comes
 * nearer, so the axis lies towards it. (Half the total: common practice, and plain
 * geometry of two circles.) As the indicator shows it: the cosine of its lever is
 * still to be counted.
 */
function sweptShift({ sweepTotal }: Touch, { kind }: Element): Vector {
  const side = kind === "bore" ? -1 : 1;
  return [(side * sweepTotal[0]) / 2, (side * sweepTotal[1]) / 2, 0];
}

/** The direction of a touch; undefined for a sweep, which has none, and for a radial touch whose middle is not known. */
function travelOf(touch: Touch, element: Element, touches: readonly Touch[]): Vector | undefined {
  if (touch.travelling === "sweep") return undefined;
  return touch.travelling === "radial" ? radialTravel(touch, element, touches) : unitVector(touch.travelling);
}

/** Out from, or in to, the middle of all touches of the wall: the circle through them where they fix one, or their mean. */
function radialTravel(touch: Touch, element: Element, touches: readonly Touch[]): Vector | undefined {
  const places = touches.filter((other) => other.element === element.id && other.travelling === "radial" && isPlaced(other)).map(placeOf);
  const middle = circleCentre(places) ?? places.reduce<Vector>((sum, place) => addScaled(sum, 1 / places.length, place), [0, 0, 0]);
  const [x, y] = addScaled(placeOf(touch), -1, middle);
  const length = Math.sqrt(x * x + y * y);
  if (!(length > 0)) return undefined;
  const side = element.kind === "bore" ? 1 : -1;
  return [(side * x) / length, (side * y) / length, 0];
}

/** Unit vector into the metal of a round wall where a touch along an axis met it; undefined for other touches, and where nothing tells the axis of the wall. */
function intoWall(touch: Touch, element: Element, middle: Vector | undefined): Vector | undefined {
  if (middle === undefined || touch.travelling === "radial" || touch.travelling === "sweep" || !isPlaced(touch)) return undefined;
  const [x, y] = addScaled(placeOf(touch), -1, middle);
  const length = Math.sqrt(x * x + y * y);
  const side = element.kind === "bore" ? 1 : -1;
  return [(side * x) / length, (side * y) / length, 0];
}

/** Whether a wall is met squarely: aimed at its axis, as the setter does, so that of what is off across next to nothing counts. */
function isSquare(into: Vector, travel: Vector): boolean {
  return Math.abs(into[0] * travel[1] - into[1] * travel[0]) <= squarely;
}

/** Sine of the angle off the axis of a round wall up to which a touch is aimed at it: two hundredths of what is off across count there. */
const squarely = 0.02;

/** The touches of a round wall, as a circle, tell on which side of its axis each was taken: a tool meets a bore outwards, a boss inwards. */
function wrongSide(touch: Touch, element: Element, touches: readonly Touch[]): Omit<Problem, "at"> | undefined {
  const { travelling } = touch;
  if (travelling === "radial" || travelling === "sweep") return undefined;
  const into = intoWall(touch, element, middleOfWall(element, touches));
  const steep = into === undefined ? 1 : dot(into, unitVector(travelling));
  if (steep >= leastSteep) return undefined;
  if (steep > -clearlyBackwards)
    return {
      what: `a tool travelling ${travelling} there meets the wall of "${element.id}" at less than 30 degrees, and slides along it`,
      expected: "a touch towards the axis of the wall, or away from it",
      got: travelling,
      remedy: "touch it radially, or correct the place of the touch",
    };
  return {
    what: `a tool travelling ${travelling} there moves away from the wall of "${element.id}"`,
    expected: `travelling ${opposite(travelling)}`,
    got: travelling,
    remedy: "correct the direction of travel, or the place of the touch",
  };
}

/** The centre of the circle through all touches of a round wall; undefined where they fix none. */
function middleOfWall({ id, kind }: Element, touches: readonly Touch[]): Vector | undefined {
  if (kind !== "bore" && kind !== "boss") return undefined;
  return circleCentre(touches.filter((other) => other.element === id && other.travelling !== "sweep" && isPlaced(other)).map(placeOf));
}

/** Cosine from which a direction is taken for a mistake rather than for a touch along the wall. */
const clearlyBackwards = 0.3;

/** Whether X and Y of a touch are known: without them it tells nothing of where a round wall stands. */
function isPlaced(touch: Touch): boolean {
  const [x, y] = meanPosition(touch);
  return x !== undefined && y !== undefined;
}

/** Mean place in the plane; 0 where a coordinate was not noted. */
function placeOf(touch: Touch): Vector {
  const [x, y] = meanPosition(touch);
  return [x ?? 0, y ?? 0, 0];
}

/**
 * From where the screen shows a tool with a ball (X and Y of its axis, Z of its gauge line) to an inclined face, along the face's normal n. The ball's
 * centre stands L - r below the gauge line and r off the face, so that the reach is r + n_z (L - r) = (1 - n_z) r + n_z L: the length from above, the radius from
 * the side (plane geometry). A block lies flat against the face.
 */
function reachOfBall(
  touch: Touch,
  tool: Tool,
  spacer: Spacer | undefined,
  normal: Vector,
  sources: ContactSources,
  at: string,
): Uncertain | Problem {
  const lacking = tool.radius === undefined ? "radius" : tool.length === undefined ? "length" : undefined;
  if (tool.radius === undefined || tool.length === undefined)
    return {
      at: `tools.${tool.id}.${lacking}`,
      what: `the touch "${touch.id}" of an inclined face needs the ${lacking} of "${tool.id}": its ball stands a length less a radius below the gauge line`,
      remedy: `state its effective radius and its length from the gauge line, or correct the tool of ${at}`,
    };
  const radius = radiusOf(tool, tool.radius, sources.book).times(1 - normal[2]);
  const length = lengthOf(tool, tool.length, sources.book).times(normal[2]);
  return sum([radius, length, spacer === undefined ? certain(0) : thicknessOf(spacer, sources.book)]);
}

/** From the tool's centre (or gauge line) to the metal: radius or length, and whatever lay between. */
function reachOf(
  touch: Touch,
  tool: Tool,
  spacer: Spacer | undefined,
  travel: Vector,
  sources: ContactSources,
  at: string,
): Uncertain | Problem {
  const between = spacer === undefined ? certain(0) : thicknessOf(spacer, sources.book);
  if (touch.travelling === "sweep") return certain(0);
  if (travel[2] !== 0) {
    if (tool.length !== undefined) return lengthOf(tool, tool.length, sources.book).plus(between);
    return {
      at: `tools.${tool.id}.length`,
      what: `the touch "${touch.id}" along Z needs the length of "${tool.id}"`,
      remedy: `state its length from the gauge line, or correct the tool of ${at}`,
    };
  }
  if (tool.radius !== undefined) return radiusOf(tool, tool.radius, sources.book).plus(between);
  return {
    at: `tools.${tool.id}.radius`,
    what: `the touch "${touch.id}" needs the radius of "${tool.id}"`,
    remedy: `state its effective radius or its diameter, or correct the tool of ${at}`,
  };
}
