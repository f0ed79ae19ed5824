import { describe, expect, it } from "vitest";
import { describeProblem } from "../../lib/base/outcome.ts";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import { documentChanges } from "../../lib/document/documentChanges.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import { renameBlock } from "../../lib/document/renameBlock.ts";
import type { CharacteristicEntry, DimensionEntry, ElementEntry, SetupDocument } from "../../lib/document/setupDocument.ts";
import { plainResults } from "../../lib/record/plainResults.ts";
import { summaryText } from "../../lib/record/summaryText.ts";
import { standardUncertaintyOf } from "../../lib/uncertainty/sourceDistribution.ts";
import { evaluateDocument, must, openDocument } from "./openDocument.ts";

// A plate 120 by 80 between faces, X from left to right; limits by ISO 286-2 and ISO 2768-1 as printed there (values from memory): 120 h9 is
// 0/-0.087, 120 js9 ±0.0435, 80 H9 +0.074/0; 120 is ±0.3 by ISO 2768-m, 80 is ±0.3, 8 is ±0.2.
const plate = openDocument("plateWithSawnEnd");
const corner = "corner on C";

function withPart(document: SetupDocument, change: (part: SetupDocument["part"]) => Partial<SetupDocument["part"]>): SetupDocument {
  return { ...document, part: { ...document.part, ...change(document.part) } };
}
function withDimension(change: Partial<DimensionEntry>, id = "length", document = plate): SetupDocument {
  return withPart(document, ({ dimensions }) => ({ dimensions: dimensions.map((row) => (row.id === id ? { ...row, ...change } : row)) }));
}
function withElement(id: string, change: Partial<ElementEntry>, document = plate): SetupDocument {
  return withPart(document, ({ elements }) => ({ elements: elements.map((row) => (row.id === id ? { ...row, ...change } : row)) }));
}
function withDistance(change: Partial<CharacteristicEntry>, document = plate): SetupDocument {
  const blank: CharacteristicEntry = { ...blankEntries.characteristic("wall"), kind: "distance", of: "H2", from: "H1", axis: "X" };
  return withPart(document, ({ characteristics }) => ({ characteristics: [...characteristics, { ...blank, ...change }] }));
}
const generally = (generalTolerance: SetupDocument["part"]["generalTolerance"], document = plate) =>
  withPart(document, () => ({ generalTolerance }));

const cellOf = (id: string) => ({ ...blankEntries.block("cell", id), entry: "0.1 mm" }) as SetupDocument["ledger"][number];

const dimensionOf = (document: SetupDocument, id = "length") =>
  evaluateDocument(document).setup.part.dimensions.find((each) => each.id === id);
const problemsOf = (document: SetupDocument) => evaluateDocument(document).problems.map(({ at, what }) => `${at}: ${what}`);

describe("a class in the tolerance of a dimension", () => {
  it.each([
    ["h9", -0.087, 0],
    ["js9", -0.0435, 0.0435],
    ["g6", -0.034, -0.012],
    ["k6", 0.003, 0.025],
  ])("120 %s reaches from %d to %d", (tolerance, lower, upper) => {
    expect(dimensionOf(withDimension({ tolerance }))?.limits).toEqual({ lower, upper, standard: `ISO 286 ${tolerance}` });
  });

  it("drawn against the axis the same length has the same limits, turned over", () => {
    const turned = withDimension({ tolerance: "h9", from: "right", to: "left", nominal: "-120", measured: "", measuredUncertainty: "" });
    expect(dimensionOf(turned)?.limits).toEqual({ lower: 0, upper: 0.087, standard: "ISO 286 h9" });
    // What comes of it is the same part: the other face lies where it lay, with the same doubt in the batch.
    const plain = withDimension({ tolerance: "h9", measured: "", measuredUncertainty: "" });
    const [one, other] = [plain, turned].map((each) => evaluateDocument(each).stack("sawn face", "H2 position", "batch"));
    expect(other?.deviation).toBeCloseTo(one?.deviation as number, 12);
    expect(other?.chance).toBeCloseTo(one?.chance as number, 12);
  });

  it("an inch document has the limits of the size in millimetres, exactly", () => {
    const inches = {
      ...withDimension({ nominal: "120 mm", measured: "119.874 mm", measuredUncertainty: "0.002 mm", tolerance: "h9" }),
      unit: "inch" as const,
    };
    expect(dimensionOf(inches)?.limits).toEqual({ lower: -0.087, upper: 0, standard: "ISO 286 h9" });
    // 4.7244094488 in is 120 mm by less than rounding, which must not push it into the next range.
    expect(
      dimensionOf({
        ...inches,
        part: withDimension({ nominal: "4.72440944882", measured: "", measuredUncertainty: "", tolerance: "h9" }).part,
      })?.limits.lower,
    ).toBe(-0.087);
  });

  it("is what the results rest on, by name: in the source, the budget and the record", () => {
    const document = withDimension({ tolerance: "h9", measured: "", measuredUncertainty: "" });
    const evaluation = evaluateDocument(document);
    const source = evaluation
      .stack("sawn face", "H2 position", "batch")
      .components.flatMap(({ contributions }) => contributions.map((each) => each.source))
      .find(({ id }) => id === "dimension length, in the batch");
    expect(source).toMatchObject({
      label: "size variation of length (ISO 286 h9)",
      evidence: { kind: "drawing", note: "ISO 286 h9" },
      estimate: -0.0435,
      limit: 0.0435,
    });
    // Bell-shaped with the limits at three standard deviations.
    expect(source && standardUncertaintyOf(source.distribution)).toBeCloseTo(0.0435 / 3, 12);
    expect(JSON.stringify(plainResults(evaluation))).toContain('"note":"ISO 286 h9"');
    expect(summaryText(evaluation)).toContain("(ISO 286 h9)");
  });

  it.each([
    ["H9", "H9 is a class of holes, and this is a shaft: it has metal inside"],
    ["i9", 'ISO 286 has no fundamental deviation "i"'],
    ["h20", "ISO 286 has no tolerance grade IT20"],
    ["Js9", '"Js" is neither of a hole nor of a shaft'],
    ["H7/g6", "this is a fit, the classes of two parts"],
    ["fg6", "fg and FG are known here only up to 10 mm"],
  ])("%s is refused at its entry", (tolerance, what) => {
    expect(problemsOf(withDimension({ tolerance }))).toContain(`part.dimensions.length.tolerance: ${what}`);
  });

  it("between faces that look at each other it is of a hole", () => {
    const slot = withElement("left", { outward: "+X" }, withElement("right", { outward: "-X" }, withDimension({ tolerance: "h9" })));
    expect(problemsOf(slot)).toContain(
      "part.dimensions.length.tolerance: h9 is a class of shafts, and this is a hole: it lies inside metal",
    );
    const mended = withPart(slot, ({ dimensions }) => ({
      dimensions: dimensions.map((row) => (row.id === "length" ? { ...row, tolerance: "H9" } : row)),
    }));
    expect(dimensionOf(mended)?.limits).toEqual({ lower: 0, upper: 0.087, standard: "ISO 286 H9" });
  });

  it("a nominal size that the standard does not reach is told at the tolerance", () => {
    const [problem] = evaluateDocument(withDimension({ nominal: "3200", measured: "", measuredUncertainty: "", tolerance: "h9" })).problems;
    expect(problem && describeProblem(problem)).toBe(
      'part.dimensions.length.tolerance: ISO 286 gives no standard tolerance for this nominal size; expected a nominal size above 0 and up to 3150 mm, got "3200 mm". State the limits as figures.',
    );
  });

  it("a cell of the same name is not guessed between", () => {
    const cell = cellOf("h9");
    const document = { ...withDimension({ tolerance: "h9" }), ledger: [cell] };
    expect(problemsOf(document)).toContain('part.dimensions.length.tolerance: "h9" is a tolerance class, and the name of a quantity here');
    // The remedies that it offers.
    expect(dimensionOf({ ...withDimension({ tolerance: "±h9" }), ledger: [cell] })?.limits).toEqual({ lower: -0.1, upper: 0.1 });
    const renamed = must(renameBlock(document, "h9", "play", new Map()));
    expect(dimensionOf(renamed)?.limits).toEqual({ lower: -0.087, upper: 0, standard: "ISO 286 h9" });
  });

  it("a cell whose name is no class is taken as it always was", () => {
    const cell = cellOf("q9");
    expect(dimensionOf({ ...withDimension({ tolerance: "q9" }), ledger: [cell] })?.limits).toEqual({ lower: -0.1, upper: 0.1 });
  });
});

describe("a class in the tolerance of a diameter", () => {
  const roundOf = (document: SetupDocument, id: string) => {
    const element = evaluateDocument(document).setup.part.elements.find((each) => each.id === id);
    return element?.kind === "bore" || element?.kind === "boss" ? element.diameterLimits : undefined;
  };

  it("8 H7 of a bore is 0 to +0.015, 8 f7 of a boss -0.028 to -0.013", () => {
    expect(roundOf(withElement("H1", { diameterTolerance: "H7" }), "H1")).toEqual({ lower: 0, upper: 0.015, standard: "ISO 286 H7" });
    const boss = withElement("H1", { kind: "boss", diameterTolerance: "f7" });
    expect(roundOf(boss, "H1")).toEqual({ lower: -0.028, upper: -0.013, standard: "ISO 286 f7" });
  });

  it("letters of the other kind are refused", () => {
    const at = "part.elements.H1.diameterTolerance";
    expect(problemsOf(withElement("H1", { diameterTolerance: "f7" }))).toContain(
      `${at}: f7 is a class of shafts, and this is a hole: it lies inside metal`,
    );
    expect(problemsOf(withElement("H1", { kind: "boss", diameterTolerance: "H7" }))).toContain(
      `${at}: H7 is a class of holes, and this is a shaft: it has metal inside`,
    );
  });

  it("without one it is that of the general tolerance, if the part has one", () => {
    expect(roundOf(plate, "H1")).toBeUndefined();
    expect(roundOf(generally("ISO 2768-m"), "H1")).toEqual({ lower: -0.2, upper: 0.2, standard: "ISO 2768-m" });
  });
});

describe("the general tolerance of the part", () => {
  it("stands where a dimension states none, and nowhere else", () => {
    const document = generally("ISO 2768-m", withDimension({ tolerance: "" }));
    expect(dimensionOf(document)?.limits).toEqual({ lower: -0.3, upper: 0.3, standard: "ISO 2768-m" });
    expect(dimensionOf(document, "depth")?.limits).toEqual({ lower: -0.15, upper: 0.15 });
    expect(dimensionOf(withDimension({ tolerance: "0" }, "length", document))?.limits).toMatchObject({ upper: 0 });
  });

  it("none stated: a dimension without a tolerance is exact, a characteristic without one refused", () => {
    expect(dimensionOf(withDimension({ tolerance: "" }))?.limits).toEqual({ lower: 0, upper: 0 });
    expect(problemsOf(withDistance({}))).toContain("part.characteristics.wall.tolerance: the tolerance is missing");
  });

  it("a size outside the standard is told at the tolerance that is missing", () => {
    const long = withDimension({ nominal: "2500", tolerance: "", measured: "", measuredUncertainty: "" });
    expect(problemsOf(generally("ISO 2768-f", long))).toContain(
      "part.dimensions.length.tolerance: ISO 2768-1 gives no f for this nominal size",
    );
    expect(dimensionOf(generally("ISO 2768-m", long))?.limits.upper).toBe(2);
  });

  it("is kept in the file, and a file without it states none", () => {
    const document = generally("ISO 2768-m");
    expect(must(parseDocument(documentText(document))).part.generalTolerance).toBe("ISO 2768-m");
    const { generalTolerance: _, ...part } = plate.part;
    expect(must(parseDocument(JSON.stringify({ ...plate, part }))).part.generalTolerance).toBe("none stated");
  });

  it("a change of it is told in words", () => {
    expect(documentChanges(plate, generally("ISO 2768-m")).changes.flatMap(({ sentences }) => sentences)).toEqual([
      'general tolerance from "none stated" to "ISO 2768-m"',
    ]);
  });
});

describe("distances and depths that the drawing demands", () => {
  const limitsOf = (document: SetupDocument) => {
    const found = evaluateDocument(document).setup.part.characteristics.find(({ id }) => id === "wall");
    return found && "limits" in found ? found.limits : undefined;
  };

  it("take the nominal size from where the drawing puts both: H1 at 15, H2 at 105, so 90", () => {
    // 90 js9: IT9 of 80 to 120 mm is 87 (ISO 286-1, table 1); 90 is ±0.3 by ISO 2768-m (table 1).
    expect(limitsOf(withDistance({ tolerance: "js9" }))).toEqual({ lower: -0.0435, upper: 0.0435, standard: "ISO 286 js9" });
    expect(limitsOf(generally("ISO 2768-m", withDistance({})))).toEqual({ lower: -0.3, upper: 0.3, standard: "ISO 2768-m" });
    expect(evaluateDocument(generally("ISO 2768-m", withDistance({}))).stack(corner, "wall", "thisPart").limits).toMatchObject({
      lower: -0.3,
      upper: 0.3,
    });
  });

  it("a coordinate has no size: its tolerance is its own", () => {
    const coordinate = withDistance({ kind: "coordinate", from: "" });
    expect(problemsOf(generally("ISO 2768-m", coordinate))).toContain("part.characteristics.wall.tolerance: the tolerance is missing");
    expect(problemsOf(withDistance({ kind: "coordinate", from: "", tolerance: "h9" }))).toContain(
      "part.characteristics.wall.tolerance: a tolerance class stands for nothing without a nominal size",
    );
  });
});
