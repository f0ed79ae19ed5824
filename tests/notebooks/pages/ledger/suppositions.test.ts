import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { newDocument } from "../../../../lib/document/newDocument.ts";
import { evaluateSetup } from "../../../../lib/evaluateSetup.ts";
import { asStated, suppositionsInWords } from "../../../../notebooks/pages/ledger/suppositions.ts";
import { cell } from "../../../ledger/blocks.ts";

const supposing = fc.record({
  instead: fc.array(fc.constantFrom("", " ", "3 mm", "wall"), { maxLength: 4 }),
  whatIf: fc.uniqueArray(
    fc.record({
      source: fc.constantFrom("cell c0", "cell c1", "tool probe, radius"),
      shift: fc.constantFrom("", "0", "1", "-2.5", "much"),
      doubt: fc.constantFrom("", "1", "0", "2"),
    }),
    { selector: ({ source }) => source, maxLength: 3 },
  ),
});

const documentOf = ({ instead, whatIf }: typeof supposing extends fc.Arbitrary<infer T> ? T : never) => ({
  ...newDocument(),
  ledger: instead.map((text, i) => cell(`c${i}`, `${i + 1} mm ± 0.1 mm`, { instead: text })),
  whatIf,
});

describe("what is only supposed", () => {
  it("is nothing once it is taken back, and taking back twice is taking back once", () => {
    fc.assert(
      fc.property(supposing, (each) => {
        const stated = asStated(documentOf(each));
        expect(suppositionsInWords(stated)).toEqual([]);
        expect(stated.ledger.map((block) => (block.kind === "cell" ? [block.id, block.entry] : []))).toEqual(
          documentOf(each).ledger.map(({ id, entry }) => [id, entry]),
        );
        expect(asStated(stated)).toBe(stated);
      }),
    );
  });

  it("is told wherever it changes the value of a cell", () => {
    fc.assert(
      fc.property(supposing, (each) => {
        const document = documentOf(each);
        if (suppositionsInWords(document).length > 0) return;
        const values = (of: typeof document) =>
          [...evaluateSetup(of).own.values()].map((outcome) =>
            outcome.ok && outcome.value.kind === "quantity" ? outcome.value.value.value : outcome.ok,
          );
        expect(values(document)).toEqual(values(asStated(document)));
      }),
      { numRuns: 60 },
    );
  });
});
