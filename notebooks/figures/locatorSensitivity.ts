import type { SetupEvaluation } from "../../lib/decision/setupEvaluation.ts";
import type { LocatingEvaluation } from "../../lib/tolerance/judgeFixture.ts";
import { type DisplayUnit, type UnitWriter, writerOf } from "./displayUnit.ts";
import { type FigureEnvironment, type FigureOptions, openSheet, type Sheet } from "./figure.ts";
import { outcomeInWords } from "./outcomeInWords.ts";
import { type Piece, stretches } from "./pieces.ts";
import { pathOf } from "./svgBuilder.ts";
import { fitText, smallSize, textWidth, wrapText } from "./textWidth.ts";
import { writeLines } from "./writeLines.ts";

export interface LocatorSensitivityOptions extends FigureOptions {
  readonly unit: DisplayUnit;
  /** Only these rows and columns; all unless given. */
  readonly piece?: Piece;
}

/** A component of a characteristic, and how it follows each contact. */
interface Row {
  readonly name: string;
  /** By contact, in the order of the location; 0 where it does not bear; undefined where it is not known. */
  readonly weights: readonly (number | undefined)[];
}

interface Column {
  readonly label: string;
  /** One standard uncertainty of what the contact errs by, mm. */
  readonly error: number;
  readonly bears: boolean;
}

const leastColumn = 62;
const mostColumn = 110;
const headHeight = 66;
const rowHeight = 34;
const barHeight = 9;

/**
 * How every characteristic follows the error of every locator: to the right of the middle where it moves the way the locator's metal is off, to the left where
 * it moves against it; 1 for as far. Heads and names are groups of their own, as in `strategyComparison`.
 */
export function locatorSensitivity(
  evaluation: SetupEvaluation,
  options: LocatorSensitivityOptions,
  environment: FigureEnvironment = {},
): SVGSVGElement {
  const located = evaluation.fixture?.located;
  const title = "How far each characteristic follows each locator";
  const head = { ...options, kind: "sensitivity", subject: "locators", title };
  const only = (words: string) => {
    const sheet = openSheet({ ...head, description: words }, environment);
    const written = writeLines(sheet, [words], 2, "fig-soft");
    return sheet.finish(written.bottom + 8, [], written.marks);
  };
  if (located === undefined) return only("Nothing is stated of the fixture.");
  if (!located.ok) return only(`Not known: ${outcomeInWords(located.problems)}.`);
  const all = { rows: rowsOf(evaluation, located.value), columns: columnsOf(located.value) };
  if (all.rows.length === 0) return only("The drawing demands nothing yet: add a characteristic.");
  const piece = options.piece ?? { rows: [0, all.rows.length], columns: [0, all.columns.length] };
  const rows = all.rows.slice(...piece.rows);
  const columns = all.columns.slice(...piece.columns);

  const wanted = options.width ?? 520;
  const nameRoom = roomForNames(all.rows, wanted);
  const columnRoom = Math.max(leastColumn, Math.min(mostColumn, (wanted - nameRoom - 2) / Math.max(1, columns.length)));
  const width = Math.max(wanted, nameRoom + columns.length * columnRoom + 2);
  const largest = Math.max(1, ...all.rows.flatMap(({ weights }) => weights.map((weight) => Math.abs(weight ?? 0))));
  const writer = writerOf(options.unit);
  const sheet = openSheet({ ...head, width, description: sensitivityInWords(all.rows, all.columns, writer) }, environment);
  const { draw } = sheet;
  const middleOf = (column: number) => nameRoom + (column + 0.5) * columnRoom;
  const half = columnRoom / 2 - 8;
  const topOf = (row: number) => headHeight + row * rowHeight;
  const bottom = topOf(rows.length);

  const cells = rows.flatMap((row, i) =>
    columns.flatMap((column, c) =>
      cell(sheet, row, column, row.weights[piece.columns[0] + c], { x: middleOf(c), y: topOf(i), half, largest }, writer),
    ),
  );
  const line = (y: number, to: number, className = "fig-hair") => draw("path", { class: className, d: pathOf("M", 0, y, "H", to) });
  const ground = (to: { width: number; height: number }, y = 0) => draw("rect", { class: "fig-ground", x: 0, y, ...to });
  const names = draw(
    "g",
    { class: "fig-stays-left" },
    ground({ width: nameRoom, height: bottom - headHeight }, headHeight),
    ...rows.flatMap(({ name }, i) => [line(topOf(i), nameRoom), nameText(sheet, name, nameRoom - 6, topOf(i) + 20)]),
  );
  const heads = draw(
    "g",
    { class: "fig-stays-top" },
    ground({ width, height: headHeight }),
    ...columns.flatMap((column, c) => columnHead(sheet, column, middleOf(c), columnRoom, writer)),
    line(headHeight, width),
  );
  const corner = draw("g", { class: "fig-stays" }, ground({ width: nameRoom, height: headHeight }), line(headHeight, nameRoom));
  const words = writeLines(sheet, legend(all.columns, largest), bottom + 4, "fig-small fig-soft", Math.min(width, wanted) - 4);
  return sheet.finish(
    words.bottom + 6,
    [],
    [
      ...rows.map((_, i) => line(topOf(i), width)),
      ...columns.map((_, c) => draw("path", { class: "fig-track", d: pathOf("M", middleOf(c), headHeight, "V", bottom) })),
      ...cells,
      ...words.marks,
      names,
      line(bottom, width, "fig-axis"),
      heads,
      corner,
    ],
  );
}

/** The same in pieces that a sheet of paper holds. */
export function sensitivityPieces(
  evaluation: SetupEvaluation,
  options: Omit<LocatorSensitivityOptions, "piece" | "width">,
  paper: { readonly width: number; readonly height: number },
  environment: FigureEnvironment = {},
): SVGSVGElement[] {
  const located = evaluation.fixture?.located;
  if (located?.ok !== true) return [];
  const [rows, columns] = [rowsOf(evaluation, located.value), columnsOf(located.value)];
  const columnsEach = Math.max(1, Math.floor((paper.width - roomForNames(rows, paper.width) - 2) / leastColumn));
  const rowsEach = Math.max(1, Math.floor((paper.height - headHeight - roomForNotes) / rowHeight));
  return stretches(columns.length, columnsEach).flatMap((across, c) =>
    stretches(rows.length, rowsEach).map((down, r) =>
      locatorSensitivity(
        evaluation,
        {
          ...options,
          width: paper.width,
          id: `${options.id ?? "sensitivity"}-piece-${c + 1}-${r + 1}`,
          piece: { rows: down, columns: across },
        },
        environment,
      ),
    ),
  );
}

const roomForNotes = 70;

function roomForNames(rows: readonly Row[], width: number): number {
  return Math.min(width * 0.32, Math.max(40, ...rows.map(({ name }) => textWidth(name))) + 10);
}

function rowsOf({ setup }: SetupEvaluation, { location, sensitivities }: LocatingEvaluation): Row[] {
  return sensitivities.flatMap((components, i) =>
    components.map(({ axis, weights }): Row => {
      const id = setup.part.characteristics[i]?.id ?? "";
      return {
        name: components.length > 1 ? `${id}, ${axis}` : id,
        weights: location.contacts.map((_, contact) => {
          const k = location.layout.bearing.indexOf(contact);
          return weights === undefined ? undefined : k < 0 ? 0 : (weights[k] as number);
        }),
      };
    }),
  );
}

function columnsOf({ location, errors }: LocatingEvaluation): Column[] {
  return location.contacts.map(({ label }, i) => ({
    label,
    error: errors[i]?.standardUncertainty ?? 0,
    bears: location.layout.bearing.includes(i),
  }));
}

function columnHead(sheet: Sheet, { label, error, bears }: Column, x: number, room: number, writer: UnitWriter): SVGElement[] {
  const { draw } = sheet;
  const lines = wrapText(label, room - 8, smallSize);
  const shown = lines.length > 2 ? [lines[0] as string, fitText(lines.slice(1).join(" "), room - 8, smallSize)] : lines;
  const doubt = bears ? `u ${writer.withUncertainty(0, error).uncertainty}` : "not touching";
  return [
    draw(
      "g",
      {},
      draw("title", {}, label),
      ...shown.map((line, i) => draw("text", { class: "fig-small fig-middle", x, y: 13 + i * 14 + (shown.length === 1 ? 14 : 0) }, line)),
    ),
    draw("text", { class: "fig-small fig-soft fig-middle", x, y: 46 }, fitText(error === 0 && bears ? "u 0" : doubt, room - 4, smallSize)),
  ];
}

function nameText({ draw }: Sheet, name: string, room: number, y: number): SVGElement {
  const shown = fitText(name, room);
  return draw("text", { x: 2, y }, shown, ...(shown === name ? [] : [draw("title", {}, name)]));
}

function cell(
  { draw }: Sheet,
  row: Row,
  column: Column,
  weight: number | undefined,
  { x, y, half, largest }: { readonly x: number; readonly y: number; readonly half: number; readonly largest: number },
  writer: UnitWriter,
): SVGElement[] {
  if (weight === undefined)
    return [
      draw(
        "g",
        {},
        draw("title", {}, `${row.name}, ${column.label}: not known`),
        draw("text", { class: "fig-small fig-soft fig-middle", x, y: y + 26 }, "–"),
      ),
    ];
  const end = x + (weight / largest) * half;
  const moved = writer.withUncertainty(0, Math.abs(weight) * column.error);
  const words = `${row.name} follows ${column.label} by ${signedRatio(weight)}${column.error > 0 && weight !== 0 ? `; its standard uncertainty gives ${moved.uncertainty}${writer.suffix}` : ""}`;
  return [
    draw(
      "g",
      {},
      draw("title", {}, words),
      draw("rect", { class: "fig-hit", x: x - half - 4, y: y + 1, width: 2 * half + 8, height: rowHeight - 2 }),
      ...(Math.abs(weight) < nothing
        ? []
        : [
            draw("rect", {
              class: "fig-share",
              x: Math.min(x, end),
              y: y + 5,
              width: Math.max(0.75, Math.abs(end - x)),
              height: barHeight,
            }),
          ]),
      draw(
        "text",
        { class: `fig-small fig-middle fig-halo${Math.abs(weight) < nothing ? " fig-soft" : ""}`, x, y: y + 28 },
        signedRatio(weight),
      ),
    ),
  ];
}

/** Sensitivities below this are told as none. */
const nothing = 5e-4;

function signedRatio(weight: number): string {
  if (Math.abs(weight) < nothing) return "0";
  return `${weight < 0 ? "−" : "+"}${Math.abs(weight).toFixed(2)}`;
}

function legend(columns: readonly Column[], largest: number): string[] {
  return [
    `Bars: how far a characteristic moves when a locator's metal is off by one; to the right the same way, to the left against it${largest > 1 ? `; the longest bar is ${largest.toFixed(2)}` : ", a full bar for as far"}. u: standard uncertainty of what the locator is off.`,
    ...(columns.some(({ bears }) => !bears) ? ["Not touching: the part rests on the others."] : []),
  ];
}

function sensitivityInWords(rows: readonly Row[], columns: readonly Column[], writer: UnitWriter): string {
  const told = rows.map(({ name, weights }) => {
    const effects = columns.map(({ label, error }, i) => ({ label, weight: weights[i] ?? 0, effect: Math.abs(weights[i] ?? 0) * error }));
    const most = effects.reduce((a, b) =>
      b.effect > a.effect || (b.effect === a.effect && Math.abs(b.weight) > Math.abs(a.weight)) ? b : a,
    );
    if (Math.abs(most.weight) < nothing) return `${name} follows no locator`;
    const gives = most.effect > 0 ? `, which gives ${writer.withUncertainty(0, most.effect).uncertainty}${writer.suffix}` : "";
    return `${name} follows ${most.label} most, by ${signedRatio(most.weight)}${gives}`;
  });
  return `${told.join("; ")}.`;
}
