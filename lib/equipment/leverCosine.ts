import type { SourceBook } from "../uncertainty/sourceBook.ts";
import { betweenLimits } from "../uncertainty/statedLimits.ts";
import { certain, type Uncertain, unary } from "../uncertainty/uncertain.ts";
import type { Tool } from "./equipment.ts";
import { sourceOfLeverAngle } from "./toolSources.ts";

/**
 * What the readings of a swept indicator are to be multiplied by, one value for all that a tool sweeps. A lever that stands at an angle to the surface is
 * turned by a way square to the surface as if that way were longer: true = reading · cos(angle) (general metrology texts, from memory; plain geometry).
 *
 * - Angle stated: its cosine, with the doubt of the angle carried on.
 * - Only its largest stated: anything from cos(largest) to 1, equally likely, so that the middle is expected (JCGM 100:2008, 4.3.8).
 * - Nothing stated: exactly 1.
 */
export function leverCosine(tool: Pick<Tool, "id" | "lever">, book: SourceBook): Uncertain {
  const { id, lever } = tool;
  if (lever === undefined) return certain(1);
  if (lever.largest !== undefined)
    return book.value({
      id: `tool ${id}, lever cosine`,
      label: `cosine of the lever of ${id}`,
      family: "contact tool",
      ...betweenLimits(1, 1 - Math.cos(lever.largest), 0),
      evidence: { kind: "stated" },
    });
  const angle = book.value({
    ...sourceOfLeverAngle(tool),
    estimate: lever.angle,
    distribution: { shape: "normal", standardDeviation: lever.standardUncertainty },
  });
  return unary("cosine", angle);
}
