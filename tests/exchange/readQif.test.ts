import { describe, expect, it } from "vitest";
import { bringIn } from "../../lib/exchange/bringIn.ts";
import { taken, touching, understood, whys } from "./bringing.ts";

// Names of elements and attributes of QIF 3.0 (ISO 23952) from memory; booleans of XML Schema, part 2; the inch of 25.4 mm.

const unitOf = (name: string, factor = "") =>
  `<LinearUnit><SIUnitName>meter</SIUnitName><UnitName>${name}</UnitName>${factor && `<UnitConversion><Factor>${factor}</Factor></UnitConversion>`}</LinearUnit>`;

interface Parts {
  readonly word?: string;
  readonly definition?: string;
  readonly nominal?: string;
  readonly item?: string;
  readonly measured?: string;
  readonly units?: string;
  readonly features?: string;
  readonly more?: string;
}

const limits = (upper: string, lower: string, areLimits = "0", attributes = "") =>
  `<Tolerance><MaxValue${attributes}>${upper}</MaxValue><MinValue${attributes}>${lower}</MinValue><DefinedAsLimit>${areLimits}</DefinedAsLimit></Tolerance>`;

/** One characteristic, "slot x", that the setup knows as a coordinate of the slot at X 30. */
const qif = ({
  word = "LinearCoordinate",
  definition = limits("0.05", "-0.02"),
  nominal = "<TargetValue>30</TargetValue>",
  item = "",
  measured = "",
  units = unitOf("mm"),
  features = "",
  more = "",
}: Parts) => `<QIFDocument><FileUnits><PrimaryUnits>${units}</PrimaryUnits></FileUnits>${features}<Characteristics>
<CharacteristicDefinitions><${word}CharacteristicDefinition id="1">${definition}</${word}CharacteristicDefinition></CharacteristicDefinitions>
<CharacteristicNominals><${word}CharacteristicNominal id="2"><CharacteristicDefinitionId>1</CharacteristicDefinitionId>${nominal}</${word}CharacteristicNominal></CharacteristicNominals>
<CharacteristicItems><${word}CharacteristicItem id="3"><Name>slot x</Name><CharacteristicNominalId>2</CharacteristicNominalId>${item}</${word}CharacteristicItem>${more}</CharacteristicItems></Characteristics>
${measured && `<MeasurementResults><SerialNumber>17</SerialNumber><CharacteristicMeasurements><M id="4"><CharacteristicItemId>3</CharacteristicItemId>${measured}</M></CharacteristicMeasurements></MeasurementResults>`}</QIFDocument>`;

const lastRow = (text: string) => taken(understood(text)).part.characteristics.at(-1);
/** But for the name, which the setup has. */
const doubtOf = (text: string) =>
  (understood(text).lines[0]?.doubt ?? "")
    .split("; ")
    .filter((doubt) => !doubt.startsWith("a characteristic of this name"))
    .join("; ");

describe("units of a QIF document", () => {
  it("are those of each value where it names its own, and a deviation is of two values in one unit", () => {
    const inch = ' linearUnit="inch"';
    // By hand: 0.002 in = 0.0508 mm, -0.001 in = -0.0254 mm.
    expect(lastRow(qif({ definition: limits("0.002", "-0.001", "0", inch) }))?.tolerance).toBe("+0.0508 -0.0254");
    expect(lastRow(qif({ word: "Position", definition: `<ToleranceValue${inch}>0.01</ToleranceValue>`, nominal: "" }))?.tolerance).toBe(
      "0.01 in",
    );
    // By hand: 1.1816 in = 30.01264 mm, less 30 mm.
    const [made] = taken(understood(qif({ measured: `<Value${inch}>1.1816</Value>` }))).madeParts.measured;
    expect(made?.x).toBe("0.01264");
  });

  it("may be parts and multiples, by their name or by their factor to metres", () => {
    expect(lastRow(qif({ units: unitOf("cm", "0.01") }))?.tolerance).toBe("+0.5 -0.2");
    expect(lastRow(qif({ units: unitOf("shop unit", "0.0254") }))?.tolerance).toBe("+0.05 in -0.02 in");
  });

  it("whose name and factor say different things are refused", () => {
    const proposal = bringIn(qif({ units: unitOf("mm", "0.0254") }), touching);
    expect(proposal).toMatchObject({
      ok: false,
      problems: [{ what: 'the unit "mm" has a factor that is none of its own', got: "0.0254" }],
    });
  });

  it("that are not known leave the value out by name", () => {
    expect(whys(understood(qif({ definition: limits("0.05", "-0.02", "0", ' linearUnit="cubit"') })))).toEqual([
      expect.stringContaining('its tolerance is in a unit that is not known: "cubit"'),
    ]);
  });
});

describe("limits of a QIF document", () => {
  it.each(["1", "true"])("are of the size itself where DefinedAsLimit is %s", (areLimits) => {
    // By hand: 30.05 - 30 and 29.98 - 30.
    expect(lastRow(qif({ definition: limits("30.05", "29.98", areLimits) }))?.tolerance).toBe("+0.05 -0.02");
  });
  it.each(["0", "false"])("are deviations where it is %s", (areLimits) => {
    expect(lastRow(qif({ definition: limits("0.05", "-0.02", areLimits) }))?.tolerance).toBe("+0.05 -0.02");
  });
  it.each(["", "yes"])('are left out where it is "%s"', (areLimits) => {
    expect(whys(understood(qif({ definition: limits("30.05", "29.98", areLimits) })))).toEqual([
      expect.stringContaining("(DefinedAsLimit) is not stated as true or false"),
    ]);
  });
});

describe("zones of a QIF document", () => {
  const zone = (word: string, ...about: readonly string[]) =>
    qif({ word, definition: `<ToleranceValue>0.2</ToleranceValue>${about.join("")}`, nominal: "" });
  const [cylinder, planar] = ["<ZoneShape><DiametricalZone/></ZoneShape>", "<ToleranceZoneShape>PLANAR</ToleranceZoneShape>"];

  it("that are cylinders are taken, unstated ones ask, and planar ones are no diameter", () => {
    expect(understood(zone("Position", cylinder)).lines[0]).toMatchObject({ becomes: expect.stringContaining("position, tolerance 0.2") });
    expect(doubtOf(zone("Position", cylinder))).toBe("");
    expect(doubtOf(zone("Position"))).toBe("the document does not say that its zone is a cylinder");
    expect(whys(understood(zone("Position", planar)))).toEqual([expect.stringContaining("its zone is no cylinder (PLANAR)")]);
    expect(whys(understood(zone("Coaxiality", "<ZoneShape><NonDiametricalZone/></ZoneShape>")))).toHaveLength(1);
    expect(whys(understood(zone("Symmetry", cylinder)))).toHaveLength(1);
    expect(doubtOf(zone("Perpendicularity", planar))).toContain("between planes");
  });

  it("at maximum material are of that kind, others ask, and at least material they are left out", () => {
    const at = (condition: string) => `<MaterialCondition>${condition}</MaterialCondition>`;
    expect(lastRow(zone("Position", cylinder, at("MAXIMUM")))?.kind).toBe("position at maximum material");
    expect(lastRow(zone("Position", cylinder, at("NONE")))?.kind).toBe("position");
    expect(doubtOf(zone("Coaxiality", cylinder, at("MAXIMUM")))).toContain("bonus is not counted");
    expect(whys(understood(zone("Position", cylinder, at("LEAST"))))).toEqual([expect.stringContaining("does not judge (least)")]);
  });

  it("that go by a datum reference frame name it and ask, and so does whatever else is stated", () => {
    const frame = '<DatumReferenceFrames><DatumReferenceFrame id="9"><Name>A-B</Name></DatumReferenceFrame></DatumReferenceFrames>';
    const text = zone(
      "Position",
      cylinder,
      "<DatumReferenceFrameId>9</DatumReferenceFrameId>",
      "<ProjectedToleranceZoneValue>5</ProjectedToleranceZoneValue>",
      "<UnitBasis/>",
    );
    const [line] = understood(text.replace("<Characteristics>", `${frame}<Characteristics>`)).lines;
    expect(line?.doubt).toContain('it goes by the datum reference frame "A-B" of the document');
    expect(line?.doubt).toContain("ProjectedToleranceZoneValue of its definition is not used");
    expect(line?.doubt).toContain("UnitBasis of its definition is not used");
    expect(line?.becomes).toContain("by A-B, which is no datum system of the setup yet");
  });
});

describe("what a QIF document says of the feature", () => {
  const features =
    '<Features><FeatureNominals><PlaneFeatureNominal id="50"><Name>slot</Name></PlaneFeatureNominal></FeatureNominals><FeatureItems><PlaneFeatureItem id="51"><FeatureNominalId>50</FeatureNominalId></PlaneFeatureItem><PlaneFeatureItem id="52"><FeatureName>end</FeatureName></PlaneFeatureItem></FeatureItems></Features>';
  const ids = (...all: readonly string[]) => `<FeatureItemIds>${all.map((id) => `<Id>${id}</Id>`).join("")}</FeatureItemIds>`;

  it("becomes its element, and a direction its axis", () => {
    expect(lastRow(qif({ features, item: ids("51"), nominal: "<TargetValue>30</TargetValue><Direction>1 0 0</Direction>" }))).toMatchObject(
      { of: "slot", axis: "X" },
    );
    expect(lastRow(qif({ features, item: ids("52"), definition: `${limits("0.1", "-0.1")}<Axis>Y</Axis>` }))).toMatchObject({
      of: "end",
      axis: "Y",
    });
    expect(
      whys(understood(qif({ features, item: ids("51"), nominal: "<TargetValue>30</TargetValue><Direction>-1 0 0</Direction>" }))),
    ).toEqual([expect.stringContaining("its direction does not go with X, Y or Z")]);
  });

  it("is asked about where there are two, or one that is not in the document", () => {
    const two = qif({ word: "Distance", features, item: ids("51", "52") });
    expect(lastRow(two)).toMatchObject({ of: "slot", from: "end" });
    expect(doubtOf(two)).toContain('whether it goes from "end" to "slot" or back');
    expect(doubtOf(qif({ features, item: ids("51", "52") }))).toContain('it belongs to "slot", "end"');
    expect(doubtOf(qif({ item: ids("99") }))).toContain("its feature 99 is not in the document");
  });
});

it("ids that are there twice name nothing, and items without an id are read each", () => {
  const again =
    '<LinearCoordinateCharacteristicItem id="3"><Name>other</Name><CharacteristicNominalId>2</CharacteristicNominalId></LinearCoordinateCharacteristicItem>';
  const text = qif({ measured: "<Value>30.013</Value>", more: again });
  expect(understood(text).lines.map(({ becomes }) => becomes)).toEqual([
    expect.stringContaining('"slot x"'),
    expect.stringContaining('"other"'),
  ]);
  expect(whys(understood(text))).toEqual([expect.stringContaining("the id of its characteristic is there twice")]);
  expect(understood(qif({ more: again }).replaceAll('Item id="3"', "Item")).lines).toHaveLength(2);
});

it("what else stands beside values is told once by its kind", () => {
  const text = qif({
    item: "<LocationOnDrawing>B4</LocationOnDrawing>",
    measured: '<Value combinedUncertainty="0.002" decimalPlaces="3">30.013</Value><Status>PASS</Status>',
  });
  expect(whys(understood(text)).map((why) => why.replace(/^line \d+: /, ""))).toEqual([
    "LocationOnDrawing of LinearCoordinateCharacteristicItem: not used",
    "attribute combinedUncertainty of Value: not used",
    "Status of M: not used",
  ]);
});
