import { describeProblem, type Problem } from "../../base/outcome.ts";
import type { SetupEvaluation } from "../../decision/setupEvaluation.ts";
import { type CoordinateInForce, type OffsetsInForce, partsOf } from "../../offsets/offsetTable.ts";
import type { Budget } from "../../uncertainty/budget.ts";
import { formatFixed } from "../../uncertainty/roundForReport.ts";
import { writtenOffsets } from "../writtenOffsets.ts";
import { type Figures, resultFigures } from "./figures.ts";
import { textTable } from "./textTable.ts";
import { bullet, wrapText } from "./wrapText.ts";

/** The sums in force, what each is made of and which rows of the log they come from, and the table as block text. */
export function summariseOffsets(evaluation: SetupEvaluation, figures: Figures): string[] {
  const { offsets } = evaluation;
  if (offsets === undefined) return [];
  const lines = writtenOffsets(evaluation, offsets);
  return [
    ...offsetTableText(offsets, figures),
    ...offsets.history.notes.flatMap(({ row, text }) => wrapText(`${row}: ${text}`, bullet)),
    ...(lines.ok
      ? [
          ...wrapText(
            "What the registers hold, as block text (RS274/NGC): compare with the machine builder's manual, and read it back.",
            "  ",
          ),
          ...lines.value.map((line) => `      ${line}`),
        ]
      : lines.problems.flatMap((problem) => wrapText(`No block text: ${describeProblem(problem)}`, "  "))),
  ];
}

/** Every register and coordinate with its sum and the rows that it comes from; turns are in degrees, as the header says. */
export function offsetTableText(offsets: OffsetsInForce, figures: Figures): string[] {
  const { rows, sentences } = offsetsInWords(offsets, figures);
  return [...textTable(columns, rows), ...sentences.flatMap((line) => wrapText(line, bullet))];
}

/** The same as cells, and in sentences what sums are made of and why some are not known. */
export function offsetsInWords(
  { registers }: OffsetsInForce,
  figures: Figures,
): {
  readonly rows: readonly (readonly [offset: string, inForce: string, uncertainty: string, from: string])[];
  readonly sentences: readonly string[];
} {
  const unknown: Problem[] = [];
  const sums: string[] = [];
  const rows = registers.flatMap(({ register, coordinates }) =>
    coordinates.filter(isToldOf).map((each): [string, string, string, string] => {
      const { coordinate, sum } = each;
      if (!sum.ok) unknown.push(...sum.problems);
      const isTurn = coordinate === "turn";
      const written = sum.ok ? (isTurn ? resultFigures(sum.value, 180 / Math.PI, 4) : figures.result(sum.value)) : undefined;
      const name = `${register} ${isTurn ? "turn, °" : coordinate}`;
      const write = (budget: Budget) => (isTurn ? formatFixed((budget.value * 180) / Math.PI, 4) : figures.length(budget.value));
      const parts = partsOf(each);
      if (parts.length > 1)
        sums.push(`${name}: ${parts.map(({ words, part }) => `${words} ${write(part.budget)} (${part.row})`).join(", ")}.`);
      const doubt = each.doubtStated ? (written?.standardUncertainty ?? "-") : "not stated";
      return [name, written?.value ?? "-", sum.ok ? doubt : "-", [...new Set(parts.map(({ part }) => part.row))].join(", ")];
    }),
  );
  const reasons = [...new Set(unknown.map(describeProblem))];
  return { rows, sentences: [...sums, ...reasons] };
}

/** A turn that no row states is not worth a line. */
function isToldOf(each: CoordinateInForce): boolean {
  return each.coordinate !== "turn" || partsOf(each).length > 0;
}

const columns = [
  { title: "offset", align: "left" },
  { title: "in force", align: "right" },
  { title: "u", align: "right" },
  { title: "rows of the log", align: "left" },
] as const;
