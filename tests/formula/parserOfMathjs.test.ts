import fc from "fast-check";
import { create, parseDependencies } from "mathjs/number";
import { describe, expect, it } from "vitest";
import { createParser, type TreeNode } from "../../lib/formula/internals/parserOfMathjs.ts";

// The expected trees are those of the whole library with its own nodes.
const whole = create({ ...parseDependencies }).parse as unknown as (text: string) => TreeNode;
const known = new Set(["ConstantNode", "SymbolNode", "ParenthesisNode", "OperatorNode", "FunctionNode"]);

/** What formulas here read of a node; a node of another kind is only known to be one. */
function plain(node: TreeNode): unknown {
  if (!known.has(node.type)) return "refused";
  const { type, value, op, content, args } = node;
  return {
    type,
    value,
    name: type === "SymbolNode" || type === "FunctionNode" ? node.name || undefined : undefined,
    op,
    implicit: node.implicit === true,
    content: content && plain(content),
    args: args?.map(plain),
  };
}

/** The tree, or where the text ends to be one: a place for what has a wrong character, none for what no node can be made of. */
function outcome(parse: (text: string) => TreeNode, text: string): unknown {
  try {
    return plain(parse(text));
  } catch (error) {
    return error instanceof SyntaxError ? (error as SyntaxError & { readonly char: number }).char : "refused";
  }
}

const leaf = fc.oneof(
  fc.nat(99).map(String),
  fc.nat(99).map((place) => `n${place}`),
);
const { formula } = fc.letrec<{ formula: string }>((tie) => ({
  formula: fc.oneof(
    { depthSize: "small" },
    leaf,
    fc.tuple(tie("formula"), fc.constantFrom("+", "-", "*", "/", "^", " "), tie("formula")).map((parts) => parts.join(" ")),
    fc.tuple(fc.constantFrom("-", "+"), tie("formula")).map((parts) => parts.join(" ")),
    tie("formula").map((inside) => `( ${inside} )`),
    fc.array(tie("formula"), { minLength: 1, maxLength: 3 }).map((inside) => `n7 ( ${inside.join(" , ")} )`),
  ),
}));
const pieces = fc
  .array(fc.oneof(leaf, fc.constantFrom(..."+-*/^(),=:;[]{}!%'\"?.<>&|#".split(""), "mod", "in", "to", "end", "true")), { maxLength: 12 })
  .map((parts) => parts.join(" "));

describe("the parser of mathjs without its nodes", () => {
  it.each([
    ["formulas", formula],
    ["pieces in any order", pieces],
  ])("finds in %s what the whole library finds", (_, texts) => {
    const parse = createParser();
    fc.assert(
      fc.property(texts, (text) => {
        expect(outcome(parse, text)).toEqual(outcome(whole, text));
      }),
      { numRuns: 2000 },
    );
  });

  it.each(["n0 + n1 %", "n0 - 3 % + 2", "n0 + end %"])("takes the share in %s as the whole library does", (text) => {
    expect(outcome(createParser(), text)).toEqual(outcome(whole, text));
  });

  it("tells names of functions and where a text goes wrong", () => {
    const parse = createParser();
    expect(parse("n0 ( 1 , 2 )")).toMatchObject({ type: "FunctionNode", name: "n0", args: [{ value: 1 }, { value: 2 }] });
    expect(outcome(parse, "1 + ) 2")).toBe(5);
  });
});
