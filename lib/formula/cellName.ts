import { failure, type Outcome, success } from "../base/outcome.ts";
import { longestName, wordPattern } from "./internals/words.ts";
import { normaliseText } from "./normaliseText.ts";
import { isReservedName } from "./reservedNames.ts";

/**
 * The name of a cell or column as a formula would read it: a letter of any script or `_`, then letters, digits and `_`; at most 80
 * characters; none of the words that mean something else in formulas.
 */
export function parseCellName(typed: string): Outcome<string> {
  const normalised = typed.length <= longestName ? normaliseText(typed.trim()) : undefined;
  const name = normalised?.ok ? normalised.value.text : typed;
  if (name === "") return failure({ at: "", what: "nothing is typed", expected: "a name", got: typed });
  if (name.length > longestName)
    return failure({ at: "", what: `a name of ${name.length} characters`, expected: `at most ${longestName}`, got: typed });
  if (isReservedName(name))
    return failure({
      at: "",
      what: `"${name}" means something else in formulas`,
      got: typed,
      remedy: `choose another name, such as ${name}_1`,
    });
  if (wholeWord.test(name)) return success(name);
  const remedy = `write _ for a blank, and a letter first`;
  return failure({ at: "", what: `"${name}" cannot stand in a formula as a name`, expected: "letters, digits and _", got: typed, remedy });
}

const wholeWord = new RegExp(`^${wordPattern}$`, "u");
