import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newDocument } from "../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { bringIn, type ExchangeKind } from "../../lib/exchange/bringIn.ts";
import { documentFragment } from "../../lib/exchange/documentFragment.ts";
import { dsiText } from "../../lib/exchange/dsiText.ts";
import { exchangedResults } from "../../lib/exchange/exchangedResults.ts";
import { takeLines } from "../../lib/exchange/proposal.ts";
import { readDsi } from "../../lib/exchange/readDsi.ts";
import { readOffsetsBack } from "../../lib/exchange/readOffsetsBack.ts";
import { readScreenLines } from "../../lib/exchange/readScreenLines.ts";
import { readXml } from "../../lib/exchange/readXml.ts";
import { scanReadings } from "../../lib/readings/scanReadings.ts";
import { sample, taken, touching, understood, whys } from "./bringing.ts";
import { demoOf, fewRepeats } from "./demoEvaluations.ts";

describe("lines as a display shows them", () => {
  it("become readings of the touch that they name, as often as it comes, and the place where the tool stood", () => {
    const proposal = understood("left: X-401.460 Y=-170 Z 3\nleft X -401.457\n");
    expect(taken(proposal).touches[0]).toMatchObject({ readings: "-401.460 -401.457", x: "", y: "-170", z: "3" });
    expect(proposal.lines).toHaveLength(1);
    expect(proposal.lines[0]).toMatchObject({ at: "lines 1, 2", read: "X -401.460 mm, Y -170 mm, Z 3 mm; X -401.457 mm" });
  });

  it("without a name go to the touches that have no readings yet, in their order; a round wall gets its points", () => {
    const { touches } = taken(understood("X -401.46 Y -170\n12) x 1.5 in, y -2 mm\n"));
    expect(touches.map(({ readings }) => readings)).toEqual(["-401.46", "X1.5 in Y-2 mm", "-401.4"]);
  });

  it("with several units are read by the setup as the lengths that they were, and lines without one ask", () => {
    const proposal = understood("left X -2.0\nleft X 0.5 in\nround X -2.0 Y 1.5 in\nround X 1.0in Y 3.25 mm");
    const { touches } = evaluateSetup(taken(proposal)).setup;
    const numbers = (id: string) =>
      touches.find((touch) => touch.id === id)?.positions.map((each) => each.map((value) => value && Number(value.toFixed(9))));
    // By hand: 0.5 in = 12.7 mm, -2 in = -50.8 mm, 1.5 in = 38.1 mm, 1 in = 25.4 mm. A unit behind the last number of a line goes for all of it.
    expect(numbers("left")?.map(([x]) => x)).toEqual([-2, 12.7]);
    expect(numbers("round")?.map(([x, y]) => [x, y])).toEqual([
      [-50.8, 38.1],
      [25.4, 3.25],
    ]);
    expect(proposal.lines.map(({ doubt }) => doubt)).toEqual([
      "it states no unit, where line 2 is in inches, and millimetres are only assumed",
      undefined,
    ]);
  });

  it("take a unit behind the last number for all of the line, as the entry of a touch and offsets that are read back do", () => {
    const line = "X -16.2444 Y -7.9965 in";
    const read = readScreenLines(line, "mm");
    const lengths = read.ok && [...(read.value.positions[0]?.values ?? [])].map(([axis, { digits, unit }]) => [axis, digits, unit]);
    expect(lengths).toEqual([
      ["X", "-16.2444", "inch"],
      ["Y", "-7.9965", "inch"],
    ]);
    const typed = scanReadings(line, { unit: "mm" });
    // By hand: -16.2444 in = -412.60776 mm, -7.9965 in = -203.1111 mm.
    const millimetres = [expect.closeTo(-412.60776, 9), expect.closeTo(-203.1111, 9)];
    expect(typed.ok && typed.value.map(({ quantity }) => quantity.value)).toEqual(millimetres);
    const back = readOffsetsBack(`G54 ${line}`, "mm");
    expect(back.ok && back.value.offsets.map(({ value }) => value)).toEqual(millimetres);
  });

  it("with a unit behind some numbers and not the last alone are left out, unless it is the setup's", () => {
    expect(whys(understood("left X 1.5 in Y -2"))).toEqual([expect.stringContaining("some numbers have a unit and some have none")]);
    expect(understood("left X 1.5 mm Y -2").lines[0]?.read).toBe("X 1.5 mm, Y -2 mm");
  });

  it("say before they take the place of readings", () => {
    expect(understood("known X 5.0").lines[0]).toMatchObject({ doubt: "the touch has readings: -401.4" });
  });

  it("say before they take the place of a stated place, or leave one of several out", () => {
    const placed = { ...touching, touches: touching.touches.map((touch) => ({ ...touch, y: "-170" })) };
    const doubtOf = (text: string) => understood(text, placed).lines[0]?.doubt;
    expect(doubtOf("left X -401.46 Y -170")).toBeUndefined();
    expect(doubtOf("left X -401.46 Y -150")).toBe("Y of the touch is stated: -170");
    expect(understood("left X -401.46 Y -170\nleft X -401.45 Y -150").lines[0]?.doubt).toBe(
      "its positions are at several Y, of which -170 is taken",
    );
  });

  it("are left out with the reason where they are not understood as a whole", () => {
    const text =
      "hello\nX 1.2.3\nX 1.0 X 2.0\nX 1.0 oops\nlift X 1.0\nleft Y 1.0\nleft X 1.0 A 90.0 F1000\nX 12,500\n-1.0 2.0 3.0\nG54 X-412.607";
    const proposal = understood(text);
    expect(whys(proposal)).toEqual([
      expect.stringMatching(/^line 1: "hello": no axis letter/),
      expect.stringMatching(/^line 2: .*1\.2\.3.* is not a number/),
      expect.stringMatching(/^line 3: .*X is there twice/),
      expect.stringMatching(/^line 4: .*"oops" is not understood/),
      'line 7: "A 90.0": no coordinate of a setup',
      'line 7: "F1000": no coordinate of a setup',
      expect.stringMatching(/^line 8: "X 12,500": /),
      expect.stringMatching(/^line 9: .*no axis letter/),
      expect.stringMatching(/^line 5: .*no touch called "lift"; perhaps "left" was meant/),
      expect.stringMatching(/^line 6: .*travels \+X and wants X/),
      expect.stringMatching(/^line 10: G54 .*a work offset, which is read back where the offsets stand/),
    ]);
    expect(taken(proposal).touches[0]?.readings).toBe("1.0");
  });

  it("keep every digit, whatever their order and spelling", () => {
    const digits = fc
      .tuple(
        fc.integer({ min: -99999, max: 99999 }),
        fc.integer({ min: 0, max: 999999 }).map((n) => String(n).padStart(6, "0")),
      )
      .map(([a, b]) => `${a}.${b}`);
    const order = fc.constantFrom(["X", "Y", "Z"], ["Z", "X", "Y"], ["Y"]);
    fc.assert(
      fc.property(
        order,
        digits,
        digits,
        digits,
        fc.constantFrom("", " ", "=", ": ", " = "),
        fc.constantFrom(" ", "\t", ", ", ";"),
        (letters, x, y, z, sign, gap) => {
          const values = { X: x, Y: y, Z: z };
          const line = letters.map((letter) => `${letter}${sign}${values[letter as "X"]}`).join(gap);
          const read = readScreenLines(line, "mm");
          if (!read.ok || read.value.leftOut.length > 0) throw new Error(JSON.stringify(read));
          const [position] = read.value.positions;
          expect(Object.fromEntries([...(position?.values ?? [])].map(([axis, value]) => [axis, value.digits]))).toEqual(
            Object.fromEntries(letters.map((letter) => [letter, values[letter as "X"]])),
          );
        },
      ),
    );
  });
});

// Names of elements and attributes of MTConnect streams (ANSI/MTC1.4, part 3) from memory.
describe("an MTConnect streams document", () => {
  const proposal = understood(sample("streams.xml"));
  it("becomes readings in millimetres, and rows of the log of offsets", () => {
    const { touches, offsets } = taken(proposal);
    expect(touches[0]).toMatchObject({ readings: "-401.460", y: "-170.25" });
    expect(touches[1]).toMatchObject({ readings: "X1.5 Y-2.25", z: "3" });
    expect(offsets).toEqual([
      expect.objectContaining({ register: "G54", x: "-412.607", y: "-203.112", z: "", when: "2026-03-14T16:20:00Z" }),
    ]);
  });
  it("lists what it leaves out: commanded positions, what is not available, turning axes, registers that are none", () => {
    expect(whys(proposal)).toEqual([
      expect.stringContaining("C 0 of G54"),
      expect.stringContaining('"spare": no register'),
      expect.stringContaining("COMMANDED -401.500: where the machine is told to be"),
      expect.stringContaining("UNAVAILABLE: no number"),
      expect.stringContaining("Angle: no place in a setup"),
      expect.stringContaining("Execution: no place in a setup"),
    ]);
  });
  it("is compared with the log of offsets where it is read back, and what is no coordinate is told", () => {
    const read = readOffsetsBack(sample("streams.xml"), "inch");
    expect(read).toMatchObject({ ok: true, value: { unit: "mm", unitStated: true } });
    expect(read.ok && read.value.offsets.map(({ register, axis, value }) => [register, axis, value])).toEqual([
      ["G54", "X", -412.607],
      ["G54", "Y", -203.112],
    ]);
    expect(read.ok && read.value.leftOut.map(({ what }) => what)).toEqual([
      "C 0 of G54: no coordinate of a setup",
      '"spare": no register of work offsets',
    ]);
    expect(readOffsetsBack("<a/>", "mm")).toMatchObject({ ok: false });
  });
  it("is in millimetres in a setup in inches too, and says so in the entry", () => {
    const inches = { ...touching, unit: "inch" as const };
    expect(takeLines(inches, understood(sample("streams.xml"), inches).lines).touches[0]?.readings).toBe("-401.460 mm");
  });
});

// Names of elements of QIF 3.0 (ISO 23952) from memory.
describe("a QIF document", () => {
  it("becomes characteristics, and a coordinate that the setup knows a measured deviation", () => {
    const { part, madeParts } = taken(understood(sample("characteristics.qif")));
    expect(part.characteristics.at(-2)).toMatchObject({ id: "hole 1", kind: "position", tolerance: "0.2" });
    // By hand: 30.05 - 30.00 and 29.98 - 30.00; 30.013 - 30.00.
    expect(part.characteristics.at(-1)).toMatchObject({ id: "slot x 2", kind: "coordinate", tolerance: "+0.05 -0.02" });
    expect(madeParts.measured).toEqual([expect.objectContaining({ part: "17", element: "slot", x: "0.013", y: "", z: "" })]);
  });
  it("without a unit of length is refused: nobody would see a wrong one", () => {
    const proposal = bringIn(sample("characteristics.qif").replace("<UnitName>mm</UnitName>", ""), touching);
    expect(proposal).toMatchObject({ ok: false, problems: [{ at: "FileUnits" }] });
  });
  it("lists sizes, which a setup does not judge, and ids that lead nowhere or in a circle", () => {
    expect(whys(understood(sample("characteristics.qif")))).toEqual([
      expect.stringContaining("no characteristic of kind Diameter"),
      expect.stringContaining('"round and round": its nominal or its definition is not in the document'),
      expect.stringContaining('"hole 1 size" of 17, measured 8.011'),
    ]);
  });
});

describe("characteristics as cells", () => {
  it("with limits, deviations or zones become rows; a decimal comma between semicolons", () => {
    const text =
      "characteristic;kind;element;axis;nominal;upper limit;lower limit;tolerance\na;coordinate;slot;x;30,00;30,05;29,98;\nb;position;bore;;;;;0,2\nc;distance;slot;;;;;0,1\n";
    const { part } = taken(understood(text));
    expect(part.characteristics.slice(1)).toEqual([
      expect.objectContaining({ id: "a", kind: "coordinate", of: "slot", axis: "X", tolerance: "+0.05 -0.02" }),
      expect.objectContaining({ id: "b", kind: "position", of: "bore", tolerance: "0.2" }),
      expect.objectContaining({ id: "c", kind: "distance", tolerance: "±0.1" }),
    ]);
  });
  it("in another unit than the setup's are read by it as what they were", () => {
    const text =
      "characteristic,kind,element,axis,upper deviation,lower deviation,unit\na,coordinate,slot,X,0.002,-0.001,in\nb,coordinate,slot,X,0.002,-0.002,in\n";
    const { characteristics } = evaluateSetup(taken(understood(text))).setup.part;
    // By hand: 0.002 in = 0.0508 mm, 0.001 in = 0.0254 mm.
    const limits = characteristics.slice(1).map((each) => ("limits" in each ? [each.limits.lower, each.limits.upper] : []));
    expect(limits.flat().map((limit) => Number(limit.toFixed(9)))).toEqual([-0.0254, 0.0508, -0.0508, 0.0508]);
  });
  it("as measured values become deviations of made parts", () => {
    const { madeParts } = taken(understood("part,characteristic,measured,nominal\n3,slot x,29.991,30\n3,other,1,1\n"));
    expect(madeParts.measured).toEqual([expect.objectContaining({ part: "3", element: "slot", x: "-0.009" })]);
  });
  it("tell columns, kinds and numbers that are not understood", () => {
    const proposal = understood("characteristic,kind,tolerance,colour\na,roundness,0.1,red\nb,position,wide,red\n=cmd,position,0.1,\n");
    expect(whys(proposal)).toEqual([
      'column 4: "colour": no column that is read',
      'row 2: "a": a setup has no characteristic of kind "roundness"',
      expect.stringContaining(`row 3: "b": tolerance "wide"`),
    ]);
    expect(proposal.lines.map(({ becomes }) => becomes)).toEqual([expect.stringContaining('characteristic "=cmd"')]);
  });
});

// Group codes of the DXF reference from memory.
describe("a DXF drawing", () => {
  const proposal = understood(sample("plate.dxf"), newDocument());
  const document = taken(proposal, newDocument());
  it("becomes bores at its circles, and faces with a dimension at its outermost lines", () => {
    expect(document.part.elements).toEqual([
      expect.objectContaining({ id: "hole 1", kind: "bore", made: "here", x: "25.40", y: "15.125", diameter: "8" }),
      expect.objectContaining({ id: "hole 2", x: "100.0", y: "45.0", diameter: "6.5" }),
      expect.objectContaining({ id: "left", outward: "-X", x: "0.0" }),
      expect.objectContaining({ id: "right", outward: "+X" }),
      expect.objectContaining({ id: "front", outward: "-Y", y: "0.0" }),
      expect.objectContaining({ id: "back", outward: "+Y" }),
    ]);
    expect(document.part.dimensions.map(({ id, from, to, axis, nominal }) => [id, from, to, axis, nominal])).toEqual([
      ["length", "left", "right", "X", "160.0"],
      ["width", "front", "back", "Y", "90.5"],
    ]);
  });
  it("lists the rest: mirrored, on paper, in blocks, concentric, inner and skew", () => {
    expect(whys(proposal).map((why) => why.replace(/^line \d+: /, ""))).toEqual([
      "CIRCLE that is not seen from above",
      "CIRCLE on a sheet of paper, not of the part",
      "TEXT: only circles, lines, arcs and outlines are read",
      "what stands in blocks is not looked at: explode them before exporting",
      "a circle of radius 7.5 about the centre of that of line 134",
      "a line at X 40.0: on which side of it the metal is, the drawing does not say",
      "a line from 0.0, 0.0 to 10.0, 10.0: it runs neither along X nor along Y",
    ]);
  });
  it("in inches keeps its unit in a setup in millimetres; without a unit the setup's is taken, and it says so", () => {
    const inches = understood(sample("plate.dxf").replace("     4", "     1"), newDocument());
    const { elements, dimensions } = taken(inches, newDocument()).part;
    expect([elements[0]?.x, elements[0]?.diameter, dimensions[0]?.nominal]).toEqual(["25.40 in", "8 in", "160.0 in"]);
    const unsaid = understood(sample("plate.dxf").replace("$INSUNITS", "$LUNITS"), newDocument("inch"));
    expect(unsaid.notes[0]).toBe("The file does not say its unit: inches are taken.");
  });
  it("brought in again is there already", () => {
    expect(understood(sample("plate.dxf"), document).lines.every(({ doubt }) => doubt !== undefined)).toBe(true);
  });
});

// The layout of D-SI and of the digital calibration certificate from memory.
describe("a certificate with D-SI quantities", () => {
  const proposal = understood(sample("certificate.xml"));
  it("becomes the radius of a tool, a spacer and a quantity of the ledger, with standard uncertainties U/k", () => {
    const { tools, spacers, ledger } = taken(proposal);
    // By hand: 5.997 / 2 = 2.9985, 0.0012 / 2 / 2 = 0.0003; 0.8 µm / 2 = 0.0004 mm.
    expect(tools[0]).toMatchObject({ radius: "2.9985", radiusUncertainty: "0.0003", radiusEvidence: "certificate" });
    expect(spacers[1]).toMatchObject({ id: "Height of setter 50", thickness: "50.0012", uncertainty: "0.0004", evidence: "certificate" });
    expect(ledger).toEqual([
      expect.objectContaining({ id: "ring_20_diameter", entry: "20.0003 mm ± 0.0005 mm (k = 2)", evidence: "certificate" }),
    ]);
    const found = evaluateSetup(taken(proposal)).own.get("ring_20_diameter");
    expect(found?.ok).toBe(true);
  });
  it("never takes the diameter of a ring for that of the tool that its label names as well", () => {
    const text = sample("certificate.xml").replace("ring 20, diameter", "ring 20 for probe, diameter");
    const { tools, ledger } = taken(understood(text));
    expect(tools[0]).toMatchObject({ radius: "2.9985" });
    expect(ledger).toEqual([expect.objectContaining({ id: "ring_20_for_probe_diameter", entry: "20.0003 mm ± 0.0005 mm (k = 2)" })]);
  });
  it("takes the place of a radius together with the certificate and the days that were stated for that one", () => {
    const before = {
      ...touching,
      tools: touching.tools.map((tool) => ({ ...tool, certificate: "ring 12", calibrated: "2026-01-02", due: "2027-01-02" })),
    };
    const { lines } = understood(sample("certificate.xml"), before);
    const line = lines.find(({ becomes }) => becomes.startsWith(`tool "${before.tools[0]?.id}"`));
    expect(line?.becomes).toContain(
      "by certificate (half of the diameter); the certificate and the days that are stated there are left out",
    );
    const [tool] = line?.change(before).tools ?? [];
    expect(tool).toMatchObject({ radius: "2.9985", radiusEvidence: "certificate" });
    expect([tool?.certificate, tool?.calibrated, tool?.due]).toEqual([undefined, undefined, undefined]);
  });
  it("lists lists, other units and values without an uncertainty", () => {
    expect(whys(proposal).map((why) => why.replace(/^line \d+: /, ""))).toEqual([
      "si:realListXMLList: only single real quantities are read",
      "Temperature: the unit \\kelvin is none of length",
      "Roundness: it has no expanded uncertainty",
    ]);
  });
  it("takes a quantity that is told in two units once", () => {
    const real = (value: string, unit: string, u: string) =>
      `<si:real><si:value>${value}</si:value><si:unit>${unit}</si:unit><si:expandedUnc><si:uncertainty>${u}</si:uncertainty><si:coverageFactor>2</si:coverageFactor></si:expandedUnc></si:real>`;
    const text = `<si:hybrid xmlns:si="https://ptb.de/si"><si:label>block 10</si:label>${real("0.3937", "\\inch", "1e-5")}${real("10.0001", "\\milli\\metre", "0.0002")}</si:hybrid>`;
    const proposal = understood(text);
    expect(taken(proposal).spacers[0]).toMatchObject({ thickness: "10.0001", uncertainty: "0.0001" });
    expect(whys(proposal)).toEqual([expect.stringContaining("the same quantity again")]);
  });
  it("written by ourselves is read back with the same digits", () => {
    const evaluation = evaluateSetup(fewRepeats);
    const root = readXml(dsiText(evaluation));
    if (!root.ok) throw new Error(JSON.stringify(root.problems));
    const read = readDsi(root.value);
    const written = exchangedResults(evaluation).flatMap(({ id, unit, budget }) =>
      budget.ok && unit === "mm" ? [[id, budget.value.value]] : [],
    );
    expect(read.ok && read.value.lengths.map(({ label, value }) => [label, Number(value)])).toEqual(written);
    for (const { standardUncertainty, label } of read.ok ? read.value.lengths : []) {
      const budget = exchangedResults(evaluation).find(({ id }) => id === label)?.budget;
      expect(standardUncertainty).toBeCloseTo(budget?.ok ? budget.value.standardUncertainty : Number.NaN, 14);
    }
  });
});

describe("a hostile text does no harm:", () => {
  const refusal = (text: string, kind?: ExchangeKind) => {
    const proposal = bringIn(text, touching, kind);
    return proposal.ok
      ? proposal.value.leftOut.map(({ what }) => what).join("; ")
      : proposal.problems.map(({ at, what }) => `${at} ${what}`).join("; ");
  };
  // The two known attacks by a document type: entities that grow by naming each other, and one that names a file.
  it("a document type declaration is refused before anything is parsed, wherever it stands", () => {
    const laughs = `<?xml version="1.0"?>\n<!DOCTYPE lolz [<!ENTITY lol "lol"><!ENTITY lol2 "&lol;&lol;&lol;&lol;">]>\n<MTConnectStreams>&lol2;</MTConnectStreams>`;
    expect(refusal(laughs)).toBe(
      "line 2 the document declares a document type, which can make it grow without end or reach for other files",
    );
    expect(refusal('<!doctype x SYSTEM "file:///etc/passwd"><x/>', "qif")).toContain("declares a document type");
  });
  it("entities of a document's own are unknown", () => {
    expect(refusal("<MTConnectStreams>&lol;</MTConnectStreams>")).toContain("undefined entity");
  });
  it("elements a hundred thousand deep are refused where the depth is passed", () => {
    expect(refusal("<a>".repeat(100_000), "dsi")).toContain("elements are more than 100 deep in each other");
  });
  it("more elements than any file of measurements has are refused", () => {
    expect(refusal(`<a>${"<b/>".repeat(200_001)}</a>`, "qif")).toContain("more than 200000 elements");
  });
  it.each(["lines", "mtconnect", "cells", "qif", "dxf", "dsi"] as const)("50 MB are refused unread as %s", (kind) => {
    expect(refusal("X 1.0\n".repeat(50_000_000 / 6), kind)).toContain("characters");
  });
  it.each([
    ["not closed", "<MTConnectStreams><Streams>"],
    ["two roots", "<a/><b/>"],
    ["a prefix of nothing", "<q:QIFDocument/>"],
    ["a NUL", "<a>\u0000</a>"],
  ])("XML with %s is refused with its line", (_, text) => {
    expect(refusal(text, "qif")).toMatch(/^line 1 the document is not well-formed/);
  });
  it("names like those of objects' own properties are names", () => {
    const text =
      '<QIFDocument __proto__="x" constructor="y"><FileUnits><PrimaryUnits><LinearUnit><UnitName>mm</UnitName></LinearUnit></PrimaryUnits></FileUnits><__proto__ id="__proto__"/></QIFDocument>';
    expect(refusal(text)).toBe("");
    expect(refusal("characteristic,kind\n__proto__,constructor\n")).toContain('no characteristic of kind "constructor"');
  });
  it("a drawing that breaks off, or is none, is refused at its line", () => {
    expect(refusal("0\nSECTION\n2\nENTITIES\n0\nLINE\n")).toContain("the file breaks off");
    expect(refusal("0\nSECTION\nx\n", "dxf")).toContain("line 3 this is no group code");
    expect(refusal("0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n")).toContain("no section ENTITIES");
  });
  it("more than two thousand things at a time are refused, and two thousand of one name are taken in a moment", () => {
    const rows = (count: number) => `characteristic,kind,tolerance\n${"a,position,0.1\n".repeat(count)}`;
    expect(refusal(rows(2001))).toContain("2001 things would be brought in");
    const many = taken(understood(rows(2000))).part.characteristics;
    expect(new Set(many.map(({ id }) => id)).size).toBe(2001);
  });
  it("any text whatever is refused or listed, never thrown over", () => {
    const pieces = fc.constantFrom(
      "X",
      "-1.5",
      "<a>",
      "</a>",
      "\n",
      ";",
      "\t",
      ",",
      '"',
      "0\nSECTION\n",
      "999",
      "characteristic,kind",
      "&amp;",
      "<![CDATA[",
      "]]>",
      "=",
      "ü",
      "\ud800",
      "\u0000",
      "<?x",
      "<!--",
    );
    const text = fc.oneof(
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.array(pieces, { maxLength: 40 }).map((all) => all.join("")),
    );
    const kind = fc.option(fc.constantFrom("lines", "mtconnect", "cells", "qif", "dxf", "dsi" as const), { nil: undefined });
    fc.assert(
      fc.property(text, kind, (each, as) => {
        const proposal = bringIn(each, touching, as as ExchangeKind | undefined);
        if (proposal.ok) taken(proposal.value);
        else expect(proposal.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});

it("documentFragment has the new and changed rows alone, in the layout of a document", () => {
  const before = demoOf("sawnPlate");
  const [first, ...rest] = before.touches;
  const after = { ...before, touches: [{ ...first, readings: "1" }, ...rest] };
  expect(documentFragment(before, after)).toEqual({ touches: [{ ...first, readings: "1" }] });
  expect(documentFragment(before, before)).toEqual({});
});
