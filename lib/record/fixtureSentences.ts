import { listText, quotedList } from "../base/listText.ts";
import { millimetresPerInch } from "../base/quantity.ts";
import type { FixtureEvaluation, LocatingEvaluation, SeatEvaluation } from "../tolerance/judgeFixture.ts";
import type { LocatorSpacing } from "../tolerance/locatorSpacing.ts";
import type { Budget } from "../uncertainty/budget.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { type Figures, figuresIn, resultFigures } from "./internals/figures.ts";

/** What the fixture does to the part, told by sentences. What is wrong with it is told among the problems, and not here again. */
export function fixtureSentences({ located, seat }: FixtureEvaluation, { unit }: { readonly unit: "mm" | "inch" }): string[] {
  const figures = figuresIn(unit);
  return [...(located.ok ? locatingSentences(located.value, figures) : []), ...(seat?.ok ? seatSentences(seat.value, figures) : [])];
}

function locatingSentences(locating: LocatingEvaluation, figures: Figures): string[] {
  const { layout } = locating.location;
  const { free, condition, bearing } = layout;
  return [
    free.length > 0
      ? `The locators hold ${bearing.length} of the part's six motions. They leave free: ${free.map(({ words }) => words).join("; ")}.`
      : `The locators hold all six motions of the part. Condition ${(condition ?? 1).toPrecision(2)}: a unit of error at the locators moves the part that many times as far in the worst direction as in the best, with turns told ${apart(layout.scale, figures)} from the middle of the locators.`,
    ...turnSentences(locating, figures),
    ...locating.gaps.map(({ contact, repeats, gap }) => {
      const { value, standardUncertainty } = figures.result(gap);
      return gap.value < 0
        ? `Resting on ${quotedList(repeats)}, the part would have to enter "${contact.label}" by ${value.replace(/^[-−]/u, "")} ${figures.unit} (u ${standardUncertainty}): it rests on that one instead of another, or bends.`
        : `Resting on ${quotedList(repeats)}, the part stands off "${contact.label}" by ${value} ${figures.unit} (u ${standardUncertainty}).`;
    }),
    ...(locating.openPlaces.length > 0
      ? [`Not stated, and taken as 0 for what a tilt or turn does there: ${listText(locating.openPlaces)}.`]
      : []),
    ...locating.clamps.flatMap(({ clamp, reactions }) =>
      reactions === undefined
        ? []
        : [
            `Clamp "${clamp.id}", by statics without friction, weight and cutting forces, presses with these shares of its force: ${listText(
              reactions.flatMap(({ contact, share }) => (share === 0 ? [] : [`${contact.label} ${share.toFixed(2)}`])),
            )}.`,
          ],
    ),
    ...pinSentences(locating, figures),
    ...locating.spacings.map((spacing) => spacingSentence(spacing, figures)),
  ];
}

/** The turn that clearances alone leave to either side, over a length that a person can picture. */
function pinSentences({ pins }: LocatingEvaluation, figures: Figures): string[] {
  if (pins === undefined || pins.turn === undefined || !(pins.turn > 0)) return [];
  const [first, second] = pins.play.map((play) => figures.uncertainty(play));
  return [
    `By their clearances "${pins.round}" and "${pins.diamond}", ${apart(pins.distance, figures)} apart, leave the part a turn of up to ±${figures.uncertainty(hundred * pins.turn)} over a length of 100 ${figures.unit}: half of each clearance, ${first} and ${second} ${figures.unit} at most, over their distance. Twice as far apart it is half of that.`,
  ];
}

function spacingSentence({ contacts, width, needed }: LocatorSpacing, figures: Figures): string {
  const names = quotedList(contacts);
  if (!needed.ok) return `For the wanted error no spacing of ${names} alone is enough.`;
  const now = `now ${apart(width, figures)} between the farthest two`;
  const wanted = apart(needed.value, figures, Math.ceil);
  return needed.value <= width
    ? `For the wanted error ${names}, ${now}, could stand as near to each other as ${wanted}, the others as they are.`
    : `For the wanted error ${names}, ${now}, must stand ${wanted} apart, the others as they are.`;
}

/** A distance between locators: nobody sets one to the last figure. */
function apart(length: number, { unit }: Figures, round: (value: number) => number = Math.round): string {
  const [perUnit, decimals] = unit === "in" ? [millimetresPerInch, 2] : [1, 1];
  return `${formatFixed(round((length / perUnit) * 10 ** decimals - rounding) / 10 ** decimals, decimals)} ${unit}`;
}

/** In the last figure: what is a whole number but for rounding stays it. */
const rounding = 1e-6;

/** Over a length of 100, which a person can picture; estimate and standard uncertainty. */
function turnSentences({ turns }: LocatingEvaluation, figures: Figures): string[] {
  const told = turns.flatMap((turn, i) => {
    if (turn === undefined || (turn.value === 0 && turn.standardUncertainty === 0)) return [];
    const { value, standardUncertainty } = resultFigures(turn, hundred, 4);
    return [`about ${["X", "Y", "Z"][i]} ${value} (u ${standardUncertainty})`];
  });
  return told.length === 0 ? [] : [`The part is turned, over a length of 100 ${figures.unit}: ${listText(told)}.`];
}

const hundred = 100;

function seatSentences({ pads, common, twist }: SeatEvaluation, figures: Figures): string[] {
  const higher = (budget: Budget) => {
    const { value, standardUncertainty } = figures.result(budget);
    const [by, way] = budget.value < 0 ? [value.replace(/^[-−]/u, ""), "lower"] : [value, "higher"];
    return { text: `${by} ${figures.unit} ${way}`, doubt: `(u ${standardUncertainty})` };
  };
  return [
    ...(common === undefined
      ? []
      : [
          `On the whole the part stands ${higher(common).text} than the baseline ${higher(common).doubt}: a part of another thickness does so and sits well, and so does one on equal chips everywhere; it is not judged.`,
        ]),
    ...pads.map(({ pad, lift, judged }) => {
      if (judged === undefined)
        return `Above "${pad}" the part stands ${higher(lift).text} than the baseline ${higher(lift).doubt}; without another pad a chip cannot be told from another thickness.`;
      const { beside, noticedAbove, smallestFound } = judged;
      const verdict =
        beside.value > noticedAbove ? "more than the readings scatter: look for a chip or a burr" : "within what the readings scatter";
      return `Above "${pad}" the part stands ${higher(beside).text} than above the other pads ${higher(beside).doubt}, ${verdict}; the thinnest chip that these touches find there alone is ${figures.uncertainty(smallestFound)} ${figures.unit}, at 5 % risk of missing it and 5 % of a false call.`;
    }),
    ...(twist === undefined ? [] : [twistSentence(twist, figures)]),
  ];
}

/** At two standard uncertainties: common practice, no source. */
const twistNoticedAt = 2;

function twistSentence(twist: NonNullable<SeatEvaluation["twist"]>, figures: Figures): string {
  const { value, standardUncertainty } = figures.result(twist);
  const seen = Math.abs(twist.value) > twistNoticedAt * twist.standardUncertainty;
  return `Twist of the four touches ${value} ${figures.unit} (u ${standardUncertainty}): ${seen ? "one of them is bad, or the part is bent" : "they fit a part that tilts as a whole"}.`;
}
