import type { Problem } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import type { Fixture, Locator, PinClearance } from "../equipment/fixture.ts";
import { sourceOfHeight } from "../fixture/locatorSources.ts";
import { unit } from "../formula/units.ts";
import type { Limits, Part } from "../part/part.ts";
import { limitsAtDeviations } from "../uncertainty/statedLimits.ts";
import { evidenceOf } from "./readEquipment.ts";
import type { Reading } from "./reading.ts";
import { RowReader, readRows } from "./rowReader.ts";
import type { LocatorEntry, SetupDocument } from "./setupDocument.ts";

/** What the part is set against. */
export function readFixture({ fixture, part: stated }: SetupDocument, part: Part, reading: Reading, problems: Problem[]): Fixture {
  const row = new RowReader("fixture", reading);
  const elements = new Set(stated.elements.map(({ id }) => id));
  const locators = readRows(fixture.locators, "fixture.locators", reading, problems, (entry, locator) => {
    if (elements.has(entry.id))
      locator.refuse("id", {
        what: "an element of the part has this name as well, and whoever touches it may mean either",
        expected: "a name of its own",
        got: entry.id,
        remedy: "rename one of them",
      });
    return readLocator(entry, locator, part);
  });
  const clamps = readRows(fixture.clamps, "fixture.clamps", reading, problems, ({ id, pressing, x, y, z }, clamp) => ({
    id,
    pressing,
    at: [
      needed(clamp, "x", x, "where the clamp presses"),
      needed(clamp, "y", y, "where the clamp presses"),
      needed(clamp, "z", z, "where the clamp presses"),
    ] as const,
  }));
  const seatTouches = readRows(fixture.seatTouches, "fixture.seatTouches", reading, problems, (entry, touch) => ({
    id: entry.id,
    x: needed(touch, "x", entry.x, "where the part was touched"),
    y: needed(touch, "y", entry.y, "where the part was touched"),
    reading: needed(touch, "reading", entry.reading, "the reading"),
    baseline: needed(touch, "baseline", entry.baseline, "the reading on a part that sat well"),
  }));
  const seatScatter = row.magnitude("seatScatter", fixture.seatScatter);
  if (seatScatter === undefined && fixture.seatScatter.trim() === "" && fixture.seatTouches.length > 0)
    row.refuse("seatScatter", {
      what: "the scatter of one reading of the seat check is missing",
      expected: "a standard deviation, such as 0.002 mm",
      got: "",
    });
  const result: Fixture = {
    locators,
    clamps,
    // Without the scatter nothing could be told of what the readings can see.
    seatTouches: seatScatter === undefined ? [] : seatTouches,
    seatScatter: seatScatter ?? mm(0),
    wantedError: row.magnitude("wantedError", fixture.wantedError),
  };
  problems.push(...row.problems);
  return result;
}

/** A row that lacks it is not kept. */
function needed(row: RowReader, entry: string, text: string, what: string): Mm {
  return row.required(entry, text, what) ?? mm(0);
}

const rightAngle = Math.PI / 2;

function readLocator(entry: LocatorEntry, row: RowReader, part: Part): Locator {
  const { id, kind, facing } = entry;
  const evidence = evidenceOf(entry.evidence);
  const isPin = kind === "round pin" || kind === "diamond pin";
  const holds = kind !== "tooling hole";
  if (isPin && facing?.[1] === "Z")
    row.refuse("facing", { what: "an upright pin holds across its axis", expected: "+X, -X, +Y or -Y", got: facing });
  // What lies between a pin and its hole pushes to a side that nobody knows, and takes clearance away.
  onlyFor("debris", entry.debris, !isPin || !holds, `a ${kind}`, row);
  onlyFor("span", entry.span, kind === "fixed jaw", `a ${kind}`, row);
  onlyFor("angle", entry.angle, kind === "V-block", `a ${kind}`, row);
  for (const name of ["diameter", "diameterTolerance"] as const) onlyFor(name, entry[name], isPin || !holds, `a ${kind}`, row);
  onlyFor("clearance", entry.clearance, isPin, `a ${kind}`, row);
  for (const name of ["element", "seat", "debris"] as const)
    onlyFor(name, entry[name], holds || entry[name].trim() === "", "a tooling hole, which is there to be touched and holds nothing", row);
  if (!holds && facing !== undefined)
    row.refuse("facing", {
      what: "a tooling hole is upright and holds nothing",
      expected: "nothing",
      got: facing,
      remedy: "leave it empty",
    });
  onlyFor("height", entry.height, kind === "pad" || kind === "stop", `a ${kind}, which holds along more than one direction`, row);
  const span = row.magnitude("span", entry.span);
  if (kind === "fixed jaw") {
    if (facing?.[1] === "Z") row.refuse("facing", { what: "a jaw holds from the side", expected: "+X, -X, +Y or -Y", got: facing });
    if (!((span ?? 0) > 0))
      row.refuse("span", { what: "a jaw needs the length over which the part bears on it", expected: "a length above 0", got: entry.span });
  }
  // A height that brings its doubt with it stands in the place of its source.
  const height = row.doubtfulLength("height", entry.height, sourceOfHeight({ id, evidence }), {
    entry: "heightError",
    text: entry.heightError,
  });
  row.give(sourceOfHeight({ id, evidence }).id, height?.doubtful);
  return {
    id,
    kind,
    element: entry.element.trim(),
    at: [row.length("x", entry.x), row.length("y", entry.y), row.length("z", entry.z)],
    facing,
    span: span ?? mm(0),
    angle: readAngle(entry.angle, row),
    height: height?.value ?? mm(0),
    heightError: row.doubt("heightError", entry.heightError, { value: height?.value, words: "the height" }),
    evidence,
    seat: row.doubt("seat", entry.seat),
    debris: row.doubt("debris", entry.debris),
    clearance: isPin ? clearanceOf(entry, row, part) : noClearance,
    round: isPin || !holds ? roundOf(entry, row) : undefined,
  };
}

/** What a tool meets that touches a pin or a tooling hole. */
function roundOf({ diameter: text, diameterTolerance, kind }: LocatorEntry, row: RowReader): Locator["round"] {
  const diameter = row.magnitude("diameter", text);
  const limits =
    diameterTolerance.trim() === ""
      ? exact
      : row.tolerance(
          "diameterTolerance",
          diameterTolerance,
          diameter && { nominal: diameter, kind: kind === "tooling hole" ? "hole" : "shaft" },
        );
  return diameter === undefined || limits === undefined || !(diameter > 0) ? undefined : { diameter, limits };
}

function onlyFor(entry: string, text: string, allowed: boolean, kind: string, row: RowReader): void {
  if (!allowed && text.trim() !== "")
    row.refuse(entry, { what: `this says nothing of ${kind}`, expected: "nothing", got: text, remedy: "leave it empty" });
}

function readAngle(text: string, row: RowReader): number {
  if (text.trim() === "") return rightAngle;
  const angle = row.sureQuantity("angle", text, unit("deg"));
  if (angle !== undefined && angle > 0 && angle < Math.PI) return angle;
  if (angle !== undefined)
    row.refuse("angle", { what: "the faces of a V-block lean against each other", expected: "degrees between 0 and 180", got: text });
  return rightAngle;
}

const noClearance: PinClearance = { usual: mm(0), loosest: mm(0) };

/**
 * Half of the clearance that is stated, or that the diameters leave: c = (hole - pin)/2 is how far their middles can be apart.
 *
 * The middle of the hole is c · ξ off that of the pin, ξ anywhere in a circle of radius 1. As ξ is 0 on average and independent of the sizes, their
 * spread moves nothing to first order, has no covariance with the place (nor has the hole's own diameter), and enters the variance as
 * E(c²)·E(ξ²) = (c̄² + u²(c))·E(ξ²), u of both sizes by their drawings: hence the quadratic mean.
 */
function clearanceOf(entry: LocatorEntry, row: RowReader, part: Part): PinClearance {
  const pin = row.magnitude("diameter", entry.diameter);
  const stated = row.magnitude("clearance", entry.clearance);
  const pinLimits =
    entry.diameterTolerance.trim() === ""
      ? exact
      : row.tolerance("diameterTolerance", entry.diameterTolerance, pin && { nominal: pin, kind: "shaft" });
  if (stated !== undefined) {
    if (entry.diameter.trim() !== "")
      row.refuse("clearance", {
        what: "the clearance is stated twice, here and by the diameters",
        got: entry.clearance,
        remedy: "leave one of them empty",
      });
    return { usual: mm(stated / 2), loosest: mm(stated / 2) };
  }
  const hole = part.elements.find(({ id }) => id === entry.element.trim());
  if (row.failed || pinLimits === undefined) return noClearance;
  if (pin === undefined || hole?.kind !== "bore") {
    row.refuse("clearance", {
      what: "the clearance between pin and hole is not known",
      expected: "a clearance, or the pin's diameter and a bore of the part",
      got: "",
    });
    return noClearance;
  }
  const holeLimits = hole.diameterLimits ?? exact;
  const smallest = hole.diameter + holeLimits.lower - (pin + pinLimits.upper);
  if (smallest < -rounding)
    row.refuse("diameter", {
      what: `the largest pin is ${(-smallest).toFixed(4)} mm larger than the smallest "${hole.id}", so it does not enter every part`,
      expected: `at most ${(hole.diameter + holeLimits.lower).toFixed(4)} mm with its tolerance`,
      got: entry.diameter,
      remedy: "take a smaller pin, or a diameter between limits that fit",
    });
  const loosest = hole.diameter + holeLimits.upper - (pin + pinLimits.lower);
  const spread = [holeLimits, pinLimits].map(({ lower, upper }) => (upper - lower) / 2 / limitsAtDeviations);
  const usual = Math.hypot((smallest + loosest) / 2, ...spread);
  return { usual: mm(usual / 2), loosest: mm(Math.max(0, loosest) / 2) };
}

const exact: Limits = { lower: mm(0), upper: mm(0) };
/** Below this a difference of two diameters is rounding of decimals, mm. */
const rounding = 1e-9;
