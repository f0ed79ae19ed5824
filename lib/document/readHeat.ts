import type { Problem } from "../base/outcome.ts";
import { type Estimate, type Heat, sourceOfHeat, type WarmBody } from "../equipment/heat.ts";
import { millionthPerKelvin, toBaseUnit, type Unit, unit } from "../formula/units.ts";
import { budgetOf } from "../uncertainty/budget.ts";
import { evidenceOf } from "./readEquipment.ts";
import type { Reading } from "./reading.ts";
import { isShare, RowReader } from "./rowReader.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** What is stated of a temperature or a coefficient, and between which values it is to be expected, in `unit`. */
interface Expected {
  readonly unit: Unit;
  /** As a person reads it. */
  readonly words: string;
  readonly from: number;
  readonly to: number;
}

/** Shops, coolants and warm parts lie between these (common practice, no source): tells degrees Fahrenheit from Celsius. */
const temperatures: Expected = { unit: unit("degC"), words: "°C", from: -10, to: 60 };
/** Coefficients of metals lie between these (common practice, no source; Invar 1, zinc 30): tells 0.0000236 from 23.6. */
const coefficients: Expected = { unit: millionthPerKelvin, words: "1e-6/K", from: 0.1, to: 60 };

/** How warm part and scales are; undefined where nothing is stated, or it cannot be read. */
export function readHeat({ heat }: SetupDocument, reading: Reading, problems: Problem[]): Heat | undefined {
  const entries = [heat.part, heat.scale].flatMap((body) => Object.values(body));
  if (entries.every((text) => text.trim() === "")) return undefined;
  const row = new RowReader("heat", reading);
  const bodies = { part: readBody("part", heat, row), scale: readBody("scale", heat, row) };
  problems.push(...row.problems);
  const { part, scale } = bodies;
  if (row.failed || part === undefined || scale === undefined) return undefined;
  return { part, scale, evidence: evidenceOf(heat.evidence), takenOut: heat.expected === "taken out" };
}

function readBody(body: "part" | "scale", heat: SetupDocument["heat"], row: RowReader): WarmBody | undefined {
  const temperature = readEstimate(body, "temperature", heat, temperatures, row);
  const coefficient = readEstimate(body, "coefficient", heat, coefficients, row);
  return temperature && coefficient && { temperature, coefficient };
}

/** The estimate in base units; a bare number is in the unit that is usual. */
function readEstimate(
  body: "part" | "scale",
  quantity: "temperature" | "coefficient",
  heat: SetupDocument["heat"],
  { unit: usual, words, from, to }: Expected,
  row: RowReader,
): Estimate | undefined {
  const [entry, stated] = [`${body}.${quantity}`, `${body}.${quantity}Uncertainty`];
  const { [quantity]: text, [`${quantity}Uncertainty` as const]: uncertainty } = heat[body];
  const expected = `a number from ${from} to ${to}, in ${words}`;
  const doubtOf = (value: number | undefined) => {
    const doubt = uncertainty.trim() === "" ? 0 : readDoubt(quantity, stated, uncertainty, { value, usual }, row);
    if (doubt !== undefined && !(doubt >= 0))
      row.refuse(stated, { what: "this cannot be negative", expected: "a standard uncertainty of 0 or more", got: uncertainty });
    return doubt;
  };
  if (text.trim() === "") {
    // What cannot be read beside it is said at once; a share of nothing is not looked at.
    if (!isShare(uncertainty)) doubtOf(undefined);
    row.refuse(entry, {
      what: "expansion needs temperature and coefficient of both the part and the scales",
      expected,
      got: "",
      remedy: "state it, or leave all of them empty",
    });
    return undefined;
  }
  const source = sourceOfHeat(body, quantity, evidenceOf(heat.evidence));
  const read = row.doubtfulQuantity(entry, text, usual, source, { entry: stated, text: uncertainty });
  if (read !== undefined && !(read.value >= toBaseUnit(from, usual) && read.value <= toBaseUnit(to, usual)))
    row.refuse(entry, { what: "this is not to be expected in a workshop", expected, got: text });
  const doubt = doubtOf(read?.value);
  if (read === undefined || doubt === undefined) return undefined;
  row.give(source.id, read.doubtful);
  return { value: read.value, standardUncertainty: read.doubtful ? budgetOf(read.doubtful).standardUncertainty : doubt };
}

/** Of a coefficient also in per cent; a share of a temperature would rest on where its scale begins. */
function readDoubt(
  quantity: "temperature" | "coefficient",
  entry: string,
  text: string,
  { value, usual }: { readonly value: number | undefined; readonly usual: Unit },
  row: RowReader,
): number | undefined {
  if (!isShare(text)) return row.sureQuantity(entry, text, usual);
  if (quantity === "coefficient") return row.share(entry, text, { value, words: "the coefficient" });
  row.refuse(entry, {
    what: "a temperature has no doubt in per cent, since where its scale begins is a matter of choice",
    expected: "a standard uncertainty in kelvins",
    got: text,
  });
  return undefined;
}
