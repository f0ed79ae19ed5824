import type { Problem } from "../base/outcome.ts";
import { mm } from "../base/quantity.ts";
import { axes } from "../base/vector.ts";
import { diameterOf } from "../datum/partSizes.ts";
import type { Setup } from "../datum/setup.ts";
import type { Limits } from "../part/part.ts";
import type { Touch } from "../readings/touch.ts";
import { calibrationFindings } from "./calibrationFindings.ts";
import { eventsSince } from "./eventsSince.ts";
import { placesOffPart } from "./placesOffPart.ts";
import type { SetupEvaluation } from "./setupEvaluation.ts";
import { suspiciousRepeats } from "./suspiciousRepeats.ts";

/** Repeats of one touch farther apart than this, mm, are no scatter: half a turn of a fine screw and more than any contact tool here scatters (common practice, no source). */
const farApart = 0.1;
/** Larger coordinates, mm, than machines of this kind have: a decimal point was left out. */
const outOfReach = 20_000;

/**
 * Entries that can be worked with and still look like a slip: repeats far apart, one that does not belong to the others, repeats that drift, readings beyond any machine, sizes that the touches find outside of
 * what the drawing allows, places beside the part, a spacer that lies between nothing, a calibration that had run out, a fixture that does not locate as it should, a shift that was left on, a check that disagrees, a zero
 * that an event has made doubtful. Each is worth a second look before a zero is typed.
 */
export function suspicions({
  setup,
  sizes,
  fixture,
  offsets,
  checks,
  location,
}: Pick<SetupEvaluation, "setup" | "sizes" | "fixture" | "offsets" | "checks" | "location">): Problem[] {
  return [
    ...setup.touches.flatMap((touch) => suspiciousReadings(touch, setup.machine.displayStep)),
    ...suspiciousSizes(setup, sizes),
    ...unusedSpacers(setup),
    ...calibrationFindings(setup),
    ...placesOffPart(location),
    ...(fixture?.findings ?? []),
    ...(offsets?.findings ?? []),
    ...disagreeingChecks(checks),
    ...unverified(setup, checks),
  ];
}

function disagreeingChecks(checks: SetupEvaluation["checks"]): Problem[] {
  return checks.flatMap(({ check: { id }, evaluation }): Problem[] => {
    const verdict = evaluation.ok ? evaluation.value.verdict : undefined;
    if (verdict === undefined || verdict.agrees) return [];
    return [
      {
        at: `checks.${id}.readings`,
        what: `the check lies ${formatSpan(Math.abs(verdict.difference.value))} mm off what the display must show, which doubt does not explain`,
        remedy: "see at the checks what may have happened, and touch again before this zero is used",
      },
    ];
  });
}

function unverified(setup: Setup, checks: SetupEvaluation["checks"]): Problem[] {
  return eventsSince({ setup, checks }).flatMap(({ at, name, verifiedSince, voids, standing }): Problem[] =>
    verifiedSince
      ? []
      : [
          {
            at,
            what: `the zero is unverified since "${name}": ${voids}; ${standing}`,
            remedy: "along every axis touch a face that it does not rest on, and type that as a check with its time",
          },
        ],
  );
}

function suspiciousReadings({ id, positions, travelling, resolution = mm(0) }: Touch, displayStep: number): Problem[] {
  const problems: Problem[] = [];
  const at = `touches.${id}.readings`;
  axes.forEach((axis, index) => {
    const values = positions.flatMap((position) => position[index as 0 | 1 | 2] ?? []);
    if (values.length === 0) return;
    const [least, most] = [Math.min(...values), Math.max(...values)];
    // Points of a round wall are places, and no repeats of one.
    if (travelling !== "radial" && most - least > farApart)
      problems.push({
        at,
        what: `these readings of one touch lie ${formatSpan(most - least)} mm apart along ${axis}: that is no scatter`,
        remedy: "look for a slip in one of them",
      });
    else if (travelling !== "radial" && values.length === positions.length)
      problems.push(...suspiciousRepeats(values, Math.max(displayStep, resolution)).map((problem) => ({ at, ...problem })));
    if (Math.max(Math.abs(least), Math.abs(most)) > outOfReach)
      problems.push({
        at,
        what: `a reading of more than ${outOfReach / 1000} m along ${axis} is not likely`,
        remedy: "look for a missing decimal point",
      });
  });
  return problems;
}

function suspiciousSizes({ part }: Setup, sizes: SetupEvaluation["sizes"]): Problem[] {
  return sizes.flatMap(({ id, budget: { value, standardUncertainty } }): Problem[] => {
    const stated = limitsOf(id, part);
    if (stated === undefined) return [];
    const { at, nominal, limits } = stated;
    const off = value - nominal;
    const beyond = Math.max(limits.lower - off, off - limits.upper);
    if (!(beyond > 2 * standardUncertainty)) return [];
    const found = `the touches find "${id}" ${formatSpan(beyond)} mm outside its limits`;
    return [{ at, what: found, remedy: "look for a wrong reading or side before blaming the part" }];
  });
}

/** What the drawing says of a size that touches find: of a dimension, or of the diameter of a round element. */
function limitsOf(
  id: string,
  { dimensions, elements }: Setup["part"],
): { readonly at: string; readonly nominal: number; readonly limits: Limits } | undefined {
  const dimension = dimensions.find((each) => each.id === id);
  if (dimension !== undefined) return { at: `part.dimensions.${id}`, nominal: dimension.nominal, limits: dimension.limits };
  const round = elements.find((element) => diameterOf(element.id) === id);
  if (round === undefined || !("diameterLimits" in round) || round.diameterLimits === undefined) return undefined;
  return { at: `part.elements.${round.id}.diameter`, nominal: round.diameter, limits: round.diameterLimits };
}

function unusedSpacers({ spacers, touches }: Setup): Problem[] {
  return spacers
    .filter(({ id }) => !touches.some(({ spacer }) => spacer === id))
    .map(({ id }) => ({
      at: `spacers.${id}`,
      what: `"${id}" lies between no tool and face`,
      remedy: 'name it under "upon" of the touch that was taken on it, or remove it',
    }));
}

/** A distance for a sentence: three significant digits are enough to find a slip. */
function formatSpan(millimetres: number): string {
  return String(Number(millimetres.toPrecision(3)));
}
