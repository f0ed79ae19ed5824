import { suggestName } from "../base/nearestName.ts";
import { type Axis, type AxisDirection, axes, axisOf } from "../base/vector.ts";
import type { SetupDocument, TouchEntry } from "../document/setupDocument.ts";
import { readRegister } from "../offsets/offsetRegister.ts";
import { lengthEntry, type TypedLength, unitText } from "./lengthText.ts";
import { type LeftOut, type ProposedLine, withDoubt } from "./proposal.ts";
import { positionWords, type ReadPosition } from "./readScreenLines.ts";

/**
 * Positions as readings of touches: a line with a name goes to the touch of that name, as often as it comes; lines without a name go to the touches that have
 * no readings yet, in their order. Along its own axis a touch gets the reading, across it the place where the tool stood.
 */
export function proposePositions(
  positions: readonly ReadPosition[],
  document: SetupDocument,
): { readonly lines: readonly ProposedLine[]; readonly leftOut: readonly LeftOut[] } {
  const touches = touchesInView(document);
  const names = new Set(touches.map(({ id }) => id));
  const named = new Set(positions.map(({ label }) => label).filter((label) => names.has(label)));
  const free = touches.filter(({ id, readings }) => readings.trim() === "" && !named.has(id));
  const leftOut: LeftOut[] = [];
  const byTouch = new Map<TouchEntry, ReadPosition[]>();
  for (const position of positions) {
    const { at, label } = position;
    if (readRegister(label) !== undefined) {
      leftOut.push({ at, what: `${label} ${positionWords(position)}: a work offset, which is read back where the offsets stand` });
      continue;
    }
    const isName = label !== "" && (names.has(label) || !/^[\p{N}\p{P}\s]*$/u.test(label));
    const touch = isName ? touches.find(({ id }) => id === label) : free.shift();
    if (touch === undefined) {
      const remedy = isName
        ? (suggestName(label, names).remedy ?? "add it first")
        : "add the touch first, or put the name of one before the line";
      const what = isName ? `there is no touch called "${label}"` : "no touch without readings is left";
      leftOut.push({ at, what: `${positionWords(position)}: ${what}; ${remedy}` });
      continue;
    }
    const missing = wantedAxes(touch).filter((axis) => !position.values.has(axis));
    if (missing.length > 0)
      leftOut.push({
        at,
        what: `${positionWords(position)}: touch "${touch.id}" travels ${touch.travelling} and wants ${missing.join(" and ")}`,
      });
    else byTouch.set(touch, [...(byTouch.get(touch) ?? []), position]);
  }
  const lines = [...byTouch].map(([touch, taken]): ProposedLine => {
    const line = placeDoubts(touch, taken, document).reduce(withDoubt, proposeReadings(touch, taken, document));
    return taken
      .map(({ doubt }) => doubt)
      .filter((doubt, i, all) => all.indexOf(doubt) === i)
      .reduce(withDoubt, line);
  });
  return { lines, leftOut };
}

function proposeReadings(touch: TouchEntry, taken: readonly ReadPosition[], document: SetupDocument): ProposedLine {
  const entry = filled(touch, taken, document.unit);
  const before = touch.readings.trim();
  return {
    at: taken.length === 1 ? (taken[0] as ReadPosition).at : `lines ${taken.map(({ at }) => at.replace(/^line /, "")).join(", ")}`,
    read: taken.map(positionWords).join("; "),
    becomes: `touch "${touch.id}": readings ${entry.readings.replaceAll("\n", "; ")}${placeWords(entry, touch)}`,
    ...(before !== "" && { doubt: `the touch has readings: ${before.replaceAll("\n", "; ")}` }),
    change: (changed) => ({
      ...changed,
      touches: changed.touches.map((each) => (each.id === touch.id ? filled(each, taken, document.unit) : each)),
    }),
  };
}

/** What a touch says of its place already, and places of several positions that are not the same: only the first goes into the entry. */
function placeDoubts(touch: TouchEntry, taken: readonly ReadPosition[], { unit }: SetupDocument): string[] {
  const wanted = wantedAxes(touch);
  const entry = filled(touch, taken, unit);
  return axes
    .filter((axis) => !wanted.includes(axis))
    .flatMap((axis) => {
      const key = axis.toLowerCase() as "x" | "y" | "z";
      const places = taken.flatMap(({ values }) => {
        const place = values.get(axis);
        return place === undefined ? [] : [lengthEntry(place, unit)];
      });
      const others = new Set(places.filter((place) => place !== entry[key]));
      const isReplaced = touch[key].trim() !== "" && touch[key].trim() !== entry[key];
      return [
        ...(isReplaced ? [`${axis} of the touch is stated: ${touch[key].trim()}`] : []),
        ...(others.size > 0 ? [`its positions are at several ${axis}, of which ${entry[key]} is taken`] : []),
      ];
    });
}

/** Of the operation that is looked at. */
function touchesInView({ operations, operation, touches }: SetupDocument): readonly TouchEntry[] {
  const [first] = operations;
  if (first === undefined) return touches;
  const inView = operation || first.id;
  return touches.filter((touch) => (touch.operation || first.id) === inView);
}

/** Along which a touch is read. */
function wantedAxes({ travelling }: TouchEntry): readonly Axis[] {
  return travelling === "radial" || travelling === "sweep" ? ["X", "Y"] : [axisOf(travelling as AxisDirection)];
}

function filled(touch: TouchEntry, positions: readonly ReadPosition[], bare: SetupDocument["unit"]): TouchEntry {
  const wanted = wantedAxes(touch);
  // A unit behind the last reading alone would go for all of them: each has its own as soon as one needs it.
  const isBare = positions.every(({ values }) => wanted.every((axis) => values.get(axis)?.unit === bare));
  const readingOf = ({ values }: ReadPosition, axis: Axis) => {
    const { digits, unit } = values.get(axis) as TypedLength;
    return isBare ? digits : `${digits} ${unitText(unit)}`;
  };
  const [first] = positions;
  const readings =
    wanted.length > 1
      ? positions.map((each) => wanted.map((axis) => `${axis}${readingOf(each, axis)}`).join(" ")).join("\n")
      : positions.map((each) => readingOf(each, wanted[0] as Axis)).join(" ");
  const places = axes
    .filter((axis) => !wanted.includes(axis))
    .flatMap((axis) => {
      const place = first?.values.get(axis);
      return place === undefined ? [] : [[axis.toLowerCase(), lengthEntry(place, bare)] as const];
    });
  return { ...touch, readings, ...Object.fromEntries(places) };
}

function placeWords(entry: TouchEntry, touch: TouchEntry): string {
  const wanted = wantedAxes(touch);
  const told = (["x", "y", "z"] as const).filter((key) => !wanted.includes(key.toUpperCase() as Axis) && entry[key] !== "");
  return told.length === 0 ? "" : `, at ${told.map((key) => `${key.toUpperCase()} ${entry[key]}`).join(", ")}`;
}
