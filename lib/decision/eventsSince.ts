import type { EventKind, SetupEvent } from "../readings/checks.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";

/** Something that makes a zero doubtful, and whether a check came after it. */
export interface VoidingEvent {
  readonly at: string;
  readonly name: string;
  readonly verifiedSince: boolean;
  readonly voids: string;
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
 * Events after the zero was last set, each with whether a check that agrees came after it. A check without a time comes after nothing. What only concerns
 * one tool is verified by a check with that tool alone.
 */
export function eventsSince({ setup, checks }: Pick<SetupEvaluation, "setup" | "checks">): VoidingEvent[] {
  const set = setup.events.filter(({ kind }) => kind === "zero set").at(-1)?.when.order ?? Number.NEGATIVE_INFINITY;
  return setup.events.flatMap((event): VoidingEvent[] => {
    const told = voids[event.kind];
    if (told === undefined || event.when.order < set) return [];
    const concerns = event.kind === "tool changed" || event.kind === "new stylus" ? event.tool : "";
    const verifiedSince = checks.some(
      ({ check, evaluation }) =>
        evaluation.ok &&
        evaluation.value.verdict?.agrees === true &&
        (check.when?.order ?? Number.NEGATIVE_INFINITY) >= event.when.order &&
        (concerns === "" || check.tool === concerns),
    );
    return [{ at: `events.${event.id}`, name: `${event.kind}, ${event.when.text}`, verifiedSince, voids: told(event) }];
  });
}
