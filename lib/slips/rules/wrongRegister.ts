import { lengthText } from "../internals/words.ts";
import { judgeEach, type SlipRule } from "../slipRule.ts";

/** A new zero is this many times nearer to another register's old value than to its own (common practice, no source). */
const nearer = 0.1;

/** Rule 10. A register is called that was not written, or was written what belongs into another. */
export const wrongRegister: SlipRule = {
  name: "wrong register",
  formula: "|written - old of another register| / |written - old of its own|; or called and not written",
  threshold: "0.1; or any",
  falseAlarmRate: undefined,
  look: ({ registers, unit }) =>
    judgeEach(registers, "which registers the programme calls and which were written", ({ at, register, called, written, others }) => {
      if (written === undefined)
        return called
          ? {
              at,
              evidence: `the programme calls ${register}, and nothing was written into it`,
              beyond: Number.POSITIVE_INFINITY,
              suggests: "the zero may stand in another register",
              deciding: `read ${register} back from the machine`,
            }
          : undefined;
      const own = Math.abs(written.value - written.before);
      const nearest = others.reduce<(typeof others)[number] | undefined>(
        (best, each) => (best === undefined || Math.abs(written.value - each.before) < Math.abs(written.value - best.before) ? each : best),
        undefined,
      );
      if (nearest === undefined || own === 0) return undefined;
      const ratio = Math.abs(written.value - nearest.before) / own;
      if (!(ratio < nearer)) return undefined;
      return {
        at,
        evidence: `${lengthText(written.value, unit)} was written into ${register}, which held ${lengthText(written.before, unit)}; ${nearest.register} held ${lengthText(nearest.before, unit)}`,
        beyond: nearer / Math.max(ratio, nearer / 1000),
        suggests: `it may belong into ${nearest.register}`,
        deciding: `look up for which register the touches were taken`,
      };
    }),
};
