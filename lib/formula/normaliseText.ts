import { failure, type Outcome, success } from "../base/outcome.ts";

/** Typed text with one spelling for every sign that has several. */
export interface NormalisedText {
  readonly text: string;
  /** The index in the original text of each character of `text`, and of its end. */
  characterAt(index: number): number;
  /** The index in the original text behind the sign that a character of `text` stands for; signs without a shape that follow are no part of it. */
  behind(index: number): number;
}

/**
 * Gives every sign that can be typed in several ways one spelling: minus signs
 * `-`, times `*`, divided by `/`, full-width forms their plain ones, wide blanks
 * a blank, blanks that do not break a line U+00A0 (they may stand between
 * thousands), the degree sign `deg`, the micro sign μ, letters composed.
 *
 * A list of signs, and not Unicode's compatibility normalisation (NFKC): that
 * would turn `3 mm²` into `3 mm2` and `5¼` into `51⁄4`. Such signs are refused
 * here with what to write instead.
 */
export function normaliseText(original: string): Outcome<NormalisedText> {
  if (plainAscii.test(original))
    return success({ text: original, characterAt: (index) => Math.min(index, original.length), behind: (index) => index + 1 });
  let text = "";
  const places: number[] = [];
  const ends: number[] = [];
  for (const { segment, index, end } of composedCharacters(original)) {
    const spelling = spellings.get(segment) ?? plainFullWidth(segment);
    const refusal = refusals.find(({ signs }) => signs.test(segment));
    if (refusal)
      return failure({ at: "", what: `the sign "${segment}" ${refusal.why}`, got: original, remedy: refusal.remedy, character: index });
    if (isRaisedDotBetweenDigits(segment, original, index)) {
      const what = `"${segment}" between two digits can mean times or the decimal mark`;
      return failure({ at: "", what, got: original, remedy: "write * for times and a point for the decimal mark", character: index });
    }
    text += spelling;
    for (let k = 0; k < spelling.length; k++) {
      places.push(index);
      ends.push(end);
    }
  }
  places.push(original.length);
  return success({
    text,
    characterAt: (index) => places[Math.min(index, places.length - 1)] ?? original.length,
    behind: (index) => ends[index] ?? original.length,
  });
}

const plainAscii = /^[\t\n\r\x20-\x7e]*$/;

/** Figure, thin and no-break blanks stand inside a number; all others stand between things. */
const spellings: ReadonlyMap<string, string> = new Map([
  ...spelled("\u2010\u2011\u2012\u2013\u2212\ufe63\uff0d", "-"),
  ...spelled("\u00d7\u2217\u22c5\u00b7\u2219", "*"),
  ...spelled("\u00f7\u2215", "/"),
  ...spelled("\u2018\u2019\u02bc", "'"),
  ...spelled("\u00a0\u2007\u2009\u202f", "\u00a0"),
  ...spelled("\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2008\u200a\u205f\u3000", " "),
  ...spelled("\u200b\u2060\ufeff", ""),
  ...spelled("\u00b0\u00ba", "deg"),
  ["\u2103", "degC"],
  ["\u212a", "K"],
  ["\u00b5", "\u03bc"],
  ["\r\n", "\n"],
]);

const refusals = [
  {
    signs: /^[\u00bc-\u00be\u2150-\u215f\u2189\u2044]/u,
    why: "is a fraction set as one sign",
    remedy: "write a decimal, for example 5.25",
  },
  {
    signs: /^[\u00b2\u00b3\u00b9\u2070-\u209f]/u,
    why: "is a raised or lowered sign",
    remedy: "write a power with ^, for example (3 mm)^2",
  },
  {
    signs: /^[\u2032-\u2037]/u,
    why: "can mean a foot, an inch, or a minute or second of arc",
    remedy: "write the unit out: ft, in, arcmin, arcsec",
  },
  { signs: /^\u221a/u, why: "is not understood", remedy: "write sqrt( )" },
];

function spelled(signs: string, spelling: string): [string, string][] {
  return [...signs].map((sign) => [sign, spelling]);
}

/** U+FF01 to U+FF5E repeat the printable signs of ASCII in the same order. */
function plainFullWidth(segment: string): string {
  const code = segment.charCodeAt(0);
  return segment.length === 1 && code >= 0xff01 && code <= 0xff5e ? String.fromCharCode(code - 0xfee0) : segment;
}

/** The old decimal point of British print, U+00B7, looks like the product dot. */
function isRaisedDotBetweenDigits(segment: string, text: string, index: number): boolean {
  return /^[\u00b7\u22c5\u2219]$/.test(segment) && /\d/.test(text.charAt(index - 1)) && /\d/.test(text.charAt(index + 1));
}

/** Characters with their combining marks composed, so that `é` typed as two signs is the same name as `é` typed as one. */
function* composedCharacters(text: string): Generator<{ segment: string; index: number; end: number }> {
  for (const { 0: typed, index } of text.matchAll(/\r\n|\P{M}\p{M}*|\p{M}+/gsu))
    yield { segment: typed.normalize("NFC"), index, end: index + typed.length };
}
