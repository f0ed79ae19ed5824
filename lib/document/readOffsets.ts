import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { OffsetKind, OffsetRow } from "../equipment/offsetLog.ts";
import { readRegister, registerWords } from "../offsets/offsetRegister.ts";
import { certain, type Uncertain } from "../uncertainty/uncertain.ts";
import type { Reading } from "./reading.ts";
import { RowReader } from "./rowReader.ts";
import type { OffsetEntry, SetupDocument } from "./setupDocument.ts";

/** The log of the offsets. A row that cannot be read stays in it and says so: without it, the sums would be those of another machine. */
export function readOffsets({ offsets }: SetupDocument, reading: Reading, problems: Problem[]): OffsetRow[] {
  const before = new Set<string>();
  return offsets.map((entry) => {
    const row = new RowReader(`offsets.${entry.id}`, reading);
    if (before.has(entry.id))
      row.refuse("id", {
        what: "this name is used twice",
        expected: "a name of its own for every row",
        got: entry.id,
        remedy: "rename one of them",
      });
    const read = readRow(entry, row, before);
    before.add(entry.id);
    problems.push(...row.problems);
    return { ...read, unread: row.failed };
  });
}

/** @param before the names of the rows before this one */
function readRow(entry: OffsetEntry, row: RowReader, before: ReadonlySet<string>): OffsetRow {
  const { id, kind, why, when, who } = entry;
  const lengths = axes.map((axis) => {
    const key = axis.toLowerCase() as "x" | "y" | "z";
    const source = sourceOfEntry(id, axis);
    const read = row.doubtfulLength(key, entry[key], source, { entry: key, text: "" });
    if (read === undefined) return undefined;
    row.give(source.id, read.doubtful);
    return read.doubtful ?? certain(read.value);
  }) as [Uncertain | undefined, Uncertain | undefined, Uncertain | undefined];
  const turnSource = sourceOfEntry(id, "turn");
  const turn = row.doubtfulAngle("turn", entry.turn, turnSource);
  row.give(turnSource.id, turn);
  const stated = (["x", "y", "z", "turn"] as const).filter((key) => entry[key].trim() !== "");
  if (kind === "restore")
    for (const key of stated)
      row.refuse(key, {
        what: "a row that restores an earlier state states nothing else",
        expected: "nothing",
        got: entry[key],
        remedy: "leave it empty, and log what else changes in a row of its own",
      });
  else if (stated.length === 0)
    row.refuse("x", { what: `a ${kind} along no axis says nothing`, expected: "a length, such as -412.607 mm ± 0.002 mm", got: "" });
  if (kind !== "local shift" && entry.nest.trim() !== "")
    row.refuse("nest", { what: `a ${kind} is for no nest`, expected: "nothing", got: entry.nest, remedy: "leave it empty" });
  if (kind !== "measured zero" && entry.rests !== undefined)
    row.refuse("rests", { what: `a ${kind} rests on no touches`, expected: "nothing", got: entry.rests, remedy: "leave it empty" });
  if (kind === "correction" && why.trim() === "")
    row.refuse("why", { what: "a correction needs its reason", expected: "what it corrects, in a few words", got: "" });
  return {
    id,
    kind,
    register: readRegisterOf(entry, row),
    values: [...lengths, turn],
    nest: entry.nest.trim(),
    restores: readRestored(entry, row, before),
    rests: entry.rests,
    why,
    when,
    who,
    unread: false,
  };
}

/** A doubt that a row states. A zero that was measured has doubts of every family in it; what is typed as one number tells none apart. */
function sourceOfEntry(id: string, coordinate: string) {
  return {
    id: `offset ${id}, ${coordinate}`,
    label: `${coordinate} of the offset row ${id}`,
    family: "machine",
    evidence: { kind: "stated" },
  } as const;
}

const withoutRegister: ReadonlySet<OffsetKind> = new Set(["global shift", "restore"]);

function readRegisterOf({ kind, register }: OffsetEntry, row: RowReader): string | undefined {
  const text = register.trim();
  if (kind === "global shift") {
    if (text !== "")
      row.refuse("register", {
        what: "a global shift moves every register",
        expected: "nothing",
        got: register,
        remedy: "leave the register empty, or make it a local shift",
      });
    return undefined;
  }
  const known = readRegister(text)?.name;
  if (known === undefined && !(text === "" && withoutRegister.has(kind)))
    row.refuse("register", {
      what: text === "" ? "the register is missing" : "there is no such register",
      expected: registerWords,
      got: register,
    });
  return known;
}

function readRestored({ kind, restores }: OffsetEntry, row: RowReader, before: ReadonlySet<string>): string {
  const name = restores.trim();
  if (kind !== "restore") {
    if (name !== "")
      row.refuse("restores", { what: `a ${kind} restores nothing`, expected: "nothing", got: restores, remedy: "leave it empty" });
    return "";
  }
  if (!before.has(name))
    row.refuse("restores", {
      what: name === "" ? "the row is missing whose state is to come back" : "there is no such row before this one",
      expected: "the name of an earlier row of the log",
      got: restores,
      ...suggestName(name, [...before]),
    });
  return name;
}
