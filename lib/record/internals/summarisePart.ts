import { capitalise } from "../../base/capitalise.ts";
import { describeProblem } from "../../base/outcome.ts";
import { axes } from "../../base/vector.ts";
import { axisOnlyErrors } from "../../datum/axisOnlyErrors.ts";
import type { Seated } from "../../datum/seated.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import type { FrameSolution } from "../../frame/solveFrame.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { relativeStandardUncertainty } from "../../uncertainty/relativeStandardUncertainty.ts";
import { partFrame } from "../partFrame.ts";
import type { Figures } from "./figures.ts";
import { resultFigures } from "./figures.ts";
import { relativeText } from "./relativeText.ts";
import { textTable } from "./textTable.ts";
import { wrapText } from "./wrapText.ts";

/** What the touches say about this part: touched faces, sizes, and where the drawing's frame is by all touches together. */
export function summarisePart(evaluation: SetupEvaluation, figures: Figures): string[] {
  const { faces, sizes, location } = evaluation;
  const isCombined = sizes.some(({ combined }) => combined !== undefined);
  const faceRows = faces.map(({ id, element, axis, budget }) => row([id, element, axis], budget, figures));
  const sizeRows = sizes.map(({ id, budget, difference, combined }) => {
    const against = difference && figures.result(difference);
    const together = combined && figures.result(combined);
    return [
      ...row([id], budget, figures),
      relativeText(relativeStandardUncertainty(budget)),
      against?.value ?? "-",
      against?.standardUncertainty ?? "-",
      ...(isCombined ? [together?.value ?? "-", together?.standardUncertainty ?? "-"] : []),
    ];
  });
  return [
    ...(faceRows.length > 0 ? textTable(faceColumns, faceRows) : []),
    ...(sizeRows.length > 0 ? ["", ...textTable(isCombined ? [...sizeColumns, ...togetherColumns] : sizeColumns, sizeRows)] : []),
    ...(location.thisPart.ok
      ? ["", ...frameLines(location.thisPart.value, location.seated, figures), ...axisOnlyLines(evaluation, figures)]
      : []),
  ];
}

const resultColumns = [
  { title: "value", align: "right" },
  { title: "u", align: "right" },
  { title: "U", align: "right" },
  { title: "k", align: "right" },
] as const;

const faceColumns = [
  { title: "touch", align: "left" },
  { title: "face", align: "left" },
  { title: "axis", align: "left" },
  ...resultColumns,
] as const;

const sizeColumns = [
  { title: "size by the touches", align: "left" },
  ...resultColumns,
  { title: "u/|y|", align: "right" },
  { title: "less other measurement", align: "right" },
  { title: "u", align: "right" },
] as const;

const togetherColumns = [
  { title: "both together", align: "right" },
  { title: "u", align: "right" },
] as const;

function row(names: readonly string[], budget: Budget, figures: Figures): string[] {
  const { value, standardUncertainty, expandedUncertainty, coverageFactor } = figures.result(budget);
  return [...names, value, standardUncertainty, expandedUncertainty, coverageFactor];
}

function frameLines(frame: FrameSolution, seated: Seated | undefined, figures: Figures): string[] {
  const { origin, rotation } = partFrame(frame, seated);
  const places = origin.flatMap((axis, i) =>
    axis.ok ? [`${axes[i]} ${figures.result(axis.value).value} (u ${figures.result(axis.value).standardUncertainty})`] : [],
  );
  const missing = [...origin, rotation].flatMap((outcome) => (outcome.ok ? [] : outcome.problems.map(({ what }) => what)));
  const turned = rotation.ok ? resultFigures(rotation.value, 180 / Math.PI, 5) : undefined;
  const turn = turned ? `, turned about Z by ${turned.value} degrees (u ${turned.standardUncertainty})` : "";
  return [
    ...(places.length > 0
      ? wrapText(
          `By all touches together${seated ? ", those on the fixture and its locators among them," : ""} the drawing's origin lies at ${places.join(", ")}${turn}.`,
          "  ",
        )
      : []),
    ...missing.flatMap((what) => wrapText(describeProblem({ at: "", what: capitalise(what) }), "  ")),
  ];
}

/** What a sum on paper that puts the radius along the axis would leave out. */
function axisOnlyLines({ location }: SetupEvaluation, figures: Figures): string[] {
  const [most] = axisOnlyErrors(location);
  if (most === undefined || most.error.value === 0) return [];
  return wrapText(
    `The faces above are R + a r along the axis; so turned, the face in the line of the travel lies up to ${figures.uncertainty(most.error.value)} ${figures.unit} further ("${most.touch}"). All else is compensated along the normal.`,
    "  ",
  );
}
