import { beforeAll, expect, it, vi } from "vitest";
import { type Job, openJob, rowOf } from "../documents/openJob.ts";
import { buildEvaluate, patience, runEvaluate } from "../support/runEvaluate.ts";

vi.setConfig({ testTimeout: patience });
beforeAll(buildEvaluate, patience);

type Edit = (job: Job) => void;

const touch =
  (id: string, entry: string, value: unknown): Edit =>
  (job) => {
    rowOf(job["touches"], id)[entry] = value;
  };
const tool =
  (id: string, entry: string, value: unknown): Edit =>
  (job) => {
    rowOf(job["tools"], id)[entry] = value;
  };
const element =
  (id: string, entry: string, value: unknown): Edit =>
  (job) => {
    rowOf(job["part"].elements, id)[entry] = value;
  };
const strategy =
  (id: string, entry: string, value: unknown): Edit =>
  (job) => {
    rowOf(job["strategies"], id)[entry] = value;
  };
const document =
  (entry: string, value: unknown): Edit =>
  (job) => {
    job[entry] = value;
  };
const readings = (text: string) => touch("left", "readings", text);

/** A bore that is touched at these places and found by them alone. */
const bore =
  (...places: readonly string[]): Edit =>
  (job) => {
    job["part"].elements.push({ id: "bore", kind: "bore", datum: "D", x: "45", y: "20", diameter: "20" });
    Object.assign(rowOf(job["tools"], "stylus"), { scatterFrom: "stated", scatter: "0.002" });
    const ids = places.map((_, i) => `wall ${i + 1}`);
    places.forEach((place, i) => {
      job["touches"].push({ id: ids[i], element: "bore", travelling: "radial", tool: "stylus", readings: place });
    });
    job["strategies"] = [{ id: "bore", touches: [...ids, "top"], zero: { x: "bore", y: "bore" } }];
  };

function refusalOf(edit: Edit): readonly string[] {
  const job = { ...openJob("pinBlock"), sampling: { trials: 64, seed: 1 } };
  edit(job);
  const { status, output, errors } = runEvaluate(["-"], JSON.stringify(job));
  expect({ status, output }).toEqual({ status: 2, output: "" });
  return errors;
}

it.each<[string, Edit, string]>([
  [
    "no reading at all",
    readings(""),
    'touches.left.readings: the scatter of "left" is to come from its own repeats, and there are not two',
  ],
  [
    "a touch that is still to be taken",
    (job) => {
      readings("")(job);
      job["strategies"] = job["strategies"].slice(0, 1);
      Object.assign(rowOf(job["tools"], "stylus"), { scatterFrom: "stated", scatter: "0.002" });
    },
    'touches.left.readings: "left" has not been touched yet',
  ],
  ["words for a reading", readings("about -312"), 'touches.left.readings: reading 1, "about": it is not a number'],
  ["NaN for a reading", readings("NaN"), "touches.left.readings: "],
  ["1e999 for a reading", readings("1e999"), "touches.left.readings: "],
  ["1e300 for a reading", readings("1e300 1e300"), "touches.left.readings: this is longer than any machine"],
  ["a comma that may be a thousands mark", readings("-312,441"), "the comma can be a decimal mark (312.441) or a thousands mark (312441)"],
  ["a blank as thousands mark", tool("gauge pin", "length", "1 104.2"), "tools.gauge pin.length: "],
  ["a comma as thousands mark", tool("gauge pin", "length", "1,104"), "tools.gauge pin.length: the comma can be"],
  ["a second line that cannot be read", readings("-312.441\n-312.44x"), 'touches.left.readings: reading 2, "-312.44x"'],
  [
    "a radius that fits only in inches",
    tool("stylus", "radius", "0.05"),
    "tools.stylus.radius: the number stands for 0.05 mm, which does not fit here",
  ],
  [
    "a negative radius",
    tool("stylus", "radius", "-2.993"),
    'tools.stylus.radius: this cannot be negative; expected a length of 0 or more, got "-2.993".',
  ],
  ["a negative uncertainty", tool("stylus", "radiusUncertainty", "-0.001"), "tools.stylus.radiusUncertainty: this cannot be negative"],
  ["a negative scatter", tool("gauge pin", "scatter", "-0.003"), "tools.gauge pin.scatter: this cannot be negative"],
  ["one reading where its own repeats are to tell the scatter", readings("-312.441"), "touches.left.readings: the scatter of"],
  ["a strategy without touches", strategy("middle", "touches", []), "strategies.middle.touches: a strategy needs at least one touch"],
  ["a bore touched once", bore("X-257.449 Y-165.128"), "touches.wall 1.readings: the direction of a radial touch"],
  ["two touches of a bore on one line with its axis", bore("X-257.449 Y-165.128", "X-271.449 Y-165.128"), '"bore" does not fix Y'],
  [
    "three touches of a bore on one line with its axis",
    bore("X-257.449 Y-165.128", "X-262.1 Y-165.128", "X-271.449 Y-165.128"),
    '"bore" does not fix Y',
  ],
  ["a million readings in one entry", readings("-312.441 ".repeat(1_000_000)), "touches.left.readings: "],
  [
    "a zone of no size",
    (job) => Object.assign(job["part"].characteristics[0], { tolerance: "0" }),
    "part.characteristics.dowel 1 position.tolerance: ",
  ],
  [
    "an unknown face",
    touch("left", "element", "lefty"),
    'touches.left.element: there is no such element of the part; got "lefty". Perhaps "left" was meant.',
  ],
  ["an unknown tool", touch("left", "tool", "probe"), 'touches.left.tool: there is no such tool; got "probe"'],
  ["an unknown spacer", touch("top", "spacer", "sheet"), 'touches.top.spacer: there is no such spacer; got "sheet"'],
  [
    "an unknown touch",
    strategy("middle", "touches", ["left", "rigth"]),
    'strategies.middle.touches: there is no such touch; got "rigth". Perhaps "right" was meant.',
  ],
  ["an unknown place of the zero", strategy("middle", "zero", { x: "midle" }), "strategies.middle.zero.x: "],
  ["an unknown strategy in use", document("chosen", "midle"), 'got "midle". Perhaps "middle" was meant.'],
  ["an unknown work frame", touch("left", "frame", "G54"), "touches.left.frame: there is no work frame by this name"],
  ["a name used twice", strategy("middle", "id", "left face"), "strategies.left face.id: this name is used twice"],
  [
    "dimensions in a circle",
    (job) => job["part"].dimensions.push({ id: "back again", from: "right", to: "left", nominal: "-90" }),
    "part.dimensions.back again: this closes a circle",
  ],
  [
    "a tool that moves away from the metal",
    touch("left", "travelling", "-X"),
    "touches.left.travelling: a tool travelling -X cannot touch",
  ],
  ["a newer version", document("version", 3), 'version: this setup was saved by a newer Datumbook; expected version 2 or older, got "3".'],
  ["a version in quotes", document("version", "1"), 'version: the version is not readable; expected a whole number from 1 to 2, got "1".'],
  ["another format", document("format", "other"), 'format: this is not a Datumbook setup; expected "datumbook", got "other".'],
  ["an entry that the schema does not know", document("colour", "red"), 'colour: there is no such entry; got "colour".'],
  [
    "a number where text is kept",
    touch("left", "readings", -312.4),
    'touches.left.readings: this entry is not readable; expected text in quotes, got "-312.4".',
  ],
  [
    "a direction that is none",
    touch("left", "travelling", "left"),
    'touches.left.travelling: this entry is not readable; expected "+X" or "-X"',
  ],
  ["an empty name", touch("left", "id", ""), "touches.0.id: a name is needed."],
  ["no touches entry", document("touches", undefined), "touches: this entry is missing."],
  ["no strategies", document("strategies", []), "strategies: there is no strategy"],
  ["too many trials", document("sampling", { trials: 1e9 }), "sampling.trials: "],
  ["decimals that cannot be typed", (job) => Object.assign(job["machine"], { decimals: "1e8" }), "machine.decimals: decimals are counted"],
  [
    "a positioning error as large as the way",
    (job) => Object.assign(job["machine"], { positioningOver: "0.001" }),
    "machine.positioning: ",
  ],
])("%s is told in one line, at its place", (_, edit, told) => {
  const errors = refusalOf(edit);
  expect(errors).toHaveLength(1);
  expect(errors[0]).toContain(told);
});

it.each<[string, Edit, readonly string[]]>([
  [
    "a bore touched thrice at one place",
    bore("X-257.449 Y-165.128", "X-257.449 Y-165.128", "X-257.449 Y-165.128"),
    ["touches.wall 1.readings: ", "touches.wall 2.readings: ", "touches.wall 3.readings: "],
  ],
  [
    "a skew that is asked for where the touches do not say where they were taken",
    strategy("left face", "rotation", "applied"),
    ["touches.left.y: ", "touches.front.x: "],
  ],
  [
    "a strategy that looks at X alone",
    (job) => {
      job["strategies"] = [{ id: "end", touches: ["left"] }];
    },
    ["part.characteristics.dowel 1 position: ", "part.characteristics.recess depth: "],
  ],
  [
    "a face that nothing ties to a datum",
    element("left", "datum", ""),
    [
      "part.elements.left: nothing ties",
      "part.elements.right: nothing ties",
      "part.elements.middle: nothing ties",
      "touches.left: ",
      "touches.right: ",
    ],
  ],
  [
    "two slips",
    (job) => [readings("x"), tool("gauge pin", "length", "-")].map((edit) => edit(job)),
    ["tools.gauge pin.length: ", "touches.left.readings: "],
  ],
])("%s is told in one line per problem, at its place", (_, edit, told) => {
  const errors = refusalOf(edit);
  expect(errors.map((line, i) => line.slice(0, told[i]?.length))).toEqual(told);
});

it("decimal commas that can be nothing else are read as such, from a touch to a dimension", () => {
  const job: Job = { ...openJob("pinBlock"), sampling: { trials: 64, seed: 1 } };
  const marks = (text: string) => text.replaceAll(".", ",");
  const evaluated = (with_: Job) => runEvaluate(["-", "--json"], JSON.stringify(with_));
  const points = evaluated(job);
  const stylus = rowOf(job["tools"], "stylus");
  for (const entry of ["radius", "radiusUncertainty"]) stylus[entry] = marks(Number(stylus[entry]).toFixed(4));
  const commas = evaluated(job);
  expect(stylus["radius"]).toMatch(/^\d,\d{4}$/);
  expect(commas.errors).toEqual([]);
  expect(JSON.parse(commas.output)["strategies"]).toEqual(JSON.parse(points.output)["strategies"]);
});

it("parallel touches that are to tell the skew are told", () => {
  const errors = refusalOf((job) => {
    touch("left", "y", "-150")(job);
    touch("front", "x", "-300")(job);
    strategy("left face", "rotation", "measured")(job);
  });
  expect(errors).toEqual(["strategies.left face: the touches of this strategy do not fix the turn about Z. Touch one face at two places."]);
});

it("a name with control characters stays on one line and cannot steer a terminal", () => {
  const errors = refusalOf((job) => {
    touch("left", "id", "left\n\u001b[2Jall is well")(job);
    touch("left\n\u001b[2Jall is well", "tool", "none\u202e")(job);
  });
  expect(errors.filter((line) => /[\p{Cc}\u202e]/u.test(line))).toEqual([]);
  expect(errors[0]).toContain("touches.left [2Jall is well.tool: there is no such tool");
});

it("1e999 as a seed, which JSON reads as infinite, is told", () => {
  const text = JSON.stringify({ ...openJob("pinBlock"), sampling: { trials: 64, seed: 12345 } }).replace("12345", "1e999");
  expect(runEvaluate(["-"], text)).toEqual({
    status: 2,
    output: "",
    errors: ["sampling.seed: this number has no end."],
  });
});
