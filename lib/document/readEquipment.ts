import { parseDay } from "../base/moment.ts";
import { type Problem, within } from "../base/outcome.ts";
import { type Mm, mm, radian } from "../base/quantity.ts";
import type { Calibration, Lever, Machine, Spacer, Tool, WorkFrame } from "../equipment/equipment.ts";
import { sourceOfLength, sourceOfLeverAngle, sourceOfRadius, sourceOfThickness } from "../equipment/toolSources.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import { unit } from "../formula/units.ts";
import type { Evidence } from "../uncertainty/source.ts";
import type { Reading } from "./reading.ts";
import { RowReader, readRows } from "./rowReader.ts";
import type { SetupDocument, SpacerEntry, ToolEntry, WorkFrameEntry } from "./setupDocument.ts";

/** Radii of styli, tips and pins lie between these, mm (common practice, no source): tells a bare 5 on an inch job from 5 mm. */
const usualRadius = { from: mm(0.1), to: mm(26) };
const usualDiameter = { from: mm(0.2), to: mm(52) };
/** Decimals of an offset that controllers usually take (common practice, no source). */
const usualDecimals = { mm: 3, inch: 4 };
const mostDecimals = 6;

export function readTools({ tools }: SetupDocument, reading: Reading, problems: Problem[]): Tool[] {
  return readRows(tools, "tools", reading, problems, (entry, row) => ({
    ...readTool(entry, row),
    calibration: readCalibration(entry, `tools.${entry.id}`, problems),
  }));
}

export function readSpacers({ spacers }: SetupDocument, reading: Reading, problems: Problem[]): Spacer[] {
  return readRows(spacers, "spacers", reading, problems, (entry: SpacerEntry, row) => {
    const { id, evidence } = { id: entry.id, evidence: evidenceOf(entry.evidence, entry.certificate) };
    const source = sourceOfThickness({ id, evidence });
    const read = row.doubtfulMagnitude("thickness", entry.thickness, source, { entry: "uncertainty", text: entry.uncertainty });
    row.give(source.id, read?.doubtful);
    const thickness = read?.value;
    if (thickness === undefined && entry.thickness.trim() === "")
      row.refuse("thickness", { what: "the thickness is missing", expected: "a length", got: "" });
    return {
      id: entry.id,
      thickness: thickness ?? mm(0),
      standardUncertainty:
        row.doubtOf(read?.doubtful) ?? row.doubt("uncertainty", entry.uncertainty, { value: thickness, words: "the thickness" }),
      evidence,
      calibration: readCalibration(entry, `spacers.${id}`, problems),
    };
  });
}

export function readWorkFrames({ workFrames }: SetupDocument, reading: Reading, problems: Problem[]): WorkFrame[] {
  return readRows(workFrames, "workFrames", reading, problems, (entry: WorkFrameEntry, row) => {
    if (entry.id === "machine")
      row.refuse("id", {
        what: "machine is the name of the machine's own coordinates",
        got: entry.id,
        remedy: "give the older work frame another name",
      });
    return {
      id: entry.id,
      origin: [row.length("x", entry.x) ?? 0, row.length("y", entry.y) ?? 0, row.length("z", entry.z) ?? 0],
      standardUncertainty: row.doubt("uncertainty", entry.uncertainty),
    };
  });
}

/** A day that cannot be read is a problem at its place, and keeps nobody from using the row: no number follows from it. */
function readCalibration(entry: ToolEntry | SpacerEntry, place: string, problems: Problem[]): Calibration {
  const found: Problem[] = [];
  const day = (key: "calibrated" | "due") => {
    const text = entry[key] ?? "";
    const read = text.trim() === "" ? undefined : parseDay(text);
    if (read?.ok === false) found.push(...read.problems.map((problem) => within(`${place}.${key}`, problem)));
    return read?.ok ? read.value : undefined;
  };
  const calibration = { certificate: (entry.certificate ?? "").trim(), calibrated: day("calibrated"), due: day("due") };
  problems.push(...found);
  return { ...calibration, unread: found.length > 0 };
}

function readTool(entry: ToolEntry, row: RowReader): Omit<Tool, "calibration"> {
  const radiusEvidence = evidenceOf(entry.radiusEvidence, entry.certificate);
  const diameter = row.magnitude("diameter", entry.diameter, usualDiameter);
  const radiusSource = sourceOfRadius({ id: entry.id, radiusEvidence });
  const radius = row.doubtfulMagnitude(
    "radius",
    entry.radius,
    radiusSource,
    { entry: "radiusUncertainty", text: entry.radiusUncertainty },
    usualRadius,
  );
  row.give(radiusSource.id, radius?.doubtful);
  const lengthSource = sourceOfLength(entry);
  const length = row.doubtfulLength("length", entry.length, lengthSource, { entry: "lengthUncertainty", text: entry.lengthUncertainty });
  row.give(lengthSource.id, length?.doubtful);
  const effective = radius?.value ?? (diameter === undefined ? undefined : mm(diameter / 2));
  return {
    id: entry.id,
    kind: entry.kind,
    radius: effective,
    catalogueRadius: diameter === undefined ? undefined : mm(diameter / 2),
    radiusUncertainty:
      row.doubtOf(radius?.doubtful) ?? row.doubt("radiusUncertainty", entry.radiusUncertainty, { value: effective, words: "the radius" }),
    radiusEvidence,
    lateTrigger: row.doubt("lateTrigger", entry.lateTrigger),
    eccentricity: row.doubt("eccentricity", entry.eccentricity),
    scatter: row.magnitude("scatter", entry.scatter),
    scatterFrom: entry.scatterFrom,
    scatterEvidence: evidenceOf(entry.scatterEvidence, entry.certificate),
    length: length?.value,
    lengthUncertainty:
      row.doubtOf(length?.doubtful) ??
      row.doubt("lengthUncertainty", entry.lengthUncertainty, { value: length?.value, words: "the length" }),
    lever: readLever(entry, row),
    touchMinutes: row.minutes("touchMinutes", entry.touchMinutes ?? "", mostMinutes, "above 0"),
  };
}

/** The angle of an indicator's lever with its doubt, or the largest that it may be; undefined where neither is stated. */
function readLever(entry: ToolEntry, row: RowReader): Lever | undefined {
  const { leverAngle = "", leverAngleUncertainty = "", leverAngleLimit = "" } = entry;
  const isStated = (text: string) => text.trim() !== "";
  if (![leverAngle, leverAngleUncertainty, leverAngleLimit].some(isStated)) return undefined;
  const refuseIn = isStated(leverAngle) || !isStated(leverAngleLimit) ? "leverAngle" : "leverAngleLimit";
  if (entry.kind !== "swept indicator") {
    row.refuse(refuseIn, {
      what: `a ${entry.kind} has no lever that is swept round`,
      expected: "a tool of kind swept indicator, or nothing",
      got: refuseIn === "leverAngle" ? leverAngle : leverAngleLimit,
    });
    return undefined;
  }
  if (isStated(leverAngleLimit)) {
    if (isStated(leverAngle) || isStated(leverAngleUncertainty))
      row.refuse("leverAngleLimit", {
        what: "the angle of the lever is stated twice, as itself and as the largest that it may be",
        got: leverAngleLimit,
        remedy: "leave one of them empty",
      });
    const largest = row.angleDoubt("leverAngleLimit", leverAngleLimit, steepestLever);
    return largest === undefined ? undefined : { largest };
  }
  const source = sourceOfLeverAngle(entry);
  const angle = row.doubtfulQuantity("leverAngle", leverAngle, unit("deg"), source, {
    entry: "leverAngleUncertainty",
    text: leverAngleUncertainty,
  });
  const doubt = row.angleDoubt("leverAngleUncertainty", leverAngleUncertainty, steepestLever) ?? 0;
  if (angle === undefined) {
    if (!isStated(leverAngle))
      row.refuse("leverAngle", { what: "the angle of the lever is missing, and its doubt is stated", expected: "an angle", got: "" });
    return undefined;
  }
  if (!(angle.value >= 0 && angle.value <= steepestLever))
    row.refuse("leverAngle", {
      what: "a lever stands at a smaller angle to what it sweeps",
      expected: "from 0 to 60 deg",
      got: leverAngle,
    });
  row.give(source.id, angle.doubtful);
  return { angle: radian(angle.value), standardUncertainty: radian(row.doubtOf(angle.doubtful) ?? doubt) };
}

/** Where tables of its cosine end (from memory): only half of what the indicator shows is true there. */
const steepestLever = radian(Math.PI / 3);

/** Longer than a shift, minutes: a slip. */
const mostMinutes = 480;

export function readMachine({ machine }: SetupDocument, reading: Reading, problems: Problem[]): Omit<Machine, "heat"> {
  const row = new RowReader("machine", reading);
  const perAxis = <T>(read: (axis: "x" | "y" | "z") => T): readonly [T, T, T] => [read("x"), read("y"), read("z")];
  const positioning = row.doubt("positioning", machine.positioning);
  const over = row.magnitude("positioningOver", machine.positioningOver);
  if (positioning > 0 && !((over ?? 0) > 0)) {
    row.refuse("positioningOver", {
      what: "a positioning error needs the distance over which it was found",
      expected: "a length above 0, such as 300 mm",
      got: machine.positioningOver,
    });
  } else if (over !== undefined && positioning > over) {
    row.refuse("positioning", {
      what: "this is more than the distance over which it was found",
      expected: `at most ${machine.positioningOver}`,
      got: machine.positioning,
    });
  }
  const squareness = readSquareness(machine, row);
  const result = {
    name: machine.name,
    register: machine.register,
    controllerUnit: machine.controllerUnit,
    decimals: readDecimals(machine, row),
    offsetStep: row.magnitude("offsetStep", machine.offsetStep),
    displayStep: row.doubt("displayStep", machine.displayStep),
    lostMotion: perAxis((axis): Mm => row.doubt(`lostMotion.${axis}`, machine.lostMotion[axis])),
    working: perAxis((axis) => workingSide(machine.working[axis], `working.${axis}`, row)),
    positioningRate: over !== undefined && over > 0 ? Math.min(1, positioning / over) : 0,
    squareness,
  };
  problems.push(...row.problems);
  return result;
}

/** A length over a length, as a small angle: radians; undefined where nothing is stated. */
function readSquareness({ squareness, squarenessOver }: SetupDocument["machine"], row: RowReader): Machine["squareness"] {
  const over = row.magnitude("squarenessOver", squarenessOver);
  const about = (axis: "x" | "y" | "z"): number | undefined => {
    const off = row.magnitude(`squareness.${axis}`, squareness[axis]);
    if (off === undefined || off === 0) return off;
    if (over === undefined || over === 0) {
      row.refuse("squarenessOver", {
        what: "squareness needs the length over which it was found",
        expected: "a length above 0, such as 300 mm",
        got: squarenessOver,
      });
      return undefined;
    }
    if (off > mostOutOfSquare * over)
      row.refuse(`squareness.${axis}`, {
        what: "a machine so far out of square is a slip",
        expected: `at most ${mostOutOfSquare} of the length over which it was found`,
        got: squareness[axis],
      });
    return off / over;
  };
  return [about("x"), about("y"), about("z")];
}

/** A hundredth is far beyond any machine that still cuts, and small enough for first order (common practice, no source). */
const mostOutOfSquare = 0.01;

/** The usual ones where nothing readable is stated. */
function readDecimals({ decimals, controllerUnit }: SetupDocument["machine"], row: RowReader): number {
  const value = decimals.trim() === "" ? undefined : row.take("decimals", parseNumber(decimals))?.value;
  if (value === undefined) return usualDecimals[controllerUnit];
  if (Number.isInteger(value) && value >= 0 && value <= mostDecimals) return value;
  row.refuse("decimals", { what: "decimals are counted", expected: `a whole number from 0 to ${mostDecimals}`, got: decimals });
  return usualDecimals[controllerUnit];
}

function workingSide(text: string, entry: string, row: RowReader): 1 | -1 | undefined {
  switch (text.trim()) {
    case "":
      return undefined;
    case "+":
      return 1;
    case "-":
    case "−":
      return -1;
    default:
      row.refuse(entry, { what: "the direction of the last move before cutting", expected: "+, -, or nothing when both occur", got: text });
      return undefined;
  }
}

/** @param certificate which one, where it is stated */
export function evidenceOf(kind: "stated" | "certificate" | "published" | "shop default", certificate = ""): Evidence {
  if (kind === "certificate") return { kind, note: certificate.trim() };
  return kind === "published" ? { kind, note: "" } : { kind };
}
