import { describeProblem } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { MovedZero } from "../offsets/moveZero.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { figuresIn } from "./internals/figures.ts";

/** A zero moved to another point without touching again, as sentences: one for each axis, and what was taken of the turn. */
export function movedZeroSentences({ axes: moved, turn, distance }: MovedZero, unit: "mm" | "inch"): string[] {
  const figures = figuresIn(unit);
  const [x, y, z] = moved.map((each, i) => {
    if (!each.ok) return `${axes[i]}: ${each.problems.map((problem) => describeProblem({ ...problem, at: "" })).join(" ")}`;
    const { before, after, way } = each.value;
    const result = figures.result(after);
    return `${axes[i]} ${result.value} ${figures.unit} (u ${result.standardUncertainty}; before ${figures.result(before).standardUncertainty}), ${figures.length(way.value)} from the old zero${mostOf(way)}.`;
  }) as [string, string, string];
  return [x, y, z, ...turnSentence(turn, distance, figures.length(Math.abs(distance) / 1000), figures)];
}

/** What the way costs, in words; the sizes between and the turn are sources like any. */
function mostOf({ standardUncertainty, contributions: [first] }: Budget): string {
  return standardUncertainty === 0 || first === undefined ? "" : `; the way is in doubt most by ${first.source.label}`;
}

function turnSentence(turn: MovedZero["turn"], distance: number, perMilliradian: string, { unit }: { readonly unit: string }): string[] {
  if (turn === "strategy" || distance === 0) return [];
  if (turn === "all touches") return ["The strategy does not look at the turn; that of all touches of this part was taken for the way."];
  return [
    `No touch tells how the part is turned, so the way is taken along the machine's axes: each milliradian of turn moves the new zero by ${perMilliradian} ${unit} across the way, and that is not in these doubts.`,
  ];
}
