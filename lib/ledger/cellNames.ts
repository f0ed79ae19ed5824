import { failure, type Outcome, success } from "../base/outcome.ts";
import { isReservedName } from "../formula/reservedNames.ts";

const wellFormed = /^[\p{L}_][\p{L}\p{M}\d_]*$/u;

/** The name by which formulas know what rows call by free text: `front 1`, `face` -> `front_1_face`. */
export function nameOf(...words: readonly string[]): string {
  const joined = words
    .join("_")
    .normalize("NFKC")
    .replace(/[^\p{L}\p{M}\d_]+/gu, "_");
  return /^[\p{L}_]/u.test(joined) ? joined : `_${joined}`;
}

/** A name that a cell or a column can have, as formulas spell it. */
export function checkName(name: string): Outcome<string> {
  if (!wellFormed.test(name))
    return failure({
      at: "",
      what: "formulas cannot spell this name",
      expected: "letters, digits and _, a letter first",
      got: name,
      ...(name.trim() === "" ? {} : { remedy: `for instance ${nameOf(name.trim())}` }),
    });
  return isReservedName(name)
    ? failure({
        at: "",
        what: "this name means something else in formulas",
        expected: "a name that is no unit, function or constant",
        got: name,
      })
    : success(name);
}
