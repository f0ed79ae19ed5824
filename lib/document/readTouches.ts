import { parseMoment } from "../base/moment.ts";
import { suggestName } from "../base/nearestName.ts";
import type { Outcome, Problem } from "../base/outcome.ts";
import { failure, success } from "../base/outcome.ts";
import { type Mm, mm } from "../base/quantity.ts";
import { type Axis, type AxisDirection, axisOf, indexOfAxis, type Vector } from "../base/vector.ts";
import type { WorkFrame } from "../equipment/equipment.ts";
import type { CheckTouch } from "../readings/checks.ts";
import { parsePointReadings } from "../readings/parsePointReadings.ts";
import { parseReadings } from "../readings/parseReadings.ts";
import type { PlannedTouch, Touch } from "../readings/touch.ts";
import type { Reading } from "./reading.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { SetupDocument, TouchEntry } from "./setupDocument.ts";

type Position = Touch["positions"][number];

/** Touches with every reading carried into machine coordinates; without a reading they are still to be taken. */
export function readTouches(
  { touches }: SetupDocument,
  workFrames: readonly WorkFrame[],
  reading: Reading,
  problems: Problem[],
): { readonly touches: readonly Touch[]; readonly planned: readonly PlannedTouch[] } {
  const read = readRows(touches, "touches", reading, problems, (entry, row) => readTouch(entry, workFrames, row));
  return {
    touches: read.flatMap((touch) => ("positions" in touch ? [touch] : [])),
    planned: read.flatMap((touch) => ("place" in touch ? [touch] : [])),
  };
}

function readTouch(entry: TouchEntry, workFrames: readonly WorkFrame[], row: RowReader): Touch | PlannedTouch | undefined {
  const frame = frameOf(entry, workFrames, row);
  const stated = {
    id: entry.id,
    element: entry.element,
    tool: entry.tool,
    spacer: entry.spacer.trim() === "" ? undefined : entry.spacer,
    travelling: entry.travelling,
    sweepTotal: [row.length("total.x", entry.total.x) ?? mm(0), row.length("total.y", entry.total.y) ?? mm(0)] as const,
    turnedHalfRound: entry.spindle === "turned half round",
  };
  for (const [i, axis] of (["x", "y"] as const).entries())
    if (entry.travelling !== "sweep" && stated.sweepTotal[i] !== 0)
      row.refuse(`total.${axis}`, {
        what: "only a sweep leaves a total reading",
        expected: "nothing here, or a touch travelling sweep",
        got: entry.total[axis],
      });
  if (entry.readings.trim() === "" && entry.travelling !== "radial") {
    const place = (["x", "y", "z"] as const).map((axis) => row.length(axis, entry[axis])) as unknown as Position;
    return frame && { ...stated, place: inMachine(place, frame) };
  }
  const read = row.take("readings", readPositions(entry, row));
  if (frame === undefined || read === undefined) return undefined;
  const { positions, resolution } = read;
  if (positions.some((position) => position.some((value) => value !== undefined && row.tooLong("readings", value, entry.readings))))
    return undefined;
  return { ...stated, positions: positions.map((position) => inMachine(position, frame)), ...readIn(frame), resolution };
}

/** Checks with every reading carried into machine coordinates; without a reading they only ask for its prediction. */
export function readChecks(
  { checks }: SetupDocument,
  workFrames: readonly WorkFrame[],
  reading: Reading,
  problems: Problem[],
): CheckTouch[] {
  return readRows(checks, "checks", reading, problems, (entry, row) => {
    const frame = frameOf(entry, workFrames, row);
    const when = entry.when.trim() === "" ? undefined : row.take("when", parseMoment(entry.when));
    const isOpen = entry.readings.trim() === "";
    const positions = isOpen ? [] : row.take("readings", readPositions(entry, row))?.positions;
    const aside = (["x", "y", "z"] as const).map((axis) => row.length(axis, entry[axis])) as [Mm?, Mm?, Mm?];
    if (frame === undefined || positions === undefined) return undefined;
    if (positions.some((position) => position.some((value) => value !== undefined && row.tooLong("readings", value, entry.readings))))
      return undefined;
    return {
      id: entry.id,
      element: entry.element,
      tool: entry.tool,
      spacer: entry.spacer.trim() === "" ? undefined : entry.spacer,
      travelling: entry.travelling,
      sweepTotal: [mm(0), mm(0)],
      turnedHalfRound: entry.spindle === "turned half round",
      positions: positions.map((position) => inMachine(position, frame)),
      ...readIn(frame),
      aside: inMachine(aside as unknown as Position, frame),
      by: entry.by,
      when,
    };
  });
}

function inMachine(position: Position, frame: Vector): Position {
  return position.map((value, axis) => (value === undefined ? undefined : value + (frame[axis] as number))) as unknown as Position;
}

function readIn(frame: Vector): Pick<Touch, "readIn"> {
  return frame.every((coordinate) => coordinate === 0) ? {} : { readIn: frame };
}

/** Where the frame of the readings has its zero in the machine. */
function frameOf({ frame }: Pick<TouchEntry, "frame">, workFrames: readonly WorkFrame[], row: RowReader): Vector | undefined {
  if (frame === "machine" || frame === "") return [0, 0, 0];
  const known = workFrames.find(({ id }) => id === frame);
  if (known === undefined)
    row.refuse("frame", {
      what: "there is no work frame by this name",
      expected: `machine, or one of the listed work frames`,
      got: frame,
      remedy: "state the offset that was active, or read the machine coordinates",
      ...suggestName(frame, ["machine", ...workFrames.map(({ id }) => id)]),
    });
  return known?.origin;
}

function readPositions(
  entry: Pick<TouchEntry, "travelling" | "readings" | "x" | "y" | "z">,
  row: RowReader,
): Outcome<Required<Pick<Touch, "positions" | "resolution">>> {
  const { unit, names } = row.reading;
  if (entry.travelling === "radial" || entry.travelling === "sweep") {
    const points = parsePointReadings(entry.readings, { unit, names });
    if (!points.ok) return points;
    heedPlaces(entry, ["X", "Y"], row);
    const positions = points.value.points.map(({ x, y }): Position => [x, y, row.length("z", entry.z)]);
    return success({ positions, resolution: points.value.resolution });
  }
  const axis: Axis = axisOf(entry.travelling as AxisDirection);
  heedPlaces(entry, [axis], row);
  const readings = parseReadings(entry.readings, { unit, axis, names });
  if (!readings.ok) return readings;
  const others: [Mm | undefined, Mm | undefined, Mm | undefined] = [undefined, undefined, undefined];
  for (const other of (["X", "Y", "Z"] as const).filter((each) => each !== axis)) {
    const name = other.toLowerCase() as "x" | "y" | "z";
    others[indexOfAxis(other)] = row.length(name, entry[name]);
  }
  if (row.failed) return failure();
  const positions = readings.value.values.map(
    (value): Position => others.map((other, i) => (i === indexOfAxis(axis) ? value : other)) as unknown as Position,
  );
  return success({ positions, resolution: readings.value.resolution });
}

/** Where the readings themselves say where the tool stood, a place that is noted all the same must be readable. */
function heedPlaces(entry: Pick<TouchEntry, "x" | "y" | "z">, along: readonly Axis[], row: RowReader): void {
  for (const axis of along) {
    const name = axis.toLowerCase() as "x" | "y" | "z";
    row.length(name, entry[name]);
  }
}
