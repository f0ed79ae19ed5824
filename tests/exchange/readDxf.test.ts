import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { bringIn } from "../../lib/exchange/bringIn.ts";
import { taken, understood } from "./bringing.ts";

/** Pairs of group code and value as the lines of a file. */
const groups = (...pairs: readonly (readonly [code: number, value: string | number])[]) =>
  pairs.map(([code, value]) => `${code}\n${value}\n`).join("");
const section = (name: string, content: string) => `${groups([0, "SECTION"], [2, name])}${content}${groups([0, "ENDSEC"])}`;
const drawing = (entities: string, header = groups([9, "$INSUNITS"], [70, 4])) =>
  `${section("HEADER", header)}${section("ENTITIES", entities)}${groups([0, "EOF"])}`;
const circle = (x: string, y: string, radius: string, layer = "0") => groups([0, "CIRCLE"], [8, layer], [10, x], [20, y], [40, radius]);

// Codes of $INSUNITS from memory of the DXF reference; factors of ISO 80000-3 and the international inch of 25.4 mm.
describe("the unit of a drawing", () => {
  const placed = (code: string) => {
    const proposal = understood(drawing(circle("2.5", "-1.25", "0.125"), groups([9, "$INSUNITS"], [70, code])), newDocument());
    const [bore] = taken(proposal, newDocument()).part.elements;
    return [bore?.x, bore?.y, bore?.diameter];
  };
  // By hand: 2.5 cm = 25 mm; 2.5 m = 2500 mm; 2.5 ft = 30 in; 2.5 yd = 90 in; 2.5 mil = 0.0025 in.
  it.each([
    ["1", "inches", ["2.5 in", "-1.25 in", "0.25 in"]],
    ["2", "feet", ["30.0 in", "-15.00 in", "3 in"]],
    ["4", "millimetres", ["2.5", "-1.25", "0.25"]],
    ["5", "centimetres", ["25", "-12.5", "2.5"]],
    ["6", "metres", ["2500", "-1250", "250"]],
    ["9", "thousandths of an inch", ["0.0025 in", "-0.00125 in", "0.00025 in"]],
    ["10", "yards", ["90.0 in", "-45.00 in", "9 in"]],
    ["13", "micrometres", ["0.0025", "-0.00125", "0.00025"]],
    ["14", "decimetres", ["250", "-125", "25"]],
  ])("code %s is %s", (code, _, expected) => {
    expect(placed(code)).toEqual(expected);
  });

  it.each([
    ["3", "the drawing is in miles"],
    ["7", "the drawing is in kilometres"],
    ["21", "the drawing is in feet of the US survey"],
    ["99", "the drawing states its unit by a code that is not known"],
    ["mm", "the drawing does not state its unit as one code"],
  ])("code %s is refused by its name", (code, what) => {
    const proposal = bringIn(drawing(circle("1", "1", "1"), groups([9, "$INSUNITS"], [70, code])), newDocument());
    expect(proposal).toMatchObject({ ok: false, problems: [{ at: "line 8", what, got: code }] });
  });

  it.each([
    ["no code", ""],
    ["the code for none", groups([9, "$INSUNITS"], [70, 0])],
  ])("with %s is assumed, and every line asks", (_, header) => {
    const { lines, notes } = understood(drawing(circle("1", "1", "1") + circle("5", "1", "1"), header), newDocument());
    expect(lines.map(({ doubt }) => doubt)).toEqual([
      "the file does not say its unit, and millimetres are only assumed",
      "the file does not say its unit, and millimetres are only assumed",
    ]);
    expect(notes[0]).toBe("The file does not say its unit: millimetres are taken.");
  });
});
