import { axes } from "../base/vector.ts";
import type { TurnedFeature } from "../offsets/turnedFeatures.ts";
import { signsAfterTurn, type TurnedPart } from "../offsets/turnedOver.ts";
import { figuresIn } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";

/** Which signs a turn changes, and from which faces the coordinates count then. */
export function turnedSentence({ about, across }: TurnedPart, unit: "mm" | "inch"): string {
  const figures = figuresIn(unit);
  const changed = axes.filter((_, i) => signsAfterTurn(about)[i] === -1);
  const sides = changed.map((axis) => {
    const size = across[axes.indexOf(axis)];
    return size === undefined
      ? `${axis} from the same face`
      : `${axis} from the opposite face, which was at ${figures.length(size.value)} ${figures.unit}`;
  });
  return `Turned about ${about}: ${changed.join(" and ")} change their sign, ${sides.join(", ")}.`;
}

/** An element a line: its name, and value and standard uncertainty along X, Y and Z. */
export function turnedRows(features: readonly TurnedFeature[], unit: "mm" | "inch", nothing: string): string[][] {
  const figures = figuresIn(unit);
  return features.map(({ element, place }) => [
    element,
    ...place.flatMap((budget) => {
      if (budget === undefined) return [nothing, nothing];
      const { value, standardUncertainty } = figures.result(budget);
      return [value, standardUncertainty];
    }),
  ]);
}

/** Elements of a turned part in the coordinates of the next operation, as plain text. */
export function turnedFeaturesText(features: readonly TurnedFeature[], turn: TurnedPart, unit: "mm" | "inch"): string[] {
  return [
    turnedSentence(turn, unit),
    ...textTable(
      [
        { title: "element", align: "left" },
        ...axes.flatMap((axis) => [{ title: axis, align: "right" } as const, { title: "u", align: "right" } as const]),
      ],
      turnedRows(features, unit, "-"),
    ),
  ];
}
