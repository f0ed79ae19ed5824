import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import { type DisplayUnit, writerOf } from "./displayUnit.ts";
import type { FigureTable } from "./figureTable.ts";
import { outcomeInWords } from "./outcomeInWords.ts";

/** The table behind `fixturePlan`: every contact with what its metal may be off, and how every characteristic follows it. */
export function fixturePlanTable({ setup, fixture }: SetupEvaluation, { unit }: { readonly unit: DisplayUnit }): FigureTable {
  const writer = writerOf(unit);
  const caption = "Locators: what they err by, and by how much that moves each characteristic";
  if (fixture?.located.ok !== true) {
    const reason =
      fixture?.located.ok === false ? `not known: ${outcomeInWords(fixture.located.problems)}` : "nothing is stated of the fixture";
    return { caption, columns: ["locator"], rows: [[reason]] };
  }
  const { location, errors, sensitivities } = fixture.located.value;
  const components = sensitivities.flatMap((each, i) =>
    each.map(({ axis, weights }) => ({ name: `${setup.part.characteristics[i]?.id ?? ""}${each.length > 1 ? ` ${axis}` : ""}`, weights })),
  );
  return {
    caption,
    columns: ["locator", "holds along", "off", "standard uncertainty", ...components.map(({ name }) => `${name}, per unit`)],
    rows: location.contacts.map(({ label, normal }, i) => {
      const budget = errors[i];
      const written = budget && writer.withUncertainty(budget.value, budget.standardUncertainty);
      const k = location.layout.bearing.indexOf(i);
      return [
        label,
        normal.map((value) => String(Math.round(value * 1000) / 1000 + 0)).join(", "),
        written ? `${written.value}${writer.suffix}` : "",
        written ? `${written.uncertainty}${writer.suffix}` : "",
        ...components.map(({ weights }) =>
          weights === undefined ? "not known" : k < 0 ? "0" : (weights[k] as number).toFixed(3).replace("-", "−"),
        ),
      ];
    }),
  };
}
