import type { Problem } from "../../base/outcome.ts";
import type { Axis } from "../../base/vector.ts";

/** A line of a text, and where it begins in it. */
export interface TextLine {
  /** From 1. */
  readonly number: number;
  readonly text: string;
  readonly start: number;
}

/** A value as it was found. */
export interface FoundNumber {
  readonly register: string;
  readonly axis: Axis;
  /** With a decimal point, and as typed. */
  readonly text: string;
  readonly typed: string;
  readonly decimals: number;
  readonly hasPoint: boolean;
  readonly line: TextLine;
  readonly column: number;
}

export interface FoundText {
  readonly form: "blocks" | "lines" | "cells";
  /** Undefined where nothing is said of it. */
  readonly unit: "mm" | "inch" | undefined;
  readonly numbers: readonly FoundNumber[];
  readonly problems: readonly Problem[];
}

/** The lines of a text, whatever ends them; signs that only look like a minus are one. */
export function linesOf(text: string): TextLine[] {
  const lines: TextLine[] = [];
  let start = text.startsWith("\ufeff") ? 1 : 0;
  for (const match of `${text}\n`.matchAll(/[^\r\n]*(?:\r\n|\r|\n)/gu)) {
    if (match.index + match[0].length <= start) continue;
    const begin = Math.max(match.index, start);
    const line = match[0].slice(begin - match.index).replace(/[\r\n]+$/u, "");
    lines.push({ number: lines.length + 1, text: line.replace(/[\u2010-\u2013\u2212]/gu, "-"), start: begin });
    start = match.index + match[0].length;
  }
  return lines;
}

/** A problem at a character of a line, counted from 1 as people do. */
export function problemAt(line: TextLine, column: number, problem: Omit<Problem, "at" | "character">): Problem {
  return { ...problem, at: `line ${line.number}, character ${column + 1}`, character: line.start + column };
}

/** A number of RS274/NGC (NISTIR 6556, 3.3.2.1): digits, and at most one decimal point. */
export const plainNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)/u;

/** Decimals as typed. */
export function decimalsOf(text: string): number {
  return text.split(".")[1]?.length ?? 0;
}
