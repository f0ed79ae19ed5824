import { failure, type Outcome, type Problem } from "../base/outcome.ts";
import { axes } from "../base/vector.ts";
import type { EarlierSize, EarlierWork, Operation } from "../datum/earlierWork.ts";
import type { PartLocation } from "../datum/locatePart.ts";
import { solveStrategy } from "../datum/solveStrategy.ts";
import { solveOnFixture } from "../fixture/solveOnFixture.ts";
import { axesOf, isCutEarlier, placeSizeOf } from "../part/part.ts";
import type { AxisSigns } from "../part/partLies.ts";
import type { Uncertain } from "../uncertainty/uncertain.ts";
import { type CutPlaces, cutPlaces } from "./deviations.ts";

/** What an operation leaves to the ones after it, in the drawing's axes, beside what it has found. */
export interface WorkLeftBehind {
  readonly work: EarlierWork;
  /** Elements that it cuts and of which nobody can tell where they are. */
  readonly unknown: readonly string[];
  readonly problems: readonly Problem[];
}

/**
 * What an operation has cut by the strategy in use there, added to what was there before it. A later operation knows of it what this one's touches
 * tell (this part), or would tell (the batch).
 */
export function workLeftBehind(location: PartLocation, operation: Operation): WorkLeftBehind {
  const { setup } = location;
  const { earlier, signs } = operation;
  const here = setup.part.elements.filter(({ made }) => made === "here");
  const before = turnedWork(earlier, signs);
  const solved = solvedInUse(location);
  const views = solved.ok ? [cutPlaces(solved.value, location, "thisPart"), cutPlaces(solved.value, location, "batch")] : [solved, solved];
  const [thisPart, batch] = views as [Outcome<CutPlaces>, Outcome<CutPlaces>];
  if (!thisPart.ok || !batch.ok) {
    const unknown = here.map(({ id }) => id);
    const problem: Problem = {
      at: `operations.${operation.id}`,
      what: `where operation ${operation.id} cuts is not known, so nothing of it is known to a later one`,
      expected: "a strategy in use that can be worked out",
      got: setup.chosen,
      remedy: `see what is said in operation ${operation.id}`,
    };
    return { work: before, unknown, problems: here.length === 0 ? [] : [problem] };
  }
  const known = new Map(setup.part.elements.map((element) => [element.id, element]));
  const sizes: EarlierSize[] = [];
  const unknown: string[] = [];
  for (const element of here) {
    // Half-way between two faces of this operation: it has no size of its own.
    if (!isCutEarlier({ ...element, cutIn: operation.id }, cutHere(known, operation.id))) continue;
    const own = axes.flatMap((axis, i): (EarlierSize | undefined)[] => {
      if (!axesOf(element, known).includes(axis)) return [];
      const sign = signs[i] as 1 | -1;
      const [here, inBatch] = [thisPart.value.places.get(element.id)?.[i], batch.value.places.get(element.id)?.[i]];
      if (here === undefined || inBatch === undefined) return [undefined];
      return [
        {
          key: placeSizeOf(element.id, axis),
          id: `${element.id}, place along ${axis}`,
          nominal: (element.at[i] ?? 0) * sign,
          axis: i as 0 | 1 | 2,
          thisPart: signed(here, sign),
          batch: signed(inBatch, sign),
        },
      ];
    });
    const found = own.filter((size) => size !== undefined);
    if (found.length < own.length) unknown.push(element.id);
    else sizes.push(...found);
  }
  const turns = here.flatMap((element) => {
    const [own, inBatch] = [thisPart.value.turnOf(element), batch.value.turnOf(element)];
    if (own !== undefined && inBatch !== undefined) return [{ element, thisPart: own, batch: inBatch }];
    if (!unknown.includes(element.id)) unknown.push(element.id);
    return [];
  });
  const turned = turns.filter((turn) => [turn.thisPart, turn.batch].some(isInDoubt));
  // What is upright across X follows the squareness of the machine about Z, all else does not: two turns where that is stated.
  const bySquareness = (setup.machine.squareness[2] ?? 0) > 0;
  const ways = new Map<string, EarlierSize>();
  const keys = new Map<string, string>();
  for (const { element, ...turn } of turned) {
    const isAcrossX = bySquareness && element.kind !== "bore" && element.kind !== "boss" && axesOf(element, known).includes("X");
    const across = isAcrossX ? " across X" : "";
    const key = `\u0000turn of ${operation.id}${across}`;
    keys.set(element.id, key);
    if (ways.has(key)) continue;
    const sign = turnSignOf(signs);
    ways.set(key, {
      key,
      id: `turn of what operation ${operation.id} cuts${across}`,
      nominal: 0,
      axis: undefined,
      thisPart: signed(turn.thisPart, sign),
      batch: signed(turn.batch, sign),
    });
  }
  return {
    work: { sizes: [...before.sizes, ...sizes, ...ways.values()], turns: new Map([...before.turns, ...keys]) },
    unknown,
    problems: unknown.map((id) => ({
      at: `part.elements.${id}`,
      what: `the strategy in use in operation ${operation.id} does not tell where "${id}" is cut, so no later operation knows`,
      got: setup.chosen,
      remedy: "use a strategy there that fixes all the axes along which it has a place",
    })),
  };
}

/** The same work in the axes of an operation in which the part lies turned, or back from there: a half turn is its own opposite. */
export function turnedWork({ sizes, turns }: EarlierWork, signs: AxisSigns): EarlierWork {
  return {
    turns,
    sizes: sizes.map((size) => {
      const sign = size.axis === undefined ? turnSignOf(signs) : signs[size.axis];
      return { ...size, nominal: size.nominal * sign || 0, thisPart: signed(size.thisPart, sign), batch: signed(size.batch, sign) };
    }),
  };
}

/** Turned over, a part turns the other way about Z. */
function turnSignOf([x, y]: AxisSigns): 1 | -1 {
  return (x * y) as 1 | -1;
}

function isInDoubt({ operation, value }: Uncertain): boolean {
  return operation.kind !== "constant" || value !== 0;
}

function cutHere(known: ReadonlyMap<string, PartLocation["setup"]["part"]["elements"][number]>, operation: string) {
  return new Map([...known].map(([id, element]) => [id, element.made === "here" ? { ...element, cutIn: operation } : element]));
}

function solvedInUse(location: PartLocation) {
  const { strategies, chosen } = location.setup;
  const inUse = strategies.find(({ id }) => id === chosen);
  if (inUse === undefined) return failure({ at: "operations", what: "no strategy is in use" });
  return inUse.fixtureFrame ? solveOnFixture(inUse, inUse.fixtureFrame, location) : solveStrategy(inUse, location);
}

function signed(value: Uncertain, sign: 1 | -1): Uncertain {
  return sign === 1 ? value : value.negated();
}
