import { blankEntries } from "../document/blankEntries.ts";
import type { DimensionEntry, ElementEntry, SetupDocument } from "../document/setupDocument.ts";
import { difference, type LengthUnit, lengthEntry, unitText } from "./lengthText.ts";
import { freeName, type LeftOut, type ProposedLine, withDoubt } from "./proposal.ts";
import type { ReadArc, ReadCircle, ReadDrawing, ReadLine } from "./readDxf.ts";

/** Drawn things that are nearer than this are at the same place, in the unit of the drawing: files carry rounding of their own. */
const near = 1e-6;

/** Arcs that round an outline end at its lines but for the digits of angles and bulges. */
const beyond = 1e-4;

/**
 * Circles of a drawing as bores that this setup cuts, and the outermost lines along X and Y as the faces of the part with the dimension between them. Whether
 * a circle is a bore and an outermost line a face only a person knows; of several circles about one centre the smallest is proposed. What is on several
 * layers asks unless a person has chosen them: lines of a frame and circles through centres are no part of the part.
 *
 * @param unit of the digits of the drawing
 * @param chosen whether its layers are those that a person has chosen
 */
export function proposeElements(
  { circles, lines, arcs }: Pick<ReadDrawing, "circles" | "lines" | "arcs">,
  unit: LengthUnit,
  document: SetupDocument,
  chosen: boolean,
): { readonly lines: readonly ProposedLine[]; readonly leftOut: readonly LeftOut[] } {
  const leftOut: LeftOut[] = [];
  const [ofCircles, ofLines] = chosen ? [] : [severalLayers("circles", circles), severalLayers("lines", lines)];
  const bores = smallestEach(circles, leftOut).map((circle) => withDoubt(proposeBore(circle, unit, document), ofCircles));
  const sides = (["x", "y"] as const).flatMap((along) =>
    proposeSides(lines, along, unit, document, leftOut).map((line) => withDoubt(withDoubt(line, beyondLines(lines, arcs, along)), ofLines)),
  );
  for (const { at, radius } of arcs)
    leftOut.push({
      at,
      what: `an arc of radius ${Number(radius.toFixed(6))}: whether it rounds a corner or is part of a round wall, the drawing does not say`,
    });
  for (const { at, from, to } of lines)
    if (Math.abs(Number(from[0]) - Number(to[0])) > near && Math.abs(Number(from[1]) - Number(to[1])) > near)
      leftOut.push({ at, what: `a line from ${from.join(", ")} to ${to.join(", ")}: it runs neither along X nor along Y` });
  return { lines: [...bores, ...sides], leftOut };
}

function severalLayers(things: string, of: readonly { readonly layer: string }[]): string | undefined {
  const names = [...new Set(of.map(({ layer }) => layer))];
  return names.length < 2
    ? undefined
    : `${things} are on layers ${names
        .map((name) => `"${name}"`)
        .join(", ")
        .slice(0, 200)}: choose those of the part`;
}

/** That the part ends in something round there, and not at the outermost line. */
function beyondLines(lines: readonly ReadLine[], arcs: readonly ReadArc[], along: "x" | "y"): string | undefined {
  const index = along === "x" ? 0 : 1;
  const places = lines
    .filter((line) => isAcross(line, index))
    .map(({ from }) => Number(from[index]))
    .sort((a, b) => a - b);
  const [low = 0, high = 0] = [places[0], places.at(-1)];
  const arc = arcs.find(({ reach }) => reach[along][0] < low - beyond || reach[along][1] > high + beyond);
  return arc && `the arc of ${arc.at} reaches beyond the outermost line`;
}

function isAcross({ from, to }: ReadLine, index: 0 | 1): boolean {
  return Math.abs(Number(from[index]) - Number(to[index])) <= near && Math.abs(Number(from[1 - index]) - Number(to[1 - index])) > near;
}

function smallestEach(circles: readonly ReadCircle[], leftOut: LeftOut[]): ReadCircle[] {
  const bySize = [...circles].sort((a, b) => Number(a.radius) - Number(b.radius));
  const kept = new Map<string, ReadCircle>();
  const cell = ({ x, y }: ReadCircle) => `${Math.round(Number(x) / near)} ${Math.round(Number(y) / near)}`;
  for (const circle of bySize) {
    const inner = kept.get(cell(circle));
    if (inner === undefined) kept.set(cell(circle), circle);
    else leftOut.push({ at: circle.at, what: `a circle of radius ${circle.radius} about the centre of that of ${inner.at}` });
  }
  return circles.filter((circle) => kept.get(cell(circle)) === circle);
}

function proposeBore({ at, layer, x, y, radius }: ReadCircle, unit: LengthUnit, document: SetupDocument): ProposedLine {
  const entry = (digits: string) => lengthEntry({ digits, unit }, document.unit);
  const diameter = String(2 * Number(radius));
  const entries = { kind: "bore", made: "here", x: entry(x), y: entry(y), diameter: entry(diameter) } as const;
  const there = document.part.elements.find(
    (each) => each.x.trim() === entries.x && each.y.trim() === entries.y && each.diameter.trim() === entries.diameter,
  );
  return {
    at,
    read: `circle at X ${x}, Y ${y}, radius ${radius} ${unitText(unit)}${layer === "" ? "" : `, layer ${layer}`}`,
    becomes: `a bore of diameter ${diameter} ${unitText(unit)}, cut here`,
    ...(there !== undefined && { doubt: `"${there.id}" is there already` }),
    change: (changed) => withElements(changed, [{ ...blankEntries.element(nextHole(changed)), ...entries }], []),
  };
}

function nextHole({ part: { elements } }: SetupDocument): string {
  const names = new Set(elements.map(({ id }) => id));
  let i = 1;
  while (names.has(`hole ${i}`)) i += 1;
  return `hole ${i}`;
}

const sideNames = {
  x: { low: "left", high: "right", size: "length", axis: "X" },
  y: { low: "front", high: "back", size: "width", axis: "Y" },
} as const;

/** The outermost lines across an axis as faces; others may be steps, and only a person knows on which side of them the metal is. */
function proposeSides(
  lines: readonly ReadLine[],
  along: "x" | "y",
  unit: LengthUnit,
  document: SetupDocument,
  leftOut: LeftOut[],
): ProposedLine[] {
  const index = along === "x" ? 0 : 1;
  const across = lines.filter((line) => isAcross(line, index));
  const byPlace = [...across].sort((a, b) => Number(a.from[index]) - Number(b.from[index]));
  const [lowest, highest] = [byPlace[0], byPlace.at(-1)];
  const isApart = lowest !== undefined && highest !== undefined && Number(highest.from[index]) - Number(lowest.from[index]) > near;
  const inner = across.filter(
    (line) => !isApart || ![lowest, highest].some((side) => Math.abs(Number(side.from[index]) - Number(line.from[index])) <= near),
  );
  const { low, high, size, axis } = sideNames[along];
  for (const { at, from } of inner)
    leftOut.push({ at, what: `a line at ${axis} ${from[index]}: on which side of it the metal is, the drawing does not say` });
  if (!isApart) return [];
  const [from, to] = [lowest.from[index], highest.from[index]];
  const nominal = difference(to, from);
  const isThere = document.part.elements.some(({ id }) => id === low || id === high);
  return [
    {
      at: `lines ${[lowest, highest].map((side) => side.at.replace(/^line /, "")).join(" and ")}`,
      read: `outermost lines at ${axis} ${from} and ${axis} ${to} ${unitText(unit)}`,
      becomes: `faces "${low}" and "${high}" and the dimension between them, ${nominal} ${unitText(unit)}`,
      ...(isThere && { doubt: `there is a face of such a name already` }),
      change: (changed) => {
        const faces = [
          {
            ...blankEntries.element(freeName(low, changed.part.elements)),
            outward: `-${axis}` as const,
            [along]: lengthEntry({ digits: from, unit }, document.unit),
          },
          { ...blankEntries.element(freeName(high, changed.part.elements)), outward: `+${axis}` as const },
        ] as const;
        const dimension: DimensionEntry = {
          ...blankEntries.dimension(freeName(size, changed.part.dimensions)),
          from: faces[0].id,
          to: faces[1].id,
          axis,
          nominal: lengthEntry({ digits: nominal, unit }, document.unit),
        };
        return withElements(changed, faces, [dimension]);
      },
    },
  ];
}

function withElements(document: SetupDocument, elements: readonly ElementEntry[], dimensions: readonly DimensionEntry[]): SetupDocument {
  const { part } = document;
  return { ...document, part: { ...part, elements: [...part.elements, ...elements], dimensions: [...part.dimensions, ...dimensions] } };
}
