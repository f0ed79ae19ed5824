import * as v from "valibot";

/** An entry with what it means. */
function meaning<S extends v.GenericSchema>(schema: S, text: string) {
  return v.pipe(schema, v.description(text));
}

const text = v.string();
const number = v.number();
const nullableNumber = v.nullable(number);
const nullableText = v.nullable(text);
const chance = meaning(v.pipe(v.number(), v.minValue(0), v.maxValue(1)), "From 0 to 1.");
const axis = v.picklist(["X", "Y", "Z"]);
const plainNumber = v.union([number, v.picklist(["infinite", "-infinite"])]);

const problem = v.object({
  at: meaning(text, "Path of the entry in the document; empty for the whole."),
  what: text,
  expected: v.optional(text),
  got: v.optional(text),
  remedy: v.optional(text),
  character: v.optional(number),
  line: meaning(text, "All of it as one line to read."),
});
const problems = v.object({ problems: v.array(problem) });

/** A result, or why it is not known in the same place. */
function orProblems<S extends v.GenericSchema>(schema: S) {
  return v.union([schema, problems]);
}

const evidence = v.union([
  v.object({
    kind: v.literal("measured"),
    readings: number,
    groups: v.optional(
      v.object({
        sizes: v.array(number),
        differ: v.boolean(),
        ratio: v.nullable(plainNumber),
        chance: v.nullable(plainNumber),
        within: number,
        between: number,
      }),
    ),
  }),
  v.object({ kind: v.picklist(["certificate", "published"]), note: text }),
  v.object({ kind: v.literal("drawing"), note: v.optional(text) }),
  v.object({ kind: v.picklist(["shop default", "stated"]) }),
]);

const family = v.picklist(["contact tool", "machine", "part", "fixture", "heat", "process"]);

const contribution = v.object({
  source: meaning(text, "Its id in the list of all sources."),
  label: text,
  family,
  evidence,
  sensitivity: number,
  sourceStandardUncertainty: number,
  amount: meaning(
    number,
    "Sensitivity times standard uncertainty, with its sign; the root of the sum of all squares is the standard uncertainty.",
  ),
});

const quantityEntries = {
  value: number,
  unit: text,
  standardUncertainty: number,
  expandedUncertainty: number,
  coverageFactor: number,
  coverageProbability: number,
  degreesOfFreedom: meaning(plainNumber, "Effective (Welch-Satterthwaite)."),
  families: meaning(
    v.array(v.object({ family, standardUncertainty: number })),
    "What the sources of each family do together, the root of the sum of their squares; families without effect are left out.",
  ),
  contributions: meaning(v.array(contribution), "Where the doubt comes from, largest first."),
};
const quantity = v.object(quantityEntries);
const quantityOrProblems = orProblems(quantity);
const nullableQuantity = v.nullable(quantity);

const threeLengths = v.object({ X: number, Y: number, Z: number });
const threeQuantities = v.object({ X: quantityOrProblems, Y: quantityOrProblems, Z: quantityOrProblems });
const twoQuantities = v.object({ X: quantity, Y: quantity });

/** What contacts determine, and how they agree. */
const determinacyEntries = {
  determined: v.object({ X: v.boolean(), Y: v.boolean(), Z: v.boolean(), rotation: v.nullable(v.boolean()) }),
  rank: number,
  unknowns: number,
  freeMotions: v.array(v.object({ words: text, shift: threeLengths, turn: number })),
  redundancy: number,
  agreement: meaning(
    v.nullable(
      v.object({
        chance,
        statistic: plainNumber,
        degreesOfFreedom: number,
        worst: v.object({ touch: text, residual: number, standardUncertainty: number, unit: v.literal("mm") }),
      }),
    ),
    "Null where the touches are just enough.",
  ),
  residuals: v.array(v.object({ touch: text, residual: number, unit: v.literal("mm") })),
};

const secondOrder = orProblems(
  v.object({
    verdict: v.picklist(["matters", "does not matter", "not known"]),
    standardUncertainty: number,
    doubt: number,
    shiftOfExpectation: number,
    terms: v.array(v.object({ sources: v.array(text), variance: number })),
  }),
);

const range = v.object({ lower: number, upper: number });
const openRange = meaning(v.object({ lower: nullableNumber, upper: nullableNumber }), "Null on a side without a limit.");
const sampledChance = v.object({ chance, standardError: number, scatter: number, trials: number, seed: number });
const quantile = v.object({ probability: number, value: number });

const decisionLimits = v.object({ accepted: openRange, notRejected: openRange, guardBands: range });

const worstCase = v.object({
  lower: number,
  upper: number,
  shareOfTolerance: number,
  sources: v.array(
    v.object({
      source: text,
      reaches: v.array(number),
      takenAsLimit: meaning(nullableNumber, "What stands for the limit of a source without an end; null where it has one."),
    }),
  ),
});
const stackEntries = {
  kind: text,
  unit: v.picklist(["mm", "rad"]),
  limits: v.object({ lower: number, upper: nullableNumber }),
  deviation: meaning(number, "At the best estimates; in a round zone the diameter used."),
  components: v.array(v.object({ axis: v.nullable(v.picklist(["X", "Y"])), ...quantityEntries })),
  worstCase,
  rootSumSquare: v.object({ lower: number, upper: number, shareOfTolerance: number }),
  deviationShareOfTolerance: number,
  chance: meaning(number, "Of being within the tolerance, from the distribution of the linearised deviation."),
  errorOfChance: meaning(number, "How far that number may be off."),
  atMaximumMaterial: v.optional(v.object({ bonus: range, virtualCondition: number, chance: number })),
  distribution: v.object({
    mean: plainNumber,
    standardDeviation: plainNumber,
    quantiles: v.array(v.object({ probability: number, value: plainNumber })),
    errorOfChances: number,
    method: text,
  }),
  sampled: meaning(
    v.object({
      trials: number,
      seed: number,
      mean: number,
      standardDeviation: number,
      chance: number,
      standardError: number,
      quantiles: v.array(quantile),
    }),
    "Seeded trials of the same linear deviation.",
  ),
};

const judgedEntries = {
  ...stackEntries,
  decision: v.optional(orProblems(v.object({ verdict: text, conformanceProbability: number, limits: orProblems(decisionLimits) }))),
  inspection: v.optional(
    orProblems(
      v.object({
        limits: decisionLimits,
        global: v.object({
          consumersRisk: number,
          producersRisk: number,
          conformingAccepted: number,
          nonconformingRejected: number,
          error: number,
        }),
        largestSpecificConsumersRisk: number,
      }),
    ),
  ),
};

const judgement = v.object({
  chanceOfAll: meaning(orProblems(sampledChance), "That all characteristics are met at once."),
  bottleneck: v.nullable(text),
  rows: v.array(v.object({ id: text, members: v.array(text), worst: v.nullable(text), chanceOfAll: orProblems(sampledChance) })),
  characteristics: v.array(v.union([v.object({ id: text, ...judgedEntries }), v.object({ id: text, problems: v.array(problem) })])),
});

const covarianceEntries = { of: v.array(text), covariance: v.array(v.array(number)), correlation: v.array(v.array(number)) };

const strategy = v.union([
  v.object({ id: text, place: number, problems: v.array(problem) }),
  v.object({
    id: text,
    place: meaning(number, "In the ranking, from 1."),
    zero: v.object({ ...threeQuantities.entries, rotation: quantityOrProblems }),
    covariance: meaning(v.object(covarianceEntries), "Of X, Y, Z (mm) and the rotation (rad), as far as they are known."),
    secondOrder: meaning(v.record(text, secondOrder), "By X, Y, Z and rotation."),
    regions: meaning(
      orProblems(
        v.object({
          assumes: v.literal("normal"),
          coverageProbability: number,
          ellipse: v.object({
            coverageFactor: number,
            halfAxes: v.array(number),
            directions: v.array(v.array(number)),
            angle: meaning(number, "From X towards Y, rad."),
            area: plainNumber,
            coverage: meaning(
              v.nullable(v.object({ chance: number, error: number })),
              "How much it holds by the sources' own distributions; null where that takes long to work out.",
            ),
          }),
          rectangle: v.object({
            coverageFactor: number,
            method: v.picklist(["exact", "bound"]),
            halfWidths: v.object({ X: number, Y: number }),
            area: plainNumber,
          }),
        }),
      ),
      "What holds X and Y together.",
    ),
    offset: orProblems(
      v.object({
        register: text,
        unit: v.picklist(["mm", "inch"]),
        digits: v.array(v.object({ axis, text })),
        values: v.array(v.object({ axis, value: number, unit: v.literal("mm") })),
        lines: v.array(text),
        appliesRotation: v.boolean(),
      }),
    ),
    zeroOnPart: v.object({ ...threeLengths.entries, unit: v.literal("mm") }),
    ...determinacyEntries,
    effort: v.object({ touches: number, readings: number, minutes: number, isStated: v.boolean() }),
    optimal: meaning(
      v.nullable(
        orProblems(
          v.object({
            contrasts: number,
            coordinates: v.array(
              v.object({
                name: text,
                conventional: v.object({ value: number, unit: text, standardUncertainty: number }),
                optimal: quantity,
                ratio: number,
              }),
            ),
          }),
        ),
      ),
      "What the same touches could give at best; null where they are just enough.",
    ),
    thisPart: judgement,
    batch: judgement,
  }),
]);

const fixture = v.object({
  located: orProblems(
    v.object({
      held: number,
      freeMotions: v.array(v.object({ words: text, shift: threeLengths, turn: threeLengths })),
      condition: nullableNumber,
      centre: threeLengths,
      scale: number,
      contacts: v.array(
        v.object({ locator: text, label: text, point: threeLengths, normal: threeLengths, bears: v.boolean(), error: quantity }),
      ),
      turns: v.object({ X: nullableQuantity, Y: nullableQuantity, Z: nullableQuantity }),
      gaps: v.array(v.object({ contact: text, repeats: v.array(text), ...quantityEntries })),
      judgement,
      sensitivities: v.array(
        v.object({
          id: text,
          components: v.array(
            v.object({
              axis: v.nullable(text),
              contacts: v.nullable(v.array(v.object({ contact: text, sensitivity: number }))),
            }),
          ),
        }),
      ),
      placesTakenAsZero: v.array(text),
      clamps: v.array(
        v.object({
          id: text,
          reactions: v.nullable(v.array(v.object({ contact: text, share: number }))),
          liftsOff: v.array(text),
        }),
      ),
      pins: meaning(
        v.nullable(
          v.object({
            round: text,
            diamond: text,
            distance: number,
            play: v.object({ round: number, diamond: number }),
            turn: nullableNumber,
          }),
        ),
        "What a round and a diamond pin leave by their clearances: half of each at most, and the largest turn in radians to either side.",
      ),
      spacings: v.array(
        v.object({ contacts: v.array(text), width: number, needed: orProblems(v.object({ value: number, unit: v.literal("mm") })) }),
      ),
    }),
  ),
  seat: v.nullable(
    orProblems(
      v.object({
        touches: v.array(v.object({ touch: text, ...quantityEntries })),
        pads: v.array(
          v.object({
            pad: text,
            ...quantityEntries,
            besideOthers: nullableQuantity,
            noticedAbove: nullableNumber,
            smallestFound: nullableNumber,
          }),
        ),
        common: nullableQuantity,
        twist: nullableQuantity,
      }),
    ),
  ),
});

const offsetPart = v.nullable(v.object({ row: text, ...quantityEntries }));
const coordinate = v.object({
  measured: offsetPart,
  corrections: v.array(offsetPart),
  localShift: offsetPart,
  globalShift: offsetPart,
  held: quantityOrProblems,
  sum: quantityOrProblems,
  doubtStated: v.boolean(),
});
const offsets = v.object({
  registers: v.array(v.object({ register: text, nest: v.nullable(text), X: coordinate, Y: coordinate, Z: coordinate, turn: coordinate })),
  lastRow: v.nullable(text),
  notes: v.array(v.object({ row: text, text })),
  lines: orProblems(v.array(text)),
});

const nestFit = orProblems(
  v.object({
    ...twoQuantities.entries,
    turn: quantity,
    residuals: v.array(v.object({ nest: text, ...twoQuantities.entries })),
    chiSquare: v.nullable(v.object({ value: number, degreesOfFreedom: number, upperTail: number })),
  }),
);
const nests = v.object({
  places: v.array(v.object({ nest: text, X: number, Y: number, found: v.boolean() })),
  shifted: nestFit,
  turned: nestFit,
});

const causeEntries = { kind: v.picklist(["shift", "turn", "scale", "pull"]), axis: v.nullable(axis), tool: v.nullable(text) };
const cause = v.object(causeEntries);
const changedZero = v.object({ shift: threeLengths, turn: number, shares: v.array(number), largestShare: number });
const madeParts = v.object({
  parts: number,
  corrections: meaning(
    v.array(v.object({ id: text, after: text, tool: text, x: nullableNumber, y: nullableNumber, z: nullableNumber })),
    "Made during the run, with which the parts before them count; no tool for the work offset.",
  ),
  causes: v.array(
    v.object({
      ...causeEntries,
      found: orProblems(
        v.object({
          estimate: number,
          standardUncertainty: nullableNumber,
          degreesOfFreedom: number,
          perPart: v.array(number),
          correction: v.nullable(
            v.object({
              verdict: v.picklist(["leave alone", "correct"]),
              reason: v.optional(text),
              threshold: nullableNumber,
              share: v.optional(number),
              change: v.optional(number),
              left: v.optional(number),
            }),
          ),
          prior: v.nullable(plainNumber),
          left: nullableNumber,
        }),
      ),
    }),
  ),
  confounded: meaning(v.array(v.array(cause)), "Causes that cannot be told apart, group by group."),
  wouldSeparate: v.array(v.object({ element: text, tool: text, axis })),
  residualStandardDeviation: nullableNumber,
  degreesOfFreedom: number,
  covariance: v.nullable(v.object({ of: v.array(cause), rows: v.array(v.array(number)) })),
  offsetChange: v.array(v.object({ axis, change: number })),
  zeros: v.object({
    characteristics: v.array(text),
    leftOut: v.array(text),
    asMade: changedZero,
    leastSquares: changedZero,
    smallestLargestShare: changedZero,
  }),
  charts: v.array(
    v.object({
      element: text,
      axis,
      values: v.array(number),
      count: number,
      mean: number,
      standardDeviation: number,
      limits: range,
      beyond: v.array(number),
      longestStretch: v.object({ from: number, length: number }),
      moved: v.nullable(v.object({ from: number, by: number })),
      drift: v.object({ perPart: number, standardUncertainty: number, chance: number }),
      neighbours: number,
      looksAdjusted: v.boolean(),
      setupErrorLeft: number,
      capabilities: v.array(v.object({ characteristic: text, potential: number, index: number, interval: range, aboutTarget: number })),
      prior: plainNumber,
      left: number,
    }),
  ),
});

const orEndless = v.union([number, v.literal("infinite")]);
const warmUp = meaning(
  v.object({
    axis,
    start: number,
    rise: number,
    timeConstant: number,
    standardUncertainties: v.object({ rise: number, timeConstant: number }),
    covariance: v.array(number),
    residualStandardDeviation: number,
    degreesOfFreedom: number,
    until: number,
    life: orProblems(
      v.object({
        allowed: number,
        tightest: v.nullable(text),
        setAt: number,
        bestBefore: orEndless,
        assuredBefore: orEndless,
        warmEnoughAfter: number,
        plan: v.nullable(v.array(v.object({ from: number, to: number, parts: number }))),
      }),
    ),
  }),
  "Times in minutes.",
);

const checkResult = orProblems(
  v.object({
    axis,
    predicted: quantity,
    verdict: v.nullable(
      v.object({
        shown: number,
        difference: quantity,
        normalisedError: plainNumber,
        chance: number,
        agrees: v.boolean(),
        dominating: v.nullable(text),
      }),
    ),
  }),
);

const slips = v.object({
  findings: v.array(v.object({ rule: text, at: text, evidence: text, beyond: plainNumber, suggests: text, deciding: text })),
  notApplicable: v.array(v.object({ rule: text, because: text })),
  disagreement: v.nullable(
    v.object({
      chance: number,
      discrepancies: v.array(v.object({ name: text, at: text, value: number, standardUncertainty: number, degreesOfFreedom: plainNumber })),
      explanations: v.array(
        v.object({
          slips: v.array(v.object({ kind: text, at: text, words: text })),
          share: number,
          leftChance: number,
          readingAtDecidingTouch: nullableNumber,
        }),
      ),
      deciding: v.nullable(
        v.object({
          element: text,
          tool: text,
          travelling: text,
          standardUncertainty: number,
          between: v.array(number),
          apart: number,
        }),
      ),
    }),
  ),
});

const interval = v.array(number);
const ownQuantity = v.object({
  ...quantityEntries,
  relativeStandardUncertainty: v.nullable(plainNumber),
  beyondFirstOrder: v.optional(
    v.object({
      method: text,
      isTooCurved: v.boolean(),
      symmetricInterval: v.nullable(interval),
      firstOrder: v.nullable(v.object({ verdict: text, interval, differences: interval, tolerance: number, doubt: plainNumber })),
      secondOrder: v.array(secondOrder),
      nonlinearity: v.object({ size: plainNumber, doubt: plainNumber }),
    }),
  ),
});
const own = v.union([
  v.object({ name: text, ...ownQuantity.entries }),
  v.object({ name: text, unit: text, rows: v.array(v.nullable(v.union([ownQuantity, problems]))) }),
  v.object({ name: text, problems: v.array(problem) }),
]);

const source = v.object({
  id: text,
  label: text,
  family,
  evidence,
  estimate: number,
  distribution: v.union([
    v.object({ shape: v.literal("normal"), standardDeviation: number }),
    v.object({ shape: v.picklist(["rectangular", "triangular", "arcsine"]), halfWidth: number }),
    v.object({ shape: v.picklist(["trapezoidal", "curvilinearTrapezoidal"]), halfWidth: number, topRatio: number }),
    v.object({ shape: v.literal("scaledT"), scale: number, degreesOfFreedom: number }),
    v.object({ shape: v.literal("exponential"), mean: number }),
  ]),
  standardUncertainty: number,
  degreesOfFreedom: plainNumber,
  limit: meaning(nullableNumber, "Half-width that a worst case takes where the distribution has no end."),
  circle: meaning(v.nullable(text), "The point within a circle that this is one coordinate of."),
});

const guard = v.union([
  v.object({ by: v.literal("expanded uncertainty"), multiple: number, expandedUncertainty: v.optional(number) }),
  v.object({ by: v.literal("probability"), probability: number }),
]);
const decision = v.union([
  v.object({ name: v.literal("simple acceptance") }),
  v.object({ name: v.picklist(["guarded acceptance", "guarded rejection", "proof either way"]), guard }),
]);

const sentence = v.object({ kind: text, at: text, text });

/** Parts of the results that stand in many places, by the names that the JSON Schema gives them. */
export const resultsDefinitions = {
  problem,
  problems,
  plainNumber,
  evidence,
  contribution,
  quantity,
  threeLengths,
  secondOrder,
  sampledChance,
  decisionLimits,
  worstCase,
  judgement,
  strategy,
  coordinate,
  nestFit,
  cause,
  changedZero,
  source,
};

/**
 * What `plainResults` gives, for those who read it: the JSON Schema of the results is made of it. Entries may be added without another version, so
 * that objects are open.
 */
export const resultsSchema = v.object({
  format: v.literal("datumbook results"),
  version: v.literal(1),
  title: text,
  units: meaning(v.record(text, text), "Of every number that does not carry its own."),
  coverageProbability: number,
  sampling: v.object({ trials: number, seed: number }),
  warnings: meaning(v.array(sentence), "What a reader of the numbers alone would miss."),
  problems: v.array(problem),
  faces: v.array(v.object({ touch: text, element: text, axis: text, ...quantityEntries, axisOnlyError: nullableQuantity })),
  sizes: v.array(
    v.object({
      id: text,
      nominal: nullableNumber,
      ...quantityEntries,
      relativeStandardUncertainty: nullableNumber,
      difference: meaning(nullableQuantity, "To what was measured otherwise."),
      combined: nullableQuantity,
    }),
  ),
  thisPart: orProblems(
    v.object({
      origin: threeQuantities,
      rotation: quantityOrProblems,
      sizesDetermined: v.array(v.object({ id: text, determined: v.boolean() })),
      ...determinacyEntries,
    }),
  ),
  datumShifts: meaning(
    v.array(
      v.object({
        system: text,
        datum: text,
        letter: text,
        maximumMaterialSize: number,
        largest: number,
        axes: v.array(v.picklist(["X", "Y"])),
        turns: v.nullable(v.object({ about: text, distance: number })),
        moves: v.array(text),
      }),
    ),
    "What the sizes of datums at maximum material leave, as diameters from 0 to the largest; counted in no chance.",
  ),
  tilt: v.nullable(
    v.object({
      face: text,
      touches: v.array(text),
      middle: v.nullable(v.object({ X: number, Y: number })),
      slopes: twoQuantities,
      about: twoQuantities,
      heightAtOrigin: nullableQuantity,
      offPlane: v.array(v.object({ touch: text, ...quantityEntries })),
      agreement: v.nullable(v.object({ chance, statistic: plainNumber, degreesOfFreedom: number })),
      effects: v.array(v.object({ characteristic: text, element: text, lift: nullableQuantity })),
      across: v.nullable(
        v.object({
          height: plainNumber,
          heightNotKnown: v.array(text),
          leans: v.array(v.object({ characteristic: text, element: text, X: nullableQuantity, Y: nullableQuantity })),
        }),
      ),
      notAcross: v.nullable(v.picklist(["no height", "other datum first", "by the fixture"])),
    }),
  ),
  correlations: meaning(
    v.nullable(v.object({ strategy: text, of: v.array(text), coefficients: v.array(v.array(number)) })),
    "Of all results of this part by the strategy in use that are in doubt.",
  ),
  ranking: meaning(v.array(text), "Names of strategies, the one to be preferred first."),
  chosen: text,
  decision: orProblems(decision),
  strategies: v.array(strategy),
  fixture: v.nullable(fixture),
  offsets: v.nullable(offsets),
  nests: v.nullable(nests),
  predictedReadings: v.array(
    v.object({
      touch: text,
      element: text,
      axis: text,
      tool: text,
      ...quantityEntries,
      lower: number,
      upper: number,
      inWorkCoordinates: orProblems(v.object({ strategy: v.nullable(text), register: text, value: number, lower: number, upper: number })),
    }),
  ),
  madeParts: v.nullable(orProblems(madeParts)),
  warmUp: v.nullable(orProblems(warmUp)),
  checks: v.array(
    v.object({
      id: text,
      element: text,
      tool: text,
      by: text,
      when: v.nullable(text),
      usedForZero: v.boolean(),
      result: checkResult,
    }),
  ),
  checkMoves: v.array(
    v.object({
      id: text,
      tool: text,
      clearance: number,
      machine: threeQuantities,
      work: v.object({ X: nullableNumber, Y: nullableNumber, Z: nullableNumber }),
    }),
  ),
  events: v.array(v.object({ event: text, verifiedSince: v.boolean(), voids: text, standing: text })),
  slips,
  own: meaning(v.array(own), "Cells and columns of a person's own, in base units."),
  supposed: meaning(v.array(text), "What is only supposed; while there is anything, no offset is given."),
  sentences: v.array(sentence),
  cautions: v.array(v.object({ id: text, text })),
  sources: meaning(v.array(source), "Each once: what every result can be worked out from again."),
  calibrations: meaning(
    v.array(
      v.object({
        of: v.picklist(["tool", "spacer"]),
        id: text,
        certificate: nullableText,
        calibratedOn: nullableText,
        dueAgainOn: nullableText,
      }),
    ),
    "Of tools that touched and of what lay between tool and face; null where nothing is stated.",
  ),
  related: meaning(v.array(v.object({ one: text, other: text, coefficient: number })), "Sources that go together."),
});

const finished = v.object({
  chanceOfAll: meaning(
    orProblems(sampledChance),
    "That all characteristics are met at once on a part that has gone through all operations.",
  ),
  characteristics: v.array(
    v.union([
      v.object({
        id: text,
        operation: meaning(nullableText, "The one that cuts the last of its elements; null where it cannot be read."),
        ...stackEntries,
      }),
      v.object({ id: text, operation: nullableText, problems: v.array(problem) }),
    ]),
  ),
});

/**
 * What `plainOperations` gives, for whoever reads it: that of a part with several operations. `tests/record/operationsSchema.test.ts` holds both against each
 * other.
 */
export const operationsSchema = v.object({
  format: v.literal("datumbook results of operations"),
  version: v.literal(1),
  title: text,
  finished: meaning(
    v.object({ thisPart: finished, batch: finished }),
    "The drawing, judged on the finished part by the strategies in use; a row that demands several things at once stands once for each.",
  ),
  operations: meaning(
    v.array(v.object({ id: text, results: resultsSchema })),
    "In their order; of each what a setup by itself has as its results.",
  ),
});

/** The same of the results of several operations. */
export const operationsDefinitions = { ...resultsDefinitions, finished, results: resultsSchema };
