/** How an entry of a document is called in a sentence, and how it is read. */
export interface EntryWords {
  readonly words: string;
  /** A bare number takes the unit of the document; a name, also that of a source of a row, is followed when its row is renamed. */
  readonly kind?: "length" | "readings" | "source" | ListPlace;
}

/** Lists of rows with a name of their own, by their place in the document. */
export const rowWords = {
  "part.elements": "element",
  "part.dimensions": "dimension",
  "part.characteristics": "characteristic",
  tools: "tool",
  spacers: "spacer",
  workFrames: "work frame",
  "fixture.locators": "locator",
  "fixture.clamps": "clamp",
  "fixture.seatTouches": "seat touch",
  touches: "touch",
  correlations: "correlation",
  strategies: "strategy",
} as const;
export type ListPlace = keyof typeof rowWords;

const length = (words: string): EntryWords => ({ words, kind: "length" });
const name = (words: string, kind: ListPlace): EntryWords => ({ words, kind });
const axesOf = (key: string, words: string, more: Omit<EntryWords, "words"> = {}) =>
  Object.fromEntries(["x", "y", "z"].map((axis) => [`${key}.${axis}`, { words: `${words} ${axis.toUpperCase()}`, ...more }]));

const warmBody = (key: "part" | "scale", owner: string) => ({
  [`heat.${key}.temperature`]: { words: `temperature of ${owner}` },
  [`heat.${key}.temperatureUncertainty`]: { words: `uncertainty of the temperature of ${owner}` },
  [`heat.${key}.coefficient`]: { words: `expansion coefficient of ${owner}` },
  [`heat.${key}.coefficientUncertainty`]: { words: `uncertainty of the expansion coefficient of ${owner}` },
});

/** Entries that are called otherwise than by their key. */
export const entryWords: Readonly<Record<string, EntryWords>> = {
  outward: { words: "outward direction" },
  of: name("element", "part.elements"),
  from: name("other element", "part.elements"),
  to: name("end", "part.elements"),
  made: { words: "making" },
  datum: { words: "datum letter" },
  x: length("X"),
  y: length("Y"),
  z: length("Z"),
  diameter: length("diameter"),
  diameterTolerance: { words: "tolerance of the diameter" },
  roughness: length("roughness"),
  skew: length("lean"),
  process: length("uncertainty of the cut"),
  nominal: length("nominal size"),
  measured: length("measured size"),
  measuredUncertainty: length("uncertainty of the measured size"),
  radius: length("radius"),
  radiusUncertainty: length("uncertainty of the radius"),
  radiusEvidence: { words: "evidence of the radius" },
  lateTrigger: length("late trigger"),
  eccentricity: length("eccentricity"),
  scatter: length("scatter"),
  scatterFrom: { words: "origin of the scatter" },
  scatterEvidence: { words: "evidence of the scatter" },
  length: length("length"),
  lengthUncertainty: length("uncertainty of the length"),
  thickness: length("thickness"),
  uncertainty: length("uncertainty"),
  element: name("element", "part.elements"),
  travelling: { words: "direction of travel" },
  tool: name("tool", "tools"),
  spacer: name("spacer", "spacers"),
  readings: { words: "readings", kind: "readings" },
  frame: name("frame of the readings", "workFrames"),
  "total.x": length("total reading along X"),
  "total.y": length("total reading along Y"),
  touches: name("touches", "touches"),
  one: { words: "first source", kind: "source" },
  other: { words: "second source", kind: "source" },
  hold: name("held sizes", "part.elements"),
  orient: name("touches that only orient", "part.elements"),
  fixtureFrame: name("frame of the fixture", "workFrames"),
  sizes: { words: "sizes in use" },
  ...axesOf("zero", "place of zero", { kind: "part.elements" }),
  span: length("span"),
  angle: { words: "angle between the faces" },
  clearance: length("clearance"),
  height: length("height"),
  heightError: length("error of the height"),
  seat: length("scatter of the seat"),
  debris: length("thickest chip or burr"),
  pressing: { words: "direction of pressing" },
  reading: length("reading"),
  baseline: length("baseline"),
  "fixture.seatScatter": length("scatter of the seat check"),
  "fixture.wantedError": length("wanted error of locating"),
  "fixture.note": { words: "note on the fixture" },
  "part.name": { words: "name of the part" },
  "part.generalTolerance": { words: "general tolerance" },
  chosen: name("strategy in use", "strategies"),
  "machine.name": { words: "name of the machine" },
  "machine.controllerUnit": { words: "unit of the controller" },
  "machine.decimals": { words: "decimals of an offset" },
  "machine.offsetStep": length("step of an offset"),
  "machine.displayStep": length("step of the display"),
  ...axesOf("machine.lostMotion", "lost motion along", { kind: "length" }),
  ...axesOf("machine.working", "last move along"),
  "machine.positioning": length("positioning error"),
  "machine.positioningOver": length("distance of the positioning error"),
  "machine.note": { words: "note on the machine" },
  ...warmBody("part", "the part"),
  ...warmBody("scale", "the scales"),
  "heat.evidence": { words: "evidence of the coefficients" },
  "heat.expected": { words: "expected expansion" },
  "heat.note": { words: "note on heat" },
  "decision.rule": { words: "decision rule" },
  "decision.conformanceProbability": { words: "conformance probability" },
  "sampling.trials": { words: "number of trials" },
  "sampling.seed": { words: "seed of the trials" },
};
