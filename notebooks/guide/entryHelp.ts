/** What is known of an entry besides what it means. */
export interface EntryHelp {
  /** Values that are usual, or forms that can be typed, each with what it rests on. */
  readonly typical?: readonly TypicalValue[];
  /** How it enters the results, as it would be worked out by hand, and where that is written. */
  readonly formula?: { readonly text: string; readonly source: string };
}

export interface TypicalValue {
  readonly of: string;
  readonly value: string;
  readonly evidence: string;
}

/** Common practice that no document is known for. It helps to see a slip of the decimal point and replaces no measurement. */
const shop = "shop default: common practice, no source";
const gumB = "JCGM 100:2008, 4.3.7";

const radiusHelp: EntryHelp = {
  typical: [{ of: "effective radius against half the catalogue diameter", value: "0.002 to 0.01 mm smaller", evidence: shop }],
  formula: { text: "face = reading + direction × radius; from a ring of diameter D: radius = (D − (R₊ − R₋)) / 2", source: "closed form" },
};

const leverHelp = {
  typical: [
    { of: "cosine at 10°, 20°, 30° and 60°", value: "0.98, 0.94, 0.87 and 0.50", evidence: "general metrology texts, from memory" },
  ],
  formula: { text: "true reading = reading × cos(angle)", source: "closed form" },
} satisfies EntryHelp;

const evidenceHelp: EntryHelp = {
  formula: {
    text: "it changes no number: it is printed beside the source, so that a reader can weigh it",
    source: "JCGM 100:2008, 4.2 and 4.3",
  },
};

const calibratedHelp: EntryHelp = {
  formula: {
    text: "it changes no number: it is printed, and told where it comes after the day on which it is due again",
    source: "ISO/IEC 17025:2017, 6.4.7 and 6.4.8 (from memory)",
  },
};

const dueHelp: EntryHelp = {
  typical: [
    { of: "gauge blocks, rings and setters", value: "one to two years after", evidence: shop },
    { of: "a stylus in a ring", value: "with every new stylus and after every knock; else weeks to months after", evidence: shop },
  ],
  formula: {
    text: "it changes no number: told as run out where the record, the zero, or a check with it has a later day",
    source: "ISO/IEC 17025:2017, 6.4.8 (from memory)",
  },
};

const scaleHelp: EntryHelp = {
  typical: [
    { of: "a light or older machine", value: "0.02 to 0.10 mm over its travel", evidence: shop },
    { of: "a production machining centre", value: "0.005 to 0.015 mm over its travel", evidence: shop },
  ],
  formula: { text: "doubt of a way = way × (half-width ÷ distance) ÷ √3", source: `ISO 230-2 for how it is measured; ${gumB} for √3` },
};

const lostMotionHelp: EntryHelp = {
  typical: [
    { of: "left after the control's own compensation", value: "0.001 to 0.006 mm", evidence: shop },
    { of: "a plain lead screw", value: "0.03 to 0.08 mm", evidence: shop },
  ],
  formula: { text: "shift of zero = (b ÷ 2) × (direction of work − mean direction of the touches)", source: "closed form" },
};

const squarenessHelp: EntryHelp = {
  typical: [{ of: "two axes of a machining centre", value: "0.01 to 0.02 mm over 500 mm", evidence: shop }],
  formula: { text: "shift = angle × way along the other axis", source: "ISO 230-1 for how it is measured" },
};

const heatHelp: EntryHelp = {
  typical: [
    { of: "carbon steel", value: "11.5 to 11.7 · 10⁻⁶ per K", evidence: "published tables of materials" },
    { of: "aluminium 6061", value: "23.6 · 10⁻⁶ per K", evidence: "published tables of materials" },
    { of: "grey iron", value: "11.4 · 10⁻⁶ per K", evidence: "published tables of materials" },
    { of: "a steel ball screw as the scale", value: "11 to 12 · 10⁻⁶ per K", evidence: shop },
    { of: "a glass scale", value: "8 to 10 · 10⁻⁶ per K", evidence: shop },
    { of: "doubt of a coefficient", value: "5 to 10 % of it", evidence: shop },
  ],
  formula: { text: "ΔL = L × (α_part (T_part − 20 °C) − α_scale (T_scale − 20 °C))", source: "ISO 1:2016 for 20 °C; closed form" },
};

const certificate = "JCGM 100:2008, 4.3.3";

const placeOfTouch: EntryHelp = {
  formula: {
    text: "reading of a turned face moves by turn × place along it, of axes out of square by angle × place; on a round wall it tells where",
    source: "closed form",
  },
};

const inDrawing: EntryHelp = {
  formula: { text: "machine coordinate = zero + place, turned with the part: M = O + Rot(θ) p", source: "closed form" },
};

const offsetHelp: EntryHelp = {
  formula: { text: "sum in force = measured zero + corrections + local shift + global shift", source: "ISO 6983-1; NISTIR 6556" },
};

const nestHelp: EntryHelp = {
  formula: {
    text: "of the places p as drawn and q as found, each less its mean: turn = atan2(Σ p × q, Σ p · q); shift = mean found − Rot(turn) × mean drawn",
    source: "B. K. P. Horn, J. Opt. Soc. Am. A 4 (1987) 629",
  },
};

const checkMoveHelp: EntryHelp = {
  formula: { text: "must show = zero + place; along Z also + clearance + length of the tool", source: "closed form" },
};

const measuringHelp: readonly TypicalValue[] = [
  { of: "micrometer, with care", value: "u 0.002 to 0.003 mm", evidence: shop },
  { of: "calliper", value: "± 0.02 to 0.03 mm", evidence: shop },
];

const locatorHelp: EntryHelp = {
  formula: {
    text: "turn = difference of the errors of two locators ÷ their distance; a feature moves by turn × its distance besides",
    source: "closed form",
  },
};

const pinHelp: EntryHelp = {
  typical: [{ of: "a round pin, loaded by hand", value: "0.01 to 0.03 mm of the diameter", evidence: shop }],
  formula: { text: "shift up to half the clearance, any way; turn = sum of the halves ÷ distance of the pins", source: "closed form" },
};

const gum = "JCGM 100:2008";
const ownCellHelp: EntryHelp = {
  typical: [
    { of: "a standard uncertainty", value: "12.500 mm ± 0.002 mm", evidence: `${gum}, 7.2.2` },
    { of: "an expanded one", value: "50 mm ± 0.0004 mm (k = 2)", evidence: `${gum}, 4.3.3` },
    { of: "relative, known to a share", value: "80 mm ± 0.01 % (known to 25 %)", evidence: `${gum}, 5.1.6` },
    { of: "limits, equally likely between", value: "0.03 mm within 0.01 mm", evidence: gumB },
    { of: "limits, likeliest in the middle", value: "from 12.49 mm to 12.52 mm triangular", evidence: "JCGM 101:2008, 6.4.5" },
    { of: "one limit, and what is expected", value: "0.004 mm not below 0 mm", evidence: "JCGM 101:2008, 6.4.10" },
    { of: "readings", value: "41.012; 41.009; 41.011 mm", evidence: `${gum}, 4.2.3` },
    { of: "a line through two columns", value: "value_on_line(gauge_size; gauge_error; 30 mm)", evidence: `${gum}, H.3` },
  ],
  formula: { text: "u² = Σ Σ cᵢ cⱼ u(xᵢ, xⱼ) of all that it names", source: `${gum}, 5.2.2` },
};

const clampHelp: EntryHelp = {
  formula: {
    text: "forces and moments of clamp and locators add up to nothing, without friction; what would have to pull is lifted off",
    source: "statics of a rigid body",
  },
};

const seatHelp: EntryHelp = {
  typical: [{ of: "a chip under a pad", value: "lifts by 0.05 to 0.15 mm", evidence: shop }],
  formula: {
    text: "lift = now − on a good seat; plane through the lifts by least squares, read at every pad; twist = Z₁ − Z₂ + Z₃ − Z₄",
    source: "closed form",
  },
};

const lifeHelp: EntryHelp = {
  formula: {
    text: "drift since the zero was set: A (exp(−t₀ ÷ τ) − exp(−t ÷ τ)); it lasts until that is what is allowed",
    source: "closed form",
  },
};

const madeHelp: EntryHelp = {
  formula: {
    text: "off X = shift − turn × y + pull of the tool; off Y = shift + turn × x + pull; all by least squares",
    source: "closed form",
  },
};

const correctedHelp: EntryHelp = {
  formula: {
    text: "next part = part before + what was moved; parts before count with it. A part that went as far the other way was corrected with the wrong sign",
    source: "closed form",
  },
};

const temperatureHelp: EntryHelp = {
  typical: [
    { of: "air in a shop", value: "18 to 28 °C, changing by 2 to 4 K a day", evidence: shop },
    { of: "coolant", value: "18 to 30 °C", evidence: shop },
  ],
  formula: { text: "ΔL = L × (α_part (T_part − 20 °C) − α_scale (T_scale − 20 °C))", source: "ISO 1:2016 for 20 °C; closed form" },
};

/** The same of the three axes. */
function alongAxes(table: string, help: EntryHelp): Readonly<Record<string, EntryHelp>> {
  return { [`${table}.x`]: help, [`${table}.y`]: help, [`${table}.z`]: help };
}

/** By the place of the entry: what stands in a place within it (`machine.lostMotion.x`) falls back to what stands before the point. */
const helps: Readonly<Record<string, EntryHelp>> = {
  "touches.readings": {
    typical: [{ of: "readings at one place", value: "three to five, each with a new approach", evidence: shop }],
    formula: { text: "mean of n readings; its standard uncertainty s ÷ √n", source: "JCGM 100:2008, 4.2.3" },
  },
  "touches.element": {
    formula: {
      text: "on a locator: the part lies off what was touched by seat, chips, clearance and its own sizes; where the locator itself stands goes out",
      source: "closed form",
    },
  },
  ...alongAxes("touches", placeOfTouch),
  "touches.z": {
    formula: { text: "height of what was touched = Z − length + radius of a ball; Z − length of any other tip", source: "closed form" },
  },
  "touches.travelling": {
    formula: { text: "face = reading + direction × radius: the metal lies one radius further on the way", source: "closed form" },
  },
  "touches.total": {
    formula: {
      text: "centre = half the total reading off the axis; of an indicator with a lever, times the cosine of its angle to the surface",
      source: "closed form",
    },
  },
  "touches.spindle": {
    formula: {
      text: "two touches with half a turn between them: a tip off the axis by e errs by +e and −e, and cancels",
      source: "closed form",
    },
  },
  "touches.spacer": { formula: { text: "face = reading + direction × (reach of the tool + thickness)", source: "closed form" } },
  "tools.diameter": radiusHelp,
  "tools.radius": radiusHelp,
  "tools.radiusUncertainty": {
    typical: [{ of: "calibrated on a ring of known diameter", value: "0.0005 to 0.0015 mm", evidence: shop }],
    formula: { text: "of a certificate: U ÷ k", source: "JCGM 100:2008, 4.3.3" },
  },
  "tools.radiusEvidence": evidenceHelp,
  "tools.lateTrigger": {
    typical: [
      { of: "touch probe with a kinematic seat, 50 mm stylus", value: "± 0.003 to 0.008 mm by direction", evidence: shop },
      { of: "touch probe with strain gauges", value: "± 0.0005 to 0.0015 mm by direction", evidence: shop },
      { of: "turning edge finder", value: "0.003 to 0.008 mm, the same sign on both sides", evidence: shop },
    ],
    formula: { text: "half-width ÷ √3 on every face, cancelling in a mid-plane", source: gumB },
  },
  "tools.eccentricity": {
    typical: [
      { of: "in a spindle", value: "0.002 to 0.005 mm", evidence: shop },
      { of: "in a collet", value: "0.005 to 0.02 mm", evidence: shop },
    ],
    formula: { text: "a direction of equal chance: the component along an axis is U-shaped, e ÷ √2", source: "JCGM 101:2008, 6.4.6" },
  },
  "tools.scatter": {
    typical: [
      { of: "turning edge finder, practised hand", value: "0.003 to 0.008 mm", evidence: shop },
      { of: "electronic edge finder", value: "0.002 to 0.006 mm", evidence: shop },
      { of: "touch probe with a kinematic seat", value: "0.0005 to 0.0015 mm", evidence: shop },
      { of: "swept indicator", value: "0.001 to 0.004 mm", evidence: shop },
      { of: "tool rubbed on the face", value: "0.01 to 0.02 mm", evidence: shop },
    ],
    formula: { text: "s ÷ √n for a mean; pooled over places: s² = Σ νᵢ sᵢ² ÷ Σ νᵢ", source: "JCGM 100:2008, 4.2.3 and 4.2.4" },
  },
  "tools.scatterEvidence": evidenceHelp,
  "tools.length": { formula: { text: "zero Z = reading − length − spacer", source: "closed form" } },
  "tools.lengthUncertainty": {
    typical: [
      { of: "a length from a tool setter", value: "0.0005 to 0.0015 mm scatter, 0.003 to 0.006 mm for the setter itself", evidence: shop },
    ],
  },
  "tools.leverAngle": leverHelp,
  "tools.leverAngleUncertainty": leverHelp,
  "tools.leverAngleLimit": {
    typical: leverHelp.typical,
    formula: { text: "anything from cos(largest) to 1: the middle, ± half the difference, ÷ √3", source: "JCGM 100:2008, 4.3.8" },
  },
  "tools.certificate": evidenceHelp,
  "tools.calibrated": calibratedHelp,
  "tools.due": dueHelp,
  "spacers.certificate": evidenceHelp,
  "spacers.calibrated": calibratedHelp,
  "spacers.due": dueHelp,
  "tools.touchMinutes": { formula: { text: "time of a strategy = Σ readings × minutes", source: "closed form" } },
  "spacers.thickness": {
    typical: [{ of: "paper", value: "0.05 to 0.09 mm", evidence: shop }],
    formula: { text: "zero Z = reading − length − thickness", source: "closed form" },
  },
  "spacers.uncertainty": {
    typical: [
      { of: "a gauge block", value: "below 0.0005 mm", evidence: shop },
      { of: "feel of a block under a tool", value: "0.003 to 0.006 mm", evidence: shop },
      { of: "feel of paper under a tool", value: "± 0.01 to 0.02 mm", evidence: shop },
    ],
    formula: { text: "of a certificate: U ÷ k", source: "JCGM 100:2008, 4.3.3" },
  },
  "spacers.evidence": evidenceHelp,
  ...alongAxes("workFrames", {
    formula: { text: "machine coordinate = what the screen showed + coordinate of the frame", source: "closed form" },
  }),
  "workFrames.uncertainty": {
    typical: [
      { of: "a fixture taken off and put back without pins", value: "moved by 0.03 to 0.05 mm", evidence: shop },
      { of: "a pallet on studs", value: "0.002 to 0.005 mm", evidence: shop },
      { of: "a new reference run, by an index pulse", value: "0.002 to 0.005 mm", evidence: shop },
      { of: "a new reference run, by a bare switch", value: "0.01 to 0.05 mm", evidence: shop },
    ],
    formula: { text: "of a half-width: ÷ √3", source: gumB },
  },
  "machine.decimals": {
    typical: [{ of: "most registers", value: "3 in millimetres, 4 in inches", evidence: shop }],
    formula: { text: "one step of the last decimal ÷ √12, where no offset step is stated", source: "JCGM 100:2008, F.2.2.1" },
  },
  "machine.offsetStep": {
    typical: [{ of: "most registers", value: "0.001 mm, 0.0001 inch", evidence: shop }],
    formula: { text: "step ÷ √12; of the last decimal typed when empty, nothing with 0", source: "JCGM 100:2008, F.2.2.1" },
  },
  "machine.displayStep": {
    typical: [{ of: "most displays", value: "0.001 mm, 0.0001 inch", evidence: shop }],
    formula: {
      text: "step ÷ √12 on every touch; of a scatter from repeats without a display step, the least digit typed",
      source: "JCGM 100:2008, F.2.2.1",
    },
  },
  "machine.positioning": scaleHelp,
  "machine.positioningOver": scaleHelp,
  "machine.lostMotion": lostMotionHelp,
  "machine.working": lostMotionHelp,
  "machine.squareness": squarenessHelp,
  "machine.squarenessOver": squarenessHelp,
  heat: heatHelp,
  "heat.part.temperature": temperatureHelp,
  "heat.scale.temperature": temperatureHelp,
  ...alongAxes("part.elements", inDrawing),
  "part.elements.diameter": {
    formula: {
      text: "distance of two opposite readings, + 2 × radius of the tool in a bore, − 2 × radius about a boss",
      source: "closed form",
    },
  },
  "part.elements.facing": {
    formula: {
      text: "with the face at the angle φ, its centre stands r off along (cos φ, sin φ): x cos φ + y sin φ = place + r",
      source: "closed form",
    },
  },
  "part.elements.inclination": {
    typical: [
      { of: "a chamfer at the top", value: "45 deg", evidence: shop },
      { of: "the flank of a 60 degree dovetail, which leans over", value: "-30 deg", evidence: shop },
    ],
    formula: {
      text: "with the normal n = (cos φ cos ε, sin φ cos ε, sin ε), the ball's centre stands r off the face along n, and L − r below the gauge line",
      source: "closed form",
    },
  },
  "part.elements.skew": { formula: { text: "half-width ÷ √3, one source for each face", source: gumB } },
  "part.elements.lobeAmplitude": {
    formula: { text: "where the lobes stand is of equal chance: U-shaped, height ÷ √2 at one touch", source: "JCGM 101:2008, 6.4.6" },
  },
  "part.elements.deflection": {
    formula: { text: "anything from nothing to it is as likely: half of it is expected, its u is it ÷ √12", source: gumB },
  },
  "part.elements.diameterTolerance": { formula: { text: "deviations of a class such as H7", source: "ISO 286-1:2010, tables" } },
  "part.elements.roughness": {
    typical: [
      { of: "touch on a rough face, ball of 4 to 6 mm", value: "Rz ÷ 4 to Rz ÷ 2", evidence: shop },
      { of: "Rz of a milled face", value: "0.006 to 0.025 mm", evidence: shop },
    ],
    formula: { text: "half-width ÷ √3, one source for each face", source: gumB },
  },
  "part.elements.outOfSquare": {
    typical: [{ of: "a saw cut", value: "0.1 to 0.3 mm over 100 mm", evidence: shop }],
  },
  "part.elements.lobes": {
    formula: {
      text: "evenly spaced touches: lobes one more or one less than a multiple of their number move the centre by the amplitude; a multiple of it changes the diameter by up to twice the amplitude; others are not seen",
      source: "closed form, held against the solver",
    },
  },
  "part.elements.process": {
    formula: { text: "standard deviation of what is cut, about where the zero puts it", source: "closed form" },
  },
  "part.dimensions.nominal": {
    formula: {
      text: "shift of a feature = g × (size − nominal): g = 0 with zero on the datum, 1/2 on the middle, 1 on the other face",
      source: "closed form",
    },
  },
  "part.dimensions.tolerance": {
    typical: [
      { of: "0.5 to 3 mm and 3 to 6 mm, medium", value: "± 0.1 mm", evidence: "ISO 2768-1, table 1, class m" },
      { of: "6 to 30 mm, medium", value: "± 0.2 mm", evidence: "ISO 2768-1, table 1, class m" },
      { of: "30 to 120 mm, medium", value: "± 0.3 mm", evidence: "ISO 2768-1, table 1, class m" },
      { of: "120 to 400 mm, medium", value: "± 0.5 mm", evidence: "ISO 2768-1, table 1, class m" },
    ],
    formula: {
      text: "in a batch: half the tolerance ÷ √3 if anything within is as likely, ÷ 3 for a centred normal process",
      source: gumB,
    },
  },
  "part.dimensions.measured": { typical: measuringHelp },
  "part.dimensions.measuredUncertainty": {
    typical: measuringHelp,
    formula: { text: "of a half-width: ÷ √3; of a certificate: U ÷ k", source: `${gumB}; ${certificate}` },
  },
  "part.characteristics.tolerance": {
    formula: { text: "position used T = 2 √(eₓ² + e_y²), of a round zone of this diameter", source: "ISO 1101; closed form" },
  },
  "part.characteristics.kind": {
    formula: { text: "chance within a round zone, centred and alike: 1 − exp(−T² ÷ (8 σ²))", source: "closed form" },
  },
  "part.characteristics.length": {
    formula: { text: "one end against the other = turn × length, held against the zone", source: "ISO 1101; closed form" },
  },
  "part.characteristics.width": {
    formula: { text: "one end against the other = turn × width, held against the zone", source: "ISO 1101; closed form" },
  },
  "strategies.zero": {
    formula: { text: "zero = machine coordinate of what was touched − its place in the drawing's frame", source: "closed form" },
  },
  "strategies.touches": {
    formula: { text: "one face: zero = face − its drawn place; a middle: (R₁ + R₂) ÷ 2, where the radius cancels", source: "closed form" },
  },
  "strategies.rotation": { formula: { text: "turn = (R₂ − R₁) ÷ baseline; its u = √2 s ÷ baseline", source: "closed form" } },
  "correlations.coefficient": {
    formula: {
      text: "u² = Σ cᵢ² uᵢ² + 2 Σ cᵢ cⱼ uᵢ uⱼ rᵢⱼ, each pair once; of two radii from one ring: r = u_ring² ÷ (u₁ u₂)",
      source: "JCGM 100:2008, 5.2.2 and F.1.2.3",
    },
  },
  ...alongAxes("fixture.locators", locatorHelp),
  "fixture.locators.span": locatorHelp,
  "fixture.locators.angle": {
    typical: [{ of: "a V-block", value: "90 degrees", evidence: shop }],
    formula: {
      text: "axis of a round part moves by 1 ÷ sin(angle ÷ 2) per mm of its radius: 1.414 at 90 degrees",
      source: "closed form",
    },
  },
  "fixture.locators.diameter": pinHelp,
  "fixture.locators.diameterTolerance": pinHelp,
  "fixture.locators.clearance": pinHelp,
  "fixture.locators.height": { formula: { text: "the metal on it is off by it, out of the locator", source: "closed form" } },
  "fixture.locators.heightError": {
    typical: [{ of: "pads ground in place", value: "0.005 to 0.01 mm", evidence: shop }],
    formula: { text: "tilt = difference of heights ÷ distance of the pads", source: "closed form" },
  },
  "fixture.locators.debris": { typical: [{ of: "a chip under a pad", value: "0.05 to 0.15 mm", evidence: shop }] },
  "fixture.locators.seat": {
    typical: [
      { of: "solid jaw of a good vice, part to part", value: "0.005 to 0.02 mm", evidence: shop },
      { of: "jaws cut in place", value: "0.005 to 0.015 mm", evidence: shop },
    ],
  },
  ...alongAxes("fixture.clamps", clampHelp),
  "fixture.seatTouches.x": seatHelp,
  "fixture.seatTouches.y": seatHelp,
  "fixture.seatTouches.baseline": seatHelp,
  "fixture.seatTouches.reading": seatHelp,
  "fixture.wantedError": {
    typical: [{ of: "share of the part's tolerance for the fixture", value: "20 to 50 %, often a third", evidence: shop }],
    formula: { text: "turn = difference of the errors ÷ spacing; a feature moves by turn × its distance besides", source: "closed form" },
  },
  "fixture.seatScatter": {
    typical: [
      { of: "touch probe with a kinematic seat", value: "0.0005 to 0.0015 mm", evidence: shop },
      { of: "swept indicator", value: "0.001 to 0.004 mm", evidence: shop },
    ],
    formula: {
      text: "u of a lift = √2 × scatter; of what one pad has beside the others a seat is called bad above 1.645 u, and a chip of 3.29 u is found, both at 5 % risk",
      source: "ISO 11843-1:1997, from memory",
    },
  },
  "madeParts.partScatter": {
    formula: {
      text: "u of a mean = √(scatter² + (reach × scatter of single features)²) ÷ √n, where reach is what 1 mm of theirs makes at the zero; below 2 u nothing is corrected (common practice, no source), above it the share prior² ÷ (prior² + u²)",
      source: "Bayes' theorem; F. E. Grubbs 1954 with no prior knowledge",
    },
  },
  ...alongAxes("madeParts.measured", madeHelp),
  ...alongAxes("madeParts.corrections", correctedHelp),
  "warmUp.start": {
    formula: {
      text: "reading = start + A (1 − exp(−t ÷ τ)), by least squares; the start is a third unknown when empty",
      source: "closed form",
    },
  },
  "warmUp.allowed": lifeHelp,
  "warmUp.setAt": lifeHelp,
  "warmUp.cycle": {
    formula: { text: "parts with one zero = minutes that it lasts ÷ minutes per part, rounded down", source: "closed form" },
  },
  "warmUp.readings.minutes": {
    typical: [{ of: "a spindle along Z, most of its growth", value: "15 to 30 minutes", evidence: shop }],
    formula: { text: "drift = A (1 − exp(−t ÷ τ)): 63 % of it after τ minutes", source: "closed form" },
  },
  "warmUp.readings.reading": {
    typical: [{ of: "growth of a spindle along Z", value: "0.015 to 0.04 mm in 15 to 30 minutes", evidence: shop }],
    formula: { text: "drift = A (1 − exp(−t ÷ τ))", source: "closed form" },
  },
  "offsets.why": offsetHelp,
  ...alongAxes("offsets", offsetHelp),
  "offsets.turn": {
    formula: {
      text: "a feature at a distance from zero moves by distance × turn (in radians), square to the way there",
      source: "closed form",
    },
  },
  "nests.x": nestHelp,
  "nests.y": nestHelp,
  "nests.foundX": nestHelp,
  "nests.foundY": nestHelp,
  ...alongAxes("checks", placeOfTouch),
  "checks.readings": {
    formula: {
      text: "must show = face − direction × radius; Eₙ = |shown − must show| ÷ U at 95.45 %, what both share left out: up to 1 agrees",
      source: "closed form; Eₙ as in ISO 13528",
    },
  },
  ...alongAxes("checkMoves", checkMoveHelp),
  "checkMoves.clearance": checkMoveHelp,
  "slipChances.chance": {
    typical: [{ of: "one touch, tool or entry, by the slip", value: "0.1 to 0.3 %", evidence: shop }],
    formula: {
      text: "weight of an explanation = chance of its slips × how likely the readings are with them; only proportions count",
      source: "Bayes' theorem",
    },
  },
  decision: {
    formula: { text: "guard band of U, or a least probability of conformity", source: "JCGM 106:2012, clauses 8 and 9; ISO 14253-1:2017" },
  },
  "decision.conformanceProbability": {
    typical: [{ of: "where nothing else is agreed", value: "95 %", evidence: "ISO 14253-1:2017, from memory" }],
    formula: { text: "of a normal distribution and one limit: guard band of 1.645 u at 95 %", source: "JCGM 106:2012, 8.3.2; closed form" },
  },
  "decision.guardBand": {
    typical: [{ of: "guard band as wide as U", value: "1", evidence: shop }],
    formula: {
      text: "w = r U with U = 2 u; r = 1 leaves a chance of at most 2.3 % that what measures at the acceptance limit does not conform (normal, one limit)",
      source: "JCGM 106:2012, 8.3.2.3",
    },
  },
  "decision.inspection": {
    typical: measuringHelp,
    formula: {
      text: "consumer's risk = ∫ density of the process × chance of being accepted, over what does not conform; producer's risk: rejected, over what conforms",
      source: "JCGM 106:2012, 9.4 and 9.5",
    },
  },
  "ledger.cell.entry": ownCellHelp,
  sampling: { formula: { text: "trials until the results are steady to the digits that are told", source: "JCGM 101:2008, 7.9" } },
};

/** What is known of the entry at a place; undefined where nothing is besides its meaning. */
export function entryHelp(place: string): EntryHelp | undefined {
  for (let at = place; at !== ""; at = at.slice(0, Math.max(0, at.lastIndexOf(".")))) {
    const help = helps[at];
    if (help !== undefined) return help;
  }
  return undefined;
}

/** Every place that something is known of. */
export const helpedPlaces: readonly string[] = Object.keys(helps);
