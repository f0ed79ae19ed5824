import { axes } from "../../lib/base/vector.ts";
import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { Budget } from "../../lib/uncertainty/budget.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import type { SetupSketchOptions } from "./setupSketch.ts";

/** The table behind `setupSketch`: touches, measured sizes, zero and rotation. */
export function setupSketchTable(evaluation: SetupEvaluation, strategyId: string, { unit }: Pick<SetupSketchOptions, "unit">): FigureTable {
  const { setup, faces, sizes, strategies } = evaluation;
  const found = strategies.find(({ id }) => id === strategyId)?.evaluation;
  const counted = setup.strategies.find(({ id }) => id === strategyId)?.touches ?? [];
  const writer = writerOf(unit);
  return {
    caption: `Setup seen from above${strategyId === "" ? "" : `, ${strategyId}`}: touches, measured sizes and part zero`,
    columns: ["what", "name", "on", "how", "value", "standard uncertainty"],
    rows: [
      ...setup.touches.map(({ id, element, tool, spacer, travelling }) => {
        const face = faces.find((each) => each.id === id);
        const how = `${travelling}, ${tool}${spacer === undefined ? "" : ` on ${spacer}`}`;
        return [
          counted.includes(id) ? "touch, counted" : "touch",
          id,
          element,
          how,
          ...(face ? amounts(face.budget, writer, `${face.axis} `) : ["", ""]),
        ];
      }),
      ...sizes.map(({ id, budget }) => {
        const dimension = setup.part.dimensions.find((each) => each.id === id);
        return ["size", id, dimension ? `${dimension.from} to ${dimension.to}` : "", "measured by touches", ...amounts(budget, writer)];
      }),
      ...zeroRows(found, strategyId, unit),
    ],
  };
}

function zeroRows(
  found: SetupEvaluation["strategies"][number]["evaluation"] | undefined,
  strategyId: string,
  unit: DisplayUnit,
): string[][] {
  if (found === undefined) return [["zero", "", "", strategyId, "there is no such strategy", ""]];
  if (!found.ok) return [["zero", "", "", strategyId, `not known: ${outcomeInWords(found.problems)}`, ""]];
  const { zero, rotation, solution } = found.value;
  return [
    ...zero.map((axis, i) => {
      const place = solution.strategy.zero[i as 0 | 1 | 2];
      const on = place.kind === "element" ? place.element : "";
      return [
        "zero",
        axes[i] as string,
        on,
        strategyId,
        ...(axis.ok ? amounts(axis.value, writerOf(unit)) : [`not known: ${outcomeInWords(axis.problems)}`, ""]),
      ];
    }),
    [
      "rotation",
      "about Z",
      "",
      strategyId,
      ...(rotation.ok ? amounts(rotation.value, writerOf("degree")) : [outcomeInWords(rotation.problems), ""]),
    ],
  ];
}

function amounts({ value, standardUncertainty }: Budget, { withUncertainty, suffix }: UnitWriter, prefix = ""): [string, string] {
  const written = withUncertainty(value, standardUncertainty);
  return [`${prefix}${written.value}${suffix}`, `${written.uncertainty}${suffix}`];
}
