import { secondOrderInWords } from "../../../lib/record/secondOrderInWords.ts";
import { significantDigits } from "../../../lib/record/significantDigits.ts";
import { secondOrder, secondOrderMatters } from "../../../lib/uncertainty/secondOrder.ts";
import { Tape } from "../../../lib/uncertainty/tape.ts";
import type { Uncertain } from "../../../lib/uncertainty/uncertain.ts";
import type { UnitWriter } from "../../figures/displayUnit.ts";

/** A change of u by more than this share of it, and terms of second order are not the last word either: the distribution tells. */
const far = 0.2;

/** That u to first order is not all there is, beside the number and in full; undefined where it is. */
export function shortBend(value: Uncertain, writer: UnitWriter): { readonly text: string; readonly words: string } | undefined {
  if (new Tape([value]).isLinear(0)) return undefined;
  const terms = secondOrder([value]);
  const words = secondOrderInWords(terms, writer);
  const [found] = terms;
  if (words === undefined || found === undefined) return undefined;
  const seeFigure = { text: "bends too much", words };
  if (!found.ok) return seeFigure;
  const { firstOrder, standardUncertainty, doubt } = found.value;
  const isFar = Math.abs(standardUncertainty - firstOrder) + doubt > far * firstOrder;
  if (isFar || secondOrderMatters(found.value, significantDigits) === "not known") return seeFigure;
  return { text: `with its bend ${writer.withUncertainty(0, standardUncertainty).uncertainty}`, words };
}
