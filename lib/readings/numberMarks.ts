/** What a comma or a point inside a number stands for. */
export type MarkMeaning = "decimal" | "thousands";

/** What the numbers of a block tell about one mark. */
export interface MarkEvidence {
  /** Numbers in which it can be either: `12,500`. */
  readonly doubtful: number;
  /** Whether some number has it as a decimal mark and can have it as nothing else: `12,5`. */
  readonly isDecimalSomewhere: boolean;
  /** Whether some number has it as a thousands mark and can have it as nothing else: `1,234.5`. */
  readonly isThousandsSomewhere: boolean;
}

export interface BlockMarks {
  readonly commas: MarkEvidence;
  readonly points: MarkEvidence;
}

/** What commas and points mean in a block of texts that come from one hand, as far as the texts tell. */
export function findMarks(texts: Iterable<string>): BlockMarks {
  const commas = { doubtful: 0, isDecimalSomewhere: false, isThousandsSomewhere: false };
  const points = { doubtful: 0, isDecimalSomewhere: false, isThousandsSomewhere: false };
  for (const text of texts) {
    for (const number of numbersOf(text)) {
      if (doubtfulComma.test(number)) commas.doubtful += 1;
      else if (doubtfulPoint.test(number)) points.doubtful += 1;
      else if (/^\d*,\d+$/.test(number)) commas.isDecimalSomewhere = true;
      else if (/^\d*\.\d+$/.test(number)) points.isDecimalSomewhere = true;
      else if (/^\d{1,3}(?:,\d{3})+\.\d+$/.test(number)) [commas.isThousandsSomewhere, points.isDecimalSomewhere] = [true, true];
      else if (/^\d{1,3}(?:\.\d{3})+,\d+$/.test(number)) [points.isThousandsSomewhere, commas.isDecimalSomewhere] = [true, true];
      else if (/^[1-9]\d{0,2}(?:,\d{3}){2,}$/.test(number)) commas.isThousandsSomewhere = true;
      else if (/^[1-9]\d{0,2}(?:\.\d{3}){2,}$/.test(number)) points.isThousandsSomewhere = true;
    }
  }
  return { commas, points };
}

/** The meaning that the rest of a block suggests for a mark; undefined where it suggests none, or both. */
export function suggestMeaning(own: MarkEvidence, other: MarkEvidence): MarkMeaning | undefined {
  const decimal = own.isDecimalSomewhere || other.isThousandsSomewhere;
  const thousands = own.isThousandsSomewhere || other.isDecimalSomewhere;
  if (decimal === thousands) return undefined;
  return decimal ? "decimal" : "thousands";
}

/** Whether a text holds a number whose comma or point can be either mark. */
export function hasDoubtfulMark(text: string, mark: "," | "."): boolean {
  const doubtful = mark === "," ? doubtfulComma : doubtfulPoint;
  return numbersOf(text).some((number) => doubtful.test(number));
}

/**
 * The text with its doubtful numbers written so that they can be read in one way only: `12,500` becomes `12.500`
 * or `12500`. Numbers without doubt stay as they were typed.
 */
export function settleMarks(
  text: string,
  meanings: { readonly commas?: MarkMeaning | undefined; readonly points?: MarkMeaning | undefined },
): string {
  return text.replace(numberPiece, (number) => {
    if (doubtfulComma.test(number) && meanings.commas !== undefined) return number.replace(",", meanings.commas === "decimal" ? "." : "");
    return doubtfulPoint.test(number) && meanings.points === "thousands" ? number.replace(".", "") : number;
  });
}

/** A thousands group has one to three digits before it, not starting with 0, and exactly three behind. */
const doubtfulComma = /^[1-9]\d{0,2},\d{3}$/;
const doubtfulPoint = /^[1-9]\d{0,2}\.\d{3}$/;

/** Digits and marks, without a mark at the end. */
const numberPiece = /[\d.,]*\d/g;

function numbersOf(text: string): readonly string[] {
  return text.length > longestLookedAt ? [] : (text.match(numberPiece) ?? []);
}

/** Longer texts are notes. */
const longestLookedAt = 2000;
