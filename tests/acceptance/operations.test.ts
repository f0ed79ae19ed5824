import { describe, expect, it } from "vitest";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { evaluateOperations } from "../../lib/evaluateOperations.ts";
import { must } from "./openDocument.ts";
import { doubts, turnedPlate, withChosen } from "./turnedPlate.ts";

/** All is worked out by hand from the doubts of the plate: independent sources in quadrature, common ones with their signs first (JCGM 100, 5.2.2). */
function finished(document: SetupDocument, view: "thisPart" | "batch" = "batch") {
  const evaluation = evaluateOperations(document);
  if (evaluation === undefined) throw new Error("expected operations");
  expect(evaluation.problems).toEqual([]);
  return (id: string) => {
    const found = evaluation.finished[view].characteristics.find((each) => each.id === id);
    return must((found ?? { stack: { ok: false, problems: [] } }).stack);
  };
}

/** Operation 20 touches the bore and the bottom alone. */
function withoutFaces(document: SetupDocument): SetupDocument {
  return {
    ...document,
    touches: document.touches.filter(({ operation, element }) => operation === "10" || element === "bore" || element === "bottom"),
    strategies: document.strategies.filter(({ id }) => id === "corner" || id === "bore"),
  };
}

const u = (stack: { readonly components: readonly { readonly standardUncertainty: number }[] }) =>
  stack.components.map(({ standardUncertainty }) => standardUncertainty);
const { scatter: s, radius, length, cut, width, thickness } = doubts;

describe.each(["turned over about X", "turned over about Y"] as const)("a plate %s between two operations", (lies) => {
  const plate = turnedPlate(lies);

  it.each(["thisPart", "batch"] as const)("every characteristic is as the drawing has it at the best estimates, %s", (view) => {
    const stack = finished(plate, view);
    for (const { id } of plate.part.characteristics) expect(stack(id).deviation).toBeCloseTo(0, 9);
  });

  it("the bore off the left face: one touch, the radius once, the cut", () => {
    expect(u(finished(plate)("bore to left"))[0]).toBeCloseTo(Math.hypot(s, radius, cut), 9);
  });

  it.each(["thisPart", "batch"] as const)(
    "a hole set on the bore: two touches to either side, its own cut; the first operation and the radius cancel, %s",
    (view) => {
      const expected = Math.hypot(s / Math.SQRT2, cut);
      expect(u(finished(plate, view)("hole on bore"))[0]).toBeCloseTo(expected, 9);
      expect(u(finished(plate, view)("hole on bore"))[1]).toBeCloseTo(expected, 9);
    },
  );

  it("a hole set on the same face as the bore: a touch and a cut each, the radius cancels", () => {
    const stack = finished(withChosen(plate, "20", "left again"))("hole off bore");
    expect(u(stack)[0]).toBeCloseTo(Math.hypot(s, s, cut, cut), 9);
  });

  it("a hole set on the opposite face: the width comes in with all of it, the radius twice", () => {
    const stack = finished(withChosen(plate, "20", "right"))("hole off bore");
    expect(u(stack)[0]).toBeCloseTo(Math.hypot(s, s, cut, cut, 2 * radius, width / 3), 9);
  });

  it("a hole in the drawing's frame, set on the bore: both operations' errors", () => {
    // Bore: one touch, radius, cut. Hole on it: two touches, its cut.
    expect(u(finished(plate)("hole"))[0]).toBeCloseTo(Math.hypot(s, radius, cut, s / Math.SQRT2, cut), 9);
  });

  it("the web between top and pocket: the thickness as received, a touch and a cut each, the length of the tool twice", () => {
    expect(u(finished(plate)("web"))[0]).toBeCloseTo(Math.hypot(thickness / 3, s, s, cut, cut, 2 * length), 9);
  });
});

it("a bore that was cut 0.02 astray is followed by what is set on it, which is then astray on the drawing", () => {
  const plate = turnedPlate();
  const whatIf = [{ source: "element bore, process X", shift: String(0.02 / cut), doubt: "" }] as SetupDocument["whatIf"];
  const stack = finished(withoutFaces({ ...plate, whatIf }), "thisPart");
  expect(stack("bore to left").deviation).toBeCloseTo(0.02, 9);
  expect(stack("hole on bore").deviation).toBeCloseTo(0, 9);
  expect(stack("hole").deviation).toBeCloseTo(0.02, 9);
});

it("touches of the second operation that find the bore against the faces measure where it is", () => {
  const whatIf = [{ source: "element bore, process X", shift: String(0.02 / cut), doubt: "" }] as SetupDocument["whatIf"];
  // The readings put it at 20.000 all the same.
  expect(finished({ ...turnedPlate(), whatIf }, "thisPart")("hole").deviation).toBeCloseTo(0, 9);
});

describe("datums that an operation cuts", () => {
  /** The drawing's frame along X is the bore's, which operation 10 cuts. */
  const plate = turnedPlate();
  const lettered: SetupDocument = {
    ...plate,
    part: { ...plate.part, elements: plate.part.elements.map((each) => (each.id === "bore" ? { ...each, datum: "A" } : each)) },
  };

  it("a hole set on the datum bore carries the errors of its own operation alone", () => {
    expect(u(finished(lettered)("hole"))[0]).toBeCloseTo(Math.hypot(s / Math.SQRT2, cut), 9);
  });

  it("a hole set on the face as received carries the bore's as well: the radius cancels", () => {
    expect(u(finished(withChosen(lettered, "20", "left again"))("hole"))[0]).toBeCloseTo(Math.hypot(s, s, cut, cut), 9);
  });
});

describe("an operation's place in the order", () => {
  it("two operations that touch nothing of each other may change places", () => {
    const plate = withChosen(turnedPlate(), "20", "left again");
    const swapped = { ...plate, operations: [...plate.operations].reverse() };
    const named = (document: SetupDocument) => ({
      ...document,
      touches: document.touches.filter(({ element }) => element !== "bore"),
      strategies: document.strategies.filter(({ id }) => id !== "bore"),
    });
    const [before, after] = [finished(named(plate)), finished(named(swapped))];
    for (const id of ["bore to left", "hole off bore", "web", "hole"]) expect(u(after(id))[0]).toBeCloseTo(u(before(id))[0] as number, 12);
  });

  it("a touch of what is only cut later is told at its place", () => {
    const plate = turnedPlate();
    const early = { ...plate, touches: plate.touches.map((each) => (each.id === "left 10" ? { ...each, element: "hole" } : each)) };
    const told = evaluateOperations(early)?.problems.find(({ at }) => at === "touches.left 10.element");
    expect(told?.what).toContain("only cut in operation 20");
  });

  it("an unknown operation is told where it is named", () => {
    const plate = turnedPlate();
    const lost = { ...plate, touches: plate.touches.map((each) => (each.id === "left 10" ? { ...each, operation: "11" } : each)) };
    expect(evaluateOperations(lost)?.problems.find(({ at }) => at === "touches.left 10.operation")?.remedy).toBeDefined();
  });

  it("without a strategy in use nothing of an operation is known to a later one", () => {
    const { problems, finished: part } = evaluateOperations(withChosen(turnedPlate(), "10", "")) as NonNullable<
      ReturnType<typeof evaluateOperations>
    >;
    expect(problems.some(({ at }) => at === "operations.10")).toBe(true);
    expect(part.batch.characteristics.filter(({ stack }) => stack.ok).map(({ id }) => id)).toEqual([]);
  });
});

describe.each(["turned over about X", "turned over about Y"] as const)("a part whose skew both operations measure, %s", (lies) => {
  const plate = turnedPlate(lies);
  const [sx, sy] = lies === "turned over about X" ? [1, -1] : [-1, 1];
  const blankTouch = plate.touches.find(({ id }) => id === "front 10") as (typeof plate.touches)[number];
  const bare = (id: string) => plate.part.elements.find((each) => each.id === id) as (typeof plate.part.elements)[number];
  /** Operation 10 cuts an edge at Y = 2 as well, its coordinates turned to the front by touches at 10 and 90; operation 20 turns to that edge by touches at 10 and 90. */
  const skewed: SetupDocument = {
    ...plate,
    part: {
      ...plate.part,
      elements: [
        ...plate.part.elements.map((each) => (each.id === "hole" ? { ...each, x: "80" } : each)),
        { ...bare("top"), id: "edge", outward: "-Y", y: "2", z: "" },
      ],
      characteristics: [{ ...(plate.part.characteristics[2] as (typeof plate.part.characteristics)[number]), id: "far hole", axis: "Y" }],
    },
    touches: [
      ...plate.touches.filter(({ id }) => !["front 10", "left 20", "right 20", "front 20"].includes(id)),
      ...[10, 90].map((x) => ({ ...blankTouch, id: `front ${x}`, x: String(-400 + x) })),
      ...[10, 90].map((x) => ({
        ...blankTouch,
        id: `edge ${x}`,
        operation: "20",
        element: "edge",
        travelling: sy > 0 ? ("+Y" as const) : ("-Y" as const),
        readings: String(-120 + sy * (2 - 3)),
        x: String(-250 + sx * x),
      })),
    ],
    strategies: [
      {
        ...(plate.strategies[0] as (typeof plate.strategies)[number]),
        touches: ["left 10", "front 10", "front 90", "top 10"],
        rotation: "applied",
      },
      {
        ...(plate.strategies[1] as (typeof plate.strategies)[number]),
        touches: ["bore X 1", "bore X -1", "bore Y 1", "bore Y -1", "edge 10", "edge 90", "bottom 20"],
        orient: ["edge"],
        rotation: "applied",
      },
    ],
  };

  // Two touches 80 apart turn what is 60 from the bore; two touches to either side find the bore; the hole has its own cut.
  const turn = (Math.SQRT2 * s) / 80;
  const own = Math.hypot(s / Math.SQRT2, cut, 60 * turn);

  it("along the axes of the front as received, what is turned to the edge has the turn of the first operation as well", () => {
    expect(u(finished(skewed)("far hole"))[0]).toBeCloseTo(Math.hypot(own, 60 * turn), 7);
  });

  it("where the edge is the datum that orients, the turn of the first operation cancels", () => {
    const lettered = {
      ...skewed.part,
      elements: skewed.part.elements.map((each) => (each.id === "edge" ? { ...each, datum: "A" } : each)),
    };
    expect(u(finished({ ...skewed, part: lettered })("far hole"))[0]).toBeCloseTo(own, 7);
  });

  it("along the axes of the front, what is turned to the front again has its own operation's turn alone", () => {
    const toFront: SetupDocument = {
      ...skewed,
      touches: skewed.touches.map((each) =>
        each.element === "edge" ? { ...each, element: "front", readings: String(-120 - sy * 3) } : each,
      ),
      strategies: skewed.strategies.map((each) => (each.orient.length > 0 ? { ...each, orient: ["front"] } : each)),
    };
    expect(u(finished(toFront)("far hole"))[0]).toBeCloseTo(own, 7);
  });
});
