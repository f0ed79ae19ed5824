import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import { type DatumSystem, datumAlong, turnOf } from "../part/datumSystem.ts";
import { axesOf, type Element } from "../part/part.ts";
import type { Reading } from "./reading.ts";
import { type RowReader, readRows } from "./rowReader.ts";
import type { CharacteristicEntry, DatumSystemEntry } from "./setupDocument.ts";

const places = ["primary", "secondary", "tertiary"] as const;

/** The datum systems that can be read, by name. */
export function readDatumSystems(
  entries: readonly DatumSystemEntry[],
  elements: readonly Element[],
  reading: Reading,
  problems: Problem[],
): ReadonlyMap<string, DatumSystem> {
  const systems = readRows(entries, "part.datumSystems", reading, problems, (entry, row) => readSystem(entry, row, elements));
  return new Map(systems.map((system) => [system.id, system]));
}

function readSystem(entry: DatumSystemEntry, row: RowReader, elements: readonly Element[]): DatumSystem | undefined {
  const stated = places.map((place) => entry[place].trim());
  const last = stated.findLastIndex((text) => text !== "");
  if (last < 0)
    row.refuse("primary", { what: "a datum system needs at least its primary datum", expected: "an element or a datum letter", got: "" });
  const datums: Element[] = [];
  const known = new Map(elements.map((element) => [element.id, element]));
  for (const [i, text] of stated.slice(0, last + 1).entries()) {
    const place = places[i] as (typeof places)[number];
    const datum = datumNamed(text, place, row, elements);
    if (datum === undefined) continue;
    if (datums.includes(datum)) row.refuse(place, { what: "a datum counts once in a system", expected: "another datum", got: text });
    else {
      // What those before it hold already leaves it nothing to hold.
      const before: DatumSystem = { id: entry.id, datums: datums.map(({ id }) => id) };
      if (!holdsMore(datum, before, known))
        row.refuse(place, {
          what: `"${datum.id}" fixes nothing that the datums before it leave open`,
          expected: "a datum that looks another way, or a second axis that turns the part",
          got: text,
        });
    }
    if (datum.kind === "angled face")
      row.refuse(place, {
        what: `"${datum.id}" looks along no axis, and a datum system of its own is worked out axis by axis`,
        expected: "a face, a bore, a boss or a middle",
        got: text,
        remedy: "go by the drawing's frame, which touches on it locate like any others",
      });
    datums.push(datum);
  }
  const shifting = shiftingOf(entry, datums, row);
  if (row.failed) return undefined;
  return { id: entry.id, datums: datums.map(({ id }) => id), ...(shifting.length > 0 && { atMaximumMaterial: shifting }) };
}

/** The datums that are referenced at their maximum material: each must have a size, and limits of it. */
function shiftingOf({ atMaximumMaterial: stated = "none" }: DatumSystemEntry, datums: readonly Element[], row: RowReader): string[] {
  const at = "atMaximumMaterial";
  return places.flatMap((place, i) => {
    if (stated !== "all" && !stated.split(" and ").includes(place)) return [];
    const datum = datums[i];
    if (datum === undefined) {
      if (stated !== "all")
        row.refuse(at, { what: `this system has no ${place} datum`, expected: "one of those that it names", got: stated });
      return [];
    }
    if (datum.kind !== "bore" && datum.kind !== "boss")
      row.refuse(at, {
        what: `only a datum with a size can shift, and "${datum.id}" is a ${datum.kind}`,
        expected: "a bore or a boss",
        got: stated,
        remedy: "leave it out here",
      });
    else if (datum.diameterLimits === undefined)
      row.refuse(at, {
        what: `the drawing limits the diameter of "${datum.id}" by nothing, so its maximum material is not known`,
        expected: "a tolerance of its diameter",
        got: stated,
        remedy: "state it with the element",
      });
    return [datum.id];
  });
}

/** The element that a datum letter or a name stands for; told at its place where there is none. */
function datumNamed(text: string, place: (typeof places)[number], row: RowReader, elements: readonly Element[]): Element | undefined {
  if (text === "") {
    row.refuse(place, { what: "a datum before this system's last one is missing", expected: "an element or a datum letter", got: "" });
    return undefined;
  }
  const lettered = elements.filter(({ datum }) => datum === text);
  const named = elements.find(({ id }) => id === text);
  if (named === undefined && lettered.length > 1) {
    row.refuse(place, {
      what: `several elements carry the letter ${text}`,
      expected: "one element",
      got: lettered.map(({ id }) => id).join(", "),
      remedy: "name the element, or the middle between two faces",
    });
    return undefined;
  }
  const found = named ?? lettered[0];
  if (found === undefined)
    row.refuse(place, {
      what: "no element carries this datum",
      expected: "the letter or the name of an element of the part",
      got: text,
      ...suggestName(
        text,
        elements.flatMap(({ id, datum }) => (datum === "" ? [id] : [id, datum])),
      ),
    });
  return found;
}

function holdsMore(datum: Element, before: DatumSystem, known: ReadonlyMap<string, Element>): boolean {
  const after: DatumSystem = { id: before.id, datums: [...before.datums, datum.id] };
  const opens = axesOf(datum, known).some((axis) => datumAlong(before, axis, known) === undefined);
  return opens || (turnOf(before, known) === undefined && turnOf(after, known) !== undefined);
}

/** The system by which a position or a coordinate goes; nothing where none is named, or where it cannot be used. */
export function readDatums(
  { kind, datums, axis }: CharacteristicEntry,
  systems: ReadonlyMap<string, DatumSystem>,
  named: ReadonlySet<string>,
  row: RowReader,
  known: ReadonlyMap<string, Element>,
): { readonly datums?: DatumSystem } {
  const name = datums.trim();
  if (name === "") return {};
  if (kind !== "position" && kind !== "position at maximum material" && kind !== "coordinate") {
    row.refuse("datums", {
      what: `a ${kind} goes by no datum system`,
      expected: "nothing",
      got: datums,
      remedy:
        kind === "position within the pattern"
          ? "it holds wherever the pattern lies; leave it empty"
          : "it goes by the other element; leave it empty",
    });
    return {};
  }
  const system = systems.get(name);
  if (system === undefined) {
    row.refuse("datums", {
      what: named.has(name) ? "this datum system cannot be read" : "there is no datum system by this name",
      expected: "the name of a datum system of the part",
      got: datums,
      ...(named.has(name) ? { remedy: "see what is said there" } : suggestName(name, systems.keys())),
    });
    return {};
  }
  const wanted = kind === "coordinate" ? (axis === undefined ? [] : [axis]) : (["X", "Y"] as const);
  const open = wanted.find((each) => datumAlong(system, each, known) === undefined);
  if (open !== undefined)
    row.refuse("datums", {
      what: `the datums of "${name}" fix no place along ${open}`,
      expected: `a datum system with a datum along ${open}`,
      got: system.datums.join(", "),
    });
  else if (wanted.some((each) => each !== "Z") && turnOf(system, known) === undefined)
    row.refuse("datums", {
      what: `the datums of "${name}" leave the turn about Z open, so that no place is fixed`,
      expected: "an upright face, a mid-plane, or two axes among its datums",
      got: system.datums.join(", "),
    });
  return { datums: system };
}
