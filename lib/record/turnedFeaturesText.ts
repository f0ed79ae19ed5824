import { axes } from "../base/vector.ts";
import type { TurnedFeature } from "../offsets/turnedFeatures.ts";
import { signsAfterTurn, type TurnedPart } from "../offsets/turnedOver.ts";
import { figuresIn } from "./internals/figures.ts";
import { textTable } from "./internals/textTable.ts";

/** Elements of a turned part in the coordinates of the next operation, as plain text. */
export function turnedFeaturesText(features: readonly TurnedFeature[], { about, across }: TurnedPart, unit: "mm" | "inch"): string[] {
  const figures = figuresIn(unit);
  const changed = axes.filter((_, i) => signsAfterTurn(about)[i] === -1);
  const sides = changed.map((axis) => {
    const size = across[axes.indexOf(axis)];
    return size === undefined
      ? `${axis} from the same face`
      : `${axis} from the opposite face, ${figures.length(size.value)} ${figures.unit} away`;
  });
  const rows = features.map(({ element, place }) => [
    element,
    ...place.flatMap((budget) => {
      if (budget === undefined) return ["-", "-"];
      const { value, standardUncertainty } = figures.result(budget);
      return [value, standardUncertainty];
    }),
  ]);
  return [
    `Turned about ${about}: ${changed.join(" and ")} change their sign, ${sides.join(", ")}.`,
    ...textTable(
      [
        { title: "element", align: "left" },
        ...axes.flatMap((axis) => [{ title: axis, align: "right" } as const, { title: "u", align: "right" } as const]),
      ],
      rows,
    ),
  ];
}
