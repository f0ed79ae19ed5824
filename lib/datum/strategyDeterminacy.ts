import { quotedList } from "../base/listText.ts";
import { failure, type Outcome, type Problem, success } from "../base/outcome.ts";
import { type Axis, axes } from "../base/vector.ts";
import type { Contact } from "../contacts/contact.ts";
import type { Agreement } from "../frame/agreement.ts";
import type { FreeMotion } from "../frame/freeMotion.ts";
import { canTurn, type PartLocation, strategyContacts } from "./locatePart.ts";
import type { StrategySolution } from "./solveStrategy.ts";
import { usualStrategy } from "./usualStrategy.ts";

/** What one touch is to a strategy. */
export interface TouchRole {
  readonly touch: string;
  /** What would be free without it; none where the others hold the part as well. */
  readonly frees: readonly FreeMotion[];
  /** Sizes of the part that could not be told without it. */
  readonly measures: readonly string[];
  /** Other touches in which a mistake of this one would show; none where nothing would notice it. */
  readonly checkedBy: readonly string[];
}

/** How well the touches of a strategy fix the part, before any number of them is looked at. */
export interface StrategyDeterminacy {
  /** Which of the usual strategies it is, in words. */
  readonly words: string;
  readonly motions: readonly { readonly of: Axis | "turn"; readonly state: "found" | "free" | "not looked at" }[];
  /** Motions that none of its touches limits. */
  readonly free: readonly FreeMotion[];
  readonly touches: readonly TouchRole[];
  /** Sizes of the part that its touches tell; `contradicted` where the strategy takes one as known all the same. */
  readonly sizes: readonly { readonly id: string; readonly contradicted: boolean }[];
  /** How many readings are more than just enough, so that a mistake could show. */
  readonly spare: number;
  readonly agreement: Agreement | undefined;
  /** What can be worked with and still deserves a second look, or keeps an axis from being found; with what would help. */
  readonly findings: readonly Problem[];
}

/**
 * What a strategy determines, what stays free, and what each of its touches is there for. All of it follows from the frame's equations
 * (`contactRoles`); a strategy that could not be solved has the solver's reasons.
 */
export function strategyDeterminacy(solved: Outcome<StrategySolution>, location: PartLocation): Outcome<StrategyDeterminacy> {
  if (!solved.ok) return failure(...solved.problems);
  const solution = solved.value;
  const { strategy, frame, determined } = solution;
  const { roles } = frame;
  const sizes = roles
    .measured()
    .flatMap((measured, s) => (measured ? [{ id: sizeName(s, location), contradicted: roles.pulled[s] === true }] : []));
  const motions = [
    ...axes.map((axis, i) => ({ of: axis, state: determined[i as 0 | 1 | 2] ? ("found" as const) : ("free" as const) })),
    {
      of: "turn" as const,
      state: strategy.rotation === "ignored" ? ("not looked at" as const) : determined[3] ? ("found" as const) : ("free" as const),
    },
  ];
  return success({
    words: usualStrategy(strategy, location),
    motions,
    free: frame.freeMotions,
    touches: strategy.touches.map((touch) => roleOf(touch, solution, location)),
    sizes,
    spare: roles.spare,
    agreement: frame.agreement,
    findings: strategy.fixtureFrame ? [] : [...missing(solution, location), ...heldAgainstTouches(solution, sizes)],
  });
}

function roleOf(touch: string, { contacts, frame: { roles } }: StrategySolution, location: PartLocation): TouchRole {
  const own = contacts.flatMap((contact, i) => (contact.touch === touch ? [i] : []));
  const [all, without] = [roles.measured(), roles.measured(own)];
  const checking = contacts.flatMap((contact, i) => (contact.touch !== touch && own.some((k) => roles.check(k, i)) ? [contact.touch] : []));
  return {
    touch,
    frees: roles.freedWithout(own),
    measures: all.flatMap((measured, s) => (measured && !without[s] ? [sizeName(s, location)] : [])),
    checkedBy: [...new Set(checking)],
  };
}

function sizeName(size: number, { sizes }: PartLocation): string {
  return sizes.sizes[size]?.id ?? "";
}

/** Axes and the turn that its touches leave open, with the touches that would help. */
function missing({ strategy, determined, contacts }: StrategySolution, location: PartLocation): Problem[] {
  const at = `strategies.${strategy.id}.touches`;
  const others = strategyContacts(location).filter(({ touch }) => !strategy.touches.includes(touch));
  const along = (axis: 0 | 1 | 2) => (contact: Contact) => Math.abs(contact.travel[axis]) > 0.5;
  const pushed = axes.filter((_, i) => contacts.some(along(i as 0 | 1 | 2)));
  const open = axes.flatMap((axis, i): Problem[] => {
    const index = i as 0 | 1 | 2;
    if (determined[index]) return [];
    const parallel = pushed.length === 1 && contacts.length > 1;
    const nothing = !contacts.some(along(index));
    return [
      {
        at,
        what: nothing
          ? parallel
            ? `all touches push along ${pushed[0]}: their normals are parallel, so nothing fixes ${axis}`
            : `no touch pushes along ${axis}, so nothing fixes it`
          : `${axis} cannot be told from another motion by these touches`,
        got: strategy.touches.join(", "),
        remedy: helpBy(`add a touch that meets the part along ${axis}`, others.filter(along(index))),
      },
    ];
  });
  if (strategy.rotation === "ignored" || determined[3]) return open;
  const upright = strategyContacts(location).filter(
    (contact) => contact.surface.kind === "plane" && contact.travel[2] === 0 && canTurn(contact),
  );
  const twice = upright.filter(({ element, touch }) => upright.some((other) => other.element === element && other.touch !== touch));
  return [
    ...open,
    {
      at,
      what: "these touches do not fix the turn about Z: no upright face is touched at two places, and nothing else tells it",
      got: strategy.touches.join(", "),
      remedy: helpBy(
        "touch one face at two places, or let the strategy ignore the skew",
        twice.filter(({ touch }) => !strategy.touches.includes(touch)),
      ),
    },
  ];
}

function helpBy(remedy: string, contacts: readonly Contact[]): string {
  const names = [...new Set(contacts.map(({ touch }) => touch))];
  return names.length === 0 ? remedy : `${remedy}; of those that there are ${quotedList(names.slice(0, mostNamed))} would`;
}

const mostNamed = 4;

/** A size that lies between touched faces and is taken as known: what it really is off is shared out among the touches. */
function heldAgainstTouches({ strategy, contacts }: StrategySolution, sizes: StrategyDeterminacy["sizes"]): Problem[] {
  return sizes.flatMap(({ id, contradicted }): Problem[] =>
    contradicted
      ? [
          {
            at: `strategies.${strategy.id}.touches`,
            what: `over-determined: the touches tell "${id}", and the strategy takes it ${strategy.sizes === "measured" ? "as measured otherwise" : "as drawn"}; what it is really off is shared out among them`,
            got: strategy.touches.join(", "),
            remedy: holdable(contacts)
              ? "let the strategy hold the middle between the two faces, or leave one of them out"
              : "leave out the touches that tell it, or let a face only turn the part",
          },
        ]
      : [],
  );
}

function holdable(contacts: readonly Contact[]): boolean {
  const planes = contacts.flatMap(({ surface }) => (surface.kind === "plane" ? [surface.outward] : []));
  return planes.some((one) =>
    planes.some((other) => one.every((value, i) => value === -(other[i] as number) || (value === 0 && other[i] === 0))),
  );
}
