import type { Vector } from "../../base/vector.ts";
import type { FixtureEvaluation, LocatingEvaluation, SeatEvaluation } from "../../tolerance/judgeFixture.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import type { Draws } from "../../uncertainty/draws.ts";
import { plainJudgement } from "./plainJudgement.ts";
import { plainOutcome } from "./plainProblem.ts";
import { plainQuantity } from "./plainQuantity.ts";

/** What the fixture does to a part of the batch, as plain data. Lengths in mm, turns in radians. */
export function plainFixture({ located, seat }: FixtureEvaluation, characteristics: readonly { readonly id: string }[], draws: Draws) {
  return {
    located: plainOutcome(located, (locating) => plainLocating(locating, characteristics, draws)),
    seat: seat === undefined ? null : plainOutcome(seat, plainSeat),
  };
}

function plainLocating(locating: LocatingEvaluation, characteristics: readonly { readonly id: string }[], draws: Draws) {
  const { location, turns, gaps, judgement, clamps } = locating;
  const { layout, contacts } = location;
  const bearing = layout.bearing.map((i) => contacts[i]?.label ?? "");
  const [x, y, z] = turns;
  const plainTurn = (turn: Budget | undefined) => (turn === undefined ? null : plainQuantity(turn, "rad"));
  return {
    held: layout.bearing.length,
    freeMotions: layout.free.map(({ words, shift, turn }) => ({ words, shift: plainVector(shift), turn: plainVector(turn) })),
    condition: layout.condition ?? null,
    centre: plainVector(layout.centre),
    scale: layout.scale,
    contacts: contacts.map(({ locator, label, point, normal }, i) => ({
      locator,
      label,
      point: plainVector(point),
      normal: plainVector(normal),
      bears: bearing.includes(label),
      error: plainQuantity(locating.errors[i] as Budget, "mm"),
    })),
    turns: { X: plainTurn(x), Y: plainTurn(y), Z: plainTurn(z) },
    gaps: gaps.map(({ contact, repeats, gap }) => ({ contact: contact.label, repeats: [...repeats], ...plainQuantity(gap, "mm") })),
    judgement: plainJudgement(judgement, characteristics, draws),
    sensitivities: locating.sensitivities.map((components, i) => ({
      id: characteristics[i]?.id ?? "",
      components: components.map(({ axis, weights }) => ({
        axis,
        contacts: weights ? weights.map((sensitivity, k) => ({ contact: bearing[k] ?? "", sensitivity })) : null,
      })),
    })),
    placesTakenAsZero: [...locating.openPlaces],
    clamps: clamps.map(({ clamp, reactions, liftsOff }) => ({
      id: clamp.id,
      reactions: reactions ? reactions.map(({ contact, share }) => ({ contact: contact.label, share })) : null,
      liftsOff: liftsOff.map(({ label }) => label),
    })),
    pins:
      locating.pins === undefined
        ? null
        : { ...locating.pins, play: { round: locating.pins.play[0], diamond: locating.pins.play[1] }, turn: locating.pins.turn ?? null },
    spacings: locating.spacings.map(({ contacts: names, width, needed }) => ({
      contacts: [...names],
      width,
      needed: plainOutcome(needed, (value) => ({ value, unit: "mm" as const })),
    })),
  };
}

function plainSeat({ touched, pads, common, twist }: SeatEvaluation) {
  return {
    touches: touched.map(({ id, lift }) => ({ touch: id, ...plainQuantity(lift, "mm") })),
    pads: pads.map(({ pad, lift, judged }) => ({
      pad,
      ...plainQuantity(lift, "mm"),
      besideOthers: judged === undefined ? null : plainQuantity(judged.beside, "mm"),
      noticedAbove: judged?.noticedAbove ?? null,
      smallestFound: judged?.smallestFound ?? null,
    })),
    common: common === undefined ? null : plainQuantity(common, "mm"),
    twist: twist === undefined ? null : plainQuantity(twist, "mm"),
  };
}

function plainVector([X, Y, Z]: Vector) {
  return { X, Y, Z };
}
