import type { NestFit } from "../offsets/nests.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { figuresIn, resultFigures } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";

/** Beyond this chance the residuals are what the doubts explain (the usual 5 %; common practice, no source). */
const usualChance = 0.05;

/** The best fit of nests as plain text: shift, turn, what is left at each nest, and whether the doubts explain it. */
export function nestFitText({ shift: [x, y], rotation, residuals, chiSquare }: NestFit, title: string, unit: "mm" | "inch"): string[] {
  const figures = figuresIn(unit);
  const result = (name: string, budget: typeof x) => {
    const { value, standardUncertainty } = figures.result(budget);
    return [name, value, standardUncertainty];
  };
  const turn = resultFigures(rotation, 180 / Math.PI, 4);
  const rows = [result("X", x), result("Y", y), ["turn, °", turn.value, turn.standardUncertainty]];
  return [
    title,
    ...textTable(
      [
        { title: "shift of the zero", align: "left" },
        { title: figures.unit, align: "right" },
        { title: "u", align: "right" },
      ],
      rows,
    ),
    ...textTable(
      [
        { title: "nest", align: "left" },
        { title: "left over X", align: "right" },
        { title: "Y", align: "right" },
        { title: "together", align: "right" },
      ],
      residuals.map((each) => [each.id, ...[each.x.value, each.y.value, Math.hypot(each.x.value, each.y.value)].map(figures.length)]),
    ),
    `  ${agreement(chiSquare)}`,
  ];
}

function agreement(chiSquare: NestFit["chiSquare"]): string {
  if (chiSquare === undefined)
    return "Whether the doubts explain what is left cannot be told: no doubts are stated, or no place is left over.";
  const { value, degreesOfFreedom, upperTail } = chiSquare;
  const told = `chi-square ${formatFixed(value, 1)} for ${degreesOfFreedom}, exceeded by chance in ${formatFixed(100 * upperTail, 1)} %`;
  return upperTail < usualChance
    ? `What is left is more than the doubts explain (${told}): the nests are not where one zero has them.`
    : `The doubts explain what is left (${told}).`;
}
