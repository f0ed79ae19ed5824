import { describe, expect, it } from "vitest";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import { taken, touching, understood, whys } from "./bringing.ts";
import { documentOf } from "./demoEvaluations.ts";

const plate = documentOf({
  format: "datumbook",
  version: 2,
  unit: "mm",
  part: {
    elements: [
      { id: "left", kind: "face", outward: "-X", datum: "A" },
      { id: "right", kind: "face", outward: "+X" },
      { id: "front", kind: "face", outward: "-Y", datum: "B" },
      { id: "back", kind: "face", outward: "+Y" },
      { id: "top", kind: "face", outward: "+Z", datum: "C" },
      { id: "floor", kind: "face", outward: "+Z", made: "here", z: "-12" },
      { id: "step", kind: "face", outward: "+X", made: "here", x: "30" },
      { id: "hole 1", kind: "bore", diameter: "10", diameterTolerance: "+0.02 0", made: "here", x: "20", y: "20" },
      { id: "hole 2", kind: "bore", diameter: "6", diameterTolerance: "+0.02 0", made: "here", x: "60", y: "20" },
    ],
    dimensions: [
      { id: "length", from: "left", to: "right", axis: "X", nominal: "100", tolerance: "±0.1" },
      { id: "width", from: "front", to: "back", axis: "Y", nominal: "50", tolerance: "±0.1" },
    ],
    datumSystems: [{ id: "A-B", primary: "A", secondary: "B" }],
  },
  tools: [],
  touches: [],
  strategies: [],
});

describe("cells say everything that a row of the drawing needs:", () => {
  const text = [
    "characteristic;kind;element;from;datums;axis;nominal;tolerance;lower limit;length;also;unit",
    "depth;depth;floor;top;;;-12;0.1;;;;mm",
    "apart;distance;step;left;;X;30;0.05;;;;mm",
    "wall;wall thickness;hole 1;left;;;;;3;;;mm",
    "square;perpendicularity;step;floor;;;;0.02;;12;;mm",
    "slope;angle;step;left;;Z;;0.1;;;;deg",
    "material;position at maximum material;hole 1;;A-B;;;0.1;;;;mm",
    "pattern;position within the pattern;hole 1;;;;;0.05;;;hole 2;mm",
    "in inches;coordinate;step;;;X;1.18;0.002;;;;in",
  ].join("\n");
  const proposal = understood(text, plate);
  const document = taken(proposal, plate);

  it("nothing is left out, and no row asks but the one whose nominal is another", () => {
    expect(whys(proposal)).toEqual([]);
    // By hand: 1.18 in = 29.972 mm, and the step is at 30 mm.
    expect(proposal.lines.filter(({ doubt }) => doubt !== undefined).map(({ doubt }) => doubt)).toEqual([
      'the drawing of the setup has "step" at X 30 mm, and the nominal is 1.18 in',
    ]);
  });

  it("the setup reads each row as it was meant", () => {
    const parsed = parseDocument(JSON.stringify(document));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    const { setup, problems } = readSetup(parsed.value);
    expect(problems).toEqual([]);
    const read = new Map(setup.part.characteristics.map((each) => [each.id, each]));
    expect(read.get("depth")).toMatchObject({ kind: "distance", of: "floor", from: "top", axis: "Z", limits: { lower: -0.1, upper: 0.1 } });
    expect(read.get("apart")).toMatchObject({ of: "step", from: "left", axis: "X" });
    // By hand: the bore's wall is 20 - 10 / 2 = 15 mm thick, and may be 12 mm thinner.
    expect(read.get("wall")).toMatchObject({ kind: "wall thickness", of: "hole 1", from: "left", limits: { lower: -12 } });
    expect(read.get("square")).toMatchObject({ kind: "perpendicularity", of: "step", from: "floor" });
    // By hand: 0.1 deg = π / 1800.
    expect(read.get("slope")).toMatchObject({ kind: "angle", limits: { upper: expect.closeTo(Math.PI / 1800, 12) } });
    expect(read.get("material")).toMatchObject({ kind: "position", zone: 0.1, datums: { id: "A-B" }, atMaximumMaterial: { nominal: 10 } });
    expect(read.get("pattern, hole 2")).toMatchObject({ kind: "position within the pattern", pattern: ["hole 1", "hole 2"] });
    // By hand: 0.002 in = 0.0508 mm.
    expect(read.get("in inches")).toMatchObject({ limits: { upper: expect.closeTo(0.0508, 12) } });
  });
});

describe("a row with a measured value and a demand", () => {
  const text =
    "part,characteristic,kind,element,axis,nominal,tolerance,measured\n1,place,coordinate,slot,X,30,0.05,30.013\n2,place,coordinate,slot,X,30,0.05,29.991\n";
  it("keeps both, and what each part repeats is demanded once", () => {
    const { part, madeParts } = taken(understood(text));
    expect(part.characteristics.slice(1)).toEqual([
      expect.objectContaining({ id: "place", kind: "coordinate", of: "slot", axis: "X", tolerance: "±0.05" }),
    ]);
    // By hand: 30.013 - 30 and 29.991 - 30.
    expect(madeParts.measured.map(({ part, element, x }) => [part, element, x])).toEqual([
      ["1", "slot", "0.013"],
      ["2", "slot", "-0.009"],
    ]);
  });
  it("keeps the measured value where the demand cannot be read, and says why", () => {
    const proposal = understood("part,characteristic,kind,nominal,measured\n1,slot x,coordinate,30,30.01\n2,slot x,roundness,30,30.02\n");
    expect(taken(proposal).madeParts.measured.map(({ x }) => x)).toEqual(["0.01", "0.02"]);
    expect(whys(proposal)).toEqual([
      'row 2: "slot x": its tolerance is not there as numbers',
      'row 3: "slot x": a setup has no characteristic of kind "roundness"',
    ]);
  });
  it("tells cells that say nothing there", () => {
    expect(whys(understood("part,characteristic,axis,nominal,measured\n1,slot x,X,30,30.01\n"))).toEqual([
      expect.stringContaining('row 2: "slot x": axis: nothing is known of it'),
    ]);
    expect(whys(understood("characteristic,kind,element,from,length,tolerance\na,position,bore,end,5,0.1\n"))).toEqual([
      expect.stringContaining('"a": from, length: nothing is known of it'),
    ]);
  });
  it("of one name for two places is asked about by none of them", () => {
    const twice =
      "part,characteristic,kind,element,axis,nominal,tolerance,measured\n1,p,coordinate,slot,X,30,0.05,30.01\n1,p,coordinate,end,X,0,0.05,0.02\n";
    expect(whys(understood(twice)).filter((why) => why.includes("several characteristics of this name"))).toHaveLength(2);
  });
});

describe("units and numbers of cells", () => {
  it("go by row, and a row without one among several is left out", () => {
    const proposal = understood(
      "characteristic,kind,element,axis,tolerance,unit\na,coordinate,slot,X,0.002,in\nb,coordinate,slot,X,0.05,mm\nc,coordinate,slot,X,0.05,\nd,coordinate,slot,X,0.05,cubit\n",
    );
    expect(proposal.lines.map(({ becomes }) => becomes)).toEqual([expect.stringContaining("±0.002 in"), expect.stringContaining("±0.05;")]);
    expect(whys(proposal)).toEqual([
      `row 4: "c": no unit, where other rows state another than the setup's`,
      'row 5: "d": unit "cubit": mm or in',
    ]);
  });
  it("that can be read in two ways are not taken", () => {
    expect(whys(understood('characteristic,kind,element,axis,nominal,tolerance\na,coordinate,slot,X,"12,500",0.1\n'))).toEqual([
      expect.stringContaining("the comma can be a decimal mark (12.500) or a thousands mark (12500)"),
    ]);
  });
});

describe("what is proposed asks", () => {
  const measured = "part,characteristic,measured,nominal\n3,slot x,29.991,30\n";
  it("where the made part has a row for the element already, which would count twice", () => {
    const once = taken(understood(measured));
    expect(understood(measured, once).lines[0]?.doubt).toBe('row "3 slot" has slot of 3 already, and it would count twice');
  });
  it("where a made part was measured from a datum system, and not in the drawing's frame", () => {
    const [first] = touching.part.characteristics;
    if (first === undefined) throw new Error("the setup has a characteristic");
    const byDatums = { ...touching, part: { ...touching.part, characteristics: [{ ...first, datums: "S" }] } };
    expect(understood(measured, byDatums).lines[0]?.doubt).toBe(
      '"slot x" is measured from the datum system "S", and made parts are told in the drawing\'s frame',
    );
  });
  it("where its nominal is not where the drawing of the setup has the element", () => {
    expect(understood(measured).lines[0]?.doubt).toBeUndefined();
    expect(understood(measured.replace(",30\n", ",29.9\n")).lines[0]?.doubt).toBe(
      'the drawing of the setup has "slot" at X 30 mm, and the nominal is 29.9 mm',
    );
    expect(
      understood("characteristic,kind,element,from,axis,nominal,tolerance\na,distance,slot,end,X,31,0.1\n", touching).lines[0]?.doubt,
    ).toBe('the drawing of the setup has "slot" and "end" 30 mm apart, and the nominal is 31 mm');
  });
});
