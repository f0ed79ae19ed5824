import { touchedFeatures } from "../datum/seated.ts";
import type { Setup } from "../datum/setup.ts";
import type { SetupEvaluation } from "../decision/setupEvaluation.ts";
import { type Heat, programmeFactor, referenceTemperature } from "../equipment/heat.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";

/** A safety caution that is usual in the trade. */
export interface Caution {
  readonly id: string;
  readonly text: string;
}

/**
 * The cautions that apply to a setup, to be shown before any offset is: sums of what machine builders' manuals and shop rules
 * say, no substitute for them. There is no setup without cautions, and none is ever called safe to run.
 */
export function cautions({ setup }: Pick<SetupEvaluation, "setup">): Caution[] {
  return rules.flatMap(({ id, text, applies = always }) =>
    applies(setup) ? [{ id, text: typeof text === "string" ? text : text(setup) }] : [],
  );
}

interface Rule {
  readonly id: string;
  readonly text: string | ((setup: Setup) => string);
  /** Always, when left out. */
  readonly applies?: (setup: Setup) => boolean;
}

const rules: readonly Rule[] = [
  {
    id: "first things first",
    text: "The machine builder's manual, the instructions of the contact tool and the local rules come first. These figures are arithmetic on typed readings and nothing more.",
  },
  {
    id: "spindle off",
    applies: (setup) => still(setup).length > 0,
    text: (setup) =>
      `Spindle off with ${listed(still(setup))}: never start it with a probe, an indicator or another contact tool that is not made to turn. Lock the spindle or set its speed to zero; turn a swept indicator by hand.`,
  },
  {
    id: "edge finder speed",
    applies: (setup) => used(setup).some(({ kind }) => kind === "turning edge finder"),
    text: "Turning edge finder: a moderate speed within its maker's limit. Too fast, and the tip flies apart.",
  },
  {
    id: "between tool and work",
    applies: ({ touches }) => touches.some(({ spacer }) => spacer !== undefined),
    text: "Block, paper or feeler between tool and work: spindle stopped, never held near a turning cutter, hands clear of where the axes can pinch.",
  },
  {
    id: "stopped",
    text: "Measure and adjust only when tool and work have stopped. Guards in place, safety glasses on, no gloves or loose sleeves near a turning spindle, chips away with a brush.",
  },
  {
    id: "last millimetre",
    text: "Jog the last millimetre in the smallest step, know how far stylus or tip may be pushed, and try the approach in the open direction first.",
  },
  {
    id: "after writing",
    text: "After an offset is written: check the active register, the units, and that no shift is left on. Then single block, low rapids, feed hold within reach, the first run well above the part, clear of fixture and clamps; take the raise out afterwards and check again.",
  },
  {
    id: "block text",
    text: "A G10 line changes an offset without any motion, and nothing shows at the spindle until the next move: read the register back before anything runs. Dialects differ, and some take the values as increments: send the words for unit and absolute distances in the block before, or type the values by hand.",
  },
  {
    id: "heat",
    applies: ({ machine }) => machine.heat !== undefined,
    text: ({ machine }) => heatInWords(machine.heat as Heat),
  },
  {
    id: "unverified",
    text: "After a crash, a power loss, a new reference run or a moved fixture, treat every zero as unverified.",
  },
  {
    id: "second look",
    text: "Figures from a screen are typed by people: let a second person read them, or touch once more, before a cut that is expensive or dangerous.",
  },
  {
    id: "seat",
    text: "Lifting aids for a heavy or turned-over part, clamps tight before verifying. A part that shifts when tapped is not seated.",
  },
  {
    id: "touched on the fixture",
    applies: (setup) => covered(setup).length > 0,
    text: (setup) =>
      `The part covers ${listed(covered(setup))}, touched on the fixture: touch there before the part is put in or beside it, on clean metal, and again only so. The zero holds while the fixture stands where it stood; clean the locators before every part.`,
  },
  {
    id: "no promise",
    text: 'Nothing here says that a programme may be run. The most it says is that touches are "consistent with each other" within stated doubts.',
  },
];

function heatInWords(heat: Heat): string {
  const factor = programmeFactor(heat);
  const perMetre = `${formatFixed(Math.abs(factor - 1) * 1e6, 0)} micrometres per metre`;
  const what = `At the stated temperatures the part is ${factor < 1 ? "smaller" : "larger"} against the scales by ${perMetre} than at ${referenceTemperature} °C`;
  return heat.takenOut
    ? `${what}. The figures count on that being taken out: multiply the programme's coordinates by ${formatFixed(factor, 6)} about part zero, or let the control do it, and never both.`
    : `${what}. Nothing takes that out: it is among the deviations, and grows with the distance from what was touched.`;
}

function always(): boolean {
  return true;
}

/** Locators that touches name, and on which the part then bears. */
function covered(setup: Setup): Setup["fixture"]["locators"] {
  const touched = touchedFeatures(setup);
  return setup.fixture.locators.filter(({ id, kind }) => touched.has(id) && kind !== "tooling hole");
}

/** Tools with which something was touched. */
function used({ tools, touches }: Setup): Setup["tools"] {
  return tools.filter(({ id }) => touches.some(({ tool }) => tool === id));
}

/** Of those, the ones that must not turn while they touch. */
function still(setup: Setup): Setup["tools"] {
  return used(setup).filter(({ kind }) => kind !== "turning edge finder");
}

function listed(tools: readonly { readonly id: string }[]): string {
  return tools.map(({ id }) => `"${id}"`).join(", ");
}
