import { entryOf, matrixOf, pseudoInverse } from "../base/matrix.ts";
import { type Axis, axes, axisOf, indexOfAxis } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import { isLevel } from "../contacts/surface.ts";
import { shareAlong } from "../datum/drawingAxes.ts";
import { takenContacts } from "../datum/locatePart.ts";
import { measureSizes } from "../datum/measureSizes.ts";
import { diameterOf } from "../datum/partSizes.ts";
import type { Tilt } from "../datum/tilt.ts";
import { eventsSince } from "../decision/eventsSince.ts";
import type { SetupEvaluation, StrategyEvaluation } from "../decision/setupEvaluation.ts";
import { leverCosine } from "../equipment/leverCosine.ts";
import type { Dimension, Element, Face, Middle } from "../part/part.ts";
import { summariseTouch } from "../readings/summariseTouch.ts";
import { budgetsOf } from "../uncertainty/budget.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import { type Estimate, estimateOf } from "./estimate.ts";
import { nestShiftsOf, registersOf, shiftsOf } from "./factsOfOffsets.ts";
import { agesOf, articlesOf, correctionsOf, runsOf } from "./factsOfRun.ts";
import { turnoversOf } from "./factsOfTurns.ts";
import { sizesKnownTwice } from "./internals/sizesKnownTwice.ts";
import type {
  AngleFact,
  ApproachFact,
  BoreFact,
  EdgeFact,
  HalfFact,
  HeightFact,
  LengthFact,
  MiddleFact,
  MismatchFact,
  ReadingFact,
  SeatFact,
  SlipFacts,
  SweepFact,
  WidthFact,
  ZeroFact,
} from "./slipFacts.ts";

type Known = Pick<SetupEvaluation, "setup" | "location" | "checks" | "fixture"> & Partial<Pick<SetupEvaluation, "offsets">>;

/** Everything in a setup that the rules can use. What a document does not hold is left out, and rules say so. */
export function factsOfSetup(evaluation: Known, inUse: StrategyEvaluation | undefined): SlipFacts {
  const { setup } = evaluation;
  const events = eventsSince(evaluation);
  return {
    unit: setup.unit,
    typedIn: evaluation.location.setup.unit,
    widths: widthsOf(evaluation),
    expectedLengths: expectedLengthsOf(evaluation),
    heights: heightsOf(evaluation),
    zeros: zerosOf(evaluation),
    middles: inUse === undefined ? [] : middlesOf(evaluation, inUse),
    mismatches: inUse === undefined ? [] : mismatchesOf(inUse, evaluation),
    halves: inUse === undefined ? [] : halvesOf(evaluation, inUse),
    approaches: inUse === undefined ? [] : approachesOf(evaluation, inUse),
    seats: seatsOf(evaluation),
    edges: inUse === undefined ? [] : edgesOf(evaluation, inUse),
    angles: inUse === undefined ? [] : anglesOf(evaluation, inUse),
    bores: boresOf(evaluation),
    readings: readingsOf(evaluation),
    events,
    sweeps: sweepsOf(evaluation),
    turnovers: turnoversOf(evaluation.location),
    runs: runsOf(setup),
    articles: articlesOf(setup),
    corrections: correctionsOf(setup),
    ages: agesOf(setup, inUse),
    nestShifts: nestShiftsOf(
      setup.nests,
      evaluation.offsets,
      inUse === undefined ? [] : inUse.zero.map((axis) => (axis.ok ? axis.value : undefined)),
    ),
    // Without a log nobody knows what stands in the registers.
    ...(evaluation.offsets && { registers: registersOf(evaluation.offsets, setup.machine.register), shifts: shiftsOf(evaluation.offsets) }),
  };
}

/** Sizes between two faces that look away from or at each other, which touches have found. */
function widthsOf({ setup, location, checks }: Known): WidthFact[] {
  const { part, tools } = setup;
  const faces = new Map(part.elements.flatMap((element) => (element.kind === "face" ? [[element.id, element] as const] : [])));
  const found = sizesKnownTwice(location).flatMap(({ size, difference, isMeasured }) => {
    const dimension = part.dimensions.find(({ id }) => id === size.id);
    const ends = dimension && endsOf(dimension, faces);
    return dimension === undefined || ends === undefined ? [] : [{ dimension, ends, size, difference, isMeasured }];
  });
  const budgets = budgetsOf(found.map(({ difference }) => difference));
  return found.flatMap(({ dimension, ends, size, isMeasured }, i): WidthFact[] => {
    const contacts = ends.faces.map(({ id }) =>
      location.contacts.find((contact) => contact.element === id && contact.surface.kind === "plane"),
    );
    const [one, other] = contacts;
    if (one === undefined || other === undefined) return [];
    const tool = one.tool === other.tool ? tools.find(({ id }) => id === one.tool) : undefined;
    const difference = estimateOf(budgets[i] as (typeof budgets)[number]);
    const touched = Math.sign(dimension.nominal || 1) * size.size.value;
    return [
      {
        at: `part.dimensions.${dimension.id}`,
        name: dimension.id,
        side: ends.side,
        touched,
        difference: { ...difference, value: Math.sign(dimension.nominal || 1) * difference.value },
        knownBy: isMeasured ? "its measurement" : "the drawing",
        tool: one.tool,
        radius: tool?.radius,
        catalogueRadius: tool?.catalogueRadius,
        faces: [one, other].map(({ touch, element }) => ({ touch, element, outwards: outwardsOf(element, faces, checks) })),
      },
    ];
  });
}

/** The lower face first; undefined for a step between faces that look the same way, and for what is not between two faces along X or Y. */
function endsOf(
  { from, to, axis, nominal }: Dimension,
  faces: ReadonlyMap<string, Face>,
): { readonly faces: readonly [Face, Face]; readonly side: WidthFact["side"] } | undefined {
  const ends = [faces.get(from), faces.get(to)];
  const [low, high] = nominal < 0 ? [ends[1], ends[0]] : [ends[0], ends[1]];
  if (low === undefined || high === undefined || axis === "Z" || low.outward[1] !== axis || high.outward[1] !== axis) return undefined;
  if (low.outward[0] === high.outward[0]) return undefined;
  return { faces: [low, high], side: low.outward[0] === "-" ? "outside" : "inside" };
}

/** How far the touches have a face outwards of what a check says of it. */
function outwardsOf(element: string, faces: ReadonlyMap<string, Face>, checks: Known["checks"]): Estimate | undefined {
  const judged = checks.find(
    ({ check, evaluation }) => check.element === element && evaluation.ok && evaluation.value.verdict !== undefined,
  );
  const verdict = judged?.evaluation.ok ? judged.evaluation.value.verdict : undefined;
  const face = faces.get(element);
  if (verdict === undefined || face === undefined) return undefined;
  const estimate = estimateOf(verdict.difference);
  return { ...estimate, value: face.outward[0] === "+" ? -estimate.value : estimate.value };
}

function expectedLengthsOf({ setup, location }: Known): LengthFact[] {
  const sizes = measureSizes(location).map(
    ({ id, nominal, size }): LengthFact => ({
      at: `part.dimensions.${id}`,
      name: `"${id}" by touches`,
      value: size.value,
      expected: nominal,
      expectedBy: "the drawing",
    }),
  );
  const measured = setup.part.dimensions.flatMap(({ id, nominal, measured: own }): LengthFact[] =>
    own === undefined
      ? []
      : [
          {
            at: `part.dimensions.${id}.measured`,
            name: `"${id}" as measured`,
            value: own.value,
            expected: nominal,
            expectedBy: "the drawing",
          },
        ],
  );
  const radii = setup.tools.flatMap(({ id, radius, catalogueRadius }): LengthFact[] =>
    radius === undefined || catalogueRadius === undefined
      ? []
      : [{ at: `tools.${id}.radius`, name: `the radius of "${id}"`, value: radius, expected: catalogueRadius, expectedBy: "its diameter" }],
  );
  return [...sizes, ...measured, ...radii];
}

/** Heights that two touches, or a touch and a check, find of one face. */
function heightsOf({ setup, location, checks }: Known): HeightFact[] {
  const { tilt } = location;
  const down = location.contacts
    .filter(({ surface }) => isLevel(surface))
    .map((contact) => {
      const standing = location.standing(contact);
      return standing.ok && !tilt?.touches.includes(contact.touch) ? standing.value : contact;
    });
  const pairs = down.flatMap((contact, i) => {
    const first = down.find(({ element, touch }) => element === contact.element && touch !== contact.touch);
    if (first === undefined || down.indexOf(first) > i) return [];
    const isOfPlane = [contact, first].every(({ touch }) => tilt?.touches.includes(touch));
    if (tilt !== undefined && isOfPlane && !isTooSteep(tilt)) return [];
    return [{ contact, against: `"${first.touch}"`, difference: heightOf(contact).minus(heightOf(first)) }];
  });
  const offOthers =
    tilt === undefined || isTooSteep(tilt)
      ? []
      : tilt.touches.flatMap((id, i) => {
          const contact = down.find(({ touch }) => touch === id);
          const left = 1 - (tilt.leverages[i] as number);
          if (contact === undefined || left < leastLeft) return [];
          return [{ contact, against: "the other touches of it", difference: (tilt.offPlane[i] as Uncertain).over(left) }];
        });
  const compared = [...pairs, ...offOthers];
  const budgets = budgetsOf(compared.map(({ difference }) => difference));
  const byTouch = compared.flatMap(({ contact, against }, i) =>
    heightFact(
      `touches.${contact.touch}`,
      `the face by "${contact.touch}"`,
      against,
      estimateOf(budgets[i] as (typeof budgets)[number]),
      contact.tool,
      setup,
    ),
  );
  const byCheck = checks.flatMap(({ check, evaluation }) => {
    const verdict = check.travelling === "-Z" && evaluation.ok ? evaluation.value.verdict : undefined;
    if (verdict === undefined) return [];
    return heightFact(
      `checks.${check.id}`,
      `the face by check "${check.id}"`,
      "its prediction",
      estimateOf(verdict.difference),
      check.tool,
      setup,
    );
  });
  return [...byTouch, ...byCheck];
}

/** A part that lies askew by more than this is one under which something lies (common practice, no source: 1 degree). */
const steepestTilt = Math.tan(Math.PI / 180);
/** Of what a touch is off the others' plane, the share that its own plane leaves; with less they tell none. */
const leastLeft = 1e-6;

function isTooSteep({ slopes: [x, y] }: Tilt): boolean {
  return Math.hypot(x.value, y.value) > steepestTilt;
}

/** F = R - L - h. */
function heightOf({ centre, advance, reach }: Contact): Uncertain {
  return certain(centre[2]).minus(advance).minus(reach);
}

function heightFact(
  at: string,
  name: string,
  against: string,
  difference: Estimate,
  tool: string,
  { tools, spacers }: Known["setup"],
): HeightFact[] {
  const length = tools.find(({ id }) => id === tool)?.length;
  if (length === undefined) return [];
  const lengths = tools.flatMap((other) =>
    other.id === tool || other.length === undefined ? [] : [{ tool: other.id, length: other.length as number }],
  );
  return [
    {
      at,
      name,
      against,
      difference,
      tool,
      length,
      lengths,
      spacers: spacers.map((spacer) => ({ name: spacer.id, thickness: spacer.thickness })),
    },
  ];
}

/** The part's origin beside the offset that was active when its touches were read. */
function zerosOf({ setup, location }: Known): ZeroFact[] {
  if (!location.thisPart.ok) return [];
  const { origin, determined } = location.thisPart.value;
  const budgets = budgetsOf(origin);
  return setup.frames.flatMap(({ id, origin: previous, standardUncertainty }) =>
    ([0, 1, 2] as const).flatMap((axis): ZeroFact[] => {
      const budget = budgets[axis];
      if (!determined[axis] || budget === undefined || previous[axis] === 0) return [];
      return [
        {
          at: `workFrames.${id}`,
          axis: axes[axis] as Axis,
          found: budget.value,
          previous: previous[axis],
          standardUncertainty: Math.hypot(budget.standardUncertainty, 2 * standardUncertainty),
        },
      ];
    }),
  );
}

function middlesOf({ setup, location }: Known, { solution }: StrategyEvaluation): MiddleFact[] {
  const held = solution.strategy.hold;
  return setup.part.elements.flatMap((middle): MiddleFact[] => {
    if (middle.kind !== "middle" || !held.includes(middle.id)) return [];
    const faces = middle.of.map((element) => {
      const contact = solution.contacts.find((each) => each.element === element);
      const touch = setup.touches.find(({ id }) => id === contact?.touch);
      const face = setup.part.elements.find(({ id }) => id === element);
      if (contact === undefined || touch === undefined || face === undefined) return undefined;
      const repeats = summariseTouch(touch)[0]?.repeats;
      return {
        touch,
        face: {
          element,
          touch: contact.touch,
          tool: contact.tool,
          scatter:
            repeats?.standardDeviation === undefined
              ? undefined
              : { standardDeviation: repeats.standardDeviation, degreesOfFreedom: repeats.degreesOfFreedom },
          roughness: face.roughness as number,
        },
      };
    });
    const [one, other] = faces;
    if (one === undefined || other === undefined) return [];
    const eccentricity = location.setup.tools.find(({ id }) => id === one.face.tool)?.eccentricity ?? 0;
    return [
      {
        at: `strategies.${solution.strategy.id}.hold`,
        strategy: solution.strategy.id,
        middle: middle.id,
        faces: [one.face, other.face],
        eccentricity,
        turned: one.touch.turnedHalfRound !== other.touch.turnedHalfRound,
      },
    ];
  });
}

/** What sizes that the drawing lets vary do to the batch by the choice of the zero. */
function mismatchesOf({ id, batch }: StrategyEvaluation, { setup, location }: Known): MismatchFact[] {
  const drawn = new Map(location.sizes.sizes.map((size) => [`dimension ${size.id}, in the batch`, size.id]));
  return batch.stacks.flatMap((outcome, i): MismatchFact[] => {
    const zone = zoneOf(setup.part.characteristics[i]);
    if (!outcome.ok || zone === undefined) return [];
    return outcome.value.rows.flatMap(({ source, reaches }): MismatchFact[] => {
      const size = drawn.get(source.id);
      if (size === undefined) return [];
      return [
        {
          at: `strategies.${id}`,
          strategy: id,
          characteristic: outcome.value.characteristic,
          size,
          share: (2 * Math.hypot(...reaches)) / zone,
        },
      ];
    });
  });
}

/** Whole width or diameter of a characteristic's zone, mm; undefined where it has an open end. */
function zoneOf(characteristic: Known["setup"]["part"]["characteristics"][number] | undefined): number | undefined {
  if (characteristic === undefined) return undefined;
  const zone = "zone" in characteristic ? characteristic.zone : characteristic.limits.upper - characteristic.limits.lower;
  return Number.isFinite(zone) && zone > 0 ? zone : undefined;
}

/** A zero at a middle that only one of its faces was used for. */
function halvesOf({ setup, location }: Known, { solution }: StrategyEvaluation): HalfFact[] {
  const { strategy, fromReadings } = solution;
  if (strategy.rotation !== "ignored" || solution.waiting.length > 0) return [];
  const found = strategy.zero.flatMap((place, axis) => {
    const middle = place.kind === "element" ? setup.part.elements.find(({ id }) => id === place.element) : undefined;
    if (middle?.kind !== "middle" || strategy.hold.includes(middle.id)) return [];
    const faces = facesOf(middle, axis, location.contacts);
    if (faces === undefined || faces.every(({ touch }) => strategy.touches.includes(touch))) return [];
    const [one, other] = faces;
    const between = coordinateOf(one, axis).plus(coordinateOf(other, axis)).over(2);
    return [{ middle, difference: (fromReadings.zero[axis] as Uncertain).minus(between) }];
  });
  const budgets = budgetsOf(found.map(({ difference }) => difference));
  return found.map(({ middle }, i) => ({
    at: `strategies.${strategy.id}`,
    strategy: strategy.id,
    middle: middle.id,
    difference: estimateOf(budgets[i] as (typeof budgets)[number]),
  }));
}

function facesOf({ of }: Middle, axis: number, contacts: readonly Contact[]): readonly [Contact, Contact] | undefined {
  const [one, other] = of.map((element) =>
    contacts.find((each) => each.element === element && Math.abs(each.travel[axis] as number) === 1),
  );
  return one === undefined || other === undefined ? undefined : [one, other];
}

/** F = R + a · r. */
function coordinateOf({ centre, advance, reach, travel }: Contact, axis: number): Uncertain {
  return advance
    .plus(reach)
    .times(travel[axis] as number)
    .plus(centre[axis] as number);
}

function approachesOf({ setup }: Known, { solution }: StrategyEvaluation): ApproachFact[] {
  return ([0, 1, 2] as const).flatMap((axis): ApproachFact[] => {
    const directions = solution.contacts.map(({ travel }) => travel[axis]).filter((component) => Math.abs(component) === 1);
    const narrowest = narrowestAlong(axes[axis] as Axis, setup, solution);
    if (setup.machine.lostMotion[axis] === 0 || directions.length === 0 || narrowest === undefined) return [];
    return [
      {
        at: "machine.lostMotion",
        axis: axes[axis] as Axis,
        lostMotion: setup.machine.lostMotion[axis],
        use: setup.machine.working[axis] ?? 0,
        touched: directions.reduce((sum, each) => sum + each, 0) / directions.length,
        ...narrowest,
      },
    ];
  });
}

/**
 * The characteristic that an axis can harm most: the zone is the narrowest, seen along that axis where the part is turned to it.
 *
 * @param solution of an axis of the machine; an axis of the drawing needs none
 */
function narrowestAlong(
  axis: Axis,
  { part }: Known["setup"],
  solution?: StrategyEvaluation["solution"],
): { readonly characteristic: string; readonly zone: number } | undefined {
  const along = part.characteristics.flatMap((each) => {
    const zone = zoneOf(each);
    const share = "zone" in each ? Number(axis !== "Z") : "axis" in each ? shareAlong(each.axis, axis, solution) : 0;
    return zone === undefined || share === 0 ? [] : [{ characteristic: each.id, zone: zone / share }];
  });
  return along.reduce<(typeof along)[number] | undefined>(
    (least, each) => (least === undefined || each.zone < least.zone ? each : least),
    undefined,
  );
}

function seatsOf({ fixture }: Known): SeatFact[] {
  if (!fixture?.seat?.ok) return [];
  const { pads, twist } = fixture.seat.value;
  return [
    ...pads.flatMap(({ pad, judged }): SeatFact[] =>
      judged
        ? [{ at: "fixture.seatTouches", what: `the lift over "${pad}" less that over the other pads`, lift: estimateOf(judged.beside) }]
        : [],
    ),
    ...(twist === undefined ? [] : [{ at: "fixture.seatTouches", what: "the twist of the four touches", lift: estimateOf(twist) }]),
  ];
}

/** Faces touched twice, in a strategy that looks at no skew. */
function edgesOf({ setup }: Known, { solution }: StrategyEvaluation): EdgeFact[] {
  if (solution.strategy.rotation !== "ignored" || solution.waiting.length > 0) return [];
  const arm = armOf(solution, setup);
  const found = solution.contacts.flatMap((first, i) =>
    solution.contacts.slice(i + 1).flatMap((second) => {
      const axis = first.travel.findIndex((component) => Math.abs(component) === 1);
      const across = axis === 0 ? 1 : 0;
      if (
        axis < 0 ||
        axis > 1 ||
        second.element !== first.element ||
        first.surface.kind !== "plane" ||
        Math.abs(first.surface.outward[axis as 0 | 1]) !== 1 ||
        !first.noted[across] ||
        !second.noted[across]
      )
        return [];
      const narrowest = narrowestAlong(axes[axis] as Axis, setup);
      if (narrowest === undefined) return [];
      return [{ first, second, axis, baseline: Math.abs(second.centre[across] - first.centre[across]), narrowest }];
    }),
  );
  const budgets = budgetsOf(found.map(({ first, second, axis }) => coordinateOf(second, axis).minus(coordinateOf(first, axis))));
  return found.map(({ first, second, baseline, narrowest }, i) => ({
    at: `strategies.${solution.strategy.id}.rotation`,
    element: first.element,
    touches: [first.touch, second.touch] as const,
    difference: estimateOf(budgets[i] as (typeof budgets)[number]),
    baseline,
    arm,
    ...narrowest,
  }));
}

/** From part zero to the farthest feature, in the plane, mm. */
function armOf({ zeroOnPart }: StrategyEvaluation["solution"], { part }: Known["setup"]): number {
  return Math.max(
    0,
    ...part.elements.flatMap(({ made, at }) =>
      made === "here" ? [Math.hypot((at[0] ?? 0) - zeroOnPart[0], (at[1] ?? 0) - zeroOnPart[1])] : [],
    ),
  );
}

function anglesOf({ setup }: Known, { id, rotation, solution }: StrategyEvaluation): AngleFact[] {
  const narrowest = [narrowestAlong("X", setup), narrowestAlong("Y", setup)]
    .flatMap((each) => each ?? [])
    .sort((a, b) => a.zone - b.zone)[0];
  if (!rotation.ok || narrowest === undefined) return [];
  return [
    {
      at: `strategies.${id}`,
      strategy: id,
      standardUncertainty: rotation.value.standardUncertainty,
      arm: armOf(solution, setup),
      ...narrowest,
    },
  ];
}

/** Round walls by three touches or more. */
function boresOf({ setup, location }: Known): BoreFact[] {
  const { thisPart, counted } = location;
  if (!thisPart.ok) return [];
  const isRound = (element: Element) => element.kind === "bore" || element.kind === "boss";
  const walls = setup.part.elements.filter(
    (element) => isRound(element) && counted.filter((each) => each.element === element.id && each.surface.kind !== "axis").length >= 3,
  );
  if (walls.length === 0) return [];
  const budgets = budgetsOf(thisPart.value.remainders);
  const sizes = sizesKnownTwice(location).filter(({ size }) => walls.some(({ id }) => diameterOf(id) === size.id));
  const diameters = budgetsOf(sizes.map(({ difference }) => difference));
  return walls.map(({ id }) => {
    const points = counted.flatMap((contact, i) =>
      contact.element === id && contact.surface.kind !== "axis" ? [{ contact, budget: budgets[i] }] : [],
    );
    const rows = points.map(({ contact }) => [contact.travel[0], contact.travel[1], 1]);
    const design = matrixOf(rows.length, 3, (i, j) => rows[i]?.[j] as number);
    const inverse = pseudoInverse(design, 1e-9);
    const covariance = (axis: number) => rows.reduce((sum, _, i) => sum + entryOf(inverse, axis, i) ** 2, 0);
    return {
      at: "touches",
      element: id,
      amplification: Math.sqrt(Math.max(covariance(0), covariance(1))),
      points: points.flatMap(({ contact, budget }) =>
        budget === undefined ? [] : [{ touch: contact.touch, residual: estimateOf(budget) }],
      ),
      diameter: comparedDiameter(id),
    };
  });

  function comparedDiameter(element: string): Estimate | undefined {
    const budget = diameters[sizes.findIndex(({ size }) => size.id === diameterOf(element))];
    return budget && estimateOf(budget);
  }
}

/** The last touch of an axis by a swept indicator beside the sweep before it: how far the spindle was moved after its total reading. */
function sweepsOf({ setup, location }: Known): SweepFact[] {
  const swept = setup.touches.filter(({ travelling }) => travelling === "sweep");
  return swept.flatMap((touch, i) => {
    const before = swept.slice(0, i).findLast(({ element, tool }) => element === touch.element && tool === touch.tool);
    if (before === undefined) return [];
    const [now, then] = [summariseTouch(touch), summariseTouch(before)];
    const tool = setup.tools.find(({ id }) => id === before.tool);
    const cosine = tool === undefined ? 1 : leverCosine(tool, location.book).value;
    // Half the total reading scatters as the indicator does; the shift is the difference of two displays (a step's half-width ÷ √3 each).
    const standardUncertainty = Math.hypot(tool?.scatter ?? 0, (Math.SQRT2 * setup.machine.displayStep) / Math.sqrt(12));
    return (["X", "Y"] as const).flatMap((axis, k): SweepFact[] => {
      const [at, from] = [now, then].map((means) => means.find((each) => each.axis === axis)?.repeats.mean);
      const totalReading = before.sweepTotal[k as 0 | 1];
      return at === undefined || from === undefined
        ? []
        : [{ at: `touches.${touch.id}.readings`, axis, applied: at - from, totalReading, cosine, standardUncertainty }];
    });
  });
}

/** Repeats beside the middle one of their touch, and checks beside their predictions. */
function readingsOf({ setup, location, checks }: Known): ReadingFact[] {
  const contacts = takenContacts(location);
  const repeats = setup.touches.flatMap((touch): ReadingFact[] => {
    const contact = contacts.find((each) => each.touch === touch.id);
    if (contact === undefined || touch.travelling === "radial" || touch.travelling === "sweep" || touch.positions.length < 2) return [];
    const axis = indexOfAxis(touch.travelling[1] as Axis);
    const values = touch.positions.map((position) => position[axis] as number);
    const scatter = scatterOf(touch.tool, values.length, setup);
    if (scatter === undefined) return [];
    return values.flatMap((value, i): ReadingFact[] => {
      const others = values.filter((_, j) => j !== i).sort((a, b) => a - b);
      const expected =
        ((others[Math.floor((others.length - 1) / 2)] as number) + (others[Math.ceil((others.length - 1) / 2)] as number)) / 2;
      return [
        {
          at: `touches.${touch.id}.readings`,
          name: `reading ${i + 1} of "${touch.id}"`,
          value,
          added: touch.readIn?.[axis] ?? 0,
          expected,
          difference: { value: value - expected, ...scatter },
          expectedBy: "the others",
          retract: touch.travelling === "-Z" ? clearanceOf(touch.tool, setup) : 0,
        },
      ];
    });
  });
  const checked = checks.flatMap(({ check, evaluation }): ReadingFact[] => {
    const verdict = evaluation.ok ? evaluation.value.verdict : undefined;
    if (verdict === undefined || !evaluation.ok) return [];
    return [
      {
        at: `checks.${check.id}.readings`,
        name: `check "${check.id}"`,
        value: verdict.shown,
        added: check.readIn?.[indexOfAxis(axisOf(check.travelling))] ?? 0,
        expected: evaluation.value.predicted.value,
        difference: estimateOf(verdict.difference),
        expectedBy: "its prediction",
        retract: check.travelling === "-Z" ? clearanceOf(check.tool, setup) : 0,
      },
    ];
  });
  return [...repeats, ...checked];
}

/** How far above the part a tool is driven before the display is looked at: whoever reads there reads after the way back. 0 where no move says it. */
function clearanceOf(tool: string, { checkMoves }: Known["setup"]): number {
  return checkMoves.find((move) => move.tool === tool)?.clearance ?? 0;
}

/**
 * Doubt of one reading less the middle of n - 1 others: s·√(1 + 1.58/(n - 1)), the variance of a median of many being π/2 times that of the mean (asymptotic
 * relative efficiency 2/π; of few values it is smaller). The scatter must be known otherwise: repeats do not judge themselves.
 */
function scatterOf(tool: string, n: number, { tools, machine }: Known["setup"]): Omit<Estimate, "value"> | undefined {
  const stated = tools.find(({ id }) => id === tool);
  if (stated?.scatterFrom !== "stated" || stated.scatter === undefined) return undefined;
  const single = Math.hypot(stated.scatter, machine.displayStep / Math.sqrt(12));
  return { standardUncertainty: single * Math.sqrt(1 + Math.PI / 2 / (n - 1)), degreesOfFreedom: Number.POSITIVE_INFINITY };
}
