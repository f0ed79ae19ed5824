import { lengthText } from "../internals/words.ts";
import type { RegisterFact } from "../slipFacts.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** A new zero is this many times nearer to another register's old value than to its own (common practice, no source). */
const nearer = 0.1;

/** Rule 10. A register is called that was not written, or was written what belongs into another: by all axes of a row together, of which there are two at least. */
export const wrongRegister: SlipRule = {
  name: "wrong register",
  formula:
    "|written - old of another register| / |written - old of its own|, by all axes that were written at once, two or more; or called and not written",
  threshold: "0.1; or any",
  falseAlarmRate: 0.03,
  look: ({ registers, unit }) =>
    judgeEach(rowsOf(registers), "which registers the programme calls and which were written", (row) => {
      const [{ at, register, called, written: first }] = row;
      if (first === undefined)
        return called
          ? {
              at,
              evidence: `the programme calls ${register}, and nothing was written into it`,
              beyond: Number.POSITIVE_INFINITY,
              suggests: "the zero may stand in another register",
              deciding: `read ${register} back from the machine`,
            }
          : undefined;
      // Along one axis two zeros are often about the same, such as the heights of two vices: that tells no register from another.
      if (row.length < 2) return undefined;
      const own = distance(row, ({ written }) => written?.before);
      const distances = row[0].others.flatMap(({ register: other }) => {
        const away = distance(row, ({ others }) => others.find((each) => each.register === other)?.before);
        return away === undefined ? [] : [{ other, away }];
      });
      const nearest = distances.sort((a, b) => a.away - b.away)[0];
      if (nearest === undefined || own === undefined || own === 0) return undefined;
      const ratio = nearest.away / own;
      if (!(ratio < nearer)) return undefined;
      const { written = first, others } = row.reduce((most, each) => (moved(each) > moved(most) ? each : most));
      const held = others.find((each) => each.register === nearest.other)?.before ?? 0;
      return {
        at,
        evidence: `${lengthText(written.value, unit)} was written into ${register}, which held ${lengthText(written.before, unit)}; ${nearest.other} held ${lengthText(held, unit)}`,
        beyond: nearer / Math.max(ratio, nearer / 1000),
        suggests: `it may belong into ${nearest.other}`,
        deciding: "look up for which register the touches were taken",
      };
    }),
};

type Row = readonly [RegisterFact, ...RegisterFact[]];

/** The axes of one row of the log together. */
function rowsOf(registers: readonly RegisterFact[] = []): Row[] {
  const rows = new Map<string, [RegisterFact, ...RegisterFact[]]>();
  for (const fact of registers) {
    const key = JSON.stringify([fact.at, fact.register]);
    const row = rows.get(key);
    if (row === undefined) rows.set(key, [fact]);
    else row.push(fact);
  }
  return [...rows.values()];
}

/** How far what was written lies from what stood somewhere; undefined where that is not known along every axis. */
function distance(row: Row, old: (fact: RegisterFact) => number | undefined): number | undefined {
  const along = row.map((fact) => {
    const before = old(fact);
    return before === undefined || fact.written === undefined ? undefined : fact.written.value - before;
  });
  return along.every((each) => each !== undefined) ? Math.hypot(...along) : undefined;
}

function moved({ written }: RegisterFact): number {
  return written === undefined ? 0 : Math.abs(written.value - written.before);
}
