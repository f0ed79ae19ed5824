import * as v from "valibot";
import { registers } from "../equipment/equipment.ts";
import { locatorKinds } from "../equipment/fixture.ts";
import { offsetKinds, offsetRests } from "../equipment/offsetLog.ts";
import { shiftingDatums } from "../part/datumShift.ts";
import { decisionRuleNames } from "../part/decisionRule.ts";
import { generalTolerances } from "../part/generalTolerance.ts";
import { partLies } from "../part/partLies.ts";
import { eventKinds } from "../readings/checks.ts";
import { slipKinds } from "../readings/slipKinds.ts";
import { ledgerSchema, whatIfSchema } from "./ledgerBlocks.ts";
import { revisionsOf } from "./revisionEntry.ts";

/** The version that this program writes; older ones are migrated, newer ones refused. */
export const currentVersion = 2;

const text = v.optional(v.string(), "");
/** An entry that few rows have: files that do not state it are written without it. */
const added = v.optional(v.string());
const id = v.pipe(v.string(), v.trim(), v.nonEmpty("a name is needed"), v.maxLength(80, "a name has at most 80 characters"));
const choice = <const T extends readonly [string, ...string[]]>(options: T) => v.picklist(options);
/** JSON reads 1e999 as infinite, and could not write it again. */
const count = v.pipe(v.number(), v.finite("this number has no end"));
const perAxis = v.optional(v.object({ x: text, y: text, z: text }), {});

const direction = choice(["+X", "-X", "+Y", "-Y", "+Z", "-Z"]);
const axis = choice(["X", "Y", "Z"]);
const evidence = v.optional(choice(["stated", "certificate", "published", "shop default"]), "stated");

/** Which of several operations a row belongs to; the first when left out or empty. */
const inOperation = v.optional(v.string());

const elementEntry = v.object({
  id,
  /** A flat face, one that looks along no axis of the drawing, a round wall with its axis along Z, or the middle between two faces. */
  kind: choice(["face", "angled face", "bore", "boss", "middle"]),
  /** Faces: out of the metal. The left wall of a pocket looks toward +X. */
  outward: v.optional(direction),
  /** Angled faces: where they look, from +X towards +Y, such as `30 deg`; a bare number is degrees. */
  facing: added,
  /** Angled faces: how far they look up from level, such as `45 deg` of a chamfer at the top; below 0 of an undercut; upright when empty. */
  inclination: added,
  /** Middles: the two faces. */
  of: v.optional(v.tuple([v.string(), v.string()])),
  /** There before this setup, or cut in it. */
  made: v.optional(choice(["before", "here"]), "before"),
  /** The operation that cuts it, where the part has several; only for what is cut here. */
  operation: inOperation,
  /** Datum letter on the drawing; empty for none. */
  datum: text,
  /** Basic coordinates in the drawing's frame: of datum elements (0 when empty) and of what is cut here. */
  x: text,
  y: text,
  z: text,
  diameter: text,
  /** Deviations such as `+0.021 0`, or a class of ISO 286 such as `H7`. */
  diameterTolerance: text,
  /** Half-width by which a touch may land off the mean surface. */
  roughness: text,
  /** Half-width by which the face may lean over its length. */
  skew: text,
  /** Round walls: how many lobes the form error has round the wall, 2 for an oval. */
  lobes: added,
  /** How far the lobes rise above the mean circle, and as far below it: half of what is measured from peak to valley. */
  lobeAmplitude: added,
  /** Standard uncertainty of the cut itself, per axis. A middle cut here without one has that of its faces, where they are cut here too. */
  process: text,
  /** Faces cut here: how far they may at most stay proud because the cutter yields; half of it is expected. */
  deflection: text,
  /** Half-width of the angle by which it may stand off what else tells how the part lies, such as `0.01 deg`; a bare number is degrees. It counts where the element is the datum of an orientation and neither the touches nor the locators have the part by itself. */
  outOfSquare: text,
  note: text,
});

const dimensionEntry = v.object({
  id,
  from: v.string(),
  to: v.string(),
  axis: v.optional(axis),
  nominal: text,
  /** Deviations such as `±0.05` or `+0.1 -0.02`, or a class of ISO 286 such as `h9`. */
  tolerance: text,
  /** How sizes spread between the limits in a batch: bell-shaped with the limits at three standard deviations, even, or triangular. */
  spread: v.optional(choice(["normal", "rectangular", "triangular"]), "normal"),
  /** The size of this very part, measured otherwise. */
  measured: text,
  measuredUncertainty: text,
  note: text,
});

const characteristicEntry = v.object({
  id,
  kind: choice([
    "position",
    "position at maximum material",
    "position within the pattern",
    "coordinate",
    "distance",
    "depth",
    "coaxiality",
    "symmetry",
    "wall thickness",
    "parallelism",
    "perpendicularity",
    "angle",
  ]),
  of: v.string(),
  /** Further elements of the same row, such as the other holes of a pattern: the row is met when it is met for each of them. */
  also: v.optional(v.array(v.string()), []),
  /** Distances and depths: the other element. Coaxiality: the round element whose axis is the reference. Symmetry: the middle that is. Wall thickness of a bore: the face or the other bore. Orientations: the datum. */
  from: text,
  /** Positions and coordinates: the datum system that they go by; empty for the drawing's frame by datum letters. */
  datums: text,
  /** Along which it is told. Angles: about which. Orientations of an axis: the one direction in which the zone limits it, empty for a round zone. */
  axis: v.optional(axis),
  /** Position and coaxiality: the zone's diameter, at maximum material without bonus; symmetry: its width. Others: deviations such as `±0.05` or `+0.1 -0.02`; distances and depths also a class such as `H9`, wall thicknesses also `at least 3 mm`. Parallelism and perpendicularity: the width or the diameter of the zone. Angles: deviations such as `±0.1 deg`. */
  tolerance: text,
  /** Parallelism and perpendicularity: the length of the feature over which a tilt counts, and the other one of a face whose tilt counts both ways; the part's size across when empty. */
  length: text,
  width: text,
  note: text,
});

/** A datum system (ISO 5459): datums by element or by letter, in their order. A middle stands for the mid-plane of its faces, a bore or boss for its axis. */
const datumSystemEntry = v.object({
  id,
  primary: text,
  secondary: text,
  tertiary: text,
  /** Which of them, bores or bosses with limits, the drawing references at their maximum material (ISO 2692): the shift that their sizes leave is told, and counts in no chance. */
  atMaximumMaterial: v.optional(choice(shiftingDatums)),
  note: text,
});

/** Of a tool, or of what lies between tool and face. No number follows from these. */
const calibrationEntries = {
  /** The certificate or record that its figures rest on. */
  certificate: added,
  /** The day on which it was calibrated, such as `2026-03-14`. */
  calibrated: added,
  /** The last day on which that still holds: it is due again then. */
  due: added,
};

const toolEntry = v.object({
  id,
  kind: choice(["turning edge finder", "touch probe", "tool or pin", "swept indicator"]),
  /** Catalogue diameter: used, halved, when no effective radius is known. */
  diameter: text,
  /** Effective (calibrated) radius. */
  radius: text,
  /** A length, or a share of the radius such as `0.1 %`. */
  radiusUncertainty: text,
  radiusEvidence: evidence,
  /** Half-width of the late trigger, the same on every side. */
  lateTrigger: text,
  /** Half-width by which the tip may stand off the spindle axis. */
  eccentricity: text,
  /** Standard deviation of one touch. */
  scatter: text,
  scatterFrom: v.optional(choice(["stated", "own repeats", "pooled repeats"]), "stated"),
  scatterEvidence: evidence,
  /** From the gauge line to the tip. */
  length: text,
  /** A length, or a share of the length such as `0.01 %`. */
  lengthUncertainty: text,
  /** Swept indicator with a lever: the angle of the lever to the surface that it sweeps, by whose cosine its readings are too large; a bare number is degrees. */
  leverAngle: added,
  leverAngleUncertainty: added,
  /** In place of that: the largest angle at which the lever may stand. */
  leverAngleLimit: added,
  /** Minutes that one touch takes, the way to it included; a shop default by its kind when empty. */
  touchMinutes: added,
  ...calibrationEntries,
  note: text,
});

const spacerEntry = v.object({ id, thickness: text, uncertainty: text, evidence, ...calibrationEntries, note: text });

const workFrameEntry = v.object({
  id,
  x: text,
  y: text,
  z: text,
  /** Standard uncertainty of where it stands, per axis; it counts where a part zero stays in this frame. */
  uncertainty: text,
  note: text,
});

const touchEntry = v.object({
  id,
  operation: inOperation,
  element: v.string(),
  /** Direction in which the tool moved to touch; `radial` for a round wall touched at any angle, `sweep` for an indicator swung round. */
  travelling: choice(["+X", "-X", "+Y", "-Y", "+Z", "-Z", "radial", "sweep"]),
  tool: v.string(),
  /** What lay between tool and face. */
  spacer: text,
  readings: text,
  /** Where the screen showed the tool on the other axes: X and Y of its axis, Z of its gauge line. */
  x: text,
  y: text,
  z: text,
  /** Swept indicator: total reading left, + side less - side, along X and Y. */
  total: v.optional(v.object({ x: text, y: text }), {}),
  /** `machine`, or the name of the older work frame that the screen showed. */
  frame: v.optional(v.string(), "machine"),
  spindle: v.optional(choice(["as calibrated", "turned half round"]), "as calibrated"),
  note: text,
});

const correlationEntry = v.object({
  id,
  /** Names of two sources, as a budget lists them. */
  one: text,
  other: text,
  /** From -1 to 1; empty where it comes from the readings of both. */
  coefficient: text,
  /** What the coefficient rests on; `read together`: the repeats of both, the first with the first, the second with the second. */
  evidence: v.optional(choice(["stated", "certificate", "published", "shop default", "read together"]), "stated"),
  note: text,
});

const strategyEntry = v.object({
  id,
  operation: inOperation,
  touches: v.optional(v.array(v.string()), []),
  /** Middles that are put at their drawing place, whatever the width between their faces. */
  hold: v.optional(v.array(v.string()), []),
  /** Faces whose touches only tell how the part is turned, not where it lies. */
  orient: v.optional(v.array(v.string()), []),
  /** Skew of the part: not looked at; measured, with the zero taken from the turned part; measured and applied to the coordinates. */
  rotation: v.optional(choice(["ignored", "measured", "applied"]), "ignored"),
  /** Sizes between a touched face and the datum: as drawn, or as measured on this part. */
  sizes: v.optional(choice(["nominal", "measured"]), "nominal"),
  /** The work frame of a fixture in which the drawing's frame lies when the part is set against the locators: no touch on the part then; empty for touches. */
  fixtureFrame: text,
  /** Where part zero sits: a coordinate in the drawing's frame, or an element's name, per axis. */
  zero: perAxis,
  note: text,
});

const machineEntry = v.object({
  name: text,
  register: v.optional(choice(registers), "G54"),
  controllerUnit: v.optional(choice(["mm", "inch"]), "mm"),
  /** Decimals of an offset as typed; 3 in millimetres and 4 in inches when empty. */
  decimals: text,
  /** Smallest step of an offset register; its rounding is a source when stated. */
  offsetStep: text,
  /** Smallest step of the position display; a source on every touch when stated. */
  displayStep: text,
  /** Lost motion left after compensation, per axis. */
  lostMotion: perAxis,
  /** Direction of the last move before cutting, per axis: `+`, `-`, or empty when both occur. */
  working: perAxis,
  /** Half-width of the positioning error over a distance. */
  positioning: text,
  positioningOver: text,
  /** Half-width by which its motions are out of square, over the same length: about X and Y what is upright against the plane of X and Y, about Z the way along Y against that along X. About Z it moves every place; about X and Y it counts for what stands upright, not for places at other heights. */
  squareness: perAxis,
  squarenessOver: text,
  note: text,
});

/** How warm a body is, in °C, and its coefficient of linear expansion in 1e-6/K; both with standard uncertainties, of the coefficient also in per cent. */
const warmBodyEntry = v.optional(
  v.object({ temperature: text, temperatureUncertainty: text, coefficient: text, coefficientUncertainty: text }),
  {},
);

/** Expansion against the 20 °C at which a drawing holds (ISO 1); nothing stated changes nothing. */
const heatEntry = v.object({
  part: warmBodyEntry,
  scale: warmBodyEntry,
  /** Of the coefficients. */
  evidence,
  /** What becomes of the expected expansion: it stays in the work, where it is told as a deviation; or programme or control take it out, and only its doubt is left. */
  expected: v.optional(choice(["left in the work", "taken out"]), "left in the work"),
  note: text,
});

/** One of several clampings of the same part, in the order in which they follow each other. */
const operationEntry = v.object({
  id,
  /** How the part lies in the machine. What is said of the part is said in the drawing's frame all the same; what the screen shows is the machine's. */
  lies: v.optional(choice(partLies), "as drawn"),
  /** The strategy in use there: what it cuts by it is what later operations find. */
  chosen: text,
  /** The register of its part zero; the machine's when left out. */
  register: v.optional(choice(registers)),
  note: text,
});

const locatorEntry = v.object({
  id,
  operation: inOperation,
  /** A pad or stop holds along its facing; a fixed jaw at both ends of its span; a pin in a hole; a short V-block holds an upright round part; a tooling hole holds nothing and is there to be touched. */
  kind: choice(locatorKinds),
  /** The part's face, bore or boss that meets it; empty for a bare place. */
  element: text,
  /** Where it holds the part, in the drawing's frame; what the element says is left empty. */
  x: text,
  y: text,
  z: text,
  /** Out of the locator into the part. A diamond pin: the direction that it holds, across the line to the round pin when left out. */
  facing: v.optional(direction),
  /** Fixed jaw: the length over which the part bears on it. */
  span: text,
  /** V-block: the angle between its faces, in degrees; 90 when empty. */
  angle: text,
  /** Pins: diameter of the pin, and its tolerance. */
  diameter: text,
  diameterTolerance: text,
  /** Pins: the largest difference of the diameters of hole and pin, where it does not follow from them. */
  clearance: text,
  /** How far it is known to stand from where it should, along its facing. */
  height: text,
  /** Half-width of what is not known of that. */
  heightError: text,
  evidence,
  /** Standard uncertainty with which a part comes to rest on it anew. */
  seat: text,
  /** The thickest chip or burr that may lie on it. */
  debris: text,
  note: text,
});

/** A clamp presses onto the part at a place, in the drawing's frame. */
const clampEntry = v.object({ id, operation: inOperation, pressing: direction, x: text, y: text, z: text, note: text });

/** A Z reading on the seated part, and the same on a part that is known to have sat well; where on the part, in the drawing's frame. */
const seatTouchEntry = v.object({ id, operation: inOperation, x: text, y: text, reading: text, baseline: text, note: text });

const fixtureEntry = v.object({
  /** In the order in which the part comes to rest on them. */
  locators: v.optional(v.array(locatorEntry), []),
  clamps: v.optional(v.array(clampEntry), []),
  seatTouches: v.optional(v.array(seatTouchEntry), []),
  /** Standard deviation of one reading of the seat check. */
  seatScatter: text,
  /** How far locating may move any feature at worst: the spacing that this asks for is told. */
  wantedError: text,
  note: text,
});

const measuredFeatureEntry = v.object({
  id,
  /** Which part of the run. */
  part: text,
  element: text,
  /** What cut it. */
  tool: text,
  /** Made less wanted, along the axes of the drawing; empty where not measured. */
  x: text,
  y: text,
  z: text,
  note: text,
});

/** What was changed between two parts of the run. */
const madeCorrectionEntry = v.object({
  id,
  /** The part of the run after which it was made. */
  after: text,
  operation: inOperation,
  /** The tool that was corrected, by its name among what cut; empty for the work offset. */
  tool: text,
  /** How far it was to move what is cut from then on, along the axes of the drawing; empty where nothing was changed. */
  x: text,
  y: text,
  z: text,
  note: text,
});

const madePartsEntry = v.object({
  measured: v.optional(v.array(measuredFeatureEntry), []),
  corrections: v.optional(v.array(madeCorrectionEntry), []),
  /** Standard deviation of one part about the mean of many, where it is known from before. */
  partScatter: text,
  /** Whether a change of scale is sought among the causes: worth it where heat is suspected. */
  scale: v.optional(choice(["left out", "sought"]), "left out"),
  note: text,
});

/** The same surface read by the same tool so many minutes after the start. */
const warmUpReadingEntry = v.object({ id, minutes: text, reading: text, note: text });

const warmUpEntry = v.object({
  readings: v.optional(v.array(warmUpReadingEntry), []),
  /** Along which the surface was read. */
  axis: v.optional(axis, "Z"),
  /** The reading at the start, where it is known otherwise; found from the readings when empty. */
  start: text,
  /** How far a zero may drift; when empty, what the characteristic with the least room along the axis leaves beside its root sum square. */
  allowed: text,
  /** Minutes per part. */
  cycle: text,
  /** Minutes after the start at which the zero in force was set; 0 when empty. */
  setAt: text,
  note: text,
});

/** One row of the log of the controller's offsets. Rows are only added: what is in force follows from all of them in their order. */
const offsetEntry = v.object({
  id,
  /** A measured zero takes the place of the one before and ends its corrections; corrections add up; a shift takes the place of the one before; a restore brings an earlier state back. */
  kind: v.optional(choice(offsetKinds), "measured zero"),
  /** `G54` to `G59.3`, `P10` on; empty for a global shift, and for a restore of everything. */
  register: text,
  /** Lengths along the machine's axes, with or without a doubt, such as `-412.607 mm ± 0.002 mm`; an empty one says nothing of its axis. */
  x: text,
  y: text,
  z: text,
  /** Of the coordinates about Z; a bare number is degrees. */
  turn: text,
  /** Local shift: the nest or second part that it is for. */
  nest: text,
  /** Restore: the row after which the offsets stood as they are to stand again. */
  restores: text,
  /** Measured zero: whether touches of its own found it, of the part as it lies; only then is it evidence beside those of this setup. */
  rests: v.optional(choice(offsetRests)),
  why: text,
  when: text,
  who: text,
});

/** A nest of the fixture, or a second part beside the first. */
const nestEntry = v.object({
  id,
  /** From the first nest, as drawn. */
  x: text,
  y: text,
  /** From the first nest, as found in the machine, with or without a doubt; both empty where nobody looked. */
  foundX: text,
  foundY: text,
  note: text,
});

const checkEntry = v.object({
  id,
  operation: inOperation,
  element: v.string(),
  /** Direction in which the tool moves to touch. */
  travelling: direction,
  tool: v.string(),
  /** What lies between tool and face. */
  spacer: text,
  /** What the display showed; empty while only the prediction is asked for. */
  readings: text,
  /** Where the tool stands on the other axes. */
  x: text,
  y: text,
  z: text,
  /** `machine`, or the name of the older work frame that the screen showed. */
  frame: v.optional(v.string(), "machine"),
  spindle: v.optional(choice(["as calibrated", "turned half round"]), "as calibrated"),
  by: text,
  /** `2026-03-14 16:20`; events are told apart from checks by it. */
  when: text,
  note: text,
});

/** A place above which the display is looked at, without a touch. */
const checkMoveEntry = v.object({
  id,
  operation: inOperation,
  /** What stands in the spindle; its length counts along Z. */
  tool: text,
  /** In the drawing's frame; 0 when empty. */
  x: text,
  y: text,
  z: text,
  /** How far the tip stays above it. */
  clearance: text,
  note: text,
});

const eventEntry = v.object({
  id,
  kind: choice(eventKinds),
  /** `2026-03-14 16:20`. */
  when: text,
  /** Of a changed tool or a new stylus: which. */
  tool: text,
  note: text,
});

/** How often a slip happens, for the ranking of explanations, where it is not as usual. */
const slipChanceEntry = v.object({
  id,
  slip: choice(slipKinds),
  /** Of one touch, tool or entry at which it could happen: `0.2 %`. */
  chance: text,
  note: text,
});

const decisionEntry = v.object({
  /** How a measured deviation is judged against its tolerance. */
  rule: v.optional(choice(decisionRuleNames), "simple acceptance"),
  /** With guard bands: the least chance, such as `95 %`, with which what is accepted conforms, or what is rejected does not; 95 % when empty. */
  conformanceProbability: text,
  /** In place of that: the width of a guard band as a multiple of the expanded uncertainty (k = 2) of what is judged, such as `1`. */
  guardBand: text,
  /** Standard uncertainty with which each made part is measured, of one coordinate in a round zone: it tells the risks of inspecting the batch. */
  inspection: text,
});

/** Who answers for the setup, and what its author says beside the numbers. No number follows from any of it. */
const recordEntry = v.object({
  preparedBy: text,
  checkedBy: text,
  /** Of the record, as it is to be printed. */
  date: text,
  /** The author's own paragraphs of the rationale, one to a line: why this strategy, what is assumed, what would change the choice, which risks stay open. */
  choice: text,
  assumptions: text,
  changes: text,
  risks: text,
});

/** What a person states, in the order in which it is saved. */
const sections = {
  title: text,
  note: text,
  revision: text,
  /** Unit of every bare number in the document, and of what is shown. */
  unit: choice(["mm", "inch"]),
  part: v.object({
    name: text,
    /** For dimensions, diameters, distances and depths that state no tolerance of their own (ISO 2768-1). Without it dimensions are exact, diameters free, and what the drawing demands is refused. */
    generalTolerance: v.optional(choice(generalTolerances), "none stated"),
    elements: v.array(elementEntry),
    dimensions: v.optional(v.array(dimensionEntry), []),
    /** Besides the drawing's frame by datum letters. */
    datumSystems: v.optional(v.array(datumSystemEntry), []),
    characteristics: v.optional(v.array(characteristicEntry), []),
  }),
  tools: v.array(toolEntry),
  spacers: v.optional(v.array(spacerEntry), []),
  machine: v.optional(machineEntry, {}),
  /** While touching and cutting. */
  heat: v.optional(heatEntry, {}),
  workFrames: v.optional(v.array(workFrameEntry), []),
  /** What the part is set against. */
  fixture: v.optional(fixtureEntry, {}),
  touches: v.array(touchEntry),
  /** Doubts that go together. */
  correlations: v.optional(v.array(correlationEntry), []),
  strategies: v.array(strategyEntry),
  /** The strategy in use, of a part with one operation. */
  chosen: text,
  /** Several clampings of the same part; none for one. Touches, strategies, locators and what is cut then say in which they are. */
  operations: v.optional(v.array(operationEntry), []),
  /** The operation that is looked at; the first when empty. */
  operation: text,
  decision: v.optional(decisionEntry, {}),
  /** Parts that were made with this setup, as measured. */
  madeParts: v.optional(madePartsEntry, {}),
  /** How a zero drifts while the machine warms. */
  warmUp: v.optional(warmUpEntry, {}),
  /** What was put into the controller's offsets, oldest first. */
  offsets: v.optional(v.array(offsetEntry), []),
  /** Where parts lie beside the first. */
  nests: v.optional(v.array(nestEntry), []),
  /** Faces touched again, or for the first time, to see whether the zero holds. */
  checks: v.optional(v.array(checkEntry), []),
  checkMoves: v.optional(v.array(checkMoveEntry), []),
  /** What happened since the zero was set. */
  events: v.optional(v.array(eventEntry), []),
  slipChances: v.optional(v.array(slipChanceEntry), []),
  /** What a person writes beside the setup: quantities and formulas of their own, tables, prose. */
  ledger: v.optional(ledgerSchema, []),
  whatIf: v.optional(whatIfSchema, []),
  record: v.optional(recordEntry, {}),
  sampling: v.optional(v.object({ trials: v.optional(count, 2048), seed: v.optional(count, 1) }), {}),
};

export const setupDocumentSchema = v.object({
  format: v.literal("datumbook"),
  version: v.literal(currentVersion),
  ...sections,
  /** States that somebody noted, oldest first. */
  revisions: revisionsOf(sections),
});

/** A setup as it is saved: every entry as a person typed it, no results. */
export type SetupDocument = v.InferOutput<typeof setupDocumentSchema>;
export type ElementEntry = v.InferOutput<typeof elementEntry>;
export type DimensionEntry = v.InferOutput<typeof dimensionEntry>;
export type CharacteristicEntry = v.InferOutput<typeof characteristicEntry>;
export type DatumSystemEntry = v.InferOutput<typeof datumSystemEntry>;
export type ToolEntry = v.InferOutput<typeof toolEntry>;
export type SpacerEntry = v.InferOutput<typeof spacerEntry>;
export type WorkFrameEntry = v.InferOutput<typeof workFrameEntry>;
export type LocatorEntry = v.InferOutput<typeof locatorEntry>;
export type ClampEntry = v.InferOutput<typeof clampEntry>;
export type SeatTouchEntry = v.InferOutput<typeof seatTouchEntry>;
export type TouchEntry = v.InferOutput<typeof touchEntry>;
export type CorrelationEntry = v.InferOutput<typeof correlationEntry>;
export type OperationEntry = v.InferOutput<typeof operationEntry>;
export type MadeCorrectionEntry = v.InferOutput<typeof madeCorrectionEntry>;
export type MeasuredFeatureEntry = v.InferOutput<typeof measuredFeatureEntry>;
export type WarmUpReadingEntry = v.InferOutput<typeof warmUpReadingEntry>;
export type NestEntry = v.InferOutput<typeof nestEntry>;
export type CheckEntry = v.InferOutput<typeof checkEntry>;
export type CheckMoveEntry = v.InferOutput<typeof checkMoveEntry>;
export type EventEntry = v.InferOutput<typeof eventEntry>;
export type SlipChanceEntry = v.InferOutput<typeof slipChanceEntry>;
export type StrategyEntry = v.InferOutput<typeof strategyEntry>;
export type OffsetEntry = v.InferOutput<typeof offsetEntry>;
