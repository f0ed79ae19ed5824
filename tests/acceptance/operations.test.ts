import { describe, expect, it } from "vitest";
import { blankEntries } from "../../lib/document/blankEntries.ts";
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

  it("from a datum system whose edge operation 10 has cut, the turn of the first operation cancels as well", () => {
    const bySystem: SetupDocument = {
      ...skewed,
      part: {
        ...skewed.part,
        datumSystems: [{ ...blankEntries.datumSystem("by the edge"), primary: "bore", secondary: "edge" }],
        characteristics: (["", "by the edge"] as const).map((datums) => ({
          ...blankEntries.characteristic(`hole${datums && ", "}${datums}`),
          kind: "coordinate",
          of: "hole",
          axis: "Y",
          tolerance: "±0.1",
          datums,
        })),
      },
    };
    expect(u(finished(bySystem)("hole, by the edge"))[0]).toBeCloseTo(own, 7);
    // Along the axes of the front as received the first operation's errors come on top.
    expect(u(finished(bySystem)("hole"))[0]).toBeGreaterThan(own);
  });

  describe("a side that operation 20 cuts square to the edge of operation 10", () => {
    const square: SetupDocument = {
      ...skewed,
      machine: { ...skewed.machine, squareness: { x: "0", y: "0", z: "0" } },
      part: {
        ...skewed.part,
        elements: [...skewed.part.elements, { ...bare("top"), id: "side", outward: "+X", operation: "20", x: "98", y: "", z: "" }],
        characteristics: [
          {
            ...blankEntries.characteristic("side square"),
            kind: "perpendicularity",
            of: "side",
            from: "edge",
            tolerance: "0.05",
            length: "50",
          },
        ],
      },
    };
    const toFront: SetupDocument = {
      ...square,
      touches: square.touches.map((each) =>
        each.element === "edge" ? { ...each, element: "front", readings: String(-120 - sy * 3) } : each,
      ),
      strategies: square.strategies.map((each) => (each.orient.length > 0 ? { ...each, orient: ["front"] } : each)),
    };

    it.each(["thisPart", "batch"] as const)("touches of the edge itself tell it: their turn over the length of the side, %s", (view) => {
      expect(u(finished(square, view)("side square"))[0]).toBeCloseTo(50 * turn, 8);
    });

    it("is a problem at the edge where another face tells how the part is turned", () => {
      const { finished: part } = evaluateOperations(toFront) as NonNullable<ReturnType<typeof evaluateOperations>>;
      for (const view of ["thisPart", "batch"] as const) {
        const [stack] = part[view].characteristics.map((each) => each.stack);
        if (stack === undefined || stack.ok) throw new Error("expected a problem");
        expect(stack.problems.map(({ at }) => at)).toEqual(["part.elements.edge.outOfSquare"]);
        expect(stack.problems[0]?.what).toContain("not carried on from operation 10");
      }
    });

    it("with what the edge may stand off that face stated, it counts over the length of the side", () => {
      const degree = Math.PI / 180;
      const elements = toFront.part.elements.map((each) => (each.id === "edge" ? { ...each, outOfSquare: "0.01 deg" } : each));
      const stated = { ...toFront, part: { ...toFront.part, elements } };
      expect(u(finished(stated)("side square"))[0]).toBeCloseTo(50 * Math.hypot(turn, (0.01 * degree) / Math.sqrt(3)), 8);
    });
  });
});

describe.each(["turned over about X", "turned over about Y"] as const)(
  "a row of two holes by a datum system in the second operation, %s",
  (lies) => {
    const plate = turnedPlate(lies);
    const [hole] = plate.part.elements.filter(({ id }) => id === "hole") as [SetupDocument["part"]["elements"][number]];
    const rows: SetupDocument = {
      ...plate,
      part: {
        ...plate.part,
        elements: [...plate.part.elements, { ...hole, id: "second", x: "80" }],
        datumSystems: [{ ...blankEntries.datumSystem("on the bore"), primary: "bore", secondary: "front" }],
        characteristics: [
          { ...blankEntries.characteristic("holes"), of: "hole", also: ["second"], tolerance: "0.1", datums: "on the bore" },
          {
            ...blankEntries.characteristic("among themselves"),
            kind: "position within the pattern",
            of: "hole",
            also: ["second"],
            tolerance: "0.1",
          },
        ],
      },
    };

    it("each has the touches of the bore and its own cut; what made the bore cancels", () => {
      for (const id of ["holes, hole", "holes, second"])
        for (const component of u(finished(rows)(id))) expect(component).toBeCloseTo(Math.hypot(s / Math.SQRT2, cut), 9);
    });

    it("among themselves there are their cuts alone: half of their difference along the line between them, nothing across it", () => {
      for (const id of ["among themselves, hole", "among themselves, second"]) {
        const [along, across] = u(finished(rows)(id));
        expect(along).toBeCloseTo(cut / Math.SQRT2, 9);
        expect(across).toBeCloseTo(0, 9);
      }
    });

    it("a bore 0.02 astray along X leaves holes that are set on the faces as much astray from it, the other way", () => {
      const whatIf = [{ source: "element bore, process X", shift: String(0.02 / cut), doubt: "" }] as SetupDocument["whatIf"];
      const stack = finished(withChosen({ ...rows, whatIf }, "20", "left again"))("holes, hole");
      expect(stack.components.map(({ value }) => value)[0]).toBeCloseTo(-0.02, 9);
      expect(stack.components.map(({ value }) => value)[1]).toBeCloseTo(0, 9);
    });

    it("waits for the operation that cuts the last of its datums", () => {
      const elements = rows.part.elements.map((each) => (each.id === "hole" || each.id === "second" ? { ...each, operation: "10" } : each));
      const late = {
        ...rows,
        part: {
          ...rows.part,
          elements: [...elements, { ...hole, id: "late", x: "50" }],
          datumSystems: [{ ...blankEntries.datumSystem("on the bore"), primary: "late", secondary: "front" }],
        },
      };
      const { finished: part } = evaluateOperations(late) as NonNullable<ReturnType<typeof evaluateOperations>>;
      expect(part.batch.characteristics.map(({ id, operation }) => [id, operation])).toEqual([
        ["holes, hole", "20"],
        ["holes, second", "20"],
        ["among themselves, hole", "10"],
        ["among themselves, second", "10"],
      ]);
    });
  },
);

describe.each(["turned over about X", "turned over about Y"] as const)(
  "a pocket parallel to the top of the first operation, %s",
  (lies) => {
    const error = 0.006;
    const plate = turnedPlate(lies);
    const pads = (element: string) =>
      [
        ["10", "10"],
        ["90", "10"],
        ["50", "50"],
      ].map(([x = "", y = ""], i) => ({
        ...blankEntries.locator(`pad ${i + 1}`),
        operation: "20",
        element,
        x,
        y,
        heightError: String(error),
      }));
    const on = (element: string): SetupDocument => ({
      ...plate,
      fixture: { ...plate.fixture, locators: pads(element) },
      part: {
        ...plate.part,
        characteristics: [
          {
            ...blankEntries.characteristic("pocket parallel"),
            kind: "parallelism",
            of: "pocket",
            from: "top",
            tolerance: "0.05",
            length: "80",
            width: "40",
          },
        ],
      },
    });
    const judged = (document: SetupDocument) => {
      const evaluation = evaluateOperations(document) as NonNullable<ReturnType<typeof evaluateOperations>>;
      const stacks = evaluation.finished.batch.characteristics.map(({ stack }) => stack);
      const locating = must(evaluation.operations[1]?.fixture?.located ?? { ok: false, problems: [] });
      return { stacks, locating: locating.judgement.stacks };
    };

    it("set on the top itself: the pads' errors, over a length and a width as long as the ways between them", () => {
      // Over 80 along X the pads 1 and 2 differ by √2·u; over 40 along Y pad 3 stands off the middle of both by √1.5·u. The diagonals have both.
      const expected = Math.sqrt(2 + 1.5) * (error / Math.sqrt(3));
      const { stacks, locating } = judged(on("top"));
      expect(stacks).toHaveLength(2);
      for (const stack of [...stacks, ...locating]) expect(u(must(stack))[0]).toBeCloseTo(expected, 9);
    });

    it("set on something else it is not known: how the top was tilted when it was cut is not carried on", () => {
      const { stacks, locating } = judged(on("bottom"));
      for (const stack of [...stacks, ...locating]) {
        if (stack.ok) throw new Error("expected a problem");
        expect(stack.problems.every(({ what }) => what.includes("not carried on from operation 10"))).toBe(true);
      }
    });
  },
);

it("a lobed wall is the same wall from the other side: a second set of touches at the same places of it errs as the first", () => {
  // Touched at four places of three lobes the centre is off by all of the amplitude; a hole set on the same wall from either side is off alike.
  for (const lies of ["turned over about X", "turned over about Y"] as const) {
    const plate = turnedPlate(lies);
    const bores = plate.touches.filter(({ element }) => element === "bore");
    const [x, y] = lies === "turned over about X" ? [1, -1] : [-1, 1];
    const from = (touch: (typeof bores)[number]) => {
      const [sign, axis] = [touch.travelling[0] === "+" ? 1 : -1, touch.travelling[1]];
      const way = sign * (axis === "X" ? x : y);
      const [at, across] = axis === "X" ? [-400 + 20, -200 + 15] : [-200 + 15, -400 + 20];
      return {
        ...touch,
        id: `first ${touch.id}`,
        operation: "10",
        element: "old bore",
        travelling: `${way > 0 ? "+" : "-"}${axis}` as typeof touch.travelling,
        readings: String(at + way * 2),
        ...(axis === "X" ? { y: String(across) } : { x: String(across) }),
      };
    };
    const [bore, hole] = ["bore", "hole"].map((id) => plate.part.elements.find((each) => each.id === id)) as [
      SetupDocument["part"]["elements"][number],
      SetupDocument["part"]["elements"][number],
    ];
    const lobed: SetupDocument = {
      ...plate,
      part: {
        ...plate.part,
        elements: [
          ...plate.part.elements.filter(({ id }) => !["bore", "hole", "left", "front", "right"].includes(id)),
          { ...bore, id: "old bore", made: "before", operation: "", datum: "A", process: "", lobes: "3", lobeAmplitude: "0.05" },
          { ...hole, id: "first", operation: "10", process: "" },
          { ...hole, id: "second", process: "" },
        ],
        dimensions: plate.part.dimensions.filter(({ id }) => id === "thickness"),
        characteristics: [{ ...blankEntries.characteristic("both"), kind: "coaxiality", of: "second", from: "first", tolerance: "0.1" }],
      },
      touches: [
        ...plate.touches.filter(({ id }) => id === "top 10" || id === "bottom 20"),
        ...bores.map(from),
        ...bores.map((touch) => ({ ...touch, element: "old bore" })),
      ],
      strategies: [
        {
          ...(plate.strategies[0] as (typeof plate.strategies)[number]),
          touches: [...bores.map(({ id }) => `first ${id}`), "top 10"],
        },
        ...plate.strategies.filter(({ id }) => id === "bore"),
      ],
    };
    for (const component of u(finished(lobed)("both"))) expect(component).toBeCloseTo(s, 9);
  }
});
