import { failure, type Outcome, success } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import { withheld } from "../datum/locatePart.ts";
import { measureFaces } from "../datum/measureFaces.ts";
import { measureSizes } from "../datum/measureSizes.ts";
import { lengthOf, radiusOf, thicknessOf } from "../equipment/toolSources.ts";
import { angleDimension, type Dimension, lengthDimension } from "../formula/dimension.ts";
import { nameOf } from "../ledger/cellNames.ts";
import type { CellLookup, Quantity } from "../ledger/cellValue.ts";
import { type Characteristic, isRound, rowOf, unitOf } from "../part/part.ts";
import { deviations, type View } from "../tolerance/deviations.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { quantityEndings } from "./quantityNames.ts";
import type { SetupEvaluation, StrategyEvaluation } from "./setupEvaluation.ts";

/** A quantity of the setup that formulas can name. */
export interface SetupQuantity {
  /** As formulas spell it: `left_face`, `zero_X`, `hole_1_deviation_X`. */
  readonly name: string;
  /** What it is, in words. */
  readonly describes: string;
  /** The entry of the document that it belongs to. */
  readonly of: string;
  /** Worked out when first asked for. */
  value(): Outcome<Quantity>;
}

/**
 * Everything in a setup that a formula can use by name: what is known of tools
 * and spacers, every touched face, measured sizes, the zero of every strategy
 * and of the chosen one, and the deviations of the characteristics. They are
 * made of the setup's own sources, so that what a formula shares with the zero
 * cancels or adds as it should.
 */
export function setupQuantities(evaluation: SetupEvaluation, chosen: Outcome<StrategyEvaluation>): ReadonlyMap<string, SetupQuantity> {
  const quantities = new Map<string, SetupQuantity>();
  for (const quantity of [
    ...equipmentQuantities(evaluation),
    ...faceQuantities(evaluation),
    ...plannedQuantities(evaluation),
    ...sizeQuantities(evaluation),
    ...zeroQuantities("", "the chosen strategy", "chosen", chosen),
    ...evaluation.strategies.flatMap(({ id, evaluation: each }) => zeroQuantities(id, `"${id}"`, `strategies.${id}`, each)),
    ...deviationQuantities(evaluation, chosen),
    ...unreadQuantities(evaluation),
  ]) {
    const other = quantities.get(quantity.name);
    quantities.set(quantity.name, other === undefined ? quantity : twice(other, quantity));
  }
  return quantities;
}

/** What formulas look names of the setup up in. */
export interface QuantityLookup extends CellLookup {
  /** What is called so, and where it belongs. */
  about(name: string): Pick<SetupQuantity, "describes" | "of"> | undefined;
}

/** The same as what formulas look names up in; every value is made once. */
export function lookupQuantities(quantities: ReadonlyMap<string, SetupQuantity>): QuantityLookup {
  const made = new Map<string, Outcome<Quantity>>();
  return {
    get: (name) => {
      const quantity = quantities.get(name);
      if (quantity === undefined) return undefined;
      const value = made.get(name) ?? quantity.value();
      made.set(name, value);
      return value;
    },
    keys: () => quantities.keys(),
    about: (name) => quantities.get(name),
  };
}

function equipmentQuantities({ setup, location: { book } }: SetupEvaluation): SetupQuantity[] {
  const { tools, spacers } = setup;
  const quantities = [
    ...tools.flatMap((tool) => {
      const { id, radius, length } = tool;
      const of = `tools.${id}`;
      return [
        ...(radius === undefined ? [] : [sure([id, "radius"], `effective radius of ${id}`, of, () => radiusOf(tool, radius, book))]),
        ...(length === undefined ? [] : [sure([id, "length"], `length of ${id}`, of, () => lengthOf(tool, length, book))]),
      ];
    }),
    ...spacers.map((spacer) =>
      sure([spacer.id, "thickness"], `thickness of ${spacer.id}`, `spacers.${spacer.id}`, () => thicknessOf(spacer, book)),
    ),
  ];
  if (!setup.unread.has("correlations")) return quantities;
  return quantities.map((quantity) => ({ ...quantity, value: () => failure(...[withheld(setup, "correlations") ?? []].flat()) }));
}

function faceQuantities({ location }: SetupEvaluation): SetupQuantity[] {
  return measureFaces(location).map(({ touch, element, axis, coordinate }) =>
    sure([touch, "face"], `${axis} of ${element} in the machine, by the touch ${touch}`, `touches.${touch}`, () => coordinate),
  );
}

/** Faces that are still to be touched: their names are known, and why they have no value. */
function plannedQuantities({ setup: { planned } }: SetupEvaluation): SetupQuantity[] {
  return planned.map(({ id, element }) => ({
    name: nameOf(id, "face"),
    describes: `the place of ${element} in the machine, by the touch ${id}`,
    of: `touches.${id}`,
    value: () =>
      failure({ at: `touches.${id}.readings`, what: `"${id}" has not been touched yet`, remedy: "type its readings when they are taken" }),
  }));
}

function sizeQuantities({ location }: SetupEvaluation): SetupQuantity[] {
  return measureSizes(location).map(({ id, size }) =>
    sure([id, "size"], `${id} of this part, by the touches`, `part.dimensions.${id}`, () => size),
  );
}

function zeroQuantities(id: string, whose: string, of: string, evaluation: Outcome<StrategyEvaluation>): SetupQuantity[] {
  const prefix = id === "" ? [] : [id];
  return [
    ...axes.map((axis, i) => ({
      name: nameOf(...prefix, "zero", axis),
      describes: `${axis} of part zero in the machine, by ${whose}`,
      of,
      value: () =>
        evaluation.ok ? found(evaluation.value.zero[i], evaluation.value.solution.fromReadings.zero[i], lengthDimension) : evaluation,
    })),
    {
      name: nameOf(...prefix, "turn"),
      describes: `turn of the part about Z, by ${whose}`,
      of,
      value: () =>
        evaluation.ok ? found(evaluation.value.rotation, evaluation.value.solution.fromReadings.rotation, angleDimension) : evaluation,
    },
  ];
}

function deviationQuantities({ location, setup: { part } }: SetupEvaluation, chosen: Outcome<StrategyEvaluation>): SetupQuantity[] {
  return (["thisPart", "batch"] as const).flatMap((view: View) => {
    let all: ReturnType<typeof deviations> | undefined;
    const deviation = (index: number, component: number): Outcome<Quantity> => {
      if (!chosen.ok) return chosen;
      all ??= deviations(chosen.value.solution, location, view);
      const outcome = all[index] as ReturnType<typeof deviations>[number];
      const dimension = unitOf(part.characteristics[index] as Characteristic) === "rad" ? angleDimension : lengthDimension;
      return outcome.ok ? success(quantity(outcome.value[component] as Uncertain, dimension)) : outcome;
    };
    return part.characteristics.flatMap((characteristic, index) =>
      (isRound(characteristic) ? ["X", "Y"] : [""]).map((axis, component) => ({
        name: nameOf(characteristic.id, "deviation", ...(axis === "" ? [] : [axis]), ...(view === "batch" ? ["in_the_batch"] : [])),
        describes: `deviation of ${characteristic.id}${axis === "" ? "" : ` along ${axis}`}, ${view === "batch" ? "the batch" : "this part"}`,
        of: `part.characteristics.${rowOf(characteristic)}`,
        value: () => deviation(index, component),
      })),
    );
  });
}

/** What rows that cannot be read would have given: their names are known, and why they have no value. */
function unreadQuantities({ setup: { unread } }: SetupEvaluation): SetupQuantity[] {
  const endings: Readonly<Record<string, readonly string[]>> = quantityEndings;
  return [...unread].flatMap((of) => {
    const dot = of.indexOf(".");
    return (endings[of.slice(0, dot)] ?? []).map((ending) => ({
      name: nameOf(of.slice(dot + 1), ending),
      describes: `${ending} of ${of.slice(dot + 1)}`,
      of,
      value: () => failure({ at: of, what: `"${of.slice(dot + 1)}" cannot be read`, remedy: "see what is said there" }),
    }));
  });
}

function sure(words: readonly string[], describes: string, of: string, value: () => Uncertain): SetupQuantity {
  return { name: nameOf(...words), describes, of, value: () => success(quantity(value(), lengthDimension)) };
}

/** The value itself, where its budget could be told. */
function found(budget: Outcome<unknown> | undefined, value: Uncertain | undefined, dimension: Dimension): Outcome<Quantity> {
  if (budget?.ok === false) return budget;
  return value === undefined ? failure({ at: "", what: "this is not determined" }) : success(quantity(value, dimension));
}

function quantity(value: Uncertain, dimension: Dimension): Quantity {
  return { kind: "quantity", value, dimension };
}

function twice(one: SetupQuantity, other: SetupQuantity): SetupQuantity {
  return {
    ...one,
    describes: `${one.describes}; or ${other.describes}`,
    value: () =>
      failure({
        at: other.of,
        what: `"${one.name}" could be the ${one.describes}, or the ${other.describes}`,
        remedy: "rename one of them",
      }),
  };
}
