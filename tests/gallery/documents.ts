import { checkDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import bearingCover from "../../notebooks/demo/bearingCover.json" with { type: "json" };
import locatedPlate from "../documents/locatedPlate.json" with { type: "json" };

/** A casting with a bore as datum, noted touches and a small skew. */
export const cover = read(bearingCover);

/** A plate on pads, against a jaw and a stop. */
export const located = read(locatedPlate);

const plain = { format: "datumbook", version: 2, tools: [], touches: [], strategies: [] };

/** On two pins in oblique bores and four pads, one of which it does not touch; in inches. */
export const pinned = read({
  ...plain,
  title: "Lid on pins",
  unit: "inch",
  part: {
    name: "lid",
    elements: [
      { id: "seat", kind: "face", outward: "-Z", datum: "A" },
      { id: "first", kind: "bore", datum: "B", x: "0", y: "0", diameter: "0.25" },
      { id: "second", kind: "bore", datum: "C", x: "4", y: "2.5", diameter: "0.25", diameterTolerance: "+0.001 0" },
      { id: "window", kind: "bore", made: "here", diameter: "1", x: "2", y: "1", z: "0.5" },
    ],
    characteristics: [{ id: "window", kind: "position", of: "window", tolerance: "0.01" }],
  },
  fixture: {
    locators: [
      { id: "pad 1", kind: "pad", element: "seat", x: "-0.5", y: "-0.5", heightError: "0.0005" },
      { id: "pad 2", kind: "pad", element: "seat", x: "4.5", y: "-0.5", heightError: "0.0005" },
      { id: "pad 3", kind: "pad", element: "seat", x: "4.5", y: "3", heightError: "0.0005" },
      { id: "pad 4", kind: "pad", element: "seat", x: "-0.5", y: "3", height: "-0.001", heightError: "0.0005" },
      { id: "round", kind: "round pin", element: "first", diameter: "0.2495", z: "0" },
      { id: "diamond", kind: "diamond pin", element: "second", diameter: "0.249", z: "0" },
    ],
  },
});

/** A shaft's end in an upright V-block, free to turn about the shaft. */
export const held = read({
  ...plain,
  title: "Shaft in a V-block",
  unit: "mm",
  part: {
    name: "shaft",
    elements: [
      { id: "end", kind: "face", outward: "-Z", datum: "A" },
      { id: "shaft", kind: "boss", datum: "B", x: "0", y: "0", diameter: "40", diameterTolerance: "±0.05" },
      { id: "keyway", kind: "bore", made: "here", diameter: "6", x: "0", y: "0", z: "30" },
    ],
    characteristics: [{ id: "keyway", kind: "coordinate", of: "keyway", axis: "Y", tolerance: "±0.1" }],
  },
  fixture: {
    locators: [
      { id: "pad 1", kind: "pad", element: "end", x: "-10", y: "-10" },
      { id: "pad 2", kind: "pad", element: "end", x: "10", y: "-10" },
      { id: "pad 3", kind: "pad", element: "end", x: "0", y: "12" },
      { id: "vee", kind: "V-block", element: "shaft", facing: "+Y", angle: "90", z: "10" },
    ],
  },
});

/** A block with a pocket, datums on faces, one sawn end, and lengths measured by touches; in inches, and clearly askew. */
export const pocketBlock = read({
  format: "datumbook",
  version: 1,
  title: "Block with a pocket",
  unit: "inch",
  part: {
    name: "block",
    elements: [
      { id: "top", kind: "face", outward: "+Z", datum: "A" },
      { id: "ledge", kind: "face", outward: "+Z" },
      { id: "front", kind: "face", outward: "-Y", datum: "B", roughness: "0.0001" },
      { id: "left", kind: "face", outward: "-X", datum: "C", roughness: "0.0001" },
      { id: "right", kind: "face", outward: "+X", roughness: "0.002" },
      { id: "back", kind: "face", outward: "+Y", roughness: "0.0001" },
      { id: "pocket left", kind: "face", outward: "+X", made: "here", x: "1.5" },
      { id: "pocket right", kind: "face", outward: "-X", made: "here", x: "3.5" },
      { id: "pocket front", kind: "face", outward: "+Y", made: "here", y: "0.75" },
      { id: "pocket back", kind: "face", outward: "-Y", made: "here", y: "1.75" },
      { id: "spigot", kind: "boss", diameter: "0.75" },
      { id: "hole 1", kind: "bore", made: "here", diameter: "0.25", x: "0.5", y: "0.5", process: "0.0004" },
      { id: "hole 2", kind: "bore", made: "here", diameter: "0.25", x: "0.5", y: "2", process: "0.0004" },
    ],
    dimensions: [
      { id: "length", from: "left", to: "right", nominal: "5", tolerance: "±0.01" },
      { id: "depth", from: "front", to: "back", nominal: "2.5", tolerance: "+0.004 -0.002" },
      { id: "spigot across", from: "left", to: "spigot", axis: "X", nominal: "4.25", tolerance: "±0.003" },
      { id: "spigot up", from: "front", to: "spigot", axis: "Y", nominal: "1.25", tolerance: "±0.003" },
      { id: "step", from: "top", to: "ledge", nominal: "-0.5", tolerance: "±0.005" },
    ],
    characteristics: [
      { id: "hole 1", kind: "position", of: "hole 1", tolerance: "0.008" },
      { id: "hole 2", kind: "position", of: "hole 2", tolerance: "0.008" },
      { id: "pocket wall", kind: "coordinate", of: "pocket left", tolerance: "+0.004 -0.001" },
      { id: "end wall", kind: "distance", of: "right", from: "pocket right", tolerance: "±0.006" },
    ],
  },
  tools: [
    { id: "ball", kind: "touch probe", diameter: "6 mm", radiusUncertainty: "0.00004", scatter: "0.00012" },
    { id: "tool 3", kind: "tool or pin", length: "4.6", lengthUncertainty: "0.0001", scatter: "0.0001" },
  ],
  spacers: [{ id: "block 1", thickness: "1", uncertainty: "0.00001" }],
  machine: {
    register: "G55",
    controllerUnit: "inch",
    offsetStep: "0.0001",
    lostMotion: { x: "0.0002", y: "0.0002" },
    positioning: "0.0003",
    positioningOver: "12",
  },
  touches: [
    { id: "front 1", element: "front", travelling: "+Y", tool: "ball", x: "1", readings: "2.8819" },
    { id: "front 2", element: "front", travelling: "+Y", tool: "ball", x: "4", readings: "2.8909" },
    { id: "left", element: "left", travelling: "+X", tool: "ball", y: "4", readings: "0.3787" },
    { id: "right", element: "right", travelling: "-X", tool: "ball", y: "4", readings: "5.6148" },
    { id: "back", element: "back", travelling: "-Y", tool: "ball", x: "2.5", readings: "5.6255" },
    { id: "spigot sweep", element: "spigot", travelling: "radial", tool: "ball", readings: "X5.24 Y4.27" },
    { id: "top", element: "top", travelling: "-Z", tool: "tool 3", spacer: "block 1", readings: "-8.1003" },
    { id: "ledge", element: "ledge", travelling: "-Z", tool: "tool 3", readings: "-9.6001" },
  ],
  strategies: [
    { id: "corner, turned", touches: ["front 1", "front 2", "left", "top"], rotation: "applied" },
    { id: "sawn end", touches: ["front 1", "front 2", "right", "top"], rotation: "applied" },
    { id: "front only", touches: ["front 1"] },
    { id: "no touch that exists", touches: ["nowhere"] },
  ],
  chosen: "corner, turned",
});

/** Nothing but two edges and three holes: the far sides are not stated. */
export const openPlate = read({
  format: "datumbook",
  version: 1,
  unit: "mm",
  part: {
    name: "plate",
    elements: [
      { id: "long edge", kind: "face", outward: "-Y", datum: "B" },
      { id: "short edge", kind: "face", outward: "-X", datum: "C" },
      { id: "H1", kind: "bore", made: "here", diameter: "8", x: "20", y: "15", process: "0.01" },
      { id: "H2", kind: "bore", made: "here", diameter: "8", x: "170", y: "15", process: "0.01" },
      { id: "H3", kind: "bore", made: "here", diameter: "30", x: "95", y: "50", process: "0.01" },
    ],
    characteristics: [
      { id: "H1", kind: "position", of: "H1", tolerance: "0.05" },
      { id: "H3", kind: "position", of: "H3", tolerance: "0.2" },
    ],
  },
  tools: [{ id: "edge finder", kind: "turning edge finder", diameter: "10", lateTrigger: "0.006", scatter: "0.005" }],
  touches: [
    { id: "B1", element: "long edge", travelling: "+Y", tool: "edge finder", readings: "-100.002 -100.008" },
    { id: "C1", element: "short edge", travelling: "+X", tool: "edge finder", readings: "-200.004 -200.001 -200.006" },
  ],
  strategies: [{ id: "corner", touches: ["B1", "C1"] }],
  chosen: "corner",
});

/** More than fits: many holes, many touches on one side, long names, a swept bore and a boss touched all round. */
export const crowded = read({
  format: "datumbook",
  version: 1,
  unit: "mm",
  part: {
    name: "manifold",
    elements: [
      { id: "base edge, milled in the first setup", kind: "face", outward: "-Y", datum: "B" },
      { id: "end", kind: "face", outward: "-X", datum: "C" },
      { id: "far end", kind: "face", outward: "+X" },
      { id: "upper edge", kind: "face", outward: "+Y" },
      { id: "seat", kind: "bore", diameter: "60", datum: "D", x: "70", y: "60" },
      { id: "hub", kind: "boss", diameter: "40", x: "190", y: "60", datum: "E" },
      { id: "ends", kind: "middle", of: ["end", "far end"] },
      ...Array.from({ length: 24 }, (_, i) => ({
        id: `port ${i + 1}`,
        kind: "bore",
        made: "here",
        diameter: "7",
        x: String(15 + (i % 12) * 20),
        y: i < 12 ? "12" : "108",
        process: "0.01",
      })),
    ],
    dimensions: [
      { id: "overall", from: "end", to: "far end", nominal: "250", tolerance: "0 -0.5" },
      { id: "height", from: "base edge, milled in the first setup", to: "upper edge", nominal: "120", tolerance: "±0.02" },
    ],
    characteristics: Array.from({ length: 24 }, (_, i) => ({
      id: `port ${i + 1}, position`,
      kind: "position",
      of: `port ${i + 1}`,
      tolerance: i % 5 === 0 ? "0.04" : "0.2",
    })),
  },
  tools: [
    { id: "probe", kind: "touch probe", diameter: "6", radiusUncertainty: "0.001", scatter: "0.002" },
    { id: "indicator", kind: "swept indicator", scatter: "0.004" },
  ],
  touches: [
    ...Array.from({ length: 9 }, (_, i) => ({
      id: `base ${i + 1}`,
      element: "base edge, milled in the first setup",
      travelling: "+Y",
      tool: "probe",
      x: String(-480 + i * 25),
      y: "",
      readings: String(-303 + (i % 3) * 0.002),
    })),
    { id: "end, a touch with a long name", element: "end", travelling: "+X", tool: "probe", y: "-240", readings: "-503" },
    { id: "far", element: "far end", travelling: "-X", tool: "probe", y: "-240", readings: "-246.4" },
    { id: "upper", element: "upper edge", travelling: "-Y", tool: "probe", x: "-400", readings: "-176.9" },
    { id: "sweep", element: "seat", travelling: "sweep", tool: "indicator", readings: "X-430.004 Y-240.002" },
    { id: "h1", element: "hub", travelling: "radial", tool: "probe", readings: "X-287 Y-240" },
    { id: "h2", element: "hub", travelling: "radial", tool: "probe", readings: "X-321.5 Y-220.08" },
    { id: "h3", element: "hub", travelling: "radial", tool: "probe", readings: "X-321.5 Y-259.92" },
  ],
  strategies: [
    { id: "edges", touches: ["base 1", "base 9", "end, a touch with a long name"], rotation: "measured" },
    { id: "seat, swept", touches: ["sweep"], zero: { x: "seat", y: "seat" } },
    { id: "hub", touches: ["h1", "h2", "h3"], zero: { x: "hub", y: "hub" } },
    ...Array.from({ length: 5 }, (_, i) => ({ id: `base ${i + 2} and end`, touches: [`base ${i + 2}`, "end, a touch with a long name"] })),
  ],
  chosen: "hub",
  sampling: { trials: 256, seed: 1 },
});

function read(data: unknown): SetupDocument {
  const document = checkDocument(data);
  if (!document.ok) throw new Error(JSON.stringify(document.problems));
  return document.value;
}
