import { failure, type Outcome, success } from "../base/outcome.ts";
import { type ReadOffsets, readOffsetText } from "../offsets/readOffsetText.ts";
import type { LeftOut } from "./proposal.ts";
import { readMtconnect } from "./readMtconnect.ts";
import { readXml } from "./readXml.ts";

/**
 * Offsets that were read back from a machine, whatever they come in: text (`readOffsetText`), or an MTConnect streams document with a table of work offsets, whose
 * values are plain numbers in millimetres (`-413` is -413.000) and whose other columns and rows are told. Nothing is left out of a text: it is refused where it is
 * not understood.
 */
export function readOffsetsBack(
  text: string,
  controllerUnit: "mm" | "inch",
): Outcome<ReadOffsets & { readonly leftOut: readonly LeftOut[] }> {
  if (!text.trimStart().startsWith("<")) {
    const read = readOffsetText(text, controllerUnit);
    return read.ok ? success({ ...read.value, leftOut: [] }) : read;
  }
  const root = readXml(text);
  if (!root.ok) return root;
  const streams = readMtconnect(root.value);
  if (!streams.ok) return streams;
  const { registers, leftOutOfRegisters: leftOut } = streams.value;
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
      what:
        leftOut.length === 0
          ? "the document has no table of work offsets"
          : `the document has no work offset that can be read: ${leftOut[0]?.what}`,
      expected: "an element such as WorkOffsetTable with an entry for each register",
    });
  return success({
    form: "cells",
    leftOut,
    unit: "mm",
    unitStated: true,
    offsets: registers.flatMap(({ at, register, values }) =>
      [...values].map(([axis, { digits }]) => ({
        register,
        axis,
        text: digits,
        decimals: undefined,
        value: Number(digits),
        line: Number(at.replace(/\D/g, "")),
      })),
    ),
  });
}
