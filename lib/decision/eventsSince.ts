import { listText, quotedList } from "../base/listText.ts";
import type { Moment } from "../base/moment.ts";
import { type Axis, axes, axisOf } from "../base/vector.ts";
import type { Setup } from "../datum/setup.ts";
import type { Travel } from "../equipment/equipment.ts";
import type { EventKind, SetupEvent } from "../readings/checks.ts";
import type { JudgedCheck } from "./judgeChecks.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";

/** Something that makes a zero doubtful, and whether checks came after it. */
export interface VoidingEvent {
  readonly at: string;
  readonly name: string;
  /** Whether checks after it have agreed along every axis that it puts in question, and none has disagreed. */
  readonly verifiedSince: boolean;
  readonly voids: string;
  /** What the checks after it have come to, as a clause: `X has been checked, Y and Z have not`. */
  readonly standing: string;
}

/** What each event makes doubtful; undefined for what makes nothing doubtful. */
const voids: Readonly<Record<EventKind, ((event: Pick<SetupEvent, "kind" | "tool">) => string) | undefined>> = {
  "zero set": undefined,
  "reference run": () => "every zero may have moved by what the reference run repeats to",
  "power off": () => "every zero rests on a machine that may have lost its place",
  crash: () => "spindle, tool, part and fixture may all have moved: no zero and no tool length holds",
  "fixture moved": () => "every zero on this fixture may have moved",
  "tool changed": ({ tool }) => `the length of ${named(tool)} is another one, and heights with it`,
  "new stylus": ({ tool }) => `the radius of ${named(tool)} is to be calibrated again before it touches anything`,
  "hours passed": () => "the machine may have grown warmer or colder since",
};

/** Every kind of event that makes a zero doubtful, with what it makes doubtful. */
export function voidingEvents(): { readonly kind: EventKind; readonly voids: string }[] {
  return (Object.keys(voids) as EventKind[]).flatMap((kind) => {
    const told = voids[kind];
    return told === undefined ? [] : [{ kind, voids: told({ kind, tool: "" }) }];
  });
}

function named(tool: string): string {
  return tool === "" ? "the tool" : `"${tool}"`;
}

/**
 * Events after the zero was last set, each with what the checks after it have come to. A check tells of its own axis alone, two along one axis at places apart tell of
 * the turn, and none of anything while it has no time; one that disagrees leaves the event open, whatever other checks say. What only concerns one tool is verified by checks with that tool alone.
 */
export function eventsSince({ setup, checks }: Pick<SetupEvaluation, "setup" | "checks">): VoidingEvent[] {
  const set = setup.events.filter(({ kind }) => kind === "zero set").at(-1)?.when.order ?? Number.NEGATIVE_INFINITY;
  return setup.events.flatMap((event): VoidingEvent[] => {
    const told = voids[event.kind];
    if (told === undefined || event.when.latest < set) return [];
    const after = checks.filter(({ check }) => cameAfter(check.when, event.when) && concerns(event, check.tool));
    const { verifiedSince, standing } = stateAfter(inQuestion(event, setup), after, turnBase(touchesOf(setup).map(placeOfTouch)) / 2);
    return [{ at: `events.${event.id}`, name: `${event.kind}, ${event.when.text}`, verifiedSince, voids: told(event), standing }];
  });
}

/** Whether it was certainly later: of a day without a time nobody knows which came first on that day. */
function cameAfter(check: Moment | undefined, event: Moment): boolean {
  return check !== undefined && check.order >= event.latest;
}

function ofOneTool({ kind }: SetupEvent): boolean {
  return kind === "tool changed" || kind === "new stylus";
}

/** A tool that nobody named is verified by no check. */
function concerns(event: SetupEvent, tool: string): boolean {
  return !ofOneTool(event) || event.tool === tool;
}

/** What an event can put in question. */
type Questioned = Axis | typeof theTurn;
const theTurn = "the turn about Z";

/** After these the part may lie turned as well. */
const mayTurn: ReadonlySet<EventKind> = new Set<EventKind>(["crash", "fixture moved"]);

/** Of a changed tool its length, of a new stylus whatever that tool is used for; of everything else each axis of the zero in use, and its turn. */
function inQuestion(event: SetupEvent, setup: Setup): readonly Questioned[] {
  if (event.kind === "tool changed") return ["Z"];
  if (event.kind === "new stylus") {
    const tool = setup.tools.find(({ id }) => id === event.tool);
    return axes.filter((axis) => (axis === "Z" ? tool?.length !== undefined : true));
  }
  const inUse = strategyOf(setup);
  const turn = inUse !== undefined && inUse.rotation !== "ignored" && mayTurn.has(event.kind) ? ([theTurn] as const) : [];
  if (inUse?.fixtureFrame !== undefined) return [...axes, ...turn];
  const touched = new Set(
    touchesOf(setup).flatMap(({ travelling }): Axis[] =>
      travelling === "radial" || travelling === "sweep" ? ["X", "Y"] : [axisOf(travelling)],
    ),
  );
  return [...(touched.size === 0 ? axes : axes.filter((axis) => touched.has(axis))), ...turn];
}

function strategyOf({ strategies, chosen }: Setup): Setup["strategies"][number] | undefined {
  return strategies.find(({ id }) => id === chosen);
}

/** Those of the zero in use; all where no strategy is chosen. */
function touchesOf(setup: Setup): Setup["touches"] {
  const inUse = strategyOf(setup);
  return setup.touches.filter(({ id }) => inUse === undefined || inUse.touches.includes(id));
}

/** Along which axis a flat face was met, and how far along it, mm; undefined where that was not noted. */
interface PlaceOnFace {
  readonly axis: "X" | "Y" | undefined;
  readonly along: number | undefined;
}

function placeOfTouch({ travelling, positions: [first] }: Setup["touches"][number]): PlaceOnFace {
  return placeOnFace(travelling, first ?? []);
}

function placeOnFace(travelling: Travel, place: readonly (number | undefined)[]): PlaceOnFace {
  const axis = travelling[1] === "X" || travelling[1] === "Y" ? travelling[1] : undefined;
  return { axis, along: axis === undefined ? undefined : place[axis === "X" ? 1 : 0] };
}

/** The farthest that two places lie apart that were met along the same axis: what tells a turn, mm. */
function turnBase(places: readonly PlaceOnFace[]): number {
  return Math.max(
    0,
    ...places.flatMap((one, i) =>
      places
        .slice(i + 1)
        .flatMap((other) =>
          one.axis === undefined || one.axis !== other.axis || one.along === undefined || other.along === undefined
            ? []
            : [Math.abs(one.along - other.along)],
        ),
    ),
  );
}

/** @param base how far apart two checks along one axis must be to tell of the turn, mm: half as far as the touches that found it */
function stateAfter(
  asked: readonly Questioned[],
  after: readonly JudgedCheck[],
  base: number,
): Pick<VoidingEvent, "verifiedSince" | "standing"> {
  const judged = after.flatMap(({ check: { id, travelling, aside }, evaluation }) =>
    evaluation.ok && evaluation.value.verdict !== undefined
      ? [{ id, axis: evaluation.value.axis, agrees: evaluation.value.verdict.agrees, place: placeOnFace(travelling, aside) }]
      : [],
  );
  const against = judged.filter(({ agrees }) => !agrees).map(({ id }) => id);
  const agreeing = judged.filter(({ agrees }) => agrees);
  const apart = turnBase(agreeing.map(({ place }) => place));
  const agreed = new Set<Questioned>([...agreeing.map(({ axis }) => axis), ...(apart > 0 && apart >= base ? ([theTurn] as const) : [])]);
  const [done, open] = [asked.filter((axis) => agreed.has(axis)), asked.filter((axis) => !agreed.has(axis))];
  const verb = (of: readonly unknown[]) => (of.length === 1 ? "has" : "have");
  const been = done.length === 0 ? [] : [`${listText(done)} ${verb(done)} been checked`];
  const not = open.length === 0 ? [] : [`${listText(open)} ${verb(open)} not${done.length === 0 ? " been checked" : ""}`];
  const disagree = against.length === 0 ? [] : [`${quotedList(against)} ${against.length === 1 ? "disagrees" : "disagree"}`];
  return { verifiedSince: open.length === 0 && against.length === 0, standing: [...been, ...not, ...disagree].join(", ") };
}
