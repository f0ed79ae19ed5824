import { expect, it } from "vitest";
import { mm } from "../../lib/base/quantity.ts";
import { readOffsetsBack } from "../../lib/exchange/readOffsetsBack.ts";
import { compareOffsets } from "../../lib/offsets/compareOffsets.ts";
import type { Controller } from "../../lib/offsets/enteredOffset.ts";
import { evaluateOffsets } from "../../lib/offsets/offsetTable.ts";
import { registerDigits } from "../../lib/offsets/offsetText.ts";
import { logOf } from "../offsets/logs.ts";
import { must } from "../properties/setups.ts";

const metric: Controller = { controllerUnit: "mm", decimals: 3, offsetStep: mm(0) };
const inches: Controller = { controllerUnit: "inch", decimals: 4, offsetStep: mm(0) };

/** The table has G54 X -412.607 Y -413 Z -118.4, and a text comes back from a control. */
function compared(text: string, controller = metric) {
  const table = evaluateOffsets(logOf([{ kind: "measured zero", register: "G54", values: [-412.607, -413, -118.4] }]));
  if (table === undefined) throw new Error("the log has a row");
  const digits = registerDigits(table, { controller });
  const read = must(readOffsetsBack(text, controller.controllerUnit));
  const { differences, agreeing, coarse } = compareOffsets(digits, read, controller);
  return { agreeing, coarse, differing: differences.map(({ axis, read }) => `${axis} ${read}`) };
}

const streams = (x: string, y = "-413", z = "-118.4") =>
  `<MTConnectStreams><Streams><DeviceStream><ComponentStream><Events><WorkOffsetTable><Entry key="G54"><Cell key="X">${x}</Cell><Cell key="Y">${y}</Cell><Cell key="Z">${z}</Cell></Entry></WorkOffsetTable></Events></ComponentStream></DeviceStream></Streams></MTConnectStreams>`;

// XML Schema 1.0, part 2, 3.2.4 (from memory): a float has one value however its digits are written; -413 is -413.000.
it("a float of a file is compared by the digits of the table, not rounded to those that it happens to have", () => {
  expect(compared(streams("-412.607"))).toEqual({ agreeing: 3, coarse: 0, differing: [] });
  expect(compared(streams("-412.6"))).toEqual({ agreeing: 2, coarse: 0, differing: ["X -412.6"] });
  expect(compared(streams("-413"))).toEqual({ agreeing: 2, coarse: 0, differing: ["X -413"] });
  expect(compared(streams("-412.608"))).toEqual({ agreeing: 2, coarse: 0, differing: ["X -412.608"] });
});

it("a float with the noise of a conversion is the value that was typed", () => {
  expect(compared(streams("-412.60699999", "-4.13e2", "-118.40000153"))).toEqual({ agreeing: 3, coarse: 0, differing: [] });
});

it("a float in millimetres meets a table in inches within half of its last digit", () => {
  // By hand: -412.607 / 25.4 = -16.244370..., typed as -16.2444, which is -412.60776 mm; -16.2598 is -412.99892 mm; -4.6614 is -118.39956 mm.
  expect(compared(streams("-412.60776", "-412.99892", "-118.39956"), inches)).toEqual({ agreeing: 3, coarse: 3, differing: [] });
  // One step of the table off: -16.2445 in.
  expect(compared(streams("-412.6103", "-412.99892", "-118.39956"), inches).differing).toEqual(["X -412.6103"]);
  expect(compared(streams("-412.6", "-412.99892", "-118.39956"), inches).differing).toEqual(["X -412.6"]);
});

it("a number with a comma is none of a file: it could be a decimal comma or a thousands mark", () => {
  const read = readOffsetsBack(streams("-412,607"), "mm");
  expect(read.ok && read.value.leftOut.map(({ what }) => what)).toEqual(["X -412,607 of G54: no coordinate of a setup"]);
});

it("in a text whose numbers have different decimals, zeros were left out and nothing was rounded", () => {
  expect(compared("G54 X-412.6 Y-413.000 Z-118.4 ").differing).toEqual(["X -412.6"]);
  expect(compared("G54 X-412.61 Y-413.0 Z-118.40")).toEqual({ agreeing: 3, coarse: 3, differing: [] });
});
