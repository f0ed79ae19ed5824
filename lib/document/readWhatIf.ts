import type { Problem } from "../base/outcome.ts";
import { parseNumber } from "../formula/parseNumber.ts";
import type { Supposition } from "../uncertainty/sourceBook.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** How far a source can be supposed to lie from its estimate, in standard uncertainties, and how many times as doubtful. */
const most = { shift: 100, doubt: 1000 } as const;

/** What is supposed for the moment, by source; entries that change nothing are left out. */
export function readWhatIf({ whatIf }: Pick<SetupDocument, "whatIf">, problems: Problem[] = []): ReadonlyMap<string, Supposition> {
  const suppositions = new Map<string, Supposition>();
  for (const { source, shift, doubt } of whatIf) {
    const at = `whatIf.${source}`;
    const number = (entry: "shift" | "doubt", text: string, usual: number, least: number): number | undefined => {
      if (text.trim() === "") return usual;
      const parsed = parseNumber(text);
      const value = parsed.ok ? parsed.value.value : undefined;
      if (value !== undefined && value >= least && value <= most[entry]) return value;
      problems.push({
        at: `${at}.${entry}`,
        what: "this is a plain number",
        expected: `a number from ${least} to ${most[entry]}`,
        got: text,
      });
      return undefined;
    };
    if (suppositions.has(source)) problems.push({ at, what: "this source is supposed twice", got: source, remedy: "remove one of them" });
    const by = number("shift", shift, 0, -most.shift);
    const times = number("doubt", doubt, 1, 0);
    if (by !== undefined && times !== undefined && (by !== 0 || times !== 1)) suppositions.set(source, { shift: by, doubt: times });
  }
  return suppositions;
}
