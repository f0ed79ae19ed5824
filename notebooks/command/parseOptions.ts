import { type ParseArgsConfig, parseArgs } from "node:util";
import { messageOf } from "../../lib/base/messageOf.ts";
import { failure, type Outcome, success } from "../../lib/base/outcome.ts";

export const seeHelp = "see --help";

/** Options and positional arguments, or what is wrong with them in one sentence. */
export function parseOptions<const O extends NonNullable<ParseArgsConfig["options"]>>(args: readonly string[], options: O) {
  try {
    return success(parseArgs({ args: [...args], allowPositionals: true, options }));
  } catch (error) {
    // Its messages go on with advice for programmers after the first sentence.
    const [what] = messageOf(error).split(/\.\s/, 1);
    const refusal: Outcome<never> = failure({ at: "arguments", what: what as string, remedy: seeHelp });
    return refusal;
  }
}
