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

const line = (from: readonly [number, number], to: readonly [number, number], layer = "0", lineType?: string) =>
  groups(
    [0, "LINE"],
    [8, layer],
    ...(lineType === undefined ? [] : [[6, lineType] as const]),
    [10, from[0]],
    [20, from[1]],
    [11, to[0]],
    [21, to[1]],
  );
const rectangle = (x: number, y: number, layer: string, at = 0) =>
  line([at, at], [x, at], layer) + line([x, at], [x, y], layer) + line([x, y], [at, y], layer) + line([at, y], [at, at], layer);
/** Vertices, each with the bulge of the segment behind it. */
const outline = (isClosed: boolean, ...vertices: readonly (readonly [x: number, y: number, bulge?: number])[]) =>
  groups(
    [0, "LWPOLYLINE"],
    [8, "0"],
    [90, vertices.length],
    [70, isClosed ? 1 : 0],
    ...vertices.flatMap(([x, y, bulge]) => [[10, x] as const, [20, y] as const, ...(bulge === undefined ? [] : [[42, bulge] as const])]),
  );
const becoming = (text: string, ...layers: readonly string[]) => {
  const proposal = bringIn(text, newDocument(), "dxf", layers.length === 0 ? {} : { layers });
  if (!proposal.ok) throw new Error(JSON.stringify(proposal.problems));
  return proposal.value;
};
/** Outermost places of the faces that are proposed, and what is asked about them. */
const facesOf = (text: string, ...layers: readonly string[]) =>
  becoming(text, ...layers).lines.map(
    ({ read, doubt }) => `${read.replace("outermost lines at ", "")}${doubt === undefined ? "" : ` (${doubt})`}`,
  );

// Group codes of LWPOLYLINE, ARC and of the table of layers from memory of the DXF reference; a bulge is the tangent of a quarter of the angle.
describe("an outline of a drawing", () => {
  const quarter = Math.tan(Math.PI / 8);

  it("that is closed has a line from its last vertex to its first", () => {
    const vertices = [
      [0, 0],
      [80, 0],
      [80, 50],
      [0, 50],
    ] as const;
    expect(facesOf(drawing(outline(true, ...vertices)))).toEqual(["X 0 and X 80 mm", "Y 0 and Y 50 mm"]);
    // Open, its fourth side is missing.
    expect(facesOf(drawing(outline(false, ...vertices)))).toEqual(["Y 0 and Y 50 mm"]);
  });

  it("with rounded corners has its straight sides as faces, and each arc is listed with its radius", () => {
    const rounded = outline(
      true,
      [5, 0],
      [75, 0, quarter],
      [80, 5],
      [80, 45, quarter],
      [75, 50],
      [5, 50, quarter],
      [0, 45],
      [0, 5, quarter],
    );
    const { lines, leftOut } = becoming(drawing(rounded));
    expect(lines.map(({ read, doubt }) => [read, doubt])).toEqual([
      ["outermost lines at X 0 and X 80 mm", undefined],
      ["outermost lines at Y 0 and Y 50 mm", undefined],
    ]);
    expect(leftOut.map(({ what }) => what)).toEqual(
      Array.from({ length: 4 }, () => expect.stringMatching(/^an arc of radius 5: whether it rounds a corner/)),
    );
  });

  it("that ends in an arc has no face there, and asks", () => {
    // A half circle of radius 25 bulges out to X 105 beside straight sides at X 0 and a step at X 80.
    const round = outline(true, [0, 0], [80, 0, 1], [80, 50], [0, 50]);
    const step = line([80, 10], [80, 20]);
    expect(facesOf(drawing(round + step))).toEqual([
      expect.stringMatching(/^X 0 and X 80 mm \(the arc of line \d+ reaches beyond the outermost line\)$/),
      "Y 0 and Y 50 mm",
    ]);
    // The same as an entity ARC, from -90 to 90 degrees about 80, 25; the other half does not reach beyond.
    const arc = (from: number, to: number) => groups([0, "ARC"], [8, "0"], [10, 80], [20, 25], [40, 25], [50, from], [51, to]);
    const open = rectangle(80, 50, "0");
    expect(facesOf(drawing(open + arc(270, 90)))[0]).toContain("reaches beyond the outermost line");
    expect(facesOf(drawing(open + arc(90, 270)))).toEqual(["X 0 and X 80 mm", "Y 0 and Y 50 mm"]);
  });

  it("whose vertices are not all numbers is left out", () => {
    const { lines, leftOut } = becoming(drawing(outline(true, [0, 0], [Number.NaN, 0], [80, 50])));
    expect([lines, leftOut.map(({ what }) => what)]).toEqual([[], ["LWPOLYLINE without all its coordinates as numbers"]]);
  });
});

describe("layers of a drawing", () => {
  const text = drawing(
    rectangle(80, 50, "part") +
      rectangle(287, 200, "frame", -10) +
      circle("20", "20", "4", "part") +
      circle("40", "25", "15", "pitch circles"),
  );

  it("ask where lines or circles are on several, until they are chosen", () => {
    const { lines, layers } = becoming(text);
    expect(layers).toEqual([
      { name: "part", has: "4 lines, 1 circle", isTaken: true },
      { name: "frame", has: "4 lines", isTaken: true },
      { name: "pitch circles", has: "1 circle", isTaken: true },
    ]);
    expect(lines.map(({ doubt }) => doubt)).toEqual([
      'circles are on layers "part", "pitch circles": choose those of the part',
      'circles are on layers "part", "pitch circles": choose those of the part',
      'lines are on layers "part", "frame": choose those of the part',
      'lines are on layers "part", "frame": choose those of the part',
    ]);
  });

  it("that are chosen are taken alone, the others are listed", () => {
    const { lines, leftOut, layers } = becoming(text, "part");
    expect(lines.map(({ read, doubt }) => [read, doubt])).toEqual([
      ["circle at X 20, Y 20, radius 4 mm, layer part", undefined],
      ["outermost lines at X 0 and X 80 mm", undefined],
      ["outermost lines at Y 0 and Y 50 mm", undefined],
    ]);
    expect(leftOut).toEqual([
      { at: 'layer "frame"', what: "4 lines: not chosen" },
      { at: 'layer "pitch circles"', what: "1 circle: not chosen" },
    ]);
    expect(layers?.map(({ isTaken }) => isTaken)).toEqual([true, false, false]);
  });

  it("that the drawing does not show are left, and so are line types of no edge", () => {
    const layer = (name: string, flags: number, colour: number, lineType = "CONTINUOUS") =>
      groups([0, "LAYER"], [2, name], [70, flags], [62, colour], [6, lineType]);
    const tables = section(
      "TABLES",
      groups([0, "TABLE"], [2, "LAYER"]) +
        layer("off", 0, -7) +
        layer("frozen", 1, 7) +
        layer("axes", 0, 7, "CENTER2") +
        groups([0, "ENDTAB"]),
    );
    const hidden =
      tables +
      drawing(
        rectangle(80, 50, "0") +
          rectangle(90, 60, "off") +
          rectangle(95, 65, "frozen") +
          line([100, 0], [100, 50], "axes") +
          line([110, 0], [110, 50], "0", "PHANTOM"),
      );
    expect(facesOf(hidden)).toEqual(["X 0 and X 80 mm", "Y 0 and Y 50 mm"]);
    expect(becoming(hidden).leftOut.map(({ what }) => what)).toEqual([
      "LINE of line type CENTER2, which no edge of a part has",
      "LINE of line type PHANTOM, which no edge of a part has",
      "4 lines: the drawing does not show it",
      "4 lines: the drawing does not show it",
    ]);
    // Chosen by name, what is off is taken.
    expect(facesOf(hidden, "off")).toEqual(["X 0 and X 90 mm", "Y 0 and Y 60 mm"]);
  });

  it("that nobody could choose from are refused", () => {
    const many = drawing(Array.from({ length: 501 }, (_, i) => circle(String(i), "0", "1", `l${i}`)).join(""));
    expect(bringIn(many, newDocument())).toMatchObject({
      ok: false,
      problems: [{ what: "the drawing has things on 501 layers", expected: "at most 500" }],
    });
  });

  it("that are not there, or of a text that has none, are refused", () => {
    expect(bringIn(text, newDocument(), "dxf", { layers: ["parts"] })).toMatchObject({
      ok: false,
      problems: [{ at: "layers", expected: "part, frame, pitch circles", got: "parts" }],
    });
    expect(bringIn("X 1.0", newDocument(), "lines", { layers: ["part"] })).toMatchObject({
      ok: false,
      problems: [{ what: "only a drawing has layers" }],
    });
  });
});
