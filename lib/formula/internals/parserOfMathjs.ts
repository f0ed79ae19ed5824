import * as mathjs from "mathjs/number";

/** A node of the tree that the parser of mathjs makes, with what is used of it. */
export interface TreeNode {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: string | undefined;
  readonly op?: string;
  readonly implicit?: boolean;
  readonly content?: TreeNode;
  readonly args?: readonly TreeNode[];
}

/**
 * The parser of mathjs alone. Its own nodes can evaluate, differentiate and typeset themselves, and bring four fifths of a library along; the parser
 * is content with nodes that only hold what they were made of.
 */
export function createParser(): (text: string) => TreeNode {
  return createParse({
    typed: Object.assign((_: string, { string }: Signatures) => string, { addConversion: () => {} }),
    numeric: Number,
    config: { number: "number", numberFallback: "number" },
    ConstantNode,
    SymbolNode,
    ParenthesisNode,
    OperatorNode,
    FunctionNode,
    ...Object.fromEntries(refused.map((name) => [name, RefusedNode])),
  });
}

interface Signatures {
  readonly string: (text: string) => TreeNode;
}

// It is exported, but the types of mathjs say nothing of it. Read as a property: a bundler then leaves the rest of the library out.
const createParse = (mathjs as unknown as { readonly createParse: (needs: Readonly<Record<string, unknown>>) => Signatures["string"] })
  .createParse;

/** How the parser tells nodes from anything else. */
abstract class PlainNode implements TreeNode {
  abstract readonly type: string;

  get isNode(): true {
    return true;
  }
}

class ConstantNode extends PlainNode {
  readonly type = "ConstantNode";
  readonly isConstantNode = true;
  readonly value: unknown;

  constructor(value: unknown) {
    super();
    this.value = value;
  }
}

class SymbolNode extends PlainNode {
  readonly type = "SymbolNode";
  readonly isSymbolNode = true;
  readonly name: string;

  constructor(name: string) {
    super();
    this.name = name;
  }
}

class ParenthesisNode extends PlainNode {
  readonly type = "ParenthesisNode";
  readonly isParenthesisNode = true;
  readonly content: TreeNode;

  constructor(content: TreeNode) {
    super();
    this.content = content;
  }
}

class OperatorNode extends PlainNode {
  readonly type = "OperatorNode";
  readonly isOperatorNode = true;
  readonly op: string;
  readonly fn: string;
  readonly args: readonly TreeNode[];
  readonly implicit: boolean;
  /** A share of what it is added to, for the parser. */
  readonly isPercentage: boolean;

  constructor(op: string, fn: string, args: readonly TreeNode[], implicit = false, isPercentage = false) {
    super();
    this.op = op;
    this.fn = fn;
    this.args = args;
    this.implicit = implicit;
    this.isPercentage = isPercentage;
  }
}

class FunctionNode extends PlainNode {
  readonly type = "FunctionNode";
  readonly isFunctionNode = true;
  readonly fn: TreeNode;
  readonly args: readonly TreeNode[];

  constructor(fn: TreeNode, args: readonly TreeNode[]) {
    super();
    this.fn = fn;
    this.args = args;
  }

  get name(): string | undefined {
    return this.fn.name;
  }
}

/** Everything that formulas here cannot have. */
class RefusedNode extends PlainNode {
  readonly type = "RefusedNode";
}

const refused = [
  "AccessorNode",
  "ArrayNode",
  "AssignmentNode",
  "BlockNode",
  "ConditionalNode",
  "FunctionAssignmentNode",
  "IndexNode",
  "ObjectNode",
  "RangeNode",
  "RelationalNode",
] as const;
