import type { Problem } from "../base/outcome.ts";
import type { Estimate, Heat, WarmBody } from "../equipment/heat.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { evidenceOf } from "./readEquipment.ts";
import type { Reading } from "./reading.ts";
import { RowReader } from "./rowReader.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** Shops, coolants and warm parts lie between these, °C (common practice, no source): tells degrees Fahrenheit from Celsius. */
const usualTemperature = { from: -10, to: 60 };
/** Coefficients of metals lie between these, 1e-6/K (common practice, no source; Invar 1, zinc 30): tells 0.0000236 from 23.6. */
const usualCoefficient = { from: 0.1, to: 60 };
const perMillion = 1e-6;

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
  const entry = heat[body];
  const temperature = readEstimate(`${body}.temperature`, entry.temperature, entry.temperatureUncertainty, "°C", usualTemperature, row);
  const coefficient = readEstimate(`${body}.coefficient`, entry.coefficient, entry.coefficientUncertainty, "1e-6/K", usualCoefficient, row);
  return (
    temperature &&
    coefficient && {
      temperature,
      coefficient: { value: coefficient.value * perMillion, standardUncertainty: coefficient.standardUncertainty * perMillion },
    }
  );
}

function readEstimate(
  entry: string,
  text: string,
  uncertainty: string,
  unit: string,
  usual: { readonly from: number; readonly to: number },
  row: RowReader,
): Estimate | undefined {
  const expected = `a number from ${usual.from} to ${usual.to}, in ${unit}`;
  if (text.trim() === "") {
    row.refuse(entry, {
      what: "expansion needs temperature and coefficient of both the part and the scales",
      expected,
      got: "",
      remedy: "state it, or leave all of them empty",
    });
    return undefined;
  }
  const value = row.take(entry, parseNumber(text))?.value;
  if (value !== undefined && !(value >= usual.from && value <= usual.to))
    row.refuse(entry, { what: "this is not to be expected in a workshop", expected, got: text });
  const doubt = uncertainty.trim() === "" ? 0 : row.take(`${entry}Uncertainty`, parseNumber(uncertainty))?.value;
  if (doubt !== undefined && !(doubt >= 0))
    row.refuse(`${entry}Uncertainty`, {
      what: "this cannot be negative",
      expected: "a standard uncertainty of 0 or more",
      got: uncertainty,
    });
  return value === undefined || doubt === undefined ? undefined : { value, standardUncertainty: doubt };
}
