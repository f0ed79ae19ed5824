import { listText, quotedList } from "../../base/listText.ts";
import { clearlyTilted } from "../../datum/tilt.ts";
import type { TiltEvaluation } from "../../decision/evaluateTilt.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { disagreeBelow } from "../../frame/agreement.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import type { JudgementSentence } from "../judgementSentences.ts";
import { type Figures, resultFigures } from "./figures.ts";

/** Slopes are told over this length, in the unit of the sheet. */
const over = 100;

/** How the part lies askew in height, what that does to depths, and whether the face is as flat as the plane through its touches supposes. */
export function tiltSentences({ tilt }: SetupEvaluation, figures: Figures): JudgementSentence[] {
  if (tilt === undefined) return [];
  const { face, slopes, about, heightAtOrigin, effects, agreement, offPlane, across } = tilt;
  const at = `part.elements.${face}`;
  const along = (["X", "Y"] as const).map((axis) => `along ${axis} ${slopeText(slopes[axis])}`);
  const isTilted = isClear(slopes.X) || isClear(slopes.Y);
  const rise = `Over ${over} ${figures.unit} "${face}" rises ${listText(along)} ${figures.unit}`;
  const origin = heightAtOrigin && figures.result(heightAtOrigin);
  const height = origin
    ? ` Above the drawing's origin it lies at Z ${origin.value} ${figures.unit} (u ${origin.standardUncertainty}).`
    : " No touches fix X and Y, so where on the drawing it was touched is not known.";
  const turns = `turned ${turnText(about.X)} about X and ${turnText(about.Y)} about Y`;
  const lifts = effects.flatMap(({ characteristic, element, lift }) =>
    lift
      ? [
          `"${characteristic}" is judged against the face where "${element}" is cut, ${signedText(lift, figures)} from its height at the touches' middle`,
        ]
      : [
          origin === undefined
            ? `"${characteristic}" is judged at the touches' middle`
            : `"${element}" has no X and Y, so "${characteristic}" is judged at the touches' middle`,
        ],
  );
  const depths = lifts.length > 0 ? ` For this part ${lifts.join("; ")}.` : "";
  const sentences: JudgementSentence[] = [
    {
      kind: "tilt",
      at,
      text: isTilted
        ? `The part lies askew in height. ${rise}: ${turns}.${height}${depths} A hole drilled straight down leans against the face by as much over its depth. ${acrossText(across, face, figures)}`
        : `${rise}: no tilt beyond the doubt of the touches.${depths}`,
    },
  ];
  if (agreement !== undefined && agreement.chance < disagreeBelow) {
    const most = offPlane.reduce((worst, each) => (Math.abs(each.budget.value) > Math.abs(worst.budget.value) ? each : worst));
    sentences.push({
      kind: "touches disagree",
      at,
      text: `"${face}" is no plane within the doubts of its touches: "${most.touch}" stands ${signedText(most.budget, figures)} off the plane through all. A cause may be a burr or a chip, a wrong reading, or a face that is not flat; its tilt and what hangs on it are then not known so well.`,
    });
  }
  return sentences;
}

const notAcross = {
  "no height":
    "Places across are not corrected for it: of no touch from the side is the height known, which needs its Z and the length of its tool.",
  "by the fixture": "Places across are not corrected for it: where the part lies is known by touches on the fixture.",
} as const;

/** What a tilt does to places across, or why they are not corrected. */
function acrossText(across: TiltEvaluation["across"], face: string, figures: Figures): string {
  if (across === "other datum first")
    return `Places across are not corrected for it: the drawing's frame stands as the first datum does, and "${face}" is none, or is not before those that were touched from the side.`;
  if (typeof across === "string") return notAcross[across];
  const height = `Z ${figures.length(across.height)} ${figures.unit} of the drawing`;
  const leans = across.leans.map(({ characteristic, element, lean }) =>
    lean
      ? `"${characteristic}" is judged where "${element}" is cut, which the tilt moves X ${signedText(lean.X, figures)}, Y ${signedText(lean.Y, figures)} from there`
      : `"${element}" has no Z, so "${characteristic}" is judged at that height`,
  );
  const unplaced =
    across.unplaced.length === 0
      ? ""
      : ` The height of ${quotedList(across.unplaced)} is not known, which needs the Z of a touch and the length of its tool, and is taken as that.`;
  return `Places across count at ${height}, the mean height of the touches from the side${leans.length > 0 ? `; ${leans.join("; ")}` : ""}.${unplaced}`;
}

function isClear({ value, standardUncertainty }: Budget): boolean {
  return Math.abs(value) > clearlyTilted * standardUncertainty;
}

function slopeText(slope: Budget): string {
  const { value, standardUncertainty } = resultFigures(slope, over, 4);
  return `${value} (u ${standardUncertainty})`;
}

function turnText(turn: Budget): string {
  const { value, standardUncertainty } = resultFigures(turn, 180 / Math.PI, 5);
  return `${value}° (u ${standardUncertainty}°)`;
}

function signedText(budget: Budget, figures: Figures): string {
  const { value, standardUncertainty } = figures.result(budget);
  return `${budget.value > 0 ? "+" : ""}${value} ${figures.unit} (u ${standardUncertainty})`;
}
