import { dayWithin, type Moment } from "../base/moment.ts";
import type { Problem } from "../base/outcome.ts";
import type { Setup } from "../datum/setup.ts";
import type { Calibration } from "../equipment/equipment.ts";

/**
 * Calibrations of tools and spacers that cannot be relied on as they are stated: those due before they were made, and those that had run out when the tool or
 * the spacer was used for the last time that has a day. This library has no clock: only days that the document states are compared.
 */
export function calibrationFindings(setup: Setup): Problem[] {
  return [
    ...setup.tools.flatMap(({ id, calibration }) => findingsOf(`tools.${id}`, id, calibration, usesOf(setup, "tool", id))),
    ...setup.spacers.flatMap(({ id, calibration }) => findingsOf(`spacers.${id}`, id, calibration, usesOf(setup, "spacer", id))),
  ];
}

/** Something that was done with a tool or a spacer on a day that is stated. */
interface Use {
  /** As a clause: `the zero was set`. */
  readonly what: string;
  readonly when: Moment;
}

/**
 * What the touches of the zero gave counts for every tool and spacer that took part in them: the day of the record, events at which the zero was set, and
 * zeros of the log that were measured. A check counts for its own. Shifts and corrections of the log touch nothing.
 */
function usesOf({ touches, checks, events, offsets, day }: Setup, kind: "tool" | "spacer", id: string): Use[] {
  const ofChecks = checks.flatMap((check): Use[] =>
    check[kind] === id && check.positions.length > 0 && check.when ? [{ what: `the check "${check.id}" was taken`, when: check.when }] : [],
  );
  if (!touches.some((touch) => touch[kind] === id)) return ofChecks;
  return [
    ...(day === undefined ? [] : [{ what: "the record is dated", when: day }]),
    ...events.flatMap(({ kind: happened, when }): Use[] => (happened === "zero set" ? [{ what: "the zero was set", when }] : [])),
    ...offsets.flatMap(({ id: row, kind: logged, when: text }): Use[] => {
      const when = logged === "measured zero" ? dayWithin(text) : undefined;
      return when === undefined ? [] : [{ what: `the zero "${row}" was logged`, when }];
    }),
    ...ofChecks,
  ];
}

function findingsOf(place: string, id: string, { calibrated, due }: Calibration, uses: readonly Use[]): Problem[] {
  if (due === undefined) return [];
  if (calibrated !== undefined && due.latest < calibrated.order)
    return [
      {
        at: `${place}.due`,
        what: `the calibration of "${id}" is due again on ${due.text}, before it was made on ${calibrated.text}`,
        remedy: "look for a slip in one of both days",
      },
    ];
  const [last] = [...uses].sort((a, b) => b.when.order - a.when.order);
  if (last === undefined || last.when.order <= due.latest) return [];
  return [
    {
      at: `${place}.due`,
      what: `the calibration of "${id}" had run out: it was due again on ${due.text}, and ${last.what} on ${last.when.text}`,
      remedy: "have it calibrated, and see whether what it then shows is still what is stated here",
    },
  ];
}
