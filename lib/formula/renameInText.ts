import { parseCellName } from "./cellName.ts";
import { partsStatement, piecePattern, wordPattern } from "./internals/words.ts";
import { normaliseText } from "./normaliseText.ts";

/**
 * A typed formula or statement in which one name is another one; all else stays as typed, also where the text is not (yet) a sound
 * formula. What is not a name stays: a unit behind a number, the words round a doubt (`within`, `triangular`, `(k = 2)`).
 *
 * @throws RangeError if `to` cannot be a name
 */
export function renameInText(text: string, from: string, to: string): string {
  const name = parseCellName(to);
  if (!name.ok || name.value !== to) throw new RangeError(`to: expected a name, got "${to}"`);
  const normalised = normaliseText(text);
  if (!normalised.ok) return text;
  const { characterAt, behind } = normalised.value;
  const pieces = [...normalised.value.text.matchAll(piece)];
  let renamed = "";
  let copied = 0;
  for (const [place, { 0: word, index }] of pieces.entries()) {
    if (word !== from || !isNameAt(place, pieces)) continue;
    renamed += text.slice(copied, characterAt(index)) + to;
    copied = behind(index + word.length - 1);
  }
  return renamed + text.slice(copied);
}

const piece = new RegExp(piecePattern, "gu");
const value = new RegExp(`^(?:[\\d.]|${wordPattern}$)`, "u");

/** No name stands behind a number or another word, unless that parts a statement, nor before a number or an equals sign. */
function isNameAt(place: number, pieces: readonly RegExpExecArray[]): boolean {
  const [beforeThat, before, behind] = [place - 2, place - 1, place + 1].map((at) => pieces[at]?.[0]);
  const follows = before === undefined || partsStatement(before, beforeThat) || !value.test(before);
  return follows && !(behind !== undefined && /^[\d.=]/.test(behind));
}
