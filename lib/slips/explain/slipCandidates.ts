import { millimetresPerInch } from "../../base/quantity.ts";
import type { Setup } from "../../datum/setup.ts";
import type { Tool } from "../../equipment/equipment.ts";
import type { SlipKind } from "../../readings/slipKinds.ts";
import { lengthText } from "../internals/words.ts";
import { exchange, retyped } from "../rules/typingSlip.ts";
import type { ReachShares, TakenReading } from "./takenReadings.ts";

/**
 * One way in which somebody may have slipped. Whatever it is, it moves readings along their travel: where that is square to the face, by F = R + a · r a radius
 * that is too large by δ is a reading that is too far along by δ.
 */
export interface SlipCandidate {
  readonly kind: SlipKind;
  readonly at: string;
  /** What would have happened, as a clause: `the radius of "finder" is its diameter`. */
  readonly words: string;
  /** What has to be added to readings to undo it, by index of the reading, mm along the travel. */
  readonly shifts: ReadonlyMap<number, number>;
  /** What is then known of a tool: its radius or its length is larger by this, mm. */
  readonly reach?: { readonly tool: string; readonly entry: "radius" | "length"; readonly change: number };
  /** Undefined for a slip of known size; otherwise the standard deviation of what it may move, mm, with `shifts` as its direction. */
  readonly spread?: number;
}

/** An error of unknown cause is looked for within about this, mm: the span of the parts that are set up here (common practice, no source). */
export const anything = 10;
/** A chip or a burr lifts by about this, mm (common practice, no source). */
const chip = 0.1;

/** Radii that differ by less than this share are the same radius, calibrated (common practice, no source). */
const sameRadius = 0.1;
/** Shifts that differ by less than this, mm, no display tells apart (common practice, no source). */
const unread = 0.001;
/** Shifts smaller than this, mm, change nothing. */
const nothing = 1e-9;

/** Everything that may have gone wrong at the readings of a setup. */
export function slipCandidates(setup: Setup, taken: readonly TakenReading[], zero: readonly (number | undefined)[]): SlipCandidate[] {
  return [
    ...setup.tools.flatMap((tool) => ofTool(tool, taken, setup)),
    ...taken.flatMap((reading, i) => [
      ...ofReach(reading, i, setup),
      ...ofBlock(reading, i, setup),
      ...ofText(reading, i, setup, zero),
      ...ofUnknownSize(reading, i),
    ]),
    ...ofAllChecks(taken),
  ].filter(
    ({ shifts }) =>
      [...shifts.values()].every((shift) => Number.isFinite(shift)) && [...shifts.values()].some((shift) => Math.abs(shift) > nothing),
  );
}

/** What is wrong with a tool is wrong wherever it touched. */
function ofTool({ id, radius, catalogueRadius, length }: Tool, taken: readonly TakenReading[], { unit }: Setup): SlipCandidate[] {
  const changed = (kind: SlipKind, entry: "radius" | "length", from: number, to: number, words: string): SlipCandidate[] => {
    const users = taken.flatMap(({ touch, shares }, i) =>
      touch.tool === id && shares[entry] !== 0 ? [[i, (to - from) * shares[entry]] as const] : [],
    );
    if (users.length === 0) return [];
    return [
      {
        kind,
        at: `tools.${id}.${entry}`,
        words,
        shifts: new Map(users),
        reach: { tool: id, entry, change: to - from },
      },
    ];
  };
  const ofRadius =
    radius === undefined
      ? []
      : [
          ...changed("radius or diameter", "radius", radius, radius / 2, `the radius of "${id}" is its diameter`),
          ...changed("radius or diameter", "radius", radius, 2 * radius, `the radius of "${id}" is half of what it should be`),
          ...(catalogueRadius === undefined || [0.5, 1, 2].some((times) => Math.abs(catalogueRadius - times * radius) < sameRadius * radius)
            ? []
            : changed(
                "radius or diameter",
                "radius",
                radius,
                catalogueRadius,
                `the radius of "${id}" is ${lengthText(catalogueRadius, unit)}, as in the catalogue`,
              )),
          ...inOtherUnit(radius).flatMap(({ value, words }) =>
            changed("inch or millimetre", "radius", radius, value, `the radius of "${id}" was ${words}`),
          ),
        ];
  const ofLength =
    length === undefined
      ? []
      : inOtherUnit(length).flatMap(({ value, words }) =>
          changed("inch or millimetre", "length", length, value, `the length of "${id}" was ${words}`),
        );
  return [...ofRadius, ...ofLength];
}

function inOtherUnit(value: number): readonly { readonly value: number; readonly words: string }[] {
  return [
    { value: value * millimetresPerInch, words: "stated in inches and taken for millimetres" },
    { value: value / millimetresPerInch, words: "stated in millimetres and taken for inches" },
  ];
}

function ofReach({ at, touch, shares, sharesByHand }: TakenReading, i: number, { tools }: Setup): SlipCandidate[] {
  const isDown = shares.radius === 0;
  const own = tools.find(({ id }) => id === touch.tool);
  const [asItLies, byHand] = [along(own, shares), along(own, sharesByHand)];
  if (asItLies === undefined || byHand === undefined) return [];
  const one = (kind: SlipKind, words: string, shift: number): SlipCandidate => ({ kind, at, words, shifts: new Map([[i, shift]]) });
  const name = nameOf(at, touch.id);
  const others = tools.flatMap((tool) => {
    const reach = along(tool, shares);
    return tool.id === touch.tool || reach === undefined
      ? []
      : [one("other tool", `${name} was taken with "${tool.id}"`, reach - asItLies)];
  });
  // Nobody corrects by both on paper before typing.
  if (shares.radius !== 0 && shares.length !== 0) return others;
  if (isDown) return [...others, one("radius counted in already", `${name} already carries the length of "${touch.tool}"`, -byHand)];
  const [behind, twice] = [`at ${name} the tool was on the other side of the face`, "twice the radius was counted in"];
  return [
    ...others,
    one("radius counted in already", `${name} already carries the radius of "${touch.tool}"`, -byHand),
    one("radius counted in already", `${name} carries the radius of "${touch.tool}" with the wrong sign`, byHand),
    ...(Math.abs(asItLies - byHand) < unread
      ? [one("wrong side", `${behind}, or ${twice}`, -2 * asItLies)]
      : [one("wrong side", behind, -2 * asItLies), one("wrong side", `${twice} at ${name}`, -2 * byHand)]),
  ];
}

/** How far along the travel a tool moves the metal, of radius and length both on an inclined face; undefined where it lacks what is needed. */
function along(tool: Tool | undefined, { radius, length }: ReachShares): number | undefined {
  const parts = [share(radius, tool?.radius), share(length, tool?.length)];
  return parts.reduce<number | undefined>((sum, part) => (sum === undefined || part === undefined ? undefined : sum + part), 0);
}

function share(of: number, length: number | undefined): number | undefined {
  return of === 0 ? 0 : length === undefined ? undefined : of * length;
}

function ofBlock({ at, touch, travel, shares }: TakenReading, i: number, { spacers }: Setup): SlipCandidate[] {
  const name = nameOf(at, touch.id);
  const thickness = spacers.find(({ id }) => id === touch.spacer)?.thickness ?? 0;
  const one = (words: string, shift: number): SlipCandidate => ({ kind: "block", at, words, shifts: new Map([[i, shift * shares.block]]) });
  const without =
    thickness === 0
      ? []
      : [
          one(`nothing lay between at ${name}`, -thickness),
          one(`"${touch.spacer}" lay between twice at ${name}, or was taken off already`, thickness),
        ];
  // Along X and Y a block lies between only where one is stated.
  const with_ = travel[2] === 0 && thickness === 0 ? [] : spacers.filter(({ id }) => id !== touch.spacer);
  return [...without, ...with_.map((spacer) => one(`"${spacer.id}" lay between at ${name}`, spacer.thickness - thickness))];
}

function ofText({ at, touch, travel }: TakenReading, i: number, { unit }: Setup, zero: readonly (number | undefined)[]): SlipCandidate[] {
  const axis = travel.findIndex((component) => Math.abs(component) === 1);
  if (axis < 0) return [];
  const name = nameOf(at, touch.id);
  // As they were typed.
  const added = touch.readIn?.[axis] ?? 0;
  const values = touch.positions.map((position) => (position[axis] as number) - added);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const by = (kind: SlipKind, words: string, change: number): SlipCandidate => ({
    kind,
    at,
    words,
    shifts: new Map([[i, change * (travel[axis] as number)]]),
  });
  const typed = [...retyped(values[oddOneOf(values)] as number, unit)].map(({ value, what }) => {
    const isWhole = what !== exchange;
    const kind: SlipKind = isWhole ? (what.includes("minus") ? "minus dropped" : "decimal point moved") : "digits exchanged";
    // Whoever reads in another unit or frame does so throughout; two digits are exchanged once.
    const change = isWhole
      ? (value / (values[oddOneOf(values)] as number) - 1) * mean
      : (value - (values[oddOneOf(values)] as number)) / values.length;
    return by(kind, `${what} slipped into ${name}`, change);
  });
  return [
    ...typed,
    ...inOtherUnit(mean).map(({ value, words }) => by("inch or millimetre", `${name} was ${words}`, value - mean)),
    ...ofFrame(),
  ];

  function ofFrame(): SlipCandidate[] {
    if (touch.readIn !== undefined) return [by("work coordinate", `${name} is a coordinate of the machine, not of its work frame`, -added)];
    const offset = zero[axis];
    if (offset === undefined) return [];
    return [
      by("work coordinate", `${name} is a work coordinate, not one of the machine`, offset),
      by("work coordinate", `to ${name} the offset was added once too often`, -offset),
    ];
  }
}

/** Index of the value that stands farthest from the middle one. */
function oddOneOf(values: readonly number[]): number {
  const middle = [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] as number;
  return values.reduce((odd, value, i) => (Math.abs(value - middle) > Math.abs((values[odd] as number) - middle) ? i : odd), 0);
}

function ofUnknownSize({ at, touch, travel }: TakenReading, i: number): SlipCandidate[] {
  const name = nameOf(at, touch.id);
  const shifts = new Map([[i, 1]]);
  const seat: SlipCandidate[] =
    travel[2] === 0
      ? []
      : [{ kind: "not seated", at, words: `a chip or a burr lay under the part or the tool at ${name}`, shifts, spread: chip }];
  return [...seat, { kind: "something else", at, words: `${name} is wrong for a reason that is not listed`, shifts, spread: anything }];
}

/** A shift that was left on, or a part that has moved, moves all checks along an axis alike. */
function ofAllChecks(taken: readonly TakenReading[]): SlipCandidate[] {
  return (["X", "Y", "Z"] as const).flatMap((axis, a): SlipCandidate[] => {
    const along = taken.flatMap(({ kind, travel }, i) =>
      kind === "checks" && Math.abs(travel[a] as number) === 1 ? [[i, travel[a] as number] as const] : [],
    );
    if (along.length < 2) return [];
    return [
      {
        kind: "shift left on",
        at: "checks",
        words: `all checks along ${axis} are off alike: a shift was left on, or the part has moved`,
        shifts: new Map(along),
        spread: anything,
      },
    ];
  });
}

function nameOf(at: string, id: string): string {
  return at.startsWith("checks.") ? `check "${id}"` : `touch "${id}"`;
}
