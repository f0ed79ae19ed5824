import { capitalise } from "../base/capitalise.ts";
import { quotedList } from "../base/listText.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { calibrationNotStated } from "./calibrationInWords.ts";
import { eventSentence } from "./internals/eventSentence.ts";
import { type Block, blank, type Cell, list, type Paper, paragraph, sectionsOf, tableOf } from "./paper/paper.ts";
import type { SetupRecord } from "./setupRecord.ts";

/** A setup record as it is printed: what the next shift needs first, what everything follows from last. */
export function recordPaper(record: SetupRecord): Paper {
  const { strategy } = record;
  const unit = record.unit === "inch" ? "in" : "mm";
  const known = strategy?.zero.some(({ known: axis }) => axis !== null) === true;
  return {
    kind: "Setup record",
    title: record.title === "" ? "without a title" : record.title,
    facts: factsOf(record),
    sections: sectionsOf([
      { title: "Not read, or not known", blocks: [...paragraph(record.supposed ?? ""), ...list(record.problems)] },
      { title: "Cautions, before anything is typed", set: "small", blocks: list(record.cautions) },
      { title: "The setup, seen from above", blocks: [{ kind: "figure", name: "setup" }, ...datumBlocks(record)] },
      {
        title: "Part zero",
        set: "beside",
        blocks: known ? zeroBlocks(record, unit) : paragraph(record.noStrategy ?? "No axis of part zero is known."),
      },
      { title: "To type", set: "beside", blocks: offsetBlocks(record) },
      { title: "Offsets in force, by the log", blocks: loggedBlocks(record) },
      { title: "Readings that must come again", blocks: checkBlocks(record) },
      { title: "Strategy", blocks: strategyBlocks(record) },
      { title: "Readings, as typed", blocks: readingBlocks(record) },
      { title: "Contact tools and blocks", blocks: toolBlocks(record, unit) },
      ...viewSections(record, unit),
      { title: "This record is void after", set: "small", blocks: voidBlocks(record) },
      { title: "Replay", set: "beside", blocks: paragraph(replayWords(record)) },
      { title: "Entries, as typed", set: "small", blocks: inputBlocks(record) },
    ]),
  };
}

function factsOf(record: SetupRecord) {
  const revision = record.revisions.at(-1);
  return [
    { name: "Part", value: record.part || "not named" },
    { name: "Revision", value: record.revision || "none" },
    ...(record.operation === null ? [] : [{ name: "Operation", value: record.operation }]),
    { name: "Machine", value: record.machine || "not named" },
    { name: "Register", value: record.register },
    { name: "Lengths in", value: record.unit === "inch" ? "in" : "mm" },
    { name: "Checksum of inputs", value: record.checksum.short },
    ...(revision === undefined
      ? []
      : [{ name: "Last noted", value: [revision.when, revision.who, revision.why].filter((text) => text !== "").join(", ") }]),
    { name: "Prepared by", value: record.preparedBy },
    { name: "Checked by", value: record.checkedBy },
    { name: "Date", value: record.date },
  ];
}

function datumBlocks({ datums }: SetupRecord): Block[] {
  if (datums.length === 0) return paragraph("The drawing's datums are not stated.");
  return paragraph(`Datums of the drawing: ${datums.map(({ letter, element, is }) => `${letter} "${element}", ${is}`).join("; ")}.`);
}

function zeroBlocks({ strategy, coverageProbability, register, findings }: SetupRecord, unit: string): Block[] {
  if (strategy === null) return [];
  const rows = strategy.zero.flatMap(({ axis, known }) =>
    known === null
      ? []
      : [[axis, known.written.value, known.written.standardUncertainty, known.written.expandedUncertainty, known.written.coverageFactor]],
  );
  const turn = strategy.turn?.known;
  return [
    ...tableOf(
      ["zero", "machine coordinate:", "u:", "U:", "k:"],
      turn === null || turn === undefined
        ? rows
        : [
            ...rows,
            [
              "turn, deg",
              turn.written.value,
              turn.written.standardUncertainty,
              turn.written.expandedUncertainty,
              turn.written.coverageFactor,
            ],
          ],
    ),
    ...paragraph(
      `By "${strategy.id}", ${strategy.chosen ? "the strategy in use" : "ranked first; none is chosen"}. In ${unit}; U = k u holds ${formatFixed(100 * coverageProbability, 2)} %. Zero sits at ${strategy.zeroOnPart.map((place, i) => `${"XYZ"[i]} ${place}`).join(", ")} of the drawing, for ${register}.`,
    ),
    ...list([...strategy.zero.flatMap(({ problems }) => problems), ...findings]),
  ];
}

function offsetBlocks({ strategy }: SetupRecord): Block[] {
  if (strategy === null) return [];
  const { offset, turn } = strategy;
  if (offset.known === null) return list(offset.problems.map((problem) => `None: ${problem}`));
  const { register, unit, digits, lines } = offset.known;
  return [
    ...tableOf(["register", ...digits.map(({ axis }) => `${axis}:`)], [[register, ...digits.map(({ text }) => text)]]),
    ...paragraph(
      `The controller takes ${unit === "inch" ? "inches" : "millimetres"}. As block text (RS274/NGC; absolute machine coordinates):`,
    ),
    { kind: "lines", lines },
    ...paragraph(
      turn?.applied === true && turn.known !== null
        ? `This strategy turns the coordinates by ${turn.known.written.value} degrees. RS274/NGC has no word for that in G10, so it is not in the lines above: without the turn this zero is the wrong one. The machine builder's manual says how, or whether, the controller turns coordinates.`
        : "",
    ),
    ...paragraph("Dialects differ: compare with the machine builder's manual, and read the register back before anything runs."),
  ];
}

function loggedBlocks({ offsets }: SetupRecord): Block[] {
  if (offsets === null) return [];
  const { written, lines } = offsets;
  return [
    ...tableOf(["offset", "in force:", "u:", "rows of the log"], written.rows),
    ...list(written.sentences),
    ...(lines.known === null
      ? list(lines.problems.map((problem) => `No block text: ${problem}`))
      : [
          ...paragraph("What the registers hold, as block text (RS274/NGC): compare with the machine builder's manual, and read it back."),
          { kind: "lines" as const, lines: lines.known },
        ]),
  ];
}

function checkBlocks({ checks, register }: SetupRecord): Block[] {
  const rows = checks.map(({ name, element, tool, axis, restsOn, written }): Cell[] => [
    restsOn ? name : `${name} *`,
    element,
    tool,
    axis,
    written.work ?? "-",
    written.value,
    written.lower,
    written.upper,
    blank,
  ]);
  if (rows.length === 0) return paragraph("No touch of a flat face along an axis can be foreseen.");
  const star = checks.some(({ restsOn }) => !restsOn) ? " * The zero does not rest on this face: such a check sees most." : "";
  return [
    ...paragraph(
      `Touched once more in the same way, with the same tool and whatever lay between. A reading outside of its limits disagrees with this record. ${register} is meant with the values above, and with no tool length, shift or turn active.${star}`,
    ),
    ...tableOf(["touch again", "face", "tool", "axis", `in ${register}:`, "machine:", "from:", "to:", "read"], rows),
  ];
}

function strategyBlocks({ strategy }: SetupRecord): Block[] {
  if (strategy === null) return [];
  return [
    ...paragraph(strategy.sentences.join(" ")),
    ...paragraph(strategy.note === "" ? "" : `Note: ${strategy.note}`),
    ...list(strategy.formula.lines),
    ...paragraph(strategy.formula.legend),
  ];
}

function readingBlocks({ readings }: SetupRecord): Block[] {
  return tableOf(
    ["touch", "face", "travel", "tool", "between", "readings", "mean:", "counts"],
    readings.map(({ touch, element, travelling, tool, spacer, typed, total, written, counts }) => [
      touch,
      element,
      travelling,
      tool,
      spacer ?? "",
      total === "" ? typed : `${typed}; total reading ${total}`,
      written.mean ?? "-",
      counts ? "yes" : "no",
    ]),
  );
}

function toolBlocks({ tools, spacers }: SetupRecord, unit: string): Block[] {
  const scatter = { stated: "", "own repeats": "own repeats", "pooled repeats": "all repeats" } as const;
  const doubtful = (known: { readonly value: string; readonly uncertainty: string } | null) =>
    known === null ? "-" : known.uncertainty === "0" ? known.value : `${known.value}, u ${known.uncertainty}`;
  return [
    ...tableOf(
      ["tool", "effective radius", "rests on", "late by:", "off axis:", "one touch", "length"],
      tools.map(({ id, kind, radiusEvidence, radius, scatterFrom, written }) => [
        `${id} (${kind})`,
        doubtful(written.radius),
        radius === null ? "-" : radiusEvidence,
        written.lateTrigger ?? "-",
        written.eccentricity ?? "-",
        written.scatter ?? (scatter[scatterFrom] || "-"),
        doubtful(written.length),
      ]),
    ),
    ...list(
      tools.flatMap(({ id, lever, note }) => [
        ...(lever === null ? [] : [`"${id}": ${lever.written}`]),
        ...(note === "" ? [] : [`"${id}": ${note}`]),
      ]),
    ),
    ...tableOf(
      ["between", `thickness, ${unit}`, "rests on"],
      spacers.map(({ id, evidence, written }) => [id, doubtful(written), evidence]),
    ),
    ...calibrationBlocks([...tools, ...spacers]),
  ];
}

/** In one paragraph, those of which nothing is stated last. */
function calibrationBlocks(rows: readonly Pick<SetupRecord["tools"][number], "id" | "calibration">[]): Block[] {
  const words = [...new Set(rows.map(({ calibration }) => calibration.written))].sort(
    (a, b) => Number(a === calibrationNotStated) - Number(b === calibrationNotStated),
  );
  const told = words.map((written) => {
    const ids = rows.filter(({ calibration }) => calibration.written === written).map(({ id }) => id);
    return `${quotedList(ids)}: ${written}`;
  });
  return paragraph(told.length === 0 ? "" : `${told.join("; ")}.`);
}

function viewSections({ strategy }: SetupRecord, unit: string) {
  return (strategy?.views ?? []).map(({ view, chanceOfAll, stacks, notKnown }) => ({
    title: view === "thisPart" ? "What the drawing demands, for this part" : "What the drawing demands, in the batch",
    blocks: [
      ...paragraph(
        chanceOfAll === null || stacks.length === 0
          ? ""
          : view === "batch"
            ? `Chance that all are met: ${chanceOfAll}.`
            : `Chance that all are met: ${chanceOfAll}. In ${unit}, angles in degrees; of round zones the diameter used. RSS is the root sum square; the per cent are shares of the tolerance.`,
      ),
      ...tableOf(
        ["characteristic", "tolerance", "deviation:", "RSS:", "worst case:", "RSS:", "worst:", "chance:"],
        stacks.map(({ characteristic, written }) => [
          characteristic,
          written.tolerance,
          written.deviation,
          written.rootSumSquare,
          written.worstCase,
          written.shares.rootSumSquare,
          written.shares.worstCase,
          written.chance,
        ]),
      ),
      ...list(notKnown),
    ],
  }));
}

function voidBlocks({ voids }: SetupRecord): Block[] {
  return [
    ...list(voids.always.map(capitalise)),
    ...list(voids.since.map(({ event, ...rest }) => eventSentence({ name: event, ...rest }, "UNVERIFIED"))),
  ];
}

function replayWords({ checksum: { algorithm, scheme, full, short } }: SetupRecord): string {
  return `${algorithm} of the inputs that the zero stands on, by the scheme "${scheme}": ${full}. It is the same for the same entries below, whatever else is written of the setup: titles, notes, prose, names, dates, certificates, reasons and revisions do not count, nor does what is written down once the zero stands, that is the log of the offsets, nests, checks, events, made parts and warming up; nor do cells that nothing of it names. To verify a setup, open its file in the notebook, and type ${short} and three of the readings above under "Record": it says whether the inputs are the same, and each reading within its limits.`;
}

function inputBlocks({ inputs, usual }: SetupRecord): Block[] {
  const told = inputs.map(({ place }) => place);
  // Of the places that this setup has; the rest means nothing to it.
  const leftOut = usual.filter(({ place }) => told.some((own) => place.startsWith(`${own}.`)));
  const words = leftOut.map(({ place, value }) => `${place} = ${JSON.stringify(value)}`).join("; ");
  return [
    ...paragraph(
      'Every input under the keys of a saved file; those of the document itself first, and a dash before each row of a list. What is not listed is empty, or as told at the end. Values are written as in JSON; "\\u005c" stands for a backslash, and a backslash at the end of a line only joins it to the next. From these alone everything above follows again.',
    ),
    ...inputs.map(({ place, rows }): Block => ({ kind: "listing", place, rows })),
    ...paragraph(words === "" ? "" : `Where a row leaves an entry out: ${words}.`),
  ];
}
