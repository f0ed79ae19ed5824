import type { NestFit } from "../offsets/nests.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { figuresIn, resultFigures } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";

/** Beyond this chance the residuals are what the doubts explain (the usual 5 %; common practice, no source). */
const usualChance = 0.05;

/** The best fit of nests in words, and whether the doubts explain what is left. */
export function nestFitSentence({ shift: [x, y], rotation, chiSquare, residuals }: NestFit, turned: boolean, unit: "mm" | "inch"): string {
  const figures = figuresIn(unit);
  const length = (name: string, budget: typeof x) => {
    const { value, standardUncertainty } = figures.result(budget);
    return `${name} ${value} ${figures.unit}${budget.standardUncertainty > 0 ? ` (u ${standardUncertainty})` : ""}`;
  };
  const turn = resultFigures(rotation, 180 / Math.PI, 4);
  const turnWords = turned
    ? ` and a turn of ${turn.value}°${rotation.standardUncertainty > 0 ? ` (u ${turn.standardUncertainty}°)` : ""}`
    : "";
  const worst = residuals.reduce((most, each) => (offOf(each) > offOf(most) ? each : most));
  const how = turned ? "shifted and turned" : "shifted alone";
  return [
    `One zero for all nests, ${how}: ${length("X", x)}, ${length("Y", y)}${turnWords} from the first nest's.`,
    `“${worst.id}” is then off most, by ${figures.length(offOf(worst))} ${figures.unit}.`,
    agreement(chiSquare),
  ].join(" ");
}

function offOf({ x, y }: NestFit["residuals"][number]): number {
  return Math.hypot(x.value, y.value);
}

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
      residuals.map((each) => [each.id, ...[each.x.value, each.y.value, offOf(each)].map(figures.length)]),
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
