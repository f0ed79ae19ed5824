import fc from "fast-check";
import { describeProblem, type Outcome } from "../../lib/base/outcome.ts";
import { type AxisDirection, addScaled, axisOf, indexOfAxis, turnAboutZ, unitVector, type Vector } from "../../lib/base/vector.ts";
import type { PartLocation } from "../../lib/datum/locatePart.ts";
import { type StrategySolution, solveStrategy } from "../../lib/datum/solveStrategy.ts";
import { checkDocument } from "../../lib/document/parseDocument.ts";
import { readSetup } from "../../lib/document/readSetup.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { locateSetup } from "../../lib/fixture/locateSetup.ts";
import { solveOnFixture } from "../../lib/fixture/solveOnFixture.ts";
import type { Uncertain } from "../../lib/uncertainty/uncertain.ts";

export function must<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(describeProblem).join("\n"));
}

/** Twelve decimals: half a picometre of rounding on what a test types. */
export function typed(value: number): string {
  return value.toFixed(12);
}

/** A setup in millimetres from its tables. Hand formulas know of no rounding in the register, unless a test states its step. */
export function documentFrom({ machine, ...tables }: { readonly machine?: object } & Readonly<Record<string, unknown>>): SetupDocument {
  return must(checkDocument({ format: "datumbook", version: 2, unit: "mm", ...tables, machine: { offsetStep: "0", ...machine } }));
}

export interface Opened {
  readonly location: PartLocation;
  readonly solution: (strategy: string) => StrategySolution;
}

/** From typed entries to located part; anything that is not understood fails the test. */
export function open(document: SetupDocument): Opened {
  const { setup, problems } = readSetup(document);
  const location = locateSetup(setup);
  const told = [...problems, ...location.problems];
  if (told.length > 0) throw new Error(told.map(describeProblem).join("\n"));
  const solution = (id: string) => {
    const strategy = setup.strategies.find((each) => each.id === id);
    if (strategy === undefined) throw new Error(`no strategy ${id}`);
    return must(strategy.fixtureFrame ? solveOnFixture(strategy, strategy.fixtureFrame, location) : solveStrategy(strategy, location));
  };
  return { location, solution };
}

/** A touch before it is typed: where the tool's centre (X, Y) and gauge line (Z) stood. */
export interface Stop {
  readonly id: string;
  readonly element: string;
  readonly travelling: AxisDirection | "radial" | "sweep";
  readonly centre: Vector;
  readonly spacer?: string;
  /** "tool" when left out. */
  readonly tool?: string;
  /** What a sweep read more on the + side, along X and Y. */
  readonly total?: readonly [x: number, y: number];
}

/** What a part is set against, where zero stays on it: where its frame stands in the machine, and its locators. */
export interface JobFixture {
  readonly frame: Vector;
  readonly uncertainty: string;
  readonly locators: readonly { readonly id: string; readonly height?: string }[];
}

/** A way to set a zero, with random numbers in it. */
export interface Job {
  readonly part: object;
  readonly tool: object;
  readonly otherTools?: readonly object[];
  readonly spacers?: readonly object[];
  readonly machine?: object;
  readonly stops: readonly Stop[];
  readonly strategy: object;
  /** Then nothing of the part is touched. */
  readonly fixture?: JobFixture;
}

export function documentOf({ part, tool, otherTools = [], spacers = [], machine = {}, stops, strategy, fixture }: Job): SetupDocument {
  return documentFrom({
    part,
    tools: [tool, ...otherTools],
    spacers,
    machine,
    touches: stops.map(touchOf),
    strategies: [{ id: "s", touches: stops.map(({ id }) => id), ...(fixture && { fixtureFrame: "nest" }), ...strategy }],
    ...(fixture && { fixture: { locators: fixture.locators }, workFrames: [workFrameOf(fixture)] }),
  });
}

function workFrameOf({ frame, uncertainty }: JobFixture): object {
  const [x, y, z] = frame.map(typed);
  return { id: "nest", x, y, z, uncertainty };
}

function touchOf({ id, element, travelling, centre, spacer = "", tool = "tool", total }: Stop): object {
  const [x, y, z] = centre.map(typed) as [string, string, string];
  const common = { id, element, travelling, tool, spacer, ...(total && { total: { x: typed(total[0]), y: typed(total[1]) } }) };
  if (travelling === "radial" || travelling === "sweep") return { ...common, readings: `X${x} Y${y}`, z };
  const index = indexOfAxis(axisOf(travelling));
  return { ...common, readings: [x, y, z][index], x: index === 0 ? "" : x, y: index === 1 ? "" : y, z: index === 2 ? "" : z };
}

export interface Kind {
  readonly name: string;
  /** Axes that the strategy determines. */
  readonly axes: readonly (0 | 1 | 2)[];
  /** By how much all readings can be turned about Z, either way, and the zero follows; radians, 0 for not at all. */
  readonly mostTurn: number;
  readonly job: fc.Arbitrary<Job>;
}

/** Everything random about a job. */
interface Layout {
  /** Drawing's origin in the machine. */
  readonly at: Vector;
  readonly skew: number;
  readonly radius: number;
  readonly length: number;
  readonly width: number;
  readonly depth: number;
  readonly diameter: number;
  readonly startAngle: number;
  readonly thickness: number;
  /** Errors of the touches. */
  readonly noise: readonly number[];
}

const micrometres = (least: number, most: number) => fc.integer({ min: least * 1000, max: most * 1000 }).map((value) => value / 1000);

const layouts: fc.Arbitrary<Layout> = fc.record({
  at: fc.tuple(micrometres(-600, -100), micrometres(-400, -100), micrometres(-300, -100)),
  skew: micrometres(-15, 15).map((milliradians) => milliradians / 1000),
  radius: micrometres(1, 5),
  length: micrometres(80, 160),
  width: micrometres(60, 180),
  depth: micrometres(40, 120),
  diameter: micrometres(14, 60),
  startAngle: micrometres(0, 6),
  thickness: micrometres(5, 50),
  noise: fc.array(
    fc.integer({ min: -80, max: 80 }).map((value) => value / 10_000),
    { minLength: 16, maxLength: 16 },
  ),
});

function toolOf({ radius, length }: Layout): object {
  return {
    id: "tool",
    kind: "touch probe",
    radius: typed(radius),
    radiusUncertainty: "0.0015",
    lateTrigger: "0.004",
    eccentricity: "0.003",
    scatter: "0.002",
    length: typed(length),
    lengthUncertainty: "0.003",
  };
}

/** A plate with its datums A (top), B (front) and C (left). */
function plateOf({ width, depth }: Layout): object {
  return {
    name: "plate",
    elements: [
      { id: "left", kind: "face", outward: "-X", datum: "C", roughness: "0.003", skew: "0.002" },
      { id: "right", kind: "face", outward: "+X", roughness: "0.012" },
      { id: "front", kind: "face", outward: "-Y", datum: "B", roughness: "0.003" },
      { id: "back", kind: "face", outward: "+Y" },
      { id: "top", kind: "face", outward: "+Z", datum: "A", roughness: "0.001" },
      { id: "middle", kind: "middle", of: ["left", "right"] },
    ],
    dimensions: [
      {
        id: "width",
        from: "left",
        to: "right",
        nominal: typed(width),
        tolerance: "±0.2",
        measured: typed(width + 0.037),
        measuredUncertainty: "0.004",
      },
      { id: "depth", from: "front", to: "back", nominal: typed(depth), tolerance: "+0.1 -0.3" },
    ],
  };
}

function pocketOf({ width }: Layout): object {
  return {
    name: "pocket",
    elements: [
      { id: "left wall", kind: "face", outward: "+X", roughness: "0.003" },
      { id: "right wall", kind: "face", outward: "-X", roughness: "0.004" },
      { id: "pocket", kind: "middle", of: ["left wall", "right wall"], datum: "B", x: "35" },
    ],
    dimensions: [{ id: "opening", from: "left wall", to: "right wall", nominal: typed(width), tolerance: "+0.15 -0.05" }],
  };
}

const roundPlace: Vector = [40, 30, 0];
const secondPlace: Vector = [150, 55, 0];

function roundOf(kind: "bore" | "boss", { diameter }: Layout): object {
  const round = { kind, diameter: typed(diameter), diameterTolerance: "±0.1", roughness: "0.002" };
  return {
    name: `part with a ${kind}`,
    elements: [
      { ...round, id: "round", datum: "A", x: "40", y: "30" },
      { ...round, id: "second", datum: "B", x: "150", y: "55" },
    ],
  };
}

/** Stops of the tool at a face: the tool's centre one radius off it, and off by the noise along the travel. */
function atFace(
  { at, radius, length, skew }: Layout,
  face: { id: string; element: string; travelling: AxisDirection; point: Vector; spacer?: string; between?: number; noise: number },
  turned: boolean,
): Stop {
  const travel = unitVector(face.travelling);
  const reach = (travel[2] === 0 ? radius : length) + (face.between ?? 0);
  const seen = addScaled(face.point, -reach, travel);
  const centre = addScaled(addScaled(at, 1, turnAboutZ(seen, turned ? skew : 0)), face.noise, travel);
  const { id, element, travelling, spacer } = face;
  return { id, element, travelling, centre, ...(spacer === undefined ? {} : { spacer }) };
}

/** Stops around a round wall at equal angles. */
function around(layout: Layout, kind: "bore" | "boss", element: string, place: Vector, count: number, turned = false): Stop[] {
  const { at, diameter, radius, startAngle, skew, noise } = layout;
  const middle = addScaled(at, 1, turnAboutZ(place, turned ? skew : 0));
  return Array.from({ length: count }, (_, i) => {
    const off = diameter / 2 + (kind === "bore" ? -radius : radius) + (noise[i] as number);
    const direction = turnAboutZ([1, 0, 0], startAngle + (2 * Math.PI * i) / count);
    return { id: `${element} ${i}`, element, travelling: "radial", centre: addScaled(middle, off, direction) };
  });
}

const zeroAtRound = { zero: { x: "round", y: "round" } };
const atMiddle = { zero: { x: "middle" } };

function kind(name: string, axes: Kind["axes"], mostTurn: number, build: (layout: Layout) => Omit<Job, "tool">): Kind {
  return { name, axes, mostTurn, job: layouts.map((layout) => ({ tool: toolOf(layout), ...build(layout) })) };
}

const left = (l: Layout) =>
  atFace(l, { id: "left", element: "left", travelling: "+X", point: [0, 20, -5], noise: l.noise[0] as number }, false);
const right = (l: Layout) =>
  atFace(l, { id: "right", element: "right", travelling: "-X", point: [l.width, 20, -5], noise: l.noise[1] as number }, false);
const front = (l: Layout) =>
  atFace(l, { id: "front", element: "front", travelling: "+Y", point: [30, 0, -5], noise: l.noise[2] as number }, false);
const top = (l: Layout) =>
  atFace(l, { id: "top", element: "top", travelling: "-Z", point: [30, 20, 0], noise: l.noise[3] as number }, false);

const skewed = (l: Layout): Stop[] => [
  ...[0.1, 0.55, 0.9].map((share, i) =>
    atFace(l, { id: `edge ${i}`, element: "front", travelling: "+Y", point: [share * l.width, 0, -5], noise: l.noise[i] as number }, true),
  ),
  atFace(l, { id: "left", element: "left", travelling: "+X", point: [0, 0.4 * l.depth, -5], noise: l.noise[3] as number }, true),
];

/** Three touches on the top, two along the front edge, one at the left end. */
const threeTwoOne = (l: Layout): Stop[] => {
  const onTop = [
    [0.1, 0.15],
    [0.9, 0.2],
    [0.45, 0.85],
  ].map(([x, y], i) =>
    atFace(
      l,
      {
        id: `top ${i}`,
        element: "top",
        travelling: "-Z",
        point: [(x as number) * l.width, (y as number) * l.depth, 0],
        noise: l.noise[5 + i] as number,
      },
      true,
    ),
  );
  return [...onTop, ...skewed(l).filter(({ id }) => id !== "edge 1")];
};

const patternPlaces: readonly Vector[] = [
  [0, 0, 0],
  [90, 5, 0],
  [95, 60, 0],
  [-5, 55, 0],
];

/** Four bores that are one datum together. */
function patternOf({ diameter }: Layout): object {
  return {
    name: "plate with a pattern of bores",
    elements: patternPlaces.map(([x, y], i) => ({
      id: i === 0 ? "round" : `bore ${i + 1}`,
      kind: "bore",
      datum: "A",
      x: String(x),
      y: String(y),
      diameter: typed(diameter),
      diameterTolerance: "±0.1",
      roughness: "0.002",
    })),
  };
}

const slotPlace = { x: 140, y: 38, width: 24 };

/** A bore, and a slot along X that keeps the part from turning about it. */
function boreAndSlotOf(l: Layout): object {
  const { elements } = roundOf("bore", l) as { elements: readonly object[] };
  return {
    name: "part with a bore and a slot",
    elements: [
      elements[0] as object,
      { id: "lower wall", kind: "face", outward: "+Y", roughness: "0.002" },
      { id: "upper wall", kind: "face", outward: "-Y", roughness: "0.003" },
      { id: "slot", kind: "middle", of: ["lower wall", "upper wall"], datum: "B", y: String(slotPlace.y) },
    ],
    dimensions: [{ id: "slot width", from: "lower wall", to: "upper wall", nominal: String(slotPlace.width), tolerance: "±0.1" }],
  };
}

/** A bore that places, and a front edge that only turns. */
function boreAndEdgeOf(l: Layout): object {
  const { elements } = roundOf("bore", l) as { elements: readonly object[] };
  return {
    name: "part with a bore and an edge",
    elements: [elements[0] as object, { id: "front", kind: "face", outward: "-Y", datum: "B", y: "-20", roughness: "0.003" }],
  };
}

/** Three pads under the plate, each as high as it is and with its own doubt. */
function padsOf({ width, depth, noise }: Layout) {
  return [
    [0.1, 0.15],
    [0.9, 0.2],
    [0.45, 0.85],
  ].map(([x, y], i) => ({
    id: `pad ${i}`,
    kind: "pad",
    element: "bottom",
    x: typed((x as number) * width),
    y: typed((y as number) * depth),
    height: typed(noise[i] as number),
    heightError: "0.006",
    seat: "0.002",
  }));
}

const bottom = { id: "bottom", kind: "face", outward: "-Z" };

/** The plate with a bottom that pads meet, 20 under its top. */
function onPads(part: object): object {
  const { elements, dimensions } = part as { elements: readonly object[]; dimensions: readonly object[] };
  const height = { id: "height", from: "bottom", to: "top", nominal: "20", tolerance: "±0.1" };
  return { ...part, elements: [...elements, bottom], dimensions: [...dimensions, height] };
}

function threeTwoOneOn(l: Layout) {
  const stop = (i: number, element: string, at: object) => ({
    id: `stop ${i}`,
    kind: "stop",
    element,
    z: "-10",
    ...at,
    height: typed(l.noise[3 + i] as number),
    heightError: "0.005",
    debris: "0.01",
  });
  return [
    ...padsOf(l),
    stop(0, "front", { x: typed(0.1 * l.width) }),
    stop(1, "front", { x: typed(0.9 * l.width) }),
    stop(2, "left", { y: typed(0.4 * l.depth) }),
  ];
}

/** Two bores and a bottom, to be set on pads and pins. */
function boredPlateOf(l: Layout): object {
  const { elements } = roundOf("bore", l) as { elements: readonly object[] };
  return { name: "plate with two bores", elements: [...elements, { ...bottom, datum: "C" }] };
}

/** The same tip, and a worse one that is calibrated better. */
const secondTool = {
  id: "second",
  kind: "tool or pin",
  radius: "4",
  radiusUncertainty: "0.0004",
  scatter: "0.006",
};

/** A plate with one corner cut off at an angle: front, and a face that looks toward -X and +Y, from the drawing's origin up. */
const slopes = { first: 148, second: 215 };

function slopedOf(): object {
  return {
    name: "plate with angled faces",
    elements: [
      { id: "front", kind: "face", outward: "-Y", datum: "B", roughness: "0.003" },
      { id: "slope", kind: "angled face", facing: String(slopes.first), datum: "C", roughness: "0.002" },
      { id: "other slope", kind: "angled face", facing: `${slopes.second} deg`, datum: "D", x: "5", y: "90", skew: "0.002" },
    ],
  };
}

/** Stops at an angled face: the tool's centre one radius off it along its normal, `along` it from its point, and off by the noise along the travel. */
function atSlope(
  { at, radius, skew }: Layout,
  face: { id: string; element: string; facing: number; point: Vector; travelling: AxisDirection; along: number; noise: number },
  turned: boolean,
): Stop {
  const angle = (face.facing * Math.PI) / 180;
  const normal: Vector = [Math.cos(angle), Math.sin(angle), 0];
  const seen = addScaled(addScaled(face.point, face.along, [-normal[1], normal[0], 0]), radius, normal);
  const centre = addScaled(addScaled(at, 1, turnAboutZ(seen, turned ? skew : 0)), face.noise, unitVector(face.travelling));
  return { id: face.id, element: face.element, travelling: face.travelling, centre };
}

const onSlopes = (l: Layout, turned: boolean): Stop[] => [
  atSlope(
    l,
    { id: "slope", element: "slope", facing: slopes.first, point: [0, 0, 0], travelling: "+X", along: -30, noise: l.noise[1] as number },
    turned,
  ),
  atSlope(
    l,
    {
      id: "other slope",
      element: "other slope",
      facing: slopes.second,
      point: [5, 90, 0],
      travelling: "+Y",
      along: 20,
      noise: l.noise[2] as number,
    },
    turned,
  ),
];

const aboveTop = { id: "top", element: "top", travelling: "-Z", point: [30, 20, 0] } as const;

/** The plate with a chamfer at the left and a flank that leans over at the back. */
function chamferedOf(): object {
  return {
    name: "plate with inclined faces",
    elements: [
      { id: "front", kind: "face", outward: "-Y", datum: "B", roughness: "0.003" },
      { id: "top", kind: "face", outward: "+Z", datum: "A" },
      { id: "chamfer", kind: "angled face", facing: "190", inclination: "40", datum: "C", z: "-4", roughness: "0.002" },
      { id: "flank", kind: "angled face", facing: "95", inclination: "-25 deg", datum: "D", y: "70", z: "-12" },
    ],
  };
}

/** Stops at an inclined face: the ball's centre one radius off it along its normal, the gauge line a length less a radius above. */
function atInclined(
  { at, radius, length, skew }: Layout,
  face: { id: string; facing: number; inclination: number; point: Vector; travelling: AxisDirection; noise: number },
): Stop {
  const [phi, epsilon] = [(face.facing * Math.PI) / 180, (face.inclination * Math.PI) / 180];
  const normal: Vector = [Math.cos(phi) * Math.cos(epsilon), Math.sin(phi) * Math.cos(epsilon), Math.sin(epsilon)];
  const metal = addScaled(face.point, 20, [-Math.sin(phi), Math.cos(phi), 0]);
  const gauge = addScaled(addScaled(metal, radius, normal), length - radius, [0, 0, 1]);
  const centre = addScaled(addScaled(at, 1, turnAboutZ(gauge, skew)), face.noise, unitVector(face.travelling));
  return { id: face.id, element: face.id, travelling: face.travelling, centre };
}

const onInclined = (l: Layout): Stop[] => [
  atInclined(l, { id: "chamfer", facing: 190, inclination: 40, point: [0, 0, -4], travelling: "-Z", noise: l.noise[5] as number }),
  atInclined(l, { id: "flank", facing: 95, inclination: -25, point: [0, 70, -12], travelling: "-Y", noise: l.noise[6] as number }),
];

const lostMotion = { lostMotion: { x: "0.006", y: "0.004", z: "0.002" }, displayStep: "0.001" };
const working = { ...lostMotion, working: { x: "+", y: "-", z: "-" } };

/** Every way to set a zero that the project knows. */
export const kinds: readonly Kind[] = [
  kind("one face", [0], 0, (l) => ({ part: plateOf(l), machine: working, stops: [left(l)], strategy: {} })),
  kind("corner and top", [0, 1, 2], 0, (l) => ({ part: plateOf(l), machine: working, stops: [left(l), front(l), top(l)], strategy: {} })),
  kind("corner of a face and an angled face", [0, 1], 0, (l) => ({
    part: slopedOf(),
    machine: working,
    stops: [front(l), ...onSlopes(l, false).slice(0, 1)],
    strategy: {},
  })),
  kind("corner of a chamfer and a flank that leans over, turned by an edge", [0, 1, 2], 0.15, (l) => ({
    part: chamferedOf(),
    machine: working,
    stops: [...skewed(l).slice(0, 3), atFace(l, { ...aboveTop, noise: l.noise[4] as number }, true), ...onInclined(l)],
    strategy: { rotation: "applied" },
  })),
  kind("corner of two angled faces, turned by an edge", [0, 1], 0.15, (l) => ({
    part: slopedOf(),
    machine: working,
    stops: [...skewed(l).slice(0, 3), ...onSlopes(l, true)],
    strategy: { rotation: "applied" },
  })),
  kind("mid-plane, width free", [0], 0, (l) => ({
    part: plateOf(l),
    machine: working,
    stops: [left(l), right(l)],
    strategy: { hold: ["middle"], ...atMiddle },
  })),
  kind("mid-plane by one face and the measured width", [0], 0, (l) => ({
    part: plateOf(l),
    machine: lostMotion,
    stops: [left(l)],
    strategy: { sizes: "measured", ...atMiddle },
  })),
  kind("mid-plane by one face and half the drawn width", [0], 0, (l) => ({
    part: plateOf(l),
    machine: lostMotion,
    stops: [left(l)],
    strategy: atMiddle,
  })),
  ...[3, 4, 8].map((count) =>
    kind(`bore, ${count} touches`, [0, 1], 0.2, (l) => ({
      part: roundOf("bore", l),
      stops: around(l, "bore", "round", roundPlace, count),
      strategy: zeroAtRound,
    })),
  ),
  kind("boss, 4 touches", [0, 1], 0.2, (l) => ({
    part: roundOf("boss", l),
    stops: around(l, "boss", "round", roundPlace, 4),
    strategy: zeroAtRound,
  })),
  kind("bore, two opposite touches", [0], 0, (l) => ({
    part: roundOf("bore", l),
    stops: (["+X", "-X"] as const).map((travelling, i) => ({
      id: `wall ${i}`,
      element: "round",
      travelling,
      centre: addScaled(addScaled(l.at, 1, roundPlace), l.diameter / 2 - l.radius + (l.noise[i] as number), unitVector(travelling)),
    })),
    strategy: zeroAtRound,
  })),
  kind("bore, swept", [0, 1], 0.2, (l) => ({
    part: roundOf("bore", l),
    tool: { id: "tool", kind: "swept indicator", scatter: "0.002" },
    stops: [{ id: "sweep", element: "round", travelling: "sweep", centre: addScaled(l.at, 1, roundPlace) }],
    strategy: zeroAtRound,
  })),
  kind("bore, swept by a lever, off the axis", [0, 1], 0, (l) => ({
    part: roundOf("bore", l),
    tool: { id: "tool", kind: "swept indicator", scatter: "0.002", leverAngle: "20", leverAngleUncertainty: "3" },
    stops: [
      {
        id: "sweep",
        element: "round",
        travelling: "sweep",
        centre: addScaled(l.at, 1, roundPlace),
        total: [20 * (l.noise[0] as number), 20 * (l.noise[1] as number)],
      },
    ],
    strategy: zeroAtRound,
  })),
  kind("skewed edge and corner, turn measured", [0, 1], 0.2, (l) => ({
    part: plateOf(l),
    machine: working,
    stops: skewed(l),
    strategy: { rotation: "measured" },
  })),
  kind("skewed edge and corner, turn applied", [0, 1], 0.2, (l) => ({
    part: plateOf(l),
    machine: working,
    stops: skewed(l),
    strategy: { rotation: "applied", zero: { x: "12.5", y: "7.5" } },
  })),
  kind("corner of left and back, the front edge only orients", [0, 1], 0.2, (l) => ({
    part: plateOf(l),
    machine: working,
    stops: [
      ...skewed(l),
      atFace(l, { id: "back", element: "back", travelling: "-Y", point: [0.3 * l.width, l.depth, -5], noise: l.noise[4] as number }, true),
    ],
    strategy: { rotation: "applied", orient: ["front"] },
  })),
  kind("two bores, turn applied", [0, 1], 0.01, (l) => ({
    part: roundOf("bore", l),
    stops: [...around(l, "bore", "round", roundPlace, 4, true), ...around(l, "bore", "second", secondPlace, 3, true)],
    strategy: { rotation: "applied", ...zeroAtRound },
  })),
  kind("best fit to a pattern of four bores", [0, 1], 0.01, (l) => ({
    part: patternOf(l),
    stops: patternPlaces.flatMap((place, i) => around(l, "bore", i === 0 ? "round" : `bore ${i + 1}`, place, i === 0 ? 4 : 3, true)),
    strategy: { rotation: "applied", ...zeroAtRound },
  })),
  kind("bore and slot, turn applied", [0, 1], 0.01, (l) => ({
    part: boreAndSlotOf(l),
    stops: [
      ...around(l, "bore", "round", roundPlace, 4, true),
      ...(["lower", "upper"] as const).map((wall, i) =>
        atFace(
          l,
          {
            id: wall,
            element: `${wall} wall`,
            travelling: i === 0 ? "-Y" : "+Y",
            point: [slotPlace.x, slotPlace.y + (i === 0 ? -0.5 : 0.5) * slotPlace.width, -5],
            noise: l.noise[8 + i] as number,
          },
          true,
        ),
      ),
    ],
    strategy: { rotation: "applied", hold: ["slot"], ...zeroAtRound },
  })),
  kind("bore places, edge turns", [0, 1], 0.01, (l) => ({
    part: boreAndEdgeOf(l),
    stops: [
      ...around(l, "bore", "round", roundPlace, 4, true),
      ...[5, 150].map((x, i) =>
        atFace(l, { id: `edge ${i}`, element: "front", travelling: "+Y", point: [x, -20, -5], noise: l.noise[8 + i] as number }, true),
      ),
    ],
    strategy: { rotation: "applied", orient: ["front"], ...zeroAtRound },
  })),
  kind("three planes: three touches on the top, two along the front, one at the left", [0, 1, 2], 0.2, (l) => ({
    part: plateOf(l),
    machine: working,
    stops: threeTwoOne(l),
    strategy: { rotation: "applied" },
  })),
  kind("one face, touched by two tools", [0], 0, (l) => ({
    part: plateOf(l),
    otherTools: [secondTool],
    stops: [
      left(l),
      ...[1, 2].map((i) => ({
        ...atFace(
          { ...l, radius: 4 },
          { id: `again ${i}`, element: "left", travelling: "+X", point: [0, 20, -5], noise: l.noise[i] as number },
          false,
        ),
        tool: "second",
      })),
    ],
    strategy: {},
  })),
  kind("bore with three lobes, 8 touches", [0, 1], 0.2, (l) => ({
    part: {
      name: "lobed",
      elements: (roundOf("bore", l) as { elements: object[] }).elements.map((each) => ({ ...each, lobes: "3", lobeAmplitude: "0.004" })),
    },
    stops: around(l, "bore", "round", roundPlace, 8),
    strategy: zeroAtRound,
  })),
  kind("pocket between its walls", [0], 0, (l) => ({
    part: pocketOf(l),
    machine: working,
    stops: [
      atFace(
        l,
        { id: "left wall", element: "left wall", travelling: "-X", point: [35 - l.width / 2, 10, 0], noise: l.noise[0] as number },
        false,
      ),
      atFace(
        l,
        { id: "right wall", element: "right wall", travelling: "+X", point: [35 + l.width / 2, 10, 0], noise: l.noise[1] as number },
        false,
      ),
    ],
    strategy: { hold: ["pocket"], zero: { x: "pocket" } },
  })),
  kind("top through a block", [2], 0, (l) => ({
    part: plateOf(l),
    machine: working,
    spacers: [{ id: "block", thickness: typed(l.thickness), uncertainty: "0.0003" }],
    stops: [
      atFace(
        l,
        {
          id: "top",
          element: "top",
          travelling: "-Z",
          point: [30, 20, 0],
          spacer: "block",
          between: l.thickness,
          noise: l.noise[3] as number,
        },
        false,
      ),
    ],
    strategy: {},
  })),
  kind("zero on the fixture: three pads, two stops in front, one at the left", [0, 1, 2], 0, (l) => ({
    part: onPads(plateOf(l)),
    machine: working,
    stops: [],
    fixture: { frame: l.at, uncertainty: "0.004", locators: threeTwoOneOn(l) },
    strategy: { zero: { x: "12.5", y: "7.5", z: "-3" } },
  })),
  kind("zero on the fixture: three pads, a round and a diamond pin", [0, 1, 2], 0, (l) => ({
    part: boredPlateOf(l),
    machine: working,
    stops: [],
    fixture: {
      frame: l.at,
      uncertainty: "0.004",
      locators: [
        ...padsOf(l),
        { id: "round pin", kind: "round pin", element: "round", diameter: typed(l.diameter - 0.12), diameterTolerance: "0 -0.01", z: "0" },
        { id: "diamond", kind: "diamond pin", element: "second", diameter: typed(l.diameter - 0.14), diameterTolerance: "0 -0.01", z: "0" },
      ],
    },
    strategy: { zero: { x: "round", y: "round", z: "" } },
  })),
];

/** Zero on the determined axes, and the rotation where the strategy looks at it. */
export function zeroOf({ axes }: Kind, solution: StrategySolution): Uncertain[] {
  const { zero, rotation } = solution.fromReadings;
  return [...axes.map((axis) => zero[axis] as Uncertain), ...(solution.strategy.rotation === "ignored" ? [] : [rotation])];
}
