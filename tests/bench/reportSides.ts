import type { Benchmark } from "./benchmark.ts";
import type { SideResult, Spread } from "./measureSides.ts";

/** A heading and one line for each side: median (minimum to maximum) of its time and of its ratio to the first side; below it, its note. */
export function reportSides({ name, work }: Benchmark, results: readonly SideResult[]): string {
  const width = Math.max(...results.map(({ side }) => side.length));
  const lines = results.map((result, index) => {
    const side = `  ${result.side.padEnd(width)}  `;
    if ("notRun" in result) return `${side}not run: ${result.notRun}`;
    const time = `${spreadText(result.time)} ms`;
    const line = index === 0 ? side + time : `${side}${time.padEnd(30)}  x ${spreadText(result.ratio)}`;
    return result.note === undefined ? line : `${line}\n  ${"".padEnd(width)}    ${result.note}`;
  });
  return [`${name} (${work})`, ...lines].join("\n");
}

function spreadText({ median, minimum, maximum }: Spread): string {
  return `${threeDigits(median)} (${threeDigits(minimum)} to ${threeDigits(maximum)})`;
}

function threeDigits(value: number): string {
  return Number(value.toPrecision(3)).toString();
}
