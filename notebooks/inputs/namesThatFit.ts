/** What can be typed: a name, and in words what it is, worked out only when it is shown. */
export interface Offer {
  readonly name: string;
  /** Put in behind the name, the caret before it: what closes a function. */
  readonly closing?: string;
  readonly about: () => string;
}

/** From so many letters on a name also fits where they stand in the middle of it. */
const lettersWithin = 3;

/**
 * Names that fit what was typed so far, best first: those that begin with it, then those of which a later word does (`radius` of `probe_radius`), then
 * those that hold it; each in the order given. What is already typed in full is not offered.
 */
export function namesThatFit(typed: string, offers: readonly Offer[]): readonly Offer[] {
  const sought = typed.toLowerCase();
  const ranked: [Offer[], Offer[], Offer[], Offer[]] = [[], [], [], []];
  for (const offer of offers) {
    if (offer.name === typed) continue;
    const rank = rankOf(offer.name, typed, sought);
    if (rank !== undefined) ranked[rank].push(offer);
  }
  return ranked.flat();
}

function rankOf(name: string, typed: string, sought: string): 0 | 1 | 2 | 3 | undefined {
  if (name.startsWith(typed)) return 0;
  const plain = name.toLowerCase();
  if (plain.startsWith(sought)) return 1;
  if (plain.includes(`_${sought}`)) return 2;
  return sought.length >= lettersWithin && plain.includes(sought) ? 3 : undefined;
}
