import { blankEntries } from "../../lib/document/blankEntries.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import type { ElementEntry, OperationEntry, SetupDocument, StrategyEntry, TouchEntry } from "../../lib/document/setupDocument.ts";

/** Doubts of the plate below, mm: each is one source, so that a result can be added up by hand. */
export const doubts = { scatter: 0.003, radius: 0.002, length: 0.004, cut: 0.001, width: 0.12, thickness: 0.3 } as const;

const element = (id: string, more: Partial<ElementEntry>): ElementEntry => ({ ...blankEntries.element(id), ...more });
const touch = (id: string, more: Partial<TouchEntry>): TouchEntry => ({ ...blankEntries.touch(id), tool: "probe", ...more });
const strategy = (id: string, more: Partial<StrategyEntry>): StrategyEntry => ({ ...blankEntries.strategy(id), ...more });

/** Machine coordinates of the drawing's origin in both operations, and the radius of the probe. */
const [x10, y10, z10, x20, y20, z20, r, l] = [-400, -200, -300, -250, -120, -280, 3, 100];

/**
 * A plate 100 x 60 x 30, received with a front, a left, a right, a bottom and a top face. Operation 10 cuts a bore at (20, 15) and the top at 28;
 * operation 20, the part turned over about X, cuts a hole in line with the bore and a pocket 5 above the bottom. Strategies are named after what they touch.
 */
export function turnedPlate(lies: OperationEntry["lies"] = "turned over about X"): SetupDocument {
  const blank = newDocument();
  const { scatter, radius, length, cut, width, thickness } = doubts;
  // Which way the drawing's X, Y and Z look in the machine in operation 20 (a half turn about one axis reverses the two others).
  const [sx, sy] = lies === "turned over about X" ? [1, -1] : [-1, 1];
  const along = (axis: "X" | "Y", sign: number) => `${sign > 0 ? "+" : "-"}${axis}` as TouchEntry["travelling"];
  return {
    ...blank,
    // The register rounds nothing: one source less to add up.
    machine: { ...blank.machine, offsetStep: "0" },
    part: {
      ...blank.part,
      elements: [
        element("left", { outward: "-X", datum: "R" }),
        element("front", { outward: "-Y", datum: "S" }),
        element("bottom", { outward: "-Z", datum: "T" }),
        element("right", { outward: "+X" }),
        element("raw top", { outward: "+Z" }),
        element("bore", { kind: "bore", made: "here", operation: "10", x: "20", y: "15", diameter: "10", process: String(cut) }),
        element("top", { outward: "+Z", made: "here", operation: "10", z: "28", process: String(cut) }),
        element("hole", { kind: "bore", made: "here", operation: "20", x: "20", y: "15", diameter: "6", process: String(cut) }),
        element("pocket", { outward: "-Z", made: "here", operation: "20", z: "5", process: String(cut) }),
      ],
      dimensions: [
        { ...blankEntries.dimension("width"), from: "left", to: "right", nominal: "100", tolerance: `±${width}` },
        { ...blankEntries.dimension("thickness"), from: "bottom", to: "raw top", nominal: "30", tolerance: `±${thickness}` },
      ],
      characteristics: [
        { ...blankEntries.characteristic("bore to left"), kind: "distance", of: "bore", from: "left", axis: "X", tolerance: "±0.05" },
        { ...blankEntries.characteristic("hole on bore"), kind: "coaxiality", of: "hole", from: "bore", tolerance: "0.1" },
        { ...blankEntries.characteristic("hole off bore"), kind: "distance", of: "hole", from: "bore", axis: "X", tolerance: "±0.05" },
        { ...blankEntries.characteristic("web"), kind: "distance", of: "top", from: "pocket", tolerance: "±0.4" },
        { ...blankEntries.characteristic("hole"), kind: "coordinate", of: "hole", axis: "X", tolerance: "±0.1" },
      ],
    },
    tools: [
      {
        ...blankEntries.tool("probe"),
        radius: String(r),
        radiusUncertainty: String(radius),
        scatter: String(scatter),
        length: String(l),
        lengthUncertainty: String(length),
      },
    ],
    touches: [
      touch("left 10", { operation: "10", element: "left", travelling: "+X", readings: String(x10 - r), y: String(y10 + 30) }),
      touch("front 10", { operation: "10", element: "front", travelling: "+Y", readings: String(y10 - r), x: String(x10 + 50) }),
      touch("top 10", {
        operation: "10",
        element: "raw top",
        travelling: "-Z",
        readings: String(z10 + 30 + l),
        x: String(x10 + 50),
        y: String(y10 + 30),
      }),
      touch("left 20", {
        operation: "20",
        element: "left",
        travelling: along("X", sx),
        readings: String(x20 - sx * r),
        y: String(y20 + sy * 30),
      }),
      touch("right 20", {
        operation: "20",
        element: "right",
        travelling: along("X", -sx),
        readings: String(x20 + sx * (100 + r)),
        y: String(y20 + sy * 30),
      }),
      touch("front 20", {
        operation: "20",
        element: "front",
        travelling: along("Y", sy),
        readings: String(y20 - sy * r),
        x: String(x20 + sx * 50),
      }),
      ...([1, -1] as const).flatMap((side) => [
        touch(`bore X ${side}`, {
          operation: "20",
          element: "bore",
          travelling: along("X", side),
          readings: String(x20 + sx * 20 + side * (5 - r)),
          y: String(y20 + sy * 15),
        }),
        touch(`bore Y ${side}`, {
          operation: "20",
          element: "bore",
          travelling: along("Y", side),
          readings: String(y20 + sy * 15 + side * (5 - r)),
          x: String(x20 + sx * 20),
        }),
      ]),
      touch("bottom 20", {
        operation: "20",
        element: "bottom",
        travelling: "-Z",
        readings: String(z20 + l),
        x: String(x20 + sx * 50),
        y: String(y20 + sy * 30),
      }),
    ],
    strategies: [
      strategy("corner", { operation: "10", touches: ["left 10", "front 10", "top 10"] }),
      strategy("bore", {
        operation: "20",
        touches: ["bore X 1", "bore X -1", "bore Y 1", "bore Y -1", "bottom 20"],
        zero: { x: "20", y: "15", z: "" },
      }),
      strategy("left again", { operation: "20", touches: ["left 20", "front 20", "bottom 20"] }),
      strategy("right", { operation: "20", touches: ["right 20", "front 20", "bottom 20"], zero: { x: "100", y: "", z: "" } }),
    ],
    operations: [
      { ...blankEntries.operation("10"), chosen: "corner" },
      { ...blankEntries.operation("20"), lies, chosen: "bore" },
    ],
    operation: "20",
  };
}

export function withChosen(document: SetupDocument, operation: string, chosen: string): SetupDocument {
  return { ...document, operations: document.operations.map((each) => (each.id === operation ? { ...each, chosen } : each)) };
}
