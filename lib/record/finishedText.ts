import { describeProblem, type Problem } from "../base/outcome.ts";
import type { FinishedJudgement, FinishedPart } from "../decision/finishedPart.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import { chanceCell, chanceText, shareText } from "./internals/chanceText.ts";
import { figuresIn, figuresOf } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";
import { bullet, wrapText } from "./internals/wrapText.ts";

/**
 * The finished part as plain text: every characteristic with the operation that it is judged in, in both views.
 *
 * @param unit of all lengths
 */
export function finishedText(
  title: string,
  operations: readonly SetupEvaluation[],
  finished: FinishedPart,
  problems: readonly Problem[],
  unit: "mm" | "inch",
): string {
  const names = operations.map(({ setup }) => `${setup.operation?.id ?? ""} by "${setup.chosen}"`).join(", then ");
  const lines = [
    ...wrapText(title === "" ? "Setup without a title" : title),
    ...wrapText(
      `The finished part: operation ${names}. What operations share (tools, machine, sizes of the part) cancels or adds by its sources.`,
    ),
    ...(problems.length > 0 ? ["", "Not read, or not known", "----------------------"] : []),
    ...problems.flatMap((problem) => wrapText(describeProblem(problem), bullet)),
    "",
    "In the batch",
    "------------",
    ...judgementLines(finished.batch, unit),
    "",
    "This part",
    "---------",
    ...judgementLines(finished.thisPart, unit),
  ];
  return `${lines.join("\n")}\n`;
}

const columns = [
  { title: "characteristic", align: "left" },
  { title: "operation", align: "left" },
  { title: "expected", align: "right" },
  { title: "used", align: "right" },
  { title: "RSS", align: "right" },
  { title: "worst", align: "right" },
  { title: "chance", align: "right" },
] as const;

function judgementLines({ characteristics, chanceOfAll }: FinishedJudgement, unit: "mm" | "inch"): string[] {
  const figures = figuresIn(unit);
  const rows = characteristics.flatMap(({ id, operation = "-", stack }) => {
    if (!stack.ok) return [];
    const { deviation, shares, chance } = stack.value;
    const own = figuresOf(stack.value, figures);
    return [
      [
        id,
        operation,
        `${own.length(deviation)}${own === figures ? "" : ` ${own.unit}`}`,
        shareText(shares.deviation),
        shareText(shares.rootSumSquare),
        shareText(shares.worstCase),
        chanceCell(chance),
      ],
    ];
  });
  const unknown = characteristics.flatMap(({ id, stack }) =>
    stack.ok ? [] : wrapText(`"${id}" is not known: ${stack.problems.map(describeProblem).join("; ")}`, "  "),
  );
  const all = chanceOfAll.ok
    ? `All are met with a chance of ${chanceText(chanceOfAll.value.chance)}.`
    : "The chance that all are met is not known.";
  return [...(rows.length > 0 ? textTable(columns, rows) : []), ...unknown, ...wrapText(all, "  ")];
}
