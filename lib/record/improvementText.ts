import { listText } from "../base/listText.ts";
import { oneLine } from "../base/oneLine.ts";
import type { Allowance } from "../decision/allowedDoubt.ts";
import type { HelpfulMoves, JudgedMove } from "../decision/helpfulMoves.ts";
import type { Improvement, StrategySearch } from "../decision/improvement.ts";
import { formatFixed } from "../uncertainty/roundForReport.ts";
import { chanceCell, chanceText, sampledChanceText } from "./internals/chanceText.ts";
import { supposedText } from "./internals/supposedText.ts";
import { textTable } from "./internals/textTable.ts";
import { bullet, wrapText } from "./internals/wrapText.ts";

/** What would make a setup better, as a sheet of plain text. */
export function improvementText(improvement: Improvement): string {
  const { strategy, view, wanted, supposed, moves, allowances, search } = improvement;
  const whole = view === "thisPart" ? "this part" : "the batch";
  const lines = [
    ...(supposed.length > 0 ? wrapText(supposedText(supposed)) : []),
    ...wrapText(`What would help "${oneLine(strategy)}" for ${whole}`),
    ...moveSentences(moves).flatMap((sentence) => wrapText(sentence, bullet)),
    "",
    ...wrapText(`How large each doubt may be, one at a time, so that all that follows it keeps a chance of ${chanceText(wanted)}`),
    ...nearTable(allowances.filter(isNear)),
    ...allowanceSentences(allowances).flatMap((sentence) => wrapText(sentence, bullet)),
    "",
    ...wrapText("The same part zero from the touches of this setup: the best strategies for their number of touches"),
    ...searchLines(search),
  ];
  return `${lines.join("\n")}\n`;
}

function nearTable(near: readonly Allowance[]): string[] {
  if (near.length === 0) return [];
  return textTable(
    allowanceColumns,
    near.map((allowance) => [oneLine(allowance.doubt.label), ...allowanceCells(allowance)]),
  );
}

const allowanceColumns = [
  { title: "source", align: "left" },
  { title: "may be", align: "right" },
  { title: "bound by", align: "left" },
] as const;

/** Doubts that may grow further than this are told together, as are those that do not help at all. */
const farAway = 10;

export function isNear({ factor }: Allowance): boolean {
  return factor > 0 && factor <= farAway;
}

/** How large a doubt may be, and what sets the bound. */
export function allowanceCells({ factor, boundBy }: Allowance): [mayBe: string, boundBy: string] {
  const times = factor > 1000 ? "over 1000" : formatFixed(factor, factor < 10 ? 2 : 0);
  return [`${times} × as now`, boundBy === undefined ? "nothing" : oneLine(boundBy)];
}

/** What is said of the doubts that have much room, and of those that no size would do for. */
export function allowanceSentences(allowances: readonly Allowance[]): string[] {
  const far = allowances.filter(({ factor }) => factor > farAway).length;
  const useless = allowances.filter(({ factor }) => factor === 0);
  const missed = [...new Set(useless.flatMap(({ boundBy }) => (boundBy === undefined ? [] : [`"${oneLine(boundBy)}"`])))];
  return [
    ...(useless.length > 0
      ? [
          `${useless.length === 1 ? "One source" : `${useless.length} sources`} would not do if ${useless.length === 1 ? "it" : "each of them"} were nothing: ${listText(missed)} would still miss the chance.`,
        ]
      : []),
    ...(far > 0
      ? [`${far === 1 ? "One source" : `${far} sources`} may grow to more than ${farAway} times ${far === 1 ? "its" : "their"} size.`]
      : []),
  ];
}

/** At most so many moves are told: what helps less than the fifth is not worth a sentence. */
const mostMoves = 5;

/** What helps and how much, in sentences; what to look for elsewhere where nothing does. */
export function moveSentences({ now, moves, withoutMeasuring }: HelpfulMoves): string[] {
  const first = `The chance that all characteristics are met is ${sampledChanceText(now)}.`;
  const told = moves.slice(0, mostMoves).map((move) => `${moveInWords(move)}: ${chanceText(move.chanceOfAll.chance)}.`);
  const limit = `If tools, readings and machine left no doubt at all, it would be ${chanceText(withoutMeasuring.chance)}.`;
  if (moves.length === 0) return [first, `No usual move raises it by as much as can be told. ${limit}`];
  return [first, ...told, limit];
}

function moveInWords({ kind, of }: Pick<JudgedMove, "kind" | "of">): string {
  const names = listText(of.map((name) => `"${oneLine(name)}"`));
  switch (kind) {
    case "touch again":
      return `One more reading of ${of.length > 1 ? `each of ${names}` : names}`;
    case "calibrate":
      return `The tool ${names} known twice as well`;
    case "skim":
      return `A clean, square surface of ${names} where it is touched`;
    case "know better":
      return `The doubt "${oneLine(of[0] ?? "")}" half as large`;
  }
}

const searchColumns = [
  { title: "touches", align: "right" },
  { title: "this part", align: "right" },
  { title: "batch", align: "right" },
  { title: "strategy", align: "left" },
] as const;

function searchLines(search: StrategySearch): string[] {
  const rows = search.best.map(({ strategy, thisPart, batch }) => [
    String(strategy.touches.length),
    chanceCell(thisPart.chance),
    chanceCell(batch.chance),
    strategy.id,
  ]);
  return [...(rows.length > 0 ? textTable(searchColumns, rows) : []), ...wrapText(searchSentence(search), bullet)];
}

/** How far the search went. */
export function searchSentence({ candidates, determined, isCutShort, best }: StrategySearch): string {
  const tried = `${candidates} strategies were tried${isCutShort ? " (there would be more)" : ""}, of which ${determined} fix all that is wanted.`;
  return best.length === 0 ? tried : `${tried} More touches are listed only where they gain.`;
}
