import { suggestName } from "../base/nearestName.ts";
import type { Problem } from "../base/outcome.ts";
import type { CharacteristicEntry, DatumSystemEntry, ElementEntry, OperationEntry, SetupDocument } from "./setupDocument.ts";

/** Which operation each row of a document belongs to, and what is wrong with that. */
export interface OperationPlan {
  readonly operations: readonly OperationEntry[];
  /** The one that is looked at, by its place in the order. */
  readonly inView: number;
  /** The document of one operation: what it finds on the part, cuts, touches and demands, as if it were alone. */
  readonly documentOf: (operation: number) => SetupDocument;
  /** Rows that name no known operation, or touch what is not there yet, as `touches.t1`. */
  readonly unusable: readonly string[];
  readonly problems: readonly Problem[];
}

/** Lists whose rows belong to one operation. */
type OwnedList =
  | "touches"
  | "checks"
  | "checkMoves"
  | "strategies"
  | "fixture.locators"
  | "fixture.clamps"
  | "fixture.seatTouches"
  | "madeParts.corrections";
type Owned = { readonly id: string; readonly operation?: string | undefined };

/**
 * Sorts a document with several operations by them. A row without the name of one belongs to the first. What is cut in an earlier operation is there
 * before this one; what is cut later is not there at all; a characteristic is judged in the operation that cuts the last of its elements.
 */
export function planOperations(document: SetupDocument): OperationPlan {
  const { operations } = document;
  const problems: Problem[] = [];
  const order = new Map(operations.map(({ id }, i) => [id, i]));
  const unusable = new Set<string>();
  const indexAt = (name: string | undefined, at: string): number | undefined => {
    const trimmed = name?.trim() ?? "";
    if (trimmed === "") return 0;
    const index = order.get(trimmed);
    if (index === undefined) problems.push(noSuchOperation(at, trimmed, order.keys()));
    return index;
  };
  for (const id of twice(operations)) problems.push(usedTwice(`operations.${id}.id`, id));
  const inView = indexAt(document.operation, "operation") ?? 0;

  const { elements, dimensions, datumSystems, characteristics } = document.part;
  const { locators, clamps, seatTouches } = document.fixture;
  const { corrections } = document.madeParts;
  // Names are those of sources as well: two touches of one name would share their scatter.
  const named = {
    "part.elements": elements,
    touches: document.touches,
    checks: document.checks,
    checkMoves: document.checkMoves,
    strategies: document.strategies,
    "fixture.locators": locators,
    "fixture.clamps": clamps,
    "fixture.seatTouches": seatTouches,
    "madeParts.corrections": corrections,
  };
  for (const [list, rows] of Object.entries(named))
    for (const id of twice(rows)) {
      unusable.add(`${list}.${id}`);
      problems.push(usedTwice(`${list}.${id}.id`, id));
    }
  /** When an element is cut: -1 where it comes with the part; undefined where that cannot be told. */
  const cutAt = new Map(
    elements.map((element) => {
      const at = `part.elements.${element.id}`;
      if (element.made === "before") {
        if ((element.operation ?? "").trim() !== "") problems.push(cutBefore(`${at}.operation`, element.operation ?? ""));
        return [element.id, -1] as const;
      }
      const index = indexAt(element.operation, `${at}.operation`);
      if (index === undefined) unusable.add(at);
      return [element.id, index] as const;
    }),
  );
  const owners = (list: OwnedList, rows: readonly Owned[]) =>
    new Map(
      rows.map(({ id, operation }) => {
        const index = indexAt(operation, `${list}.${id}.operation`);
        if (index === undefined) unusable.add(`${list}.${id}`);
        return [id, index] as const;
      }),
    );
  const ofTouches = owners("touches", document.touches);
  const ofChecks = owners("checks", document.checks);
  const ofCheckMoves = owners("checkMoves", document.checkMoves);
  const ofStrategies = owners("strategies", document.strategies);
  const ofLocators = owners("fixture.locators", locators);
  const ofClamps = owners("fixture.clamps", clamps);
  const ofSeatTouches = owners("fixture.seatTouches", seatTouches);
  const ofCorrections = owners("madeParts.corrections", corrections);
  const touching = [
    ...document.touches.map((row) => ({ ...row, list: "touches", word: "touch", when: ofTouches.get(row.id) })),
    ...document.checks.map((row) => ({ ...row, list: "checks", word: "check", when: ofChecks.get(row.id) })),
  ];
  for (const { id, element, list, word, when } of touching) {
    const cut = cutAt.get(element);
    if (when === undefined || cut === undefined || cut <= when) continue;
    unusable.add(`${list}.${id}`);
    problems.push({
      at: `${list}.${id}.element`,
      what: `"${element}" is only cut in operation ${operations[cut]?.id ?? ""}, after this ${word}`,
      expected: "something that is there by then",
      got: element,
      remedy: `touch something else, or move the ${word} to a later operation`,
    });
  }
  /** Elements that a datum of a system stands for: one of that name, or those with that letter. */
  const datumsOf = ({ primary, secondary, tertiary }: DatumSystemEntry) =>
    [primary, secondary, tertiary].flatMap((text) => {
      const datum = text.trim();
      if (datum === "") return [];
      const named = elements.some(({ id }) => id === datum);
      return named ? [datum] : elements.flatMap((element) => (element.datum.trim() === datum ? [element.id] : []));
    });
  const systems = new Map(datumSystems.map((system) => [system.id, datumsOf(system)]));
  const lastCut = (ids: readonly string[]) => Math.max(-1, ...ids.map((id) => cutAt.get(id.trim()) ?? -1));
  /** When a characteristic can be judged. */
  const judgedAt = ({ of, also, from, datums }: CharacteristicEntry) =>
    Math.max(0, lastCut([of, ...also, from, ...(systems.get(datums.trim()) ?? [])]));

  const documentOf = (operation: number): SetupDocument => {
    const present = operations[operation] as OperationEntry;
    const isUsable = (list: keyof typeof named, id: string) => !unusable.has(`${list}.${id}`);
    const isThere = (id: string) => isUsable("part.elements", id) && (cutAt.get(id) ?? operations.length) <= operation;
    const isLater = (id: string) => cutAt.has(id) && !isThere(id);
    const own = (list: OwnedList, of: ReadonlyMap<string, number | undefined>) => (row: Owned) =>
      of.get(row.id) === operation && isUsable(list, row.id);
    return {
      ...document,
      title: document.title === "" ? `Operation ${present.id}` : `${document.title}, operation ${present.id}`,
      part: {
        ...document.part,
        elements: elements
          .filter(({ id }) => isThere(id))
          .map((element) => elementIn(element, cutAt.get(element.id) as number, operation, operations)),
        dimensions: dimensions.filter(({ from, to }) => !isLater(from) && !isLater(to)),
        datumSystems: datumSystems.filter(({ id }) => lastCut(systems.get(id) ?? []) <= operation),
        characteristics: characteristics.filter((characteristic) => judgedAt(characteristic) === operation),
      },
      touches: document.touches.filter(own("touches", ofTouches)),
      checks: document.checks.filter(own("checks", ofChecks)),
      checkMoves: document.checkMoves.filter(own("checkMoves", ofCheckMoves)),
      strategies: document.strategies.filter(own("strategies", ofStrategies)),
      chosen: present.chosen,
      machine: present.register === undefined ? document.machine : { ...document.machine, register: present.register },
      fixture: {
        ...document.fixture,
        locators: locators.filter(own("fixture.locators", ofLocators)),
        clamps: clamps.filter(own("fixture.clamps", ofClamps)),
        seatTouches: seatTouches.filter(own("fixture.seatTouches", ofSeatTouches)),
      },
      madeParts: {
        ...document.madeParts,
        // What one operation has cut tells of its zero alone.
        measured: document.madeParts.measured.filter(({ element }) => Math.max(0, lastCut([element])) === operation),
        corrections: corrections.filter(own("madeParts.corrections", ofCorrections)),
      },
      operations: [],
      operation: "",
    };
  };
  return { operations, inView, documentOf, unusable: [...unusable], problems };
}

/** Seen from one operation, `operation` of an element that is there already is the one that has cut it. */
function elementIn(element: ElementEntry, cut: number, present: number, operations: readonly OperationEntry[]): ElementEntry {
  const { operation: _, ...rest } = element;
  if (cut < 0 || cut === present) return rest;
  return { ...rest, made: "before", operation: operations[cut]?.id ?? "" };
}

function noSuchOperation(at: string, got: string, known: Iterable<string>): Problem {
  const names = [...known];
  return {
    at,
    what: "there is no operation by this name",
    expected: names.map((name) => `"${name}"`).join(" or "),
    got,
    ...suggestName(got, names),
  };
}

function twice(rows: readonly { readonly id: string }[]): string[] {
  const ids = rows.map(({ id }) => id);
  return [...new Set(ids.filter((id, i) => ids.indexOf(id) !== i))];
}

function usedTwice(at: string, got: string): Problem {
  return { at, what: "this name is used twice", expected: "a name of its own for every row", got, remedy: "rename one of them" };
}

function cutBefore(at: string, got: string): Problem {
  return {
    at,
    what: "what the part comes with is cut in no operation",
    expected: "nothing, or `made` here",
    got,
    remedy: "leave it empty, or say that the element is cut here",
  };
}

/** The operation that is looked at, its touches, its strategies and the one in use; of a part with one operation, which has no name, those of the document. */
export function lookedAt({ operations, operation, touches, strategies, chosen }: SetupDocument): {
  readonly operation: string;
  readonly touches: SetupDocument["touches"];
  readonly strategies: SetupDocument["strategies"];
  readonly chosen: string;
} {
  const looked = operationNamed(operations, operation) ?? operations[0];
  if (looked === undefined) return { operation: "", touches, strategies, chosen };
  const isOwn = (row: Owned) => operationNamed(operations, row.operation) === looked;
  return {
    operation: looked.id,
    touches: touches.filter(isOwn),
    strategies: strategies.filter(isOwn),
    chosen: looked.chosen,
  };
}

/** The document in which the strategy is the one in use, in its operation, which is then looked at; the document itself where that is so already. */
export function withInUse(document: SetupDocument, strategy: string): SetupDocument {
  const { operations } = document;
  if (operations.length === 0) return document.chosen === strategy ? document : { ...document, chosen: strategy };
  const row = document.strategies.find(({ id }) => id === strategy);
  const looked = lookedAt(document).operation;
  const owner = row === undefined ? operations.find(({ id }) => id === looked) : operationNamed(operations, row.operation);
  if (owner === undefined || (owner.chosen === strategy && owner.id === looked)) return document;
  const changed = operations.map((each) => (each === owner ? { ...each, chosen: strategy } : each));
  return { ...document, operations: owner.chosen === strategy ? operations : changed, operation: owner.id };
}

/** Without a name the first. */
function operationNamed(operations: readonly OperationEntry[], name: string | undefined): OperationEntry | undefined {
  const trimmed = name?.trim() ?? "";
  return trimmed === "" ? operations[0] : operations.find(({ id }) => id === trimmed);
}
