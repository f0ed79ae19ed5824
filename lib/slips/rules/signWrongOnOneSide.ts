import { beyondDoubt, radiiFalseAlarms, sameRadii } from "../internals/inRadii.ts";
import { lengthText, ratioText } from "../internals/words.ts";
import type { WidthFact } from "../slipFacts.ts";
import { judgeEach, type SlipFinding, type SlipRule } from "../slipRule.ts";

/**
 * Rule 4. One wrong sign moves one face by two radii and the middle by one; the other face stays. Faces in the wrong order (an outside width of 0 or less)
 * contradict the directions of travel by themselves.
 */
export const signWrongOnOneSide: SlipRule = {
  name: "sign wrong on one side",
  formula:
    "one face lies two radii off a third touch of it, the other does not (the middle is off by one); or an outside width is not above 0",
  threshold: "the middle's shift within 0.1 radii of one radius, and beyond doubt",
  falseAlarmRate: radiiFalseAlarms,
  look: ({ widths, unit }) =>
    judgeEach(
      widths?.filter((width) => isReversed(width) || shiftsOf(width) !== undefined),
      "a third touch of one of two faces",
      (width) => (isReversed(width) ? reversed(width, unit) : oneSided(width)),
    ),
};

function isReversed({ side, touched }: WidthFact): boolean {
  return side === "outside" && touched <= 0;
}

function reversed({ at, name, touched, faces }: WidthFact, unit: "mm" | "inch"): SlipFinding {
  return {
    at,
    evidence: `the touches find "${name}" ${lengthText(touched, unit)}: the first face would lie beyond the second`,
    beyond: Number.POSITIVE_INFINITY,
    suggests: `"${faces[0]?.touch}" and "${faces[1]?.touch}" may be exchanged, or one of them may travel the other way`,
    deciding: `look up which face the readings of "${faces[0]?.touch}" belong to`,
  };
}

/** How far each face is off, in radii; undefined where no third touch says it of both, or of one where the width says the rest. */
function shiftsOf({ radius, side, faces, difference }: WidthFact): readonly [number, number] | undefined {
  if (radius === undefined || radius === 0) return undefined;
  const [first, second] = faces.map(({ outwards }) => outwards?.value);
  if (first === undefined && second === undefined) return undefined;
  // Both together make the width's error: faces that lie further outwards make a block wider and a pocket narrower.
  const both = side === "outside" ? difference.value : -difference.value;
  const [a, b] = [first ?? both - (second as number), second ?? both - (first as number)];
  return [a / radius, b / radius];
}

function oneSided(width: WidthFact): SlipFinding | undefined {
  const shifts = shiftsOf(width);
  if (shifts === undefined) return undefined;
  const [a, b] = shifts;
  const middle = Math.abs(a - b) / 2;
  const isOne = Math.abs(middle - 1) < sameRadii && Math.min(Math.abs(a), Math.abs(b)) < 2 * sameRadii;
  const moved = Math.abs(a) > Math.abs(b) ? 0 : 1;
  const seen = width.faces[moved]?.outwards ?? width.difference;
  if (!isOne || beyondDoubt(seen) <= 1) return undefined;
  const face = width.faces[moved];
  return {
    at: `touches.${face?.touch}.travelling`,
    evidence: `"${face?.element}" lies ${ratioText(shifts[moved] as number)} radii outwards of where a third touch has it, the opposite face ${ratioText(shifts[1 - moved] as number)}`,
    beyond: beyondDoubt(seen),
    suggests: `the radius may have gone to the wrong side at "${face?.touch}"`,
    deciding: `touch "${face?.element}" once more and look at the direction of travel`,
  };
}
