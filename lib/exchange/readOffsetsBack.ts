import { failure, type Outcome, success } from "../base/outcome.ts";
import { type ReadOffsets, readOffsetText } from "../offsets/readOffsetText.ts";
import { readMtconnect } from "./readMtconnect.ts";
import { readXml } from "./readXml.ts";

/**
 * Offsets that were read back from a machine, whatever they come in: text (`readOffsetText`), or an MTConnect streams document with a table of work offsets, whose
 * values are in millimetres.
 */
export function readOffsetsBack(text: string, controllerUnit: "mm" | "inch"): Outcome<ReadOffsets> {
  if (!text.trimStart().startsWith("<")) return readOffsetText(text, controllerUnit);
  const root = readXml(text);
  if (!root.ok) return root;
  const streams = readMtconnect(root.value);
  if (!streams.ok) return streams;
  const { registers } = streams.value;
  const twice = registers.find(({ register }, i) => registers.findIndex((each) => each.register === register) < i);
  if (twice !== undefined)
    return failure({
      at: twice.at,
      what: `${twice.register} is stated twice`,
      expected: "each register once",
      remedy: "ask the agent for current",
    });
  if (registers.length === 0)
    return failure({
      at: "",
      what: "the document has no table of work offsets",
      expected: "an element such as WorkOffsetTable with an entry for each register",
    });
  return success({
    form: "cells",
    unit: "mm",
    unitStated: true,
    offsets: registers.flatMap(({ at, register, values }) =>
      [...values].map(([axis, { digits }]) => ({
        register,
        axis,
        text: digits,
        decimals: digits.split(".")[1]?.length ?? 0,
        value: Number(digits),
        line: Number(at.replace(/\D/g, "")),
      })),
    ),
  });
}
