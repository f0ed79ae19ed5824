import type { Problem } from "../base/outcome.ts";
import { nothingEarlier, type Operation } from "../datum/earlierWork.ts";
import { operationSetup } from "../datum/operationSetup.ts";
import type { Setup } from "../datum/setup.ts";
import { locateSetup } from "../fixture/locateSetup.ts";
import { axisSigns } from "../part/partLies.ts";
import { turnedWork, workLeftBehind } from "../tolerance/workLeftBehind.ts";
import { SourceBook } from "../uncertainty/sourceBook.ts";
import type { OperationPlan } from "./operationDocument.ts";
import type { SetupDocument } from "./setupDocument.ts";

/** One of several operations, read, with what those before it have left on the part. */
export interface ReadOperation {
  readonly setup: Setup;
  readonly problems: readonly Problem[];
}

/**
 * Reads operations one after the other, up to one of them. Each is a setup by itself; what those before it have cut comes with the part, made of their
 * sources, and one book holds the sources of all of them, so that what they share (tools, machine, sizes of the part) cancels or adds by itself.
 *
 * @param readOne reads the document of one operation
 */
export function readOperations(
  { operations, problems, unusable, documentOf }: OperationPlan,
  last: number,
  readOne: (document: SetupDocument) => ReadOperation,
): ReadOperation[] {
  const found: ReadOperation[] = [];
  let earlier = nothingEarlier;
  let book: SourceBook | undefined;
  const unknown: string[] = [];
  const before: Problem[] = [...problems];
  for (const [i, { id, lies, chosen }] of operations.entries()) {
    if (i > last) break;
    const document = documentOf(i);
    const read = readOne(document);
    const signs = axisSigns(lies);
    book ??= new SourceBook(read.setup.sources);
    book.take(read.setup.sources.given);
    const operation: Operation = { id, signs, earlier: turnedWork(earlier, signs), book };
    const stated = operationSetup(read.setup, operation, unknown);
    const cannotRelate = document.correlations.length > 0;
    const unread = [...stated.unread, ...unusable, ...(cannotRelate ? ["correlations"] : [])];
    const setup: Setup = { ...stated, unread: new Set(unread) };
    found.push({
      setup,
      problems: [
        ...before,
        ...(cannotRelate ? [notRelated] : []),
        ...read.problems.map((problem) => (problem.at === "chosen" ? { ...problem, at: `operations.${id}.chosen`, got: chosen } : problem)),
      ],
    });
    if (i === last) break;
    const left = workLeftBehind(locateSetup(setup), operation);
    earlier = left.work;
    unknown.push(...left.unknown);
    before.push(...left.problems);
  }
  return found;
}

const notRelated: Problem = {
  at: "correlations",
  what: "how doubts go together is not worked out over several operations",
  remedy: "take the correlations out, or give every operation a document of its own",
};
