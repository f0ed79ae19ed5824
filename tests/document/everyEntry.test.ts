import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import { mapFormulas } from "../../lib/document/mapFormulas.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { openJob } from "../documents/openJob.ts";
import { documentFrom, must } from "../properties/setups.ts";

// Many readings of a document: not to fail on a busy machine.
vi.setConfig({ testTimeout: 120_000 });

function file(path: string): SetupDocument {
  return must(parseDocument(readFileSync(new URL(path, import.meta.url), "utf8")));
}

/** A row of every table that the other documents leave empty, and entries that few rows have. */
function rare(): SetupDocument {
  const { sampling: _, format: __, version: ___, unit: ____, ...tables } = openJob("pinBlock");
  const [stylus, ...tools] = tables["tools"];
  const [first, ...touches] = tables["touches"];
  return documentFrom({
    ...tables,
    part: {
      ...tables["part"],
      elements: [
        ...tables["part"].elements,
        { id: "lobed", kind: "bore", diameter: "20", x: "10", y: "10", lobes: "3", lobeAmplitude: "0.01" },
      ],
    },
    tools: [
      { ...stylus, touchMinutes: "1.5" },
      ...tools,
      { id: "dial", kind: "swept indicator", scatter: "0.002", leverAngle: "20", leverAngleUncertainty: "3" },
      { id: "other dial", kind: "swept indicator", scatter: "0.002", leverAngleLimit: "30" },
    ],
    touches: [
      first,
      ...touches,
      { id: "swept", element: "lobed", travelling: "sweep", tool: "dial", readings: "X-250 Y-165", total: { x: "0.01", y: "-0.02" } },
    ],
    offsets: [{ id: "zero", register: "G54", kind: "measured zero", x: "-300", y: "-180", z: "-250", turn: "0.1" }],
    checks: [{ id: "again", element: first.element, travelling: first.travelling, tool: first.tool, readings: "-312.4" }],
    checkMoves: [{ id: "above", tool: "stylus", x: "1", y: "2", z: "3", clearance: "100" }],
    slipChances: [{ id: "often", slip: "radius or diameter", chance: "0.2 %" }],
    nests: [{ id: "second", x: "100", y: "0", foundX: "100.01", foundY: "0.01" }],
  });
}

const documents: readonly (readonly [string, SetupDocument])[] = [
  ["rare entries", rare()],
  ["a part on pins", file("../../notebooks/demo/plateOnPins.json")],
  ["parts in one clamping", file("../../notebooks/demo/nestOfFour.json")],
  ["orientations", file("../documents/orientedBlock.json")],
  ["a run", file("../documents/runOfPlates.json")],
  ["heat", documentFrom({ ...withoutHead(openJob("pinBlock")), heat: warm() })],
];

function withoutHead(job: object): object {
  return Object.fromEntries(Object.entries(job).filter(([key]) => !["format", "version", "unit"].includes(key)));
}

function warm(): object {
  const body = { temperature: "22", temperatureUncertainty: "0.5", coefficient: "11.5", coefficientUncertainty: "0.5" };
  return { part: body, scale: body };
}

/** Places of entries that take numbers, one for each entry of each table, filled or empty, and each kind of row. */
function placesOf(document: SetupDocument): string[] {
  const found = new Map<string, string>();
  mapFormulas(document, (text, place) => {
    const entry = place.replace(/^((?:part|fixture|madeParts|warmUp)\.\w+|\w+)\.(.*)\.(\w+)$/, "$1.$3");
    const row = place.slice(0, place.lastIndexOf("."));
    const key = `${entry}, ${text.trim() === "" ? "empty" : "filled"}, ${kindOf(document, row)}`;
    if (!place.startsWith("ledger.") && !found.has(key)) found.set(key, place);
    return text;
  });
  return [...found.values()];
}

function kindOf({ part, touches, tools, fixture }: SetupDocument, place: string): string {
  const named = <T extends { readonly id: string }>(rows: readonly T[], table: string) => rows.find(({ id }) => place === `${table}.${id}`);
  return (
    named(part.elements, "part.elements")?.kind ??
    named(part.characteristics, "part.characteristics")?.kind ??
    named(touches, "touches")?.travelling ??
    named(tools, "tools")?.kind ??
    named(fixture.locators, "fixture.locators")?.kind ??
    ""
  );
}

describe.each(documents)("%s", (_, document) => {
  it("is read without a problem as it is", () => {
    expect(readSetup(document).problems).toEqual([]);
  });

  // A text, no number, one without end, and more than a number: in every entry, whether or not it counts there, and whether or not something stood in it.
  it.each(["about 3", "NaN", "1e999", "1.2.3"])("%j is told at its place in every entry that takes a number", (bad) => {
    const places = placesOf(document);
    expect(places.length).toBeGreaterThan(30);
    const untold = places.filter((place) => {
      const { problems } = readSetup(mapFormulas(document, (text, at) => (at === place ? bad : text)));
      return !problems.some(({ at, what }) => at === place && what !== "");
    });
    expect(untold).toEqual([]);
  });

  it("a negative number is never taken for a doubt, a radius, a diameter or another size", () => {
    const sizes =
      /\.(radius|diameter|\w*[uU]ncertainty|scatter|lateTrigger|eccentricity|roughness|skew|process|lobeAmplitude|thickness|heightError|seat|debris|clearance|displayStep|offsetStep|positioning|positioningOver|touchMinutes|seatScatter|partScatter|inspection|allowed|cycle|span)$/;
    const places = placesOf(document).filter((place) => sizes.test(place) && !place.startsWith("checkMoves"));
    expect(places.length).toBeGreaterThan(8);
    const untold = places.filter((place) => {
      const { problems } = readSetup(mapFormulas(document, (text, at) => (at === place ? "-3" : text)));
      return !problems.some(({ at }) => at === place);
    });
    expect(untold).toEqual([]);
  });
});

// What a number cannot be worked out without is asked for where it is left empty.
it.each([
  ["rare entries", "part.elements.lobed.diameter"],
  ["rare entries", "part.elements.lobed.lobeAmplitude"],
  ["rare entries", "nests.second.x"],
  ["heat", "heat.part.temperature"],
  ["heat", "heat.scale.coefficient"],
])("%s: %s left empty is told at its place", (name, place) => {
  const document = documents.find(([each]) => each === name)?.[1] as SetupDocument;
  const { problems } = readSetup(mapFormulas(document, (text, at) => (at === place ? " " : text)));
  expect(problems.map(({ at }) => at)).toContain(place);
});

it.each([
  [
    {
      part: {
        elements: [
          { id: "a", kind: "face", outward: "-X", datum: "A" },
          { id: "b", kind: "face", outward: "+X" },
        ],
        dimensions: [{ id: "d", from: "a", to: "b", nominal: "" }],
      },
    },
    "part.dimensions.d.nominal",
  ],
  [{ spacers: [{ id: "block", thickness: "" }] }, "spacers.block.thickness"],
  [
    {
      part: {
        elements: [{ id: "h", kind: "bore", made: "here", diameter: "8", x: "0", y: "0" }],
        characteristics: [{ id: "c", kind: "position", of: "h", tolerance: "" }],
      },
    },
    "part.characteristics.c.tolerance",
  ],
  [{ machine: { positioning: "0.01" } }, "machine.positioningOver"],
  [{ warmUp: { axis: "Z", readings: [{ id: "r", minutes: "", reading: "1" }] } }, "warmUp.readings.r.minutes"],
  [{ fixture: { locators: [{ id: "l", kind: "pad", facing: "+Z", x: "", y: "0", z: "0" }] } }, "fixture.locators.l.x"],
])("%j asks for what is left empty", (tables, place) => {
  const { problems } = evaluateSetup(documentFrom({ part: { elements: [] }, tools: [], touches: [], strategies: [], ...tables }));
  expect(problems.map(({ at }) => at)).toContain(place);
});

// What is stated where it says nothing would be lost without a word.
it.each([
  [{ id: "e", kind: "face", outward: "-X", diameter: "20" }, "diameter", "only a round wall has a diameter"],
  [{ id: "e", kind: "face", outward: "-X", diameterTolerance: "H7" }, "diameterTolerance", "only a round wall has a diameter"],
  [{ id: "e", kind: "face", outward: "-X", lobes: "3" }, "lobes", "only a round wall has lobes"],
])("%j is refused at %s: %s", (element, entry, what) => {
  const { problems } = readSetup(documentFrom({ part: { elements: [element] }, tools: [], touches: [], strategies: [] }));
  expect(problems.map((problem) => [problem.at, problem.what])).toContainEqual([`part.elements.e.${entry}`, what]);
});

it("a length beside a position says nothing, and is told", () => {
  const elements = [{ id: "h", kind: "bore", made: "here", diameter: "8", x: "0", y: "0" }];
  const characteristics = [{ id: "c", kind: "position", of: "h", tolerance: "0.1", length: "20" }];
  const { problems } = readSetup(documentFrom({ part: { elements, characteristics }, tools: [], touches: [], strategies: [] }));
  expect(problems.map(({ at, what }) => [at, what])).toContainEqual(["part.characteristics.c.length", "this says nothing of a position"]);
});
