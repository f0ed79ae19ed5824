import { failure, type Outcome, type Problem, success } from "../../base/outcome.ts";
import { createParser, type TreeNode } from "./parserOfMathjs.ts";
import type { FormulaText, Token } from "./scanFormula.ts";

/**
 * Which operator binds what, found by mathjs in a disguised text: numbers are
 * their place in the list of pieces, words the letter n and their place.
 */
export function parseTree(tokens: readonly Token[], { typed, text, characterAt }: FormulaText): Outcome<TreeNode> {
  // Made at the first formula: plain numbers, which are nearly all entries, never need it.
  parse ??= createParser();
  const starts: number[] = [];
  let disguised = "";
  for (const [place, token] of tokens.entries()) {
    starts.push(disguised.length);
    disguised += `${token.kind === "sign" ? token.text : token.kind === "number" ? place : `n${place}`} `;
  }
  try {
    return success(parse(disguised));
  } catch (error) {
    if (!(error instanceof SyntaxError)) return failure(notRead(typed));
    // mathjs counts characters from 1, and points at the end where the text ends too early.
    const index = Number((error as SyntaxError & { readonly char?: number }).char) - 1;
    const place = starts.filter((start) => start <= index).length - 1;
    const token = tokens[place];
    const atEnd = !token || index >= disguised.trimEnd().length;
    return failure(
      atEnd
        ? { ...notRead(typed), what: describeEnd(tokens), character: characterAt(text.length) }
        : misplaced(token, tokens[place - 1], typed),
    );
  }
}

/** What is left to say where nothing better is known. */
export function notRead(got: string): Problem {
  return { at: "", what: "the formula cannot be read", got };
}

let parse: ((text: string) => TreeNode) | undefined;

function describeEnd(tokens: readonly Token[]): string {
  const last = tokens.at(-1);
  const open =
    tokens.filter((t) => t.kind === "sign" && t.text === "(").length > tokens.filter((t) => t.kind === "sign" && t.text === ")").length;
  const dangling = last?.kind === "sign" && last.text !== ")";
  return dangling ? `something is missing behind "${last.text}"` : open ? "a closing bracket is missing" : "the formula ends too early";
}

function misplaced(token: Token, before: Token | undefined, got: string): Problem {
  const closes = token.kind === "sign" && token.text === ")";
  const what = !closes
    ? `"${token.text}" is not expected here`
    : before?.kind !== "sign" || before.text === ")"
      ? "a bracket is closed that was not opened"
      : before.text === "("
        ? "there is nothing between the brackets"
        : `something is missing behind "${before.text}"`;
  return { at: "", what, got, character: token.character };
}
