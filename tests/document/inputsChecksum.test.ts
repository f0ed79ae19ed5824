import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankEntries } from "../../lib/document/blankEntries.ts";
import { documentText } from "../../lib/document/documentText.ts";
import { inputsChecksum } from "../../lib/document/inputsChecksum.ts";
import type { CellBlock, TableBlock } from "../../lib/document/ledgerBlocks.ts";
import { newDocument } from "../../lib/document/newDocument.ts";
import { parseDocument } from "../../lib/document/parseDocument.ts";
import type { SetupDocument } from "../../lib/document/setupDocument.ts";
import { usualEntries } from "../../lib/document/setupInputs.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { shortChecksum } from "../../lib/record/shortChecksum.ts";
import { exampleDocument, exampleNames } from "../../notebooks/pages/demo.ts";

const cover = exampleDocument("bearingCover");

/** The same value with the keys of every object in an order that the numbers choose. */
function shuffled(value: unknown, choose: (count: number) => number): unknown {
  if (Array.isArray(value)) return value.map((item) => shuffled(item, choose));
  if (typeof value !== "object" || value === null) return value;
  const left = Object.entries(value);
  const entries: [string, unknown][] = [];
  while (left.length > 0) {
    const [[key, held]] = left.splice(choose(left.length), 1) as [[string, unknown]];
    entries.push([key, shuffled(held, choose)]);
  }
  return Object.fromEntries(entries);
}

it("inputsChecksum(document) does not depend on the order of keys", () => {
  fc.assert(
    fc.property(
      fc.infiniteStream(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true })),
      fc.constantFrom(...exampleNames),
      (numbers, name) => {
        const document = exampleDocument(name);
        const choose = (count: number) => Math.floor((numbers.next().value ?? 0) * count);
        expect(inputsChecksum(shuffled(document, choose) as SetupDocument)).toBe(inputsChecksum(document));
      },
    ),
    { numRuns: 30 },
  );
});

/** Every text in a document by its path, but those from which no number follows. */
function textsIn(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value === "string") return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, held]) => textsIn(held, [...path, Array.isArray(value) ? Number(key) : key]));
}

function withText(value: unknown, [key, ...rest]: readonly (string | number)[], change: (text: string) => string): unknown {
  if (key === undefined) return change(value as string);
  const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string | number, unknown>;
  copy[key] = withText(copy[key], rest, change);
  return copy;
}

/** Stated here by hand, as the record tells it: what is written down once the zero stands, or judged by itself. */
const isBesideZero = (path: readonly (string | number)[]) =>
  ["operation", "offsets", "nests", "checks", "checkMoves", "events", "slipChances", "madeParts", "warmUp"].includes(String(path[0])) ||
  path[0] === "ledger" ||
  (["tools", "spacers"].includes(String(path[0])) && ["certificate", "calibrated", "due"].includes(String(path.at(-1)))) ||
  (path[0] === "fixture" && ["seatTouches", "seatScatter", "wantedError"].includes(String(path[1])));

/** Stated here by hand: what the record says does not count. */
const isOpinion = (path: readonly (string | number)[]) =>
  ["format", "title", "note", "revision", "record"].includes(String(path[0])) || ["note", "who", "by", "why"].includes(String(path.at(-1)));

describe.each(exampleNames)("inputsChecksum of %s", (name) => {
  const document = exampleDocument(name);
  const paths = textsIn(document);

  it("changes with every entry of the setup, and with none that no number follows from", () => {
    const before = inputsChecksum(document);
    for (const path of paths) {
      const other = inputsChecksum(withText(document, path, (text) => `${text}1`) as SetupDocument);
      const isProse = path[0] === "ledger" && ["heading", "paragraph"].includes(document.ledger[Number(path[1])]?.kind ?? "");
      expect([path.join("."), other === before]).toEqual([path.join("."), isOpinion(path) || isProse || isBesideZero(path)]);
    }
  });

  it("is the same after saving and opening, and with blanks round an entry", () => {
    const again = parseDocument(documentText(document));
    expect(again.ok && inputsChecksum(again.value)).toBe(inputsChecksum(document));
    const touches = document.touches.map((touch) => ({ ...touch, readings: ` ${touch.readings}\n` }));
    expect(inputsChecksum({ ...document, touches })).toBe(inputsChecksum(document));
  });
});

describe("inputsChecksum(document) counts of the ledger", () => {
  const cell = (id: string, entry: string) => ({ ...(blankEntries.block("cell", id) as CellBlock), entry });
  const table = (entry: string) => ({ ...(blankEntries.block("table", "pins") as TableBlock), rows: [[entry]] });
  const withRadius = (radius: string, ledger: SetupDocument["ledger"]) => ({
    ...cover,
    tools: cover.tools.map((tool, i) => (i === 0 ? { ...tool, radius, radiusUncertainty: "" } : tool)),
    ledger: [...cover.ledger, ...ledger],
  });

  it("no prose, and no cell that no entry of the zero names", () => {
    const prose = { ...cover, ledger: [{ kind: "paragraph" as const, text: "I think so." }, ...cover.ledger] };
    expect(inputsChecksum(prose)).toBe(inputsChecksum(cover));
    expect(inputsChecksum({ ...cover, ledger: [] })).toBe(inputsChecksum(cover));
  });

  it("cells that an entry of the zero names, and those that they rest on", () => {
    const chain = (ring: string, beside: string) =>
      inputsChecksum(withRadius("stylus / 2", [cell("stylus", "ring - 1 mm"), cell("ring", ring), cell("beside", beside)]));
    const before = chain("6.993 mm ± 0.002 mm", "1 mm");
    expect(chain("6.994 mm ± 0.002 mm", "1 mm")).not.toBe(before);
    expect(chain("6.993 mm ± 0.002 mm", "2 mm")).toBe(before);
  });

  it("tables whose columns an entry of the zero names", () => {
    const of = (entry: string) => inputsChecksum(withRadius("mean(pins_value) / 2", [table(entry)]));
    expect(of("5.994")).not.toBe(of("5.993"));
  });

  it("cells that only nests name not: they move no zero", () => {
    const nests = [{ ...blankEntries.nest("b"), x: "120", y: "0", foundX: "pitch", foundY: "0" }];
    const of = (pitch: string) => inputsChecksum({ ...cover, nests, ledger: [...cover.ledger, cell("pitch", pitch)] });
    expect(of("120.01 mm")).toBe(of("120.02 mm"));
  });
});

it("inputsChecksum(document) tells rows in another order apart", () => {
  expect(inputsChecksum({ ...cover, touches: [...cover.touches].reverse() })).not.toBe(inputsChecksum(cover));
});

it("usualEntries() are what a file that leaves them out is read as", () => {
  const usual = new Map(usualEntries().map(({ place, value }) => [place, value]));
  // As the schema of the document states them.
  expect(usual.get("part.elements.made")).toBe("before");
  expect(usual.get("touches.frame")).toBe("machine");
  expect(usual.get("heat.expected")).toBe("left in the work");
  expect(usual.get("ledger.family")).toBe("process");
  expect(usual.get("sampling.trials")).toBe(2048);
  expect([...usual.keys()].filter((place) => /^(record|revisions|title)/.test(place))).toEqual([]);
});

it("shortChecksum(checksum) is its first eight digits in two groups", () => {
  expect(shortChecksum("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")).toBe("ba78 16bf");
});

// The zero is worked out by two documents, one of them without all that is said to carry none of it: no number of one is taken from the other.
it.each(exampleNames)("what inputsChecksum of %s leaves out moves no zero, no doubt, no offset and no predicted reading", (name) => {
  const document = exampleDocument(name);
  const { offsets, nests, checks, checkMoves, events, slipChances, madeParts, warmUp } = newDocument();
  const { locators, clamps, note } = document.fixture;
  const fixture = { ...newDocument().fixture, locators, clamps, note };
  const bare = { ...document, ledger: [], offsets, nests, checks, checkMoves, events, slipChances, madeParts, warmUp, fixture };
  expect(inputsChecksum(bare)).toBe(inputsChecksum(document));
  expect(standingOf(bare)).toEqual(standingOf(document));
});

function standingOf(document: SetupDocument) {
  const { strategies, predictions } = evaluateSetup(document);
  return {
    strategies: strategies.map(({ id, evaluation }) => [
      id,
      evaluation.ok &&
        evaluation.value.zero.map((axis) => (axis.ok ? [axis.value.value, axis.value.standardUncertainty] : axis.problems.length)),
      evaluation.ok && evaluation.value.offset,
    ]),
    predictions: predictions.map(({ id, budget }) => [id, budget.value, budget.standardUncertainty]),
  };
}
