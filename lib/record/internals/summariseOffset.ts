import { describeProblem } from "../../base/outcome.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../../decision/setupEvaluation.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import { checkReadings } from "../checkReadings.ts";
import { expandedUncertainty } from "../expandedUncertainty.ts";
import type { Figures } from "./figures.ts";
import { textTable } from "./textTable.ts";
import { wrapText } from "./wrapText.ts";

/** The values to type and the block text, in the controller's unit. */
export function summariseOffset(
  { setup }: SetupEvaluation,
  strategy: StrategyEvaluation | undefined,
  wanted: string | undefined,
): string[] {
  if (strategy === undefined) return wrapText(`None: "${wanted ?? setup.chosen}" could not be solved.`, "  ");
  const { id, offset, zero, rotation, solution } = strategy;
  if (!offset.ok) return offset.problems.flatMap((problem) => wrapText(`None: ${describeProblem(problem)}`, "  "));
  const { register, unit, digits, lines } = offset.value;
  const why =
    setup.chosen === id
      ? "the strategy in use"
      : wanted === undefined
        ? "ranked first; none is chosen"
        : "asked for; not the strategy in use";
  const left = zero.flatMap((axis) => (axis.ok ? [] : axis.problems.map(describeProblem)));
  return [
    ...wrapText(`Register ${register}, controller in ${unit === "inch" ? "inches" : "millimetres"}, by "${id}" (${why}).`, "  "),
    ...textTable(
      digitColumns,
      digits.map(({ axis, text }) => [axis, text]),
    ),
    ...left.flatMap((line) => wrapText(`Not set: ${line}`, "  ")),
    ...(solution.appliesRotation && rotation.ok
      ? wrapText(
          `"${id}" turns the coordinates by ${formatFixed((rotation.value.value * 180) / Math.PI, 4)} degrees. RS274/NGC has no word for that in G10, so it is not in the lines below: without the turn this zero is the wrong one. The machine builder's manual says how, or whether, the controller turns coordinates.`,
          "  ",
        )
      : []),
    ...wrapText(
      "As block text (RS274/NGC; values are absolute machine coordinates). Dialects differ: compare with the machine builder's manual, and read the register back before anything runs.",
      "  ",
    ),
    ...lines.map((line) => `      ${line}`),
  ];
}

const digitColumns = [
  { title: "axis", align: "left" },
  { title: "to type", align: "right" },
] as const;

/** What the display must show when a face is touched once more. */
export function summariseCheckReadings(evaluation: SetupEvaluation, strategy: StrategyEvaluation | undefined, figures: Figures): string[] {
  const readings = checkReadings(evaluation, strategy);
  if (readings.length === 0) return [];
  const rows = readings.map(({ prediction: { id, element, axis, tool, budget }, machine, work }) => [
    id,
    element,
    tool,
    axis,
    figures.length(machine.value),
    work.ok ? figures.length(work.value.value) : "-",
    `±${figures.uncertainty(expandedUncertainty(budget).expandedUncertainty)}`,
  ]);
  const register = evaluation.setup.machine.register;
  return [
    ...textTable(checkColumns(register), rows),
    ...wrapText(
      `What the display must show when the face is touched once more in the same way, with the same tool and whatever lay between: a reading outside the limits disagrees with this sheet. ${register} is meant with the values above, and with no tool length, shift or turn active.`,
      "  ",
    ),
  ];
}

const checkColumns = (register: string) =>
  [
    { title: "touch again", align: "left" },
    { title: "face", align: "left" },
    { title: "tool", align: "left" },
    { title: "axis", align: "left" },
    { title: "machine", align: "right" },
    { title: register, align: "right" },
    { title: "limits", align: "right" },
  ] as const;
