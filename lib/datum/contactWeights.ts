import type { Contact } from "../contacts/contact.ts";
import { isLevel } from "../contacts/surface.ts";

/** Up to so many times the standard uncertainty of the best, a touch counts as much: a mean of four opposite a single reading is still half of a middle. */
const alike = 3;
/** However much better one touch is than another, the worse one is not forgotten. */
const leastShare = 1e-3;
/** The same among touches of one datum, which must all count more than those of the next. */
const leastShareOfDatum = 0.2;
/** A lower datum counts so much less that what it disagrees by moves a higher one by a hundred-thousandth of that at most. */
const lowerDatum = 1e-3;
/** Below this a contact could not be told from none at all. */
const leastWeight = 1e-6;

/**
 * How much each contact counts where touches disagree: all alike, as in the hand formulas of the trade, except those that are clearly worse than
 * the best; they count in inverse proportion to their own standard uncertainty. What touches share has no part in it.
 */
export function weightsByUncertainty(contacts: readonly Contact[], least = leastShare): number[] {
  const best = Math.min(...contacts.map(({ ownUncertainty }) => ownUncertainty));
  // One without any doubt of its own is as good as the best; beside it all others are clearly worse.
  return contacts.map(({ ownUncertainty }) =>
    ownUncertainty === best ? 1 : Math.max(least, Math.min(1, (alike * best) / ownUncertainty)),
  );
}

/**
 * The same for the drawing's frame: its datums count in the order of their letters (ISO 5459: primary, secondary, tertiary), each only for
 * what those before it leave open, and what is no datum last. So the first face that can turn the part turns it, and the first bore
 * places it, however the others lie.
 *
 * @param datumOf datum letter by element, or what sorts the datums of a system; empty for none
 */
export function weightsByPrecedence(contacts: readonly Contact[], datumOf: (element: string) => string): number[] {
  // A face along Z shares no unknown with the others, and takes no rank from them.
  const upright = contacts.filter(({ surface }) => !isLevel(surface));
  const letters = [...new Set(upright.map(({ element }) => datumOf(element)).filter((letter) => letter !== ""))].sort();
  const own = weightsByUncertainty(contacts, leastShareOfDatum);
  return contacts.map(({ element, surface }, i) => {
    if (isLevel(surface)) return own[i] as number;
    const rank = letters.indexOf(datumOf(element));
    const level = rank < 0 ? letters.length : rank;
    return Math.max(leastWeight, (own[i] as number) * lowerDatum ** level);
  });
}

/** Touches on the fixture count after all of those on the part, each only for what those leave open. */
export function partFirst(contacts: readonly Contact[], weights: readonly number[], isOnFixture: (contact: Contact) => boolean): number[] {
  if (contacts.every(isOnFixture)) return [...weights];
  const least = Math.min(...weights.filter((_, i) => !isOnFixture(contacts[i] as Contact)));
  return weights.map((weight, i) =>
    isOnFixture(contacts[i] as Contact) ? Math.max(leastWeight, Math.min(weight, least) * lowerDatum) : weight,
  );
}
